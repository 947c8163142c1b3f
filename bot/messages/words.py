"""The door to translation: every text shown to people passes through here.

English is the language of the source; catalogues lie beside this file as `locale/LANG/LC_MESSAGES/slowbell.po`. Which
language is spoken is chosen per message, never per program: rooms differ. A number put into a text is written as that
language writes numbers. Which texts there are, and what they say, is no matter of this room.
"""

from __future__ import annotations

import contextlib
import functools
import gettext
import io
import string
from collections.abc import Iterator
from contextvars import ContextVar
from pathlib import Path

from babel.numbers import get_decimal_symbol

SOURCE_LANGUAGE = "en"
"""The language that texts are written in."""

LOCALE = Path(__file__).parent / "locale"

_LANGUAGE: ContextVar[str] = ContextVar("language", default=SOURCE_LANGUAGE)


@contextlib.contextmanager
def speaking(language: str | None) -> Iterator[None]:
    """Speak a language while the block runs; None, or a language without a catalogue, is English."""
    before = _LANGUAGE.set(language if language in languages() else SOURCE_LANGUAGE)
    try:
        yield
    finally:
        _LANGUAGE.reset(before)


def spoken() -> str:
    """Return the language that is spoken now."""
    return _LANGUAGE.get()


@functools.cache
def _catalogue(language: str) -> gettext.NullTranslations:
    """Return a catalogue, read from its text file when its language is first spoken (0.2 s): no binary is kept."""
    if language == SOURCE_LANGUAGE:
        return gettext.NullTranslations()
    # Slow to import, and needed by no program that speaks English alone.
    from babel.messages.mofile import write_mo  # noqa: PLC0415 - see above, only other languages
    from babel.messages.pofile import read_po  # noqa: PLC0415 - see above, only other languages

    compiled = io.BytesIO()
    with (LOCALE / language / "LC_MESSAGES" / "slowbell.po").open("rb") as file:
        write_mo(compiled, read_po(file, locale=language, domain="slowbell"))
    compiled.seek(0)
    return gettext.GNUTranslations(compiled)


@functools.cache
def languages() -> tuple[str, ...]:
    """Return every language that can be spoken, the source's first."""
    return (SOURCE_LANGUAGE, *sorted(path.parent.parent.name for path in LOCALE.glob("*/LC_MESSAGES/slowbell.po")))


def written(number: str) -> str:
    """Return a formatted number, such as "68.5", as the spoken language writes it."""
    mark = _decimal_mark(_LANGUAGE.get())
    return number if mark == "." else number.replace(".", mark)


@functools.cache
def _decimal_mark(language: str) -> str:
    return "." if language == SOURCE_LANGUAGE else get_decimal_symbol(language)


class _Figures(string.Formatter):
    """Puts values into a text as `str.format` does, numbers as the spoken language writes them."""

    def format_field(self, value: object, format_spec: str) -> str:
        text = format(value, format_spec)
        return written(text) if isinstance(value, int | float) else text


class _Translated(str):
    """A text in another language than the source's; its numbers follow when they are put in."""

    __slots__ = ()

    def format(self, *args: object, **kwargs: object) -> str:
        return _Figures().vformat(self, args, kwargs)


def _(message: str) -> str:
    """Return the text in the language of the reader."""
    language = _LANGUAGE.get()
    text = _catalogue(language).gettext(message)
    return text if language == SOURCE_LANGUAGE else _Translated(text)


def n_(one: str, many: str, count: int) -> str:
    """Return the text for one or for many, in the language of the reader."""
    language = _LANGUAGE.get()
    text = _catalogue(language).ngettext(one, many, count)
    return text if language == SOURCE_LANGUAGE else _Translated(text)
