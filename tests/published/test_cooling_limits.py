"""Cooling, holding, reheating and storage as their publishers print them, against what the safety rules let pass.

Limits stand here row by row in their publishers' units with a source; none is taken from the rules under test.
"""

from __future__ import annotations

import itertools
import math

import pytest

from scheduler.facts import CareTold, Edition, EditionTold, Slot
from scheduler.safety import findings
from scheduler.safety.limits import (
    COME_UP_HIGH,
    COME_UP_LOW,
    COME_UP_TIME,
    COOL_COLD,
    COOL_FIRST,
    COOL_FIRST_TIME,
    COOL_FROM,
    COOL_TIME,
    DANGER_HIGH,
    DANGER_LOW,
    FRIDGE_OVER,
    HOT_AIR,
    HOT_HOLD,
    HOT_HOLD_ROAST,
    LEFTOVER_LIFE,
    LEFTOVER_SOON,
    OUT,
    OUT_HOT,
    PIT_COLD,
    RAW_SHORT,
    RAW_WHOLE,
    REHEAT,
    REHEAT_HOLD,
    REHEAT_TIME,
    STUFFED,
    Limit,
)
from scheduler.units import c_from_f
from tests.published.heated import rows
from tests.unit.scheduler.logbook import CATALOGUE, Logbook, at, cut, planned, resting

CONSUMER, CODE = Edition.CONSUMER, Edition.FOOD_CODE
ROWS: tuple[tuple[Limit, Edition | None, float, float | None, str], ...] = (
    (COOL_FROM, CODE, 135, 57.2, "FDA Food Code 3-501.14(A)"),
    (COOL_FIRST, CODE, 70, 21.1, "FDA Food Code 3-501.14(A)(1)"),
    (COOL_FIRST_TIME, CODE, 120, None, "FDA Food Code 3-501.14(A)(1): 2 h"),
    (COOL_COLD, CODE, 41, 5.0, "FDA Food Code 3-501.14(A)(2)"),
    (COOL_TIME, CODE, 360, None, "FDA Food Code 3-501.14(A)(2): 6 h in all"),
    (HOT_HOLD, CODE, 135, 57.2, "FDA Food Code 3-501.16(A)(1)"),
    (HOT_HOLD_ROAST, CODE, 130, 54.4, "FDA Food Code 3-501.16(A)(1), roasts cooked by 3-401.11(B)"),
    (HOT_HOLD, CONSUMER, 140, 60.0, "US Army TM 10-412 (2003) card 32; NY Sanitary Code 14-1.83"),
    (DANGER_LOW, CODE, 41, 5.0, "FDA Food Code 3-501.16(A)(2), cold holding"),
    (DANGER_LOW, CONSUMER, 40, 4.4, "USDA FSIS Smoking Meat and Poultry"),
    (DANGER_HIGH, CONSUMER, 140, 60.0, "USDA FSIS Smoking Meat and Poultry"),
    (OUT, CODE, 240, None, "FDA Food Code 3-501.19(B): 4 h by time alone"),
    (OUT, CONSUMER, 120, None, "USDA FSIS Basics for Handling Food Safely: 2 h"),
    (OUT_HOT, CONSUMER, 60, None, "USDA FSIS Basics for Handling Food Safely: 1 h above 90 F"),
    (HOT_AIR, CONSUMER, 90, 32.2, "USDA FSIS Basics for Handling Food Safely"),
    (REHEAT, CODE, 165, 73.9, "FDA Food Code 3-403.11(A)"),
    (REHEAT, CONSUMER, 165, 73.9, "USDA FSIS Safe Minimum Internal Temperature Chart, leftovers (from memory)"),
    (REHEAT_HOLD, CODE, 0.25, None, "FDA Food Code 3-403.11(A): 15 s"),
    (FRIDGE_OVER, CONSUMER, 120, None, "USDA FSIS, food safety in emergencies: over 40 F for 2 h (from memory)"),
    (FRIDGE_OVER, CODE, 240, None, "FDA Food Code 3-501.19(B): 4 h by time alone"),
    (PIT_COLD, CONSUMER, 225, 107, "USDA FSIS Smoking Meat and Poultry: 225 to 300 F"),
    (STUFFED, CODE, 165, 73.9, "FDA Food Code 3-401.11(A)(3)"),
    (REHEAT_TIME, CODE, 120, None, "FDA Food Code 3-403.11(D): 2 h"),
    (LEFTOVER_SOON, None, 3, None, "USDA FSIS cold storage advice: 3 to 4 days (from memory)"),
    (LEFTOVER_LIFE, None, 4, None, "USDA FSIS cold storage advice: 3 to 4 days (from memory)"),
    (RAW_WHOLE, None, 5, None, "USDA FSIS cold storage advice: roasts 3 to 5 days (from memory)"),
    (RAW_SHORT, None, 2, None, "USDA FSIS cold storage advice: ground, poultry, fish 1 to 2 days (from memory)"),
)
"""Limit, edition (None: of its only publisher), published figure [°F, min or d], and a temperature as it is compared
[°C]."""


