"""What a rule looks at: one piece, what is known of it, and an instant. A value; it judges nothing."""

from __future__ import annotations

import dataclasses
import datetime as dt
import functools

from scheduler.cuts import Cut, Cuts
from scheduler.facts import Edition, SafeBy, Slot, Treatment
from scheduler.safety.air import out_span
from scheduler.safety.contested import doubted, low_edge_c, standing_readings
from scheduler.safety.least import counting, not_by_time
from scheduler.safety.limits import HOT_HOLD, HOT_HOLD_ROAST, Limit
from scheduler.safety.minimum import HOTTEST_CORE_C, SafeGate, safe_gate
from scheduler.safety.put_away import SAME_LOOK, chilling_since
from scheduler.state import CookState, ReadingAt

OPENING = dt.timedelta(minutes=30)
"""A reading this old at most tells how hot the food is as it comes out; common practice, no source."""

THROWN = frozenset({("two_hour", "thrown"), ("leftover_expire", "binned")})
"""Outcomes of steps by which a person records that the food was thrown away, as `Discarded` does."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Case:
    """One piece at an instant (aware, UTC)."""

    state: CookState
    cut: Cut
    cuts: Cuts
    now: dt.datetime

    @property
    def edition(self) -> Edition:
        """Return whose figures count: as told, of each rule the stricter one when guests at risk eat."""
        return counting(self.state.edition, at_risk=self.state.care.at_risk)

    @functools.cached_property
    def gate(self) -> SafeGate:
        """Return the safety gate of the piece; every rule of one look asks for the same."""
        return safe_gate(self.state, self.cut, self.cuts)

    @functools.cached_property
    def published_gate(self) -> SafeGate:
        """Return the gate without the house reading of rolled meat (as tenderised): only this one stops."""
        treated = self.state.treated or ()
        if Treatment.ROLLED not in treated:
            return self.gate
        rest = tuple(one for one in treated if one is not Treatment.ROLLED)
        plain = dataclasses.replace(self.state, treated=rest, safe_by=SafeBy.MINIMUM)
        return safe_gate(plain, self.cut, self.cuts)

    def limit_c(self, limit: Limit) -> float:
        """Return the temperature that counts for this cook [°C], rounded to 0.1 as published limits are compared."""
        return limit.under(self.edition).c

    def limit_span(self, limit: Limit) -> dt.timedelta:
        """Return the duration that counts for this cook."""
        return dt.timedelta(minutes=limit.under(self.edition).value)

    def under(self, reading: ReadingAt, limit_c: float) -> bool:
        """Return whether the low edge of a reading, rounded to 0.1, is under a limit [°C]."""
        return round(low_edge_c(reading), 1) < limit_c

    @property
    def floor_c(self) -> float:
        """Return the floor of hot holding [°C].

        The lower figure for roasts needs the Food Code, a roast whose time at a lower temperature may count
        (3-401.11(B): whole, told as intact) and was chosen before it came off, and somebody's word that no guest is at
        risk.
        """
        chosen_at, off_at = self.state.by_time_since, self.state.off_at
        chosen = chosen_at is not None and (off_at is None or chosen_at <= off_at)
        roast = chosen and not_by_time(self.cut, self.state.treated, at_risk=self.state.care.at_risk) is None
        if self.edition is Edition.FOOD_CODE and roast and self.state.care.at_risk is False:
            return self.limit_c(HOT_HOLD_ROAST)
        return self.limit_c(HOT_HOLD)

    @property
    def treated(self) -> bool:
        """Return whether bacteria may be inside the piece: as told, or because its class is ground meat."""
        return bool(self.state.treated) or self.cut.safety_class == "ground"

    def out_for(self, since: dt.datetime, until: dt.datetime | None = None) -> dt.timedelta:
        """Return how long food may be without temperature control that is so from one instant to another (None: `now`):
        two hours, one where the air was hot at any time between (`scheduler.safety.air`).
        """
        return out_span(self.state, since, self.now if until is None else until)

    def cores(self, since: dt.datetime | None, until: dt.datetime | None = None) -> tuple[ReadingAt, ...]:
        """Return the core readings that count from an instant on (None: none at all), in order of time, up to `now`.

        Of two that differ the lower one counts until a third (`scheduler.safety.contested`); a number that no core can
        have counts for nothing, as for the gate.
        """
        if since is None:
            return ()
        end = self.now if until is None else min(until, self.now)
        known = dataclasses.replace(self.state, readings=tuple(r for r in self.state.readings if r.at <= self.now))
        counting = standing_readings(known, Slot.CORE, since=since)
        return tuple(r for r in counting if r.at <= end and low_edge_c(r) <= HOTTEST_CORE_C)

    @functools.cached_property
    def cores_on_fire(self) -> tuple[ReadingAt, ...]:
        """Return the core readings that count while the meat was on, in order of time."""
        return self.cores(self.state.at("meat_on"), self.state.at("pull"))

    def cold_cores(self, limit_c: float) -> tuple[ReadingAt, ...]:
        """Return the core readings while the meat was on with those under a limit [°C] that are only doubted: what may
        be a cold core counts on the unsafe side, until it is corrected or two others settle it.
        """
        on_at, pulled_at = self.state.at("meat_on"), self.state.at("pull")
        counted = {r.fact for r in self.cores_on_fire}
        end = self.now if pulled_at is None else min(self.now, pulled_at)
        low = [
            r
            for r in doubted(r for r in self.state.read(Slot.CORE, doubtful=True) if r.at <= self.now)
            if on_at is not None and on_at <= r.at <= end and self.under(r, limit_c) and r.fact not in counted
        ]
        return tuple(sorted((*self.cores_on_fire, *low), key=lambda r: r.at))

    def held(self, since: dt.datetime, *, put_away: bool = False) -> tuple[ReadingAt, ...]:
        """Return the readings of meat off the fire after an instant, in order of time: of its core, and those told as
        of leftovers while it was not put away yet (`put_away`: also those told since). Of several pieces a number of
        leftovers is of one that was put away by then, never of one that is still held.
        """
        away_at = chilling_since(self.state)
        leftovers = list(self.state.read(Slot.LEFTOVERS))
        if len(self.state.pieces) > 1:
            leftovers = [r for r in leftovers if away_at is not None and r.at >= away_at]
        if away_at is not None and not put_away:
            leftovers = [r for r in leftovers if r.at <= away_at]
        found = [r for r in (*self.cores(since), *leftovers) if since < r.at <= self.now]
        return tuple(sorted(found, key=lambda r: r.at))

    def lowest(self, readings: tuple[ReadingAt, ...]) -> ReadingAt | None:
        """Return the lowest reading, by its low edge, of the newest look; None of no readings."""
        newest = [r for r in readings if readings[-1].at - r.at <= SAME_LOOK]
        return min(newest, key=low_edge_c, default=None)

    @property
    def oven_at(self) -> dt.datetime | None:
        """Return since when the piece cooks on in an oven, away from the pit; None when it does not."""
        return None if self.state.oven is None else self.state.oven[0]

    @property
    def discarded_at(self) -> dt.datetime | None:
        """Return when the food was thrown away last, as a person recorded; None when nobody did."""
        return discarded_at(self.state)


def discarded_at(state: CookState) -> dt.datetime | None:
    """Return when the piece, or what was left of it, was thrown away last; None when nobody said so."""
    served = state.did("serve")
    thrown = [
        done.at
        for step, outcome in THROWN
        for done in state.done.get(step, ())
        if done.outcome == outcome and served is not None and done.at >= served.at
    ]
    return max([*(one.at for one in state.discarded), *thrown], default=None)
