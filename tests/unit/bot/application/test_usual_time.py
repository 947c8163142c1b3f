"""What is said of dinner for meat that does not keep: planned on its usual time, without levers, then judged mildly."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.fakes.kitchen import Heard, PlayedKitchen, on

BIRD = "whole chicken 1.8 kg, dinner 18:00 sunday, pit 325"


@pytest.fixture
def bird(tmp_path: Path) -> PlayedKitchen:
    """Return a kitchen in which Ines planned a chicken for Sunday, on Saturday at two."""
    kitchen = PlayedKitchen(tmp_path, on("14:00"))
    kitchen.opens("Ines")
    return kitchen


def _dinner(heard: Heard) -> str:
    return next(line for line in heard.lines if line.startswith("Dinner "))


@pytest.mark.parametrize("cut", ["whole chicken 1.8 kg", "salmon side", "pork loin"])
def test_it_is_planned_on_its_usual_time_and_nothing_is_offered(bird: PlayedKitchen, cut: str) -> None:
    """How far it may come off the time, both ways; no lever, no button to look for one, and none of the sentences that
    say the same again.
    """
    plan = bird.say("Ines", f"{cut}, dinner 19:00 sunday, pit {'225' if 'salmon' in cut else '300'}")
    line = _dinner(plan)
    assert line.startswith("Dinner Sun 19:00: planned on its usual time, up to ")
    assert line.endswith(" later; it does not keep.")
    assert "may be late" not in plan.text
    assert "If it runs slow" not in plan.text
    asked = bird.say("Ines", "how long")
    assert _dinner(asked) == line
    assert asked.labels == ()
    assert "Nothing needs doing" in bird.say("Ines", "options").text


def test_putting_it_on_as_planned_brings_no_levers(bird: PlayedKitchen) -> None:
    """On at its time it may be a few minutes late: that was the plan, and nobody is told to move dinner."""
    bird.say("Ines", BIRD)
    bird.until(on("14:30", 1))
    bird.say("Ines", "no ban")
    bird.say("Ines", "lit")
    bird.until(on("15:30", 1))
    answer = bird.say("Ines", "meat on")
    assert "What can be done" not in answer.text
    assert "late by" not in answer.text


def test_far_behind_it_is_late_and_there_is_something_to_do(bird: PlayedKitchen) -> None:
    """A core far behind its course is called late, with what can be done about it."""
    bird.say("Ines", BIRD)
    bird.until(on("14:30", 1))
    bird.say("Ines", "no ban")
    bird.say("Ines", "lit")
    bird.until(on("15:30", 1))
    bird.say("Ines", "meat on")
    bird.until(on("17:00", 1))
    bird.say("Ines", "meat 110")
    bird.say("Ines", "110 F is right")
    told = bird.say("Ines", "how long")
    assert _dinner(told).startswith("Dinner 18:00: late by about ")
    assert told.labels == ("What can I do?",)