@pytest.mark.parametrize(
    ("limit", "edition", "value", "celsius", "source"), ROWS, ids=lambda one: getattr(one, "id", None)
)
def test_every_published_figure_is_the_one_that_counts(
    limit: Limit, edition: Edition | None, value: float, celsius: float | None, source: str
) -> None:
    """Row by row: the figure of that edition, in its own unit, and converted and rounded to a tenth."""
    figure = limit.under(CONSUMER if edition is None else edition)
    assert limit.under(CODE) == figure or edition is not None
    assert (figure.value, figure.edition) == (value, edition), source
    if celsius is not None:
        assert figure.c == celsius, source


COME_UP = (
    (COME_UP_LOW, 50, 10.0),
    (COME_UP_HIGH, 130, 54.4),
    (COME_UP_TIME, 360, None),
)
"""USDA FSIS Appendix A (2021) p. 24: no more than six hours from 50 F to 130 F."""


@pytest.mark.parametrize(("limit", "value", "celsius"), COME_UP, ids=lambda one: getattr(one, "id", None))
def test_come_up_is_of_its_only_publisher(limit: Limit, value: float, celsius: float | None) -> None:
    """Whichever edition was chosen, the figure of Appendix A counts."""
    for edition in Edition:
        figure = limit.under(edition)
        assert figure.value == value
        assert figure.source.startswith("USDA FSIS Appendix A")
        assert celsius is None or figure.c == celsius


# --- raw meat ---------------------------------------------------------------------------------------------------------


def _raw(name: str, fridge_c: float | None = None) -> Logbook:
    """Return a plan for raw meat whose fridge was read at some temperature twice, six hours apart."""
    log = Logbook(planned(cut=name))
    for minutes in (60, 420) if fridge_c is not None else ():
        log.read(fridge_c or 0.0, minutes, slot=Slot.FRIDGE)
    return log


@pytest.mark.parametrize(
    ("edition", "passes_f", "fails_f"),
    [(CONSUMER, 40.0, 41.0), (CODE, 41.0, 42.0), (Edition.STRICTER, 40.0, 41.0)],
)
def test_a_fridge_as_cold_as_each_edition_asks(edition: Edition, passes_f: float, fails_f: float) -> None:
    """40 F of the USDA and 41 F of the Food Code pass at the figure; a degree more is found."""
    for temp_f, found in ((passes_f, False), (fails_f, True)):
        log = _raw("whole_chicken", c_from_f(temp_f))
        log.tell(EditionTold(edition=edition), 1)
        rules = {f.rule for f in findings(log.state, cut("whole_chicken"), CATALOGUE.cuts, at(421))}
        assert ("fridge_warm" in rules) is found, temp_f


@pytest.mark.parametrize("edition", Edition)
@pytest.mark.parametrize(("minutes", "stopped"), [(120, False), (121, True)])
def test_raw_meat_is_out_for_two_hours_at_most(edition: Edition, minutes: float, stopped: bool) -> None:
    """USDA FSIS, Basics for Handling Food Safely: 2 h; the Food Code's 4 h need procedures that nobody has at home."""
    log = Logbook(planned(cut="whole_chicken"))
    log.tell(EditionTold(edition=edition), 1)
    log.done("raw_out", 60)
    log.done("meat_on", 60 + minutes)
    found = {f.rule for f in findings(log.state, cut("whole_chicken"), CATALOGUE.cuts, at(60 + minutes + 1))}
    assert ("raw_left_out" in found) is stopped


def test_by_default_the_stricter_of_two_editions_counts() -> None:
    """Hotter holding, shorter time out, colder fridge."""
    strict = {limit.id: limit.under(Edition.STRICTER).value for limit in (HOT_HOLD, OUT, DANGER_LOW)}
    assert strict == {"hot_hold": 140, "out": 120, "danger_low": 40}


# --- histories of cooling ---------------------------------------------------------------------------------------------

