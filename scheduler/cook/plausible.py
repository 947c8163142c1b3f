"""Whether a reading fits what is known; what does not fit is kept as doubtful until a second spot is read. Pure."""

from __future__ import annotations

import dataclasses
import datetime as dt

from scheduler.cook.situation import Situation
from scheduler.facts import Reading, Slot
from scheduler.forecast import Observation
from scheduler.state import CookState, ReadingAt, Stage

JUMP_C = 8.0
"""A rise above this within twenty minutes is doubted [°C]; common practice, no source."""

RISE_C_PER_MIN = 0.6
"""Fastest believable rise over a longer gap [°C/min]: thin rib racks climb up to about 30 C an hour early on; common
practice, no source."""

FALL_C = 3.0
"""A fall above this on the fire is doubted [°C]; common practice, no source."""

TOGETHER_MIN = 10.0
"""Readings of two people within this are of the same moment [min]; common practice, no source: both are shown, one is
asked about, they are never averaged."""

AGREE_C = 3.0
"""Two readings this close confirm one another [°C]: house rule."""

RECENT = dt.timedelta(minutes=30)
"""A second spot belongs to a first one this old at most; common practice, no source."""

STAYED, NEAR_STALL_C = dt.timedelta(minutes=90), 7.0
"""A core this near to its stall band [°C] may stay where it is for so long at least; common practice, no source."""

WARMEST_RAW_C = 45.0
"""No raw meat is hotter than this before it goes on [°C]: it is another piece, or nobody told; house rule."""

WRONG = 0.06
"""Probability of being wrong above which a second spot is asked for: house rule from the comparison of methods."""

