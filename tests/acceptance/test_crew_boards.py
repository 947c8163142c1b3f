"""What each of a crew sees in private: all of it at the fire, others what is theirs, a guest when there is dinner."""

from __future__ import annotations

import pytest

from tests.acceptance.test_crew_night import HARROW_LANE, evening, evening_once, invited
from tests.fakes.kitchen import PlayedKitchen, chat, on

__all__ = ("evening", "evening_once")


@pytest.fixture
def large(evening: PlayedKitchen) -> PlayedKitchen:
    """Return the crew with a carver, a helper and a guest who came by links."""
    for name, role in (("Kim", "carver"), ("Sam", "helper"), ("Zoe", "guest")):
        invited(evening, name, role)
    return evening


def board_of(kitchen: PlayedKitchen, name: str) -> str:
    """Return the board that stands in somebody's private chat."""
    return [one for one in kitchen.heard if one.room == chat(name) and one.sort == "board" and one.text][-1].text


def test_a_guest_sees_dinner_and_nothing_of_the_work(large: PlayedKitchen) -> None:
    """Board and greeting of a guest: when people eat and when the meat is ready; no steps, watch or open work."""
    large.until(on("20:20"))
    welcome = next(one.text for one in large.heard if one.room == chat("Zoe") and one.sort == "answer")
    for text in (board_of(large, "Zoe"), welcome):
        assert "Dinner Sun 18:00" in text
        assert not any(word in text for word in ("Open:", "Watch:", "Next:", "cannot be woken")), text


def test_a_carver_sees_the_own_work_and_a_watch_everything(large: PlayedKitchen) -> None:
    """The carver's board names board and knife; the watch sees what is open as the group does."""
    assert "Yours next:" in board_of(large, "Kim")
    assert "clean the cooker" not in board_of(large, "Kim")
    assert "clean the cooker" in board_of(large, "Tomas")


@pytest.mark.parametrize("text", ["what do I have to do", "what's my job", "was muss ich tun"])
def test_what_do_i_have_to_do_is_answered_by_role(large: PlayedKitchen, text: str) -> None:
    """The carver hears of slicing, the helper of the kit, who leads of the next message."""
    kim = large.say("Kim", text, room=chat("Kim")).text
    assert "Yours next:" in kim
    assert "light the fire" not in kim
    assert "Yours now:" in large.say("Sam", text, room=chat("Sam")).text
    assert "Next: " in large.say("Ines", text, room=chat("Ines")).text


def test_board_and_message_name_the_same(large: PlayedKitchen) -> None:
    """Whoever the board names for the fire is whom the message in the group calls."""
    large.until(on("21:40"))
    board = [one for one in large.heard if one.room == HARROW_LANE and one.sort == "board" and one.text][-1]
    line = next(line for line in board.lines if line.startswith("Next: "))
    (prompt,) = [one for one in large.until(on("21:46")) if one.room == HARROW_LANE and one.sort == "prompt"]
    named = line.rpartition("(")[2].rstrip(").")
    assert set(prompt.lines[0].rstrip(":").split(", ")) == set(named.split(", "))