HISTORIES: tuple[tuple[str, tuple[tuple[float, float], ...], frozenset[str], str], ...] = (
    ("FDA Food Code 3-501.14(A)", ((0, 135), (2, 70), (6, 41)), frozenset(), "the rule itself, at its limits"),
    (
        "USDA FSIS Appendix B (1999, 2021) option 1",
        ((0, 130), (1.5, 80), (6.5, 40)),
        frozenset({"cool_slow", "cool_too_long"}),
        "80 F after 1.5 h and 40 F after 6.5 h: half an hour longer, and no 70 F",
    ),
    (
        "USDA FSIS Appendix B (1999) option 2",
        ((0, 120), (6, 55), (12, 40)),
        frozenset({"cool_slow", "cool_too_long"}),
        "120 to 55 F in 6 h, then on to 40 F: slower in both stages, for plants that keep records of it",
    ),
    (
        "USDA FSIS Appendix B, cured",
        ((0, 130), (5, 80), (15, 45)),
        frozenset({"cool_slow", "cool_too_long"}),
        "5 h and 10 h: only for cured meat, which nothing here is taken for",
    ),
    (
        "UK good practice (Gaze et al. 1998)",
        ((0, 158), (1, 122), (7, 53.6), (8, 41)),
        frozenset({"cool_slow", "cool_too_long"}),
        "50 C in 1 h, 12 C in 6 h more, 5 C in 1 h more: 8 h in all",
    ),
    (
        "UK maximum (Gaze et al. 1998)",
        ((0, 158), (2.5, 122), (8.5, 53.6), (10, 41)),
        frozenset({"cool_slow", "cool_too_long"}),
        "2.5 h, 6 h and 1.5 h: 10 h in all",
    ),
)
"""Publisher, the slowest cooling it allows as (hours, °F), what our rules find in it, and what differs."""

AROUND_F = 33.0
"""Air that the food cools towards between two published points [°F]: one degree above ice."""


def _temp_f(points: tuple[tuple[float, float], ...], hours: float) -> float:
    """Return the temperature between published points: Newton's law from one to the next."""
    for (t0, f0), (t1, f1) in itertools.pairwise(points):
        if t0 <= hours <= t1:
            share = (hours - t0) / (t1 - t0)
            return AROUND_F + math.exp((1 - share) * math.log(f0 - AROUND_F) + share * math.log(f1 - AROUND_F))
    return points[-1][1]


def _put_away(edition: Edition = CODE) -> Logbook:
    """Return a public meal whose food was read at 135 F as it went into the fridge at minute 700."""
    log = resting()
    log.tell(CareTold(public=True), 1)
    log.tell(EditionTold(edition=edition), 1)
    log.done("serve", 690)
    log.read(c_from_f(135.0), 700)
    log.done("leftovers", 700)
    return log


def _stops(log: Logbook, minutes: float) -> frozenset[str]:
    found = findings(log.state, cut(), CATALOGUE.cuts, at(minutes))
    return frozenset(f.rule for f in found if f.rule in {"cool_slow", "cool_too_long"} and f.level == "stop")


@pytest.mark.parametrize(("name", "points", "stopped", "differs"), HISTORIES, ids=[row[0] for row in HISTORIES])
def test_the_slowest_cooling_of_each_publisher(
    name: str, points: tuple[tuple[float, float], ...], stopped: frozenset[str], differs: str
) -> None:
    """Read every quarter of an hour: the Food Code's own limit passes, slower ones of plants and other lands do not."""
    log = _put_away()
    for quarter in range(1, 4 * 16):
        hours = quarter / 4
        if hours > points[-1][0]:
            break
        log.read(c_from_f(_temp_f(points, hours)), 700 + 60 * hours, slot=Slot.LEFTOVERS)
    assert _stops(log, 700 + 60 * 17) == stopped, f"{name}: {differs}"


MEASURED = [row for row in rows("cooling_times_cooked_joints.csv") if row["h_70_5"] and row["h_70_50"]]
"""Joints whose whole cooling from 70 to 5 C was timed: James and James, Meat Refrigeration (2002), table 16.7."""


@pytest.mark.parametrize("row", MEASURED, ids=[f"{row['item']}, {row['cooling_regime']}" for row in MEASURED])
def test_measured_joints_against_two_stages(row: dict[str, str]) -> None:
    """Whole joints of four to seven kilos keep six hours only under vacuum: so leftovers are sliced and shallow."""
    log = resting()
    log.tell(CareTold(public=True), 1)
    log.done("serve", 700)
    log.read(70.0, 700)
    log.done("leftovers", 700)
    hours = float(row["h_70_5"])
    log.read(5.4, 700 + 60 * hours - 6, slot=Slot.LEFTOVERS)
    log.read(5.0, 700 + 60 * hours + 6, slot=Slot.LEFTOVERS)
    assert ("cool_too_long" in _stops(log, 700 + 60 * 24)) is (hours > 6.1), row["source"]
    assert (hours <= 6.1) is (row["cooling_regime"] == "vacuum"), "what the table shows of whole joints"
