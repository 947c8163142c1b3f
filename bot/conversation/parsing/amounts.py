"""Reads how many pieces there are and how heavy each is, from the words of a cook that is set up or changed.

What cannot be used (a second mass, one that no piece has) is named, never guessed.
"""

from __future__ import annotations

import dataclasses
import re

from bot.conversation.parsing.time_words import NUMBER_WORDS
from bot.conversation.parsing.words import cut_out, phrases
from scheduler.units import kg_from_lb

LIGHTEST_KG, HEAVIEST_KG = 0.05, 30.0
"""Lightest and heaviest piece that is taken as said (common practice, no source)."""
MOST_PIECES = 60
OUNCES = 16.0
"""Ounces in a pound."""
COUNT_WORDS = "|".join(sorted(NUMBER_WORDS, key=len, reverse=True))
PIECES = (
    r"racks?|slabs?|plates?|pieces?|pcs|briskets?|packers?|shoulders?|butts?|cuts?|birds?|links?|sides?|legs?|joints?"
    r"|roasts?|of them"
)
_UNITS = r"kgs?|kilos?|kilograms?|lbs?|pounds?|pounders?|#|g|grams?|gr"
_COUNT = phrases(
    (
        rf"(?<![0-9.,])\b(?P<n>[0-9]{{1,2}}|{COUNT_WORDS}) ?(?:x ?)?(?:(?:big|small|large|whole|full"
        rf"|nice|beef|pork|boston) )*(?:{PIECES})\b"
    ),
    r"\b(?P<n2>[0-9]{1,2}) ?x(?= |\b)",
    r"\bx ?(?P<n3>[0-9]{1,2})\b",
)
_NUMBER = "[0-9]{1,5}(?:[.,][0-9]{1,2})?"
_MASS = re.compile(
    rf"(?P<low>{_NUMBER})(?: ?(?:-|to|or) ?(?P<high>{_NUMBER}))?[ -]?(?P<unit>{_UNITS})(?![a-z])"
    "(?: ?(?P<oz>[0-9]{1,2}) ?(?:oz|ounces?))?"
)
_TWO_IN_ONE_UNIT = re.compile(
    rf"(?:\bof|\bweigh\w*|\bare|\bis|[,:|])\s*(?P<first>{_NUMBER}) ?(?:and|&|[+])"
    rf" ?(?={_NUMBER} ?(?P<unit>{_UNITS})(?![a-z]))"
)
"""The first figure of "6 and 4 kg"; after "dinner at" it is a time."""
DOZEN = 12
_DOZENS = re.compile(rf"\b(?:(?P<half>half a|a half) |(?P<many>a|[0-9]|{COUNT_WORDS}) )?dozens?\b(?: of\b)?")
_TOTAL = re.compile(r"\b(?:total|altogether|together|in all|combined|all in)\b")
_WORDS_BEFORE_UNIT = re.compile(
    rf"\b(?P<word>{COUNT_WORDS}|[0-9]{{1,2}})(?P<half> and a half)?"
    r"(?=[ -]?(?:kgs?|kilos?|kilograms?|lbs?|pounds?|pounders?|grams?)\b)"
)


@dataclasses.dataclass(frozen=True, kw_only=True)
class Amounts:
    """What was said: mass of one piece in kg, count, words that cannot be used, and the text without all these."""

    rest: str
    count: int | None = None
    mass_kg: float | None = None
    ignored: tuple[str, ...] = ()


@dataclasses.dataclass(frozen=True, kw_only=True)
class _Mass:
    kg: float
    words: str
    span: tuple[int, int]


def in_figures(heard: str) -> str:
    """Return a tidied text with dozens, and the number words before a unit of mass, as figures ("twelve pounds")."""
    heard = _DOZENS.sub(_dozens, heard)
    return _WORDS_BEFORE_UNIT.sub(lambda found: _figure(found["word"]) + (".5" if found["half"] else ""), heard)


def _dozens(found: re.Match[str]) -> str:
    many = found["many"]
    if found["half"]:
        return str(DOZEN // 2)
    return str(DOZEN * (1 if many is None or many == "a" else int(NUMBER_WORDS.get(many) or many)))


def _figure(word: str) -> str:
    return str(NUMBER_WORDS.get(word, word))


def pieces(word: str) -> int:
    """Return how many pieces a figure or number word says, within what one cook holds."""
    return NUMBER_WORDS.get(word) or min(MOST_PIECES, max(1, int(word)))


def amounts(heard: str, *, count: int | None = None, first_only: bool = False) -> Amounts:
    """Return count and mass of a text. `count`: known already; `first_only`: a second mass is another cut's."""
    masses = _masses(heard)
    rest = cut_out(heard, [mass.span for mass in masses])
    spans = []
    if found := _COUNT.search(rest):
        count = count or pieces(found["n"] or found["n2"] or found["n3"])
        spans.append(found.span())
    share = count if count and _TOTAL.search(rest) else 1
    able = [mass for mass in masses if LIGHTEST_KG <= mass.kg / share <= HEAVIEST_KG]
    kept = (able[0] if first_only else max(able, key=lambda mass: mass.kg)) if able else None
    return Amounts(
        rest=cut_out(rest, spans),
        count=count,
        mass_kg=kept.kg / share if kept else None,
        ignored=tuple(mass.words for mass in masses if kept is None or mass.kg != kept.kg),
    )


def _masses(heard: str) -> list[_Mass]:
    found = []
    for mass in _MASS.finditer(heard):
        low = float(mass["low"].replace(",", "."))
        high = float(mass["high"].replace(",", ".")) if mass["high"] else low
        ounces = float(mass["oz"] or 0) / OUNCES
        kg = _in_kg((low + high) / 2.0 + ounces, mass["unit"])
        found.append(_Mass(kg=kg, words=mass.group(), span=mass.span()))
    for first in _TWO_IN_ONE_UNIT.finditer(heard):
        kg = _in_kg(float(first["first"].replace(",", ".")), first["unit"])
        found.append(_Mass(kg=kg, words=f"{first['first']} {first['unit']}", span=first.span("first")))
    return sorted(found, key=lambda mass: mass.span)


def _in_kg(value: float, unit: str) -> float:
    if unit[0] == "k":
        return value
    return value / 1000.0 if unit[0] == "g" else kg_from_lb(value)
