"""What is told of numbers: readings, typed or tapped, and the wish for others than those offered. Values only."""

from __future__ import annotations

import datetime as dt
from typing import Literal

from bot.commands.intent import Said
from scheduler.facts import Slot


class Value(Said):
    """One number as understood: temperatures in °C; `slot` None when nothing told which."""

    value_c: float
    slot: Slot | None = None
    spread_c: float = 0.0
    spot: str | None = None
    piece: str | None = None
    """The piece of meat that is meant, None: not said."""


class Report(Said):
    """Readings, at an instant."""

    kind: Literal["report"] = "report"
    values: tuple[Value, ...]
    at: dt.datetime | None = None
    """When it was read (UTC); None: when the message was sent."""
    spot_confirmed: bool = False
    """True when the person answered that the surprising value is real."""
    tapped: bool = False
    """True when it was chosen from buttons: each value is the middle of its button, its spread half of it."""
    question: str | None = None
    """The key of the prompt whose button it is, None: of no prompt."""


class OtherNumber(Said):
    """None of the numbers that were offered: those farther below and above, or typing it."""

    kind: Literal["other_number"] = "other_number"
    slot: Slot
    step: str
    question: str
    """The key of the prompt that asks."""
    low_c: float
    high_c: float
    """What was offered so far reaches from here to there [°C]."""
    piece: str | None = None
    """The piece of meat that is meant, None: there is only one, or none is meant."""
