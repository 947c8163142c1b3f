"""The end of stops in words: those that end together are both said, and time ends only what time ends."""

from __future__ import annotations

import dataclasses

import pytest

from bot.messages.figures import Voice
from bot.messages.stops import over_text, stop_message
from scheduler.cook import Found, StopOver
from scheduler.facts import AirTold, MovedToOven
from scheduler.safety import Finding, FindingLevel
from tests.unit.scheduler.logbook import at, cooking, resting

VOICE = Voice(zone="UTC", unit="C", now=at(700))


def _text(*events: StopOver) -> str:
    changes = resting().ring(500)
    return over_text(dataclasses.replace(changes, events=events), VOICE)


def _over(rule: str) -> StopOver:
    return StopOver(rule=rule, how="reading", at=at(600), found_c=75.0)


def test_stops_that_end_together_are_all_said() -> None:
    """One sentence says how many there were."""
    assert _text(_over("held_under_floor")) == "That stop is over: 75 C at 16:00."
    assert _text(_over("held_under_floor"), _over("pulled_under_minimum")) == "Both stops are over: 75 C at 16:00."
    three = _text(_over("held_under_floor"), _over("pulled_under_minimum"), _over("minimum_not_measured"))
    assert three == "All those stops are over: 75 C at 16:00."


def test_two_stops_that_one_reading_ends_are_two_ends() -> None:
    """Pulled at 61 C and held at 58: one reading of 75 ends both, and both ends are told."""
    log = cooking()
    log.read(61.0, 470)
    log.done("pull", 480)
    log.read(58.0, 560)
    log.ring(561)
    log.read(75.0, 600)
    ended = [e.rule for e in log.ring(601).events if isinstance(e, StopOver)]
    assert sorted(ended) == ["held_under_floor", "pulled_under_minimum"]


@pytest.mark.parametrize("body", [MovedToOven(oven_c=150.0), AirTold(temp_c=20.0)])
def test_time_is_never_said_to_end_what_time_does_not_end(body: MovedToOven | AirTold) -> None:
    """Something that was told later and ends a stop is named as told, whatever it was; time ends the rest alone."""
    log = resting()
    log.read(58.0, 560)
    log.ring(561)
    log.tell(body, 570)
    log.facts = tuple(f for f in log.facts if getattr(f.body, "value_c", None) != 58.0)
    over = [e for e in log.ring(571).events if isinstance(e, StopOver)]
    assert [(e.rule, e.how, e.by) for e in over] == [("held_under_floor", "done", "Ines")]


@pytest.mark.parametrize(("rule", "offered"), [("pit_dead", False), ("held_under_floor", True), ("reheat_under", True)])
def test_reading_again_is_offered_only_where_a_reading_may_end_it(rule: str, offered: bool) -> None:
    """No reading makes meat good that lay without heat: its button would lead nowhere."""
    stop = Finding(rule=rule, level=FindingLevel.STOP, found_c=50.0, limit_c=60.0, since=at(500))
    changes = dataclasses.replace(resting().ring(500), events=(Found(finding=stop),))
    labels = [label for row in stop_message(changes, VOICE).choices for label, _command in row]
    assert ("Read again" in labels) is offered
    assert "Thrown away" in labels
