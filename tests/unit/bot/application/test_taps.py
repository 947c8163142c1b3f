"""Pressed buttons: answered at once, meaning what they said when they were shown, or nothing any more."""

from __future__ import annotations

import pytest

from bot.chat import OutgoingKind
from tests.fakes.kitchen import PlayedKitchen, chat, on, window
from tests.unit.bot.application.conftest import RIBS

OLD = "That button is from an older question; nothing was changed."


def test_a_tap_is_answered_and_ends_the_waiting(planned: PlayedKitchen) -> None:
    """A pressed button brings the receipt, and the answer to the tap itself goes first."""
    planned.until(on("08:20"))
    answer = planned.tap("Ines", "Lit")
    assert answer.lines[0] == "Lit, 08:20."
    waits = [heard for heard in planned.new if heard.outgoing.kind is OutgoingKind.TAP_ANSWER]
    assert [heard.outgoing.urgent for heard in waits] == [True]
    assert planned.new[0] is waits[0]


def test_an_unknown_token(planned: PlayedKitchen) -> None:
    """A token that was never given out changes nothing; it is answered in one sentence and with what comes next."""
    length = len(planned.cook.facts)
    sent = planned.does(planned.tapped("Ines", "0000000000000000"))
    assert [heard.lines[0] for heard in sent if heard.sort == "answer"] == [OLD]
    assert [heard.last[:6] for heard in sent if heard.sort == "answer"] == ["Next: "]
    assert [heard.sort for heard in sent].count("tap") == 1
    assert len(planned.cook.facts) == length


def test_a_token_of_another_room(planned: PlayedKitchen) -> None:
    """A button that was shown in one room does nothing when its token comes from another."""
    planned.until(on("08:20"))
    token = planned.token("Lit", window("Ines"))
    sent = planned.does(planned.tapped("Tomas", token))
    assert [heard.lines[0] for heard in sent if heard.sort == "answer"] == [OLD]
    assert planned.situation.state.did("light") is None


def test_a_button_of_an_older_message_still_says_what_it_said(planned: PlayedKitchen) -> None:
    """Covered by a newer message, a button of the same cook keeps its meaning."""
    planned.until(on("08:20"))
    token = planned.token("Lit", window("Ines"))
    planned.until(on("08:40"))
    sent = planned.does(planned.tapped("Ines", token))
    assert next(heard for heard in sent if heard.sort == "answer").lines[0] == "Lit, 08:40."


def test_a_button_pressed_twice(planned: PlayedKitchen) -> None:
    """The second press is thanked, not counted."""
    planned.until(on("08:20"))
    planned.tap("Ines", "Lit")
    assert planned.tap("Ines", "Lit").lines[0] == "I have that down at 08:20 already: light the fire."


def test_a_button_of_a_cook_that_is_over(planned: PlayedKitchen) -> None:
    """After a cook its buttons are old: they do nothing in the next one."""
    planned.until(on("08:20"))
    token = planned.token("Lit", window("Ines"))
    planned.say("Ines", "call it off")
    planned.tap("Ines", "Yes, call it off")
    planned.say("Ines", RIBS.replace("18:00", "19:00"))
    sent = planned.does(planned.tapped("Ines", token))
    assert next(heard for heard in sent if heard.sort == "answer").lines[0] == OLD
    assert planned.situation.state.did("light") is None


def test_all_done_closes_every_tick(kitchen: PlayedKitchen) -> None:
    """One tap closes every tick of a trip; what asks for a choice stays open."""
    kitchen.say("Ines", "brisket 6 kg, dinner 18:00 tomorrow, pit 250")
    kitchen.later(45)
    answer = kitchen.tap("Ines", "All done")
    assert "Cooker clean, probes tested, trimmed, salted, kit is out, weather looked at" in answer.lines[0]
    assert kitchen.situation.waiting == ()


@pytest.mark.parametrize(
    ("typed", "said"), [("cooker clean", "Cooker clean"), ("kit is out", "Kit is out"), ("c", "Probes tested")]
)
def test_item_by_item(kitchen: PlayedKitchen, typed: str, said: str) -> None:
    """Each item of a trip can be closed by itself, by its label or its letter; the others stay open."""
    kitchen.say("Ines", "brisket 6 kg, dinner 18:00 tomorrow, pit 250")
    kitchen.later(45)
    assert kitchen.say("Ines", typed).lines[0].startswith(said)
    assert len(kitchen.situation.waiting) == 5


def test_somebody_outside_who_taps(planned: PlayedKitchen) -> None:
    """A stranger's tap is refused without a word."""
    planned.until(on("08:20"))
    token = planned.token("Lit", window("Ines"))
    sent = planned.does(planned.tapped("Wren", token, room=chat("Wren")))
    assert [heard.text for heard in sent] == []
    assert planned.situation.state.did("light") is None
