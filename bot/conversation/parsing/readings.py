"""Decides what a figure is: meat or pit, °F or °C, from what was asked, the stage and the last readings.

A jump is not judged here; only what no meat and no pit can have is refused.
"""

from __future__ import annotations

import dataclasses
import datetime as dt

from bot.commands import Intent, Report, Unclear, Value
from bot.conversation.context import Context
from bot.conversation.parsing.numbers import APPROX_SPREAD, Figure
from scheduler.facts import Slot
from scheduler.units import c_from_f, c_step_from_f

# Limits of what a reading can be: common practice, no source. Meat holds water, so its core stays at or below boiling.
CORE_C = (-5.0, 100.0)
PIT_C = (-20.0, 400.0)
HELD_CORE_TOP_C = 98.0
"""A resting piece is not hotter than this: "100" means °F more likely than °C."""
HELD_CORE_LOW_C = 20.0
"""Nor, within a day of rest, colder than a room."""
NEAR_PIT_C = 15.0
NEAR_CORE_C = (-4.0, 8.0)
"""How far below and above the last core a figure still looks like the next one."""
WRONG_SLOT_PIT_C = 20.0
"""A pit answer further off than this, but near the last core, may be the meat."""
FRIDGE_C = (-2.0, 12.0)
LIT_PIT_C = (20.0, 300.0)
"""What an unasked figure can be before the meat is on: meat from the fridge, or a pit coming up."""
COOKING_PIT_C = (60.0, 260.0)
"""Where a lit pit can be at all, while nobody has said."""
WARM_C, WARM_AFTER_H = 35.0, 3.0
"""After so many hours on the fire a core is warmer than this."""
STEADY_PIT_C = (95.0, 180.0)
"""Where a pit usually runs, while nobody has said."""
UNIT_LABELS = {"C": "celsius", "F": "fahrenheit"}
"""Keys of the two answers to a question about the unit."""
LIMITS = {Slot.CORE: CORE_C, Slot.PIT: PIT_C}


@dataclasses.dataclass(frozen=True, kw_only=True)
class Open:
    """A figure that one question would settle."""

    question: str
    figure: Figure
    options: tuple[tuple[str, Value], ...] = ()


def in_c(figure: Figure, unit: str, slot: Slot | None) -> Value:
    """Return the figure as a value in °C, read in this unit."""
    half_width = figure.half_width or (APPROX_SPREAD[unit] if figure.approx else 0.0)
    return Value(
        value_c=c_from_f(figure.value) if unit == "F" else figure.value,
        slot=slot,
        spread_c=c_step_from_f(half_width) if unit == "F" else half_width,
        spot=figure.spot,
    )


def can_be(value: Value) -> bool:
    """Return True when a probe in this slot can show the value at all."""
    low, high = LIMITS[value.slot or Slot.PIT]
    return low - 1e-9 <= value.value_c <= high + 1e-9


def likely_core(value_c: float, context: Context) -> bool:
    """Return True when the core can be here by now (common practice, no source)."""
    if context.last_core_c is not None and context.last_core_at is not None:
        hours = max(0.0, (context.now - context.last_core_at) / dt.timedelta(hours=1))
        return context.last_core_c - 10.0 <= value_c <= context.last_core_c + 12.0 + 30.0 * hours
    if context.meat_on_at is not None:
        hours = max(0.0, (context.now - context.meat_on_at) / dt.timedelta(hours=1))
        low_c = WARM_C if hours >= WARM_AFTER_H else CORE_C[0]
        return low_c <= value_c <= 40.0 + 25.0 * hours
    if context.stage in ("resting", "serving", "after"):
        return HELD_CORE_LOW_C <= value_c <= HELD_CORE_TOP_C
    return value_c <= CORE_C[1]


def near_core(value_c: float, context: Context) -> bool:
    """Return True when the value looks like the next core reading."""
    if context.last_core_c is None:
        return False
    return NEAR_CORE_C[0] <= value_c - context.last_core_c <= NEAR_CORE_C[1]


def near_pit(value_c: float, context: Context) -> bool:
    """Return True when the value looks like the pit on its target."""
    if context.pit_target_c is None:
        return STEADY_PIT_C[0] <= value_c <= STEADY_PIT_C[1]
    return abs(value_c - context.pit_target_c) <= NEAR_PIT_C


