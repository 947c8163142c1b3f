"""When a number needs no message of its own: a sign under what was typed, and the board that shows it.

Pure. Only what was understood just as it was typed is acknowledged so: whatever was guessed, mended or doubted, or
changes anything else, is said in words.
"""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Sequence

from bot.application.boards import PAPER
from bot.application.turns import Turn
from bot.application.visit import Visit
from bot.chat import IncomingKind
from bot.messages.receipts import nothing_but
from scheduler.cook import Situation, Taken
from scheduler.facts import Reading, Slot
from scheduler.safety import FindingLevel
from scheduler.units import c_from_f

SIGN = "👍"
"""What stands under a number that was taken; one that the messenger allows in every chat that allows any."""

_NUMBER = re.compile(r"(?P<number>\d+(?:[.,]\d+)?)(?:\s*°?\s*(?P<unit>[cf])(?![a-z]))?", re.IGNORECASE)
_SLOT_WORDS = {
    Slot.PIT: re.compile(r"\b(?:pit|garraum|grill)\b", re.IGNORECASE),
    Slot.CORE: re.compile(r"\b(?:meat|core|kern)\b", re.IGNORECASE),
}
_FILLING = re.compile(r"\b(?:the|is|at|now|reads|it's|deg|degrees|grad)\b|[\s,;:=/&+.°]|\band\b|\bund\b", re.IGNORECASE)
"""What may stand beside numbers and the names of probes without saying anything."""

_OFF_PIT_C = 14.0
"""A pit this far off what it should hold is news [°C]; common practice, no source."""

_SAME_C = 0.06
"""Two temperatures nearer than this are one [°C]."""


def needs_no_words(visit: Visit, done: Turn, said: str, whole: str, *, settled: bool) -> bool:
    """Return whether a sign is enough: `said` is the receipt, `whole` all that would be answered but for the last line.

    It is when nothing but the receipt would be said (no question, no caution, nothing that moved, nothing due), and the
    question whose button was pressed shows it now (`settled`), or plain readings were taken as they stand in a text, in
    a room where signs exist.
    """
    incoming, situation = visit.incoming, done.reported.before
    if situation is None or whole != said or said != _plain(visit, done) or done.rung.events:
        return False
    if not all(isinstance(event, Taken) for event in done.reported.events):
        return False
    if _stands(done.after, visit.now):
        return False
    if settled:
        return True
    typed = incoming.kind is IncomingKind.TEXT and incoming.message is not None
    if not typed or visit.address.transport in PAPER or situation.several:
        return False
    if visit.house.store.refuses_signs(visit.address):
        return False
    bodies = [event.body for event in done.reported.events if isinstance(event, Taken)]
    return _literal(incoming.text, bodies, visit, situation)


def _stands(after: Situation, now: dt.datetime) -> bool:
    """Return whether a stop or a caution stands, on any piece: a sign under a number would read as all being well."""
    found = (one for view in after.views for one in after.seen_from(view.piece).findings(now))
    return any(one.level is not FindingLevel.NOTE for one in found)


def _plain(visit: Visit, done: Turn) -> str:
    return nothing_but(done.reported, visit.voice(done.after))


def _literal(text: str, bodies: Sequence[object], visit: Visit, situation: Situation) -> bool:
    """Return whether the bodies are readings that stand in a text, each with its number and what it is of."""
    readings = [body for body in bodies if isinstance(body, Reading)]
    if not readings or len(readings) != len(bodies):
        return False
    if _says_more(text) or any(_off(reading, situation) for reading in readings):
        return False
    typed = [_in_c(found, visit.unit(situation)) for found in _NUMBER.finditer(text)]
    values = [reading.value_c for reading in readings]
    if len(typed) != len(values) or any(abs(a - b) > _SAME_C for a, b in zip(typed, values, strict=True)):
        return False
    return all(
        not reading.doubtful and not reading.spread_c and _said_of_what(text, reading.slot, readings, situation)
        for reading in readings
    )


def _says_more(text: str) -> bool:
    """Return whether a text holds anything but numbers and what they are of."""
    for pattern in (_NUMBER, *_SLOT_WORDS.values(), _FILLING):
        text = pattern.sub(" ", text)
    return bool(text.strip())


def _off(reading: Reading, situation: Situation) -> bool:
    """Return whether a reading of the pit is far off what it should hold."""
    band = situation.at_the_fire.state.pit[-1]
    low_c, high_c = band.low_c - _OFF_PIT_C, band.high_c + _OFF_PIT_C
    return reading.slot is Slot.PIT and not low_c <= reading.value_c <= high_c


def _in_c(found: re.Match[str], unit: str) -> float:
    number = float(found["number"].replace(",", "."))
    return c_from_f(number) if (found["unit"] or unit).upper() == "F" else number


def _said_of_what(text: str, slot: Slot, readings: list[Reading], situation: Situation) -> bool:
    """Return whether a text names what a reading is of, or the only open question asks for just that."""
    word = _SLOT_WORDS.get(slot)
    if word is not None and word.search(text):
        return True
    asked = {one for prompt in situation.waiting for one in prompt.step.slots}
    return len(readings) == 1 and asked == {slot}
