"""From the probe going in to meat on: every room, everything that is sent. Vents, smoke, meat on, safety; no more."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from bot.chat import IncomingKind
from tests.fakes.kitchen import Heard, PlayedKitchen, chat, group, on

HARROW_LANE = group("Harrow Lane")

OF_THE_CREW = re.compile(
    r"No answer|If nobody answers|had it since|cannot be woken|did not answer|alarm clock|Dinner .*now"
)
"""Lines that can wait until the meat lies on the fire."""


@pytest.fixture(scope="module")
def told_once(tmp_path_factory: pytest.TempPathFactory) -> PlayedKitchen:
    """Play a crew until the probe goes in at 19:40, twenty minutes before the test of the wake-ups; the watch has asked
    for another pit, and somebody has said "mine".
    """
    kitchen = PlayedKitchen(tmp_path_factory.mktemp("hands"), on("17:00"))
    kitchen.invite("0123456789abcdef", "owner")
    kitchen.say("Ines", "/start 0123456789abcdef", room=chat("Ines"))
    kitchen.does(kitchen.incoming("Ines", HARROW_LANE, IncomingKind.ARRIVED))
    kitchen.say("Ines", "brisket 5 kg, pit 250, dinner tomorrow 14:00", room=HARROW_LANE)
    for name in ("Tomas", "Bashir", "Wren"):
        kitchen.say("Ines", f"{name} is {'helper' if name == 'Wren' else 'watch'}", room=HARROW_LANE)
        kitchen.say(name, "who is here", room=HARROW_LANE)
        kitchen.say(name, "/start", room=chat(name))
    kitchen.say("Ines", "Tomas 22:00-02:30, Bashir 02:30-07:00", room=HARROW_LANE)
    kitchen.until(on("19:00"))
    kitchen.say("Tomas", "lit", room=chat("Tomas"))
    kitchen.until(on("19:38"))
    kitchen.say("Tomas", "pit to 275", room=chat("Tomas"))
    kitchen.say("Wren", "I got the smoke", room=HARROW_LANE)
    kitchen.later(2)
    kitchen.say("Tomas", "probe is in", room=chat("Tomas"))
    kitchen.close()
    return kitchen


@pytest.fixture
def full(told_once: PlayedKitchen, tmp_path: Path) -> Iterator[PlayedKitchen]:
    """Return the crew at 19:40, with the probe in."""
    kitchen = told_once.continued(tmp_path)
    yield kitchen
    kitchen.close()


def _talk(sent: list[Heard]) -> list[Heard]:
    """Return what made somebody look at a telephone: boards that are edited do not."""
    return [one for one in sent if one.sort != "board"]


def test_only_vents_smoke_and_safety_come(full: PlayedKitchen) -> None:
    """Until the meat is on nobody is told who has not answered, who is called next, or that a question, a claim, or a
    test of the wake-ups has waited long enough.
    """
    sent = _talk(full.until(on("20:55")))
    assert sent
    assert {one.sort for one in sent} <= {"prompt", "stop"}
    assert [one.text for one in sent if OF_THE_CREW.search(one.text)] == []
    assert [one.labels for one in sent if any(label.startswith("Mine") for label in one.labels)] == []


def test_the_rest_comes_with_the_meat_on(full: PlayedKitchen) -> None:
    """What waited is told once the meat is on: the question that nobody decided, and the tests for the night."""
    full.until(on("20:20"))
    full.say("Tomas", "meat on", room=chat("Tomas"))
    sent = [*full.new, *full.until(on("20:22"))]
    assert [one.lines[0] for one in sent if one.sort == "silent" and one.room == chat("Tomas")] == [
        "No answer from Ines: another pit. It is not done."
    ]
    assert {one.room for one in sent if one.sort == "sound"} == {chat("Ines"), chat("Tomas"), chat("Bashir")}


def test_it_waits_ninety_minutes_at_most(full: PlayedKitchen) -> None:
    """Whoever forgets to tell that the meat is on is told of the crew all the same."""
    sent = full.until(on("21:12"))
    assert {one.at for one in sent if one.sort in {"silent", "sound"}} == {on("21:10")}
