"""Numbers that cannot be: refused kindly, nothing is lost, nothing is called safe by them."""

from __future__ import annotations

import pytest

from tests.fakes.kitchen import PlayedKitchen, on


@pytest.mark.parametrize("text", ["meat 500f", "meat 500c", "meat -10c", "pit -40"])
def test_an_impossible_temperature_is_asked_about(ribs: PlayedKitchen, text: str) -> None:
    """Not believed, said so, asked again; the log has no reading of it and nothing is safe by it."""
    before = len(ribs.cook.facts)
    answer = ribs.say("Ines", text).text
    assert "is not a temperature I can believe" in answer
    assert "reading" not in [fact.body.kind for fact in ribs.cook.facts[before:]]
    assert "Measured safe" not in ribs.say("Ines", "is it safe").text


def test_a_reading_from_the_future_is_no_reading(ribs: PlayedKitchen) -> None:
    """Told for a time that is still to come: nothing is written as read then."""
    ribs.until(on("12:00"))
    ribs.say("Ines", "meat 170 at 13:00")
    assert all(fact.happened_at <= ribs.now for fact in ribs.cook.facts)


def test_a_core_from_before_the_meat_was_on_says_nothing_of_it(planned: PlayedKitchen) -> None:
    """Asked when the meat went on, nothing is written as read: the answer to "is it safe" stays unknown."""
    before = len(planned.cook.facts)
    answer = planned.say("Ines", "meat 165").text
    assert answer.startswith("As far as I know the meat is not on yet. When did it go on?")
    assert "reading" not in [fact.body.kind for fact in planned.cook.facts[before:]]
    assert planned.say("Ines", "is it safe").text.startswith("Unknown: ")


@pytest.mark.parametrize("words", ["178 at 23:00", "at 11pm it was 178", "pit 275 at 18:30", "178 at 9:15"])
def test_a_reading_at_a_time_to_come_is_answered_so(ribs: PlayedKitchen, words: str) -> None:
    """The time that has not come is named, with what works instead; nothing but a note is kept."""
    before = len(ribs.cook.facts)
    answer = ribs.say("Ines", words)
    clock = {"178 at 23:00": "23:00", "at 11pm it was 178": "23:00", "pit 275 at 18:30": "18:30"}.get(words, "09:15")
    number = "275" if words.startswith("pit") else "178"
    assert answer.lines[0] == f"{clock} has not come yet. Say the time it was read, or just {number}."
    assert words in ribs.notes
    assert {fact.body.kind for fact in ribs.cook.facts[before:]} <= {"noted", "told"}
