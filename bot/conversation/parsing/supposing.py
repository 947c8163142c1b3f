"""Questions about the plan that change nothing: why, what if a step is left out, what if it starts or eats otherwise.

Another wrap ("what if foil") is asked for elsewhere; nothing here is a report.
"""

from __future__ import annotations

import re
from typing import Any

from bot.commands import Ask, Intent, MovePit, Topic, Unclear
from bot.commands.wishes import Suppose
from bot.conversation.context import Context
from bot.conversation.parsing import times
from bot.conversation.parsing.commands import what_if
from bot.conversation.parsing.kinds import step_called
from bot.conversation.parsing.moves import band
from bot.conversation.parsing.numbers import figures
from bot.conversation.parsing.serving import serving_said
from bot.conversation.parsing.steps import mentioned, named
from bot.conversation.parsing.words import cut_out, phrases

_WHY = re.compile(
    r"^(?:but |and |so |ok |hm+ )*(?:why|what for|how come|what(?:'s| is) (?:the )?(?:point|use) of"
    r"|do (?:i|we) (?:really )?(?:have|need) to)\b(?P<of>.*)$"
)
_THIS = re.compile(
    r"^(?:(?:is |do |does |should |must |am |are |would )?(?:it|that|this|i|we|you)?(?: (?:do|ask|asking|tell|need))?"
    r"(?: (?:to|it|that|this|me|us))*(?: ?\b(?:now|already|at all|so (?:early|late|soon)|then|again))*|though|not)$"
)
_NOT_A_STEP = re.compile(
    r"\b(?:slow|fast|late|early|long|stuck|stall\w*|hot|cold|drop\w*|ris\w+|done|ready|tough|dry)\b"
)
_SKIP = phrases(
    r"^(?:and |so |but )*(?:what|wat|what happens|what would happen)(?: happens)? (?:if|when)"
    r" (?:i|we|you|somebody|nobody) (?:just )?(?:skip|forget|leave out|miss|don't do|do not do|don't|do not|drop|ignore"
    r"|does not do)\b(?P<a>.*)$",
    r"^(?:can|could|may|should) (?:i|we) (?:just )?(?:skip|leave out|drop|ignore|forget(?: about)?)\b(?P<b>.*)$",
    r"^(?:what|and) if not$|^is (?:it|this|that) (?:really )?(?:necessary|needed|important)(?P<c>)$",
    r"^do (?:i|we) (?:really )?(?:have|need) to(?P<d>(?: do)? (?:it|this|that))$",
)
_SHOW = r"(?:(?:show|what are|are there|any|see|list|give me)(?: (?:me|us))?(?: the)? )*(?:the |my |our |any )?"
_WAYS = phrases(
    rf"^{_SHOW}(?:other|different) (?:plans?|ways?|options to cook it|possibilities|starts?)"
    r"(?: (?:are there|again|to do it|please))*$",
    rf"^{_SHOW}(?:alternatives?|ways(?: to do it)?|plans)(?: (?:are there|again|please))*$",
    r"^(?:is there |any )(?:an ?other|a different|another) (?:way|plan)$|^another (?:way|plan)$",
)
_WHAT_IF = re.compile(
    r"^(?:and |so |but |ok )*(?:(?:what|wat|how about|what about|when would (?:it|we) be (?:ready|done)"
    r"|how long would it take|(?:would|will|can|could) (?:it|we|that)"
    r" (?:work|still make it|be on time|be late|make dinner))\b(?: happens)?(?: (?:if|when|with|about))?"
    r"|suppose|supposing|say(?! ~?[0-9.,]+ ?°?[cf]?$)) (?P<of>.+)$"
)
_START = re.compile(r"\b(?:start|begin|light(?: (?:it|up|the (?:fire|charcoal|coals)))?|lit|fire up|get up)\w*\b")
_ON = re.compile(
    r"\b(?:meat|it|brisket|butt|ribs?|chicken)?\b ?(?:goes|went|go|gets|is|were|was|put)?(?: it| the meat)? on\b"
)
_DINNER = re.compile(r"\b(?:dinner|supper|lunch|eat(?:ing)?|serv(?:e|ing)|guests?|people)\b")
_PIT = re.compile(r"\b(?:pit|smoker|cooker|grill|at|run(?:ning)?|turn(?:ed)?|temp(?:erature)?)\b")
_EARLIER = re.compile(r"\b(?:earlier|sooner|before)\b")

