"""Groups that hand over only commands and replies: explained once, and questions ask for a reply."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from bot.chat import Asking, Declined, Incoming, IncomingKind, Lack, OutgoingKind
from tests.fakes.kitchen import MINUTE, Heard, PlayedKitchen, chat, group, on

CLUB = group("Harrow")
NEW = group("Harrow-as-a-supergroup")
INES = chat("Ines")


@pytest.fixture
def kitchen(tmp_path: Path) -> Iterator[PlayedKitchen]:
    """Ines owns the program; nothing is cooking."""
    played = PlayedKitchen(tmp_path, on("05:00"))
    played.invite("owner-code", "owner")
    played.say("Ines", "/start owner-code", room=INES)
    yield played
    played.close()


def added(kitchen: PlayedKitchen, *, hears_all: bool | None, kind: IncomingKind = IncomingKind.ARRIVED) -> list[Heard]:
    """Ines adds the program to the club's group, or gives it other rights there; return what the group is told."""
    came = dataclasses.replace(kitchen.incoming("Ines", CLUB, kind), hears_all=hears_all)
    return [one for one in kitchen.does(came) if one.room == CLUB and one.outgoing.kind is OutgoingKind.MESSAGE]


def test_a_group_where_little_is_heard_is_told_the_one_thing_to_do(kitchen: PlayedKitchen) -> None:
    """Reply, or make it an administrator; where everything is heard, nothing of that is said."""
    (little,) = added(kitchen, hears_all=False)
    (all_of_it,) = added(kitchen, hears_all=True)
    assert "only commands and replies" in little.text
    assert "administrator" not in all_of_it.text
    assert kitchen.store.rooms()[-1].hears_all is True


def test_a_group_that_takes_the_right_back_is_told_once(kitchen: PlayedKitchen) -> None:
    """From then on only replies are heard: it is said when that happens, and when it did not it is not."""
    added(kitchen, hears_all=True)
    (told,) = added(kitchen, hears_all=False, kind=IncomingKind.RIGHTS)
    assert "only commands and replies" in told.text
    assert added(kitchen, hears_all=False, kind=IncomingKind.RIGHTS) == []


def test_rights_in_a_strange_group_are_none_of_our_business(kitchen: PlayedKitchen) -> None:
    """A group that nobody here belongs to stays unknown."""
    added(kitchen, hears_all=True, kind=IncomingKind.RIGHTS)
    assert [room for room in kitchen.store.rooms() if room.group] == []


def cooking(kitchen: PlayedKitchen) -> None:
    """A brisket in the group, the meat on since six, a reading asked for."""
    kitchen.say("Ines", "brisket 6 kg, dinner 18:00, pit 250", room=CLUB)
    kitchen.mutter("Ines", "lit", room=CLUB)
    kitchen.until(on("06:00"))
    kitchen.mutter("Ines", "meat on", room=CLUB)
    kitchen.until(on("08:30"))


def test_another_number_is_asked_for_as_a_reply_of_whoever_pressed(kitchen: PlayedKitchen) -> None:
    """Buttons and a reply exclude one another: the button for another number brings a question without buttons."""
    added(kitchen, hears_all=False)
    cooking(kitchen)
    asked = kitchen.tap("Ines", "Another number", room=CLUB)
    assert asked.labels == ()
    assert "Ines" in asked.text
    assert asked.outgoing.wants_reply == Asking(person="ines", name="Ines")


def test_where_everything_is_heard_no_reply_is_asked_for(kitchen: PlayedKitchen) -> None:
    """The same button offers more numbers, as in a private chat."""
    added(kitchen, hears_all=True)
    cooking(kitchen)
    asked = kitchen.tap("Ines", "Another number", room=CLUB)
    assert asked.labels
    assert asked.outgoing.wants_reply is None


def test_a_question_to_what_was_typed_is_a_reply_to_it(kitchen: PlayedKitchen) -> None:
    """Whoever wrote is asked alone."""
    added(kitchen, hears_all=False)
    asked = kitchen.say("Ines", "brisket 6 kg on since 04:00, pit 250, dinner 18:00", room=CLUB)
    questions = [one for one in kitchen.heard if one.room == CLUB and "?" in one.text and not one.labels]
    assert all(one.outgoing.wants_reply is not None for one in questions)
    assert asked.outgoing.wants_reply in {None, Asking(to=kitchen.last_message)}


# --- pins and moves ---------------------------------------------------------------------------------------------------


def _no_pins(kitchen: PlayedKitchen) -> None:
    """Deliver as ever, but for pins: nobody allows them."""
    deliver = kitchen.deliver
    claimed: Any = {"owner": "hand", "transports": ["telegram"], "limit": 1, "lease": MINUTE}

    def without() -> None:
        while row := next(iter(kitchen.store.claim(**claimed, now=kitchen.now)), None):
            if row.outgoing.kind is OutgoingKind.PIN:
                kitchen.store.record(row, Declined(lack=Lack.PIN, why="no right"), kitchen.now)
                continue
            kitchen.sent(row)
        deliver()

    kitchen.deliver = without  # type: ignore[method-assign]  # a chat without the right


def test_a_board_is_pinned_once_the_right_is_given(kitchen: PlayedKitchen) -> None:
    """What could not be pinned is explained once, and pinned when somebody makes it an administrator."""
    added(kitchen, hears_all=False)
    _no_pins(kitchen)
    cooking(kitchen)
    explained = [one for one in kitchen.heard if one.sort == "cannot-pin"]
    assert len(explained) == 1
    del kitchen.deliver
    came = dataclasses.replace(kitchen.incoming("Ines", CLUB, IncomingKind.RIGHTS), hears_all=True)
    pins = [one for one in kitchen.does(came) if one.outgoing.kind is OutgoingKind.PIN]
    assert [one.room for one in pins] == [CLUB]


def test_a_group_that_moves_takes_its_cook_along_and_gets_a_new_board(kitchen: PlayedKitchen) -> None:
    """Both service messages say the same: one board is posted and pinned in the new chat, prompts go there."""
    added(kitchen, hears_all=True)
    cooking(kitchen)
    moves = [_moving(kitchen) for _ in range(2)]
    boards = [one for one in kitchen.does(*moves) if one.room == NEW and one.sort == "board"]
    assert [one.outgoing.kind for one in boards if one.outgoing.kind is not OutgoingKind.EDIT] == [
        OutgoingKind.MESSAGE, OutgoingKind.PIN,
    ]  # fmt: skip
    assert kitchen.cook.rooms == (NEW,)
    told = kitchen.say("Ines", "how long", room=NEW)
    assert told.room == NEW
    assert {one.room for one in kitchen.until(on("14:00"))} == {NEW}


def _moving(kitchen: PlayedKitchen) -> Incoming:
    return dataclasses.replace(kitchen.incoming("Ines", CLUB, IncomingKind.MOVED), moved_to=NEW)
