"""Somebody cannot do their watch, or calls another one to the fire: who is asked, who is told, who keeps it."""

from __future__ import annotations

import pytest

from tests.acceptance.test_crew_night import evening, evening_once, night
from tests.fakes.kitchen import PlayedKitchen, chat

__all__ = ("evening", "evening_once", "night")


@pytest.mark.parametrize("text", ["I can't do my watch", "I'm leaving", "can somebody take over?", "ich muss weg"])
def test_the_watch_that_somebody_has_is_offered_on(night: PlayedKitchen, text: str) -> None:
    """Tomas has the watch and cannot go on: Bashir is asked by sound, Tomas keeps it, Ines is told."""
    said = night.say("Tomas", text, room=chat("Tomas"))
    assert said.lines[0].startswith("Bashir is asked. You have the watch until")
    assert night.situation.state.watch_holder(night.now) == "Tomas"
    assert "I have it" in night.told(chat("Bashir"))[0].labels
    (told,) = night.told(chat("Ines"), "relief")
    assert told.lines[0] == "Tomas cannot go on with the watch. Bashir is asked; Tomas keeps it until then."


def test_a_watch_to_come_stays_with_its_owner_until_somebody_takes_it(evening: PlayedKitchen) -> None:
    """Bashir cannot come at half past two: he keeps the watch on the list, and the lead is asked who takes it."""
    said = evening.say("Bashir", "I can't do my watch", room=chat("Bashir"))
    assert "stays yours" in said.text
    (told,) = evening.told(chat("Ines"), "relief")
    assert "Bashir cannot do the watch from Sun 02:30 to Sun 07:00. Who takes it?" in told.text
    assert evening.situation.state.watches is not None
    assert {one.name for one in evening.situation.state.watches.watches} == {"Tomas", "Bashir"}


@pytest.mark.parametrize("text", ["wake Ines", "Ines has to come", "call the lead", "weck Ines"])
def test_the_watch_wakes_somebody_by_name(night: PlayedKitchen, text: str) -> None:
    """At half past one Tomas calls Ines: her telephone rings, nobody else's."""
    said = night.say("Tomas", text, room=chat("Tomas"))
    assert said.lines[0] == "Ines is called now, by sound."
    (told,) = night.told(chat("Ines"), "call")
    assert told.text == "Ines: Tomas asks you to come to the fire now."
    assert not told.outgoing.silent
    assert night.told(chat("Bashir")) == []


def test_who_has_no_watch_hears_so(evening: PlayedKitchen) -> None:
    """The host leaves nothing behind that somebody must take."""
    assert evening.say("Wren", "I'm leaving", room=chat("Wren")).lines[0].startswith("You have no watch on my list.")
