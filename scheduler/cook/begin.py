"""Beginning a cook: is dinner possible at all, and if not, when is the earliest?"""

from __future__ import annotations

import dataclasses
import datetime as dt

from scheduler.cook.changes import Changes, Refusal, Taken
from scheduler.cook.situation import Situation
from scheduler.cook.wished import refused
from scheduler.cook.writing import Pen
from scheduler.facts import (
    AirTold,
    Body,
    CareTold,
    CookerTold,
    CrewTold,
    Edition,
    EditionTold,
    GuestsTold,
    PieceAdded,
    Planned,
    Reading,
    SafeByTold,
    Serving,
    Slot,
    StepDone,
    TargetTold,
    TreatedTold,
    WatchesTold,
    Withdrawn,
)  # fmt: skip
from scheduler.planning.alternatives import remedies
from scheduler.planning.backward import quantile_of, rounded, wanted_confidence
from scheduler.planning.catalogue import Catalogue
from scheduler.planning.fuel import light_lead
from scheduler.planning.outlook import Outlook, after_pull
from scheduler.planning.prompts import key_of
from scheduler.planning.trips import too_late
from scheduler.state import Stage

_LUCK = 0.1
"""A dinner that a smaller share of cooks would meet is refused: house rule, as said in docs/explanation/planning.md."""

