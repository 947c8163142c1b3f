"""Several like birds or sausages: one that was read says nothing of the others."""

from __future__ import annotations

import pytest

from scheduler.facts import Divided, TreatedTold, Treatment
from scheduler.safety import Eating, Serving, serving
from scheduler.safety.each import MOST_ASKED, needed
from tests.unit.scheduler.logbook import CATALOGUE, Logbook, at, cooking, cut, planned

Read = tuple[float, float, str | None]


def _birds(count: int, *reads: Read, name: str = "whole_chicken") -> Logbook:
    """Return so many birds on the fire with readings (°C, minutes, spot)."""
    log = cooking(planned(cut=name, count=count))
    for value_c, minutes, spot in reads:
        log.read(value_c, minutes, spot=spot)
    return log


def _said(log: Logbook, minutes: float) -> Serving:
    own = cut(log.state.planned.cut)
    return serving(log.state, own, CATALOGUE.cuts, at(minutes))


@pytest.mark.parametrize(
    ("count", "reads", "read"),
    [
        (1, ((75.0, 200, None),), 1),
        (3, ((75.0, 200, None),), 1),
        (3, ((75.0, 200, None), (76.0, 200, None)), 2),
        (3, ((75.0, 200, None), (76.0, 200, None), (76.5, 201, None)), 3),
        (2, ((75.0, 200, "breast"), (78.0, 200, "thigh")), 1),
        (2, ((75.0, 200, "breast"), (78.0, 200, "thigh"), (76.0, 201, "breast")), 2),
        (2, ((75.0, 200, None), (76.0, 231, None)), 1),
        (2, ((65.0, 200, None), (75.0, 200.1, None), (76.0, 220, None)), 2),
        (2, ((75.0, 200, None), (76.0, 205, None), (65.0, 216, None), (76.0, 228, None)), 1),
    ],
)
def test_each_of_them_is_read(count: int, reads: tuple[Read, ...], read: int) -> None:
    """So many numbers at 165 F in one look, since the last one under it; breast and thigh may be one bird."""
    said = _said(_birds(count, *reads), 240)
    if read >= count:
        assert said.eating is Eating.SAFE
    else:
        assert (said.eating, said.why, said.read, said.of) == (Eating.UNKNOWN, "few_read", read, count)


def test_of_many_six_are_read() -> None:
    """Twelve sausages: six numbers, by house rule."""
    reads: tuple[Read, ...] = tuple((73.0 + n / 10, 200 + n, None) for n in range(6))
    assert _said(_birds(12, *reads[:5], name="sausages"), 240).why == "few_read"
    assert _said(_birds(12, *reads, name="sausages"), 240).eating is Eating.SAFE
    assert needed(_birds(12, name="sausages").state, cut("sausages")) == MOST_ASKED


def test_whole_cuts_are_read_once_unless_treated_and_parts_count() -> None:
    """Three racks: the thickest stands for them; injected ones are read each. A bird cut in two is two."""
    log = _birds(3, name="beef_chuck_ribs")
    assert needed(log.state, cut()) == 1
    log.tell(TreatedTold(treatments=(Treatment.INJECTED,)), 61)
    assert needed(log.state, cut()) == 3
    bird = _birds(1)
    bird.tell(Divided(parts=2), 61)
    assert needed(bird.state, cut("whole_chicken")) == 2


def test_what_cools_off_the_heat_takes_nothing_back() -> None:
    """Both read, pulled, and 70 C while they rest: still both."""
    log = _birds(2, (75.0, 200, None), (76.0, 200, None))
    log.done("pull", 201)
    log.read(70.0, 215)
    assert _said(log, 220).eating is Eating.SAFE
