"""The door to translation: every text shown to people passes through here.

English is the language of the source; catalogues lie beside this file as `locale/LANG/LC_MESSAGES/slowbell.mo`. Which
language is spoken is chosen per message, never per program: rooms differ.
"""

from __future__ import annotations

import contextlib
import functools
import gettext
from collections.abc import Iterator
from contextvars import ContextVar
from pathlib import Path

SOURCE_LANGUAGE = "en"
"""The language that texts are written in."""

LOCALE = Path(__file__).parent / "locale"

_LANGUAGE: ContextVar[str] = ContextVar("language", default=SOURCE_LANGUAGE)


@contextlib.contextmanager
def speaking(language: str | None) -> Iterator[None]:
    """Speak a language while the block runs; None, or a language without a catalogue, is English."""
    before = _LANGUAGE.set(language or SOURCE_LANGUAGE)
    try:
        yield
    finally:
        _LANGUAGE.reset(before)


def spoken() -> str:
    """Return the language that is spoken now."""
    return _LANGUAGE.get()


@functools.cache
def _catalogue(language: str) -> gettext.NullTranslations:
    return gettext.translation("slowbell", LOCALE, languages=[language], fallback=True)


def _(message: str) -> str:
    """Return the text in the language of the reader."""
    return _catalogue(_LANGUAGE.get()).gettext(message)


def n_(one: str, many: str, count: int) -> str:
    """Return the text for one or for many, in the language of the reader."""
    return _catalogue(_LANGUAGE.get()).ngettext(one, many, count)
