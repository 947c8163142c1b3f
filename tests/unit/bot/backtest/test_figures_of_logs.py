"""Figures and events of a log, as people write them."""

from __future__ import annotations

import pytest

from bot.backtest.events import Covered, Event, MeatOn, Opened, PitSet, Pulled, read_events
from bot.backtest.figures import mass_kg, pit_band_c, temp_c, thickness_m, wrap_of
from scheduler.facts import Wrap
from scheduler.forecast import Opening


@pytest.mark.parametrize(
    ("text", "kg"),
    [
        ("6.2 kg", 6.2), ("6,2kg", 6.2), ("13.5 lb", 6.123), ("13 lb 8 oz", 6.123), ("900 g", 0.9), ("about 6 kg", 6.0),
        ("6-7 kg", 6.5), ("14 Pounds", 6.35), ("6.2", None), ("heavy", None), ("0 kg", None), ("900 kg", None),
        ("6 kg 3 oz", None), ("7 cm", None), ("", None),
    ],
)  # fmt: skip
def test_masses_need_a_unit_and_a_size_that_a_piece_can_have(text: str, kg: float | None) -> None:
    """Kilograms, grams, pounds with ounces and ranges are read; a number alone is not guessed at."""
    assert mass_kg(text) == (None if kg is None else pytest.approx(kg, abs=1e-3))


@pytest.mark.parametrize(
    ("text", "metres"),
    [
        ("7.5 cm", 0.075), ("75 mm", 0.075), ("3 in", 0.0762), ('3"', 0.0762), ("2.5-3.5 inches", 0.0762),
        ("0.075 m", 0.075), ("3", None), ("3 kg", None), ("75 m", None), ("thick", None),
    ],
)  # fmt: skip
def test_thicknesses_are_metric_or_in_inches(text: str, metres: float | None) -> None:
    """Centimetres, millimetres and inches are read, and nothing thinner or thicker than meat."""
    assert thickness_m(text) == (None if metres is None else pytest.approx(metres))


@pytest.mark.parametrize(
    ("text", "unit", "band"),
    [
        ("250 F", "C", (121.1, 121.1)), ("250-275 F", "C", (121.1, 135.0)), ("275F - 250F", "F", (121.1, 135.0)),
        ("250 to 275", "F", (121.1, 135.0)), ("120", "C", (120.0, 120.0)),
        ("120\u2013135 \u00b0C", "F", (120.0, 135.0)),
        ("12 F", "F", None), ("2750 F", "F", None), ("hot", "F", None), ("", "F", None),
    ],
)  # fmt: skip
def test_a_pit_is_one_value_or_a_band(text: str, unit: str, band: tuple[float, float] | None) -> None:
    """A band may stand in any order; without a unit it is in that of the log."""
    read = pit_band_c(text, unit)
    assert read == (None if band is None else pytest.approx(band, abs=0.05))


@pytest.mark.parametrize(
    ("text", "unit", "value_c"),
    [
        ("71", "C", 71.0), ("71,5", "C", 71.5), ("160", "F", 71.1), ("160F", "C", 71.1), ("-4", "F", -20.0),
        (".5", "C", 0.5), ("71 \u00b0C", "F", 71.0), ("~157", "F", 69.4), ("about 157 F", "C", 69.4),
        ("nan", "C", None), ("inf", "C", None), ("1e2", "C", None),
        ("999", "F", None), ("71 72", "C", None), ("ERR", "F", None), ("-", "F", None), ("--5", "C", None),
    ],
)  # fmt: skip
def test_temperatures_are_what_a_probe_may_read(text: str, unit: str, value_c: float | None) -> None:
    """Numbers that stand for an error, and words, are no temperatures."""
    assert temp_c(text, unit, 130.0) == (None if value_c is None else pytest.approx(value_c, abs=0.05))


@pytest.mark.parametrize(
    ("text", "wrap"),
    [
        ("none", Wrap.NONE), ("Bare", Wrap.NONE), ("paper", Wrap.PAPER), ("butcher paper", Wrap.PAPER),
        ("FOIL", Wrap.FOIL), ("foil boat", Wrap.BOAT), ("boat", Wrap.BOAT), ("leaves", None), ("", None),
    ],
)  # fmt: skip
def test_wraps_by_their_names(text: str, wrap: Wrap | None) -> None:
    """Four wraps are known; others are none."""
    assert wrap_of(text) == wrap


@pytest.mark.parametrize(
    ("cell", "events"),
    [
        ("on", (MeatOn(),)), ("wrap foil", (Covered(wrap=Wrap.FOIL),)),
        ("Wrapped in paper", (Covered(wrap=Wrap.PAPER),)),
        ("wrap boat", (Covered(wrap=Wrap.BOAT),)), ("unwrap", (Covered(wrap=Wrap.NONE),)),
        ("spritz", (Opened(kind=Opening.SPRITZ),)), ("LID", (Opened(kind=Opening.LID),)),
        ("refuel", (Opened(kind=Opening.REFUEL),)), ("pull", (Pulled(),)),
        ("lid ; spritz;wrap foil", (Opened(kind=Opening.LID), Opened(kind=Opening.SPRITZ), Covered(wrap=Wrap.FOIL))),
        ("lid, spritz,wrap foil", (Opened(kind=Opening.LID), Opened(kind=Opening.SPRITZ), Covered(wrap=Wrap.FOIL))),
        ("foil", (Covered(wrap=Wrap.FOIL),)), ("Paper", (Covered(wrap=Wrap.PAPER),)),
        ("boat", (Covered(wrap=Wrap.BOAT),)), ("wrapped foil", (Covered(wrap=Wrap.FOIL),)),
        ("foiled", (Covered(wrap=Wrap.FOIL),)), ("butcher paper on", (Covered(wrap=Wrap.PAPER),)),
        ("foil off", (Covered(wrap=Wrap.NONE),)),
        ("lid,pit 135,5C", (Opened(kind=Opening.LID), PitSet(low_c=135.5, high_c=135.5))),
        ("", ()), (" ; ", ()), (" , ;", ()),
    ],
)  # fmt: skip
def test_events_are_read_one_by_one(cell: str, events: tuple[Event, ...]) -> None:
    """Each event of the list is known in its usual spellings; semicolons or commas part several."""
    assert read_events(cell, "F") == (events, ())


def test_a_pit_event_carries_its_band() -> None:
    """The pit may be set to one value or a band, in any unit."""
    (one, band), unknown = read_events("pit 275F; pit 120-135C", "F")
    assert one == PitSet(low_c=135.0, high_c=135.0)
    assert band == PitSet(low_c=120.0, high_c=135.0)
    assert unknown == ()


def test_unknown_events_are_handed_back_as_written() -> None:
    """What is not known is named and does not hide its neighbours."""
    events, unknown = read_events("Sang a song; lid, wrap leaves; pit hot, no, wrap", "F")
    assert events == (Opened(kind=Opening.LID),)
    assert unknown == ("Sang a song", "wrap leaves", "pit hot", "no", "wrap")
