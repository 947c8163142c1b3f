"""What the passing of time does: one trip, warnings, giving up, moves told along, and the end of a cook."""

from __future__ import annotations

import datetime as dt
import itertools

from scheduler.cook import Found, Lapsed, Over, Shifted, TripDue
from scheduler.facts import Asked, Body, Closed, Feel, Felt, Reading, Slot, StepDone, Told, Withdrawn, Wrap, Wrapped
from scheduler.planning.prompts import Prompt
from scheduler.planning.trips import wakes
from scheduler.safety import next_look
from scheduler.state import OVERTAKEN, Stage
from tests.unit.scheduler.logbook import (
    CATALOGUE,
    WHEN_READY,
    Logbook,
    at,
    cooking,
    cut,
    planned,
    resting,
    steps_of,
)


def test_nothing_due_writes_nothing() -> None:
    """Rung too early, the bell leaves the log as it was."""
    log = cooking()
    log.ring(60)
    assert log.ring(70).facts == ()


def test_a_trip_is_written_as_asked_with_its_caution() -> None:
    """What goes out is in the log: the prompts in order, how often, and the caution that rode along: first the gravest
    of those that nobody was told, as the fire was lit unasked.
    """
    log = cooking()
    changes = log.ring(60)
    assert [fact.body for fact in changes.facts] == [
        Asked(prompts=("p1/raw_cleanup/1",), revision=1, cautions=("co",)),
    ]  # fmt: skip
    assert changes.facts[0].by is None
    again = log.ring(90)
    assert Asked(prompts=("p1/raw_cleanup/1", "p1/pit_check/1"), revision=2, cautions=("unattended",)) in [
        fact.body for fact in again.facts
    ]


def test_ringing_twice_asks_once() -> None:
    """The second ring at the same instant has nothing to say."""
    log = cooking()
    log.ring(60)
    assert log.ring(60).facts == ()


def test_after_a_ring_the_next_one_lies_ahead() -> None:
    """However late it comes, a few rings bring the next wake into the future."""
    for minutes in (60, 151, 400, 1000, 5000):
        log = cooking()
        for _ in range(4):
            log.ring(minutes)
        assert all(when > at(minutes) for _, when in wakes(log.situation.prompts))


def test_what_is_given_up_is_told_when_it_was_too_late() -> None:
    """Checks nobody was asked for are named; questions nobody answered lapse silently."""
    log = cooking()
    lapsed = [event for event in log.ring(300).events if isinstance(event, Lapsed)]
    assert lapsed == [Lapsed(steps=("pit_check", "fuel_check"))]
    log = cooking()
    log.ring(90)
    silent = log.ring(120)
    assert [fact.body for fact in silent.facts if isinstance(fact.body, Withdrawn)] == [
        Withdrawn(prompt="p1/pit_check/1", reason="no_answer"),
    ]  # fmt: skip
    assert not [event for event in silent.events if isinstance(event, Lapsed)]


def test_what_follows_upon_what_was_given_up_rides_in_the_same_trip() -> None:
    """Away over a look at the bark: it has passed, the meat has risen since, and the next look joins what goes out."""
    log = cooking()
    log.done("raw_cleanup", 70)
    log.read(80.5, 300)
    log.done("bark_check", 305, "not_yet", answers=("p1/bark_check/1",))
    changes = log.ring(400)
    gone = [fact.body.prompt for fact in changes.facts if isinstance(fact.body, Withdrawn)]
    asked = [fact.body.prompts for fact in changes.facts if isinstance(fact.body, Asked)]
    assert "p1/bark_check/2" in gone
    assert len(asked) == 1
    assert "p1/bark_check/3" in asked[0]


def test_what_is_overtaken_is_withdrawn_with_that_reason() -> None:
    """Asked for the meat, then it was pulled: the question is withdrawn, not forgotten."""
    log = cooking()
    log.ring(150)
    changes = log.taken(StepDone(step="pull"), minutes=155)
    gone = {fact.body.prompt: fact.body.reason for fact in changes.facts if isinstance(fact.body, Withdrawn)}
    assert gone == dict.fromkeys(("p1/raw_cleanup/1", "p1/core_read/1"), OVERTAKEN)


def test_what_time_alone_has_overtaken_is_withdrawn_too() -> None:
    """Away while the meat should have been read: the feel is due by now and asks for the number, the reading is
    withdrawn with that reason and not forgotten.
    """
    log = cooking()
    log.read(84.0, 330)
    log.read(86.0, 350)
    feel = log.due("tender_test")
    assert feel is not None
    assert log.prompt("core_read") is not None
    changes = log.ring(feel + 100)
    gone = {fact.body.prompt: fact.body.reason for fact in changes.facts if isinstance(fact.body, Withdrawn)}
    assert gone["p1/core_read/1"] == OVERTAKEN
    assert any("p1/tender_test/1" in fact.body.prompts for fact in changes.facts if isinstance(fact.body, Asked))


