"""Words about the plan itself while a cook runs: another count or mass, or a whole new plan in one sentence.

It says what was meant; whether a cook that runs can still be changed so is not judged here.
"""

from __future__ import annotations

import dataclasses
import re

from bot.commands import ChangePlan, Draft
from bot.conversation.context import Context
from bot.conversation.parsing import times
from bot.conversation.parsing.amounts import amounts, in_figures
from bot.conversation.parsing.cut_names import find_cut
from bot.conversation.parsing.guests import guests
from bot.conversation.parsing.numbers import figures
from bot.conversation.parsing.serving import days_in
from bot.conversation.parsing.setup import called_pit, set_up, tell
from bot.conversation.parsing.setup_words import FILLER
from bot.conversation.parsing.words import bare, cut_out, word_set

_BESIDE_AN_AMOUNT = word_set(
    "it it's its they they're is are was were we we're we've have has got i i've there there's make that that's "
    "actually sorry only just now of the a meat each about around and please weigh weighs weighed in not no all "
    "kg lb together total altogether count mass weight change to set ok oh so piece pieces"
)
"""Words that may stand beside a new count or mass."""
_EATING = re.compile(r"\b(?:dinner|supper|lunch|eat(?:ing)?|serv(?:e|ing)|meal|for)\b")
_STATE = re.compile(r"\b(?:is|are|was|tender|done|tight|ready|off|it)\b(?<!when ready)(?<!when it)")
"""Words of a report: what stands with them tells of the cook that runs."""
_DAY = re.compile(r"\b(?:tomorrow|tonight|today|(?:mon|tues|wednes|thurs|fri|satur|sun)day|weekend)\b")
_BEGINS = re.compile(r"^(?:(?:new cook|new plan|next|now|plan|cook|cooking|hi|hello|hey|ok|please|an?)[:, ]+)*")


def plan_changed(heard: str, context: Context) -> ChangePlan | None:
    """Return what a whole text changes of a cook that runs ("4 racks", "5 kg"), or None."""
    told = in_figures(heard)
    cut = find_cut(told, context.cuts)
    found = amounts(told)
    rest = cut_out(found.rest, [(cut.start, cut.end)] if cut else [])
    count = found.count
    if count is None and cut is not None and (of_the_cut := tell(heard, heard, _anew(context)).said.get("count")):
        count = int(of_the_cut)
        rest = re.sub(r"[0-9]+", "|", rest)
    if found.ignored or (count is None and found.mass_kg is None) or re.search("[0-9]", rest):
        return None
    if any(word not in _BESIDE_AN_AMOUNT for word in re.findall(r"[a-z]+(?:'[a-z]+)?", rest)):
        return None
    return ChangePlan(count=count, mass_kg=found.mass_kg)


def whole_plan(heard: str, text: str, context: Context) -> Draft | None:
    """Return the plan of another cook, told in one sentence while one runs, or None.

    It names a cut, and two more of mass or count, a serving and a pit; or it begins with the cut and a serving
    alone. A figure that may be a reading makes it a report.
    """
    if heard.endswith("?") or find_cut(in_figures(heard), context.cuts) is None:
        return None
    anew = _anew(context)
    told = tell(heard, text, anew)
    said = told.said
    if said.get("cut") is None or _strange(told.rest) or _STATE.search(heard):
        return None
    serving, pit = "serving" in said, "pit_low_c" in said or bool(told.no_pits)
    if "on_at" in said:
        found = set_up(heard, text, anew) if serving else ()
        return next((intent for intent in found if isinstance(intent, Draft)), None)
    if _may_be_a_reading(heard, context):
        return None
    amount = "mass_kg" in said or "count" in said
    begins = re.match(r"(?:[0-9]+ |an? )*", heard[_end(_BEGINS, heard) :])
    start = _end(_BEGINS, heard) + (begins.end() if begins else 0)
    first = find_cut(heard[start:], context.cuts)
    meal = serving and bool(_EATING.search(heard) or _DAY.search(heard)) and first is not None and first.start == 0
    if serving + pit + amount < len(("serving", "pit")) and not meal:
        return None
    found = set_up(heard, text, anew)
    return found[0] if found and isinstance(found[0], Draft) and (serving or pit) else None


def _end(pattern: re.Pattern[str], heard: str) -> int:
    found = pattern.match(heard)
    return found.end() if found else 0


def _anew(context: Context) -> Context:
    return dataclasses.replace(context, stage="none", setup_slot=None, serving=None, open_steps=(), meat_on_at=None)


def _strange(rest: str) -> bool:
    return any(word not in FILLER for word in bare(rest.replace("|", " ")).split() if word.isalpha() and len(word) > 1)


def _may_be_a_reading(heard: str, context: Context) -> bool:
    """Return True when a figure is neither a day, a time, a mass nor people, and is not called the pit."""
    heard = cut_out(heard, list(days_in(heard, context)))
    who = guests(heard)
    heard = heard if who is None else who.rest
    masked = cut_out(in_figures(heard), [(when.start, when.end) for when in times.find(in_figures(heard))])
    if any(float(found[1]) > SMALLEST_READING for found in _HOT_PIECE.finditer(masked)):
        return True
    masked = amounts(masked).rest
    loose = [figure for figure in figures(masked) if not called_pit(figure, masked) and figure.value > SMALLEST_READING]
    return bool(loose)


_HOT_PIECE = re.compile(
    r"(?<![0-9.,])([0-9]{2,3}) (?:brisket|butt|shoulder|ribs|pork|beef|chicken|turkey|lamb|meat)(?= ?(?:$|[,;/]"
    r"|and\b|pit\b))"
)
"""A figure right before one piece is no count of it: "76 brisket, 118 pit"."""
SMALLEST_READING = 31.0
"""Smaller figures beside a cut are counts, hours and days of a month."""
