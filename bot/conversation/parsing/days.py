"""Reads which day is said: a weekday, a date, "tomorrow", or a weekday with its date ("Saturday 5 December").

It takes the nearest day to come; a weekday that contradicts its date, and "4/5", which may be two days, it leaves open.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
import re

from bot.conversation.parsing import times

WEEK = 7
"""Days."""
_NAMES = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
_MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
_MONTH = (
    r"(?:jan(?:uary)?|feb(?:ruary)?|mar(?:ch)?|apr(?:il)?|may|june?|july?|aug(?:ust)?|sept?(?:ember)?|oct(?:ober)?"
    r"|nov(?:ember)?|dec(?:ember)?)\.?"
)
_TH = r"(?:st|nd|rd|th)"
_DAY = re.compile(
    r"\b(?:(?P<yesterday>^yesterday\b|(?<=[0-9m] )yesterday|yesterday(?= (?:at |around |evening )*[0-9]))"
    r"|(?P<today>today|tonight|this evening|this afternoon|heute|hoy|aujourd'hui)"
    r"|(?P<after>day after tomorrow|ubermorgen)|(?P<tomorrow>tomorrow|tmrw|tmr|tmw|tomorow|tommorow|morgen|manana"
    r"|demain)"
    r"|(?P<next>next )?(?P<day>mon(?:day)?|tue(?:s(?:day)?)?|wed(?:nesday|s)?|thu(?:r(?:s(?:day)?)?)?|fri(?:day)?"
    r"|sat(?:urday)?|sun(?:day)?)(?P<week> week)?"
    r"|(?<![0-9/])(?P<one>[0-9]{1,2})/(?P<two>[0-9]{1,2})(?![0-9/])"
    rf"|(?P<iso>20[0-9]{{2}}-[0-9]{{2}}-[0-9]{{2}})|(?:the )?(?P<dom>[0-9]{{1,2}}){_TH}?\.? (?:of )?(?P<mon1>{_MONTH})"
    rf"|(?P<mon2>{_MONTH}) (?:the )?(?P<dom2>[0-9]{{1,2}}){_TH}?(?![:.][0-9])"
    r"|(?P<feast>new year's eve|new year's day|christmas eve|boxing day|christmas(?: day)?|independence day|halloween)"
    r"|(?P<moves>easter(?: sunday| monday)?|good friday|thanksgiving|labou?r day|memorial day|(?:fa|mo)ther's day)"
    rf"|the (?P<nth>[0-9]{{1,2}}){_TH})(?![a-z0-9])"
)
_FEASTS = {
    "new year's eve": (31, 12), "new year's day": (1, 1), "christmas eve": (24, 12), "christmas": (25, 12),
    "christmas day": (25, 12), "boxing day": (26, 12), "independence day": (4, 7), "halloween": (31, 10),
}  # fmt: skip
"""Days of fixed date (day, month); those that move are named as unusable, so that their date is asked for."""
_BESIDE = re.compile(r"[\s,.(]*(?:(?:at )?[0-9]{1,2}(?:[:.][0-9]{2}(?: ?[ap]m)?| ?[ap]m)[\s,.(]+)?(?:(?:the|on)\s)*")
"""What may stand between a weekday and its date: small words, and the time."""
_CLOCK_LIKE = re.compile(r"(?<![0-9:./])(?P<hour>[0-9]{1,2}):(?P<minute>[0-9]{2})(?![0-9:])")


@dataclasses.dataclass(frozen=True, kw_only=True)
class DaySaid:
    """A day that was said at `start:end`: the dates it can mean. With several it is open which; with none no such day
    comes.
    """

    start: int
    end: int
    dates: tuple[dt.date, ...]

    @property
    def date(self) -> dt.date | None:
        """Return the day, the first where it is open which."""
        return self.dates[0] if self.dates else None


def days_said(heard: str, today: dt.date) -> tuple[DaySaid, ...]:
    """Return every day in a tidied text, first to last; a weekday beside its date is one day with it."""
    found: list[DaySaid] = []
    for match in _DAY.finditer(heard):
        here = DaySaid(start=match.start(), end=match.end(), dates=_dates(match, today))
        if match["day"]:
            nth = re.match(rf"[ ,]*(?:the )?(?P<nth>[0-9]{{1,2}}){_TH}\b(?! (?:of )?{_MONTH}\b)", heard[match.end() :])
            if nth:
                date = DaySaid(start=here.end, end=here.end + nth.end(), dates=_nth(int(nth["nth"]), today))
                here = _together(match["day"], here, date, today)
        before = found[-1] if found and _beside(heard, found[-1], here) else None
        weekday = None if before is None else _weekday(heard, before)
        if before is not None and weekday is not None and _is_date(match):
            found[-1] = _together(weekday, before, here, today)
        elif before is not None and match["day"] and _date_words(heard, before):
            found[-1] = _together(match["day"], here, before, today)
        else:
            found.append(here)
    return tuple(found)


def impossible(heard: str, today: dt.date) -> tuple[tuple[int, int], ...]:
    """Return the spans of dates that no calendar and of times that no clock has ("31/9", "31 feb", "25:00")."""
    spans = [
        found.span()
        for found in _CLOCK_LIKE.finditer(heard)
        if int(found["hour"]) > times.LAST_HOUR or int(found["minute"]) > times.LAST_MINUTE
    ]
    return (*spans, *((day.start, day.end) for day in days_said(heard, today) if not day.dates))


def coming(day: int, month: int, today: dt.date) -> dt.date | None:
    """Return the next such day from today on, or None when no year has it."""
    for year in (today.year, today.year + 1, *range(today.year + 2, today.year + 9)):
        try:
            date = dt.date(year, month, day)
        except ValueError:  # this year has no such day; a leap year may
            continue
        if date >= today:
            return date
    return None


def _together(weekday: str, said: DaySaid, date_said: DaySaid, today: dt.date) -> DaySaid:
    """Return a weekday and a date as one day: the date that is such a weekday, or where none is, the date and the
    nearest such weekday to it.
    """
    index = _index(weekday)
    dates = tuple(date for date in date_said.dates if date.weekday() == index)
    if date_said.dates and not dates:
        date = date_said.dates[0]
        behind = (date.weekday() - index) % WEEK
        near = date - dt.timedelta(days=behind if behind <= WEEK // 2 else behind - WEEK)
        dates = (date, near if near >= today else near + dt.timedelta(days=WEEK))
    return DaySaid(start=min(said.start, date_said.start), end=max(said.end, date_said.end), dates=dates)


def _weekday(heard: str, said: DaySaid) -> str | None:
    """Return the weekday that is all a day was said with."""
    found = _DAY.fullmatch(heard[said.start : said.end])
    return found["day"] if found and found["day"] and not found["week"] else None


def _date_words(heard: str, said: DaySaid) -> bool:
    found = _DAY.fullmatch(heard[said.start : said.end])
    return found is not None and _is_date(found)


def _is_date(found: re.Match[str]) -> bool:
    return any(found[name] for name in ("one", "iso", "mon1", "mon2", "nth", "feast"))


def _beside(heard: str, before: DaySaid, after: DaySaid) -> bool:
    return _BESIDE.fullmatch(heard[before.end : after.start]) is not None


def _index(weekday: str) -> int:
    return next(i for i, name in enumerate(_NAMES) if name.startswith(weekday[:3]))


def _dates(day: re.Match[str], today: dt.date) -> tuple[dt.date, ...]:
    if day["today"]:
        return (today,)
    if day["yesterday"]:
        return (today - dt.timedelta(days=1),)
    if day["tomorrow"] or day["after"]:
        return (today + dt.timedelta(days=1 if day["tomorrow"] else 2),)
    if day["day"]:
        ahead = (_index(day["day"]) - today.weekday()) % WEEK
        later = bool(day["week"]) or bool(day["next"] and ahead == 0)
        return (today + dt.timedelta(days=ahead + (WEEK if later else 0)),)
    if day["one"]:
        return _numeric(int(day["one"]), int(day["two"]), today)
    if day["moves"]:
        return ()
    if day["feast"]:
        feast = coming(*_FEASTS[day["feast"]], today)
        return () if feast is None else (feast,)
    if day["nth"]:
        return _nth(int(day["nth"]), today)
    try:
        if day["iso"]:
            return (dt.date.fromisoformat(day["iso"]),)
    except ValueError:  # no such date: it is named as unusable
        return ()
    month = _MONTHS.index((day["mon1"] or day["mon2"])[:3]) + 1
    date = coming(int(day["dom"] or day["dom2"]), month, today)
    return () if date is None else (date,)


def _nth(day: int, today: dt.date) -> tuple[dt.date, ...]:
    """Return "the 5th" to come."""
    found = [date for month in range(1, 13) if (date := coming(day, month, today)) is not None]
    return (min(found),) if found else ()


def _numeric(one: int, two: int, today: dt.date) -> tuple[dt.date, ...]:
    """Return the dates of "13/9" or "9/13"; where both orders are dates, the one that comes within a fortnight."""
    dates = sorted({date for date in (coming(one, two, today), coming(two, one, today)) if date is not None})
    soon = tuple(date for date in dates if date - today <= dt.timedelta(days=2 * WEEK))
    return soon if len(soon) == 1 else tuple(dates)
