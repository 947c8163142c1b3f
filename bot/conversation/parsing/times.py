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

LONGEST_SPAN_MIN = 48 * 60.0
"""Longer spans are not times of a cook [min]."""
CLOCK_SLACK = dt.timedelta(minutes=5)
"""How far ahead of the sender's own clock a time "in the past" may lie: watches differ."""


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


NUMBER_WORDS = {
    "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9, "ten": 10,
    "eleven": 11, "twelve": 12, "fifteen": 15, "twenty": 20, "thirty": 30, "forty": 40, "forty-five": 45, "fifty": 50,
}  # fmt: skip
_WORD = "|".join(sorted(NUMBER_WORDS, key=len, reverse=True))
_HOURS = r"(?:hours?|hrs?|h|stunden?|std|horas?|heures?)"
_MINUTES = r"(?:minutes?|mins?|minuten?|minutos?|m|mn)"
_SPAN = (
    r"(?:(?P<half>half an? (?:hour|hr|h)\b|half hour|(?:eine? )?halbe stunde|media hora|(?:une )?demi[- ]heure)"
    r"|(?P<hourhalf>(?:an? |1 |one )?hour and a half)"
    r"|(?P<quarter>(?:a )?quarter (?:of an )?hour|viertelstunde|(?:un )?cuarto de hora|(?:un )?quart d'heure)"
    rf"|(?P<h>[0-9]{{1,2}}(?:[.,][0-9]{{1,2}})?|{_WORD}|an?|eine|una|une|(?:a )?couple(?: of)?) ?{_HOURS}"
    rf"(?: ?(?:and )?(?P<hm>[0-9]{{1,2}}) ?{_MINUTES}?| and (?P<ahalf>a half))?"
    rf"|(?P<m>[0-9]{{1,3}}(?:[.,][0-9])?|{_WORD}|an?|eine|(?:a )?couple(?: of)?|(?:a )?few) ?{_MINUTES})(?![a-z0-9])"
)
_BARE = rf"(?P<m>[0-9]{{1,2}}|120|{_WORD})(?![a-z0-9%°]|[.,:/][a-z0-9])(?! ?(?:f|c|kg|lbs?|deg|degrees|grad|am|pm|racks?)\b)"
_ABOUT = r"(?:(?:about|around|like|maybe|roughly|ca\.?|etwa|another|at least) )*"
_AGO = tuple(
    map(
        re.compile,
        (
            rf"\b{_SPAN}(?: or so)? ?(?:ago|back)\b",
            rf"\b(?:vor|hace|il y a) {_ABOUT}{_SPAN}",
            rf"\b{_BARE} ago\b",
            r"\b(?P<now>just now|right now|just this minute)\b",
        ),
    )
)
_AHEAD_LEAD = (
    r"(?:in|within|gimme|give me|give it|giving it|give us|needs?|wants?|wait|another|noch|encore|otros?|dans|snooze"
    r"|for another|remind me in|ask me in|ask again in|check back in)"
)
_AHEAD = tuple(
    map(
        re.compile,
        (
            rf"\b{_AHEAD_LEAD} {_ABOUT}{_SPAN}(?: more\b)?",
            r"(?<!probe )(?<!probes )(?<!probe's )(?<!slides )(?<!sliding )(?<!slid )(?<!goes )(?<!meat )(?<!meat's )"
            rf"(?<!it's )(?<!is )(?<!are )\b{_AHEAD_LEAD} {_ABOUT}{_BARE}(?: more\b)?",
            rf"\b{_SPAN} (?:more|longer|to go)\b",
            rf"\b(?P<m>[0-9]{{1,3}}|{_WORD}) more(?: {_MINUTES}| (?P<hours>{_HOURS}))?(?! ?[a-z0-9])",
        ),
    )
)
_ALONE = (re.compile(rf"\b{_SPAN}"),)

