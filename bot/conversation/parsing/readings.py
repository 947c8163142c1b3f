"""Decides what a figure is: meat or pit, °F or °C, from what was asked, the stage and the last readings.

A jump is not judged here; only what no meat and no pit can have is refused.
"""

from __future__ import annotations

import dataclasses
import datetime as dt

from bot.commands import Value
from bot.conversation.context import Context
from bot.conversation.parsing.numbers import APPROX_SPREAD, Figure
from scheduler.facts import Slot
from scheduler.units import c_from_f, c_step_from_f

# Limits of what a reading can be: common practice, no source. Meat holds water, so its core stays at or below boiling.
CORE_C = (-5.0, 100.0)
PIT_C = (-20.0, 400.0)
HELD_CORE_TOP_C = 98.0
"""A resting piece is not hotter than this: "100" means °F more likely than °C."""
HOT_HELD_C = 60.0
"""Held meat is hotter than this (140 F); a figure that says otherwise only in the other unit is asked about."""
HELD_CORE_LOW_C = 20.0
"""Nor, within a day of rest, colder than a room."""
_OFF_THE_FIRE = ("resting", "serving", "after")
NEAR_PIT_C = 15.0
NEAR_CORE_C = (-4.0, 8.0)
"""How far below and above the last core a figure still looks like the next one."""
WRONG_SLOT_PIT_C = 20.0
"""A pit answer further off than this, but near the last core, may be the meat."""
OFF_PIT_C, PIT_LATELY = 14.0, dt.timedelta(hours=3)
"""Farther than 25 F from a pit that was read so lately is no pit; common practice, no source."""
RISE_C_PER_MIN = 0.6
LEAST_RISE_C = 8.0
"""A core rises no faster than this, and by this much at any rate since the last look: `plausible_core`."""
NO_CORE_C = 105.0
"""Beside the name of a piece a figure is its core up to here (221 F), and the pit above: wet meat boils before."""
FALL_C = 4.0
"""So far below the last core another probe or spot still reads."""
FALLEN_C = 2.0
"""A core that fell further than this in a lit pit is no next core of a pair of figures."""
FRESH_C = 20.0
"""Meat goes on no warmer than a room."""
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
FRIDGE_AIR_C = (-5.0, 30.0)
"""What a fridge can show, working or broken; common practice, no source."""
LIMITS = {Slot.CORE: CORE_C, Slot.PIT: PIT_C, Slot.FRIDGE: FRIDGE_AIR_C, Slot.LEFTOVERS: CORE_C}


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
        low_c = HELD_CORE_LOW_C if context.stage in _OFF_THE_FIRE else context.last_core_c - 10.0
        return low_c <= value_c <= context.last_core_c + 12.0 + 30.0 * hours
    if context.meat_on_at is not None:
        hours = max(0.0, (context.now - context.meat_on_at) / dt.timedelta(hours=1))
        low_c = WARM_C if hours >= WARM_AFTER_H else CORE_C[0]
        return low_c <= value_c <= 40.0 + 25.0 * hours
    if context.stage in ("resting", "serving", "after"):
        return HELD_CORE_LOW_C <= value_c <= HELD_CORE_TOP_C
    return (WARM_C if context.stage == "cooking" and context.unit is None else CORE_C[0]) <= value_c <= CORE_C[1]


def near_core(value_c: float, context: Context) -> bool:
    """Return True when the value looks like the next core reading."""
    if context.last_core_c is None:
        return False
    return NEAR_CORE_C[0] <= value_c - context.last_core_c <= NEAR_CORE_C[1]


def plausible_core(value: Value, context: Context) -> bool:
    """Return True when a core on the fire can have risen to here since the last reading, or since it went on."""
    if not can_be(value) or context.stage in ("before", "fire"):
        return False
    if context.last_core_c is not None and context.last_core_at is not None:
        since, low_c, start_c = context.last_core_at, context.last_core_c - FALL_C, context.last_core_c
    elif context.meat_on_at is not None:
        hours = (context.now - context.meat_on_at) / dt.timedelta(hours=1)
        since, low_c, start_c = context.meat_on_at, WARM_C if hours >= WARM_AFTER_H else CORE_C[0], FRESH_C
    else:
        return True
    minutes = max(0.0, (context.now - since) / dt.timedelta(minutes=1))
    return low_c <= value.value_c <= start_c + max(LEAST_RISE_C, RISE_C_PER_MIN * minutes)


