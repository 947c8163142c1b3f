"""A crew's night, as each person saw it: Ines leads, Tomas and Bashir watch, Wren is host; a group and private chats.

The evening's test of the wake-ups, a question for who decides, a claim, a handover with a nod and a button, nobody
answering, and how often each telephone rang.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from pathlib import Path

import pytest

from bot.chat import Address, IncomingKind
from tests.fakes.kitchen import Heard, PlayedKitchen, chat, group, on, window

HARROW_LANE = group("Harrow Lane")
NAMES = ("Ines", "Tomas", "Bashir", "Wren")


def loud(sent: list[Heard]) -> Counter[str]:
    """Return how often each room was rung, taps and answers to somebody left out."""
    asked = [one for one in sent if one.sort not in {"answer", "board", "tap"}]
    return Counter(one.room.chat for one in asked if not one.outgoing.silent)


def invited(kitchen: PlayedKitchen, name: str, role: str) -> Heard:
    """Somebody comes in by a link that Ines asked for."""
    text = kitchen.say("Ines", f"invite {name} as {role}", room=chat("Ines")).text
    found = re.search(r"start=(\S+)", text)
    assert found
    return kitchen.say(name, f"/start {found[1]}", room=chat(name))


@pytest.fixture(scope="module")
def evening_once(tmp_path_factory: pytest.TempPathFactory) -> PlayedKitchen:
    """Play until the crew is together, with watches told, at five in the afternoon."""
    kitchen = PlayedKitchen(
        tmp_path_factory.mktemp("crew"), on("17:00"), link_prefix="https://example.org/bell?start="
    )  # fmt: skip
    kitchen.invite("0123456789abcdef", "owner")
    kitchen.say("Ines", "/start 0123456789abcdef", room=chat("Ines"))
    kitchen.does(kitchen.incoming("Ines", HARROW_LANE, IncomingKind.ARRIVED))
    kitchen.say("Ines", "brisket 5 kg, pit 250, dinner tomorrow 18:00", room=HARROW_LANE)
    for name, role in (("Tomas", "watch"), ("Bashir", "watch"), ("Wren", "host")):
        invited(kitchen, name, role)
    kitchen.say("Ines", "Tomas 22:00-02:30, Bashir 02:30-07:00", room=HARROW_LANE)
    kitchen.close()
    return kitchen


@pytest.fixture
def evening(evening_once: PlayedKitchen, tmp_path: Path) -> Iterator[PlayedKitchen]:
    """Return the crew at five in the afternoon."""
    kitchen = evening_once.continued(tmp_path)
    yield kitchen
    kitchen.close()


@pytest.fixture
def night(evening: PlayedKitchen) -> PlayedKitchen:
    """Return the same night at half past one: Tomas has the watch, meat on since eleven, everybody was tested."""
    evening.until(on("20:05"))
    for name in ("Ines", "Tomas", "Bashir"):
        evening.tap(name, "I heard it", room=chat(name))
    evening.until(on("22:05"))
    evening.say("Tomas", "lit", room=chat("Tomas"))
    evening.until(on("23:00"))
    for text in ("smoke thin", "probe is in", "meat on", "raw side washed"):
        evening.say("Tomas", text, room=chat("Tomas"))
    evening.until(on("01:30", 1))
    return evening


def test_a_link_says_for_what_it_is_and_is_spent_once(evening: PlayedKitchen) -> None:
    """Who comes in by a link is greeted with what they may do; the crew is shown by name and role."""
    shown = evening.say("Wren", "who is here", room=chat("Wren")).lines[0]
    assert shown == "Here: Ines (owner), Tomas (watch), Bashir (watch), Wren (host)."


def test_links_can_be_made_useless(evening: PlayedKitchen) -> None:
    """After "cancel invites" an open link lets nobody in."""
    text = evening.say("Ines", "invite a carver", room=chat("Ines")).text
    assert text.startswith("For one person, as carver, once, for a day: https://")
    code = re.search(r"start=(\S+)", text)
    assert code
    evening.say("Ines", "cancel invites", room=chat("Ines"))
    late = evening.mutter("Zoe", f"/start {code[1]}", room=chat("Zoe"))
    assert [one.text for one in late] == ["That code is spent or too old. Ask for a new one."]


def test_a_decision_waits_for_who_decides(evening: PlayedKitchen) -> None:
    """The watch asks for another pit: Ines is asked alone, Tomas hears until when; her yes does it, a late tap is told
    who settled it.
    """
    asked = evening.say("Tomas", "pit to 275", room=chat("Tomas"))
    assert asked.lines[:2] == [
        "Ines decides that, and is asked now: the pit to 275 F.",
        "Answer by 17:20; until then nothing changes. Without an answer: pit and dinner stay as they are.",
    ]
    (question,) = evening.told(chat("Ines"), "lever")
    assert (question.lines[0], question.labels) == ("Tomas asks: the pit to 275 F. Yes or no?", ("Yes", "No"))
    assert evening.told(HARROW_LANE, "lever") == []
    done = evening.tap("Ines", "Yes", room=chat("Ines"))
    assert "Pit to 275 F from now" in done.text
    again = evening.tap("Ines", "No", room=chat("Ines"))
    assert again.lines[0] == "That was settled at 17:00 by Ines. Nothing was changed now."


def test_silent_past_the_deadline_only_the_safe_default(evening: PlayedKitchen) -> None:
    """Nobody decides in time: whoever asked may keep the pit, and nothing else."""
    evening.say("Tomas", "pit to 275", room=chat("Tomas"))
    sent = [one for one in evening.until(on("17:21")) if one.room == chat("Tomas") and one.sort == "silent"]
    assert [one.labels for one in sent] == [("Keep the pit",)]
    assert sent[0].lines[0] == "No answer from Ines: another pit. It is not done."


def test_the_host_decides_about_dinner(evening: PlayedKitchen) -> None:
    """The host moves dinner without asking; another watch's wish goes to the host, not to the lead."""
    assert evening.say("Wren", "dinner at 19:00", room=chat("Wren")).text.startswith("Dinner moved to")
    evening.say("Bashir", "dinner at 20:00", room=chat("Bashir"))
    assert [one.lines[0] for one in evening.told(chat("Wren"), "lever")] == [
        "Bashir asks: dinner at Sun 20:00. Yes or no?"
    ]