_LEAD = r"(?:\b(?:at|since|by|until|till|til|um|gegen|ab|seit|from|before|around|about|a las|desde|vers|depuis)\b|@) ?"
_HALF_OF_DAY = r"(?: ?(?P<half>a\.?m\b\.?|p\.?m\b\.?))"
_CLOCKS = (
    re.compile(rf"(?:{_LEAD})?\b(?P<h>[0-9]{{1,2}})(?::|h)(?P<m>[0-9]{{2}})(?![0-9]){_HALF_OF_DAY}?(?: uhr)?"),
    re.compile(
        rf"(?:{_LEAD})?\b(?P<h>[0-9]{{1,2}})(?:[.](?P<m>[0-9]{{2}}))?(?:{_HALF_OF_DAY}| ?(?:uhr|o'?clock)\b)(?: (?P<uhr>[0-9]{{2}})\b)?"
    ),
    re.compile(rf"{_LEAD}(?P<h>[0-9]{{1,2}})[.](?P<m>[0-9]{{2}})(?![0-9])"),
    re.compile(rf"{_LEAD}(?P<hhmm>[0-9]{{4}})(?![0-9]|[.,][0-9])"),
    re.compile(r"\b(?P<hhmm>[0-9]{4})(?= (?:at the )?latest\b| sharp\b| hrs\b)"),
    re.compile(
        r"(?:\b(?:at|since|by|um|until|till|a las|desde)\b|@) ?(?P<three>[0-9]{{3}})(?![0-9°]|[.,/][0-9]|-[0-9]| ?(?:[cf]|deg|kg)\b|ish)"
    ),
    re.compile(
        rf"{_LEAD}(?P<h>(?:[01]?[0-9]|2[0-4]))(?![0-9°%]|[.,:/][0-9]|-[0-9]| ?(?:[cf]|kg|lbs?|deg|min|mins|ish|to [0-9]|or [0-9])\b)(?P<plain>)"
    ),
    re.compile(
        rf"\b(?:at|since|by|around) (?P<hw>{_WORD})(?: (?P<mw>fifteen|thirty|forty-five))?\b(?! (?:min|hour|degrees))"
    ),
    re.compile(
        rf"(?:{_LEAD})?\b(?P<past>quarter|half|five|ten|twenty|[0-9]{{1,2}})(?: min(?:ute)?s?)? (?P<way>past|after|to|til)\b(?: (?P<h>[0-9]{{1,2}}|{_WORD})(?![0-9:]| ?(?:f|c|°)))?"
    ),
    re.compile(rf"(?:{_LEAD})?\b(?P<brit>half) (?P<h>[0-9]{{1,2}}|{_WORD})(?![0-9:]| ?(?:hour|min|kg|lb))"),
    re.compile(rf"(?:{_LEAD})?\b(?P<halb>halb) (?P<h>[0-9]{{1,2}})\b"),
    re.compile(r"(?:at |by )?\b(?P<name>noon|midday|mittags?|mediodia|midi|midnight|mitternacht|medianoche|minuit)\b"),
)
_LATEST = re.compile(r"^\W*(?:at the |the )?(?:latest|spatestens)\b")
_LATEST_BEFORE = re.compile(r"(?:no later than|by|latest(?: at)?|spatestens)\W*$|^by\b")
_MORNING = re.compile(r"\b(?:morning|morgens|fruh)\b")
_EVENING = re.compile(r"\b(?:tonight|last night|evening|afternoon|abends?|nachmittags?)\b")


def find(text: str) -> tuple[When, ...]:
    """Return every time in a tidied text, first to last, none overlapping."""
    found: list[When] = []
    for when in _candidates(text):
        if all(when.end <= other.start or when.start >= other.end for other in found):
            found.append(when)
    return tuple(sorted(found, key=lambda when: when.start))


def _candidates(text: str) -> Iterator[When]:
    for kind, patterns in ((Kind.AGO, _AGO), (Kind.AHEAD, _AHEAD)):
        yield from _spans(text, kind, patterns)
    for pattern in _CLOCKS:
        for match in pattern.finditer(text):
            when = _clock(match, text)
            if when is not None:
                yield when
    yield from _spans(text, Kind.SPAN, _ALONE)


def _spans(text: str, kind: Kind, patterns: tuple[re.Pattern[str], ...]) -> Iterator[When]:
    for pattern in patterns:
        for match in pattern.finditer(text):
            minutes = _minutes(match)
            if minutes <= LONGEST_SPAN_MIN:
                yield When(kind=kind, start=match.start(), end=match.end(), minutes=minutes)


def _count(word: str) -> float:
    special = {"a": 1.0, "an": 1.0, "eine": 1.0, "una": 1.0, "une": 1.0, "couple": 2.0, "few": 5.0}
    last = word.removesuffix(" of").split()[-1]
    if last in special:
        return special[last]
    return float(NUMBER_WORDS[last]) if last in NUMBER_WORDS else float(last.replace(",", "."))


