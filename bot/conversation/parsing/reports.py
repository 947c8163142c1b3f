"""Puts the figures of a text together as one report: which is the pit and which the meat when there are several.

It asks rather than guesses, and two bare figures are never two readings of the meat unless both must be.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
import re

from bot.commands import Intent, Report, Unclear, Value
from bot.conversation.context import Context
from bot.conversation.parsing.numbers import Figure
from bot.conversation.parsing.readings import (
    FALLEN_C,
    FRIDGE_C,
    Open,
    as_slot,
    asked,
    can_be,
    guess,
    in_c,
    likely,
    near_core,
    near_pit,
    plausible_core,
    settle,
)
from scheduler.facts import Slot

PAIR = 2
"""A pit and a meat."""
TWO_SPOTS_C = 6.0
"""Two figures this near are two spots when the meat alone was asked for [°C]; common practice, no source."""
IN_A_ROW_C = 25.0
"""Two like pieces of one fire are not further apart than this [°C]; common practice, no source."""
_TWO_OF_THE_MEAT = re.compile(r"[0-9] ?(?:,|;|/|and|und|y|et|&|[+]) ?[0-9]")
"""Two figures told one after the other ("68, 71", "68 and 71"); a blank joins pit and meat."""
_STROKE = re.compile(r"[0-9] ?/ ?[0-9]")
"""Between two of the meat only where neither fell ("68 / 71"): usually a stroke joins pit and meat."""
_BEFORE_THE_MEAT = ("before", "fire")


def report(
    figures: tuple[Figure, ...], context: Context, text: str, at: dt.datetime | None, heard: str = ""
) -> tuple[Intent, ...]:
    """Return what the figures of a text are: one report, and at most one question. `heard`: the words around them."""
    if len(figures) == PAIR and all(_is_bare(f) for f in figures) and figures[0].value == figures[1].value:
        figures = figures[:1]  # one number typed twice
    context = _in_the_unit_meant(figures, context)
    figures = _word_behind(figures, context)
    if figures and all(_is_bare(figure) for figure in figures):
        if len(figures) > 1 and context.stage in _BEFORE_THE_MEAT:
            return _before_the_meat(figures, context, text, at)
        if len(figures) == PAIR and (question := _contradiction(figures, context, text, at, heard)) is not None:
            return (question,)
    settled = _assign(figures, context, heard)
    values = tuple(value for value in settled if isinstance(value, Value))
    if any(isinstance(one, Open) and one.question == "impossible" for one in settled) and len(settled) > 1:
        values = tuple(value for value in values if likely(value, context))  # beside nonsense only what may well be
    found: list[Intent] = [Report(values=values, at=at)] if values else []
    first = next((item for item in settled if isinstance(item, Open)), None)
    if first is not None:
        options = tuple((label, Report(values=(value,), at=at)) for label, value in first.options)
        found.append(Unclear(question=first.question, text=text, values=(first.figure.value,), options=options))
    return tuple(found)


def _in_the_unit_meant(figures: tuple[Figure, ...], context: Context) -> Context:
    """Return the context in the other unit when a pit and a meat fit only in that one ("121/74" in a chat in °F)."""
    if len(figures) != PAIR or context.unit is None or context.stage != "cooking" or context.pit_target_c is None:
        return context
    pit, core = max(figures, key=_value), min(figures, key=_value)
    if any(figure.unit or figure.spot for figure in figures) or pit.slot is Slot.CORE or core.slot is Slot.PIT:
        return context
    other = "C" if context.unit == "F" else "F"
    fits = {
        unit: near_pit(in_c(pit, unit, Slot.PIT).value_c, context)
        and plausible_core(in_c(core, unit, Slot.CORE), context)
        for unit in (context.unit, other)
    }
    return dataclasses.replace(context, unit=other) if fits[other] and not fits[context.unit] else context


def _word_behind(figures: tuple[Figure, ...], context: Context) -> tuple[Figure, ...]:
    """Return "244 pit 162" with the pit named behind its figure, where the other way round makes no sense."""
    if len(figures) != PAIR or any(figure.spot for figure in figures):
        return figures
    first, second = figures
    if first.slot is not None or second.slot not in (Slot.PIT, Slot.CORE):
        return figures
    other = Slot.CORE if second.slot is Slot.PIT else Slot.PIT
    as_typed = (settle(first, other, context), settle(second, second.slot, context))
    turned = (settle(first, second.slot, context), settle(second, other, context))
    if any(isinstance(one, Open) for one in turned) or not any(isinstance(one, Open) for one in as_typed):
        return figures
    return (dataclasses.replace(first, slot=second.slot), dataclasses.replace(second, slot=other))


def _is_bare(figure: Figure) -> bool:
    return figure.slot is None and figure.spot is None


def _before_the_meat(
    figures: tuple[Figure, ...], context: Context, text: str, at: dt.datetime | None
) -> tuple[Intent, ...]:
    """Return a pit coming up and meat out of the fridge; no other figures belong together before the meat is on."""
    high, low = max(figures, key=_value), min(figures, key=_value)
    pit, core = settle(high, Slot.PIT, context), settle(low, Slot.CORE, context)
    cold = isinstance(core, Value) and FRIDGE_C[0] <= core.value_c <= FRIDGE_C[1]
    if len(figures) == PAIR and cold and isinstance(pit, Value) and isinstance(core, Value):
        return (Report(values=tuple(pit if figure is high else core for figure in figures), at=at),)
    return (Unclear(question="not_understood", text=text),)


def _value(figure: Figure) -> float:
    return figure.value


def _contradiction(
    figures: tuple[Figure, ...], context: Context, text: str, at: dt.datetime | None, heard: str
) -> Unclear | None:
    """Return the question about two figures that look like two of the meat: the smaller fell, the larger follows."""
    if context.stage != "cooking" or context.last_core_c is None or _both_of_the_meat(figures, context, heard):
        return None
    high, low = max(figures, key=_value), min(figures, key=_value)
    pit, meat, other = (settle(high, Slot.PIT, context), settle(high, Slot.CORE, context),
                        settle(low, Slot.CORE, context))  # fmt: skip
    if not isinstance(pit, Value) or not isinstance(meat, Value) or not isinstance(other, Value):
        return None
    fell = other.value_c < context.last_core_c - FALLEN_C
    if near_pit(pit.value_c, context) or not fell or not plausible_core(meat, context):
        return None
    options: tuple[tuple[str, Intent], ...] = (
        ("core", Report(values=_in_order(figures, high, meat, other), at=at)),
        ("pit", Report(values=_in_order(figures, high, pit, other), at=at)),
    )
    return Unclear(question="slot", text=text, values=(high.value,), options=options)


def _in_order(figures: tuple[Figure, ...], high: Figure, its_value: Value, other: Value) -> tuple[Value, ...]:
    return tuple(its_value if figure is high else other for figure in figures)


def _both_of_the_meat(figures: tuple[Figure, ...], context: Context, heard: str) -> bool:
    """Return True for a list of two that answers a question about the meat alone, where both can be the next core."""
    if _of_each(figures, context, heard):
        return True
    if asked(context) != (Slot.CORE,):
        return False
    cores = [settle(figure, Slot.CORE, context) for figure in figures]
    if not _TWO_OF_THE_MEAT.search(heard) and not _near_one_another(cores):
        return False
    least = min((core.value_c for core in cores if isinstance(core, Value)), default=0.0)
    if _STROKE.search(heard) and (context.last_core_c is None or least < context.last_core_c - FALLEN_C):
        return False
    pit = settle(max(figures, key=_value), Slot.PIT, context)
    if isinstance(pit, Value) and context.pit_target_c is not None and near_pit(pit.value_c, context):
        return False
    return all(isinstance(core, Value) and plausible_core(core, context) for core in cores)


def _of_each(figures: tuple[Figure, ...], context: Context, heard: str) -> bool:
    """Return whether figures are of like pieces of which each is read, in a row: one that fell is kept, not asked for.

    None of them may be where the pit is to be: that one is the pit.
    """
    if not PAIR <= len(figures) <= context.each or context.stage != "cooking":
        return False
    cores = [settle(figure, Slot.CORE, context) for figure in figures]
    known = [core.value_c for core in cores if isinstance(core, Value) and can_be(core)]
    if len(known) < len(cores):
        return False
    listed = _TWO_OF_THE_MEAT.search(heard) is not None
    near = max(known) - min(known) <= (IN_A_ROW_C if listed else TWO_SPOTS_C)
    return near and context.pit_target_c is not None and not near_pit(max(known), context)


def _near_one_another(cores: list[Value | Open]) -> bool:
    """Return whether two figures are nearer to one another than a meat can be to the pit that cooks it."""
    found = [core.value_c for core in cores if isinstance(core, Value)]
    return len(found) == len(cores) and max(found) - min(found) <= TWO_SPOTS_C


def _assign(figures: tuple[Figure, ...], context: Context, heard: str) -> list[Value | Open]:
    free = [figure for figure in figures if figure.slot is None]
    named = {figure.slot for figure in figures} - {None}
    slots: dict[Figure, Slot | None] = {figure: figure.slot for figure in figures}
    if len(free) == 1 and free[0].spot:
        slots[free[0]] = Slot.CORE
    elif len(figures) > 1 and named == {Slot.PIT}:
        slots.update(dict.fromkeys(free, Slot.CORE))
    elif len(figures) > 1 and Slot.CORE in named and len(free) == 1:
        settled = Slot.CORE if Slot.PIT in named else _beside_the_meat(free[0], figures, context)
        if isinstance(settled, Open):
            return [settled if figure is free[0] else _one(figure, figure.slot, context) for figure in figures]
        slots[free[0]] = settled
    elif len(free) > 1:
        slots.update(_several(free, context, heard))
    return [_one(figure, slots[figure], context) for figure in figures]


def _beside_the_meat(free: Figure, figures: tuple[Figure, ...], context: Context) -> Slot | Open:
    """Return what a bare figure is beside a named core: the pit when larger, unless it may be a second spot."""
    pit, core = settle(free, Slot.PIT, context), settle(free, Slot.CORE, context)
    if not isinstance(pit, Value) or near_pit(pit.value_c, context):
        return Slot.PIT if isinstance(pit, Value) else Slot.CORE
    if context.stage != "cooking" or free.value <= min(f.value for f in figures if f.slot is Slot.CORE):
        return Slot.CORE
    if isinstance(core, Value) and near_core(core.value_c, context):
        return Open(question="slot", figure=free, options=(("core", core), ("pit", pit)))
    return Slot.PIT


def _several(free: list[Figure], context: Context, heard: str) -> dict[Figure, Slot | None]:
    """Several figures without words: on the fire the larger of two is the pit, however cold; else one that must be."""
    largest = max(free, key=_value)
    result: dict[Figure, Slot | None] = dict.fromkeys(free, Slot.CORE)
    if any(figure.spot for figure in free):
        return result
    if len(free) > PAIR and _of_each(tuple(free), context, heard):
        return result
    if len(free) == PAIR and context.stage == "cooking":
        if not _both_of_the_meat((free[0], free[1]), context, heard):
            result[largest] = Slot.PIT
        return result
    unit = largest.unit or context.unit
    value = settle(largest, Slot.PIT, context) if unit is None else in_c(largest, unit, Slot.PIT)
    if isinstance(value, Value):
        core = value.model_copy(update={"slot": Slot.CORE})
        close = near_pit(value.value_c, context) and not near_core(value.value_c, context)
        alien = context.stage == "cooking" and not plausible_core(core, context)
        if not can_be(core) or close or alien:
            result[largest] = Slot.PIT
    return result


def _one(figure: Figure, slot: Slot | None, context: Context) -> Value | Open:
    if slot is not None:
        return settle(figure, slot, context)
    wanted = asked(context)
    if len(wanted) == 1:
        return as_slot(figure, wanted[0], context)
    return guess(figure, context)
