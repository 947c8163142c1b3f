"""The rules of docs/explanation/voice.md, held over every text of the catalogues, in both languages."""

from __future__ import annotations

import re
import unicodedata
from pathlib import Path

import pytest
from babel.messages.pofile import read_po

LOCALE = Path(__file__).parents[4] / "bot" / "messages" / "locale"

MOST_WORDS = {"en": 32, "de": 40}
LONGEST = {"en": 330, "de": 440}
NOT_OURS = re.compile(
    r"\b(?:quantiles?|priors?|posterior|ensembles?|stochastic|Biot|Fourier|diffusivity|assimilat\w+|Quantil\w*"
    r"|stochastisch)\b",
    re.IGNORECASE,
)
"""Words of the engine that nobody at a fire should have to know."""

_COMMAND_LINE = re.compile(r"--\w|SLOWBELL_|\.csv|CRPS|\bserve\b")
"""Texts about the program as a program (options, files, scores) are for whoever runs it."""


def _texts(language: str) -> list[str]:
    with (LOCALE / "de" / "LC_MESSAGES" / "slowbell.po").open("rb") as file:
        catalogue = read_po(file)
    found: list[str] = []
    for message in (one for one in catalogue if one.id):
        told = message.id if language == "en" else message.string
        found += [told] if isinstance(told, str) else list(told or ())
    return [text for text in found if text]


@pytest.mark.parametrize("language", ["en", "de"])
def test_no_text_shouts_or_speaks_in_pictures(language: str) -> None:
    """No exclamation mark, no emoji."""
    texts = _texts(language)
    assert [text for text in texts if "!" in text] == []
    pictures = {sign for text in texts for sign in text if unicodedata.category(sign) == "So"}
    assert pictures <= {"°"}


@pytest.mark.parametrize("language", ["en", "de"])
def test_sentences_are_short(language: str) -> None:
    """No sentence has more words than one breath carries."""
    sentences = [one for text in _texts(language) for one in re.split(r"(?<=[.?:;])\s+|\n", text)]
    assert [one for one in sentences if len(one.split()) > MOST_WORDS[language]] == []


@pytest.mark.parametrize("language", ["en", "de"])
def test_no_text_is_a_page(language: str) -> None:
    """A text of the catalogue is a few lines at most; what is longer is made of several."""
    told = [text for text in _texts(language) if not _COMMAND_LINE.search(text)]
    assert [text for text in told if len(text) > LONGEST[language]] == []


@pytest.mark.parametrize("language", ["en", "de"])
def test_the_words_are_those_of_a_kitchen(language: str) -> None:
    """No term of statistics or heat transfer reaches anybody who cooks."""
    told = [text for text in _texts(language) if not _COMMAND_LINE.search(text)]
    assert [text for text in told if NOT_OURS.search(text)] == []
