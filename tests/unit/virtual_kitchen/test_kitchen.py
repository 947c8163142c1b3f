"""The virtual kitchen: same seed, same cooks; water and heat obey; what is committed is what it makes."""

from __future__ import annotations

import itertools
import math

import numpy as np
import pytest

from tests.virtual_kitchen.cook import happen
from tests.virtual_kitchen.make import DATA, RISE_SEED, SEED, all_cooks
from tests.virtual_kitchen.piece import Shape, build
from tests.virtual_kitchen.roast import Around, Cover, Nature, Roast
from tests.virtual_kitchen.warming import BUILDS, rise
from tests.virtual_kitchen.writing import (
    COOK_COLUMNS,
    LOG_COLUMNS,
    RISE_COLUMNS,
    cook_fields,
    log_fields,
    rise_fields,
    table,
)

BARE = Cover(over="nothing", leak=1.0, emissivity=0.92, gap=100.0)
FOIL = Cover(over="all", leak=0.006, emissivity=0.4, gap=120.0)
NATURE = Nature(seep=5e-8, creep=1.5e-9, lost=0.3, letting_go_s=2400.0, wettable=0.25, start_c=5.0, half_water=0.2)
SLAB = Shape(mass_kg=2.5, thickness_m=0.08, aspect=1.4, roundness=3.0, bone="none", fat=0.15, fat_cap=False)
HOT = Around(air_c=121.0, wall_c=116.0, ember_c=126.0, vapour_pa=3000.0, convection=7.5)


@pytest.mark.parametrize(("family", "number"), [("chuck ribs", 3), ("loin and breast", 4)])
def test_what_is_committed_is_what_the_kitchen_makes(family: str, number: int) -> None:
    """Two cooks made again are, to the letter, the ones in the tables."""
    cook = happen(family, number, SEED)
    told = table((), COOK_COLUMNS, [cook_fields(cook)]).splitlines()
    typed = table((), LOG_COLUMNS, log_fields(cook)).splitlines()
    committed = (DATA / "cooks.csv").read_text(encoding="utf-8").splitlines()
    assert [line for line in committed if line.startswith(("id,", f"{cook.id},"))] == told
    committed = (DATA / "logs.csv").read_text(encoding="utf-8").splitlines()
    assert [line for line in committed if line.startswith(("id,", f"{cook.id},"))] == typed


def test_every_cook_has_its_own_name() -> None:
    """Asking for no cooks makes none; ids in the tables are unique."""
    assert all_cooks(0) == []
    lines = (DATA / "cooks.csv").read_text(encoding="utf-8").splitlines()
    ids = [line.split(",")[0] for line in lines if not line.startswith(("#", "id,"))]
    assert len(ids) == len(set(ids)) == 240


def test_water_is_neither_made_nor_lost() -> None:
    """Water in the meat, gone as vapour and dripped adds up to what went in, within a thousandth."""
    roast = Roast(SLAB, NATURE)
    before = float((roast.bound + roast.free).sum())
    for _ in range(240):
        roast.run(60.0, HOT, BARE)
    after = float((roast.bound + roast.free).sum())
    assert roast.evaporated > 0.05 * before
    assert after + roast.evaporated + roast.dripped == pytest.approx(before, rel=1e-3)


def test_a_wrapped_piece_loses_less_and_passes_its_stall_sooner() -> None:
    """Foil from the beginning of the stall keeps water in and shortens the way to 85 °C."""
    minutes = {}
    lost = {}
    for name, cover in (("bare", BARE), ("foil", FOIL)):
        roast = Roast(SLAB, NATURE)
        minute = 0
        while roast.core_c < 85.0 and minute < 1500:
            roast.run(120.0, HOT, cover if roast.core_c > 66.0 else BARE)
            minute += 2
        minutes[name], lost[name] = minute, roast.evaporated_share
    assert minutes["foil"] < 0.85 * minutes["bare"]
    assert lost["foil"] < lost["bare"]


def test_a_piece_left_in_its_own_warmth_stays_there() -> None:
    """In saturated air of its own temperature a piece neither warms nor cools."""
    roast = Roast(SLAB, NATURE)
    still = Around(air_c=5.0, wall_c=5.0, ember_c=5.0, vapour_pa=872.0, convection=7.5)
    for _ in range(30):
        roast.run(60.0, still, FOIL)
    assert np.allclose(roast.temp_c, 5.0, atol=0.15)


def test_the_grid_holds_the_mass_that_was_asked_for() -> None:
    """Cells add up to a quarter of the piece, and its height is the thickness told."""
    piece = build(SLAB)
    assert 4 * 1060.0 * float((piece.volume * piece.meat).sum()) == pytest.approx(SLAB.mass_kg, rel=1e-6)
    assert math.isclose(piece.edges[2][-1] - piece.edges[2][0], SLAB.thickness_m)


@pytest.mark.parametrize(("kind", "number"), [("kettle", 0), ("cabinet", 7), ("offset", 39)])
def test_the_committed_rises_are_what_the_kitchen_makes(kind: str, number: int) -> None:
    """A pit that comes up once more is, to the letter, the one in the table."""
    made = table((), RISE_COLUMNS, [rise_fields(rise(kind, number, RISE_SEED))]).splitlines()
    committed = (DATA / "warming.csv").read_text(encoding="utf-8").splitlines()
    assert [line for line in committed if line.startswith(("id,", f"{kind}-{number:02d},"))] == made


@pytest.mark.parametrize("kind", BUILDS)
def test_a_rising_pit_rises(kind: str) -> None:
    """Every kind of cooker comes up: what people read goes up to the mark and not past it, but for their own error."""
    for number in range(5):
        one = rise(kind, number, 5)
        values = [value for _, value in one.readings]
        assert all(after > before - 10 for before, after in itertools.pairwise(values))
        assert all(value < one.mark_f + 15 for value in values)
