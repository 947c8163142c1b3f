"""A chat that is back hears people in danger first."""

from __future__ import annotations

from bot.application.stale import stands
from bot.messages.figures import Voice
from tests.fakes.kitchen import PlayedKitchen, on


def test_open_danger_stands_before_the_plan(ribs: PlayedKitchen) -> None:
    """A burn told while somebody was away, and not over: its card first, whole; once over it is gone."""
    ribs.until(on("10:40"))
    ribs.say("Ines", "I burned my hand")
    voice = Voice(zone="UTC", unit="F", now=on("10:41"))
    said = stands(ribs.situation, voice, "You are back.")
    assert said.text.startswith("Cool the burn now")
    assert "You are back." in said.text
    ribs.say("Ines", "it is over")
    assert stands(ribs.situation, voice, "You are back.").text.startswith("You are back.")
