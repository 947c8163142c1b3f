"""Finds times in a tidied text ("on at 2:15", "half an hour ago", "in 20") and sets them on the clock of the cook.

It says where and what, in minutes or wall time; whether a step was done then is for others to decide.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
import re
from collections.abc import Iterator
from enum import StrEnum
from zoneinfo import ZoneInfo

from bot.conversation.parsing import time_words as words

LONGEST_SPAN_MIN = 48 * 60.0
"""Longer spans are not times of a cook [min]."""
LONG_PUT_OFF_MIN = 6 * 60.0
"""Nobody asks to be asked again so much later than that, where a nearer hour is meant as well: house rule [min]."""
AHEAD_SLACK = dt.timedelta(minutes=15)
"""A thing "done" so little ahead is meant for then, and not for half a day ago."""
SURE_AHEAD, OPEN_AHEAD = 1.5, 0.5
"""So much farther ahead than behind a time may lie and still be taken as one to come, by whether "pm" is sure."""
CLOCK_SLACK = dt.timedelta(minutes=5)
"""How far ahead of the sender's own clock a time "in the past" may lie: watches differ."""
NOON = 12
LAST_HOUR = 24
LAST_MINUTE = 59
_FOUR_FIGURES = 4


class Kind(StrEnum):
    """What sort of time was said."""

    CLOCK = "clock"
    AGO = "ago"
    AHEAD = "ahead"
    SPAN = "span"
    """So many minutes, without a direction."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class When:
    """One time in a text, at `start:end`. `minutes` for spans; `hour` None is "this hour" ("quarter past")."""

    kind: Kind
    start: int
    end: int
    minutes: float = 0.0
    hour: int | None = None
    minute: int = 0
    exact: bool = False
    """True when the hour is on the 24-hour clock and has no second meaning."""
    latest: bool = False
    compact: bool = False
    """True for three figures after "at": it may as well be a temperature."""
    plain: bool = False
    """True for one or two figures after "at"."""
    until: bool = False
    """True for "till 4": an end, not when something was."""
    half_to_or_past: bool = False
    """True for "half 7", which is 7:30 to some and 6:30 to others."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class _Clock:
    hour: int | None
    minute: int
    exact: bool = False


def find(text: str) -> tuple[When, ...]:
    """Return every time in a tidied text, first to last, none overlapping."""
    found: list[When] = []
    for when in _candidates(text):
        if all(when.end <= other.start or when.start >= other.end for other in found):
            found.append(when)
    return tuple(sorted(found, key=lambda when: when.start))


def _candidates(text: str) -> Iterator[When]:
    for kind, patterns in ((Kind.AGO, words.AGO), (Kind.AHEAD, words.AHEAD)):
        yield from _spans(text, kind, patterns)
    for pattern in words.CLOCKS:
        for match in pattern.finditer(text):
            when = _clock(match, text)
            if when is not None:
                yield when
    yield from _spans(text, Kind.SPAN, words.ALONE)


def _spans(text: str, kind: Kind, patterns: tuple[re.Pattern[str], ...]) -> Iterator[When]:
    for pattern in patterns:
        for match in pattern.finditer(text):
            minutes = _minutes(match)
            if minutes <= LONGEST_SPAN_MIN:
                yield When(kind=kind, start=match.start(), end=match.end(), minutes=minutes)


def count(word: str) -> float:
    """Return the number that a figure or a number word stands for ("a couple of" is two, "a few" is five)."""
    special = {"a": 1.0, "an": 1.0, "eine": 1.0, "una": 1.0, "une": 1.0, "couple": 2.0, "few": 5.0}
    last = word.removesuffix(" of").split()[-1]
    if last in special:
        return special[last]
    return float(words.NUMBER_WORDS[last]) if last in words.NUMBER_WORDS else float(last.replace(",", "."))


def _minutes(match: re.Match[str]) -> float:
    said = {name: typed for name, typed in match.groupdict().items() if typed}
    for name, minutes in (("now", 0.0), ("half", 30.0), ("hourhalf", 90.0), ("quarter", 15.0), ("threequarters", 45.0)):
        if name in said:
            return minutes
    if "h" in said:
        return count(said["h"]) * 60.0 + (float(said["hm"]) if "hm" in said else 30.0 if "ahalf" in said else 0.0)
    return count(said["m"]) * (60.0 if "hours" in said else 1.0)


# --- clock times --------------------------------------------------------------------------------------------------
def _clock(match: re.Match[str], text: str) -> When | None:
    said = {name: typed for name, typed in match.groupdict().items() if typed}
    clock = _digits(said) or _named(said) or _past_the_hour(said) or _hour(said)
    if clock is None or clock.minute > LAST_MINUTE or (clock.hour or 0) > LAST_HOUR:
        return None
    after, before = text[match.end() :], text[: match.start()]
    clause = re.split("[,;]", before)[-1] + match.group() + re.split("[,;]", after)[0]
    clock = _half_of_day(clock, said.get("half"), clause)
    return When(
        kind=Kind.CLOCK,
        start=match.start(),
        end=match.end(),
        hour=clock.hour,
        minute=clock.minute,
        exact=clock.exact,
        latest=bool(
            words.LATEST_AFTER.search(after)
            or words.LATEST_BEFORE.search(before)
            or words.LATEST_BEFORE.search(match.group())
        ),
        compact="three" in said,
        plain=match.groupdict().get("plain") is not None,
        until=match.group().startswith(("until", "till", "til ")),
        half_to_or_past="brit" in said,
    )


