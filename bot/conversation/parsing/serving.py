"""Reads when people eat: a time, a window, a day, or "when ready", as wall time in the zone of the cook.

It takes the nearest future meal; whether that is possible, the engine judges.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
import re
from collections.abc import Callable
from zoneinfo import ZoneInfo

from bot.commands import Intent, PieceDraft, Unclear
from bot.conversation.context import Context
from bot.conversation.parsing import days, times
from bot.conversation.parsing.words import phrases
from scheduler.facts import Serving, ServingKind

TWO_FIGURES = 2
MEAL_FROM = dt.time(11, 0)
MEAL_UNTIL = dt.time(22, 0)
"""People eat between these, unless they say otherwise (common practice, no source)."""
USUAL_LUNCH = dt.time(13, 0)
USUAL_DINNER = dt.time(18, 0)
"""Meals named without a time; the time is shown back and can be changed (common practice, no source)."""

_READY = phrases(
    (
        r"\b(?:when(?:ever)?|once|as soon as) (?:it(?:'s| is)?|they(?:'re| are)?|the meat(?:'s"
        r"| is)?|meat is)? ?(?:is |are |'s )?(?:ready|done|finished|good|tender)\b"
    ),
    r"\bwhenever\b",
    r"\bno (?:fixed |set )?(?:time|rush|hurry)\b",
    (r"\b(?:any time|anytime|no idea when|open end|flexible|wenn (?:es )?fertig|cuando este|quand c'est pret)\b"),
    "^ready$",
)
_CLOCK = r"(?:[0-9]{1,2}(?:[:.h][0-9]{2})?|[0-9]{4})"
_HALF = r"(?: ?(?:a\.?m\b\.?|p\.?m\b\.?|uhr|o'?clock))?"
_WINDOW = re.compile(
    rf"\b(?:between |from |zwischen |von |entre )?(?P<start>{_CLOCK})(?P<start_half>{_HALF}) ?"
    r"(?:-|to\b|til(?:l)?\b|until\b|and\b|or\b|bis\b|und\b|y\b|et\b"
    rf"|a\b) ?(?P<end>{_CLOCK})(?P<end_half>{_HALF})(?![0-9:]| ?(?:kg|kilos?|lbs?|pounds?|f\b"
    r"|c\b|°|h\b|hours?|min|deg|racks?))"
)
_MEAL = re.compile(r"\b(?:(?P<lunch>lunch(?:time)?)|dinner(?:time)?|supper|evening)\b")
_BARE_HOUR = re.compile(
    "(?<![0-9.,:])(?:(?P<hour>[0-9]{1,2}|[0-9]{4})|(?P<h>[0-9]{1,2})[.](?P<m>[0-5][0-9]))"
    r"(?![0-9%°]|[.,:][0-9]|-[0-9]| ?(?:kg|kilos?|lbs?|pounds?|f|c|deg|racks?|hours?|h|min\w*|x)\b)"
)


@dataclasses.dataclass(frozen=True, kw_only=True)
class Said:
    """A serving that was said, and the spans of the text that said it; `other` is the same on the other day that may
    be meant, where the weekday contradicts the date.
    """

    serving: Serving
    spans: tuple[tuple[int, int], ...]
    other: Serving | None = None


def serving_said(heard: str, context: Context, *, bare_hours: bool = False) -> Said | None:
    """Return when people eat as a tidied text says it, or None. `bare_hours`: a plain "6" is a time."""
    day = next(iter(days.days_said(heard, _wall(context.now, context).date())), None)
    said = _on_day(heard, context, day, bare_hours=bare_hours)
    if said is None or day is None or len(day.dates) < TWO_FIGURES or said.serving.start is None:
        return said
    second = dataclasses.replace(day, dates=day.dates[1:])
    other = _on_day(heard, context, second, bare_hours=bare_hours)
    return said if other is None else dataclasses.replace(said, other=other.serving)


def _on_day(heard: str, context: Context, day: days.DaySaid | None, *, bare_hours: bool) -> Said | None:
    """Return when people eat on a day that was said, or on none."""
    if ready := _READY.search(heard):
        return Said(serving=Serving(kind=ServingKind.WHEN_READY, zone=context.zone), spans=(ready.span(),))
    date = day.date if day else None
    day_spans = ((day.start, day.end),) if day and date else ()
    rest = heard if not day else heard[: day.start] + " " * (day.end - day.start) + heard[day.end :]
    for window in _WINDOW.finditer(rest):
        serving = _window(window, date, context)
        if serving is not None:
            return Said(serving=serving, spans=(window.span(), *day_spans))
    whens = [when for when in times.find(heard) if when.kind is times.Kind.CLOCK and not when.compact]
    if not whens and (bare_hours or day_spans):
        whens = [when for found in _BARE_HOUR.finditer(rest) if (when := _bare(found)) is not None]
    if whens:
        start = _nearest(whens[-1], date, context)
        return Said(serving=_at(start, context), spans=((whens[-1].start, whens[-1].end), *day_spans))
    ahead = [when for when in times.find(heard) if when.kind is times.Kind.AHEAD]
    if ahead:
        start = _wall(context.now + dt.timedelta(minutes=ahead[0].minutes), context)
        return Said(serving=_at(start, context), spans=((ahead[0].start, ahead[0].end),))
    meal = _MEAL.search(rest) if date or bare_hours else None
    if date is None and (meal is None or context.setup_slot != "serving"):
        return None
    usual = USUAL_LUNCH if meal and meal["lunch"] else USUAL_DINNER
    start = dt.datetime.combine(date or _wall(context.now, context).date(), usual)
    return Said(serving=_at(start, context), spans=(*day_spans, *((meal.span(),) if meal else ())))


def which_day(text: str, servings: tuple[Serving, ...], meaning: Callable[[Serving], Intent]) -> Unclear:
    """Return the question on which of two days people eat; each option has its date as its name."""
    options = tuple((f"{serving.start:%Y-%m-%d}", meaning(serving)) for serving in servings if serving.start)
    return Unclear(question="which_day", text=text, options=options)


def of_pieces(more: tuple[PieceDraft, ...], dinner: Serving | None, heard: str) -> tuple[PieceDraft, ...]:
    """Return the other pieces of a cook, each eaten on its day."""
    return tuple(
        piece
        if piece.serving is None
        else piece.model_copy(update={"serving": on_its_day(piece.serving, dinner, heard)})
        for piece in more
    )


def on_its_day(piece: Serving, dinner: Serving | None, heard: str) -> Serving:
    """Return when one of several pieces is eaten: a clock time without a day of its own is on the day of the dinner.

    `heard` is the whole text; where it names more than one day each time has said its own.
    """
    if (
        piece.start is None
        or dinner is None
        or dinner.start is None
        or len(days.days_said(heard, piece.start.date())) > 1
    ):
        return piece
    later = dt.datetime.combine(dinner.start.date(), piece.start.time()) - piece.start
    end = None if piece.end is None else piece.end + later
    return dataclasses.replace(piece, start=piece.start + later, end=end) if later > dt.timedelta() else piece


def impossible(heard: str, context: Context) -> tuple[tuple[int, int], ...]:
    """Return the spans of dates and times that cannot be."""
    return days.impossible(heard, _wall(context.now, context).date())


def days_in(heard: str, context: Context) -> tuple[tuple[int, int], ...]:
    """Return the spans of every day that a tidied text names."""
    return tuple((day.start, day.end) for day in days.days_said(heard, _wall(context.now, context).date()))


def day_ahead(heard: str, context: Context) -> tuple[int, int] | None:
    """Return the span of a day after today that a tidied text names, None when it names none."""
    today = _wall(context.now, context).date()
    found = days.days_said(heard, today)
    return next(((day.start, day.end) for day in found if day.date is not None and day.date > today), None)


def follows_the_meat(heard: str) -> bool:
    """Return True for "when ready" as an answer; "when is it ready?" is a question to the program."""
    return bool(_READY.search(heard)) and "?" not in heard and not re.match(r"when(?:'s| is| will)\b", heard)


def _at(start: dt.datetime, context: Context) -> Serving:
    return Serving(kind=ServingKind.AT, zone=context.zone, start=start)


def _wall(instant: dt.datetime, context: Context) -> dt.datetime:
    return instant.astimezone(ZoneInfo(context.zone)).replace(tzinfo=None, second=0, microsecond=0)


def _bare(found: re.Match[str]) -> times.When | None:
    digits = found["hour"] or f"{int(found['h']):02d}{found['m']}"
    hour, minute = (int(digits), 0) if len(digits) <= TWO_FIGURES else (int(digits[:2]), int(digits[2:]))
    if hour > times.LAST_HOUR or minute > times.LAST_MINUTE:
        return None
    return times.When(
        kind=times.Kind.CLOCK,
        start=found.start(),
        end=found.end(),
        hour=hour % times.LAST_HOUR,
        minute=minute,
        exact=hour > times.NOON or hour == 0 or len(digits) > TWO_FIGURES,
    )


def _nearest(when: times.When, date: dt.date | None, context: Context) -> dt.datetime:
    """Return the wall time of the meal: on the day said, else the nearest to come, at an hour when people eat."""
    now = _wall(context.now, context)
    dates = [date] if date else [now.date() + dt.timedelta(days=ahead) for ahead in range(3)]
    if date is None and context.serving and context.serving.start and context.serving.start > now:
        dates.insert(0, context.serving.start.date())
    candidates = [wall for day in dates for wall in times.walls(when, day)]
    coming = [wall for wall in candidates if wall > now] or candidates
    meals = [wall for wall in coming if MEAL_FROM <= wall.time() <= MEAL_UNTIL]
    return (meals or coming)[0]


def _window(found: re.Match[str], date: dt.date | None, context: Context) -> Serving | None:
    end_half = found["end_half"].strip()
    start_half = found["start_half"].strip() or end_half
    start_said = times.find(f"at {found['start']} {start_half}".strip())
    end_said = times.find(f"at {found['end']} {end_half}".strip())
    if len(start_said) != 1 or len(end_said) != 1 or start_said[0].compact or end_said[0].compact:
        return None
    if times.Kind.CLOCK is not start_said[0].kind or times.Kind.CLOCK is not end_said[0].kind:
        return None
    start = _nearest(start_said[0], date, context)
    ends = [
        wall
        for day in (start.date(), start.date() + dt.timedelta(days=1))
        for wall in times.walls(end_said[0], day)
        if wall > start
    ]
    if not ends or ends[0] - start > dt.timedelta(hours=8):
        return None
    return Serving(kind=ServingKind.WINDOW, zone=context.zone, start=start, end=ends[0])
