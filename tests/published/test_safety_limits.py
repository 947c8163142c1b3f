"""Published limits of food safety against what the safety rules let pass. Each figure has its source beside it.

Nothing here is derived from the rules under test: limits stand as their publishers print them, in their own units.
"""

from __future__ import annotations

import datetime as dt

import pytest

from scheduler.facts import (
    AirTold,
    Body,
    Edition,
    EditionTold,
    Fact,
    Planned,
    Reading,
    Serving,
    ServingKind,
    Slot,
    StepDone,
    TreatedTold,
    Treatment,
)  # fmt: skip
from scheduler.planning.catalogue import read_catalogue
from scheduler.safety import FindingLevel, act_by, findings, safe_gate
from scheduler.state import CookState, fold
from tests.catalogue import CUTS, TEXTS

MINIMUM = {
    "intact_beef": (145.0, 3.0, 62.8), "intact_pork": (145.0, 3.0, 62.8), "intact_lamb": (145.0, 3.0, 62.8),
    "poultry": (165.0, 0.0, 73.9), "ground": (160.0, 0.0, 71.1), "fish": (145.0, 0.0, 62.8),
}  # fmt: skip
"""Least internal temperature [°F], the rest that belongs to it [min], and the limit as the chart prints it [°C], of
steaks, chops and roasts, of all poultry, of ground meat and of fish. USDA FSIS, Safe Minimum Internal Temperature
Chart."""

FOOD_CODE_HOLD_MIN = {"fish": 0.25}
"""Time at the same temperature that the FDA Food Code asks for where the chart asks for none [min]: 145 F for 15 s,
3-401.11(A)(1)."""

HOT_HOLDING_F = 140.0
"""Hot food is held at this or above [°F]: US Army TM 10-412 (2003), card 32; New York State Sanitary Code 14-1.83."""

FOOD_CODE_HOLDING_F = 135.0
"""Newer and lower figure of hot holding [°F]: FDA Food Code 3-501.16(A)(1)."""

DANGER_F = (40.0, 140.0)
"""Range in which bacteria multiply quickly [°F]: USDA FSIS, basics for handling food safely."""

OUT_OF_CONTROL = dt.timedelta(hours=2)
"""Perishable food is left out no longer than this, one hour above 90 °F: USDA FSIS, basics for handling food safely."""

SMOKER_F = (225.0, 300.0)
"""Air in a smoker [°F]: USDA FSIS, smoking meat and poultry (250 to 300 read; 225 to 300 in another edition, from
memory)."""

ON_AT = dt.datetime(2026, 9, 12, 6, 0, tzinfo=dt.UTC)
CUT_IDS = [cut.id for cut in CUTS.cuts]


def _c(temp_f: float) -> float:
    """Return Celsius for Fahrenheit, written out here on purpose."""
    return (temp_f - 32.0) * 5.0 / 9.0


def _minutes(minutes: float) -> dt.datetime:
    return ON_AT + dt.timedelta(minutes=minutes)


def _state(cut_id: str, *told: tuple[float, Body]) -> CookState:
    """Return a cook with meat on at 0 and what was told at so many minutes after it."""
    serving = Serving(kind=ServingKind.WHEN_READY, zone="Etc/UTC")
    bodies: list[tuple[float, Body]] = [
        (0.0, Planned(cut=cut_id, serving=serving, pit_low_c=121.0, pit_high_c=121.0)),
        (0.0, StepDone(step="meat_on")),
        *told,
    ]
    return fold(
        tuple(
            Fact(
                id=f"f{n}", cook="c", piece="p1", happened_at=_minutes(minutes), recorded_at=_minutes(minutes),
                by="Ines", body=body,
            )
            for n, (minutes, body) in enumerate(bodies)
        )
    )  # fmt: skip


def _core(value_c: float) -> Reading:
    return Reading(slot=Slot.CORE, value_c=value_c)


def _rules(state: CookState, cut_id: str, minutes: float) -> dict[str, FindingLevel]:
    return {f.rule: f.level for f in findings(state, CUTS.get(cut_id), CUTS, _minutes(minutes))}


@pytest.mark.parametrize("cut_id", CUT_IDS)
def test_the_minimum_of_every_cut_is_the_published_one(cut_id: str) -> None:
    """The class of a cut holds the published Fahrenheit limit, and rounds to the printed Celsius."""
    cut = CUTS.get(cut_id)
    entry = CUTS.safety[cut.safety_class]
    minimum_f, rest_min, printed_c = MINIMUM[cut.safety_class]
    assert (entry.minimum_f, entry.rest_min) == (minimum_f, rest_min)
    assert CUTS.minimum_c(cut) == printed_c
    assert (cut.safety_class == "poultry") == (cut.species == "poultry")
    assert "USDA FSIS" in entry.source