def _digits(said: dict[str, str]) -> _Clock | None:
    digits = said.get("hhmm") or said.get("three")
    if digits is None:
        return None
    return _Clock(hour=int(digits[:-2]), minute=int(digits[-2:]), exact=len(digits) == _FOUR_FIGURES)


def _named(said: dict[str, str]) -> _Clock | None:
    name = said.get("name") if "past" not in said else None
    return None if name is None else _Clock(hour=0 if name in words.MIDNIGHT else NOON, minute=0, exact=True)


def _past_the_hour(said: dict[str, str]) -> _Clock | None:
    """Return "quarter past", "ten to three", "half 7" (half past) and "halb 7" (half to)."""
    hour = int(count(said["h"])) if "h" in said else None
    late = hour is not None and hour > NOON
    if "brit" in said:
        return _Clock(hour=hour, minute=30, exact=late)
    if "halb" in said and hour is not None:
        return _Clock(hour=(hour - 1) % LAST_HOUR, minute=30, exact=hour > NOON + 1)
    if "past" not in said:
        return None
    if "name" in said:  # "ten to midnight"
        hour, late = LAST_HOUR if said["name"] in words.MIDNIGHT else NOON, True
    minute = {"quarter": 15, "half": 30}.get(said["past"]) or int(count(said["past"]))
    if said["way"] in ("past", "after"):
        return _Clock(hour=None if hour is None else hour % LAST_HOUR, minute=minute, exact=late)
    if hour is None:  # "165 to" and "5 to" are no times, "ten to" is
        return _Clock(hour=None, minute=LAST_MINUTE + 1 if said["past"].isdigit() else 60 - minute)
    return _Clock(hour=(hour - 1) % LAST_HOUR, minute=60 - minute, exact=late)


def _hour(said: dict[str, str]) -> _Clock | None:
    typed = said.get("h") or said.get("hw")
    if typed is None:
        return None
    hour = int(count(typed))
    minute = said.get("m") or said.get("uhr") or said.get("mw")
    return _Clock(
        hour=hour,
        minute=int(count(minute)) if minute else 0,
        exact=hour > NOON or hour == 0 or typed.startswith("0"),
    )


def _half_of_day(clock: _Clock, half: str | None, clause: str) -> _Clock:
    """Return the clock time with its half of the day, where "am", "tonight" or "this morning" says it."""
    if clock.hour is None or clock.exact or not 1 <= clock.hour <= NOON:
        return dataclasses.replace(clock, hour=0) if clock.hour == LAST_HOUR else clock
    morning = half.startswith("a") if half else bool(words.MORNING.search(clause))
    evening = half.startswith("p") if half else bool(words.EVENING.search(clause))
    if morning == evening:
        return clock
    hour = clock.hour % NOON
    return dataclasses.replace(clock, hour=hour if morning else hour + NOON, exact=True)


# --- on the clock of the cook -------------------------------------------------------------------------------------
def walls(when: When, day: dt.date) -> list[dt.datetime]:
    """Return the wall times that a clock time can mean on this day, earliest first."""
    if when.hour is None:
        hours = list(range(LAST_HOUR))
    elif when.exact or not 1 <= when.hour <= NOON:
        hours = [when.hour]
    else:
        hours = sorted({when.hour % NOON, when.hour % NOON + NOON})
    return [dt.datetime.combine(day, dt.time(hour, when.minute)) for hour in hours]


def instants(when: When, now: dt.datetime, zone: str) -> list[dt.datetime]:
    """Return the instants (UTC) within about two days that a clock time can mean, earliest first."""
    place = ZoneInfo(zone)
    today = now.astimezone(place).date()
    found = {
        wall.replace(tzinfo=place, fold=fold).astimezone(dt.UTC)
        for days in (-2, -1, 0, 1, 2)
        for wall in walls(when, today + dt.timedelta(days=days))
        for fold in (0, 1)
    }
    return sorted(found)


def past(when: When, now: dt.datetime, zone: str) -> dt.datetime:
    """Return the nearest past instant (UTC) of a time; a few minutes ahead count as now."""
    if when.kind is not Kind.CLOCK:
        return now - dt.timedelta(minutes=when.minutes)
    return min(max(at for at in instants(when, now, zone) if at <= now + CLOCK_SLACK), now)


def to_come(when: When, now: dt.datetime, zone: str) -> tuple[int, int] | None:
    """Return the hour and minute of a clock time that is rather to come than past, None when it is rather past.

    A time with its half of the day may lie half as far again ahead as behind; one that leaves it open half as far.
    """
    if when.kind is not Kind.CLOCK or when.hour is None:
        return None
    ahead_at = future(when, now, zone)
    ahead, ago = ahead_at - now, now - past(when, now, zone)
    wall = ahead_at.astimezone(ZoneInfo(zone))
    return (wall.hour, wall.minute) if ahead < ago * (SURE_AHEAD if when.exact else OPEN_AHEAD) else None


def deed(when: When, now: dt.datetime, zone: str) -> dt.datetime:
    """Return when something done was (UTC): its nearest past instant, or the one ahead when that is minutes away.

    What lies ahead has not happened; it is returned as it was said, so that it can be refused.
    """
    if when.kind is Kind.CLOCK and when.hour is not None:
        ahead = [at for at in instants(when, now, zone) if now < at <= now + AHEAD_SLACK]
        if ahead:
            return ahead[0]
    return past(when, now, zone)


def future(when: When, now: dt.datetime, zone: str) -> dt.datetime:
    """Return the nearest future instant (UTC) of a time."""
    if when.kind is not Kind.CLOCK:
        return now + dt.timedelta(minutes=when.minutes)
    return min(at for at in instants(when, now, zone) if at > now)
