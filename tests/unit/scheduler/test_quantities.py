"""How much to buy, to salt and to thaw, and how many it feeds."""

from __future__ import annotations

import datetime as dt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduler.cuts import Cut
from scheduler.facts import Appetite
from scheduler.planning.quantities import (
    THAW_EARLY,
    Guests,
    cold_water_min,
    feeds,
    plate_g,
    salt_for,
    thaw_days,
    to_buy,
    trimmed_kg,
)  # fmt: skip
from tests.catalogue import CUTS

BUTT = CUTS.get("pork_butt")
ANY_CUT = st.sampled_from(CUTS.cuts)


def test_forty_at_a_harvest_supper() -> None:
    """32 grown-ups and 8 children eat 36 portions: 13.7 kg of pork shoulder as bought, four pieces, 6.6 kg served."""
    bought = to_buy(BUTT, Guests(adults=32, children=8))
    assert (bought.raw_kg, bought.pieces) == (13.7, 4)
    assert bought.cooked_kg == pytest.approx(6.6, abs=0.05)


def test_in_buns_less_is_eaten() -> None:
    """Pulled pork in buns needs 60 % of the portion on a plate."""
    plates, buns = (to_buy(BUTT, Guests(adults=50, buns=buns)) for buns in (False, True))
    assert buns.raw_kg == pytest.approx(0.6 * plates.raw_kg, abs=0.1)


def test_nobody_buys_nothing() -> None:
    """Without guests there is nothing to buy."""
    assert to_buy(BUTT, Guests(adults=0)).pieces == 0


@given(cut=ANY_CUT, adults=st.integers(1, 80), children=st.integers(0, 40), appetite=st.sampled_from(Appetite))
def test_what_is_bought_feeds_those_it_is_bought_for(cut: Cut, adults: int, children: int, appetite: Appetite) -> None:
    """Buying and feeding are one sum read from both ends: never too little, never a piece of 100 g too much."""
    guests = Guests(adults=adults, children=children, appetite=appetite)
    bought = to_buy(cut, guests)
    fed = feeds(cut, bought.raw_kg, appetite=appetite)
    one_more = feeds(cut, bought.raw_kg - 0.1, appetite=appetite)
    assert fed.typical >= guests.portions - 1e-6
    assert one_more.typical < guests.portions
    assert fed.low <= fed.typical <= fed.high


@given(cut=ANY_CUT, adults=st.integers(1, 60))
def test_more_guests_or_more_hunger_never_need_less(cut: Cut, adults: int) -> None:
    """One guest more, and the next appetite, buy as much or more."""
    assert to_buy(cut, Guests(adults=adults)).raw_kg <= to_buy(cut, Guests(adults=adults + 1)).raw_kg
    masses = [to_buy(cut, Guests(adults=adults, appetite=appetite)).raw_kg for appetite in Appetite]
    assert masses == sorted(masses)


def test_a_plate_is_between_a_light_and_a_hearty_one() -> None:
    """About 120, 180 and 250 g cooked for light, normal and hearty adults, of pork shoulder."""
    plates = [plate_g(BUTT, appetite) for appetite in Appetite]
    assert plates == pytest.approx([120, 182, 250], abs=1)


def test_salt_goes_by_the_trimmed_mass() -> None:
    """5 kg of trimmed brisket at 0.9 %: 45 g, usual 40 to 50; half of it where solution was added."""
    brisket = CUTS.get("brisket_packer")
    assert trimmed_kg(brisket, 6.0) == pytest.approx(5.0)
    salt = salt_for(brisket, 5.0)
    assert (salt.grams, salt.low_g, salt.high_g) == pytest.approx((45, 40, 50))
    pumped = salt_for(brisket, 5.0, solution_added=True)
    assert (pumped.grams, pumped.low_g, pumped.high_g) == pytest.approx((22.5, 20, 25))


def test_what_is_seasoned_inside_gets_no_salt() -> None:
    """Sausages are salted already."""
    assert salt_for(CUTS.get("sausages"), 2.0).high_g == 0


@given(cut=ANY_CUT, mass_kg=st.floats(0.1, 12.0))
def test_the_salt_lies_in_its_band(cut: Cut, mass_kg: float) -> None:
    """The cut's own figure is never outside the band that is told beside it."""
    salt = salt_for(cut, mass_kg)
    assert salt.low_g <= salt.grams <= salt.high_g


def test_a_thaw_begins_before_the_salt_by_mass() -> None:
    """A 3.8 kg shoulder takes two and a half days, and half a day more is allowed before it is trimmed and salted."""
    assert thaw_days(BUTT, 3.8) == 2.5
    assert dt.timedelta(hours=12) == THAW_EARLY
    assert cold_water_min(0.45359237) == pytest.approx(30)


@given(cut=ANY_CUT, mass_kg=st.floats(0.05, 10.0), more_kg=st.floats(0.0, 5.0))
def test_more_mass_never_thaws_sooner(cut: Cut, mass_kg: float, more_kg: float) -> None:
    """Days grow with the mass, in halves."""
    days = thaw_days(cut, mass_kg)
    assert days <= thaw_days(cut, mass_kg + more_kg)
    assert (2 * days).is_integer()
