"""Rules of raw meat: how long it is kept, how it thaws, how long it lies out.

Nothing is claimed of what nobody told: meat that nobody said was taken out is in the fridge.
"""

from __future__ import annotations

import datetime as dt

from scheduler.cuts import Cut
from scheduler.facts import Edition, Slot, Treatment
from scheduler.safety.air import hot_between
from scheduler.safety.case import Case
from scheduler.safety.finding import Finding, FindingLevel
from scheduler.safety.limits import (
    OUT,
    OUT_HOT,
    RAW_SHORT,
    RAW_WHOLE,
    Figure,
)
from scheduler.state import CookState, Stage

THAWED_C = 1.0
"""A core read above this holds no ice [°C]; meat freezes a little below 0, common practice, no source."""

ICY = "frozen_middle"
"""The problem of the catalogue that says so in people's own words."""

_MINUTE = dt.timedelta(minutes=1)


def keeps_days(state: CookState, cut: Cut) -> float:
    """Return how long raw meat keeps in the fridge [d]: as the cut says, ground meat and poultry two at most."""
    return min(cut.fridge_days[1], _published(state, cut).value)


def _published(state: CookState, cut: Cut) -> Figure:
    """Return what is published for such meat: ground meat, poultry and fish keep for less."""
    short = Treatment.GROUND in (state.treated or ()) or cut.safety_class in {"ground", "poultry", "fish"}
    return (RAW_SHORT if short else RAW_WHOLE).under(state.edition)


def home_at(state: CookState) -> dt.datetime | None:
    """Return since when raw meat lies thawed in the fridge: fetched fresh, or felt soft; None when nobody said."""
    if not state.planned.frozen:
        return min((d.at for d in state.done.get("collect_meat", ())), default=None)
    return min((d.at for d in state.done.get("thaw_check", ()) if d.outcome == "soft"), default=None)


def too_old(case: Case) -> list[Finding]:
    """Raw meat has been in the fridge longer than it keeps, or was when it went on."""
    state = case.state
    since = home_at(state)
    if since is None or state.discarded or state.stage not in _RAW_OR_ON:
        return []
    kept = (state.at("meat_on") or case.now) - since
    limit = dt.timedelta(days=keeps_days(state, case.cut))
    if kept <= limit:
        return []
    published = _published(state, case.cut)
    return [
        Finding(
            rule="raw_too_old",
            level=FindingLevel.CAUTION,
            found_min=kept / _MINUTE,
            limit_min=limit / _MINUTE,
            since=since + limit,
            publisher=published.publisher if limit == dt.timedelta(days=published.value) else None,
        )
    ]


_RAW = frozenset({Stage.BEFORE, Stage.FIRE})
_RAW_OR_ON = _RAW | {Stage.COOKING}


# --- out of the fridge ------------------------------------------------------------------------------------------------
def out_for(state: CookState, until: dt.datetime) -> dt.timedelta:
    """Return how long raw meat has been out of the fridge until an instant, all times together."""
    return sum((end - start for start, end in _spells(state, until)), dt.timedelta())


def _spells(state: CookState, until: dt.datetime) -> list[tuple[dt.datetime, dt.datetime]]:
    """Return (out, back) of every time it lay out; what is still out ends on the fire, or at `until`."""
    end_at = min(state.at("meat_on") or until, until)
    spells: list[tuple[dt.datetime, dt.datetime]] = []
    out_at: dt.datetime | None = None
    for done in state.done.get("raw_out", ()):
        if done.at > end_at:
            break
        if done.outcome == "back":
            if out_at is not None:
                spells.append((out_at, done.at))
            out_at = None
        else:
            out_at = out_at or done.at
    return spells if out_at is None else [*spells, (out_at, end_at)]


def _out_figure(state: CookState, until: dt.datetime) -> Figure:
    """Return how long raw meat may be out: shorter where the air was above 90 F (32 C) at any time it lay out.

    The four hours of the Food Code (3-501.19) need written procedures and a mark with the time, which no cook at home
    has: whatever was chosen, raw meat has two.
    """
    hot = any(hot_between(state, start, end) for start, end in _spells(state, until))
    return (OUT_HOT if hot else OUT).under(Edition.CONSUMER)


def left_out(case: Case) -> list[Finding]:
    """Raw meat lay out of the fridge for more than two hours in all (one above 32 C) before it went on."""
    state = case.state
    if state.discarded:
        return []
    figure = _out_figure(state, case.now)
    span, out = dt.timedelta(minutes=figure.value), out_for(state, case.now)
    if out <= span:
        return []
    return [
        Finding(
            rule="raw_left_out",
            level=FindingLevel.STOP,
            found_min=out / _MINUTE,
            limit_min=span / _MINUTE,
            since=_spells(state, case.now)[0][0],
            edition=figure.edition,
        )
    ]


def on_the_counter(case: Case) -> list[Finding]:
    """Frozen meat thaws out of the fridge."""
    state = case.state
    last = state.did("raw_out")
    if last is None or last.outcome != "thawing" or state.discarded or state.stage not in _RAW:
        return []
    until = last.at + dt.timedelta(minutes=_out_figure(state, case.now).value)
    return [Finding(rule="thaw_counter", level=FindingLevel.CAUTION, since=last.at, until=until)]


def out_by(state: CookState) -> dt.datetime | None:
    """Return until when raw meat that is out may stay out, None when none is known to be out, or it is on the fire."""
    last = state.did("raw_out")
    if last is None or last.outcome == "back" or state.stage not in _RAW:
        return None
    span = dt.timedelta(minutes=_out_figure(state, max(state.as_of, last.at)).value)
    return last.at + span - out_for(state, last.at)


# --- thawing ----------------------------------------------------------------------------------------------------------
def not_thawed(case: Case) -> list[Finding]:
    """Frozen meat is about to go on, or went on, and was felt icy last, or was never felt soft."""
    state = case.state
    lit_at, on_at = state.at("light"), state.at("meat_on")
    icy = ICY in state.troubles
    if not (state.planned.frozen or icy) or lit_at is None or state.discarded or state.stage not in _RAW_OR_ON:
        return []
    felt = [d for d in state.done.get("thaw_check", ()) if on_at is None or d.at <= on_at]
    soft = bool(felt) and felt[-1].outcome == "soft" and not icy
    thawed = any(r.value_c - r.spread_c > THAWED_C for r in state.read(Slot.CORE))
    if soft or thawed:
        return []
    return [Finding(rule="thaw_not_done", level=FindingLevel.CAUTION, since=on_at or lit_at)]


def looks_ahead(state: CookState, cut: Cut) -> list[tuple[str, dt.datetime | None, dt.datetime]]:
    """Return (rule, since, instant) of what time alone brings about while the meat is raw."""
    if state.stage not in _RAW or state.discarded:
        return []
    found: list[tuple[str, dt.datetime | None, dt.datetime]] = []
    since = home_at(state)
    if since is not None:
        limit_at = since + dt.timedelta(days=keeps_days(state, cut))
        found.append(("raw_too_old", limit_at, limit_at + _MINUTE))
    by = out_by(state)
    if by is not None:
        spells = _spells(state, max(by, state.as_of))
        found.append(("raw_left_out", spells[0][0], by + _MINUTE))
    return found


RULES = (left_out, on_the_counter, not_thawed, too_old)
"""Rules in the order in which they are told."""
