"""Numbers as buttons: for every question that wants one, round numbers on both sides of what is expected.

None is marked and they stand in rising order, so that nobody is led. Where a limit of food safety lies among them each
button says which span it means, and none reaches over the limit. It records nothing.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
import itertools
import math

from bot.commands import GuestsSaid, Intent, OtherNumber, PutOffFor, Report, Value
from bot.messages.figures import Voice, limit_f
from bot.messages.message import Message, Option
from bot.messages.naming import named
from bot.messages.words import _
from scheduler.cook import Situation
from scheduler.facts import Slot
from scheduler.planning.expected import expected_c
from scheduler.planning.prompts import Prompt
from scheduler.safety.limits import COOL_COLD, COOL_FIRST, DANGER_LOW, HOT_HOLD, PIT_COLD, REHEAT
from scheduler.state import Stage
from scheduler.units import c_from_f, f_from_c

NUMBERS = 7
"""How many numbers a question offers. In the cooks of the virtual kitchen the next core is among seven for 96 in 100
readings in steps of 5 F and 93 in steps of 2 C, the next pit for 90 and 78; the others cost a second tap."""

GUESTS = (2, 4, 6, 8, 12, 20, 30)
"""How many eat, as buttons (own choice)."""

FEWEST = 3
"""So many numbers at least, however many other buttons stand above them."""

MORE = 3
"""How many more "another number" shows on either side."""

PUT_OFF_MIN = 20.0
"""Minutes that "cannot read now" puts a question off; common practice, no source."""

_STEP = {"F": 5.0, "C": 2.0}
_FINE = {"F": 2.0, "C": 1.0}
"""A fridge is near its limit all the time [degrees]."""
_COARSE = {"F": 10.0, "C": 5.0}
"""Nothing foretells how food cools in a fridge [degrees]."""

_AT_MOST = (Slot.FRIDGE, Slot.LEFTOVERS)
"""What has to be at a limit or under it, except when it is reheated."""

BOILS_C = 100.0
"""No core is hotter: it is wet [°C]."""

_ORDER = (Slot.PIT, Slot.CORE, Slot.FRIDGE, Slot.LEFTOVERS)


@dataclasses.dataclass(frozen=True, kw_only=True)
class Asked:
    """One number that a prompt asks for."""

    prompt: Prompt
    slot: Slot
    answered: bool = False
    """True when its prompt is answered already and the number is a help beside it."""

    @property
    def at_most(self) -> bool:
        """Return whether its limits are to be kept under."""
        return self.slot in _AT_MOST and self.prompt.step.id != "reheat"


@dataclasses.dataclass(frozen=True, kw_only=True)
class Span:
    """What one button means, in the unit of the room; `shown` is its round number, None where it says both ends."""

    low: float
    high: float
    shown: float | None = None


def asked_numbers(prompts: tuple[Prompt, ...], situation: Situation) -> tuple[Asked, ...]:
    """Return the numbers that prompts still ask for, in the order in which they are answered: the pit first, then each
    piece in its order. One read since the question was put is not asked for again.
    """
    order = [view.piece for view in situation.views]
    found = [Asked(prompt=p, slot=slot) for p in prompts for slot in p.step.slots if not _read(p, slot, situation)]
    return tuple(sorted(found, key=lambda a: (_ORDER.index(a.slot), order.index(a.prompt.piece)
                                              if a.prompt.piece in order else -1)))  # fmt: skip


def _read(prompt: Prompt, slot: Slot, situation: Situation) -> bool:
    """Return whether a slot was read since a prompt asked for it."""
    last = situation.view(prompt.piece).state.last(slot)
    return last is not None and prompt.asked_at is not None and last.at >= prompt.asked_at


def number_rows(
    prompts: tuple[Prompt, ...], situation: Situation, voice: Voice, *, most: int = NUMBERS
) -> tuple[tuple[Option, ...], ...]:
    """Return one row for each number of the first question that prompts ask, and a row for any other number; `most`
    numbers, where other buttons stand above them.
    """
    asked = asked_numbers(prompts, situation)
    return _usual_rows(asked[0], situation, voice, most=most) if asked else ()


def _usual_rows(
    asked: Asked, situation: Situation, voice: Voice, *, most: int = NUMBERS
) -> tuple[tuple[Option, ...], ...]:
    expected, limits = _expected(asked, situation, voice), limits_of(asked, situation, voice)
    spans = nearest(spans_around(expected, step_of(asked, voice), limits), expected, most)
    return rows_of(asked, spans, situation, voice)


def nearest(spans: tuple[Span, ...], expected: float, most: int) -> tuple[Span, ...]:
    """Return at most so many spans, as many below what is expected as above it where there are."""
    at = next((n for n, span in enumerate(spans) if expected < span.high), len(spans) - 1)
    first = min(max(0, at - most // 2), max(0, len(spans) - most))
    return spans[first : first + most]


def rows_of(
    asked: Asked, spans: tuple[Span, ...], situation: Situation, voice: Voice
) -> tuple[tuple[Option, ...], ...]:
    """Return the rows of spans, and of any other number: one farther than they reach."""
    other = OtherNumber(
        slot=asked.slot,
        step=asked.prompt.step.id,
        question=asked.prompt.key,
        low_c=_c(spans[0].low, voice),
        high_c=_c(spans[-1].high, voice),
        piece=_piece(asked, situation),
    )
    rows = [((_label(span, asked, situation, voice), _meaning(span, asked, situation, voice)),) for span in spans]
    return tuple(rows) if asked.answered else (*rows, ((_("Another number"), other),))


def guest_rows() -> tuple[tuple[Option, ...], ...]:
    """Return the rows of how many eat: round tables, nothing marked; children and the rest are typed."""
    return tuple(((_("{count} adults").format(count=count), GuestsSaid(adults=count)),) for count in GUESTS)


def cannot_row(prompt: Prompt, situation: Situation) -> tuple[Option, ...]:
    """Return the button that puts a question off."""
    piece = prompt.piece if situation.several and prompt.step.scope == "piece" else None
    return ((_("Cannot read it now"), PutOffFor(minutes=PUT_OFF_MIN, step=prompt.step.id, piece=piece)),)


def next_number(situation: Situation, asked_at: dt.datetime | None, voice: Voice) -> Message | None:
    """Return the question for the next number of those that were asked together at an instant, None: there is no more.

    Words for one short line, the buttons below it.
    """
    together = tuple(p for p in situation.waiting if p.is_question and p.asked_at == asked_at)
    numbers = asked_numbers(together, situation)
    return ask_number(numbers[0], situation, voice) if numbers else None


def ask_number(asked: Asked, situation: Situation, voice: Voice) -> Message:
    """Return the short question for one number with its buttons."""
    rows = _usual_rows(asked, situation, voice)
    return Message(text=_and(asked, situation), choices=(*rows, cannot_row(asked.prompt, situation)))


def coldest_spot(prompt: Prompt, situation: Situation, voice: Voice) -> Message | None:
    """Return the question for the coldest spot after a feel that was tapped; None when it was read since the feel was
    asked for.
    """
    if _read(prompt, Slot.CORE, situation):
        return None
    asked = Asked(prompt=prompt, slot=Slot.CORE, answered=True)
    text = named(situation, _piece(asked, situation), _("And the coldest spot?"))
    return Message(text=text, choices=_usual_rows(asked, situation, voice))


def other_numbers(other: OtherNumber, asked: Asked, situation: Situation, voice: Voice) -> Message:
    """Return the numbers below and above those that were offered; typing one is asked for as well."""
    low, high, step = _unit(other.low_c, voice), _unit(other.high_c, voice), step_of(asked, voice)
    limits = limits_of(asked, situation, voice)
    if any(low - MORE * step < limit < high + MORE * step for limit in limits):
        low, high = step * math.ceil(low / step), step * math.floor(high / step)
    below = spans_between(low - MORE * step, low, step, limits)
    above = spans_between(high, high + MORE * step, step, limits)
    rows = rows_of(asked, (*below, *above), situation, voice)
    return Message(text=_("Type the number, or choose:"), choices=(*rows, cannot_row(asked.prompt, situation)))


# --- spans ------------------------------------------------------------------------------------------------------------


def spans_around(expected: float, step: float, limits: tuple[float, ...]) -> tuple[Span, ...]:
    """Return seven spans around what is expected, in rising order: round numbers, or spans that end at limits."""
    middle = step * round(expected / step)
    half = step * NUMBERS / 2
    if not any(middle - half < limit < middle + half for limit in limits):
        return spans_between(middle - half, middle + half, step, limits)
    wide = _by_edges(middle - 2 * half, middle + 2 * half, step, limits)
    at = next(n for n, span in enumerate(wide) if span.low <= expected < span.high)
    first = max(0, at - NUMBERS // 2)
    return wide[first : first + NUMBERS]


def spans_between(low: float, high: float, step: float, limits: tuple[float, ...]) -> tuple[Span, ...]:
    """Return the spans from one edge to another: round numbers half a step inside, unless a limit lies among them or
    the edges are round themselves.
    """
    whole = math.isclose((low / step) % 1.0, 0.5, abs_tol=0.01)
    if not whole or any(low < limit < high for limit in limits):
        return _by_edges(low, high, step, limits)
    count = round((high - low) / step)
    return tuple(
        Span(low=low + n * step, high=low + (n + 1) * step, shown=low + (n + 0.5) * step) for n in range(count)
    )


def _by_edges(low: float, high: float, step: float, limits: tuple[float, ...]) -> tuple[Span, ...]:
    """Return spans between round edges, of which those near to a limit give way to it."""
    fixed = [low, high, *(limit for limit in limits if low < limit < high)]
    count = range(math.ceil(low / step), math.floor(high / step) + 1)
    edges = [step * n for n in count if all(abs(step * n - one) >= step / 2 for one in fixed)]
    sorted_edges = sorted({*edges, *fixed})
    return tuple(Span(low=one, high=other) for one, other in itertools.pairwise(sorted_edges))


def step_of(asked: Asked, voice: Voice) -> float:
    """Return how far apart the numbers of a question are, in the unit of the room."""
    if asked.slot is Slot.FRIDGE:
        return _FINE[voice.unit]
    return (_COARSE if asked.at_most else _STEP)[voice.unit]


def limits_of(asked: Asked, situation: Situation, voice: Voice) -> tuple[float, ...]:
    """Return the limits of food safety that an answer is compared with, in the unit of the room."""
    seen = situation.seen_from(asked.prompt.piece)
    edition, resting = seen.state.edition, seen.state.stage is Stage.RESTING
    if asked.slot is Slot.PIT:
        found = [PIT_COLD.under(edition).c]
    elif asked.slot is Slot.FRIDGE:
        found = [DANGER_LOW.under(edition).c]
    elif asked.slot is Slot.LEFTOVERS:
        found = [one.under(edition).c for one in ((COOL_FIRST, COOL_COLD) if asked.at_most else (REHEAT,))]
    else:
        found = [seen.gate.minimum_c] if seen.gate.open_at is None else []
        found += [HOT_HOLD.under(edition).c] if resting else []
    return tuple(sorted({limit_f(c) if voice.unit == "F" else round(c, 1) for c in found}))


def _expected(asked: Asked, situation: Situation, voice: Voice) -> float:
    """Return what a question will likely be answered with; no button of a core is hotter than boiling water."""
    expected = _foreseen(asked, situation, voice)
    if asked.slot is not Slot.CORE:
        return expected
    return min(expected, _unit(BOILS_C, voice) - (NUMBERS // 2 + 0.5) * step_of(asked, voice))


def _foreseen(asked: Asked, situation: Situation, voice: Voice) -> float:
    view = situation.view(asked.prompt.piece)
    if asked.slot is Slot.PIT and situation.several:
        view = situation.view(situation.at_the_fire.state.piece)
    return _unit(expected_c(asked.slot, asked.prompt, view, max(voice.now, view.state.as_of)), voice)


# --- words and meaning ------------------------------------------------------------------------------------------------


def _label(span: Span, asked: Asked, situation: Situation, voice: Voice) -> str:
    """Return what a button says: its number, or its span with the end that belongs to it."""
    if span.shown is not None:
        text = voice.temp(_c(span.shown, voice))
    else:
        form = _("over {low} to {high}") if asked.at_most else _("{low} to under {high}")
        text = form.format(low=voice.bare(_c(span.low, voice)), high=voice.temp(_c(span.high, voice), fine=True))
    if asked.slot is Slot.PIT:
        return _("Pit {temp}").format(temp=text)
    return named(situation, _piece(asked, situation), text)


def _meaning(span: Span, asked: Asked, situation: Situation, voice: Voice) -> Intent:
    middle_c, low_c = _c((span.low + span.high) / 2, voice), _c(span.low, voice)
    value = Value(value_c=middle_c, slot=asked.slot, spread_c=middle_c - low_c, piece=_piece(asked, situation))
    return Report(values=(value,), tapped=True, question=None if asked.answered else asked.prompt.key)


def _and(asked: Asked, situation: Situation) -> str:
    piece = _piece(asked, situation)
    if asked.slot is Slot.PIT:
        return _("And the pit?")
    return _("And the meat?") if piece is None else named(situation, piece, _("and the meat?"))


def _piece(asked: Asked, situation: Situation) -> str | None:
    """Return the piece that a number is of, None where there is no choice."""
    return asked.prompt.piece if situation.several and asked.slot is Slot.CORE else None


def _c(value: float, voice: Voice) -> float:
    return c_from_f(value) if voice.unit == "F" else value


def _unit(value_c: float, voice: Voice) -> float:
    return f_from_c(value_c) if voice.unit == "F" else value_c
