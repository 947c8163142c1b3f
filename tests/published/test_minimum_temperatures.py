"""Least internal temperatures as published, by edition, at their exact Fahrenheit, in both units, with unit slips."""

from __future__ import annotations

import datetime as dt

import pytest

from scheduler.facts import (
    Body,
    CareTold,
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
)
from scheduler.safety import least_of, safe_gate
from scheduler.safety.limits import FISH, GROUND, GROUND_HOLD, NOT_INTACT, NOT_INTACT_HOLD, POULTRY, WHOLE, WHOLE_HOLD
from scheduler.state import CookState, fold
from scheduler.units import c_from_f
from tests.catalogue import CUTS
from tests.published.tables import rows

WHEN_READY = Serving(kind=ServingKind.WHEN_READY, zone="Etc/UTC")
ON_AT = dt.datetime(2026, 9, 12, 6, 0, tzinfo=dt.UTC)
PUBLISHED = {row["rule_id"]: row for row in rows("minimum_temperatures")}

WHOLE_CUT, BIRD, SAUSAGE, SALMON = "prime_rib", "whole_chicken", "sausages", "salmon_side"
T = Treatment
S15, S17 = 15 / 60, 17 / 60

LEAST = [
    # cut, treatments, edition, °F, °C as compared, minutes at or after it
    (WHOLE_CUT, (), Edition.STRICTER, 145, 62.8, 3),
    (WHOLE_CUT, (), Edition.CONSUMER, 145, 62.8, 3),
    (WHOLE_CUT, (), Edition.FOOD_CODE, 145, 62.8, S15),
    (WHOLE_CUT, (T.TENDERISED,), Edition.STRICTER, 155, 68.3, S17),
    (WHOLE_CUT, (T.INJECTED,), Edition.FOOD_CODE, 155, 68.3, S17),
    (WHOLE_CUT, (T.ROLLED,), Edition.CONSUMER, 155, 68.3, S17),
    (WHOLE_CUT, (T.GROUND,), Edition.STRICTER, 160, 71.1, 0),
    (WHOLE_CUT, (T.GROUND,), Edition.FOOD_CODE, 155, 68.3, S17),
    (WHOLE_CUT, (T.STUFFED,), Edition.STRICTER, 165, 73.9, 0),
    (WHOLE_CUT, (T.INJECTED, T.STUFFED), Edition.FOOD_CODE, 165, 73.9, 0),
    (SAUSAGE, (), Edition.STRICTER, 160, 71.1, 0),
    (SAUSAGE, (), Edition.CONSUMER, 160, 71.1, 0),
    (SAUSAGE, (), Edition.FOOD_CODE, 155, 68.3, S17),
    (BIRD, (), Edition.STRICTER, 165, 73.9, 0),
    (BIRD, (), Edition.FOOD_CODE, 165, 73.9, 0),
    (BIRD, (T.INJECTED,), Edition.FOOD_CODE, 165, 73.9, 0),
    (SALMON, (), Edition.STRICTER, 145, 62.8, S15),
    (SALMON, (), Edition.CONSUMER, 145, 62.8, 0),
    (SALMON, (), Edition.FOOD_CODE, 145, 62.8, S15),
]


def _at(minutes: float) -> dt.datetime:
    return ON_AT + dt.timedelta(minutes=minutes)


def _state(cut: str, treated: tuple[Treatment, ...], edition: Edition, *told: Body, at_risk: bool = False) -> CookState:
    """Return a cook with meat on at 0 and what was told at 300 minutes after it."""
    bodies: list[tuple[float, Body]] = [
        (0, Planned(cut=cut, serving=WHEN_READY, pit_low_c=121, pit_high_c=121)),
        (0, StepDone(step="meat_on")),
        (1, TreatedTold(treatments=treated)),
        (1, EditionTold(edition=edition)),
        (1, CareTold(at_risk=at_risk)),
        *((300, body) for body in told),
    ]  # fmt: skip
    return fold(
        tuple(
            Fact(id=f"f{n}", cook="c", piece="p1", happened_at=_at(m), recorded_at=_at(m), by="Ines", body=body)
            for n, (m, body) in enumerate(bodies)
        )
    )


def _opens(
    cut: str, treated: tuple[Treatment, ...], edition: Edition, core_c: float, *, at_risk: bool = False
) -> dt.datetime | None:
    state = _state(cut, treated, edition, Reading(slot=Slot.CORE, value_c=core_c), at_risk=at_risk)
    return safe_gate(state, CUTS.get(cut), CUTS).open_at


