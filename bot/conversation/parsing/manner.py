"""Reads in which language and unit a room wishes to be spoken to: "auf deutsch", "english please", "use celsius".

Only a whole text counts: a figure with a unit is a reading. Whether the language is spoken here is not judged.
"""

from __future__ import annotations

import re

from bot.commands.manner import MannerSaid
from bot.conversation.parsing.words import word_set

_NAMES = {
    "en": word_set("english englisch en inglese anglais"),
    "de": word_set("german deutsch de deutsche deutscher deutsches aleman allemand tedesco"),
}
"""What people call the languages that are spoken here, in either of them and some others."""

_SHORT = word_set("en de")
"""Codes count only after the word "language": "de" by itself is a slip of the thumb."""

_TO = (
    "please|ok|and|can|could|you|we|i|want|would|like|it|all|everything|use|using|switch|change|show|me|set|to|in|as"
    "|talk|speak|write|answer|make|that|is|are|the|my|our|now|instead|thanks|pls"
    "|bitte|auf|auch|kannst|du|sprich|rede|schreib|antworte|mit|mir|uns|jetzt|stell|um|zeig|alles|danke|ab|und|wechsle"
)
_FILL = re.compile(rf"^(?:(?:{_TO}) )*|(?: (?:{_TO}))*$")
_LANGUAGE = re.compile(r"^/?(?:language|lang|sprache)(?: (?:to|is|auf|ist))?(?: (?P<name>[^\W\d_]{2,20}))?$")
_UNIT = re.compile(
    r"^/?(?:(?:temps?|temperatures?|units?|einheit(?:en)?|temperatur(?:en)?|degrees?|deg|grad) ?(?:to|in|auf)? ?)*"
    r"(?:(?P<c>celsius|centigrade|° ?c|(?<=[a-z] )c)|(?P<f>fahrenheit|farenheit|° ?f|(?<=[a-z] )f))$"
)
_WHICH = re.compile(r"^/?(?:languages?|sprachen?|units?|einheit(?:en)?)$")
_MOST_PARTS = 2


def manner_said(heard: str) -> MannerSaid | None:
    """Return the language and unit that a whole tidied text asks for, None when it is about something else."""
    text = heard.strip(" .!?").replace(":", "")
    if _WHICH.match(text):
        return MannerSaid()
    parts = re.split(r",| and | und ", text)
    found = [_one(part) for part in parts if part.strip()]
    if not found or len(found) > _MOST_PARTS or any(one is None for one in found):
        return None
    language = next((one.language for one in found if one is not None and one.language), None)
    unit = next((one.unit for one in found if one is not None and one.unit), None)
    return MannerSaid(language=language, unit=unit)


def _one(part: str) -> MannerSaid | None:
    whole = part.strip()
    if (named := _LANGUAGE.match(whole)) and named["name"]:
        return MannerSaid(language=_code(named["name"]) or named["name"])
    bare = _FILL.sub("", whole).strip()
    if unit := _UNIT.match(bare):
        return MannerSaid(unit="C" if unit["c"] else "F")
    if (named := _LANGUAGE.match(bare)) and named["name"]:
        return MannerSaid(language=_code(named["name"]) or named["name"])
    code = None if bare in _SHORT else _code(bare)
    return None if code is None else MannerSaid(language=code)


def _code(name: str) -> str | None:
    return next((code for code, names in _NAMES.items() if name in names), None)