def likely(value: Value, context: Context) -> bool:
    """Return True when the value is where its probe should be by now."""
    if value.slot is Slot.CORE:
        return likely_core(value.value_c, context)
    if context.pit_target_c is None:
        return COOKING_PIT_C[0] <= value.value_c <= COOKING_PIT_C[1]
    return abs(value.value_c - context.pit_target_c) <= 3.0 * NEAR_PIT_C


def settle(figure: Figure, slot: Slot, context: Context) -> Value | Open:
    """Return the figure read in the right unit for a slot that is sure, or the question that would settle it."""
    units = (figure.unit,) if figure.unit else (context.unit,) if context.unit else ("C", "F")
    possible = [(unit, value) for unit in units if unit and can_be(value := in_c(figure, unit, slot))]
    if figure.unit:
        return possible[0][1] if possible else Open(question="impossible", figure=figure)
    if context.unit:
        return _in_other_unit(figure, slot, context, possible[0][1] if possible else None)
    if len(possible) > 1:
        better = [pair for pair in possible if likely(pair[1], context)]
        if slot is Slot.PIT and context.pit_target_c is not None:
            close = [pair for pair in better if near_pit(pair[1].value_c, context)]
            better = close if len(close) == 1 else possible
        possible = better or possible
    if len(possible) == 1:
        return possible[0][1]
    options = tuple((UNIT_LABELS[unit], value) for unit, value in possible)
    return Open(question="unit" if options else "impossible", figure=figure, options=options)


def _in_other_unit(figure: Figure, slot: Slot, context: Context, own: Value | None) -> Value | Open:
    """Weigh the chat's unit against the other one, when the chat's makes no sense."""
    other_unit = "C" if context.unit == "F" else "F"
    other = in_c(figure, other_unit, slot)
    held = slot is Slot.CORE and context.stage in ("resting", "serving", "after")
    if own is not None:
        if held and own.value_c > HELD_CORE_TOP_C and can_be(other):
            pairs = ((UNIT_LABELS["F" if other_unit == "C" else "C"], own), (UNIT_LABELS[other_unit], other))
            return Open(question="unit", figure=figure, options=pairs)
        return own
    if can_be(other) and likely(other, context):
        return other
    return Open(question="impossible", figure=figure)


def _as_slot(figure: Figure, slot: Slot, context: Context) -> Value | Open:
    """Settle a figure for the slot that was asked for, unless it looks like the other probe."""
    settled = settle(figure, slot, context)
    if figure.unit is None and context.unit is None and isinstance(settled, Open):
        return settled
    doubt = _maybe_core(figure, settled, context) if slot is Slot.PIT else _maybe_pit(figure, settled, context)
    return doubt or settled


def _maybe_core(figure: Figure, settled: Value | Open, context: Context) -> Open | None:
    """Return the question about a pit answer that is far off the target but looks like the next core."""
    core = settle(figure, Slot.CORE, context)
    if not isinstance(settled, Value) or not isinstance(core, Value) or context.pit_target_c is None:
        return None
    far_off = abs(settled.value_c - context.pit_target_c) >= WRONG_SLOT_PIT_C
    if not (far_off and near_core(core.value_c, context)):
        return None
    return Open(question="slot", figure=figure, options=(("core", core), ("pit", settled)))


def _maybe_pit(figure: Figure, settled: Value | Open, context: Context) -> Value | Open | None:
    """Return the pit for a core answer that no meat can have, or the question when the other unit makes sense too."""
    unit = figure.unit or context.unit or "F"
    pit = in_c(figure, unit, Slot.PIT)
    if can_be(in_c(figure, unit, Slot.CORE)) or not can_be(pit) or not near_pit(pit.value_c, context):
        return None
    if isinstance(settled, Open):
        return pit
    if context.pit_target_c is None:
        return None
    return Open(question="slot", figure=figure, options=(("pit", pit), ("core", settled)))


