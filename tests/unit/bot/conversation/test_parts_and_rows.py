"""Of how many it is so, a row of numbers of like pieces, and words that only sound like an answer."""

from __future__ import annotations

import pytest

from bot.commands import Done, FeelSaid, Note
from bot.conversation.interpreter import read
from scheduler.facts import Feel
from tests.unit.bot.conversation.spoken import celsius, plain, setting

LATE = "unit=F last_core=188F@13:10 pit_target=250F"
BIRDS = "unit=F last_core=165F@13:40 pit_target=325F each=2"


@pytest.mark.parametrize(
    "text",
    [
        "slides in 2 of 3", "prob slides lik buttr in 2 of 3", "slides in two of three", "tender in 2 out of 3 spots",
        "like butter in most of it", "mostly tender", "slides in at most spots", "2 of 3 racks bend",
        "tender in some spots", "slides in 2/3", "slides in except the point", "slides in except the flat",
        "like butter except the corner", "only tender in the flat, not the point", "just in the flat it slides in",
    ],
)  # fmt: skip
def test_tender_in_a_part_is_not_tender(text: str) -> None:
    """Where it is not so everywhere it is almost, and nothing in the text is a temperature."""
    said = read(text, setting(LATE, "tender_test"))
    feels = [intent for intent in said if isinstance(intent, FeelSaid)]
    assert feels
    assert not [one for one in feels if one.feel is Feel.TENDER]
    assert "reading" not in plain(said)
    assert "unclear" not in plain(said)


@pytest.mark.parametrize("text", ["slides in 3 of 3", "like butter everywhere", "slides right in", "all 3 bend"])
def test_tender_everywhere_is_tender(text: str) -> None:
    """Three of three are all."""
    said = read(text, setting(LATE, "tender_test"))
    assert [intent.feel for intent in said if isinstance(intent, FeelSaid)] == [Feel.TENDER]


@pytest.mark.parametrize(
    "text",
    [
        "I can't read it, hands full of grease", "hands full", "my plate is full", "the garden is full of people",
        "lots of guests here", "little one is crying", "tons of flies", "sink is full", "i have had enough of the rain",
    ],
)  # fmt: skip
def test_words_of_something_else_tell_nothing_of_the_fuel(text: str) -> None:
    """How full anything else is leaves the question about the fuel open."""
    said = read(text, setting("unit=F last_core=150F@13:10 pit_target=250F", "fuel_check"))
    assert not [intent for intent in said if isinstance(intent, Done) and intent.step == "fuel_check"]


@pytest.mark.parametrize(
    ("text", "left"),
    [
        ("plenty", "plenty"), ("still plenty left", "plenty"), ("full", "plenty"), ("basket is full", "plenty"),
        ("half full", "half"), ("about half", "half"), ("charcoal half gone", "half"), ("low", "low"),
        ("getting low", "low"), ("it's pretty low", "low"), ("lots", "plenty"), ("gas bottle half", "half"),
        ("loads left in the hopper", "plenty"), ("enough till morning", "plenty"),
    ],
)  # fmt: skip
def test_how_much_fuel_is_left(text: str, left: str) -> None:
    """An answer that names the fuel, or says nothing else, is one."""
    said = read(text, setting("unit=F last_core=150F@13:10 pit_target=250F", "fuel_check"))
    assert [intent.outcome for intent in said if isinstance(intent, Done)] == [left]


@pytest.mark.parametrize("asked", ["core_read", "second_spot", ""])
@pytest.mark.parametrize("text", ["158, 160", "158 and 160", "158/160", "158 160", "158 & 160"])
def test_a_row_of_numbers_of_two_birds_is_two_cores(text: str, asked: str) -> None:
    """Of like pieces of which each is read both are kept, also where one is under the last; none is asked about."""
    assert plain(read(text, setting(BIRDS, asked))) == "reading core 70.0, core 71.1"


def test_a_pit_beside_a_bird_stays_the_pit() -> None:
    """A figure where the pit is to be is the pit."""
    assert plain(read("322 160", setting(BIRDS, "core_read"))) == "reading pit 161.1, core 71.1"


