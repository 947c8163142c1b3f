"""Whom the pieces of a plan feed, what is missing, what to buy, and the waves in which it comes to the table."""

from __future__ import annotations

import dataclasses

import pytest

from scheduler.cook import Situation
from scheduler.facts import Appetite, GuestsTold, PieceAdded
from scheduler.planning.feeding import feeding, guests_of, shopping, waves
from tests.catalogue import CUTS
from tests.unit.scheduler.logbook import Logbook, dinner, planned


def _dinner(*, ribs: bool = False) -> Situation:
    """Return a plan of a 6 kg brisket, with `ribs` for an hour later as a second wave."""
    log = Logbook(planned(cut="brisket_packer", mass_kg=6.0, serving=dinner(1440)))
    if ribs:
        log.tell(PieceAdded(cut="spareribs_stl", count=3, serving=dinner(1500)), 0)
        log.facts = (*log.facts[:-1], dataclasses.replace(log.facts[-1], piece="p2"))
    return log.situation


def test_nobody_said_who_eats() -> None:
    """Without guests it still says how many adults it feeds, and never whether that is enough."""
    of = feeding(_dinner().views, None)
    assert of.adults > 0
    assert (of.guests, of.enough, of.fed, of.short_kg, shopping(of)) == (None, None, None, 0.0, ())


def test_guests_without_adults_are_not_known() -> None:
    """Four children and nothing said of adults is no head count."""
    assert guests_of(GuestsTold(children=4)) is None
    assert guests_of(GuestsTold(adults=0, children=4)) is not None


@pytest.mark.parametrize("adults", [2, 10, 15, 40])
def test_what_is_missing_makes_it_enough(adults: int) -> None:
    """Who buys what is said to be missing has enough, and not a tenth too much."""
    views = _dinner().views
    told = GuestsTold(adults=adults, children=2)
    of = feeding(views, told)
    assert of.share is not None
    bought = sum(one.raw_kg for one in of.served)
    needed = bought / of.share
    if of.enough:
        assert of.short_kg == 0.0
    else:
        assert needed <= bought + of.short_kg <= needed + 0.11


def test_a_child_eats_half_and_a_head_is_a_head() -> None:
    """Ten adults and ten children eat like fifteen adults; the dinner feeds as many heads as its share of them."""
    of = feeding(_dinner().views, GuestsTold(adults=10, children=10))
    assert of.fed is not None
    assert of.fed == pytest.approx(of.adults * 20 / 15)


def test_the_appetite_and_buns_count_once() -> None:
    """Hearty eaters are fewer; in buns the same meat feeds two thirds more, and less is bought."""
    views = _dinner().views
    usual, hearty, buns = (
        feeding(views, told)
        for told in (
            GuestsTold(adults=12),
            GuestsTold(adults=12, appetite=Appetite.HEARTY),
            GuestsTold(adults=12, buns=True),
        )
    )
    assert hearty.adults < usual.adults < buns.adults
    assert buns.adults == pytest.approx(usual.adults / 0.6)
    assert shopping(buns)[0][1].raw_kg == pytest.approx(0.6 * shopping(usual)[0][1].raw_kg, abs=0.1)


def test_what_to_buy_of_several_pieces_feeds_the_guests_together() -> None:
    """Bought as it says, the pieces feed the guests and keep their shares of the dinner."""
    situation = _dinner(ribs=True)
    of = feeding(situation.views, GuestsTold(adults=30))
    listed = shopping(of)
    assert [one.piece for one, _buy in listed] == ["p1", "p2"]
    fed = sum(buy.raw_kg / one.raw_kg * one.adults for one, buy in listed)
    assert 30 <= fed <= 31.5
    shares = [buy.raw_kg / one.raw_kg for one, buy in listed]
    assert shares[0] == pytest.approx(shares[1], rel=0.05)


def test_waves_come_in_order_of_time_and_share_the_heads() -> None:
    """Each wave has its pieces and the people it feeds; together they are those of the whole dinner."""
    situation = _dinner(ribs=True)
    of = feeding(situation.views, GuestsTold(adults=24, children=6))
    found = waves(of, situation.views)
    assert [[view.piece for view in pieces] for pieces, _heads in found] == [["p1"], ["p2"]]
    assert sum(heads for _pieces, heads in found) == pytest.approx(of.fed)


def test_one_dinner_is_one_wave() -> None:
    """Pieces that are wanted together are one wave."""
    situation = _dinner()
    assert len(waves(feeding(situation.views, None), situation.views)) == 1
    assert feeding(situation.views, None).served[0].cut == CUTS.get("brisket_packer")
