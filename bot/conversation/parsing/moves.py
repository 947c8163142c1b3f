"""Plans that change in mid-cook: dinner at another time, the pit in another band.

Whether the change is wise or possible is not judged here, but a set point that no pit has is refused.
"""

from __future__ import annotations

import dataclasses
import re

from bot.commands import Intent, MoveDinner, MovePit, Unclear, Value
from bot.conversation.context import Context
from bot.conversation.parsing import times
from bot.conversation.parsing.numbers import Figure, figures
from bot.conversation.parsing.pieces import piece_apart
from bot.conversation.parsing.readings import UNIT_LABELS, in_c
from bot.conversation.parsing.serving import serving_said, which_day
from bot.conversation.parsing.words import cut_out, phrases
from scheduler.facts import Serving, ServingKind, Slot

SETTING_C = (80.0, 250.0)
"""Lowest and highest set point of a pit that makes sense (common practice, no source)."""
USUAL_C = (95.0, 185.0)
"""Where slow cooking runs: what decides a unit that was not said (common practice, no source)."""

_EATERS = (
    "(?:dinner|supper|lunch|meal|guests?|people|folks|everyone|everybody|eat(?:ing)?|serv(?:e"
    "|ing)|crowd|family|they|table|sit down|abendessen|cena|essen)"
)
_LATE = re.compile(
    r"\b(?:late|later|delay(?:ed)?|push(?:ed|ing)?(?: \w+)? back|push|postpone|back|behind|slip(?:s|ped|ping)?)\b"
)
_EARLY = re.compile(r"\b(?:earlier|early|sooner|forward|ahead)\b")
_MOVES = re.compile(rf"\b{_EATERS}\b")
_PUSH = re.compile(r"\b(?:push|move|shift|delay|postpone|slip|bring|put)\b")
_PUSHES_ON = re.compile(rf"{_PUSH.pattern}(?:(?!,|;|[.!] ).)*(?:{_LATE.pattern}|{_EARLY.pattern})")
"""Something is moved to a later or earlier time in one clause."""
_OTHER_THINGS = re.compile(
    r"\b(?:lid|coals?|charcoal|fire|meat|rack|racks|wood|vents?|pan|probe|grate|deflector|brisket|ribs|butt)\b"
)
"""What is pushed back or moved forward on the grate moves no dinner."""
_LATEST = re.compile(r"\b(?:latest|no later than|spatestens|a mas tardar|au plus tard)\b")


def dinner(heard: str, context: Context) -> Intent | None:
    """Return a move of dinner ("dinner at 7", "guests an hour late", "1830 latest"), or None."""
    whens = times.find(heard)
    about_dinner = _MOVES.search(heard)
    if _LATEST.search(heard) and len(whens) == 1 and whens[0].kind is times.Kind.CLOCK:
        return MoveDinner(serving=_latest(heard, context))
    asked = any(step.step == "t_minus" for step in context.open_steps)
    if not about_dinner and not asked and (not _PUSHES_ON.search(heard) or _OTHER_THINGS.search(heard)):
        return None
    spans = [when for when in whens if when.kind in (times.Kind.SPAN, times.Kind.AHEAD)]
    if spans and (_LATE.search(heard) or _EARLY.search(heard)):
        return MoveDinner(
            minutes=-spans[0].minutes if _EARLY.search(heard) and not _LATE.search(heard) else spans[0].minutes
        )
    if (
        about_dinner
        and re.search(r"\b(?:guests?|people|folks|everyone|everybody|they|crowd|family)\b", heard)
        and not re.search(r"\beat(?:ing)?\b", heard)
    ):
        return None
    bare_hours = bool(re.search(r"\b(?:to|make|now|is|instead|until|till)\b", heard))
    said = serving_said(heard, context, bare_hours=bare_hours) if about_dinner else None
    if said is not None and said.other is not None:
        return which_day(heard, (said.serving, said.other), lambda serving: MoveDinner(serving=serving))
    return MoveDinner(serving=said.serving) if said else None


_ONLY_WHEN = re.compile(r"^(?:is |are |now |wanted |at |for |by )*\|*$")


def of_a_wave(heard: str, context: Context) -> MoveDinner | None:
    """Return a move of the dinner of one piece, where not all are wanted at one time: "short ribs at 19:30", "chicken:
    dinner 30 minutes later"; or None.
    """
    if len({known.context.serving for known in context.pieces}) <= 1 or heard.endswith("?"):
        return None
    piece, rest = piece_apart(heard, context)
    if piece is None:
        return None
    whens = times.find(rest)
    only_when = len(whens) == 1 and _ONLY_WHEN.match(cut_out(rest, [(whens[0].start, whens[0].end)]).strip(" ,.!"))
    if not only_when and not (_MOVES.search(rest) and (_LATE.search(rest) or _EARLY.search(rest))):
        return None
    alone = dataclasses.replace(next(k.context for k in context.pieces if k.piece == piece), pieces=())
    intent = _at_that_time(rest, whens[0], alone) if only_when else dinner(rest, alone)
    return intent.model_copy(update={"piece": piece}) if isinstance(intent, MoveDinner) else None