def _minutes(match: re.Match[str]) -> float:
    said = {name: words for name, words in match.groupdict().items() if words}
    for name, minutes in (("now", 0.0), ("half", 30.0), ("hourhalf", 90.0), ("quarter", 15.0)):
        if name in said:
            return minutes
    if "h" in said:
        return _count(said["h"]) * 60.0 + (float(said["hm"]) if "hm" in said else 30.0 if "ahalf" in said else 0.0)
    return _count(said["m"]) * (60.0 if "hours" in said else 1.0)


def _clock(match: re.Match[str], text: str) -> When | None:
    said = match.groupdict()
    hour, minute, exact = _hour_and_minute(said)
    if minute is None or minute > 59 or (hour is not None and hour > 24):
        return None
    hour, exact = _half_of_day(hour, exact, said.get("half"), text)
    after, before = text[match.end() :], text[: match.start()]
    return When(
        kind=Kind.CLOCK, start=match.start(), end=match.end(), hour=hour, minute=minute, exact=exact,
        latest=bool(_LATEST.search(after) or _LATEST_BEFORE.search(before) or _LATEST_BEFORE.search(match.group())),
        compact=bool(said.get("three")), plain="plain" in said,
    )  # fmt: skip


def _hour_and_minute(said: dict[str, str | None]) -> tuple[int | None, int | None, bool]:
    """Return hour, minute (None: no time after all) and whether the hour has only one meaning."""
    if digits := said.get("hhmm") or said.get("three"):
        hour, minute = int(digits[:-2]), int(digits[-2:])
        return hour, minute, len(digits) == 4  # noqa: PLR2004 (four figures are the 24-hour clock)
    if name := said.get("name"):
        return (0 if name in ("midnight", "mitternacht", "medianoche", "minuit") else 12), 0, True
    typed = said.get("h") or said.get("hw")
    hour_said = None if typed is None else int(_count(typed))
    if past := said.get("past"):
        return _past_the_hour(hour_said, past, said.get("way") or "past")
    if hour_said is None:
        return None, None, False
    if said.get("brit"):
        return hour_said, 30, hour_said > 12
    if said.get("halb"):
        return (hour_said - 1) % 24, 30, hour_said > 13
    minute_said = said.get("m") or said.get("uhr") or said.get("mw")
    minute = 0 if minute_said is None else int(_count(minute_said))
    exact = hour_said > 12 or hour_said == 0 or bool(typed and typed.startswith("0"))
    return hour_said, minute, exact


def _past_the_hour(hour: int | None, past: str, way: str) -> tuple[int | None, int | None, bool]:
    minute = {"quarter": 15, "half": 30}.get(past) or int(_count(past))
    if way in ("to", "til"):
        if hour is None and past != "quarter":
            return None, None, False  # "165 to", "5 to": no hour, no time
        return (None if hour is None else (hour - 1) % 24), 60 - minute, hour is not None and hour > 12
    return hour, minute, hour is not None and hour > 12


def _half_of_day(hour: int | None, exact: bool, half: str | None, text: str) -> tuple[int | None, bool]:  # noqa: FBT001
    if hour is None or exact or not 1 <= hour <= 12:
        return (0 if hour == 24 else hour), exact
    morning = half.startswith("a") if half else bool(_MORNING.search(text))
    evening = half.startswith("p") if half else bool(_EVENING.search(text))
    if morning == evening:
        return hour, False
    return (hour % 12 if morning else hour % 12 + 12), True


def walls(when: When, day: dt.date) -> list[dt.datetime]:
    """Return the wall times that a clock time can mean on this day, earliest first."""
    if when.hour is None:
        hours = list(range(24))
    elif when.exact or not 1 <= when.hour <= 12:
        hours = [when.hour]
    else:
        hours = sorted({when.hour % 12, when.hour % 12 + 12})
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


def future(when: When, now: dt.datetime, zone: str) -> dt.datetime:
    """Return the nearest future instant (UTC) of a time."""
    if when.kind is not Kind.CLOCK:
        return now + dt.timedelta(minutes=when.minutes)
    return min(at for at in instants(when, now, zone) if at > now)
