"""Charcoal and wood for a whole cook, and how long a cooker takes from lighting."""

from __future__ import annotations

import datetime as dt

import pytest

from scheduler.facts import CookerKind, CookerTold
from scheduler.planning.asking import Window
from scheduler.planning.fuel import BUY, LIGHT_LEAD, FuelNeed, Setting, holds, light_lead, need, wood_pieces
from tests.unit.scheduler.logbook import CATALOGUE, at, cut

COOKERS = CATALOGUE.cookers
SLOW = Setting(pit_c=118.0, meat_kg=5.0, hours=12.0)


def asked(kind: CookerKind | None, *, hours: float = 12.0) -> FuelNeed:
    """Return what a cook of so many hours takes, a sixth shorter or a quarter longer at the ends."""
    pull = Window(early=at(50 * hours), likely=at(60 * hours), late=at(75 * hours))
    return need(None if kind is None else COOKERS.of_kind(kind), SLOW, pull, at(0), COOKERS)


@pytest.mark.parametrize("kind", [*CookerKind, None])
def test_longer_takes_more_and_one_buys_half_as_much_again(kind: CookerKind | None) -> None:
    """In every cooker, and when nobody said which."""
    short, long = asked(kind, hours=6.0), asked(kind)
    for one in (short, long):
        assert 0.0 < one.kg.low < one.kg.typical < one.kg.high
        assert one.buy_kg == pytest.approx(BUY * one.kg.typical, rel=0.05)
    assert 1.5 < long.kg.typical / short.kg.typical < 2.0


def test_an_offset_takes_most_and_is_refuelled() -> None:
    """An offset burns more than twice what ceramic does and never does it on one filling; ceramic does."""
    assert asked(CookerKind.OFFSET).kg.typical > 2 * asked(CookerKind.CERAMIC).kg.typical
    assert asked(CookerKind.OFFSET).refuels >= 2
    assert asked(CookerKind.CERAMIC).refuels == 0


def test_without_a_cooker_all_kinds_are_spread_over() -> None:
    """The ends are those of the thriftiest and the hungriest kind."""
    unknown = asked(None)
    assert unknown.fuel is None
    assert unknown.kg.low == asked(CookerKind.CERAMIC).kg.low or unknown.kg.low == asked(CookerKind.CABINET).kg.low
    assert unknown.kg.high == asked(CookerKind.OFFSET).kg.high


def test_a_pull_beyond_the_horizon_still_has_an_answer() -> None:
    """What cannot be foreseen counts as half as long again as usual."""
    pull = Window(early=at(600), likely=None, late=None)
    assert need(COOKERS.of_kind(CookerKind.DRUM), SLOW, pull, at(0), COOKERS).kg.typical > 4.0


def test_lead_comes_from_the_card_or_the_kind() -> None:
    """A kettle is ready sooner than ceramic; a cooker that nobody told of takes the usual hour."""
    assert light_lead(None) == light_lead(CookerTold(cooker=CookerKind.DRUM)) == LIGHT_LEAD
    assert light_lead(COOKERS.of_kind(CookerKind.KETTLE)) < LIGHT_LEAD < light_lead(COOKERS.of_kind(CookerKind.CERAMIC))
    assert light_lead(CookerTold(cooker=CookerKind.DRUM, light_min=35.0)) == dt.timedelta(minutes=35)


def test_a_filling_is_as_the_card_says() -> None:
    """Else as usual for the kind."""
    assert holds(CookerTold(cooker=CookerKind.DRUM, fuel_holds_kg=6.0), COOKERS).typical == 6.0
    assert holds(COOKERS.of_kind(CookerKind.DRUM), COOKERS) == COOKERS.get(CookerKind.DRUM).holds_kg


def test_wood_lasts_as_long_as_the_cut_takes_smoke() -> None:
    """A handful for ribs, twice as much in a firebox."""
    low, high = wood_pieces(cut(), None)
    assert 2 < low < high < 12
    assert wood_pieces(cut(), COOKERS.of_kind(CookerKind.OFFSET)) == (2 * low, 2 * high)
