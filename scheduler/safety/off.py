"""Rules of food that is off the fire, on the table or put away: measured, held, left out.

A stop is cleared by what was measured or done in time, never by what was done too late.
"""

from __future__ import annotations

import dataclasses
import datetime as dt

from scheduler.facts import Edition, Feel
from scheduler.safety.air import hot_between
from scheduler.safety.case import OPENING, Case
from scheduler.safety.contested import low_edge_c
from scheduler.safety.finding import Finding, FindingLevel, Look
from scheduler.safety.holding import ACT_C, held_reading, rest_span
from scheduler.safety.limits import OUT
from scheduler.safety.minimum import SafeGate, safe_gate
from scheduler.safety.put_away import chilling_since, on_heat, outs
from scheduler.safety.under_floor import Cold, cold_off_heat, coldest, low_held, since_hot
from scheduler.state import Stage

_SETTLES = ("two_hour", "leftovers", "reheat_away", "leftover_expire")
"""Steps by which food that is out is cooled, kept hot, eaten or thrown away."""

_MINUTE = dt.timedelta(minutes=1)

_FELT_RECENTLY = dt.timedelta(minutes=30)
"""A number read so long before the last feel belongs to that feel; an older one says nothing of the meat as it was
pulled: house rule."""


# --- measured ---------------------------------------------------------------------------------------------------------


def unmeasured(case: Case) -> list[Finding]:
    """The minimum has not been measured although the meat was served: it stands until it is measured.

    Rolled meat read at the published minimum of whole cuts, but under the house's own, is a caution.
    """
    served = case.state.did("serve")
    gate = case.gate
    if served is None or gate.is_open(case.now):
        return []
    return [
        Finding(
            rule="minimum_not_measured",
            level=FindingLevel.CAUTION if case.published_gate.is_open(case.now) else FindingLevel.STOP,
            found_c=None if gate.lowest is None else low_edge_c(gate.lowest),
            limit_c=gate.minimum_c,
            spot=None if gate.lowest is None else gate.lowest.spot,
            since=served.at,
        )
    ]


def pulled_under_minimum(case: Case) -> list[Finding]:
    """Return that meat was pulled, is not served, and its coldest spot was never read at the minimum.

    A cut that goes by the hand says so only with a number below it that was read near its last feel: nobody reads what
    falls apart, and a number from hours before says nothing of it. Its gate stays shut all the same, and so does one
    whose time at a lower temperature still runs off the fire, by somebody's choice before the pull: for half an hour
    after each reading.
    """
    state, cut, cuts = case.state, case.cut, case.cuts
    pulled_at = state.at("pull")
    if state.stage is not Stage.RESTING or pulled_at is None:
        return []
    gate = case.gate
    until = dataclasses.replace(state, readings=tuple(r for r in state.readings if r.at <= pulled_at))
    then = safe_gate(until, cut, cuts)
    if gate.open_at is not None or then.open_at is not None or _by_hand(case, pulled_at):
        return []
    runs_until = _runs_until(case, gate, pulled_at)
    if runs_until is not None and case.now < runs_until:
        return []
    return [
        Finding(
            rule="pulled_under_minimum",
            level=FindingLevel.STOP if case.published_gate.open_at is None else FindingLevel.CAUTION,
            found_c=None if gate.lowest is None else low_edge_c(gate.lowest),
            limit_c=gate.minimum_c,
            spot=None if gate.lowest is None else gate.lowest.spot,
            since=pulled_at,
        )
    ]


def _runs_until(case: Case, gate: SafeGate, pulled_at: dt.datetime) -> dt.datetime | None:
    """Return until when time that was chosen before the pull is known to run, None when it does not."""
    chosen_at = case.state.by_time_since
    off_at = case.state.off_at or pulled_at
    return gate.time_runs_until if chosen_at is not None and chosen_at <= off_at else None


