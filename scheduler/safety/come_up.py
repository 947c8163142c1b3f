"""Rules of the core while meat is on: one that comes up too slowly, or of which nobody can say how fast it came up.

The six hours are a limit of the process (FSIS Appendix A): over them nobody can say that the meat is safe, which does
not say that it is not.
"""

from __future__ import annotations

import datetime as dt

from scheduler.safety.case import Case
from scheduler.safety.contested import low_edge_c
from scheduler.safety.finding import Finding, FindingLevel, Look
from scheduler.safety.limits import COME_UP_HIGH, COME_UP_TIME
from scheduler.state import Stage

COME_UP = dt.timedelta(minutes=210)
"""From this long on the fire a big cut is judged by its come-up: the four-hour check, half an hour early at most."""

COME_UP_C = 50.0
"""Core a big cut should have passed by then [°C]: house rule, stricter than the 6 h between 10 and 54.4 C that FSIS
Appendix A (2021) gives for intact cuts."""


def slow_come_up(case: Case) -> list[Finding]:
    """A big cut, or any that may have bacteria inside, is still cold after four hours on the fire.

    Meat that is not intact is judged by the published 54.4 C already then.
    """
    on_at = case.state.at("meat_on")
    limit_c = case.limit_c(COME_UP_HIGH) if case.treated else COME_UP_C
    core = case.lowest(case.cold_cores(limit_c))
    judged = case.cut.come_up_check or case.treated
    if case.state.stage is not Stage.COOKING or not judged or core is None or on_at is None:
        return []
    if core.at - on_at < COME_UP or core.at - on_at >= case.limit_span(COME_UP_TIME) or not case.under(core, limit_c):
        return []
    return [
        Finding(
            rule="come_up_slow", level=FindingLevel.CAUTION, found_c=low_edge_c(core), limit_c=limit_c, since=core.at
        )
    ]


def over_come_up(case: Case) -> list[Finding]:
    """The core was read under 54.4 C six hours or more after the meat went on.

    Of an intact cut the surface may stand for it, which a hot pit heats at once: a caution, gone with a hotter reading.
    Meat with bacteria inside took too long, and no later reading makes it good. The six hours begin with meat on, the
    earliest that 10 C can have been passed. A low reading that is only doubted counts as well, unless the core was read
    hot enough in time.
    """
    on_at, limit_c = case.state.at("meat_on"), case.limit_c(COME_UP_HIGH)
    limit = case.limit_span(COME_UP_TIME)
    cores = case.cores_on_fire if _came_up(case) else case.cold_cores(limit_c)
    late = [] if on_at is None else [r for r in cores if r.at - on_at >= limit and case.under(r, limit_c)]
    if not late or on_at is None:
        return []
    core = late[0] if case.treated else case.lowest(cores)
    if core is None or (not case.treated and (case.state.stage is not Stage.COOKING or core not in late)):
        return []
    return [
        Finding(
            rule="come_up_over",
            level=FindingLevel.STOP if case.treated else FindingLevel.CAUTION,
            found_c=low_edge_c(core),
            limit_c=limit_c,
            found_min=(core.at - on_at) / dt.timedelta(minutes=1),
            limit_min=limit / dt.timedelta(minutes=1),
            spot=core.spot,
            since=core.at,
        )
    ]


def _came_up(case: Case) -> bool:
    """Return whether somebody read 54.4 C or more within six hours: of a range the low edge, no doubted number."""
    on_at, limit_c = case.state.at("meat_on"), case.limit_c(COME_UP_HIGH)
    if on_at is None:
        return False
    return any(not case.under(r, limit_c) for r in case.cores(on_at, on_at + case.limit_span(COME_UP_TIME)))


def _unknown_since(case: Case) -> dt.datetime | None:
    """Return when six hours are over for meat that is not intact and was not read hot enough in them, else None."""
    on_at = case.state.at("meat_on")
    if not case.treated or on_at is None or _came_up(case):
        return None
    over_at = on_at + case.limit_span(COME_UP_TIME)
    return None if case.discarded_at is not None and case.discarded_at <= over_at else over_at


def come_up_unknown(case: Case) -> list[Finding]:
    """Nobody has read whether meat that is not intact passed 54.4 C within six hours: unknown is not safe, and nothing
    later tells it. It stands to the end, but where a reading told that it took too long.
    """
    over_at, cores = _unknown_since(case), case.cores_on_fire
    if over_at is None or case.now < over_at or over_come_up(case):
        return []
    before = [r for r in cores if r.at <= over_at]
    return [
        Finding(
            rule="come_up_unknown",
            level=FindingLevel.CAUTION,
            found_c=low_edge_c(before[-1]) if before else None,
            limit_c=case.limit_c(COME_UP_HIGH),
            limit_min=case.limit_span(COME_UP_TIME) / dt.timedelta(minutes=1),
            since=over_at,
        )
    ]


def unknown_looks(case: Case) -> list[Look]:
    """Return when six hours will be over for meat that is not intact and was not read warm."""
    over_at = _unknown_since(case) if case.state.stage is Stage.COOKING else None
    return [] if over_at is None else [Look(rule="come_up_unknown", since=over_at, at=over_at)]


RULES = (over_come_up, slow_come_up, come_up_unknown)
"""Rules of the come-up, in the order in which they are told."""

LOOKS = (unknown_looks,)
"""Those of them that time alone brings about."""
