"""Counts and compares at the end of a rehearsal: messages, dinner, forecasts, the log over the kill.

It must not take anything on trust from the program: messages are counted on the screens, times from what people did.
"""

from __future__ import annotations

import datetime as dt
import hashlib
from collections.abc import Iterable

from bot.messages import narration
from bot.messages.figures import Voice
from bot.rehearsal import scene
from bot.rehearsal.record import Forecast, Record, Seen
from scheduler.facts import Fact, Reading, Slot, StepDone

MOST_MESSAGES = 14
"""Messages that the program may send one person of its own accord from meat on to plate, at the usual level."""


def prints(facts: Iterable[Fact]) -> tuple[str, ...]:
    """Return a print of each fact, to tell whether it is still the same."""
    return tuple(hashlib.sha256(repr(fact).encode()).hexdigest()[:16] for fact in facts)


def done_at(record: Record, step: str) -> dt.datetime:
    """Return when a step was done; raise LookupError when it never was."""
    return next(f.happened_at for f in record.facts if isinstance(f.body, StepDone) and f.body.step == step)


def on_to_plate(record: Record, who: str) -> list[Seen]:
    """Return what somebody saw from meat on to plate."""
    start_at, end_at = done_at(record, "meat_on"), done_at(record, "serve")
    return [seen for seen in record.seen if seen.who == who and start_at <= seen.at <= end_at]


def own_accord(record: Record, who: str) -> list[Seen]:
    """Return what the program sent somebody of its own accord from meat on to plate: nobody's line brought it."""
    return [seen for seen in on_to_plate(record, who) if seen.caused_by is None]


def nothing_lost(record: Record) -> bool:
    """Return whether the log from before the kill is the beginning of the log at the end."""
    before = record.outage.facts_before if record.outage is not None else ()
    return bool(before) and prints(record.facts)[: len(before)] == before


def forecasts(record: Record) -> tuple[Forecast, Forecast, Forecast]:
    """Return what was expected after the first reading of the meat, half-way, and an hour before the pull."""
    on_at, pulled_at = done_at(record, "meat_on"), done_at(record, "pull")
    read_at = next(
        f.recorded_at for f in record.facts
        if isinstance(f.body, Reading) and f.body.slot is Slot.CORE and f.happened_at > on_at
    )  # fmt: skip
    moments = (read_at, on_at + (pulled_at - on_at) / 2, pulled_at - dt.timedelta(hours=1))
    first, middle, last = (
        max((one for one in record.forecasts if one.made_at <= moment), key=lambda one: one.made_at)
        for moment in moments
    )
    return first, middle, last


def sentences(record: Record) -> list[str]:
    """Return the summary, one sentence each."""
    voice = Voice(zone=scene.ZONE, unit="F", now=done_at(record, "serve"))
    served_at, pulled_at = done_at(record, "serve"), done_at(record, "pull")
    found = []
    for who in scene.CREW:
        seen = on_to_plate(record, who)
        found.append(
            narration.messages_counted(
                who,
                own=len(own_accord(record, who)),
                most=MOST_MESSAGES,
                answers=sum(one.caused_by == who for one in seen),
                echoes=sum(one.caused_by not in {None, who} for one in seen),
            )
        )
    found.append(
        narration.dinner_came(voice.clock(scene.DINNER_AT), voice.clock(served_at), served_at - scene.DINNER_AT)
    )
    core_c = max(f.body.value_c for f in record.facts if isinstance(f.body, Reading) and f.body.slot is Slot.CORE)
    found.append(narration.pulled(voice.clock(pulled_at), voice.temp(core_c)))
    for when, forecast in zip(narration.moments(), forecasts(record), strict=True):
        made, said = voice.clock(forecast.made_at), voice.about(forecast.pull_at)
        found.append(narration.forecast_missed(when, made, said, forecast.pull_at - pulled_at))
    before = len(record.outage.facts_before) if record.outage is not None else 0
    kept = narration.nothing_lost(before, len(record.facts))
    found.append(kept if nothing_lost(record) else narration.something_lost())
    return found
