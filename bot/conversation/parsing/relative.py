"""A number told by the one before it: "up 3", "down a degree", "same", "hasn't budged".

It needs the reading before; nothing is made up where there is none.
"""

from __future__ import annotations

import re

from bot.commands import Report, Value
from bot.conversation.context import Context
from bot.conversation.parsing.readings import asked, can_be
from bot.conversation.parsing.words import bare
from scheduler.facts import Slot
from scheduler.units import c_step_from_f

MOST = 40.0
"""Larger steps are no step from the number before, but a number (typed unit)."""
_LEAD = (
    r"(?:(?:it'?s|its|it|is|it has|only|just|now|gone|went|go|came|come|crept|meat|core|the|has|another|about|ok|okay"
    r"|creeping|slowly|slow|rising|climbing|inching|crawling|still|moved|like|maybe|pit|barely|a|temp|we're|were"
    r"|i'm|that's|thats|so|yeah|yep|climbed|rose)[ ,]+)*"
)
_BY = r"(?:by |another |about |like |maybe |a whole |only |just )*"
_N = r"(?P<n>[0-9]{1,2}(?:[.,][0-9])?|a|an|one|two|three|four|five|six|seven|eight|nine|ten|a couple(?: of)?|a few)"
_UNIT = r"(?: ?(?:°|deg(?:rees?|s)?|points?|grad|grados|degres)? ?(?P<unit>[cf])?)"
_SINCE = (
    r"(?:,? (?:since|from|than|again|more|on|over|degrees?|last|then|time|before|the|previous|one|reading|now|so far"
    r"|half hour|hour|ago|in|an|half|nothing|lol|only|though))*"
)
_UP = re.compile(rf"^{_LEAD}(?P<up>up|risen|rise|gained|plus|climbed|rose|[+]) ?{_BY}{_N}{_UNIT}{_SINCE}[.! ]*$")
_DOWN = re.compile(rf"^{_LEAD}(?P<down>down|dropped|fell|fallen|lost|minus) {_BY}{_N}{_UNIT}{_SINCE}[.! ]*$")
_MORE = re.compile(
    rf"^{_LEAD}{_N} ?(?:°|deg(?:rees?|s)?) ?(?P<unit>[cf])? ?(?:more|up|higher|hotter|warmer){_SINCE}[.! ]*$"
)
_LESS = re.compile(
    rf"^{_LEAD}{_N} ?(?:°|deg(?:rees?|s)?) ?(?P<unit>[cf])? ?(?:less|down|lower|cooler|colder){_SINCE}[.! ]*$"
)
_SAME = re.compile(
    r"^(?:(?:it'?s|its|is|still|about|exactly|the|pretty|much|more or less|basically|meat|core|pit|temp|temps|it|all"
    r"|reads|reading|number|at|stuck|sitting|just|sorry|no|nope|dead) )*"
    r"(?:same(?: (?:number|temp|reading|same))?|unchanged|identical|no (?:real )?(?:change|movement|difference"
    r"|progress)"
    r"|as before|like before|flat ?lined|(?:hasn't|hasnt|didn't|didnt|not|isn't|has not|have not|won't|wont) (?:really "
    r"|even )?(?:moved?|moving|changed?|changing|budged?|budging|shift(?:ed|ing)?|gone (?:up|anywhere)|go(?:ing)? (?:up"
    r"|anywhere))|not a (?:degree|budge)|ditto|nothing (?:changed|new|moved))"
    r"(?: (?:as|before|again|still|yet|at all|last time|the|since|then|previous|one|earlier|now|a degree|much|all|time"
    r"|last|a bit|in an? (?:hour|while)|lol|sorry|an inch))*$"
)
_WORDS = {"a": 1, "an": 1, "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8,
          "nine": 9, "ten": 10, "a couple": 2, "a couple of": 2, "a few": 3}  # fmt: skip


def relative(heard: str, context: Context) -> Report | None:
    """Return the reading that is told by the one before it, None for other words or where none is known."""
    slot = _slot(heard, context)
    if slot is None or heard.endswith("?"):
        return None
    before_c = context.last_core_c if slot is Slot.CORE else context.last_pit_c
    if before_c is None:
        return None
    if _SAME.match(bare(heard)):
        return Report(values=(Value(value_c=before_c, slot=slot),))
    for pattern, sign in ((_UP, 1.0), (_MORE, 1.0), (_DOWN, -1.0), (_LESS, -1.0)):
        if (found := pattern.match(heard)) is not None and (step_c := _step_c(found, context)) is not None:
            value = Value(value_c=before_c + sign * step_c, slot=slot)
            return Report(values=(value,)) if can_be(value) else None
    return None


def _slot(heard: str, context: Context) -> Slot | None:
    """Return what the words are of: what they name, else the one slot that is asked for."""
    if re.search(r"\bpit\b", heard):
        return Slot.PIT
    wanted = [slot for slot in asked(context) if slot in (Slot.CORE, Slot.PIT)]
    if not wanted or re.search(r"\b(?:meat|core)\b", heard):
        return Slot.CORE if wanted or re.search(r"\b(?:meat|core)\b", heard) else None
    return wanted[0]


def _step_c(found: re.Match[str], context: Context) -> float | None:
    """Return so many degrees in °C, None where nobody said in which unit."""
    typed = found["n"]
    step = float(_WORDS[typed]) if typed in _WORDS else float(typed.replace(",", "."))
    unit = (found["unit"] or "").upper() or context.unit
    if unit is None or step > MOST:
        return None
    return c_step_from_f(step) if unit == "F" else step
