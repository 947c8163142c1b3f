"""What is written in the event column of a log, read as values.

What it does not know is handed back as it stands, to be named; it never stops a log.
"""

from __future__ import annotations

import dataclasses
import re

from bot.backtest.figures import pit_band_c, wrap_of
from scheduler.facts import Wrap
from scheduler.forecast import Opening


@dataclasses.dataclass(frozen=True, kw_only=True)
class MeatOn:
    """The meat went on: minute 0."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Covered:
    """The meat was wrapped; `Wrap.NONE` is unwrapped."""

    wrap: Wrap


@dataclasses.dataclass(frozen=True, kw_only=True)
class Opened:
    """The cooker was opened, and why."""

    kind: Opening


@dataclasses.dataclass(frozen=True, kw_only=True)
class PitSet:
    """The pit was set to a band [°C]."""

    low_c: float
    high_c: float


@dataclasses.dataclass(frozen=True, kw_only=True)
class Pulled:
    """The meat came off."""


Event = MeatOn | Covered | Opened | PitSet | Pulled

_ON = re.compile(r"on|meat on|meat in")
_PULL = re.compile(r"pull|pulled|off|meat off")
_UNWRAP = re.compile(r"unwrap|unwrapped|(?:foil|paper|boat|wrap) off")
_WRAP = re.compile(r"(?:re)?wrap(?:ped)?(?: it)?(?: in| with)? (?P<wrap>.+)")
_WRAP_ALONE = re.compile(r"(?P<wrap>.+?)(?: wrap| wrapped| on)?")
_VERBS = {"foiled": "foil", "papered": "paper", "boated": "boat"}
_PARTS = re.compile(r";|(?<![0-9]),|,(?![0-9])")
"""A comma between two digits is that of a decimal."""
_PIT = re.compile(r"pit(?: to| at| set to| set)? (?P<band>.+)")
_OPENINGS = (
    (re.compile(r"spritz|spritzed|mop|mopped"), Opening.SPRITZ),
    (re.compile(r"lid|lid open|lid opened|opened lid|open lid"), Opening.LID),
    (re.compile(r"refuel|refuelled|refueled|fuel|fuel added"), Opening.REFUEL),
)


def read_events(cell: str, unit: str) -> tuple[tuple[Event, ...], tuple[str, ...]]:
    """Return the events of a cell, which semicolons or commas part, and the words that name none.

    `unit` ("F" or "C") is that of the log, for a pit without one.
    """
    events: list[Event] = []
    unknown: list[str] = []
    for words in (" ".join(part.split()) for part in _PARTS.split(cell)):
        event = _event(words.casefold(), unit) if words else None
        if event is not None:
            events.append(event)
        elif words:
            unknown.append(words)
    return tuple(events), tuple(unknown)


def _event(words: str, unit: str) -> Event | None:
    if _ON.fullmatch(words):
        return MeatOn()
    if _PULL.fullmatch(words):
        return Pulled()
    if _UNWRAP.fullmatch(words):
        return Covered(wrap=Wrap.NONE)
    if (found := _WRAP.fullmatch(words)) and (wrap := wrap_of(found["wrap"])) is not None:
        return Covered(wrap=wrap)
    alone = _WRAP_ALONE.fullmatch(_VERBS.get(words, words))
    if alone and (wrap := wrap_of(alone["wrap"])) not in (None, Wrap.NONE):
        return Covered(wrap=wrap)
    if (found := _PIT.fullmatch(words)) and (band := pit_band_c(found["band"], unit)) is not None:
        return PitSet(low_c=band[0], high_c=band[1])
    return next((Opened(kind=kind) for pattern, kind in _OPENINGS if pattern.fullmatch(words)), None)
