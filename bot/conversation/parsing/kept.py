"""Reads what people tell of food off the fire and out of it: raw meat out of the fridge, leftovers reheated or gone.

Only steps of the catalogue; figures are left to `readings`, and nothing is judged.
"""

from __future__ import annotations

import datetime as dt
import re
from zoneinfo import ZoneInfo

from bot.commands import Done
from bot.conversation.context import Context
from bot.conversation.parsing.words import phrases

_RAW_STAGES = ("none", "before", "fire")
_COUNTER = r"(?:counter|worktop|bench|side|kitchen table|table|sink)"
_THAWING = phrases(
    rf"\b(?:thaw(?:s|ed|ing)?|defrost(?:s|ed|ing)?)\b.*\b(?:on|in|at) (?:the |a )?"
    rf"(?:{_COUNTER}|room temp(?:erature)?|sun|kitchen)\b",
    rf"\bon the {_COUNTER}\b.*\b(?:to )?(?:thaw|defrost)(?:ing)?\b",
)
_BACK = phrases(
    r"\bback (?:in|into|to) (?:the )?(?:fridge|refrigerator|cold|cooler)\b",
    r"\b(?:in|into) the (?:fridge|refrigerator) again\b",
)
_OUT = phrases(
    r"\bout of (?:the )?(?:fridge|refrigerator|cold)\b(?! (?:tomorrow|later))",
    rf"\bmarinat(?:ed|ing|es)\b.*\bon the {_COUNTER}\b",
    rf"\b(?:been|sat|sitting|lying|lies|sits|stands|left)(?: \w+)? (?:out )?on the {_COUNTER}\b",
    r"\b(?:meat|ribs?|brisket|butts?|shoulders?|pork|beef|chicken|turkey|it)(?:'s| is| are)? (?:out )?on the "
    rf"{_COUNTER}\b",
    r"\b(?:left|been|lying|sitting) out (?:since|for|all)\b",
)
_MARINATING = phrases(
    r"\bmarinat(?:ed|ing|es)\b",
    r"\b(?:in|into) (?:the |its |a )?marinade\b",
    r"\bmarinade(?:'s| is)? (?:on|in)\b",
)
_ON_THE_HEAT = phrases(
    r"\b(?:re-?heating|warming (?:up|through))\b",
    r"\b(?:started|began|begin|start) (?:to )?(?:re-?heat|warm)(?:ing)?\b",
    r"\bleftovers?(?:'s| is| are)? (?:back )?(?:on|in) the (?:oven|pan|stove|heat|hob|microwave|pot|grill)\b",
    r"\bput (?:the )?leftovers (?:back )?(?:on|in|into) the (?:oven|pan|stove|heat|hob|microwave|pot|grill)\b",
)
_GONE = (
    (
        "frozen",
        phrases(
            r"\b(?:froze|frozen)(?: \w+){0,2} leftovers?\b",
            r"\bleftovers?(?:'s| is| are)? (?:\w+ )?(?:frozen|in the freezer)\b",
            r"\b(?:put|packed) (?:the )?leftovers? (?:in|into) the freezer\b",
        ),
    ),
    (
        "eaten",
        phrases(
            r"\b(?:ate|eaten|finished)(?: up)?(?: all)?(?: of)?(?: the| our)? (?:last of the )?leftovers?\b",
            r"\bleftovers?(?:'s| is| are| have been| got)? (?:all )?(?:gone|eaten|finished)\b",
            r"^(?:it'?s |it is |all |everything(?:'s| is)? |they'?re |nothing (?:is )?)?(?:all )?(?:eaten(?: up)?"
            r"|gone|left)$",
        ),
    ),
)
_NOT = re.compile(r"\b(?:not|never|isn't|aren't|wasn't|don't|didn't|no longer|should|can|may|when|how|if)\b")


_IN_WARM_WATER = re.compile(
    r"\b(?:thaw|defrost)\w*\b.*\b(?:warm|hot) water\b|\b(?:warm|hot) water\b.*\b(?:thaw|defrost)"
)
_NIGHT = re.compile(r"\b(?:over ?night|all night|the whole night|since (?:last night|yesterday))\b")
_EVENING = dt.time(22)
"""When a night begins for food left out, where nobody says: early rather than late, house rule."""


def _evening_before(context: Context) -> dt.datetime:
    """Return when the last night began (UTC)."""
    place = ZoneInfo(context.zone)
    local = context.now.astimezone(place)
    evening = dt.datetime.combine(local.date(), _EVENING, place)
    return (evening if evening <= local else evening - dt.timedelta(days=1)).astimezone(dt.UTC)


def kept(words: str, context: Context) -> Done | None:
    """Return what a clause says of raw meat out of the fridge, or of leftovers; None when it says nothing of them."""
    if _NOT.search(words):
        return None
    if context.stage in _RAW_STAGES:
        if _IN_WARM_WATER.search(words):
            return Done(step="raw_out", outcome="thawing")
        for outcome, pattern in (("thawing", _THAWING), ("back", _BACK), ("out", _OUT)):
            if pattern.search(words):
                return Done(
                    step="raw_out", outcome=outcome, at=_evening_before(context) if _NIGHT.search(words) else None
                )
        return Done(step="marinade") if _MARINATING.search(words) and "inject" not in words else None
    if context.stage != "after":
        return None
    gone = next((outcome for outcome, pattern in _GONE if pattern.search(words)), None)
    if gone is not None:
        return Done(step="leftover_expire", outcome=gone)
    return Done(step="reheat_on") if _ON_THE_HEAT.search(words) else None