def time_looks(case: Case) -> list[Look]:
    """Return when time at a lower temperature will not have been read for too long, off the fire."""
    pulled_at = case.state.at("pull")
    if case.state.stage is not Stage.RESTING or pulled_at is None:
        return []
    until = _runs_until(case, case.gate, pulled_at)
    return [] if until is None else [Look(rule="pulled_under_minimum", since=pulled_at, at=until)]


def _by_hand(case: Case, pulled_at: dt.datetime) -> bool:
    """Return whether a cut was pulled by the hand alone: never read, or felt tender with no number near that feel."""
    if case.cut.doneness != "feel":
        return False
    reads = [r for r in case.cores(case.state.at("meat_on")) if r.at <= pulled_at]
    feels = [(at, felt.feel) for at, felt in case.state.feels if at <= pulled_at]
    if not feels or feels[-1][1] is not Feel.TENDER:
        return not reads
    return not [r for r in reads if r.at >= feels[-1][0] - _FELT_RECENTLY]


# --- held -------------------------------------------------------------------------------------------------------------


def held(case: Case) -> list[Finding]:
    """The held core is at or below the acting temperature, or was read under the floor and not reheated in time."""
    state = case.state
    last = held_reading(state)
    low = tuple(one for one in low_held(case) if not _before_serving(one, case))
    if low:
        return [
            _under_floor(Finding(rule="held_under_floor", level=FindingLevel.STOP, since=low[0].reading.at), low, case)
        ]
    if state.stage is not Stage.RESTING or last is None:
        return []
    if case.under(last, case.floor_c) or low_edge_c(last) > ACT_C or chilling_since(state) is not None:
        return []
    return [
        Finding(
            rule="held_act_now",
            level=FindingLevel.CAUTION,
            found_c=low_edge_c(last),
            limit_c=ACT_C,
            floor_c=case.floor_c,
            spot=last.spot,
            since=last.at,
        )
    ]


def served_under_floor(case: Case) -> list[Finding]:
    """Held meat was read under the floor and served without having been reheated in time."""
    served, low = case.state.did("serve"), tuple(one for one in low_held(case) if _before_serving(one, case))
    if served is None or not low:
        return []
    return [_under_floor(Finding(rule="served_under_floor", level=FindingLevel.STOP, since=served.at), low, case)]


def _before_serving(cold: Cold, case: Case) -> bool:
    """Return whether meat was served after such a reading; one of food back on heat is of held food again."""
    served = case.state.did("serve")
    return served is not None and cold.reading.at <= served.at


def _under_floor(finding: Finding, low: tuple[Cold, ...], case: Case) -> Finding:
    """Return that meat off the fire was read under the floor: for how long nobody knows that it was hot, and until when
    reheating would mend it.
    """
    hot_at, lowest = since_hot(low), coldest(low)
    within = case.out_for(hot_at)
    return dataclasses.replace(
        finding,
        found_c=low_edge_c(lowest),
        limit_c=case.floor_c,
        found_min=(case.now - hot_at) / _MINUTE,
        limit_min=within / _MINUTE,
        spot=lowest.spot,
        known_at=hot_at,
        until=hot_at + within,
        edition=case.edition,
    )


def not_read_since_pull(case: Case) -> list[Finding]:
    """The food came out and nobody has read it since it left the fire: unknown is not hot."""
    served = case.state.did("serve")
    if served is None or not held_long(case, served.at) or held_reading(case.state) is not None:
        return []
    kept_at = kept(case, served.at)
    if kept_at is not None and kept_at <= served.at + out_limit(case, served.at, kept_at):
        return []
    return [Finding(rule="held_not_read", level=FindingLevel.CAUTION, limit_c=case.floor_c, since=served.at)]


def held_long(case: Case, until: dt.datetime) -> bool:
    """Return whether meat was off the fire for longer than it rests anyway, so that it was held."""
    pulled_at = case.state.at("pull")
    return pulled_at is not None and until - pulled_at > rest_span(case.cut)


# --- left out ---------------------------------------------------------------------------------------------------------