@pytest.mark.parametrize("cut_id", CUT_IDS)
def test_the_minimum_opens_the_gate_and_a_degree_less_does_not(cut_id: str) -> None:
    """The limit measured: open after the rest that belongs to it (145 F: three minutes later). A degree less: never."""
    cut = CUTS.get(cut_id)
    minimum_f, rest_min, _ = MINIMUM[cut.safety_class]
    reached, missed = (_state(cut_id, (300, _core(_c(temp_f)))) for temp_f in (minimum_f, minimum_f - 1.0))
    rest_min = max(rest_min, FOOD_CODE_HOLD_MIN.get(cut.safety_class, 0.0))
    assert safe_gate(reached, cut, CUTS).open_at == _minutes(300 + rest_min)
    assert safe_gate(missed, cut, CUTS).open_at is None


@pytest.mark.parametrize("cut_id", CUT_IDS)
def test_no_time_on_the_fire_stands_in_for_a_measurement(cut_id: str) -> None:
    """A chart of minimum temperatures knows no cooking time: a day on the fire without a reading opens nothing."""
    state = _state(cut_id, (24 * 60, StepDone(step="spritz")))
    assert not safe_gate(state, CUTS.get(cut_id), CUTS).is_open(_minutes(48 * 60))


def test_hot_holding_stops_under_the_published_floor() -> None:
    """At 140 F there is a warning, a degree below it the food must not go on being held."""
    cut_id = "brisket_packer"
    for temp_f, level in ((HOT_HOLDING_F, FindingLevel.CAUTION), (HOT_HOLDING_F - 1, FindingLevel.STOP)):
        state = _state(cut_id, (700, _core(95.0)), (710, StepDone(step="pull")), (800, _core(_c(temp_f))))
        assert list(_rules(state, cut_id, 801).values()) == [level]


def test_the_floor_is_the_stricter_of_the_two_published_ones() -> None:
    """Where two authorities differ, held meat at the lower figure is stopped."""
    assert FOOD_CODE_HOLDING_F < HOT_HOLDING_F
    cut_id = "brisket_packer"
    held = _core(_c(FOOD_CODE_HOLDING_F))
    state = _state(cut_id, (700, _core(95.0)), (710, StepDone(step="pull")), (800, held))
    assert _rules(state, cut_id, 801) == {"held_under_floor": FindingLevel.STOP}


@pytest.mark.parametrize(
    ("edition", "floor_f"),
    [(Edition.STRICTER, 140.0), (Edition.CONSUMER, 140.0), (Edition.FOOD_CODE, 135.0)],
)
@pytest.mark.parametrize(("below_f", "stopped"), [(0.0, False), (0.2, True), (1.0, True)])
def test_hot_holding_by_edition(edition: Edition, floor_f: float, below_f: float, stopped: bool) -> None:
    """At the Fahrenheit figure of each publisher it passes; a fifth of a degree below it does not."""
    told = ((1.0, EditionTold(edition=edition)), (700.0, _core(95.0)), (710.0, StepDone(step="pull")))
    state = _state("brisket_packer", *told, (800, _core(_c(floor_f - below_f))))
    assert ("held_under_floor" in _rules(state, "brisket_packer", 801)) is stopped


@pytest.mark.parametrize(("temp_f", "minutes", "cleared"), [(165, 120, True), (165, 121, False), (164, 60, False)])
def test_food_that_fell_under_the_floor_is_reheated_to_165_f_in_time(
    temp_f: float, minutes: float, cleared: bool
) -> None:
    """Leftovers' 165 F (USDA FSIS), within the two hours that food may be out, from when it was last known hot."""
    told = ((700.0, _core(95.0)), (710.0, StepDone(step="pull")), (799.0, _core(_c(141))), (800.0, _core(_c(139))))
    state = _state("brisket_packer", *told, (799 + minutes, _core(_c(temp_f))))
    assert ("held_under_floor" not in _rules(state, "brisket_packer", 801 + minutes)) is cleared


@pytest.mark.parametrize(("air_f", "limit_min"), [(89.0, 120), (90.0, 120), (91.0, 60)])
def test_one_hour_above_90_f(air_f: float, limit_min: float) -> None:
    """USDA FSIS, basics for handling food safely: two hours, one when the air is above 90 F."""
    cut_id = "pork_butt"
    told = (
        (700.0, _core(95.0)),
        (710.0, StepDone(step="pull")),
        (790.0, _core(80.0)),
        (791.0, AirTold(temp_c=_c(air_f))),
    )
    state = _state(cut_id, *told, (800, StepDone(step="serve")))
    assert "two_hours_out" not in _rules(state, cut_id, 800 + limit_min - 1)
    assert "two_hours_out" in _rules(state, cut_id, 800 + limit_min)


