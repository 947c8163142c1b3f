"""Short questions during a cook: what is answered, and that the log stays as it is."""

from __future__ import annotations

import pytest

from scheduler.facts import Slot
from tests.fakes.kitchen import PlayedKitchen, on


@pytest.mark.parametrize(
    ("text", "answer"),
    [
        ("bark?", "Look at the bark: "),
        ("wrapped?", "Wrap: "),
        ("pulled?", "Pull the meat: about "),
        ("when?", "Ready to pull: "),
        ("rest?", "After the pull: vent "),
        ("how long will it hold", "After the pull: vent "),
        ("what if foil", "If in foil: pull near "),
        ("what if bare", "If bare: pull near "),
    ],
)
def test_a_short_question_is_answered_and_changes_nothing(ribs: PlayedKitchen, text: str, answer: str) -> None:
    """In a few lines, about what was asked; neither facts nor pull move."""
    ribs.until(on("10:40"))
    ribs.say("Ines", "275/120")
    before = ribs.situation.state
    heard = ribs.say("Ines", text)
    assert heard.text.startswith(answer)
    assert len(heard.lines) <= 4
    after = ribs.situation.state
    assert (after.done, after.feels, after.wraps, after.planned) == (
        before.done, before.feels, before.wraps, before.planned,
    )  # fmt: skip


def test_after_the_pull_the_box_answers(ribs: PlayedKitchen) -> None:
    """How long it will hold is when one in ten has fallen, and when to read it."""
    for clock, core in (("10:30", 130), ("11:30", 152), ("12:30", 165), ("13:30", 182), ("14:20", 198)):
        ribs.until(on(clock))
        ribs.say("Ines", f"275/{core}")
    ribs.say("Ines", "203, slides in")
    ribs.say("Ines", "it is off")
    assert ribs.say("Ines", "how long will it hold").text.startswith(
        "Boxed after the vent one in ten falls to 145 F by "
    )
    assert ribs.say("Ines", "what if foil").text.startswith("The meat is off the fire: ")
    assert ribs.say("Ines", "pulled?").text.startswith("Pull the meat: done, ")


def test_the_answer_which_probe_brings_the_reading_back_with_its_time(ribs: PlayedKitchen) -> None:
    """Asked "the meat or the pit?", "meat" some minutes later is the reading of the minute in which it was typed."""
    for clock, core_f in (("11:40", 165), ("12:10", 178)):
        ribs.until(on(clock))
        ribs.say("Ines", f"275/{core_f}")
    ribs.until(on("12:30"))
    assert ribs.say("Ines", "186/170").text.startswith("186: the meat or the pit?")
    ribs.later(6)
    ribs.say("Ines", "it's the meat")
    core = ribs.situation.state.last(Slot.CORE)
    assert core is not None
    assert core.at == on("12:30")
