"""Is it safe, and by which rule: the verdict first, then numbers, what is missing, what would clear it.

A missing reading never reads as safe: what is not known is said as not known.
"""

from __future__ import annotations

from collections.abc import Callable

from bot.messages.figures import Voice
from bot.messages.findings import finding_text, limit_text
from bot.messages.findings.told import long_span
from bot.messages.message import Message, lines
from bot.messages.naming import named
from bot.messages.stops import discarded_line
from bot.messages.trip import next_line
from bot.messages.words import _
from scheduler.cook import Situation
from scheduler.facts import Edition
from scheduler.safety import limits
from scheduler.safety.least import Minimum, least_of
from scheduler.safety.limits import Figure, Limit
from scheduler.units import f_from_c

_NAMES: dict[str, Callable[[], str]] = {
    "hot_hold": lambda: _("To hold meat hot"),
    "out": lambda: _("Food out, at most"),
    "out_hot": lambda: _("Food out on a hot day, at most"),
    "hot_air": lambda: _("A hot day is above"),
    "danger_high": lambda: _("The danger zone ends at"),
    "danger_low": lambda: _("Cold enough is"),
    "reheat": lambda: _("To reheat"),
}
"""What a limit is for, by its id."""

_LINES = (limits.HOT_HOLD, limits.REHEAT, limits.DANGER_HIGH, limits.DANGER_LOW, limits.HOT_AIR)
"""Limits of temperature that may be asked about by their number."""

_TOO_HOT_IN_C = 110.0
"""A limit above this is meant in Fahrenheit, whatever the room speaks."""

_NEAR_F = 1.0
"""A number asked about is a limit when it lies this near to it [F]."""


def is_it_safe(situation: Situation, voice: Voice) -> Message:
    """Answer with facts: verdict, what was measured, what is missing, what is wrong; of each piece by its name."""
    if situation.several and situation.focus is None:
        each = [
            named(situation, view.piece, lines(*_said(situation.seen_from(view.piece), voice)))
            for view in situation.views
        ]
        return Message(text=lines(*each, next_line(situation, voice)))
    return Message(text=lines(*_said(situation, voice), next_line(situation, voice)))


def _said(situation: Situation, voice: Voice) -> list[str]:
    """Return the verdict on a piece, what decided it, and everything found about it."""
    found = [finding_text(one, voice) for one in situation.findings(voice.now)]
    thrown = discarded_line(situation, voice)
    return [thrown, *found] if thrown else [_verdict(situation, voice), *found]


def _verdict(situation: Situation, voice: Voice) -> str:
    """Return whether the piece may be eaten, the number that decided, and what is missing."""
    eating, gate = situation.eating(voice.now), situation.gate
    lowest = gate.opened_by or gate.lowest if eating.why == "measured" else eating.reading or gate.lowest
    found = _("nothing") if lowest is None else voice.temp(lowest.value_c - lowest.spread_c, fine=True)
    at = "" if lowest is None else voice.clock(lowest.at)
    texts: dict[str, str] = {
        "discarded": _("Not safe: thrown away."),
        "stop": _("Not safe."),
        "unmeasured": _("Unknown: nothing has been measured yet, so I cannot call it safe. It needs {needs}."),
        "under_minimum": _("Not yet safe: {found} is the lowest spot so far ({at}), it needs {needs}."),
        "resting": _("Not yet safe: {found} passes ({at}), but its rest ends at {until}. It needs {needs}."),
        "not_read_at_opening": _(
            "Unknown: {found} at {at} passed, but it was not read since. Read the coldest spot as you open it."
        ),
        "under_floor": _("Not safe: {found} at {at}, under {floor} when it was opened."),
        "put_away": _("Unknown: put away, and not read hot since. It needs {reheat} at the coldest spot."),
        "few_read": _(
            "Unknown: {read} of {of} read at the minimum. Each may differ: read {of} of them in one look and type the"
            " numbers in a row. Each needs {needs}."
        ),
        "reported": _("Unknown: {found} at {at}, but what was told makes it doubtful. I cannot call it safe."),
        "cannot_say": _("Unknown: nobody can say that it is safe, and no number from now on can."),
        "measured": _("Measured safe: {found} at {at}. It needs {needs}."),
    }
    return texts[eating.why].format(
        found=found,
        at=at,
        needs=_needs(situation),
        until="" if eating.until is None else voice.clock(eating.until),
        floor=_limit(limits.HOT_HOLD, situation),
        reheat=_limit(limits.REHEAT, situation),
        read=eating.read,
        of=eating.of,
    )