_HOTTER_THAN_MEAT_C = 100.0
"""A figure by itself is a pit when no meat can have it [°C]."""


def supposed(heard: str, text: str, context: Context) -> Intent | None:
    """Return the question of a whole text about the plan, None when it is none of these."""
    plain = heard.strip(" .!?")
    if what_if(plain) is not None:
        return None
    if _WAYS.match(plain):
        return Ask(topic=Topic.WAYS)
    if (skipped := _SKIP.match(plain)) is not None:
        of = next((words for words in skipped.groupdict().values() if words), "")
        return _about(Topic.IF_SKIPPED, of, context)
    if (why := _WHY.match(plain)) is not None:
        return _about(Topic.WHY, why["of"], context)
    return _what_if(plain, text, context)


def _about(topic: Topic, of: str, context: Context) -> Intent | None:
    """Return a question about the step that is named, or about the open one where none is; None: of something else."""
    of = of.strip(" ,")
    step = (mentioned(of, context.stage) or (None,))[0] or named(of) or step_called(of)
    if step is not None and not _NOT_A_STEP.search(of):
        return Ask(topic=topic, step=step)
    return Ask(topic=topic) if not of or _THIS.match(of) else None


def _what_if(plain: str, text: str, context: Context) -> Intent | None:
    found = _WHAT_IF.match(plain)
    if found is None:
        return None
    rest = found["of"]
    fields: dict[str, Any] = {}
    for part in re.split(r"[,;]| and | but ", rest):
        fields |= _part(part.strip(), text, context)
    return Suppose(**fields) if fields else None


def _part(part: str, text: str, context: Context) -> dict[str, Any]:
    """Return what one part of a supposition supposes: a dinner, a start, a pit; nothing where it is none of them."""
    if _DINNER.search(part):
        said = serving_said(part, context, bare_hours=True)
        return {} if said is None else {"serving": said.serving}
    starts, goes_on = _START.search(part), _ON.search(part)
    if starts or goes_on:
        return _start(part, context, lights=bool(starts))
    found = figures(_without_times(part))
    if len(found) != 1:
        return {}
    moved = band(found[0], text, context)
    if isinstance(moved, Unclear) and moved.options and isinstance(moved.options[0][1], MovePit):
        moved = moved.options[0][1]
    if not isinstance(moved, MovePit) or not (_PIT.search(part) or moved.pit_low_c > _HOTTER_THAN_MEAT_C):
        return {}
    return {"pit_low_c": moved.pit_low_c, "pit_high_c": moved.pit_high_c}


def _start(part: str, context: Context, *, lights: bool) -> dict[str, Any]:
    """Return when the fire is supposed to be lit or the meat to go on, or by how much later than planned."""
    whens = times.find(part) or times.find(re.sub(r"\b(?:at )?([0-9]{1,2})$", r"at \1", part))
    if not whens:
        return {}
    if whens[0].kind is not times.Kind.CLOCK and re.search(r"\b(?:later|earlier|sooner|before)\b", part):
        return {"later_min": -whens[0].minutes if _EARLIER.search(part) else whens[0].minutes}
    at = times.future(whens[0], context.now, context.zone)
    return {"light_at": at} if lights else {"on_at": at}


def _without_times(part: str) -> str:
    return cut_out(part, [(when.start, when.end) for when in times.find(part) if not when.compact])
