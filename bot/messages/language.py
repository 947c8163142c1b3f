"""How the spoken language writes days, months, lists and the beginning of a text: Babel knows, gettext says the order.

It makes no sentences; figures of a cook are rounded in `bot.messages.figures`.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence

from babel.dates import format_date
from babel.lists import format_list

from bot.messages.words import SOURCE_LANGUAGE, _, spoken, written

_LISTS = {SOURCE_LANGUAGE: "en_GB"}
"""English lists have no comma before "and"."""


def number(value: float, form: str = "g") -> str:
    """Return a number in a form of Python's formatting, as the spoken language writes it: 68.5 or 68,5."""
    return written(format(value, form))


def weekday(date: dt.date) -> str:
    """Return a weekday in short: "Sat"."""
    return format_date(date, "ccc", locale=spoken())


def long_date(date: dt.date) -> str:
    """Return a day with its weekday and month in full, such as "Saturday 5 December"."""
    return format_date(date, _("cccc d MMMM"), locale=spoken())


def short_date(date: dt.date) -> str:
    """Return a day with its weekday and month in short, such as "Sat 5 Dec"."""
    return format_date(date, _("ccc d MMM"), locale=spoken())


def day_and_month(date: dt.date) -> str:
    """Return a day and its month in short, such as "5 Dec"."""
    return format_date(date, _("d MMM"), locale=spoken())


def date_with_year(date: dt.date) -> str:
    """Return a date with weekday and year, such as "Sat 5 Dec 2026"."""
    return format_date(date, _("ccc d MMM y"), locale=spoken())


def in_series(parts: Sequence[str]) -> str:
    """Return things one after another: "a", "a and b", "a, b and c"."""
    return format_list(list(parts), locale=_LISTS.get(spoken(), spoken()))


def capital(text: str) -> str:
    """Return a text that begins with a capital."""
    return text[:1].upper() + text[1:]


def small(text: str) -> str:
    """Return a text that goes on within a sentence: with a small letter where the language writes all words small.

    German writes nouns with capitals, so that no first letter may be changed there.
    """
    return text[:1].lower() + text[1:] if spoken() == SOURCE_LANGUAGE else text
