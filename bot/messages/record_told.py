"""Words of the record about what was told besides readings and steps: problems, their ends, what was not understood.

Words only; which of it belongs into a record is decided elsewhere.
"""

from __future__ import annotations

from bot.messages.problem_over import over_words
from bot.messages.problems import CARDS
from bot.messages.record import clock, stamp, step_title, who
from bot.messages.words import _
from scheduler.facts import Discarded, Noted, StepDone, Troubled
from scheduler.safety.entries import Raised

_LONGEST = 90
"""Letters of an own word that fit into a cell; the log keeps them all."""

_HOUR_MIN, _DAY_MIN, _DAYS_FROM = 60, 24 * 60, 3 * 24 * 60


def told_title(body: Troubled | Noted) -> str:
    """Return a problem, its end, or words that were not understood, as they stand in the list of times."""
    if isinstance(body, Noted):
        text = body.text if len(body.text) <= _LONGEST else f"{body.text[:_LONGEST]}…"
        return _('told, NOT taken as a reading: "{text}"').format(text=text)
    if body.over:
        return _("told: {what}").format(what=over_words(body.problem) or _("answered"))
    card = CARDS.get(body.problem)
    return _("REPORTED: {what}").format(what=body.problem if card is None else card.name())


def lasted(minutes: float) -> str:
    """Return a duration of the record: minutes up to an hour, then hours and minutes, from three days on days."""
    whole = round(minutes)
    if whole >= _DAYS_FROM:
        return _("{days:g} days").format(days=round(whole / _DAY_MIN, 1))
    hours, rest = divmod(whole, _HOUR_MIN)
    if not hours:
        return _("{minutes} min").format(minutes=rest)
    return (
        _("{hours} h {minutes} min").format(hours=hours, minutes=rest) if rest else _("{hours} h").format(hours=hours)
    )


def ended_by_telling(one: Raised, zone: str) -> str:
    """Return what was told that ended a finding, for when, when it was told and by whom."""
    body = one.ended_body
    by, told = who(one.ended_by), "" if one.ended_at is None else stamp(one.ended_at, zone)
    match body:
        case StepDone(step=step):
            name = step_title(step)
        case Discarded():
            name = step_title("discarded")
        case Troubled():
            name = told_title(body)
        case _:
            name = ""
    if not name:
        return _("ended {time}: told by {who}").format(time=told, who=by)
    if one.ended_body_at is not None and one.ended_at is not None and one.ended_body_at != one.ended_at:
        name = _("{what} {time}").format(what=name, time=clock(one.ended_body_at, zone))
    return _("ended: {what}, told {time} by {who}").format(what=name, time=told, who=by)
