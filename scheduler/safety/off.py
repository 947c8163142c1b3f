"""Rules of food that is off the fire, on the table or put away: measured, held, left out.

A stop is cleared by what was measured or done in time, never by what was done too late.
"""

from __future__ import annotations

import dataclasses
import datetime as dt

from scheduler.facts import Edition, Feel, Slot
from scheduler.safety.air import hot_between
from scheduler.safety.case import OPENING, Case
from scheduler.safety.contested import low_edge_c, same_spot
from scheduler.safety.finding import Finding, FindingLevel, Look
from scheduler.safety.holding import ACT_C, held_reading, rest_span
from scheduler.safety.limits import OUT, REHEAT
from scheduler.safety.minimum import safe_gate
from scheduler.safety.put_away import chilling_since, out_since
from scheduler.state import ReadingAt, Stage

_SETTLES = ("two_hour", "leftovers", "reheat_away", "leftover_expire")
"""Steps by which food that is out is cooled, kept hot, eaten or thrown away."""

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
    whose time at a lower temperature still runs off the fire, by somebody's choice.
    """
    state, cut, cuts = case.state, case.cut, case.cuts
    pulled_at = state.at("pull")
    if state.stage is not Stage.RESTING or pulled_at is None:
        return []
    gate = case.gate
    until = dataclasses.replace(state, readings=tuple(r for r in state.readings if r.at <= pulled_at))
    then = safe_gate(until, cut, cuts)
    if gate.open_at is not None or then.open_at is not None or gate.time_runs or _by_hand(case, pulled_at):
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


def low_held(case: Case) -> tuple[ReadingAt, ...]:
    """Return the readings of held meat under the floor that stand: no reading of that spot at 74 C (165 F) or hotter
    followed within the time that food may be out.
    """
    state = case.state
    pulled_at = state.at("pull")
    if pulled_at is None:
        return ()
    ends = [at for at in (state.at("serve"), chilling_since(state)) if at is not None]
    reads = [r for r in case.cores(pulled_at) if r.at > pulled_at]
    held_reads = [r for r in reads if all(r.at <= end for end in ends)]
    reads += [r for r in state.read(Slot.LEFTOVERS) if r.at <= case.now]
    return tuple(r for r in held_reads if case.under(r, case.floor_c) and not _reheated(r, reads, case))


def _reheated(low: ReadingAt, reads: list[ReadingAt], case: Case) -> bool:
    limit_c = case.limit_c(REHEAT)
    return any(
        low.at < r.at <= low.at + case.out_for(low.at, r.at) and _covers(r, low) and not case.under(r, limit_c)
        for r in reads
    )


def _covers(hot: ReadingAt, low: ReadingAt) -> bool:
    """Return whether a hot reading tells of the spot of a low one: one without a name may be of a colder spot than a
    named one; food in a pot or a dish has no spots.
    """
    return same_spot(hot, low) and (low.spot is not None or hot.spot is None or hot.slot is Slot.LEFTOVERS)


def held(case: Case) -> list[Finding]:
    """The held core is at or below the acting temperature, or was read under the floor and not reheated in time."""
    state = case.state
    last = held_reading(state)
    if state.stage is not Stage.RESTING or last is None:
        return []
    low = low_held(case)
    if low:
        first, lowest = low[0], min(low, key=low_edge_c)
        span = case.out_for(first.at)
        return [
            Finding(
                rule="held_under_floor",
                level=FindingLevel.STOP,
                found_c=low_edge_c(lowest),
                limit_c=case.floor_c,
                limit_min=span / dt.timedelta(minutes=1),
                spot=lowest.spot,
                since=first.at,
                until=first.at + span,
                edition=case.edition,
            )
        ]
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
    served, low = case.state.did("serve"), low_held(case)
    if served is None or not low:
        return []
    lowest, span = min(low, key=low_edge_c), case.out_for(low[0].at)
    return [
        Finding(
            rule="served_under_floor",
            level=FindingLevel.STOP,
            found_c=low_edge_c(lowest),
            limit_c=case.floor_c,
            limit_min=span / dt.timedelta(minutes=1),
            spot=lowest.spot,
            since=served.at,
            until=low[0].at + span,
            edition=case.edition,
        )
    ]


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


def out_limit(case: Case, served_at: dt.datetime, until: dt.datetime) -> dt.timedelta:
    """Return how long food that came out then, and was out until another instant, may stay out: two hours, one in hot
    air; the four hours of the Food Code only where that was chosen and a reading as it came out was hot enough.
    """
    span = case.out_for(served_at, until)
    if case.edition is not Edition.FOOD_CODE or hot_between(case.state, served_at, until):
        return span
    reads = case.cores(served_at - OPENING, served_at)
    hot = bool(reads) and not any(case.under(r, case.floor_c) for r in reads)
    return case.limit_span(OUT) if hot else span


def _out(case: Case) -> tuple[dt.datetime, dt.timedelta] | None:
    """Return since when food is without temperature control and how long it may be, None when it is not."""
    low = low_held(case)
    out_at = low[0].at if low else out_since(case.state)
    if out_at is None:
        return None
    end = kept(case, out_at) or case.now
    return out_at, case.out_for(out_at, end) if low else out_limit(case, out_at, end)


def food_out(case: Case) -> list[Finding]:
    """Food has been out for too long: nobody said that it was put away, or it was put away too late."""
    out = _out(case)
    if out is None:
        return []
    since, limit = out
    kept_at = kept(case, since)
    end = case.now if kept_at is None else kept_at
    if end < since + limit or kept_at == since + limit:
        return []
    return [
        Finding(
            rule="two_hours_out",
            level=FindingLevel.STOP,
            found_min=(end - since) / dt.timedelta(minutes=1),
            limit_min=limit / dt.timedelta(minutes=1),
            since=since,
            edition=case.edition,
        )
    ]


def out_looks(case: Case) -> list[Look]:
    """Return when food will have been out for too long, if nothing is told before."""
    out = _out(case)
    if out is None or kept(case, out[0]) is not None:
        return []
    return [Look(rule="two_hours_out", since=out[0], at=out[0] + out[1])]


RULES = (unmeasured, pulled_under_minimum, held, served_under_floor, food_out, not_read_since_pull)
"""Rules of food off the fire, in the order in which they are told."""

LOOKS = (out_looks,)
"""Those of them that time alone brings about."""
