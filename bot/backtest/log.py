"""The log of a past cook, as values: what stands above the rows, the rows, and what could not be used.

It holds no reading and no forecasting: text becomes a log in `reading`.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
from enum import StrEnum

from bot.backtest.events import Event
from scheduler.facts import Wrap


class Trouble(StrEnum):
    """What could not be used, and why."""

    HEADER_UNKNOWN = "header_unknown"
    HEADER_UNREADABLE = "header_unreadable"
    TIME = "time"
    """A row without a readable time."""
    ZONE = "zone"
    """A time with a zone among times without one, or the other way round."""
    NO_DATE = "no_date"
    """A time of day without a date: after midnight nobody could tell the day."""
    TOO_LONG = "too_long"
    """A time so far from the others that it is a slip."""
    TEMPERATURE = "temperature"
    """A reading that is no temperature; the events of its row are kept."""
    CORE_TOO_HOT = "core_too_hot"
    CORE_PERHAPS_F = "core_perhaps_f"
    """Hotter than meat gets in Celsius, and possible in Fahrenheit."""
    PIT_TOO_HOT = "pit_too_hot"
    TOO_COLD = "too_cold"
    EVENT = "event"
    """An event that is not known; the rest of its row is kept."""
    SECOND_ON = "second_on"
    BEFORE_ON = "before_on"
    """Readings from before meat on: only the last tells how warm the meat was."""
    EXTRA_CELLS = "extra_cells"
    NO_COLUMNS = "no_columns"
    """No line of column names with a time and a core: nothing can be used."""
    NO_ROW = "no_row"
    """No row with a core reading: nothing can be used."""


SKIPS = frozenset({
    Trouble.TIME, Trouble.NO_DATE, Trouble.TOO_LONG, Trouble.ZONE, Trouble.TEMPERATURE, Trouble.CORE_TOO_HOT,
    Trouble.CORE_PERHAPS_F, Trouble.PIT_TOO_HOT, Trouble.TOO_COLD,
})  # fmt: skip
"""What makes a row malformed."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Notice:
    """Something that could not be used: why, in which line (None: the whole log), and the words it is about.

    `because` holds what led to it, when it is that nothing is left.
    """

    trouble: Trouble
    line: int | None = None
    words: str = ""
    because: tuple[Notice, ...] = ()


@dataclasses.dataclass(frozen=True, kw_only=True)
class Head:
    """What stands above the rows: cut as written, mass [kg], thickness [m], pit band [°C], intended wrap."""

    cut: str | None = None
    mass_kg: float | None = None
    thickness_m: float | None = None
    pit_c: tuple[float, float] | None = None
    wrap: Wrap | None = None


@dataclasses.dataclass(frozen=True, kw_only=True)
class Row:
    """One row: minutes since meat on (negative before it), core and pit [°C], events."""

    line: int
    minute: float
    core_c: float | None
    pit_c: float | None
    events: tuple[Event, ...]


@dataclasses.dataclass(frozen=True, kw_only=True)
class Log:
    """A past cook: its head, its rows in time order, its unit of temperature ("F" or "C") and what was not used.

    `on_at` is the wall time of meat on, in the zone of the log or in none; None when the log counts minutes.
    """

    head: Head
    rows: tuple[Row, ...]
    unit: str
    on_at: dt.datetime | None = None
    notices: tuple[Notice, ...] = ()

    @property
    def skipped(self) -> int:
        """How many rows were malformed."""
        return len({notice.line for notice in self.notices if notice.trouble in SKIPS})
