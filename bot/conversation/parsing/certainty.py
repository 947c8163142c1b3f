"""How sure dinner is to be: "be 95 % sure", "plan for 70 %", "safer". A share of a hundred with a word of certainty.

What lies out of limits is read as it was said; it is judged elsewhere.
"""

from __future__ import annotations

import dataclasses
import re

from bot.commands import Intent
from bot.commands.wishes import SureSaid
from bot.conversation.context import Context
from bot.conversation.parsing.words import cut_out, phrases

_N = r"(?P<n>[0-9]{1,3}(?:[.,][0-9])?)"
_SHARE = r" ?(?:%|percent|per cent|pct)"
_SURE = r"(?:sure|certain|safe|confident|confidence|certainty|reliable|in time|on time)"
_WANT = r"(?:(?:please |i |we |i'd |we'd |let's |want to |would like to |like to |need to |have to |must |should )*)"
_IN_A_PLAN = re.compile(
    rf"\b{_WANT}(?:(?:be|make it|plan(?: (?:it|for|with|at|on))?|with|at) )?(?:(?:at least|about) )?"
    rf"{_N}(?:{_SHARE} {_SURE}\b(?: of (?:it|dinner))?| {_SURE}\b)"
    rf"|\b(?:plan(?: it)? (?:for|with|at|on)|be) (?:at least )?(?P<m>[0-9]{{1,3}}(?:[.,][0-9])?){_SHARE}"
)
_WHOLE = re.compile(
    rf"^{_WANT}(?:(?:be|make it|plan(?: it)?(?: (?:for|with|at|on|to))?|with|at|go for) )?(?:be )?"
    rf"(?:(?:at least|about) )?{_N}(?:{_SHARE}(?: {_SURE})?| {_SURE})"
    rf"(?: (?:that dinner is on time|of (?:it|dinner|being on time)|please|now|instead|chance))*$"
)
_LEAD = re.compile(rf"\b(?:be|plan|make it|go for|want)\b|\b{_SURE}\b")
_SAFER = phrases(
    r"^(?:(?:please|i|we|want|let's|make|play|plan|be|it|to|a bit|a little|bit|much|even|want to be) )*"
    r"(?:safer|surer|more (?:sure|certain|careful|safe)|on the safe side|safe side)(?: please| now)*$",
    r"^(?:please )?(?:let's )?(?:play|plan) it safe(?:r|ly)?$",
)
_BOLDER = phrases(
    r"^(?:(?:please|i|we|want|let's|make|play|plan|be|it|to|a bit|a little|bit|much|even|want to be) )*"
    r"(?:bolder|riskier|less (?:sure|certain|careful|safe))(?: please| now)*$",
)


@dataclasses.dataclass(frozen=True, kw_only=True)
class Certainty:
    """The wanted probability in a text of other things, and what is left of it."""

    confidence: float
    rest: str


def certainty_said(heard: str, _text: str, _context: Context) -> Intent | None:
    """Return how sure a whole text wants to be, None when it says nothing of it."""
    plain = heard.strip(" .!")
    if heard.endswith("?"):
        return None
    if _SAFER.match(plain):
        return SureSaid(safer=True)
    if _BOLDER.match(plain):
        return SureSaid(safer=False)
    found = _WHOLE.match(plain)
    if found is None or _LEAD.search(plain) is None:
        return None
    return SureSaid(confidence=_share(found["n"]))


def certainty_in(heard: str) -> Certainty | None:
    """Return the wanted probability in a sentence about a cook to come, None when it names none."""
    found = _IN_A_PLAN.search(heard)
    if found is None:
        return None
    return Certainty(confidence=_share(found["n"] or found["m"]), rest=cut_out(heard, [found.span()]))


def _share(figure: str) -> float:
    return float(figure.replace(",", ".")) / 100.0