@pytest.mark.parametrize(("pit_f", "stopped"), [(139.0, True), (140.0, False)])
def test_two_hours_without_heat_in_the_danger_zone(pit_f: float, stopped: bool) -> None:
    """Pit air under 140 F, the meat unread: the two hours of USDA FSIS count on the fire as well."""
    state = _state("pork_butt", (100, Reading(slot=Slot.PIT, value_c=_c(pit_f))))
    assert "pit_dead" not in _rules(state, "pork_butt", 219)
    assert ("pit_dead" in _rules(state, "pork_butt", 220)) is stopped


@pytest.mark.parametrize(
    ("treatments", "level"), [((), FindingLevel.CAUTION), ((Treatment.TENDERISED,), FindingLevel.STOP)]
)
@pytest.mark.parametrize(("temp_f", "minutes", "named"), [(129, 360, True), (130, 360, False), (129, 359, False)])
def test_six_hours_to_130_f(
    treatments: tuple[Treatment, ...], level: FindingLevel, temp_f: float, minutes: float, named: bool
) -> None:
    """USDA FSIS Appendix A (2021) p. 24: 50 to 130 F within six hours; of intact cuts the surface may be taken."""
    state = _state("pork_butt", (1, TreatedTold(treatments=treatments)), (minutes, _core(_c(temp_f))))
    found = _rules(state, "pork_butt", minutes)
    assert found.get("come_up_over") is (level if named else None)


def test_acting_begins_above_the_floor_and_never_below() -> None:
    """The house acts at 63 C, which is hotter than the published floor: a careful estimate comes down to it first."""
    cut_id = "brisket_packer"
    pulled = ((700.0, _core(95.0)), (710.0, StepDone(step="pull")))
    act = _state(cut_id, *pulled, (800, _core(63.0)))
    assert _c(HOT_HOLDING_F) < 63.0
    assert list(_rules(act, cut_id, 801)) == ["held_act_now"]
    look_at = act_by(_state(cut_id, *pulled), CUTS.get(cut_id))
    assert look_at is not None
    assert look_at < _minutes(710 + CUTS.get(cut_id).rest_max_unheated_min)


def test_food_left_out_is_stopped_at_two_hours() -> None:
    """At two hours after serving, and not a minute earlier."""
    cut_id = "pork_butt"
    state = _state(
        cut_id, (700, _core(95.0)), (710, StepDone(step="pull")), (790, _core(80.0)), (800, StepDone(step="serve"))
    )
    limit = 800 + OUT_OF_CONTROL / dt.timedelta(minutes=1)
    assert _rules(state, cut_id, limit - 1) == {}
    assert _rules(state, cut_id, limit) == {"two_hours_out": FindingLevel.STOP}


def test_it_is_asked_for_before_two_hours_are_over() -> None:
    """Putting the food away is asked for at least half an hour before the limit, and cannot be skipped."""
    steps = read_catalogue(dict(TEXTS)).steps
    two_hour = steps.get("two_hour")
    assert two_hour is not None
    assert two_hour.safety
    assert two_hour.anchor.kind == "after"
    assert two_hour.anchor.minutes <= OUT_OF_CONTROL / dt.timedelta(minutes=1) - 30


def test_a_smoker_below_its_published_range_is_named_while_the_meat_is_in_danger() -> None:
    """Air under 225 F with a core under 140 F is a caution; either of them above its limit is none."""
    cut_id = "pork_butt"
    pit = Reading(slot=Slot.PIT, value_c=_c(SMOKER_F[0] - 1))
    cold = _state(cut_id, (140, _core(_c(DANGER_F[1] - 1))), (150, pit))
    assert _rules(cold, cut_id, 151) == {"pit_cold": FindingLevel.CAUTION}
    through = _state(cut_id, (140, _core(_c(DANGER_F[1]))), (150, pit))
    warm = _state(cut_id, (140, _core(40.0)), (150, Reading(slot=Slot.PIT, value_c=_c(SMOKER_F[0]))))
    assert _rules(through, cut_id, 151) == {}
    assert _rules(warm, cut_id, 151) == {}


@pytest.mark.parametrize("cut_id", CUT_IDS)
def test_plans_keep_the_smoker_within_its_published_range(cut_id: str) -> None:
    """The usual pits lie between 225 and 300 F, give or take a degree of rounding; all of the range for tough cuts.

    Poor: a flattened chicken is usually cooked hotter, at 325 F (163 C). Birds and roasts may go hotter, salmon colder
    (200 F).
    """
    cut = CUTS.get(cut_id)
    low, high = (cut.pit_c.low, cut.pit_c.high) if cut.doneness == "feel" else (cut.pit_c.typical, cut.pit_c.typical)
    assert _c(SMOKER_F[0]) - 0.6 <= low
    assert high <= _c(SMOKER_F[1] if cut_id != "spatchcock_chicken" else 325.0) + 0.6
    assert cut.pit_c.low >= _c(SMOKER_F[0]) - 0.6 or cut.species == "fish"
