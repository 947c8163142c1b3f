"""Who is awake when: watches put on the night of the cook, the hours that nobody has, and what wakes whom.

Pure. It never says that a fire may burn alone: hours without a name are hours for which a name is missing.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
from collections.abc import Sequence
from zoneinfo import ZoneInfo

from scheduler.facts import Watch
from scheduler.planning.nights import QUIET, is_quiet, owner_of, quiet_end, quiet_hours, quiet_start, watches
from scheduler.planning.outlook import Outlook
from scheduler.planning.steps import Step
from scheduler.state import CookState

Span = tuple[dt.datetime, dt.datetime]
"""From one instant to another (UTC)."""

_DAY = dt.timedelta(days=1)
_MINUTE = dt.timedelta(minutes=1)

SHORT = dt.timedelta(minutes=10)
"""Hours without a name shorter than this are a handover: house rule."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Turn:
    """One watch as it was said, by the clock; None: from where the one before ends, to where the next one begins."""

    name: str
    start: dt.time | None = None
    end: dt.time | None = None


def burns(state: CookState, outlook: Outlook) -> Span:
    """Return from when to when the fire burns: from lighting, or as of now, until the last end of the pull."""
    start = max(outlook.light_at, state.as_of)
    end = outlook.pull.late or outlook.pull.likely or start + _DAY
    return start, max(start, end)


def placed(state: CookState, outlook: Outlook, turns: Sequence[Turn]) -> tuple[Watch, ...]:
    """Return watches on the night of the cook, as wall times of its zone.

    The first lies where the fire burns (nearest to it when no night of it does), each further one after that before it.
    A watch without a beginning follows the one before, the first of all begins with the quiet hours or the fire; one
    without an end goes on to the next, the last to the end of the quiet hours or of the fire.
    """
    start, end = burns(state, outlook)
    lit, over = _wall(state, start), _wall(state, end)
    found: list[Watch] = []
    for number, turn in enumerate(turns):
        before = found[-1] if found else None
        after = next((later.start for later in turns[number + 1 :] if later.start is not None), None)
        found.append(_placed(turn, before, after, (lit, over), state))
    return tuple(found)


def _placed(turn: Turn, before: Watch | None, after: dt.time | None, fire: Span, state: CookState) -> Watch:
    if turn.start is not None:
        start = _first(turn.start, turn.end or after, before, fire)
    elif before is not None:
        start = before.end
    else:
        start = _beginning(turn.end or after, fire, state)
    clock = turn.end or after
    if clock is not None:
        return Watch(name=turn.name, start=start, end=_next(start, clock))
    begun = _instant(state, start)
    end = _wall(state, quiet_end(state, begun)) if is_quiet(state, begun) else fire[1]
    return Watch(name=turn.name, start=start, end=end if end > start else start + _DAY / 3)


def _first(clock: dt.time, end: dt.time | None, before: Watch | None, fire: Span) -> dt.datetime:
    """Return the beginning of a watch: the first that lies where the fire burns and not before the one before."""
    lit, over = fire
    days = range(-1, (over - lit).days + 2)
    starts = [dt.datetime.combine(lit.date() + day * _DAY, clock) for day in days]
    later = [start for start in starts if before is None or start >= before.start] or starts[-1:]
    burning = [start for start in later if start < over and _next(start, end or clock) > lit]
    return burning[0] if burning else min(later, key=lambda start: abs(start - lit))


def _beginning(end: dt.time | None, fire: Span, state: CookState) -> dt.datetime:
    """Return when the first watch begins that was told without: with the quiet hours before its end, or the fire."""
    lit, over = fire
    quiet = _night(state)[0]
    if end is None:
        return max(lit, dt.datetime.combine(lit.date(), quiet)) if over.date() > lit.date() else lit
    ends = [dt.datetime.combine(lit.date() + day * _DAY, end) for day in range((over - lit).days + 2)]
    first = next((at for at in ends if at > lit), ends[-1])
    asleep = dt.datetime.combine(first.date(), quiet)
    return max(lit, asleep if asleep < first else asleep - _DAY)


def _next(start: dt.datetime, clock: dt.time) -> dt.datetime:
    """Return the first wall time after another at which a clock shows a time."""
    at = dt.datetime.combine(start.date(), clock)
    return at if at > start else at + _DAY


def alone(state: CookState, outlook: Outlook) -> tuple[Span, ...]:
    """Return the hours of the night in which the fire burns and nobody has the watch, as instants in order."""
    if state.did("pull"):
        return ()
    start, end = burns(state, outlook)
    left: list[Span] = []
    for asleep, up in _nights(state, start, end):
        free = [(asleep, up)]
        for _name, begins, ends in watches(state):
            free = [part for span in free for part in _without(span, (begins, ends))]
        left += free
    return tuple(span for span in left if span[1] - span[0] >= SHORT)


def _nights(state: CookState, start: dt.datetime, end: dt.datetime) -> list[Span]:
    """Return what of a span of time lies in the night; those who want no quiet hours sleep at the usual ones."""
    told = state.watches
    if told is not None and told.quiet is not None and told.quiet[0] == told.quiet[1]:
        state = dataclasses.replace(state, watches=dataclasses.replace(told, quiet=QUIET))
    found: list[Span] = []
    at = start
    while at < end:
        asleep = at if is_quiet(state, at) else quiet_start(state, at)
        if asleep >= end:
            break
        up = quiet_end(state, asleep)
        found.append((asleep, min(up, end)))
        at = up + _MINUTE
    return found


def _night(state: CookState) -> tuple[dt.time, dt.time]:
    told = quiet_hours(state)
    return QUIET if told[0] == told[1] else told


def _without(span: Span, taken: Span) -> list[Span]:
    """Return what is left of a span of time once another is taken out of it."""
    parts = [(span[0], min(span[1], taken[0])), (max(span[0], taken[1]), span[1])]
    return [(start, end) for start, end in parts if start < end]


def wakes_whom(
    state: CookState, courses: Sequence[tuple[dt.datetime, Step]]
) -> tuple[tuple[dt.datetime, Step, str | None], ...]:
    """Return of steps to come (instant, step) those that wake somebody in the quiet hours, with whom."""
    return tuple(
        (at, step, owner_of(step, state, at))
        for at, step in courses
        if at > state.as_of and is_quiet(state, at) and (step.safety or step.night in {"wake", "watch_only"})
    )


def _wall(state: CookState, at: dt.datetime) -> dt.datetime:
    """Return an instant as wall time of the cook's zone, to the minute."""
    return at.astimezone(ZoneInfo(state.serving.zone)).replace(tzinfo=None, second=0, microsecond=0)


def _instant(state: CookState, wall: dt.datetime) -> dt.datetime:
    return wall.replace(tzinfo=ZoneInfo(state.serving.zone)).astimezone(dt.UTC)