def _before_the_meat(figure: Figure, context: Context) -> Value | Open:
    """Settle a figure before the meat is on: the air of a lit pit, or meat out of the fridge."""
    pit, core = settle(figure, Slot.PIT, context), settle(figure, Slot.CORE, context)
    if isinstance(core, Value) and FRIDGE_C[0] <= core.value_c <= FRIDGE_C[1]:
        return core
    if isinstance(pit, Value) and not LIT_PIT_C[0] <= pit.value_c <= LIT_PIT_C[1]:
        return Open(question="impossible", figure=figure)
    return pit


def _guess(figure: Figure, context: Context) -> Value | Open:
    """Settle a figure that nothing asked for."""
    if context.stage in ("before", "fire"):
        return _before_the_meat(figure, context)
    core = settle(figure, Slot.CORE, context)
    if context.stage in ("resting", "serving", "after"):
        return core
    pit = settle(figure, Slot.PIT, context)
    if not isinstance(core, Value):
        return pit if isinstance(pit, Value) and likely(pit, context) else core
    if not isinstance(pit, Value) or not near_pit(pit.value_c, context):
        return core
    if near_core(core.value_c, context) and abs(pit.value_c - (context.pit_target_c or 0.0)) > NEAR_PIT_C / 2.0:
        return core
    return Open(question="slot", figure=figure, options=(("core", core), ("pit", pit)))


def asked(context: Context) -> tuple[Slot, ...]:
    """Return the slots that the newest question about numbers wants."""
    wanting = [step for step in context.open_steps if step.slots]
    for step in wanting:
        if step.is_question:
            return step.slots
    return wanting[0].slots if wanting else ()


def _assign(figures: tuple[Figure, ...], context: Context) -> list[Value | Open]:
    free = [figure for figure in figures if figure.slot is None]
    named = {figure.slot for figure in figures} - {None}
    slots: dict[Figure, Slot | None] = {figure: figure.slot for figure in figures}
    if len(free) == 1 and free[0].spot:
        slots[free[0]] = Slot.CORE
    elif len(figures) > 1 and named == {Slot.PIT}:
        slots.update(dict.fromkeys(free, Slot.CORE))
    elif len(figures) > 1 and Slot.CORE in named and len(free) == 1:
        value = settle(free[0], Slot.PIT, context)
        is_pit = Slot.PIT not in named and isinstance(value, Value) and near_pit(value.value_c, context)
        slots[free[0]] = Slot.PIT if is_pit and not free[0].spot else Slot.CORE
    elif len(free) > 1:
        slots.update(_pair(free, context))
    return [_one(figure, slots[figure], context) for figure in figures]


def _pair(free: list[Figure], context: Context) -> dict[Figure, Slot | None]:
    """Several figures without words: the largest is the pit when near its target, or beyond any meat."""
    largest = max(free, key=lambda figure: figure.value)
    result: dict[Figure, Slot | None] = dict.fromkeys(free, Slot.CORE)
    if any(figure.spot for figure in free):
        return result
    unit = largest.unit or context.unit
    value = settle(largest, Slot.PIT, context) if unit is None else in_c(largest, unit, Slot.PIT)
    if isinstance(value, Value):
        beyond = not can_be(value.model_copy(update={"slot": Slot.CORE}))
        close = near_pit(value.value_c, context) and not near_core(value.value_c, context)
        if beyond or close:
            result[largest] = Slot.PIT
    return result


def _one(figure: Figure, slot: Slot | None, context: Context) -> Value | Open:
    if slot is not None:
        return settle(figure, slot, context)
    wanted = asked(context)
    if len(wanted) == 1:
        return _as_slot(figure, wanted[0], context)
    return _guess(figure, context)


def report(figures: tuple[Figure, ...], context: Context, text: str, at: dt.datetime | None) -> tuple[Intent, ...]:
    """Return what the figures of a text are: one report, and at most one question."""
    settled = _assign(figures, context)
    values = tuple(value for value in settled if isinstance(value, Value))
    found: list[Intent] = [Report(values=values, at=at)] if values else []
    first = next((item for item in settled if isinstance(item, Open)), None)
    if first is not None:
        options = tuple((label, Report(values=(value,), at=at)) for label, value in first.options)
        found.append(Unclear(question=first.question, text=text, values=(first.figure.value,), options=options))
    return tuple(found)
