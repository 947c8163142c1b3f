"""Corrections that name no new number: "that was celsius", "I meant F", "178" typed for "187".

The number itself is the one before, in the other unit or with two of its keys swapped back.
"""

from __future__ import annotations

import datetime as dt
import re

from bot.commands import Correct, Intent, Unclear
from bot.conversation.context import Context
from bot.conversation.parsing.numbers import Figure
from bot.conversation.parsing.readings import can_be, in_c
from scheduler.facts import Slot
from scheduler.units import f_from_c

LATELY = dt.timedelta(minutes=20)
"""A number with the same keys as one read so lately is that one, typed anew: house rule."""
_SORRY = r"(?:(?:sorry|sry|oops|whoops|no|wait|ah|oh|actually|correction|typo|my bad|lol|but|and)[ ,:.!]*)*"
_UNIT = r"(?:°? ?|degrees )(?P<unit>celsius|fahrenheit|centigrade|[cf])"
_IN = tuple(
    re.compile(pattern)
    for pattern in (
        (
            rf"^{_SORRY}(?:that(?:'s| was| is)?|it(?:'s| was| is)?|this(?: was| is)?|last one(?: was)?|those(?: were)?"
            rf"|the "
            rf"last(?: one| number)?(?: was)?|was|i (?:meant|mean|use|am using|typed)|meant|all) ?(?:in |is |was "
            rf"|were )*"
            rf"{_UNIT}(?:,? (?:not (?:in )?(?:celsius|fahrenheit|[cf])|sorry|sry|lol|btw|though|of course"
            rf"|obviously))*[.! ]*$"
        ),
        (
            rf"^{_SORRY}(?:in )?{_UNIT}(?:,? (?:not (?:in )?(?:celsius|fahrenheit|[cf])|sorry|sry|i mean|i meant"
            rf"|lol))+[.! ]*$"
        ),
        rf"^(?:(?:sorry|sry|oops|whoops|wait|correction|my bad)[ ,:.!]*)+(?:in )?{_UNIT}[.! ]*$",
    )
)
_SHOULD_BE = re.compile(
    r"^(?:that |it |the last one |which )?(?:should(?:'ve)?|must(?:'ve)?) (?:be|been|have been|of been)(?: a)?"
    r" (?P<new>[0-9]{2,3}(?:[.,][0-9])?)"
    r"(?: (?:sorry|sry|lol))?$"
)


def corrected_unit(heard: str, text: str, context: Context) -> Intent | None:
    """Return the last reading in the unit that was meant, None for other words or where nothing was read."""
    found = next((match for pattern in _IN if (match := pattern.match(heard))), None)
    if found is None:
        return None
    unit = "F" if found["unit"].startswith("f") else "C"
    last = _last(context)
    if last is None or (context.unit is not None and context.unit == unit):
        return None
    slot, value_c = last
    typed = round(f_from_c(value_c) if unit == "C" else value_c, 1)
    meant = in_c(Figure(value=typed, start=0, end=0), unit, slot)
    if can_be(meant):
        return Correct(value_c=meant.value_c)
    return Unclear(question="impossible", text=text, values=(typed,))


def swapped_keys(heard: str, context: Context) -> Intent | None:
    """Return the correction in "should be 187" after 178 a moment ago: the same keys, in another order."""
    found = _SHOULD_BE.match(heard)
    last = _last(context)
    if found is None or last is None or context.last_core_at is None or context.now - context.last_core_at > LATELY:
        return None
    unit = context.unit or "C"
    typed = f"{f_from_c(last[1]) if unit == 'F' else last[1]:.1f}".removesuffix(".0")
    if sorted(typed) != sorted(found["new"].replace(",", ".")):
        return None
    figure = Figure(value=float(found["new"].replace(",", ".")), start=0, end=0)
    return Correct(value_c=in_c(figure, unit, None).value_c, old_c=last[1])


def _last(context: Context) -> tuple[Slot, float] | None:
    """Return what was read last, core or pit."""
    known = [
        (at, slot, value_c)
        for slot, value_c, at in (
            (Slot.CORE, context.last_core_c, context.last_core_at),
            (Slot.PIT, context.last_pit_c, context.last_pit_at),
        )
        if value_c is not None and at is not None
    ]
    return max(known)[1:] if known else None