def _limit(limit: Limit, situation: Situation) -> str:
    return limit_text(limit.under(situation.state.edition).c)


def _needs(situation: Situation) -> str:
    """Return the minimum of a piece and its rest."""
    gate = situation.gate
    needs = limit_text(gate.minimum_c)
    if gate.rest_min >= 1:
        return _("{limit} at the coldest spot and {rest:g} min of rest").format(limit=needs, rest=gate.rest_min)
    return _("{limit} at the coldest spot").format(limit=needs)


def what_rule(asked: float | None, situation: Situation, voice: Voice) -> Message:
    """Answer by which published rule something is judged: the one that was asked about by its number, else the main."""
    edition = situation.state.edition
    least = least_of(situation.cut, situation.catalogue.cuts, situation.state.treated, edition)
    known = [
        (least.temp_f, _least_line(least)),
        *((f, _limit_line(limit, edition)) for limit in _LINES for f in _in_f(limit)),
    ]
    if asked is not None:
        asked_f = asked if situation.state.planned.unit == "F" or asked > _TOO_HOT_IN_C else f_from_c(asked)
        near = [line for figure, line in known if abs(figure - asked_f) <= _NEAR_F]
        if not near:
            near = [_("I judge nothing by that number. The minimum is this:"), _least_line(least)]
        return Message(text=lines(*dict.fromkeys(near), next_line(situation, voice)))
    first = [_least_line(least), *(_limit_line(limit, edition) for limit in (limits.HOT_HOLD, limits.OUT))]
    ask = _('Ask for one by its number, like "why 140".')
    return Message(text=lines(*first, ask, next_line(situation, voice)))


def _least_line(least: Minimum) -> str:
    """Return the least temperature with its rest, its publisher and its source."""
    rest = _(" and {rest:g} min of rest").format(rest=least.rest_min) if least.rest_min >= 1 else ""
    return _("{limit}{rest} at the coldest spot: {source}.").format(
        limit=limit_text(least.temp_c, least.edition), rest=rest, source=_named_once(least.source)
    )


def _named_once(source: str) -> str:
    """Return sources with each publication named once, and what it says of each figure after it."""
    said: dict[str, list[str]] = {}
    for one in source.split("; "):
        publication, _colon, what = one.partition(": ")
        said.setdefault(publication, []).append(what)
    return "; ".join(
        ": ".join(filter(None, (publication, ", ".join(filter(None, whats))))) for publication, whats in said.items()
    )


def _in_f(limit: Limit) -> tuple[float, ...]:
    """Return the figures of a limit that are temperatures [F]."""
    return tuple(figure.value for figure in limit.figures if figure.unit == "F")


def _limit_line(limit: Limit, edition: Edition) -> str:
    """Return what a limit is for, and each publisher's figure with its source; the one that counts first."""
    counts = limit.under(edition)
    figures = sorted(limit.figures, key=lambda figure: figure is not counts)
    said = "; ".join(_figure(figure) for figure in figures)
    return (
        _("{what}: {figures}. {which}")
        .format(what=_NAMES[limit.id](), figures=said, which=_("The first counts here.") if len(figures) > 1 else "")
        .rstrip()
    )


def _figure(figure: Figure) -> str:
    """Return one publisher's figure with its source."""
    value = limit_text(figure.c) if figure.unit == "F" else long_span(figure.value)
    return _("{value} ({source})").format(value=value, source=figure.source)
