"""Two people who read the same spot and differ: both numbers by name, and which one stands. Nothing is averaged."""

from __future__ import annotations

from bot.commands import Report, TwoSpots, Value
from bot.messages.figures import Voice
from bot.messages.message import Option
from bot.messages.words import _
from scheduler.cook import Changes, SpotAsked
from scheduler.facts import Slot
from scheduler.safety.contested import contests
from scheduler.state import ReadingAt


def contest_text(changes: Changes, voice: Voice) -> str:
    """Return both numbers by the names of who read them, when what was told now differs from another's; else nothing.

    Of several pieces `changes` is seen from the one that was read.
    """
    new = [pair for pair in _new(changes) if pair[0].by != pair[1].by]
    if not new:
        return ""
    first, second = sorted(new[-1], key=lambda one: one.at)
    return _("Two readings: {first}, {second}. The lower one stands until a third.").format(
        first=_who(first, voice), second=_who(second, voice)
    )


def settle_buttons(event: SpotAsked, voice: Voice, *, differs: bool) -> tuple[tuple[Option, ...], ...]:
    """Return what settles a reading that does not fit, one button a row: it is right; of two people that `differs`
    also the other one is, or both are, of two spots.
    """
    rows = [_right(event.reading.value_c, event, voice)]
    if differs and event.before_c is not None:
        rows.append(_right(event.before_c, event, voice))
        rows.append((_("Both, two spots"), TwoSpots(piece=event.piece)))
    return tuple((row,) for row in rows)


def _right(value_c: float, event: SpotAsked, voice: Voice) -> Option:
    """Return the button that says that a number is right; the number that was just told keeps its spread and spot."""
    reading, told = event.reading, value_c == event.reading.value_c
    value = Value(
        value_c=value_c,
        slot=reading.slot,
        spread_c=reading.spread_c if told else 0.0,
        spot=reading.spot if told else None,
        piece=event.piece,
    )
    return (_("{temp} is right").format(temp=voice.temp(value_c)), Report(values=(value,), spot_confirmed=True))


def first_spot() -> str:
    """Return what the spot of the earlier of two readings is called."""
    return _("one spot")


def second_spot() -> str:
    """Return what the spot of the later of two readings is called."""
    return _("other spot")


def nothing_differs() -> str:
    """Say that no two readings differ any more."""
    return _("No two readings differ now. Both are kept.")


def differs_now(changes: Changes) -> bool:
    """Return whether what was told now differs from another reading of its moment, whoever read that."""
    return bool(_new(changes))


def both_named(text: str) -> bool:
    """Return whether a text names two readings that differ."""
    return _("Two readings: ").strip() in text


def _new(changes: Changes) -> list[tuple[ReadingAt, ReadingAt]]:
    """Return the pairs that differ because of what was told now, the newest last."""
    known = set() if changes.before is None else set(_pairs(changes.before.state.readings))
    pairs = _pairs(changes.after.state.readings)
    return sorted((pairs[key] for key in pairs if key not in known), key=lambda pair: max(one.at for one in pair))


def _pairs(readings: tuple[ReadingAt, ...]) -> dict[tuple[str, str], tuple[ReadingAt, ReadingAt]]:
    """Return the pairs of core readings that differ, higher one first, by the facts that told them."""
    found = contests(reading for reading in readings if reading.slot is Slot.CORE)
    return {(one.higher.fact, one.lower.fact): (one.higher, one.lower) for one in found}


def _who(reading: ReadingAt, voice: Voice) -> str:
    temp = voice.temp(reading.value_c, fine=True)
    return temp if reading.by is None else _("{name} {temp}").format(name=reading.by, temp=temp)
