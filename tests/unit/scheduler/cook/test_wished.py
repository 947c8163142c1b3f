"""Wished cores and rules that safety refuses: every cut, every treatment, guests at risk; and plans that follow."""

from __future__ import annotations

import datetime as dt

import pytest

from scheduler.cook import Beginning, Changes, Refusal, Report, begin, decide
from scheduler.cuts import Cut
from scheduler.facts import (
    Body,
    CareTold,
    Edition,
    EditionTold,
    Planned,
    SafeBy,
    SafeByTold,
    Serving,
    ServingKind,
    TargetTold,
    TreatedTold,
    Treatment,
)
from scheduler.safety import NotByTime
from scheduler.units import c_from_f
from tests.catalogue import CUTS
from tests.fakes.kitchen import CATALOGUE

NOW = dt.datetime(2026, 8, 15, 8, tzinfo=dt.UTC)
BY_TIME = SafeByTold(by=SafeBy.EQUIVALENCE)
INTACT = TreatedTold()
NOBODY = CareTold(at_risk=False)
BY_TEMPERATURE = [cut for cut in CUTS.cuts if cut.doneness == "temperature"]
NEVER = [cut for cut in CUTS.cuts if cut.safety_class in ("poultry", "ground", "fish")]
WHOLE = [cut for cut in BY_TEMPERATURE if cut.safety_class.startswith("intact")]


def begun(cut: str, *wishes: TreatedTold | SafeByTold | TargetTold, care: CareTold | None = None) -> Changes | Refusal:
    """Begin a cook of a cut with what is told of its meat."""
    entry = CUTS.get(cut)
    planned = Planned(
        cut=cut, serving=Serving(kind=ServingKind.WHEN_READY, zone="UTC"), pit_low_c=entry.pit_c.typical,
        pit_high_c=entry.pit_c.typical,
    )  # fmt: skip
    beginning = Beginning(cook="c", planned=planned, care=care, wishes=tuple(("p1", body) for body in wishes))
    return begin(beginning, by="Ines", now=NOW, seed="s", message=None, catalogue=CATALOGUE)


def told(start: Changes | Refusal, *bodies: Body) -> Changes | Refusal:
    """Tell things of a cook that was begun, in one message."""
    assert isinstance(start, Changes)
    reports = tuple(Report(body=body, happened_at=NOW, by="Ines") for body in bodies)
    return decide(start.facts, reports, now=NOW, seed="t", catalogue=CATALOGUE)


def just_under(cut: Cut) -> TargetTold:
    """Return a core one tenth under the published minimum of the class of a cut, as compared."""
    return TargetTold(core_c=CUTS.minimum_c(cut) - 0.1)


@pytest.mark.parametrize("cut", [cut.id for cut in NEVER])
def test_poultry_sausages_and_fish_are_never_planned_under_their_minimum(cut: str) -> None:
    """Neither when begun nor later, nor by time at temperature, nor told as intact; at the minimum exactly they are."""
    low = just_under(CUTS.get(cut))
    for wishes in ((low,), (INTACT, low)):
        refused = begun(cut, *wishes)
        assert isinstance(refused, Refusal)
        assert refused.reason == "undercooked"
    chosen = begun(cut, INTACT, BY_TIME, low)
    assert isinstance(chosen, Refusal)
    assert chosen.reason == "not_by_time"
    start = begun(cut)
    later = told(start, low)
    assert isinstance(later, Refusal)
    assert later.under is not None
    assert later.under.minimum_c == CUTS.minimum_c(CUTS.get(cut))
    assert isinstance(told(start, TargetTold(core_c=CUTS.minimum_c(CUTS.get(cut)))), Changes)


@pytest.mark.parametrize("treatment", list(Treatment))
@pytest.mark.parametrize("cut", [cut.id for cut in WHOLE])
def test_treated_meat_is_never_planned_under_its_stricter_minimum(cut: str, treatment: Treatment) -> None:
    """A core at the minimum of the whole cut is refused, and time at temperature cannot be chosen."""
    treated = TreatedTold(treatments=(treatment,))
    whole = TargetTold(core_c=CUTS.minimum_c(CUTS.get(cut)))
    assert isinstance(begun(cut, whole), Changes)
    refused = begun(cut, treated, whole)
    assert isinstance(refused, Refusal)
    assert refused.under is not None
    assert refused.under.why is NotByTime.TREATED
    assert refused.under.minimum_c > CUTS.minimum_c(CUTS.get(cut))
    assert isinstance(begun(cut, treated, TargetTold(core_c=refused.under.minimum_c)), Changes)
    by_time = told(begun(cut, treated), BY_TIME)
    assert isinstance(by_time, Refusal)
    assert by_time.not_by_time is NotByTime.TREATED