def _at_that_time(rest: str, when: times.When, alone: Context) -> MoveDinner | None:
    """Return a move to a clock time that still comes on the day of that dinner; of a time gone by a deed is told."""
    said = serving_said(rest, alone) if when.kind is times.Kind.CLOCK and when.exact else None
    if said is None or said.serving.start is None or alone.serving is None or alone.serving.start is None:
        return None
    same_day = said.serving.start.date() == alone.serving.start.date()
    return MoveDinner(serving=said.serving) if same_day else None


def is_about_dinner(clause: str) -> bool:
    """Return True for a clause that speaks of the meal or the guests, or only of a time."""
    bare_time = not re.search(r"[0-9]", cut_out(clause, [(when.start, when.end) for when in times.find(clause)]))
    return bool(_MOVES.search(clause) or _LATEST.search(clause) or (bare_time and times.find(clause)))


def _latest(heard: str, context: Context) -> Serving | None:
    said = serving_said(heard, context)
    if said is None:
        return None
    now_planned = context.serving
    if now_planned and now_planned.start and said.serving.start and now_planned.start < said.serving.start:
        return dataclasses.replace(
            said.serving, kind=ServingKind.WINDOW, start=now_planned.start, end=said.serving.start
        )
    return said.serving


_SET = phrases(
    (
        "^(?:please )?(?:(?:i'm |im |i |i'll |we're |we |we'll |let's |lets |gonna |going to "
        "|just |ok |now )*)(?:set|setting|run|running|ran|take|taking|took|turn(?:ed|ing)?|bump"
        "(?:ed|ing)?|rais(?:e|ed|ing)|lower(?:ed|ing)?|bring(?:ing)?|brought"
        "|crank(?:ed|ing)?|mov(?:e|ed|ing)|chang(?:e|ed|ing)|put|dial(?:led|ed|ing)?|drop(?:ped"
        r"|ping)?|target|aim(?:ing)?|go|going)\b"
        "(?: (?:the|it|this|her|pit|smoker|cooker|grill|temp(?:erature)?|heat|up|down|target"
        "|point|in|back|for))* ?(?:to|at|for|=|:)? ?(?=[~0-9])"
    ),
    "^(?:the )?(?:pit|smoker|cooker|grill)(?: temp)?(?: up| down)? to (?=[0-9])",
    "^(?:new )?(?:pit )?(?:target|set ?point|setting)(?: is| now|:)* (?=[0-9])",
)


_FELL_TO = re.compile(r"\b(?:dropped|dropping)(?: down| back)? to ?$")
"""What a number did by itself; "dropped it to 225" is what somebody did."""


def pit_moved(heard: str, text: str, context: Context) -> Intent | None:
    """Return a new set point or band ("pit to 275", "turn it up to 250-275"), or None."""
    found = _SET.match(heard)
    if found is None or _FELL_TO.search(found.group()):
        return None
    said = figures(cut_out(heard, [(0, found.end())]))
    if len(said) != 1 or (said[0].slot is Slot.CORE):
        return None
    if re.match(r".*\b(?:put|go|going|run|ran|running|take|took)\b", found.group()) and not re.search(
        r"pit|smoker|cooker|grill|temp|heat|up|down|(?:to|at) ?$", found.group()
    ):
        return None
    return band(said[0], text, context)


def band(figure: Figure, text: str, context: Context) -> MovePit | Unclear:
    """Return the band a figure sets, or what keeps it from being one."""
    units = (figure.unit,) if figure.unit else (context.unit, *(unit for unit in ("C", "F") if unit != context.unit))
    fits = [value for unit in units if unit and sensible((value := in_c(figure, unit, Slot.PIT)).value_c)]
    if not fits:
        return Unclear(question="impossible", text=text, values=(figure.value,))
    usual = [value for value in fits if USUAL_C[0] <= value.value_c <= USUAL_C[1]]
    if figure.unit or len(fits) == 1 or (context.unit and fits[0] in usual):
        return _moved(fits[0])
    if len(usual) == 1 and not context.unit:
        return _moved(usual[0])
    by_unit = zip([unit for unit in units if unit], fits, strict=True)
    pairs = tuple((UNIT_LABELS[unit], _moved(value)) for unit, value in by_unit)
    return Unclear(question="unit", text=text, values=(figure.value,), options=pairs)


def _moved(value: Value) -> MovePit:
    return MovePit(pit_low_c=value.value_c - value.spread_c, pit_high_c=value.value_c + value.spread_c)


def sensible(setting_c: float) -> bool:
    """Return True when a pit can be set to this temperature at all."""
    return SETTING_C[0] - 1e-9 <= setting_c <= SETTING_C[1] + 1e-9
