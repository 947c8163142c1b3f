"""What the crew waits for: tests on the eve, levers that nobody decided, what matters no more, who takes the watch.

Pure: facts and events out. Who is called after whom stands in `scheduler.planning.escalation`.
"""

from __future__ import annotations

import dataclasses

from scheduler.cook.changes import (
    Already,
    ChecksDue,
    Event,
    LeverSilent,
    NoLonger,
    NotWakeable,
    Report,
    StillOnWatch,
    WatchTaken,
)
from scheduler.cook.situation import Situation
from scheduler.cook.writing import Pen
from scheduler.facts import HandoverTaken, RanOut, SoundSent
from scheduler.planning import sound
from scheduler.planning.handover import coming_change
from scheduler.planning.nights import watching
from scheduler.state import Stage

_STAGES = ("before", "fire", "cooking", "resting")
"""Until when a question waits that is no lever of the catalogue."""

_AT_THE_FIRE = frozenset({"wrap", "move_pit", "pull"})
"""Questions of that kind that matter only while the meat is on."""


def tests(pen: Pen, before: Situation, reachable: frozenset[str] | None) -> tuple[Event, ...]:
    """Write down and return the tests that go out now, and who has turned out not to be wakeable.

    `reachable` are the names of those who have a private chat; None: no test is sent. While hands are full it waits.
    """
    state = before.state
    if state.over or before.hands_full_until() is not None:
        return ()
    events: list[Event] = []
    due = () if reachable is None else sound.checks_due(state, before.night_courses(), pen.now)
    for name in due:
        pen.write(SoundSent(name=name, private=name in (reachable or frozenset())))
    if due:
        able = tuple(name for name in due if name in (reachable or frozenset()))
        events.append(ChecksDue(names=able, without=tuple(name for name in due if name not in able)))
    silent = [name for name in due if name not in (reachable or frozenset())]
    for name in (*silent, *sound.unanswered(state, pen.now)):
        pen.write(RanOut(what="sound", about=name, reason="no_private_chat" if name in silent else "silent"))
        events.append(NotWakeable(name=name, alarms=before.alarm_times(name), private=name not in silent))
    return tuple(events)


def silent_levers(pen: Pen, before: Situation) -> tuple[Event, ...]:
    """Write down and return the levers that nobody decided in time: now only the safe default may be done.

    While hands are full, from the probe going in to meat on, it waits.
    """
    state = before.state
    events: list[Event] = []
    if before.hands_full_until() is not None:
        return ()
    for wait in state.levers_asked.values():
        if wait.silent_at is None and wait.until <= pen.now and not state.over:
            pen.write(RanOut(what="lever", about=wait.lever))
            events.append(LeverSilent(wait=wait, watch=watching(state, pen.now)))
    return tuple(events)


def wound_up(pen: Pen, after: Situation) -> tuple[Event, ...]:
    """Write down and return what waited for somebody and matters no more: the cook is over, the meat is off, served."""
    state, events = after.state, list[NoLonger]()
    reason = _reason(after)
    levers = {lever.id: lever for lever in after.catalogue.remedies.levers}
    for wait in state.levers_asked.values():
        lever = levers.get(wait.lever)
        stages = _STAGES if lever is None else lever.stages
        if after.stage.value not in stages or (wait.lever in _AT_THE_FIRE and _over_or_off(after)):
            events.append(NoLonger(what="lever", about=wait.lever, reason=reason, names=_names(wait.by, wait.decider)))
    offer = state.handover
    if offer is not None and after.stage in {Stage.AFTER, Stage.GONE, Stage.CLOSED}:
        events.append(NoLonger(what="handover", about=offer.to, reason=reason, names=_names(offer.by, offer.to)))
    for name, one in state.sound.items():
        waits = one.sent_at is not None and (one.heard_at is None or one.heard_at < one.sent_at)
        if waits and _over_or_off(after) and name in sound.unanswered(state, pen.now + sound.ANSWER_WITHIN):
            events.append(NoLonger(what="sound", about=name, reason=reason, names=(name,)))
    events += _claims(after, reason)
    for ended in events:
        pen.write(RanOut(what=ended.what, about=ended.about, reason=ended.reason), piece=ended.piece)
    return tuple(events)


def _claims(after: Situation, reason: str) -> list[NoLonger]:
    """Return the claims on steps that are overtaken, each piece by itself."""
    found: dict[tuple[str, str], NoLonger] = {}
    for view in after.views:
        for step_id, claim in view.state.company.claims.items():
            step = after.catalogue.steps.get(step_id)
            if step is None or not claim.holds(after.state.as_of):
                continue
            gone = view.state.over or any(view.state.did(other) for other in step.until)
            if gone and (claim.fact, step_id) not in found:
                piece = view.piece if after.several and step.scope == "piece" else None
                found[claim.fact, step_id] = NoLonger(
                    what="claim", about=step_id, reason=reason, names=(claim.name,), piece=piece
                )  # fmt: skip
    return list(found.values())


def _names(*names: str | None) -> tuple[str, ...]:
    return tuple(dict.fromkeys(name for name in names if name is not None))


def _over_or_off(after: Situation) -> bool:
    return after.stage in {Stage.RESTING, Stage.AFTER, Stage.GONE, Stage.CLOSED}


def _reason(after: Situation) -> str:
    """Return why nothing waits any more: called_off, pulled, served, discarded, over."""
    names = {
        Stage.RESTING: "pulled", Stage.AFTER: "served", Stage.GONE: "discarded", Stage.CLOSED: "over",
    }  # fmt: skip
    return names.get(after.stage, "overtaken")


def taking(report: Report, current: Situation) -> tuple[Report | None, tuple[Event, ...]]:
    """Return how a report that the watch was handed over is to be taken, and what comes of it.

    Only who takes it moves it: a handover that is ticked off by somebody who was asked to take it is a taking; ticked
    off by anybody else it moves nothing, and the watch stays where it is.
    """
    state = current.state
    has_it, change = watching(state, report.happened_at), coming_change(state)
    prompt = current.prompt("handover")
    asked = () if change is None else change.asked[: max(1, prompt.asked if prompt is not None else 1)]
    if not isinstance(report.body, HandoverTaken):
        if report.by not in asked:
            return None, (StillOnWatch(watch=has_it, asked=asked[:1], said_by=report.by),)
        report = dataclasses.replace(report, body=HandoverTaken())
    body = report.body
    assert isinstance(body, HandoverTaken)
    if has_it == report.by and body.until is None and not (change is not None and report.by in asked):
        since = next((one.at for one in reversed(state.takings) if one.name == report.by), report.happened_at)
        return None, (Already(step="handover", by=report.by, at=since, said_by=report.by),)
    return report, (WatchTaken(name=report.by, before=has_it if has_it != report.by else None, until=body.until),)
