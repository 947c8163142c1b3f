"""May it be eaten: safe only by what was measured, unknown where nobody measured, never safe by an estimate."""

from __future__ import annotations

import pytest

from scheduler.facts import Discarded
from scheduler.safety import Eating, serving
from tests.unit.scheduler.logbook import CATALOGUE, Logbook, at, cooking, cut, resting


def _said(log: Logbook, minutes: float, name: str = "beef_chuck_ribs") -> tuple[Eating, str]:
    found = serving(log.state, cut(name), CATALOGUE.cuts, at(minutes))
    return found.eating, found.why


@pytest.mark.parametrize(
    ("minutes", "said"),
    [
        (301, (Eating.NOT_SAFE, "resting")),
        (302.9, (Eating.NOT_SAFE, "resting")),
        (303, (Eating.SAFE, "measured")),
    ],
)
def test_the_minimum_and_its_rest(minutes: float, said: tuple[Eating, str]) -> None:
    """Read at 62.8 C: safe three minutes later."""
    log = cooking()
    log.read(62.8, 300)
    assert _said(log, minutes) == said


def test_nothing_read_is_unknown_and_too_low_is_not_safe() -> None:
    """However long it cooks; raw, on the fire, off it, served."""
    log = Logbook()
    assert _said(log, 10)[0] is Eating.UNKNOWN
    log = cooking()
    assert _said(log, 5000) == (Eating.UNKNOWN, "unmeasured")
    log.done("pull", 480)
    log.done("serve", 500)
    assert _said(log, 501) == (Eating.UNKNOWN, "unmeasured")
    low = cooking()
    low.read(62.7, 300)
    assert _said(low, 5000) == (Eating.NOT_SAFE, "under_minimum")


@pytest.mark.parametrize(
    ("read_at", "core_c", "said"),
    [
        (None, None, (Eating.UNKNOWN, "not_read_at_opening")),
        (719, 70.0, (Eating.UNKNOWN, "not_read_at_opening")),
        (720, 70.0, (Eating.SAFE, "measured")),
        (749, 60.0, (Eating.SAFE, "measured")),
        (749, 59.9, (Eating.NOT_SAFE, "stop")),
    ],
)
def test_held_meat_needs_a_reading_as_it_is_opened(
    read_at: float | None, core_c: float | None, said: tuple[Eating, str]
) -> None:
    """At 60 C or above in the half hour before; an hour-old reading, or an estimate, tells nothing."""
    log = resting()
    log.done("box_meat", 500)
    if read_at is not None and core_c is not None:
        log.read(core_c, read_at)
    assert _said(log, 750) == said
    log.done("serve", 750)
    assert _said(log, 760) == said


def test_the_lowest_spot_at_opening_counts() -> None:
    """Flat 66, point 59: not safe."""
    log = resting()
    log.read(66.0, 745, spot="flat")
    log.read(59.0, 744, spot="point")
    assert _said(log, 750)[0] is Eating.NOT_SAFE


def test_a_short_rest_needs_no_reading_of_its_own() -> None:
    """Served within vent, shortest rest and slicing; a minute later it was held."""
    log = resting()
    assert _said(log, 545) == (Eating.SAFE, "measured")
    assert _said(log, 546) == (Eating.UNKNOWN, "not_read_at_opening")


def test_out_too_long_put_away_and_thrown_away() -> None:
    """Two hours on the table: not safe. From the fridge: unknown until it was reheated. In the bin: not safe."""
    log = resting()
    log.read(70.0, 745)
    log.done("serve", 750)
    assert _said(log, 869) == (Eating.SAFE, "measured")
    assert _said(log, 870) == (Eating.NOT_SAFE, "stop")
    log.done("leftovers", 800, recorded=871)
    assert _said(log, 900) == (Eating.UNKNOWN, "put_away")
    log.tell(Discarded(), 1000)
    assert _said(log, 1001) == (Eating.NOT_SAFE, "discarded")