def test_the_test_comes_as_a_wake_up_will(evening: PlayedKitchen) -> None:
    """Two hours before the quiet hours each of the watch and the lead is rung alone; who does not answer is named in
    the group with the times for an ordinary alarm clock.
    """
    sent = evening.until(on("20:16"))
    tests = [one for one in sent if one.sort == "sound"]
    assert {one.room for one in tests} == {chat("Ines"), chat("Tomas"), chat("Bashir")}
    assert {(one.outgoing.silent, one.labels) for one in tests} == {(False, ("I heard it",))}
    (named,) = [one for one in sent if one.sort == "deaf" and one.room == HARROW_LANE]
    assert "Tomas did not answer the test in 15 min." in named.lines
    assert "An ordinary alarm clock for Bashir: Sun 02:15." in named.lines
    assert evening.tap("Tomas", "I heard it", room=chat("Tomas")).text.startswith("Good: I can wake you.")
    here = evening.say("Ines", "who is here", room=chat("Ines")).text
    assert "Bashir cannot be woken by a message." in here
    assert "Tomas cannot" not in here


def test_a_claim_is_shown_and_lapses(evening: PlayedKitchen) -> None:
    """A claim gives a quarter of an hour; who says it then hears who has it."""
    mine = evening.say("Tomas", "I got the kit", room=HARROW_LANE)
    assert mine.lines[0].startswith("Yours until 17:15: ")
    other = evening.say("Bashir", "I got the kit", room=HARROW_LANE)
    assert other.lines[0].startswith("Tomas has it until 17:15: ")
    evening.until(on("17:16"))
    assert evening.say("Bashir", "I got the kit", room=HARROW_LANE).lines[0].startswith("Yours until 17:31: ")


