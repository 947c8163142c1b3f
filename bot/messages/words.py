"""The door to translation: every text shown to people passes through here.

English is the language of the source; catalogues lie beside this file as `locale/LANG/LC_MESSAGES/slowbell.mo`.
"""

from __future__ import annotations

import gettext
from pathlib import Path

_TRANSLATIONS = gettext.translation("slowbell", Path(__file__).parent / "locale", languages=["en"], fallback=True)


def _(message: str) -> str:
    """Return the text in the language of the reader."""
    return _TRANSLATIONS.gettext(message)


def n_(one: str, many: str, count: int) -> str:
    """Return the text for one or for many, in the language of the reader."""
    return _TRANSLATIONS.ngettext(one, many, count)