def plausible_pit(value: Value, context: Context) -> bool:
    """Return True when a pit can be here: about its target, or hotter than any meat."""
    if value.value_c > CORE_C[1]:
        return value.value_c <= LIT_PIT_C[1]
    if context.pit_target_c is None:
        return STEADY_PIT_C[0] <= value.value_c <= STEADY_PIT_C[1]
    return abs(value.value_c - context.pit_target_c) <= WRONG_SLOT_PIT_C


def near_pit(value_c: float, context: Context) -> bool:
    """Return True when the value looks like the pit on its target."""
    if context.pit_target_c is None:
        return STEADY_PIT_C[0] <= value_c <= STEADY_PIT_C[1]
    return abs(value_c - context.pit_target_c) <= NEAR_PIT_C


def likely(value: Value, context: Context) -> bool:
    """Return True when the value is where its probe should be by now."""
    if value.slot is Slot.CORE:
        return likely_core(value.value_c, context)
    if value.slot in (Slot.FRIDGE, Slot.LEFTOVERS):
        return can_be(value)
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
        if slot is Slot.PIT and (context.pit_target_c is not None or context.stage == "cooking"):
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
        if _asks_for_the_unit(own, other, context, held=held):
            pairs = ((UNIT_LABELS["F" if other_unit == "C" else "C"], own), (UNIT_LABELS[other_unit], other))
            return Open(question="unit", figure=figure, options=pairs)
        return own
    if held and can_be(other) and other.value_c < HOT_HELD_C:
        return Open(question="unit", figure=figure, options=((UNIT_LABELS[other_unit], other),))
    if can_be(other) and likely(other, context):
        return other
    return Open(question="impossible", figure=figure)


def _asks_for_the_unit(own: Value, other: Value, context: Context, *, held: bool) -> bool:
    """Return whether a figure makes little sense in the unit of the chat and good sense in the other one."""
    if held:
        top_c = HELD_CORE_TOP_C if context.last_core_c is None else context.last_core_c + LEAST_RISE_C
        return own.value_c >= min(HELD_CORE_TOP_C, top_c) and can_be(other)
    if own.slot is Slot.CORE and context.stage == "cooking" and context.last_core_c is not None:
        alone = asked(context) == (Slot.CORE,)
        return alone and not plausible_core(own, context) and plausible_core(other, context)
    if own.slot is not Slot.PIT or context.stage != "cooking" or context.pit_target_c is None:
        return False
    far_above = own.value_c > context.pit_target_c and not likely(own, context)
    return near_pit(other.value_c, context) and far_above


def as_slot(figure: Figure, slot: Slot, context: Context) -> Value | Open:
    """Settle a figure for the slot that was asked for, unless it looks like the other probe."""
    settled = settle(figure, slot, context)
    if figure.unit is None and context.unit is None and isinstance(settled, Open):
        return settled
    doubt = _maybe_core(figure, settled, context) if slot is Slot.PIT else _maybe_pit(figure, settled, context)
    return doubt or settled


def pit_holds(value_c: float, context: Context) -> bool:
    """Return True when the pit was read lately, on its target, and this far from the value: it is not the pit."""
    if context.last_pit_c is None or context.last_pit_at is None or context.pit_target_c is None:
        return False
    lately = context.now - context.last_pit_at <= PIT_LATELY
    held = abs(context.last_pit_c - context.pit_target_c) <= WRONG_SLOT_PIT_C
    return (
        lately and held and min(abs(value_c - at_c) for at_c in (context.last_pit_c, context.pit_target_c)) > OFF_PIT_C
    )


