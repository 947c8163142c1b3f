"""Times, spans, temperatures and masses as people read them: the only place that rounds.

Formats only; converts from UTC and Celsius at the last moment.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
from zoneinfo import ZoneInfo

from bot.messages.language import number, short_date, weekday
from bot.messages.words import SOURCE_LANGUAGE, _
from scheduler.planning.outlook import Window
from scheduler.safety.limits import LIMITS, MINIMUMS
from scheduler.units import f_from_c

_ONE_VALUE_C = 0.5
"""A band narrower than this is one value [°C]."""

_TENTH = 0.1
_WEEK = 6
"""Farther than this many days a weekday alone does not name the day."""

_ROUND_FROM_MIN = 10
"""Spans above this are rounded to five minutes."""

PUBLISHED = {figure.c: figure.value for limit in LIMITS for figure in limit.figures if figure.unit == "F"}
"""Published limits: as compared [°C] -> as published [°F]."""

_LEAST = tuple(figure.c for limit in MINIMUMS for figure in limit.figures if figure.unit == "F")

_HOUR_MIN = 60
_DAYS_FROM_H = 48
"""Spans from this on are told in days."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Voice:
    """How to speak in one room: its clock, its unit, its language, and the present instant (UTC)."""

    zone: str
    unit: str
    now: dt.datetime
    language: str = SOURCE_LANGUAGE

    def clock(self, at: dt.datetime) -> str:
        """Return a time of day, with the weekday unless it is today."""
        local, today = at.astimezone(ZoneInfo(self.zone)), self.now.astimezone(ZoneInfo(self.zone)).date()
        if local.date() == today:
            return local.strftime("%H:%M")
        return f"{self._weekday(local)} {local:%H:%M}"

    def about(self, at: dt.datetime) -> str:
        """Return a forecast time, rounded to five minutes: no forecast is better than that."""
        return self.clock(to_five(at))

    def by(self, at: dt.datetime) -> str:
        """Return a limit, rounded down to five minutes: a limit is never told later than it is."""
        five = dt.timedelta(minutes=5)
        return self.clock(at - (at - dt.datetime.fromtimestamp(0, dt.UTC)) % five)

    def window(self, window: Window) -> str:
        """Return a forecast window, such as "15:10 to 16:40"."""
        early = _("?") if window.early is None else self.about(window.early)
        late = _("later than I can see") if window.late is None else self._after(window.early, window.late)
        return _("{early} to {late}").format(early=early, late=late)

    def _after(self, early: dt.datetime | None, late: dt.datetime) -> str:
        """Return the end of a window, without the weekday when it is the same day as its beginning."""
        text = self.about(late)
        if early is None:
            return text
        zone = ZoneInfo(self.zone)
        same_day = early.astimezone(zone).date() == late.astimezone(zone).date()
        return text.split()[-1] if same_day else text

    def temp(self, temp_c: float, *, fine: bool = False) -> str:
        """Return a temperature in the unit of the room: whole degrees, or tenths near a limit."""
        value = f_from_c(temp_c) if self.unit == "F" else temp_c
        digits = 1 if fine and abs(value - round(value)) >= _TENTH / 2 else 0
        return in_unit(number(value, f".{digits}f"), self.unit)

    def limit(self, limit_c: float) -> str:
        """Return a limit in the unit of the room: in Fahrenheit as it was published, never converted back to tenths."""
        return in_unit(number(limit_f(limit_c) if self.unit == "F" else round(limit_c, 1)), self.unit)

    def target(self, temp_c: float) -> str:
        """Return the core at which meat is done; where the catalogue means a published minimum, that minimum."""
        near = [c for c in _LEAST if 0 <= temp_c - c < 1] if self.unit == "F" else []
        return self.limit(max(near)) if near else self.temp(temp_c)

    def read(self, temp_c: float) -> str:
        """Return a reading: whole degrees, tenths where rounding would put it on a limit that it is under."""
        value = f_from_c(temp_c) if self.unit == "F" else temp_c
        limits = PUBLISHED.values() if self.unit == "F" else PUBLISHED.keys()
        near = any(value < limit <= round(value) for limit in limits)
        return self.temp(temp_c, fine=near)

    def band(self, low_c: float, high_c: float) -> str:
        """Return a pit band, such as "250 to 275 F", or its one value."""
        if abs(low_c - high_c) < _ONE_VALUE_C:
            return self.temp(low_c)
        return _("{low} to {high}").format(low=self.temp(low_c).split()[0], high=self.temp(high_c))

    def is_round(self, temp_c: float) -> bool:
        """Return whether a temperature is a whole degree in the unit of the room."""
        value = f_from_c(temp_c) if self.unit == "F" else temp_c
        return abs(value - round(value)) < _TENTH / 2

    def between(self, low_c: float, high_c: float) -> str:
        """Return a span such as "145 to 150 F", with tenths where an end has them: never rounded over a limit."""
        return _("{low} to {high}").format(low=self.bare(low_c), high=self.temp(high_c, fine=True))

    def bare(self, temp_c: float) -> str:
        """Return a temperature without its unit, with tenths where it has them: the first of two."""
        value = f_from_c(temp_c) if self.unit == "F" else temp_c
        return number(value, f".{0 if self.is_round(temp_c) else 1}f")

    def day(self, date: dt.date) -> str:
        """Return a day with its date, such as "Sat 5 Dec"."""
        return short_date(date)

    def _weekday(self, local: dt.datetime) -> str:
        far = abs((local.date() - self.now.astimezone(ZoneInfo(self.zone)).date()).days) > _WEEK
        return self.day(local.date()) if far else weekday(local.date())


