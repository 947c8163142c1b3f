"""A number that says nothing new gets a sign and the board; whatever was guessed or changes something gets words."""

from __future__ import annotations

import datetime as dt
import sqlite3
from pathlib import Path

import pytest

from bot.chat import OutgoingKind
from bot.ports import Apply, InviteWrite
from bot.store.opening import DATABASE_NAME
from tests.fakes.kitchen import Heard, PlayedKitchen, chat, on

INES = chat("Ines")


@pytest.fixture
def kitchen(tmp_path: Path) -> PlayedKitchen:
    """Return a kitchen in the messenger, an hour after a big piece went on, with its pit read."""
    played = PlayedKitchen(tmp_path, on("06:00"), link_prefix="https://example.org/")
    code = InviteWrite(code="letmeinnow", role="owner", expires_at=played.now + dt.timedelta(days=1))
    played.store.apply(Apply(now=played.now, invites=(code,)))
    played.say("Ines", "/start letmeinnow", room=INES)
    played.say("Ines", "brisket 12 lb, dinner 23:30, pit 250F", room=INES)
    played.say("Ines", "no guests at risk", room=INES)
    played.now = on("07:00")
    played.say("Ines", "meat on", room=INES)
    played.now = on("07:40")
    played.say("Ines", "washed down, pit 250", room=INES)
    return played


def typed(kitchen: PlayedKitchen, text: str) -> list[Heard]:
    """Return what Ines is sent for a text typed five minutes later, but for the board."""
    kitchen.now += dt.timedelta(minutes=5)
    return [heard for heard in kitchen.mutter("Ines", text, room=INES) if heard.sort != "board"]


def test_a_plain_number_is_acknowledged_by_a_sign(kitchen: PlayedKitchen) -> None:
    """No message at all: the sign stands under what was typed, and the board shows the number and its time."""
    (sign,) = typed(kitchen, "pit 251")
    assert sign.outgoing.kind is OutgoingKind.REACTION
    boards = [heard for heard in kitchen.new if heard.sort == "board"]
    assert "Pit 251 F at 07:45 (just now)" in boards[-1].text


@pytest.mark.parametrize("text", ["pit 2 51", "251ish pit", "251", "pit 121.7c in the shade?", "pit 251 and it rains"])
def test_what_was_guessed_or_says_more_is_answered_in_words(kitchen: PlayedKitchen, text: str) -> None:
    """A mended number, a wide one, one whose probe was guessed, a question, news beside it: never a bare sign."""
    assert [heard.outgoing.kind for heard in typed(kitchen, text)] == [OutgoingKind.MESSAGE]


def test_a_number_that_changes_something_is_answered_in_words(kitchen: PlayedKitchen) -> None:
    """A pit far off what it should hold brings advice: that is worth a message."""
    (told,) = typed(kitchen, "pit 310")
    assert told.outgoing.kind is OutgoingKind.MESSAGE
    assert "310 F" in told.text


def test_in_a_window_of_the_terminal_a_line_is_printed(tmp_path: Path) -> None:
    """There are no signs on paper: the number is answered by its line."""
    kitchen = PlayedKitchen(tmp_path, on("06:00"))
    kitchen.opens("Ines")
    kitchen.say("Ines", "brisket 12 lb, dinner 23:30, pit 250F")
    kitchen.now = on("07:00")
    kitchen.say("Ines", "meat on")
    kitchen.now = on("07:40")
    assert kitchen.say("Ines", "pit 250").text.startswith("Pit 250 F, 07:40.")


def asked(kitchen: PlayedKitchen, until: str) -> Heard:
    """Return the newest prompt with buttons that comes by itself until a time."""
    kitchen.until(on(until))
    return next(h for h in reversed(kitchen.heard) if h.sort == "prompt" and h.labels)


def pressed(kitchen: PlayedKitchen, label: str) -> list[Heard]:
    """Return what Ines is sent for a button, but for the board and the end of its waiting."""
    sent = kitchen.does(kitchen.tapped("Ines", kitchen.token(label, INES), room=INES))
    return [heard for heard in sent if heard.sort not in {"board", "tap"}]


def test_a_pressed_button_is_answered_in_its_question(kitchen: PlayedKitchen) -> None:
    """No further message: the question says who did what and when, and the button is gone; others stay."""
    question = asked(kitchen, "09:40")
    label = next(one for one in question.labels if one not in {"Cannot read it now", "Skip it"})
    (changed,) = pressed(kitchen, label)
    assert changed.outgoing.kind is OutgoingKind.EDIT
    assert changed.outgoing.target == question.outgoing.key
    assert changed.text.startswith(question.text)
    assert changed.last.startswith("Ines: ")
    assert label not in changed.labels


def test_a_button_that_is_gone_from_the_question_still_answers_kindly(kitchen: PlayedKitchen) -> None:
    """Somebody whose screen is old presses it once more: nothing is written twice."""
    question = asked(kitchen, "09:40")
    label = next(one for one in question.labels if one not in {"Cannot read it now", "Skip it"})
    token = kitchen.token(label, INES)
    kitchen.does(kitchen.tapped("Ines", token, room=INES))
    before = len(kitchen.situation.state.done)
    kitchen.does(kitchen.tapped("Ines", token, room=INES))
    assert len(kitchen.situation.state.done) == before


def test_where_signs_are_refused_everything_is_said(kitchen: PlayedKitchen) -> None:
    """A chat that allows no reactions: after the first refusal a plain number is answered by its line."""
    (sign,) = typed(kitchen, "pit 251")
    with sqlite3.connect(kitchen.folder / DATABASE_NAME) as connection:
        connection.execute("UPDATE outbox SET lack = 'reaction' WHERE key = ?", (sign.outgoing.key,))
    connection.close()
    (told,) = typed(kitchen, "pit 252")
    assert told.outgoing.kind is OutgoingKind.MESSAGE
    assert told.text.startswith("Pit 252 F, 07:50.")