def kept(case: Case, since: dt.datetime) -> dt.datetime | None:
    """Return when the food was put away or kept hot after an instant, None when nobody said so.

    What was put away before was an earlier wave; when it was done counts, not when it was told.
    """
    times = [done.at for step in _SETTLES for done in case.state.done.get(step, ()) if since <= done.at <= case.now]
    return min(times, default=None)


def out_limit(case: Case, out_at: dt.datetime, until: dt.datetime | None = None) -> dt.timedelta:
    """Return how long food that came out then may stay out: two hours, one in air that is hot before `until` (None:
    now); the four hours of the Food Code only where that was chosen and a reading as it came out was hot enough.
    """
    if case.edition is not Edition.FOOD_CODE or hot_between(case.state, out_at, until or case.now):
        return case.out_for(out_at, until)
    reads = case.cores(out_at - OPENING, out_at)
    hot = bool(reads) and not any(case.under(r, case.floor_c) for r in reads)
    return case.limit_span(OUT) if hot else case.out_for(out_at, until)


@dataclasses.dataclass(frozen=True, kw_only=True)
class _Out:
    """A time without temperature control: since when, until when (None: it goes on), and how long it may be."""

    since: dt.datetime
    kept_at: dt.datetime | None
    limit: dt.timedelta
    unread: bool = False
    """True for food that was said to be kept hot and that nobody has read at the floor or above since `since`."""


def _times_out(case: Case) -> list[_Out]:
    """Return every time in which food was without temperature control: held and not known hot, off the
    heat and cold until it went back on, served, reheated.
    """
    found = [
        _Out(since=hot_at, kept_at=back_at, limit=case.out_for(hot_at, back_at))
        for hot_at, back_at in cold_off_heat(case)
    ]
    low = low_held(case)
    if low:
        since = since_hot(low)
        kept_at = kept(case, low[0].reading.at)
        found.append(_Out(since=since, kept_at=kept_at, limit=case.out_for(since, kept_at)))
    for at in outs(case.state):
        kept_at = kept(case, at)
        found.append(_Out(since=at, kept_at=kept_at, limit=out_limit(case, at, kept_at)))
    for at, end in on_heat(case.state, case.now):
        hot = [r.at for r in case.held(at, put_away=True) if not case.under(r, case.floor_c) and r.at <= (end or r.at)]
        since = max([at, *hot])
        found.append(_Out(since=since, kept_at=end, limit=case.out_for(since, end), unread=True))
    return found


def _whose(limit: dt.timedelta, case: Case) -> Edition:
    """Return whose limit counts: two hours and one are never the Food Code's, also where its rules were chosen."""
    if case.edition is Edition.FOOD_CODE and limit != dt.timedelta(minutes=OUT.under(Edition.FOOD_CODE).value):
        return Edition.CONSUMER
    return case.edition


def food_out(case: Case) -> list[Finding]:
    """Food has been out for too long: nobody said that it was put away, or it was put away too late. Reheating later
    begins another time, and ends none; food back on heat counts as out until it is read hot, and after that again.
    """
    for out in _times_out(case):
        end = case.now if out.kept_at is None else out.kept_at
        if end < out.since + out.limit or out.kept_at == out.since + out.limit:
            continue
        return [
            Finding(
                rule="two_hours_out",
                level=FindingLevel.STOP,
                found_min=(end - out.since) / _MINUTE,
                limit_min=out.limit / _MINUTE,
                limit_c=case.floor_c if out.unread else None,
                since=out.since,
                unread=out.unread and out.kept_at is None,
                edition=_whose(out.limit, case),
            )
        ]
    return []


def out_looks(case: Case) -> list[Look]:
    """Return when food will have been out for too long, if nothing is told before."""
    going = [out for out in _times_out(case) if out.kept_at is None]
    return [Look(rule="two_hours_out", since=out.since, at=out.since + out.limit) for out in going]


RULES = (unmeasured, pulled_under_minimum, held, served_under_floor, food_out, not_read_since_pull)
"""Rules of food off the fire, in the order in which they are told."""

LOOKS = (out_looks, time_looks)
"""Those of them that time alone brings about."""
