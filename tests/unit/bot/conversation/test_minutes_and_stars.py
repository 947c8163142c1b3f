"""Spans without a unit are minutes, never a temperature; stars, names and dying fires beside figures."""

from __future__ import annotations

import pytest

from bot.commands import Correct, Report, Trouble
from bot.conversation.interpreter import read
from bot.conversation.parsing.words import tidy
from scheduler.facts import Slot
from tests.unit.bot.conversation.spoken import celsius, plain, setting

MOMENTS = ("unit=F last_core=150F@13:10 pit_target=250F", "unit=C last_core=66C@13:10 pit_target=121C")


@pytest.mark.parametrize("moment", MOMENTS)
@pytest.mark.parametrize(
    ("text", "minutes"),
    [
        ("lid was open for 15", 15), ("had the lid open 12 min", 12), ("lid open 10", 10), ("lid off for 20", 20),
        ("door was open 15", 15), ("lid was up for 12", 12), ("had it open for 10", 10),
        ("opened the lid for 15", 15), ("lid has been open 15", 15), ("left the door open for 25", 25),
        ("left the lid off 15", 15), ("kid had the lid up for 12", 12), ("lid's been open about 15", 15),
        ("lid open for 90", 90), ("lid wide open like 20", 20), ("lid stayed open ~8", 8), ("Deckel war 15 offen", 15),
        ("Deckel stand 15 min offen", 15), ("deckel offen 20", 20), ("lid was open for an hour", 60),
    ],
)  # fmt: skip
def test_how_long_the_lid_was_open(text: str, minutes: int, moment: str) -> None:
    """It is told as a lid that was open, with its minutes; nothing is read off a thermometer."""
    found = read(text, setting(moment))
    assert [intent.what for intent in found if isinstance(intent, Trouble)] == ["lid_open"]
    assert not [intent for intent in found if isinstance(intent, Report)]
    assert f"open for {minutes} min" in tidy(text).replace("an hour", "60 min")


@pytest.mark.parametrize("moment", MOMENTS)
@pytest.mark.parametrize(
    "text",
    [
        "i was away for 40", "was gone for 45", "stalled for 90", "been stuck for 90", "asleep for 60",
        "it rained for 40", "probe was out for 20", "vents shut for 15", "rested for 40", "power was off for 20",
    ],
)  # fmt: skip
def test_how_long_something_was_so(text: str, moment: str) -> None:
    """None of these is a reading, and no question "the meat or the pit?" follows."""
    said = plain(read(text, setting(moment)))
    assert "reading" not in said
    assert "ask" not in said


@pytest.mark.parametrize(
    ("text", "pit"),
    [
        ("lid open 215", "215F"), ("lid open, 215", "215F"), ("lid was open for 15, pit 215", "215F"),
        ("pit 240 lid was open for 15", "240F"), ("lid 250", "250F"), ("lid open 80 C", "80C"),
    ],
)  # fmt: skip
def test_a_temperature_beside_an_open_lid_is_the_pit(text: str, pit: str) -> None:
    """A figure with a unit, or one too high for minutes, stays a reading; the minutes beside it are none."""
    values = [
        value for intent in read(text, setting(MOMENTS[0])) if isinstance(intent, Report) for value in intent.values
    ]
    assert [round(value.value_c, 1) for value in values] == [round(celsius(pit), 1)]


@pytest.mark.parametrize("text", ["stuck at 160", "stalled at 160"])
def test_where_it_is_stuck_is_a_reading(text: str) -> None:
    """The word "at" says where, not how long."""
    (first, *_) = [i for i in read(text, setting(MOMENTS[0])) if isinstance(i, Report)]
    assert [round(value.value_c, 1) for value in first.values] == [71.1]


def test_a_deed_beside_an_open_lid_counts() -> None:
    """The spritz is written down, the lid too."""
    said = plain(read("spritzed, lid was open for 8", setting(MOMENTS[0])))
    assert "lid_open" in said
    assert "done spritz" in said


FAMILIES = "unit=F last_core=150F@13:10 pit_target=250F"


@pytest.mark.parametrize("asked", ["tender_test", "bark_check", "core_read"])
@pytest.mark.parametrize(
    ("text", "minutes"),
    [
        ("noch nicht ganz, nochmal 20 min", 20), ("nochmal 20 min", 20), ("noch nicht, 20 Minuten", 20),
        ("noch nicht fertig, gib mir noch ne Viertelstunde", 15), ("noch 'ne halbe Stunde", 30),
        ("not yet, 20 min", 20),
    ],
)  # fmt: skip
def test_not_yet_with_its_minutes(text: str, minutes: int, asked: str) -> None:
    """The minutes are kept, in German as in English, and nothing else is said."""
    assert plain(read(text, setting(FAMILIES, asked))) == f"ask {asked} again in {minutes} min"


@pytest.mark.parametrize(
    ("text", "read_as"),
    [
        ("fire's dying, 180", "pit 82.2"), ("fire is nearly out 210", "pit 98.9"), ("out of charcoal, 190", "pit 87.8"),
        ("fire's dying, meat 150", "core 65.6"), ("fire going out, pit 180", "pit 82.2"),
    ],
)  # fmt: skip
def test_a_figure_beside_a_dying_fire_is_the_pit(text: str, read_as: str) -> None:
    """Without a word of which probe it is what the fire gives; a word of the meat wins."""
    assert f"reading {read_as}" in plain(read(text, setting("unit=F pit_target=250F")))


@pytest.mark.parametrize(
    ("text", "slot", "value"),
    [("*pit 255", Slot.PIT, 123.9), ("pit 255*", Slot.PIT, 123.9), ("* core 166", Slot.CORE, 74.4)],
)
def test_a_star_beside_a_figure_with_its_probe(text: str, slot: Slot, value: float) -> None:
    """It corrects the reading of that probe."""
    (said,) = read(text, setting(FAMILIES))
    assert isinstance(said, Correct)
    assert (said.slot, round(said.value_c or 0.0, 1)) == (slot, value)


@pytest.mark.parametrize(
    "text", ["tomas says 1:20 not 1:40", "ines says it went on at 1:20 not 1:40", "he reckons 1:20, not 1:40"]
)
def test_somebody_else_says_which_time_is_right(text: str) -> None:
    """Whoever says so, the first of two times is the right one."""
    assert plain(read(text, setting(FAMILIES))) == plain(read("1:20 not 1:40", setting(FAMILIES)))


def test_done_at_a_figure_where_the_core_is_asked() -> None:
    """Asked for the feel and the number, "done at 203" is the number; unasked it is where it is to come off."""
    assert plain(read("done at 203", setting("unit=F last_core=198F@13:10", "tender_test"))) == "reading core 95.0"
    assert plain(read("done at 203", setting("unit=F last_core=198F@13:10"))) == "off at 95.0"