def test_a_move_rides_along_with_a_trip_and_not_alone() -> None:
    """Time has passed without news and the pull has slipped by more than half an hour: the next message says so."""
    log = cooking(planned(serving=WHEN_READY))
    log.tell(Told(milestones=(("pull", at(200)),), verdict="open"), 61, by=None)
    assert [event for event in log.ring(62).events if isinstance(event, TripDue)]
    shifted = [event for event in log.ring(90).events if isinstance(event, Shifted)]
    assert len(shifted) == 1
    assert shifted[0].shift.moves[0].name == "pull"
    assert not [event for event in log.ring(91).events if isinstance(event, Shifted)]


def test_a_safety_finding_is_told_without_any_trip() -> None:
    """Two hours after serving the stop comes by itself."""
    log = resting()
    log.taken(StepDone(step="serve"), minutes=780)
    for step, outcome in (("shutdown", "closed"),):
        log.taken(StepDone(step=step, outcome=outcome), minutes=785)
    for minutes in (870, 885, 900):
        log.ring(minutes)
    assert [finding.rule for finding in log.situation.findings(at(901))] == ["two_hours_out", "held_not_read"]
    assert next_look(log.state, cut(), CATALOGUE.cuts) is None
    assert not [event for event in log.ring(901).events if isinstance(event, Found)]


def _after_dinner() -> Logbook:
    log = resting()
    log.taken(StepDone(step="shutdown", outcome="closed"), minutes=490)
    log.taken(StepDone(step="serve"), minutes=780)
    log.taken(StepDone(step="leftovers"), minutes=860)
    log.taken(StepDone(step="fire_out", outcome="cooling"), minutes=870)
    return log


def test_a_cook_ends_when_nothing_is_left_to_ask() -> None:
    """Ash out and leftovers dealt with: the last answer closes the cook at the next ring, and nothing is due."""
    log = _after_dinner()
    log.taken(StepDone(step="ash", outcome="cold_out"), minutes=3400)
    assert not [event for event in log.ring(3400).events if isinstance(event, Over)]
    log.taken(StepDone(step="leftover_expire", outcome="eaten"), minutes=5200)
    changes = log.ring(5200)
    assert [event for event in changes.events if isinstance(event, Over)]
    assert isinstance(log.facts[-1].body, Closed)
    assert (log.state.stage, log.situation.prompts) == (Stage.CLOSED, ())


def test_a_cook_whose_last_questions_nobody_answers_ends_too() -> None:
    """It does not wait for ever: after the last asking it is over."""
    log = _after_dinner()
    for _ in range(40):
        moments = [when for _, when in wakes(log.situation.prompts)]
        if not moments:
            break
        log.ring((min(moments) - at(0)) / dt.timedelta(minutes=1))
    assert log.state.over
    assert log.state.as_of < at(14 * 24 * 60)


def test_a_closed_cook_is_silent() -> None:
    """Called off: everything open is withdrawn, and the bell says nothing any more."""
    log = cooking()
    log.ring(60)
    changes = log.taken(Closed(reason="called off"), minutes=70)
    assert "p1/raw_cleanup/1" in [f.body.prompt for f in changes.facts if isinstance(f.body, Withdrawn)]
    assert log.ring(5000).facts == ()


def test_a_whole_cook_of_ribs_needs_few_messages() -> None:
    """Everything answered five minutes after it was asked: at most fourteen messages from meat on to plate."""
    log = Logbook()
    log.done("light", 0)
    log.taken(StepDone(step="meat_on"), minutes=60)
    log.ring(60)  # what is due because of an answer comes with the receipt, not as a message of its own
    trips: list[tuple[str, ...]] = []
    minutes = 60.0
    while log.state.stage is not Stage.AFTER:
        if not log.situation.waiting:
            minutes = (min(when for _, when in wakes(log.situation.prompts)) - at(0)) / dt.timedelta(minutes=1)
            trips.append(steps_of(log.trip(minutes)))
            assert len(trips) <= 14, trips
        minutes += 5
        for prompt in sorted(log.situation.waiting, key=lambda prompt: prompt.order):
            log.taken(*_answer(prompt, minutes), minutes=minutes)
            log.ring(minutes)
    assert len(trips) >= 8


def _answer(prompt: Prompt, minutes: float) -> tuple[Body, ...]:
    """Return what a good crew says: both numbers, bare to the end, tender when it is."""
    curve = ((60.0, 4.0), (210.0, 50.0), (270.0, 66.0), (360.0, 70.0), (510.0, 97.0), (9000.0, 97.0))
    spans = [(a, b) for a, b in itertools.pairwise(curve) if a[0] <= minutes <= b[0]]
    (m0, c0), (m1, c1) = spans[0]
    core_c = round(c0 + (c1 - c0) * (minutes - m0) / (m1 - m0), 1)
    values = {Slot.CORE: core_c, Slot.PIT: 135.0}
    readings = tuple(Reading(slot=slot, value_c=values[slot]) for slot in prompt.step.slots)
    match prompt.step.id:
        case "tender_test":
            return (*readings, Felt(feel=Feel.TENDER if core_c >= 94 else Feel.TIGHT))
        case "bark_check":
            return (Wrapped(wrap=Wrap.NONE),)
        case _ if readings:
            return readings
        case step:
            return (StepDone(step=step, outcome=prompt.step.outcomes[0] if prompt.step.outcomes else None),)