FIRST_WRONG = 0.5
"""... for the first core of a cook, where the forecast knows only the cut: with the other limit one honest first
reading in six was doubted in the cooks of the virtual kitchen, with this one in forty."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Doubt:
    """Why a reading is doubted: the earlier reading that it does not fit, or the cores that were expected [°C]."""

    before: ReadingAt | None = None
    expected_c: tuple[float, float] | None = None
    """One in ten lies below the first, one in ten above the second."""


def not_on(reading: Reading, current: Situation) -> bool:
    """Return whether a core is too hot for meat that is not on the fire, as far as anybody told."""
    off = current.state.stage in {Stage.BEFORE, Stage.FIRE}
    return off and reading.slot is Slot.CORE and reading.value_c - reading.spread_c > WARMEST_RAW_C


def doubt(reading: Reading, at: dt.datetime, current: Situation, by: str | None = None) -> Doubt | None:
    """Return why a new core reading is doubted, None when it fits.

    Judged only on the fire; in the box a core may fall, and the first number after it went back on
    says how far it has. Two rules, either is enough: the jump from the reading before,
    and how unlikely the number is to a forecast made without it.
    """
    state = current.state
    if reading.slot is not Slot.CORE or state.stage is not Stage.COOKING or _first_since_back(state):
        return None
    before = _jumps(reading, at, state, by)
    return Doubt(before=before) if before is not None else _unforeseen(reading, at, current)


def _first_since_back(state: CookState) -> bool:
    """Return whether nobody has read the core since the meat went back on the heat."""
    return bool(state.off_spells) and not any(r.at > state.off_spells[-1].back_at for r in state.read(Slot.CORE))


def _jumps(reading: Reading, at: dt.datetime, state: CookState, by: str | None) -> ReadingAt | None:
    """Return the earlier reading that a new one does not fit.

    The edges of an approximate reading count in its favour; named spots are compared with themselves. Two people (`by`)
    who read differently within ten minutes read two spots.
    """
    earlier = _earlier(reading, at, state)
    if not earlier:
        return None
    last = earlier[-1]
    minutes = (at - last.at) / dt.timedelta(minutes=1)
    rise = reading.value_c - last.value_c
    if _leaps(last, reading, at):
        return last
    slack = reading.spread_c + last.spread_c
    two_people = by is not None and last.by is not None and by != last.by
    return last if two_people and minutes <= TOGETHER_MIN and abs(rise) - slack > AGREE_C else None


def _earlier(reading: Reading, at: dt.datetime, state: CookState) -> list[ReadingAt]:
    on_at = state.at("meat_on")
    return [r for r in state.read(Slot.CORE) if (on_at or r.at) <= r.at <= at and _same_spot(r, reading)]


def _leaps(last: ReadingAt, reading: Reading, at: dt.datetime) -> bool:
    """Return whether the core cannot have gone from one reading to the other."""
    minutes = (at - last.at) / dt.timedelta(minutes=1)
    return not follows(last.value_c, reading.value_c, minutes=minutes, slack_c=reading.spread_c + last.spread_c)


def follows(last_c: float, core_c: float, *, minutes: float, slack_c: float = 0.0) -> bool:
    """Return whether a core on the fire can have gone from one reading to the next in so many minutes [°C]."""
    rise = core_c - last_c
    return rise - slack_c <= max(JUMP_C, RISE_C_PER_MIN * minutes) and -rise - slack_c <= FALL_C


def _unforeseen(reading: Reading, at: dt.datetime, current: Situation) -> Doubt | None:
    """Return the cores that were expected when the forecast takes the reading for a slip, bone or fat."""
    on_at = current.state.at("meat_on")
    if on_at is None or at <= on_at:
        return None
    if _stays(reading, at, current):
        return None
    forecast = current.outlook.forecast
    seen = Observation(at=at, value_c=reading.value_c, spread_c=reading.spread_c)
    known = any(r.at > on_at for r in current.state.read(Slot.CORE))
    if forecast.outlier_probability(seen) <= (WRONG if known else FIRST_WRONG):
        return None
    return Doubt(expected_c=(forecast.core_c(at, 0.1), forecast.core_c(at, 0.9)))


def _stays(reading: Reading, at: dt.datetime, current: Situation) -> bool:
    """Return whether a reading shows that the core has stayed where it was read before, near its stall: slower than
    anybody foresaw, and no slip.
    """
    earlier = _earlier(reading, at, current.state)
    if not earlier or at - earlier[-1].at > STAYED:
        return False
    low_c, high_c = current.cut.stall_c
    near = low_c - NEAR_STALL_C <= earlier[-1].value_c <= high_c + NEAR_STALL_C
    return near and abs(reading.value_c - earlier[-1].value_c) <= AGREE_C + reading.spread_c + earlier[-1].spread_c


def far_from(old: Reading, new: Reading, at: dt.datetime, current: Situation) -> bool:
    """Return whether a core on the fire is corrected to one far from it, so that it has to be looked at."""
    if new.slot is not Slot.CORE or current.state.stage is not Stage.COOKING or old.doubtful:
        return False
    on_at = current.state.at("meat_on")
    near = old.slot is Slot.CORE and abs(new.value_c - old.value_c) <= JUMP_C
    return on_at is not None and at > on_at and not near


def unlikely(reading: Reading, at: dt.datetime, current: Situation) -> Doubt | None:
    """Return the cores that were expected when the forecast takes a core for a slip, as it does a first one."""
    forecast = current.outlook.forecast
    seen = Observation(at=at, value_c=reading.value_c, spread_c=reading.spread_c)
    if forecast.outlier_probability(seen) <= FIRST_WRONG:
        return None
    return Doubt(expected_c=(forecast.core_c(at, 0.1), forecast.core_c(at, 0.9)))


def overruled(reading: Reading, at: dt.datetime, state: CookState) -> tuple[ReadingAt, ...]:
    """Return the readings of the last half hour that a confirmed one cannot follow: two spots stand against each."""
    earlier = _earlier(reading, at, state)
    return tuple(r for r in earlier if at - r.at <= RECENT and _leaps(r, reading, at))


def _same_spot(earlier: ReadingAt, reading: Reading) -> bool:
    return earlier.spot is None or reading.spot is None or earlier.spot.casefold() == reading.spot.casefold()


def confirms(reading: Reading, at: dt.datetime, state: CookState) -> ReadingAt | None:
    """Return the newest doubtful reading of the last half hour that this one agrees with, None when there is none."""
    if reading.slot is not Slot.CORE:
        return None
    doubtful = [r for r in state.read(Slot.CORE, doubtful=True) if r.doubtful and abs(at - r.at) <= RECENT]
    agreeing = [r for r in doubtful if abs(r.value_c - reading.value_c) <= AGREE_C]
    return agreeing[-1] if agreeing else None


def fits(reading: Reading, at: dt.datetime, current: Situation, by: str | None = None) -> bool:
    """Return whether a core reading may be of the piece that a situation is seen from."""
    return doubt(reading, at, current, by) is None