def _maybe_core(figure: Figure, settled: Value | Open, context: Context) -> Value | Open | None:
    """Return what a pit answer is that is far off the target but looks like the next core: the meat while the pit is
    known to hold, else the question.
    """
    core = settle(figure, Slot.CORE, context)
    if not isinstance(settled, Value) or not isinstance(core, Value) or context.pit_target_c is None:
        return None
    far_off = abs(settled.value_c - context.pit_target_c) >= WRONG_SLOT_PIT_C
    if not (far_off and plausible_core(core, context)):
        return None
    if context.last_core_c is not None and pit_holds(settled.value_c, context):
        return core
    return Open(question="slot", figure=figure, options=(("core", core), ("pit", settled)))


def _maybe_pit(figure: Figure, settled: Value | Open, context: Context) -> Value | Open | None:
    """Return the pit for a core answer that no meat can have, or the question when the other unit makes sense too."""
    unit = figure.unit or context.unit or "F"
    pit = in_c(figure, unit, Slot.PIT)
    if can_be(core := in_c(figure, unit, Slot.CORE)):
        doubtful = context.stage == "cooking" and figure.unit is None and context.pit_target_c is not None
        if not doubtful or not plausible_pit(pit, context) or plausible_core(core, context):
            return None
        return Open(question="slot", figure=figure, options=(("core", core), ("pit", pit)))
    if not can_be(pit) or not near_pit(pit.value_c, context):
        return None
    if isinstance(settled, Open):
        return pit if settled.question == "impossible" else None
    if context.pit_target_c is None:
        return None
    return Open(question="slot", figure=figure, options=(("pit", pit), ("core", settled)))


def _before_the_meat(figure: Figure, context: Context) -> Value | Open:
    """Settle a figure before the meat is on: the pit near its target, meat out of the fridge, else it is asked."""
    pit, core = settle(figure, Slot.PIT, context), settle(figure, Slot.CORE, context)
    if isinstance(core, Value) and FRIDGE_C[0] <= core.value_c <= FRIDGE_C[1]:
        return core
    if not isinstance(pit, Value):
        return pit
    if not LIT_PIT_C[0] <= pit.value_c <= LIT_PIT_C[1]:
        return Open(question="impossible", figure=figure)
    if context.stage == "fire" and (not isinstance(core, Value) or near_pit(pit.value_c, context)):
        return pit
    cores = (("core", core),) if isinstance(core, Value) else ()
    return Open(question="slot", figure=figure, options=(*cores, ("pit", pit)))


def guess(figure: Figure, context: Context) -> Value | Open:
    """Settle a figure that is bare when nothing was asked, or both pit and meat."""
    if context.stage in ("before", "fire"):
        return _before_the_meat(figure, context)
    core = settle(figure, Slot.CORE, context)
    if context.stage in ("resting", "serving", "after"):
        return settle(figure, Slot.LEFTOVERS, context) if context.chilling else core
    pit = settle(figure, Slot.PIT, context)
    may_be_core = isinstance(core, Value) and plausible_core(core, context)
    may_be_pit = isinstance(pit, Value) and plausible_pit(pit, context)
    if may_be_core != may_be_pit:
        return core if may_be_core else pit
    if isinstance(core, Value) and isinstance(pit, Value):
        return Open(question="slot", figure=figure, options=(("core", core), ("pit", pit)))
    return core


def of_the_meat(figure: Figure, context: Context) -> Figure:
    """Return a figure beside the name of a piece on the fire as its core, as the pit where no core can be so hot."""
    core, pit = settle(figure, Slot.CORE, context), settle(figure, Slot.PIT, context)
    unit = figure.unit or context.unit or "F"
    typed_c = in_c(figure, unit, None).value_c
    no_core = isinstance(core, Open) and core.question == "impossible"
    hot = typed_c > NO_CORE_C and (no_core or near_pit(typed_c, context))
    return dataclasses.replace(figure, slot=Slot.PIT if hot and isinstance(pit, Value) else Slot.CORE)


def asked(context: Context) -> tuple[Slot, ...]:
    """Return the slots that are asked for now: those of every open question about numbers, each once."""
    return tuple(dict.fromkeys(slot for step in context.open_steps for slot in step.slots))