def test_only_the_button_takes_the_watch(night: PlayedKitchen) -> None:
    """Tomas goes to bed: he keeps the watch, Bashir gets the card alone and by sound, a "k" is no takeover, the button
    is; then Tomas may sleep.
    """
    said = night.say("Tomas", "ok boss going to bed, Bashir has it", room=chat("Tomas"))
    assert said.lines[0] == (
        'Bashir is asked. You have the watch until somebody taps "I have it": please stay with the fire.'
    )
    (card,) = night.told(chat("Bashir"))
    assert not card.outgoing.silent
    assert "I have it" in card.labels
    assert "Due next:" in card.text
    assert night.told(HARROW_LANE) == []
    night.later(2)
    nod = night.say("Bashir", "k", room=chat("Bashir"))
    assert nod.lines[0] == "A nod is not enough for the watch: Tomas keeps it until you tap."
    assert night.situation.state.watch_holder(night.now) == "Tomas"
    taken = night.tap("Bashir", "I have it", room=chat("Bashir"))
    assert taken.lines[0].startswith("You have the watch")
    assert night.situation.state.watch_holder(night.now) == "Bashir"
    assert [one.lines[0] for one in night.told(chat("Tomas"))] == ["Bashir has the watch since 01:32. Yours is over."]


def test_nobody_takes_it(night: PlayedKitchen) -> None:
    """The card says when the next name is woken, and then it is: Ines by sound, Wren not at all."""
    night.say("Tomas", "going to bed, Bashir has it", room=chat("Tomas"))
    (card,) = night.told(chat("Bashir"))
    assert "If nobody answers by 01:40 I wake Ines." in card.lines
    sent = night.until(on("01:41", 1))
    assert loud(sent)["ines"] == 1
    assert not [one for one in sent if one.room == chat("Wren") and one.sort != "board"]


def test_how_often_each_telephone_rings(night: PlayedKitchen) -> None:
    """With a watch that answers, from eleven to half past one: the watch at most once in three quarters of an hour, the
    lead, the sleeping watch, the host and the group not once.
    """
    since = [one for one in night.heard if on("23:05") <= one.at <= on("01:30", 1)]
    rung = loud(since)
    assert rung["tomas"] <= 4
    assert {name: rung[name] for name in ("ines", "bashir", "wren", HARROW_LANE.chat)} == dict.fromkeys(
        ("ines", "bashir", "wren", HARROW_LANE.chat), 0
    )


def test_a_stop_is_loud_everywhere(night: PlayedKitchen) -> None:
    """Somebody in danger: every room hears it by sound at any hour, whoever tells it."""
    night.say("Wren", "I burned my hand", room=chat("Wren"))
    rooms = {one.room for one in night.new if not one.outgoing.silent and "Cool the burn" in one.text}
    assert rooms == {HARROW_LANE, *(chat(name) for name in NAMES)}


# --- the same in windows of the terminal ----------------------------------------------------------------------------


def test_the_night_in_windows(tmp_path: Path) -> None:
    """Windows are private rooms: roles told by name, the card in Bashir's window only, the button by its letter."""
    kitchen = PlayedKitchen(tmp_path, on("17:00"))
    for name in NAMES:
        kitchen.opens(name)
    kitchen.say("Ines", "brisket 5 kg, pit 250, dinner tomorrow 18:00")
    for text in ("Tomas is watch", "Bashir is watch", "Wren is host", "Tomas 22:00-02:30, Bashir 02:30-07:00"):
        kitchen.say("Ines", text)
    assert kitchen.say("Wren", "who is here").lines[0] == (
        "Here: Ines (owner), Tomas (watch), Bashir (watch), Wren (host)."
    )
    assert kitchen.say("Wren", "pit to 275").lines[0].startswith("Ines decides that, and is asked now")
    kitchen.until(on("20:05"))
    rooms: set[Address] = {one.room for one in kitchen.new if one.sort == "sound"}
    assert rooms == {window("Ines"), window("Tomas"), window("Bashir")}
    for name in ("Ines", "Tomas", "Bashir"):
        kitchen.say(name, "I heard it")
    kitchen.until(on("22:05"))
    kitchen.say("Tomas", "lit")
    kitchen.say("Tomas", "going to bed, Bashir has it")
    assert "I have it" in kitchen.told("Bashir")[0].labels
    assert kitchen.told("Wren") == []
    assert kitchen.say("Bashir", "k").lines[0].startswith("A nod is not enough")
    assert kitchen.say("Bashir", "I have it").lines[0].startswith("You have the watch")
    kitchen.close()
