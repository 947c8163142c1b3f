"""What is due goes out to somebody, whoever sleeps, never tapped the sound test, or threw the program out."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from bot.chat import IncomingKind
from scheduler.facts import Asked
from tests.fakes.kitchen import PlayedKitchen, chat, group, on

HARROW_LANE = group("Harrow Lane")


@pytest.mark.parametrize("grouped", [True, False])
def test_a_night_in_which_nobody_tapped_the_test_is_heard(tmp_path: Path, *, grouped: bool) -> None:
    """Each asking of the night reaches a room: with a group and private rooms, or with private rooms alone."""
    kitchen = PlayedKitchen(tmp_path, on("17:00"), link_prefix="https://example.org/bell?start=")
    kitchen.invite("0123456789abcdef", "owner")
    kitchen.say("Ines", "/start 0123456789abcdef", room=chat("Ines"))
    room = HARROW_LANE if grouped else chat("Ines")
    if grouped:
        kitchen.does(kitchen.incoming("Ines", HARROW_LANE, IncomingKind.ARRIVED))
    kitchen.say("Ines", "brisket 5 kg, pit 250, dinner tomorrow 18:00", room=room)
    for name, role in (("Tomas", "watch"), ("Wren", "host")):
        found = re.search(r"start=(\S+)", kitchen.say("Ines", f"invite {name} as {role}", room=chat("Ines")).text)
        assert found
        kitchen.say(name, f"/start {found[1]}", room=chat(name))
    kitchen.mutter("Ines", "Tomas 22:00-07:00", room=room)
    kitchen.until(on("22:00"))
    kitchen.mutter("Tomas", "lit", room=chat("Tomas"))
    kitchen.until(on("23:00"))
    kitchen.mutter("Tomas", "meat on", room=chat("Tomas"))
    before = len(kitchen.cook.facts)
    sent = kitchen.until(on("05:00", 1))
    asked = [fact.recorded_at for fact in kitchen.cook.facts[before:] if isinstance(fact.body, Asked)]
    heard = {one.at for one in sent if one.sort not in {"board", "tap"}}
    assert asked
    assert set(asked) <= heard


def test_a_question_of_safety_is_put_off_by_twenty_minutes_at_most(tmp_path: Path) -> None:
    """Snoozed for three hours, the four-hour check is asked again in twenty minutes."""
    kitchen = PlayedKitchen(tmp_path, on("06:00"))
    kitchen.opens("Ines")
    kitchen.say("Ines", "brisket 12 lb, dinner 23:30, pit 250F")
    kitchen.say("Ines", "no guests at risk")
    kitchen.now = on("07:00")
    kitchen.say("Ines", "meat on")
    kitchen.until(on("11:02"))
    assert "come_up_check" in {prompt.step.id for prompt in kitchen.situation.waiting}
    kitchen.say("Ines", "snooze 3 hours")
    again = [p.wake_at for p in kitchen.situation.prompts if p.step.id == "come_up_check"]
    assert again == [on("11:22")]