def both(temp_c: float) -> str:
    """Return a temperature in both units, such as "145 F (62.8 C)": the published Fahrenheit first."""
    fahrenheit = f_from_c(temp_c)
    digits = 1 if abs(temp_c - round(temp_c)) > _TENTH / 2 else 0
    return _("{f:.0f} F ({c:.{digits}f} C)").format(f=PUBLISHED.get(temp_c, fahrenheit), c=temp_c, digits=digits)


def limit_f(limit_c: float) -> float:
    """Return a limit in Fahrenheit [°F]: the published figure; of a house rule's the whole degree."""
    return PUBLISHED.get(round(limit_c, 1), float(round(f_from_c(limit_c))))


def exactly(temp_c: float) -> str:
    """Return a temperature that somebody wishes, in both units with tenths: never rounded onto a limit."""
    return _("{f} F ({c} C)").format(f=number(round(f_from_c(temp_c), 1)), c=number(round(temp_c, 1)))


def in_unit(figure: str, unit: str) -> str:
    """Return a written number with its unit, "F" or "C", such as "178 F"."""
    return (_("{figure} F") if unit == "F" else _("{figure} C")).format(figure=figure)


def to_five(at: dt.datetime) -> dt.datetime:
    """Return an instant rounded to five minutes."""
    seconds = dt.timedelta(minutes=5).total_seconds()
    return dt.datetime.fromtimestamp(round(at.timestamp() / seconds) * seconds, dt.UTC)


def span(length: dt.timedelta) -> str:
    """Return a length of time, such as "1 h 10 min", from 10 minutes on rounded to five."""
    minutes = round(abs(length) / dt.timedelta(minutes=1))
    if minutes > _ROUND_FROM_MIN:
        minutes = 5 * round(minutes / 5)
    hours, rest = divmod(minutes, 60)
    if hours >= _DAYS_FROM_H:
        return _("{days} days").format(days=round(hours / 24))
    if hours == 0:
        return _("{minutes} min").format(minutes=rest)
    return (
        _("{hours} h").format(hours=hours)
        if rest == 0
        else _("{hours} h {minutes} min").format(hours=hours, minutes=rest)
    )


def held_for(minutes: float) -> str:
    """Return the time that belongs to a minimum temperature: below a minute in seconds."""
    if minutes < 1:
        return _("{seconds:.0f} s").format(seconds=60 * minutes)
    return _("{minutes:g} min").format(minutes=minutes)


def at_most(minutes: float) -> str:
    """Return a limit of time: in hours and tenths, below one hour in minutes."""
    if minutes < _HOUR_MIN:
        return _("{minutes:.0f} min").format(minutes=minutes)
    return _("{hours:g} h").format(hours=round(minutes / _HOUR_MIN, 1))


def charcoal(low_kg: float, high_kg: float) -> str:
    """Return how much charcoal it may be, wherever it is said: the high end up to half a kilogram."""
    return _("{low} to {high}").format(low=f"{low_kg:.0f}", high=half_kilos(high_kg))


def half_kilos(mass_kg: float) -> str:
    """Return a mass of charcoal rounded up to half a kilogram."""
    return kilograms(-(-mass_kg * 2 // 1) / 2)


def kilograms(mass_kg: float) -> str:
    """Return a mass in kilograms."""
    return _("{mass:g} kg").format(mass=round(mass_kg, 2))