@pytest.mark.parametrize("cut", [cut.id for cut in WHOLE])
def test_a_whole_cut_goes_lower_only_by_choice_and_told_intact(cut: str) -> None:
    """Not by the wish alone, not untold (meat or guests), not with guests at risk, never under the lowest row."""
    rare = TargetTold(core_c=c_from_f(130))
    start = begun(cut)
    first = told(start, rare)
    assert isinstance(first, Refusal)
    assert first.under is not None
    assert first.under.why is NotByTime.UNTOLD
    untold = told(start, BY_TIME)
    assert isinstance(untold, Refusal)
    assert untold.not_by_time is NotByTime.UNTOLD
    who_eats = told(start, INTACT, BY_TIME)
    assert isinstance(who_eats, Refusal)
    assert who_eats.not_by_time is NotByTime.RISK_UNTOLD
    allowed = told(start, NOBODY, INTACT, BY_TIME, rare)
    assert isinstance(allowed, Changes)
    assert allowed.after.cut.done_c == rare.core_c
    at_risk = told(start, CareTold(at_risk=True), INTACT, BY_TIME)
    assert isinstance(at_risk, Refusal)
    assert at_risk.not_by_time is NotByTime.AT_RISK
    assert isinstance(told(start, NOBODY, INTACT, BY_TIME, TargetTold(core_c=c_from_f(129))), Refusal)


@pytest.mark.parametrize("later", [CareTold(at_risk=True), TreatedTold(treatments=(Treatment.INJECTED,))])
def test_a_wish_that_became_too_low_counts_as_the_minimum(later: Body) -> None:
    """Guests at risk, or meat told as injected, after a core of 130 F was chosen: the plan goes back to the minimum."""
    start = begun("tri_tip", INTACT, BY_TIME, TargetTold(core_c=c_from_f(130)), care=NOBODY)
    after = told(start, later)
    assert isinstance(after, Changes)
    assert after.after.cut.done_c == after.after.gate.minimum_c
    assert after.after.cut.done_c >= 62.8


def test_a_wished_core_moves_the_plan_both_ways() -> None:
    """Off sooner for a lower core, later for a higher one; the usual one is nothing new."""
    usual, high = begun("tri_tip"), begun("tri_tip", TargetTold(core_c=71.1))
    low = begun("tri_tip", INTACT, BY_TIME, TargetTold(core_c=55.0), care=NOBODY)
    assert isinstance(usual, Changes)
    assert isinstance(high, Changes)
    assert isinstance(low, Changes)
    pulls = [start.after.outlook.pull.likely for start in (low, usual, high)]
    assert None not in pulls
    assert pulls == sorted(pull for pull in pulls if pull is not None)
    assert len(set(pulls)) == 3


def test_treated_meat_is_planned_to_its_minimum() -> None:
    """An injected loin comes off at its stricter minimum, later than a plain one."""
    plain, injected = begun("pork_loin"), begun("pork_loin", TreatedTold(treatments=(Treatment.INJECTED,)))
    assert isinstance(plain, Changes)
    assert isinstance(injected, Changes)
    assert injected.after.cut.done_c == injected.after.gate.minimum_c == 68.3
    assert plain.after.outlook.pull.likely is not None
    assert injected.after.outlook.pull.likely is not None
    assert injected.after.outlook.pull.likely > plain.after.outlook.pull.likely


def test_exactly_the_published_fahrenheit_is_planned() -> None:
    """145 F is 62.78 C: 62.7 is refused, 62.8 and 145 F are planned."""
    start = begun("tri_tip")
    assert isinstance(told(start, TargetTold(core_c=62.7)), Refusal)
    assert isinstance(told(start, TargetTold(core_c=62.8)), Changes)
    assert isinstance(told(start, TargetTold(core_c=c_from_f(145))), Changes)


def test_a_tough_cut_takes_no_core() -> None:
    """A brisket is done by feel; under its minimum the refusal says so first."""
    start = begun("brisket_packer")
    feel, low = told(start, TargetTold(core_c=95.0)), told(start, TargetTold(core_c=54.4))
    assert isinstance(feel, Refusal)
    assert isinstance(low, Refusal)
    assert (feel.reason, low.reason) == ("done_by_feel", "undercooked")


def test_guests_at_risk_override_the_rules_that_were_chosen() -> None:
    """The edition of a cook is the stricter one whatever was told before or after."""
    start = begun("whole_chicken")
    after = told(start, EditionTold(edition=Edition.CONSUMER), CareTold(public=True))
    assert isinstance(after, Changes)
    assert after.after.state.edition is Edition.STRICTER


@pytest.mark.parametrize("cut", [cut.id for cut in BY_TEMPERATURE])
@pytest.mark.parametrize("above_c", [None, 0.0, 0.1, 3.0])
def test_nothing_is_called_off_under_its_minimum(cut: str, above_c: float | None) -> None:
    """Planned as usual, at the minimum exactly, or above it: a core a tenth under the minimum is not done; one at the
    published Fahrenheit value is, where the minimum is what is planned.
    """
    minimum_c = CUTS.minimum_c(CUTS.get(cut))
    start = begun(cut, *(() if above_c is None else (TargetTold(core_c=minimum_c + above_c),)))
    assert isinstance(start, Changes)
    off_c = start.after.cut.off_c
    assert round(off_c, 1) >= round(minimum_c, 1)
    assert round(minimum_c - 0.1, 1) < off_c
    if above_c == 0.0:
        least_f = start.after.gate.minimum.temp_f
        assert c_from_f(least_f) >= off_c


def test_time_at_temperature_is_not_called_off_under_its_row() -> None:
    """By choice at 130 F: 54.4 C is done and 54.3 C is not."""
    start = begun("tri_tip", INTACT, BY_TIME, TargetTold(core_c=c_from_f(130)), care=NOBODY)
    assert isinstance(start, Changes)
    assert 54.3 < start.after.cut.off_c <= 54.4
