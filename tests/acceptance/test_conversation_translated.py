"""Every word of a whole cook passes through the door of translation: played in a language that marks its texts."""

from __future__ import annotations

import gettext
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from bot.messages import steps, words
from tests.fakes.kitchen import PlayedKitchen, on
from tests.unit.bot.application.cooks import RIBS_F, Crew

MARKED = re.compile(r"⟦[^⟦⟧]*⟧")
BARE = re.compile(r"[\d\s.,:;/()+\-\"']|\b(?:F|C|Ines|Tomas|Mon|Tue|Wed|Thu|Fri|Sat|Sun)\b")
"""What needs no translation: figures, signs, units, the names of people, and of days, which Babel knows."""
SAID = (
    "how long", "what next", "plan", "all steps", "is it safe", "help", "invite", "who is here", "undo",
    "dinner at 7", "undo", "blue umbrellas", "meat 900",
)  # fmt: skip


class Marking(gettext.NullTranslations):
    """A language whose texts are the English ones in marks."""

    def gettext(self, message: str) -> str:
        return f"⟦{message}⟧"

    def ngettext(self, msgid1: str, msgid2: str, n: int) -> str:
        return f"⟦{msgid1 if n == 1 else msgid2}⟧"


def unmarked(text: str) -> str:
    """Return what of a text is in no marks and needs translation."""
    while MARKED.search(text):
        text = MARKED.sub("", text)
    return BARE.sub("", text)


@pytest.fixture
def marked(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """Speak the marking language; words of steps that were looked up before are forgotten."""
    monkeypatch.setattr(words, "_catalogue", lambda _language: Marking())
    steps._all.cache_clear()  # noqa: SLF001 - words are looked up once in a program's life
    yield
    steps._all.cache_clear()  # noqa: SLF001 - and must not stay marked for other tests


def test_a_whole_cook_is_translated(marked: None, tmp_path: Path) -> None:
    """Nothing that anybody is shown in a cook, in answers to questions, or on a button, is outside the marks."""
    kitchen = PlayedKitchen(tmp_path, on("06:00"))
    kitchen.opens("Ines")
    kitchen.opens("Tomas")
    kitchen.say("Ines", "short ribs")
    kitchen.say("Ines", "nonsense")
    kitchen.say("Ines", "4 racks")
    kitchen.say("Ines", "noon")
    kitchen.say("Ines", "275")
    kitchen.say("Ines", "18:00")
    kitchen.tap("Ines", "⟦Start⟧")
    for text in SAID:
        kitchen.say("Ines", text)
    Crew(kitchen, "Ines", RIBS_F, seen=lambda text: re.sub("[⟦⟧]", "", text)).play(on("12:00", 6))
    assert kitchen.store.open_cooks() == ()
    shown = [text for heard in kitchen.heard for text in (heard.text, *heard.labels)]
    quoted = ("invite", "nonsense", "blue umbrellas", "meat 900", "slowbell chat")
    assert [(text, unmarked(text)) for text in shown if unmarked(text) and not any(q in text for q in quoted)] == []
    assert len(shown) > 200
    kitchen.close()


def test_the_marks_show_what_is_not_translated() -> None:
    """The measure itself: a word outside the marks is found, figures and names are not."""
    assert unmarked("⟦Pit ⟦250 F⟧, read⟧ 12:30. Ines: ⟦x⟧") == ""
    assert unmarked("⟦Pit⟧ read") == "read"
