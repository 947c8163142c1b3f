"""A group with topics: a cook stays in its own, but danger told in another is heard where the cook is."""

from __future__ import annotations

import dataclasses
import re
from pathlib import Path

import pytest

from bot.chat import IncomingKind
from tests.fakes.kitchen import PlayedKitchen, chat, group, on

COOK = dataclasses.replace(group("Harrow Lane"), thread=7)
OTHER = dataclasses.replace(COOK, thread=9)


@pytest.fixture
def kitchen(tmp_path: Path) -> PlayedKitchen:
    """Return a kitchen in which a brisket is cooked in one topic of the club."""
    played = PlayedKitchen(tmp_path, on("06:00"), link_prefix="https://example.org/bell?start=")
    played.invite("0123456789abcdef", "owner")
    played.say("Ines", "/start 0123456789abcdef", room=chat("Ines"))
    played.does(played.incoming("Ines", COOK, IncomingKind.ARRIVED))
    played.say("Ines", "brisket 12 lb, dinner 23:30, pit 250F", room=COOK)
    return played


@pytest.mark.parametrize("who", ["Ines", "Zed"])
def test_danger_told_in_another_topic_is_heard_in_that_of_the_cook(kitchen: PlayedKitchen, who: str) -> None:
    """Whoever says it, known or new in the group: the card comes where it was said, and loud where the cook is."""
    sent = kitchen.mutter(who, "I burned my hand badly", room=OTHER)
    heard = {one.room: one for one in sent if one.sort not in {"board", "tap"}}
    assert {OTHER, COOK} <= set(heard)
    assert not heard[COOK].outgoing.silent
    assert heard[COOK].outgoing.urgent


def test_the_other_topic_does_not_follow_the_cook_from_then_on(kitchen: PlayedKitchen) -> None:
    """No board is posted there, and prompts stay in the topic of the cook."""
    kitchen.mutter("Ines", "I burned my hand badly", room=OTHER)
    assert OTHER not in kitchen.cook.rooms
    assert OTHER not in {one.room for one in kitchen.until(on("09:00"))}


def test_a_role_that_was_taken_away_does_not_come_back(kitchen: PlayedKitchen) -> None:
    """Wren came by a link as host; once she is no host any more, dinner is not hers to move."""
    found = re.search(r"start=(\S+)", kitchen.say("Ines", "invite Wren as host", room=chat("Ines")).text)
    assert found
    kitchen.say("Wren", f"/start {found[1]}", room=chat("Wren"))
    assert kitchen.say("Wren", "dinner at 23:45", room=chat("Wren")).text.startswith("Dinner moved to 23:45")
    kitchen.say("Ines", "Wren is not host", room=COOK)
    kitchen.say("Wren", "dinner at 23:00", room=chat("Wren"))
    serving = kitchen.situation.state.serving.start
    assert serving is not None
    assert serving.strftime("%H:%M") == "23:45"