@pytest.mark.parametrize(
    ("rule", "temp_f", "hold_min"),
    [
        ("fc_intact_meat_fish_min", WHOLE.under(Edition.FOOD_CODE).value, WHOLE_HOLD.under(Edition.FOOD_CODE).value),
        ("fc_intact_meat_fish_min", FISH.under(Edition.FOOD_CODE).value, None),
        ("fc_comminuted_min", GROUND.under(Edition.FOOD_CODE).value, GROUND_HOLD.under(Edition.FOOD_CODE).value),
        ("fc_comminuted_min", NOT_INTACT.under(Edition.STRICTER).value, NOT_INTACT_HOLD.under(Edition.STRICTER).value),
        ("fc_poultry_min", POULTRY.under(Edition.FOOD_CODE).value, 0.0),
        ("consumer_whole_cut_min", WHOLE.under(Edition.CONSUMER).value, WHOLE_HOLD.under(Edition.CONSUMER).value),
        ("consumer_ground_min", GROUND.under(Edition.CONSUMER).value, None),
        ("consumer_poultry_min", POULTRY.under(Edition.CONSUMER).value, None),
    ],
)
def test_the_limits_are_the_published_rows(rule: str, temp_f: float, hold_min: float | None) -> None:
    """Fahrenheit and holding time of each edition as written down from its source, and the printed Celsius near it."""
    row = PUBLISHED[rule]
    assert float(row["temp_F"]) == temp_f
    assert abs(float(row["temp_C"]) - c_from_f(temp_f)) < 0.3
    if hold_min is not None:
        assert float(row["time_or_value"]) == hold_min * 60


@pytest.mark.parametrize(("cut", "treated", "edition", "temp_f", "temp_c", "rest_min"), LEAST)
def test_the_least_temperature_by_class_treatment_and_edition(
    cut: str, treated: tuple[Treatment, ...], edition: Edition, temp_f: float, temp_c: float, rest_min: float
) -> None:
    """The strictest of the class and of all that was done to the meat, of the edition that counts."""
    found = least_of(CUTS.get(cut), CUTS, treated, edition)
    assert (found.temp_f, found.temp_c, found.rest_min) == (temp_f, temp_c, rest_min)
    assert found.edition is edition or edition is Edition.STRICTER or found.because in treated
    assert found.source


@pytest.mark.parametrize(("cut", "treated", "edition", "temp_f", "temp_c", "rest_min"), LEAST)
def test_the_exact_limit_opens_and_a_tenth_less_does_not(
    cut: str, treated: tuple[Treatment, ...], edition: Edition, temp_f: float, temp_c: float, rest_min: float
) -> None:
    """At the exact Fahrenheit, and the Celsius rounded to 0.1, it opens after its time; a tenth under, never."""
    opened = _at(300 + rest_min)
    assert _opens(cut, treated, edition, c_from_f(temp_f)) == opened
    assert _opens(cut, treated, edition, temp_c) == opened
    assert _opens(cut, treated, edition, temp_c - 0.1) is None
    assert _opens(cut, treated, edition, c_from_f(temp_f - 0.2)) is None


def test_145_f_is_62_78_c() -> None:
    """62.7 fails, 62.8 passes; so do 145 F and 62.78 C, and 144.8 F does not."""
    found = {
        core_c: _opens(WHOLE_CUT, (), Edition.STRICTER, core_c) is not None
        for core_c in (62.7, 62.78, 62.8, c_from_f(145), c_from_f(144.8))
    }
    assert found == {62.7: False, 62.78: True, 62.8: True, c_from_f(145): True, c_from_f(144.8): False}


@pytest.mark.parametrize(("cut", "treated", "edition", "temp_f", "temp_c", "rest_min"), LEAST)
def test_a_number_in_the_wrong_unit_never_opens(
    cut: str, treated: tuple[Treatment, ...], edition: Edition, temp_f: float, temp_c: float, rest_min: float
) -> None:
    """63 C taken for Fahrenheit is 17 C; 145 F taken for Celsius is hotter than boiling meat: neither counts."""
    assert _opens(cut, treated, edition, c_from_f(temp_c)) is None
    assert _opens(cut, treated, edition, float(temp_f)) is None
    state = _state(cut, treated, edition, Reading(slot=Slot.CORE, value_c=float(temp_f)))
    assert safe_gate(state, CUTS.get(cut), CUTS).lowest is None


@pytest.mark.parametrize(("cut", "treated"), [(WHOLE_CUT, ()), (SAUSAGE, ()), (SALMON, ()), (WHOLE_CUT, (T.GROUND,))])
@pytest.mark.parametrize("edition", Edition)
def test_where_guests_are_at_risk_the_stricter_edition_counts(
    cut: str, treated: tuple[Treatment, ...], edition: Edition
) -> None:
    """Whatever edition was chosen: for the pregnant, the old, the very young and the ill the stricter counts."""
    strict = safe_gate(_state(cut, treated, Edition.STRICTER), CUTS.get(cut), CUTS)
    gate = safe_gate(_state(cut, treated, edition, at_risk=True), CUTS.get(cut), CUTS)
    assert (gate.minimum, gate.edition) == (strict.minimum, Edition.STRICTER)


@pytest.mark.parametrize("cut", [cut.id for cut in CUTS.cuts])
@pytest.mark.parametrize("treated", [None, (), *((one,) for one in Treatment)])
def test_the_default_is_never_milder_than_either_edition(cut: str, treated: tuple[Treatment, ...] | None) -> None:
    """The stricter edition asks for no less heat than the chart or the Food Code; treated never for less than whole."""
    own = CUTS.get(cut)
    strict = least_of(own, CUTS, treated)
    for edition in Edition:
        other = least_of(own, CUTS, treated, edition)
        assert (strict.temp_f, strict.rest_min) >= (other.temp_f, other.rest_min)
        assert least_of(own, CUTS, treated, edition).temp_f >= least_of(own, CUTS, None, edition).temp_f
