"""One cook in two languages: one window is spoken to in English, the other in German, from the set-up to the leftovers.

First with a German that marks its texts, so that any word outside the catalogue stands out; then with the real one.
"""

from __future__ import annotations

import gettext
import io
import re
from collections.abc import Callable
from pathlib import Path

import pypdf
import pytest

from bot.messages import steps, words
from bot.ports import Apply, RoomWrite
from tests.acceptance.test_conversation_translated import SAID, Marking, unmarked
from tests.fakes.kitchen import Heard, PlayedKitchen, on, window
from tests.unit.bot.application.cooks import RIBS_F, Crew

DAYS = re.compile(r"\b(?:Mo|Di|Mi|Do|Fr|Sa|So)\b")
ENGLISH = re.compile(
    r"\b(?:the|and|is|are|your|you|with|about|until|near|when|done|wrap|wrapped|light|read|pull|meat|pit|fire|by|to|of"
    r"|later|earlier|dinner|plate|late|ready|next|now|what|who|lid|coldest|spot|degrees)\b"
)
QUOTED = re.compile(r"„[^“]*“|: (?:leftovers|fridge) \d+|10 C, windy|8 adults, 4 kids, 18:00|\bWind\b")
"""What is to be typed stands in quotation marks, or as an example: the reader knows it in English."""
HELP = ("Tippe eine Zahl", "slowbell chat", "join ", "Wren 22-03")
"""Pages of things that can be typed."""


def played(folder: Path) -> tuple[list[Heard], list[Heard]]:
    """Play a whole cook; return what Ines was told in English, and Tomas in German."""
    kitchen = PlayedKitchen(folder, on("06:00"))
    kitchen.opens("Ines")
    kitchen.opens("Tomas")
    kitchen.store.apply(Apply(now=kitchen.now, rooms=(RoomWrite(address=window("Tomas"), language="de", unit="C"),)))
    start = len(kitchen.heard)
    for text in ("short ribs", "4 racks", "noon", "275", "18:00", "start"):
        kitchen.say("Ines", text)
    for text in (*SAID, "page", "calendar", "record"):
        kitchen.say("Tomas", text)
    Crew(kitchen, "Ines", RIBS_F).play(on("12:00", 6))
    assert kitchen.store.open_cooks() == ()
    heard = kitchen.heard[start:]
    kitchen.close()
    return [h for h in heard if h.room == window("Ines")], [h for h in heard if h.room == window("Tomas")]


def test_each_room_is_spoken_to_in_its_own_language(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """No word that Tomas sees is outside the German catalogue, and none that Ines sees is from it."""
    own: dict[str, gettext.NullTranslations] = {"de": Marking(), "en": gettext.NullTranslations()}
    monkeypatch.setattr(words, "_catalogue", own.__getitem__)
    steps._all.cache_clear()  # noqa: SLF001 - the words are looked up in the marking language
    try:
        english, german = played(tmp_path)
    finally:
        steps._all.cache_clear()  # noqa: SLF001 - and must not stay marked for other tests
    assert [text for text in shown(english) if "⟦" in text] == []
    quoted = ("invite", "blue umbrellas", "meat 900", "slowbell chat")
    bare: Callable[[str], str] = lambda text: unmarked(DAYS.sub("", text))  # noqa: E731 - a name for a short thing
    assert [(text, bare(text)) for text in shown(german) if bare(text) and not any(q in text for q in quoted)] == []
    assert len(shown(german)) > 100


def test_german_is_german(tmp_path: Path) -> None:
    """With the real catalogue Tomas reads no English words but those that are to be typed, and no decimal points."""
    _english, german = played(tmp_path)
    texts = [text for text in shown(german) if not any(page in text for page in HELP)]
    assert [(text, found) for text in texts if (found := ENGLISH.findall(QUOTED.sub("", text)))] == []
    assert [text for text in texts if re.search(r"\d\.\d", text)] == []
    assert any("°C" in text for text in texts)


def test_papers_are_in_the_language_of_whoever_asks(tmp_path: Path) -> None:
    """The page, the calendar and the temperature log that Tomas asked for are in German."""
    _english, german = played(tmp_path)
    papers = {one.outgoing.document.media_type: one.outgoing.document for one in german if one.outgoing.document}
    page = next(one.outgoing.document.data for one in german if one.outgoing.document is not None)
    calendar = papers["text/calendar"].data.decode().replace("\r\n ", "")
    calendar = re.sub(r"(?m)^UID:.*$", "", calendar).partition("X-WR-CALNAME")[2]
    for text in (pdf_text(page), calendar):  # the log names its sources by their own titles
        assert ENGLISH.findall(QUOTED.sub("", text)) == []
    assert "Feuer anzünden" in calendar
    assert "Temperaturprotokoll eines Garlaufs" in pdf_text(papers["application/pdf"].data)


def pdf_text(data: bytes) -> str:
    """Return the words of a printed page."""
    return "\n".join(page.extract_text() for page in pypdf.PdfReader(io.BytesIO(data)).pages)


def shown(heard: list[Heard]) -> list[str]:
    """Return every text and label that was shown."""
    return [text for one in heard for text in (one.text, *one.labels)]
