"""What each lever brings to usual cooks, run through the engine, against the ranges of the trade.

All ranges are common practice, no source; `scheduler/catalogue/levers` holds them. What lies outside is named here with
its number and why.
"""

from __future__ import annotations

import pytest

from tests.published.levers import CUTS, cook, figures, left_of, lever, now_of, option, pulled_before
from tests.unit.scheduler.logbook import CATALOGUE, minutes_of

COLDER = "a pit of 107 C: the core creeps toward the end, as tests/published/test_trade_table.py says"
FOIL_TOO = "bare meat gets foil and 14 C more at once: two levers of the trade in one"
LATE_LOOK = "the bark of rib plates is looked at near 80 C: most of the water has gone, little is left to save"
THICK = "half the thickness of a rack is bone: an open lid costs its heat less than the trade's mean cooker"

KNOWN: dict[tuple[str, str], tuple[float, str]] = {
    ("brisket_packer", "early_pit_down_14"): (0.37, COLDER),
    ("brisket_packer", "late_oven"): (-0.31, FOIL_TOO),
    ("brisket_packer", "late_fix_pit"): (-0.28, COLDER),
    ("pork_butt", "early_pit_down_14"): (0.38, COLDER),
    ("pork_butt", "late_oven"): (-0.31, FOIL_TOO),
    ("pork_butt", "late_fix_pit"): (-0.30, COLDER),
    ("beef_chuck_ribs", "late_pit_up_14"): (-0.08, LATE_LOOK),
    ("beef_chuck_ribs", "late_wrap_paper"): (-0.06, LATE_LOOK),
    ("beef_chuck_ribs", "late_wrap_foil"): (-0.09, LATE_LOOK),
    ("beef_chuck_ribs", "late_stop_opening"): (-2.55, THICK),
    ("beef_chuck_ribs", "late_oven, wrapped before"): (0.03, "the oven of 135 C is no hotter than their pit"),
    ("spareribs_stl", "early_pit_down_14"): (0.40, COLDER),
    ("spareribs_stl", "late_short_rest"): (-8.75, "their best rest is hardly longer than the shortest"),
    ("spareribs_stl", "late_oven"): (-0.40, FOIL_TOO),
    ("spareribs_stl", "late_fix_pit"): (-0.30, COLDER),
    ("spareribs_stl", "early_unwrap"): (6.55, "they are nearly done when they were an hour in paper"),
}
"""(cut, lever) -> what the engine finds and why it lies outside. Numbers hold to a sixth, or 0.02 of what is left."""

EDGE = 0.03
"""Figures this near the edge of their range, as a share of it, may stand in the list or not."""


@pytest.mark.parametrize("name", CUTS)
def test_levers_bring_what_the_trade_says_or_are_named(name: str) -> None:
    """Each computed effect lies in the trade's range, or stands in the list with its number; nothing else does."""
    found = figures(name)
    assert len(found) >= 14
    for key, value in found.items():
        effect = lever(key.partition(",")[0]).effect
        assert effect is not None
        if (name, key) in KNOWN:
            number, why = KNOWN[name, key]
            assert value == pytest.approx(number, rel=0.17, abs=0.02), (key, why)
        else:
            slack = EDGE * max(abs(effect.low), abs(effect.high))
            assert effect.low - slack <= value <= effect.high + slack, key


def test_every_deviation_is_of_a_cut_and_a_lever_that_are_tried() -> None:
    """A renamed cut or lever leaves no dead entry."""
    for name, key in KNOWN:
        assert key in figures(name), (name, key)


@pytest.mark.parametrize("name", ["brisket_packer", "pork_butt"])
def test_wraps_save_a_big_piece_as_many_minutes_as_the_trade_says(name: str) -> None:
    """Paper 40 to 120 min, foil 60 to 210 min on a big brisket or butt that would stay bare."""
    late = pulled_before(cook(name), -20)
    for key, low, high in (("late_wrap_paper", 40, 120), ("late_wrap_foil", 60, 210)):
        found = option(late, key)
        assert found is not None
        assert low <= -found.effect.shift.total_seconds() / 60 <= high, key


@pytest.mark.parametrize("name", CUTS)
def test_a_choice_brings_what_was_promised(name: str) -> None:
    """Once the facts of a lever are written, the plan tells the pull that its option told, to 3 minutes."""
    late = pulled_before(cook(name), -20)
    tried = 0
    for one in CATALOGUE.remedies.levers:
        found = option(late, one.id)
        if found is None or found.effect.of != "pull" or not found.effect.computed or len(found.bodies) == 1:
            continue
        chosen = pulled_before(cook(name), -20)
        for body in found.bodies:
            chosen.tell(body, now_of(late) + 0.1, recorded=now_of(late) + 0.1)
        told, came = minutes_of(found.effect.after.pull.likely), minutes_of(chosen.situation.outlook.pull.likely)
        assert told is not None
        assert came == pytest.approx(told, abs=3.0), one.id
        tried += 1
    assert tried >= 3


def test_the_remaining_time_is_what_the_shares_are_of() -> None:
    """The figures above are shares of hours, not of minutes: a brisket at its bark look has some left."""
    assert 240 < left_of(cook("brisket_packer")) < 600
