"""The stall: what the readings show of it (since when, at which core) and what the forecast says of its end.

Pure. Readings say that it has begun; only the forecast knows when it ends.
"""

from __future__ import annotations

import dataclasses
import datetime as dt

from scheduler.cuts import Cut
from scheduler.facts import Slot
from scheduler.forecast import Crossing, Forecast, StallPhase
from scheduler.planning.outlook import Window
from scheduler.state import CookState, ReadingAt, Stage

RISE_C_PER_H = 3.5
"""Rise below which a core in the stall band counts as stalled: about 1 C in 25 minutes is common practice, no source;
a degree an hour more is allowed here because readings are whole degrees half an hour apart."""

CLIMB_C_PER_H = 5.0
"""Rise from which readings deny a stall that the forecast is sure of; whole degrees half an hour apart tell it no
finer: house rule."""

SURE = 0.6
"""Share of the forecast from which it is believed that the meat is in its stall, where readings are too few to show it
or to deny it: house rule."""

_TWO = 2
"""A rise needs two readings."""

_SPAN = dt.timedelta(minutes=25)
_BELOW_C = 5.0


@dataclasses.dataclass(frozen=True, kw_only=True)
class Stall:
    """How a piece stands with its stall as of its newest reading.

    While it is within: `since` when, only where readings show it, and at which core [°C]. `begins` and `ends` are what
    the forecast expects, None where it expects none.
    """

    phase: StallPhase
    share: float = 1.0
    """How sure the forecast is of its phase, 0 to 1; 1 where readings show it."""
    since: dt.datetime | None = None
    core_c: float | None = None
    begins: Window | None = None
    ends: Window | None = None

    @property
    def within(self) -> bool:
        """Return whether the meat is in its stall now."""
        return self.phase is StallPhase.WITHIN


def stall_of(state: CookState, cut: Cut, forecast: Forecast) -> Stall:
    """Return how the piece stands with its stall.

    Two readings that hardly rise in the band are a stall whatever was foreseen, and a measured climb is none. Between
    the two the forecast is believed when it is sure.
    """
    foreseen = forecast.stall()
    readings = [r for r in state.read(Slot.CORE) if r.at >= (state.at("meat_on") or r.at)]
    begins, ends = _span(foreseen.begins), _span(foreseen.ends)
    cooking = state.stage is Stage.COOKING
    flat = _flat_since(readings, cut) if cooking else None
    if flat is not None:
        return Stall(
            phase=StallPhase.WITHIN, since=flat.at, core_c=readings[-1].value_c, begins=begins,
            ends=_not_before(ends, state.as_of),
        )  # fmt: skip
    phase = foreseen.phase
    if phase is StallPhase.WITHIN:
        low_c, high_c = cut.stall_c
        inside = bool(readings) and low_c - _BELOW_C <= readings[-1].value_c <= high_c
        if cooking and inside and foreseen.share >= SURE and not _climbs(readings):
            return Stall(phase=phase, core_c=readings[-1].value_c, begins=begins, ends=_not_before(ends, state.as_of))
        past = cooking and bool(readings) and readings[-1].value_c > 0.5 * (low_c + high_c)
        phase = StallPhase.BEHIND if past else StallPhase.AHEAD
    if cooking and readings and readings[-1].value_c > cut.stall_c[1]:
        phase = StallPhase.BEHIND
    share = foreseen.share if phase is foreseen.phase else 1.0
    return Stall(phase=phase, share=share, begins=begins, ends=ends)


def _flat_since(readings: list[ReadingAt], cut: Cut) -> ReadingAt | None:
    """Return the earliest reading in the band from which on the rise to every later one is slow, None without one.

    A later reading can only rule a start out, never bring an earlier one back: what was told never moves earlier.
    """
    low_c, high_c = cut.stall_c
    if len(readings) < _TWO or not low_c - _BELOW_C <= readings[-1].value_c <= high_c:
        return None
    for index, one in enumerate(readings[:-1]):
        if one.value_c < low_c - _BELOW_C or readings[-1].at - one.at < _SPAN:
            continue
        if all(_hardly_rises(one, later) for later in readings[index + 1 :]):
            return one
    return None


def _hardly_rises(earlier: ReadingAt, later: ReadingAt) -> bool:
    """Return whether the core hardly rose between two readings; those close together are judged as a longer span."""
    hours = max(later.at - earlier.at, _SPAN) / dt.timedelta(hours=1)
    return later.value_c - earlier.value_c < RISE_C_PER_H * hours


def _climbs(readings: list[ReadingAt]) -> bool:
    """Return whether the newest readings show a rise: over the shortest span that tells."""
    newest = readings[-1]
    earlier = next((r for r in reversed(readings[:-1]) if newest.at - r.at >= _SPAN), None)
    return earlier is not None and _rise_c_per_h(earlier, newest) >= CLIMB_C_PER_H


def _rise_c_per_h(earlier: ReadingAt, newest: ReadingAt) -> float:
    return (newest.value_c - earlier.value_c) / ((newest.at - earlier.at) / dt.timedelta(hours=1))


def _span(crossing: Crossing | None) -> Window | None:
    if crossing is None or crossing.quantile(0.5) is None:
        return None
    return Window(early=crossing.quantile(0.1), likely=crossing.quantile(0.5), late=crossing.quantile(0.9))


def _not_before(span: Window | None, at: dt.datetime) -> Window | None:
    """Return an end that lies ahead: while it lasts it cannot have ended."""
    if span is None:
        return None
    early, likely, late = (None if t is None else max(t, at) for t in (span.early, span.likely, span.late))
    return Window(early=early, likely=likely, late=late)