_LIKELY = 0.5
"""Chance from which a change of the plan is said to make an impossible dinner possible: house rule."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Beginning:
    """What is said when a cook is begun: the plan, and for one begun in the middle what is known of it."""

    cook: str
    planned: Planned
    on_at: dt.datetime | None = None
    core_c: float | None = None
    air: AirTold | None = None
    more: tuple[PieceAdded, ...] = ()
    """The other pieces, in the order in which they were named."""
    guests: GuestsTold | None = None
    cooker: CookerTold | None = None
    care: CareTold | None = None
    edition: Edition = Edition.STRICTER
    wishes: tuple[tuple[str, TreatedTold | SafeByTold | TargetTold], ...] = ()
    """(piece, what was told of its meat or is wished of it), pieces counted from p1."""
    crew: tuple[CrewTold, ...] = ()
    watches: WatchesTold | None = None


def begin(
    beginning: Beginning, *, by: str, now: dt.datetime, seed: str, message: str | None, catalogue: Catalogue
) -> Changes | Refusal:
    """Return the first facts of a cook, or why dinner cannot be at that time and when the earliest would be."""
    pen = Pen(log=(), cook=beginning.cook, piece="p1", seed=seed, now=now)
    if beginning.on_at is not None and beginning.on_at > now:
        return Refusal(reason="future", at=beginning.on_at, step="meat_on")
    planned_at = min(now, beginning.on_at) if beginning.on_at else now
    pen.write(beginning.planned, at=planned_at, by=by, message=message)
    if beginning.air is not None:
        pen.write(beginning.air, by=by, message=message)
    for number, added in enumerate(beginning.more, 2):
        pen.write(added, by=by, message=message, piece=f"p{number}")
    if beginning.cooker is not None:
        pen.write(beginning.cooker, by=by, message=message)
    if beginning.guests is not None:
        pen.write(beginning.guests, by=by, message=message)
    for member in beginning.crew:
        pen.write(member, by=by, message=message)
    if beginning.watches is not None:
        pen.write(beginning.watches, by=by, message=message)
    _write_care(beginning, pen, by, message)
    if beginning.on_at is not None:
        pen.write(StepDone(step="meat_on"), at=beginning.on_at, by=by, message=message)
    if beginning.core_c is not None:
        # What is told at the beginning is not asked again right after it.
        answers = (key_of(pen.piece, "core_read", 1),)
        pen.write(Reading(slot=Slot.CORE, value_c=beginning.core_c), by=by, message=message, answers=answers)
    after = _without_the_past(pen, catalogue)
    refusal = _wished(after) or check_all(after, now)
    too_soon = refusal is not None and refusal.reason == "serving_too_soon"
    if refusal is not None and not (too_soon and beginning.on_at is not None):
        return refusal  # meat that is on is on: a dinner too soon for it is told as late
    taken = tuple(Taken(body=f.body, at=f.happened_at, by=by) for f in pen.written if not isinstance(f.body, Withdrawn))
    return Changes(facts=pen.written, before=None, after=after, events=taken)


def _write_care(beginning: Beginning, pen: Pen, by: str, message: str | None) -> None:
    """Write who eats, which rules count and what was told of the meat."""
    if beginning.care is not None:
        pen.write(beginning.care, by=by, message=message)
    if beginning.edition is not Edition.STRICTER:
        pen.write(EditionTold(edition=beginning.edition), by=by, message=message)
    for piece, body in beginning.wishes:
        pen.write(body, by=by, message=message, piece=piece)


def _wished(situation: Situation) -> Refusal | None:
    """Return why a core that is wished of a piece cannot be planned, or time at temperature cannot count for it."""
    for view in situation.views:
        state, seen = view.state, situation.seen_from(view.piece)
        bodies: list[Body] = [SafeByTold(by=state.safe_by)]
        if state.target_c is not None:
            bodies.append(TargetTold(core_c=state.target_c))
        for body in bodies:
            if (refusal := refused(body, seen, state.as_of)) is not None and refusal.reason != "done_by_feel":
                return refusal
    return None


def _without_the_past(pen: Pen, catalogue: Catalogue) -> Situation:
    """Give up what was due before the cook was planned and can no longer be asked; return what is left."""
    after = pen.settle(None, catalogue)
    while gone := too_late(after.prompts, pen.now):
        for entry in gone:
            pen.write(Withdrawn(prompt=entry.prompt.key, reason=entry.reason))
        after = pen.settle(None, catalogue)
    return after


def check_all(situation: Situation, now: dt.datetime, *, moved_to: Serving | None = None) -> Refusal | None:
    """Return why dinner cannot be as it is wanted for every piece, the one that is ready last first.

    `moved_to` is the serving time that somebody asks for: only pieces that it moves are looked at.
    """
    refusals = []
    for view in situation.views:
        if view.state.did("serve") or (situation.several and moved_to is not None and view.state.serving != moved_to):
            continue
        refusal = check_serving(situation.seen_from(view.piece), moved_to or view.state.serving, now)
        if refusal is not None:
            refusals.append(dataclasses.replace(refusal, piece=view.piece if situation.several else None))
    return max(refusals, key=lambda refusal: refusal.at or now, default=None)


def check_serving(situation: Situation, serving: Serving, now: dt.datetime) -> Refusal | None:
    """Return why this serving time cannot be, None when it can (if only with luck).

    Impossible means: earlier than the earliest plate that one cook in ten reaches.
    """
    serve_end = serving.ends_at()
    if serve_end is None:
        return None
    state, outlook = situation.state, situation.outlook
    past = serve_end <= now
    if not past and (state.did("pull") or not _hopeless(outlook, serve_end)):
        return None
    likely, wanted = earliest_plate(situation, now), wanted_confidence(state)
    fixable = not past and state.stage in {Stage.BEFORE, Stage.FIRE}
    return Refusal(
        reason="serving_past" if past else "serving_too_soon",
        at=likely,
        sure_at=_later(
            likely, _plate_at(situation, now, outlook.forecast.ready().quantile(quantile_of(situation.cut, wanted)))
        ),
        confidence=wanted,
        instead=remedies(dataclasses.replace(state, serving=serving), situation.cut, _LIKELY) if fixable else (),
        minutes=_parts(situation, now),
    )


def _hopeless(outlook: Outlook, serve_end: dt.datetime) -> bool:
    """Return whether fewer than one cook in ten would be in time, one that the forecast sees no end of included."""
    if outlook.plate.early is not None:
        return outlook.plate.early > serve_end
    late = None if outlook.plan is None else outlook.plan.late_probability
    return late is not None and late > 1.0 - _LUCK


def earliest_plate(situation: Situation, now: dt.datetime) -> dt.datetime | None:
    """Return the likely earliest time on the table when one begins now, rounded up to five minutes."""
    return _plate_at(situation, now, situation.outlook.pull.likely)


def _plate_at(situation: Situation, now: dt.datetime, pull_at: dt.datetime | None) -> dt.datetime | None:
    """Return when it is on the table at the earliest if it comes off at `pull_at` as planned and one begins now."""
    if pull_at is None:
        return None
    state, at = situation.state, pull_at + after_pull(situation.cut)
    if not state.did("meat_on"):
        lit_at = state.at("light") or now
        at -= situation.outlook.on_at - max(lit_at + light_lead(state.cooker), now)
    return rounded(at, up=True)


def _later(likely: dt.datetime | None, sure: dt.datetime | None) -> dt.datetime | None:
    """Return the time that is sure, None where it says no more than the likely one (the meat is off, or tender)."""
    return None if likely is None or sure is None or sure <= likely else sure


def _parts(situation: Situation, now: dt.datetime) -> tuple[tuple[str, float], ...]:
    """Return the sum behind the earliest time, in minutes."""
    state, outlook, cut = situation.state, situation.outlook, situation.cut
    parts: list[tuple[str, float]] = []
    start_at = state.at("meat_on")
    if start_at is None:
        fire = max((state.at("light") or now) + light_lead(state.cooker) - now, dt.timedelta())
        parts.append(("light", fire / dt.timedelta(minutes=1)))
        start_at = outlook.on_at
    else:
        start_at = now
    if outlook.pull.likely is not None and not state.did("pull"):
        parts.append(("cook", max(0.0, (outlook.pull.likely - start_at) / dt.timedelta(minutes=1))))
    parts += [("vent", cut.vent_min), ("rest", cut.rest_min_min), ("slice", cut.slice_min)]
    return tuple(parts)
