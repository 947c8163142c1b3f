"""Charcoal by the energy balance, against published heating values and against what people use.

Heating values: `tests/data/charcoal.csv`, each row with its source, all read. What people use an hour is common
practice, no source: the ranges below are from memory, and wide.
"""

from __future__ import annotations

import csv
import dataclasses
from pathlib import Path

import pytest

from scheduler.facts import CookerKind, CookerTold
from scheduler.forecast import Air, Wind
from scheduler.planning.fuel import Setting, burning
from tests.unit.scheduler.logbook import CATALOGUE

COOKERS = CATALOGUE.cookers
LINES = (Path(__file__).resolve().parents[1] / "data" / "charcoal.csv").read_text(encoding="utf-8").splitlines()
ROWS = {row["item"]: row for row in csv.DictReader(line for line in LINES if not line.startswith("#"))}
MILD = Setting(pit_c=118.0, air=Air(temp=20.0), meat_kg=5.0, hours=12.0)

PRACTICE_KG_PER_H = {
    CookerKind.CERAMIC: (0.15, 0.40),
    CookerKind.KETTLE: (0.25, 0.60),
    CookerKind.DRUM: (0.30, 0.65),
    CookerKind.OFFSET: (0.60, 1.50),
    CookerKind.CABINET: (0.15, 0.50),
}
"""Charcoal at a slow pit in mild, dry, calm air [kg/h]: common practice, no source, from memory."""


def typical(kind: CookerKind, setting: Setting = MILD) -> float:
    """Return the typical rate of a kind [kg/h]."""
    return burning(COOKERS.of_kind(kind), setting, COOKERS).kg_per_h.typical


def value(item: str) -> float:
    """Return a published figure."""
    assert ROWS[item]["status"] == "READ"
    return float(ROWS[item]["value"])


def test_heating_values_lie_between_the_published_ones() -> None:
    """Lump: from household charcoal with ash to good chars; briquettes: down to one with 40 % ash. As fired, so below
    the dry gross values.
    """
    lump, briquettes = COOKERS.fuels["lump"].mj_per_kg, COOKERS.fuels["briquettes"].mj_per_kg
    assert lump.low == value("household_charcoal_LHV")
    assert lump.high == value("pine_char") < value("gross_heating_value_high")
    moist = (value("moisture_typical_low") + value("moisture_typical_high")) / 200
    assert lump.typical == pytest.approx(value("heating_value_typical") * (1 - moist) - 2.44 * moist, abs=0.1)
    assert briquettes.low == value("char_briquette_LHV")
    assert briquettes.high <= value("household_charcoal_LHV") + 0.5
    assert briquettes.typical < lump.low


def test_carbon_is_at_least_what_the_standard_asks_for() -> None:
    """Typical lump has the least fixed carbon of EN 1860-2 and more, and no fuel has more heat than its carbon and the
    hydrogen of its volatiles can give (32.8 MJ/kg of carbon).
    """
    assert COOKERS.fuels["lump"].carbon.typical * 100 >= value("EN1860_2_lump_fixed_carbon_min")
    assert COOKERS.fuels["briquettes"].carbon.typical * 100 >= value("EN1860_2_briquette_fixed_carbon_min")
    for fuel in COOKERS.fuels.values():
        assert 0.85 < fuel.mj_per_kg.typical / (32.8 * fuel.carbon.typical) < 1.25


@pytest.mark.parametrize("kind", CookerKind)
def test_an_hour_takes_what_people_use(kind: CookerKind) -> None:
    """The typical rate of each kind lies inside the range of common practice, and the range overlaps most of it."""
    low, high = PRACTICE_KG_PER_H[kind]
    rate = burning(COOKERS.of_kind(kind), MILD, COOKERS).kg_per_h
    assert low <= rate.typical <= high
    assert rate.low < 0.6 * (low + high)
    assert rate.high > 0.5 * (low + high)


@pytest.mark.parametrize("kind", CookerKind)
def test_frost_asks_for_a_third_to_a_half_more(kind: CookerKind) -> None:
    """Ten below zero against mild: 1.3 to 1.5 times the fuel (trade table, common practice), give or take a little."""
    frost = typical(kind, dataclasses.replace(MILD, air=Air(temp=-10.0)))
    assert 1.28 <= frost / typical(kind) <= 1.6


@pytest.mark.parametrize("kind", CookerKind)
def test_rain_asks_for_a_tenth_to_a_quarter_more(kind: CookerKind) -> None:
    """Rain on the shell: 10 to 25 % more fuel (trade table, common practice); thick walls feel it least."""
    assert 1.05 <= typical(kind, dataclasses.replace(MILD, rain=True)) / typical(kind) <= 1.26


def test_a_known_mass_of_charcoal_is_the_heat_that_it_was_asked_for() -> None:
    """By hand: a kettle of 11 W/K, 98 K above the air, no meat, 21.5 MJ/kg, 8 % unburnt, the gas taking its share."""
    setting = Setting(pit_c=118.0, air=Air(temp=20.0))
    gas_kg = 1 + 7 * 11.5 * 0.63
    used = 1 - 0.08 - gas_kg * 1.05 * 98 / 1000 / 21.5
    by_hand = 11 * 98 * 1.06 * 3600 / 1e6 / (21.5 * used)
    assert typical(CookerKind.KETTLE, setting) == pytest.approx(by_hand, rel=1e-6)


@pytest.mark.parametrize("kind", CookerKind)
def test_more_to_heat_takes_more_charcoal(kind: CookerKind) -> None:
    """A hotter pit, wind, more meat and a pan of water each ask for more; ceramic least of all for wind."""
    for more in (
        dataclasses.replace(MILD, pit_c=135.0),
        dataclasses.replace(MILD, air=Air(temp=20.0, wind=Wind.WINDY)),
        dataclasses.replace(MILD, meat_kg=10.0),
        dataclasses.replace(MILD, water_pan=True),
    ):
        assert typical(kind, more) > 1.01 * typical(kind)


def test_a_measured_rate_is_carried_to_another_pit() -> None:
    """0.5 kg/h at 110 °C by the owner's own scale is more at 135 °C, by the balance, and surer than the kind alone."""
    card = CookerTold(cooker=CookerKind.KETTLE, fuel_kg_per_h=0.5, fuel_at_c=110.0)
    at_110 = burning(card, Setting(pit_c=110.0, meat_kg=4.0), COOKERS).kg_per_h
    at_135 = burning(card, Setting(pit_c=135.0, meat_kg=4.0), COOKERS).kg_per_h
    assert at_110.typical == pytest.approx(0.5)
    assert 0.58 < at_135.typical < 0.75
    assert at_110.high / at_110.low < 1.6
