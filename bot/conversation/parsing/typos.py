"""Mends figures that a greasy thumb broke: a stray blank, a doubled key, a lost last figure.

A mended figure is offered or echoed, never hidden; what cannot be mended is left as it is.
"""

from __future__ import annotations

import dataclasses
import itertools
import re

from bot.commands import Report, Unclear
from bot.conversation.context import Context
from bot.conversation.parsing.numbers import Figure
from bot.conversation.parsing.readings import Open, asked, can_be, in_c, likely, near_core, near_pit, settle
from scheduler.facts import Slot

COLD_PIT_C = 30.0
"""A pit with a fire in it is warmer than this [°C]; common practice, no source."""
TWO, THREE = 2, 3
"""A core in °F has two or three figures; a pit and a meat are two numbers, or three with a stray blank."""


def rejoin(figures: tuple[Figure, ...], text: str, context: Context) -> tuple[Figure, ...]:
    """Return one figure for two that a stray blank parted ("1 71"), when the parts alone make no sense."""
    if any(f.slot or f.spot or f.approx for f in figures):
        return figures
    if len(figures) == THREE and (whole := _of_three_keys(figures, text, context)) is not None:
        return (whole,)
    if len(figures) == THREE:
        return _pair_of_three(figures, text)
    if len(figures) != TWO:
        return figures
    left, right = figures
    parts = (text[left.start : left.end], text[right.start : right.end])
    if text[left.end : right.start] != " " or not parts[0].isdigit() or not right.value.is_integer():
        return figures
    last = parts[1].strip() if parts[1].strip().isdigit() else str(int(right.value))
    digits = parts[0] + last
    short = min(len(parts[0]), len(last)) == 1
    if not short or len(digits) != THREE:
        return figures
    whole = dataclasses.replace(right, value=float(digits), start=left.start)
    slot = _slot(context)
    settled = settle(whole, slot, context)
    return (whole,) if not isinstance(settled, Open) and likely(settled, context) else figures


def _of_three_keys(figures: tuple[Figure, ...], text: str, context: Context) -> Figure | None:
    """Return one figure for three single digits with blanks between them ("1 7 1"), None for anything else."""
    typed = text[figures[0].start : figures[-1].end].strip()
    if re.fullmatch(r"[0-9] [0-9] [0-9]", typed) is None:
        return None
    whole = dataclasses.replace(figures[-1], value=float(typed.replace(" ", "")), start=figures[0].start)
    settled = settle(whole, _slot(context), context)
    return whole if not isinstance(settled, Open) and likely(settled, context) else None


def _pair_of_three(figures: tuple[Figure, ...], text: str) -> tuple[Figure, ...]:
    """Return a pair for three figures of which a blank parted one ("1 80/75"), when only one place can be mended."""
    mended = []
    for at, (left, right) in enumerate(itertools.pairwise(figures)):
        parts = (text[left.start : left.end], text[right.start : right.end])
        blank = text[left.end : right.start] == " " and all(part.isdigit() for part in parts)
        if blank and min(map(len, parts)) == 1 and TWO <= len("".join(parts)) <= THREE:
            whole = dataclasses.replace(right, value=float("".join(parts)), start=left.start)
            mended.append((*figures[:at], whole, *figures[at + TWO :]))
    return mended[0] if len(mended) == 1 else figures


def suspect(figures: tuple[Figure, ...], context: Context, text: str) -> Unclear | None:
    """Return the question about a single figure with a key too many or too few, or None when it may stand."""
    if len(figures) != 1 or figures[0].unit or figures[0].spot or not figures[0].value.is_integer():
        return None
    figure = figures[0]
    slot = figure.slot or _slot(context)
    digits = str(int(figure.value))
    if len(digits) > THREE and figure.value > 0:
        options = []
        for shorter in _without_doubled(digits):
            settled = settle(dataclasses.replace(figure, value=float(shorter)), slot, context)
            if not isinstance(settled, Open) and likely(settled, context) and not shorter.startswith("0"):
                options.append((shorter, Report(values=(settled,))))
        return Unclear(question="typo", text=text, values=(figure.value,), options=tuple(options[:3]))
    usual = {"F": TWO, "C": 1}.get(context.unit or "")
    if len(digits) == usual and slot is Slot.CORE and _lost_a_figure(figure, context):
        return Unclear(question="typo", text=text, values=(figure.value,))
    if len(digits) == TWO and slot is Slot.PIT and _lost_of_the_pit(figure, context):
        return Unclear(question="typo", text=text, values=(figure.value,))
    return None


def _without_doubled(digits: str) -> list[str]:
    """Return what is left of too many digits without one that stands twice, down to three of them."""
    found = [digits]
    while found and len(found[0]) > THREE:
        found = list(
            dict.fromkeys(
                one[:i] + one[i + 1 :] for one in found for i in range(len(one)) if one[i] in one[:i] + one[i + 1 :]
            )
        )
    return found


def _lost_of_the_pit(figure: Figure, context: Context) -> bool:
    """Return True for "25" where the pit runs at 250, and is never so cold in either unit while it cooks."""
    if context.stage != "cooking" or context.pit_target_c is None:
        return False
    unit = context.unit or "C"
    if in_c(figure, unit, Slot.PIT).value_c >= COLD_PIT_C:
        return False
    tens = (dataclasses.replace(figure, value=10.0 * figure.value + last) for last in range(10))
    return any(near_pit(in_c(one, unit, Slot.PIT).value_c, context) for one in tens)


def _lost_a_figure(figure: Figure, context: Context) -> bool:
    """Return True for "17" where 170 to 179 °F would be next, and neither 17 °F nor 17 °C can be; so "7" in °C."""
    unit = context.unit or "F"
    tens = [in_c(dataclasses.replace(figure, value=10.0 * figure.value + last), unit, Slot.CORE) for last in range(10)]
    as_typed = [in_c(figure, unit, Slot.CORE) for unit in ("F", "C")]
    if any(can_be(value) and likely(value, context) for value in as_typed):
        return False
    return any(near_core(value.value_c, context) or likely(value, context) for value in tens)


def _slot(context: Context) -> Slot:
    wanted = asked(context)
    return wanted[0] if len(wanted) == 1 else Slot.CORE