def test_three_of_three() -> None:
    """Three birds, three numbers."""
    said = plain(read("158, 160, 171", setting(BIRDS.replace("each=2", "each=3"), "core_read")))
    assert said == "reading core 70.0, core 71.1, core 77.2"


@pytest.mark.parametrize(
    ("text", "core"),
    [
        ("hundert achtzig", "180F"), ("hundert fünfundachtzig", "185F"), ("hundertachtzig", "180F"),
        ("ein hundert achtzig", "180F"), ("hundert und achtzig", "180F"), ("up 5 to 171", "171F"),
        ("up 5 degrees to 171", "171F"), ("up 3, now 171", "171F"), ("dropped 2 to 169", "169F"),
    ],
)  # fmt: skip
def test_one_number_in_several_words(text: str, core: str) -> None:
    """A number said in pieces, or with how far it went, is one reading."""
    assert (
        plain(read(text, setting("unit=F last_core=166F@13:10 pit_target=250F", "core_read")))
        == f"reading core {celsius(core):.1f}"
    )


@pytest.mark.parametrize("text", ["Fleisch liegt auf", "Das Fleisch liegt auf", "Fleisch liegt jetzt auf"])
def test_meat_that_lies_on_in_german(text: str) -> None:
    """The meat went on; on a board it did not."""
    assert plain(read(text, setting("unit=C stage=fire"))) == "done meat_on"
    assert "meat_on" not in plain(read("Fleisch liegt auf dem Brett", setting("unit=C stage=fire")))


def test_no_deed_of_several_vanishes() -> None:
    """Each deed of one text is told, a choice beside it or not; a short answer still only echoes a fuller one."""
    text = "lit, smoke thin, probe in, meat on, raw side washed"
    for asked in ("light", "smoke_clean raw_cleanup probe_in", ""):
        said = read(text, setting("unit=F stage=fire", asked))
        steps = [intent.step for intent in said if isinstance(intent, Done)]
        assert steps == ["light", "smoke_clean", "probe_in", "meat_on", "raw_cleanup"]


@pytest.mark.parametrize(
    "text", ["we're 14 not 8", "we are 14, not 8", "there are 14 of us not 8", "sorry, we're 14 not 8"]
)
def test_so_many_guests_not_as_many(text: str) -> None:
    """Guests put right are guests, no reading; a number of a probe put right stays one."""
    for asked in ("core_read", ""):
        assert plain(read(text, setting("unit=F last_core=160F@13:10 pit_target=250F", asked))).startswith("guests 14")
    assert "guests" not in plain(read("we're 171 not 117", setting(LATE, "core_read")))
    assert "guests" not in plain(read("we're 34 not 43", setting("unit=C last_core=30C@13:10 pit_target=121C")))


@pytest.mark.parametrize("text", ["hab grad 3 schaufeln nachgelegt", "3 Schaufeln Kohle nachgelegt"])
def test_shovels_of_charcoal_in_german(text: str) -> None:
    """Fuel was added: no choice of how much is left."""
    said = plain(read(text, setting("unit=C last_core=66C@13:10 pit_target=121C", "fuel_check")))
    assert said == plain(read("added charcoal", setting("unit=C last_core=66C@13:10 pit_target=121C", "fuel_check")))
    assert "not_understood" not in said


@pytest.mark.parametrize("text", ["5 til 2: 170", "5 to 2: 170", "5 till 2, 170", "5 til 2 170"])
def test_minutes_to_the_hour_before_a_number(text: str) -> None:
    """The time when it was read, and what was read then."""
    said = read(text, setting("unit=F last_core=160F@13:10 pit_target=250F now=14:05", "core_read"))
    assert plain(said) == "reading core 76.7 at 13:55"


def test_what_is_not_taken_of_several_deeds_is_named() -> None:
    """A part of a text that nothing took is kept as a note beside the deeds, in its own words."""
    said = read("lit, smoke thin, the hinge is greased, meat on", setting("unit=F stage=fire"))
    assert [intent.text for intent in said if isinstance(intent, Note)] == ["the hinge is greased"]
    assert len([intent for intent in said if isinstance(intent, Done)]) == 3
