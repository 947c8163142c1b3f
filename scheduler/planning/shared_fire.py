"""Plans side by side for several pieces on one fire: what the first piece may do, the others go along with.

Pure; a pit that one of the pieces does not bear is not offered.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
from collections.abc import Sequence

from scheduler.cookers import Cookers
from scheduler.cuts import Cut
from scheduler.planning.alternatives import Alternative, Kind, alternatives, pit_limits_c, under
from scheduler.planning.asking import Window
from scheduler.planning.backward import Backward, Snag, backward
from scheduler.state import CookState

_ROUNDED_C = 0.5

Pieces = Sequence[tuple[CookState, Cut]]


def alternatives_of(pieces: Pieces, cookers: Cookers | None = None) -> tuple[Alternative, ...]:
    """Return the sensible plans of a cook of one piece or several, the asked one first."""
    plans = [backward(state, cut) for state, cut in pieces]
    lead = min(range(len(pieces)), key=lambda at: plans[at].on_at)
    others = [piece for at, piece in enumerate(pieces) if at != lead]
    limits = tuple(pit_limits_c(cut, state.planned.wrap) for state, cut in others)
    offered = alternatives(*pieces[lead], cookers, limits)
    if not others:
        return offered
    found = [dataclasses.replace(offered[0], plan=together(plans))]
    for one in offered[1:]:
        if one.kind is not Kind.WRAPPED and all(_bears(cut, state, one) for state, cut in others):
            along = [
                backward(under(state, one.pit_low_c, one.pit_high_c, state.planned.wrap), cut) for state, cut in others
            ]
            found.append(dataclasses.replace(one, plan=together([one.plan, *along])))
    return tuple(found)


def together(plans: Sequence[Backward]) -> Backward:
    """Return several plans as one: lit for the first, eaten when the last is ready, late when the likeliest is late."""
    first = min(plans, key=lambda plan: plan.on_at)
    late = [plan.late_probability for plan in plans if plan.late_probability is not None]
    return Backward(
        light_at=min(plan.light_at for plan in plans),
        on_at=first.on_at,
        pull=_last([plan.pull for plan in plans]),
        plate=_last([plan.plate for plan in plans]),
        late_probability=max(late, default=None),
        confidence=first.confidence,
        met=all(plan.met for plan in plans),
        rest=first.rest,
        snags=_worst([snag for plan in plans for snag in plan.snags]),
        sure_at=_latest([plan.sure_at for plan in plans]),
    )


def _bears(cut: Cut, state: CookState, one: Alternative) -> bool:
    low_c, high_c = pit_limits_c(cut, state.planned.wrap)
    return low_c - _ROUNDED_C <= one.pit_low_c <= one.pit_high_c <= high_c + _ROUNDED_C


def _last(windows: list[Window]) -> Window:
    return Window(
        early=_latest([window.early for window in windows]),
        likely=_latest([window.likely for window in windows]),
        late=_latest([window.late for window in windows]),
    )


def _latest(instants: list[dt.datetime | None]) -> dt.datetime | None:
    """Return the last of some instants, None when one of them lies beyond the horizon."""
    known = [at for at in instants if at is not None]
    return max(known) if len(known) == len(instants) else None


def _worst(snags: list[Snag]) -> tuple[Snag, ...]:
    """Return each kind of snag once, where it is gravest."""
    found: dict[str, Snag] = {}
    for snag in snags:
        known = found.get(snag.kind)
        if known is None or snag.minutes > known.minutes:
            found[snag.kind] = snag
    return tuple(found.values())
