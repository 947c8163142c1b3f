"""Reads what is said of the air around the cooker: its warmth in a number or a word, and the wind.

Only clauses that speak of the weather: "air 262" is the pit, "it is cold" may be the meat.
"""

from __future__ import annotations

import dataclasses
import re
from typing import Literal

from bot.conversation.parsing.words import bare, clauses, cut_out, phrases
from scheduler.units import c_from_f

Warmth = Literal["cold", "cool", "warm", "hot"]
Windy = Literal["calm", "windy"]

OUTDOORS_C = (-35.0, 48.0)
"""Coldest and hottest air in which people cook outside [°C] (common practice, no source)."""
F_FROM = 50.0
"""While the chat has no unit, air from this figure on is in Fahrenheit: it is never 50 °C."""

_OUT = r"(?:out(?:side|doors| here| there)?|here|today|tonight|weather)"
_DAY = r"(?:day|morning|afternoon|evening|night|weather|air|outside)"
_MORE = r"(?:(?:very|really|rather|quite|pretty|so|too|a bit|bit|a little|fairly|damn|bloody|nice and|getting|a) )*"
_WARMTH: tuple[tuple[Warmth, str], ...] = (
    ("cold", r"(?:cold|freezing|frosty|icy|below freezing|frost|snowing|snow)"),
    ("cool", r"(?:cool|chilly|fresh)"),
    ("warm", r"(?:warm|mild)"),
    ("hot", r"(?:hot|scorching|boiling hot|sweltering)"),
)
_WIND: tuple[tuple[Windy, re.Pattern[str]], ...] = (
    (
        "calm",
        phrases(
            r"\b(?:no|not much|hardly any|without|barely any|little) (?:wind|breeze)\b",
            r"\b(?:not|isn't|no longer) " + _MORE + r"(?:windy|breezy|gusty)\b",
            r"\b(?:wind|breeze)(?:'s| is| has)? (?:gone|dropped|died(?: down)?|down|calm|calmed(?: down)?|stopped)\b",
            r"\b(?:windless|wind ?still|sheltered)\b",
            r"\bcalm (?:out|outside|day|air|weather|here|today|now|morning|evening|night)\b",
            r"^(?:(?:it's|it is|its|now|quite|very|nice and|dead|all|still|weather is|air is) )*calm(?: now| out)?$",
        ),
    ),
    (
        "windy",
        phrases(
            r"\b(?:windy|breezy|gusty|gusts?|blustery|blowing (?:hard|a lot)|stormy)\b",
            r"\b(?:strong|high|heavy|lots? of|a lot of|much|cold|stiff|some|gusting) (?:wind|winds|breeze)\b",
            r"\b(?:wind|breeze)(?:'s| is| has)? (?:up|picked up|picking up|strong|rising|blowing|getting up|howling)\b",
        ),
    ),
)
_NUMBER = (
    r"(?P<value>(?:minus |- ?)?[0-9]{1,3}(?:[.,][0-9])?) ?(?:°|deg(?:rees)?)? ?(?P<unit>[cf]\b|celsius|fahrenheit)?"
)
_TEMP = "temp(?:erature)?"
_BEFORE = rf"(?:air(?: {_TEMP})?|ambient|outside(?: air| {_TEMP})?|outdoors|weather|{_TEMP} outside)"
_TEMPS = (
    re.compile(rf"\b{_BEFORE}(?: is|'s| at|:| about| around| temp)* {_NUMBER}"),
    re.compile(rf"(?<![0-9.]){_NUMBER} ?(?:degrees |deg )?(?:out(?:side|doors)|in the (?:shade|air|garden|yard))\b"),
)
_BARE = {warmth: re.compile(rf"^(?:(?:it's|it is|its|and) )?{_MORE}{words}$") for warmth, words in _WARMTH}
_PLAIN = {
    warmth: phrases(
        rf"\b{words} {_OUT}(?! of)\b",
        rf"\b{words} (?:\w+ )?{_DAY}\b",
        rf"\b(?:outside|weather|air)(?: is|'s)? {_MORE}{words}\b",
        r"\b(?:freezing|snowing|below freezing)\b" if warmth == "cold" else rf"\b{words} weather\b",
    )
    for warmth, words in _WARMTH
}
_OTHERS = re.compile(
    r"\b(?:(?:pit|smoker|grill|cooker|meat|brisket|ribs?|pork|core|box|oven|ash|coals?|food|smoke|it)"
    r"(?:'s| is| are| looks| feels| runs| gets| getting| still)+(?: (?:very|too|so|still|really))* "
    r"(?:cold|cool|warm|hot)|fridge|freezer|cooler|cool box|hot box)(?! (?:out|outside|here|today|day)\b)\b|\?$"
)
"""Warmth of other things than the air."""
_BAN = re.compile(r"\bban\b|\bcalm enough\b")
"""Answers to the question about fire ban and wind: they are read elsewhere, whole."""
_FILLER = re.compile(
    r"^(?:(?:it's|it|is|its|the|a|an|bit|very|really|rather|quite|pretty|so|too|now|today|here|of|in|at|we|have|has|got"
    r"|there's|there|temp|temperature|degrees|and|getting|today's|around|about|still|just|what|outside|out) ?)+$"
)


@dataclasses.dataclass(frozen=True, kw_only=True)
class AirWords:
    """What was said: degrees [°C] or a word, the wind, and the text without it."""

    rest: str
    temp_c: float | None = None
    word: Warmth | None = None
    wind: Windy | None = None

    @property
    def said(self) -> bool:
        """Return whether anything was said of the air."""
        return (self.temp_c, self.word, self.wind) != (None, None, None)


def air_words(heard: str, unit: str | None) -> AirWords:
    """Return what a tidied text says of the air; an answer about a fire ban says nothing here."""
    found = AirWords(rest=heard)
    if _BAN.search(heard):
        return found
    spans: list[tuple[int, int]] = []
    open_: list[tuple[int, int]] = []
    for start, end in clauses(heard):
        clause = heard[start:end].strip()
        one, taken = (AirWords(rest=""), []) if _OTHERS.search(clause) else _one(clause, unit)
        if not one.said:
            open_.append((start, end))
            continue
        found = _joined(found, one)
        left = bare(cut_out(clause, taken))
        offset = start + heard[start:end].index(clause)
        whole = not left or _FILLER.match(left)
        spans += [(start, end)] if whole else [(offset + first, offset + last) for first, last in taken]
    if found.said and found.word is None and found.temp_c is None:
        for start, end in open_:  # "cold and windy": the cold beside the wind is the weather's
            word = next((w for w, pattern in _BARE.items() if pattern.match(heard[start:end].strip())), None)
            if word is not None:
                found = dataclasses.replace(found, word=word)
                spans.append((start, end))
    return dataclasses.replace(found, rest=_without(heard, spans))


def _one(clause: str, unit: str | None) -> tuple[AirWords, list[tuple[int, int]]]:
    """Return what one clause says of the air, and where."""
    taken = []
    said = AirWords(rest="")
    for pattern in _TEMPS:
        number = pattern.search(clause)
        temp_c = None if number is None else _degrees(number, unit)
        if number is not None and temp_c is not None:
            said = dataclasses.replace(said, temp_c=temp_c)
            taken.append(number.span())
            break
    if said.temp_c is None:
        for word, plain in _PLAIN.items():
            if (match := plain.search(clause)) is not None:
                said = dataclasses.replace(said, word=word)
                taken.append(match.span())
                break
    for wind, blows in _WIND:
        if (match := blows.search(clause)) is not None:
            said = dataclasses.replace(said, wind=wind)
            taken.append(match.span())
            break
    return said, taken


def _degrees(number: re.Match[str], unit: str | None) -> float | None:
    """Return the air in °C, None when no air outside is so, or when the unit is anybody's guess."""
    value = float(re.sub(r"^(?:minus |- )", "-", number["value"]).replace(",", "."))
    letter = (number["unit"] or unit or ("F" if value >= F_FROM else "C" if value < 0 else "?"))[0].upper()
    if letter == "?":
        return None
    temp_c = c_from_f(value) if letter == "F" else value
    return temp_c if OUTDOORS_C[0] <= temp_c <= OUTDOORS_C[1] else None


def _joined(found: AirWords, one: AirWords) -> AirWords:
    warm = one if (one.temp_c, one.word) != (None, None) else found
    return dataclasses.replace(found, temp_c=warm.temp_c, word=warm.word, wind=one.wind or found.wind)


def _without(heard: str, spans: list[tuple[int, int]]) -> str:
    """Return the text without these spans, and without the commas and joining words they leave behind."""
    rest = heard
    for start, end in sorted(spans, reverse=True):
        rest = f"{rest[:start]} {rest[end:]}"
    rest = re.sub(r"(?:\s*,)+", ",", " ".join(rest.split()))
    return re.sub(r"^(?:[\s,;.!&+]|(?:and|but|then|it's|it is|its)\b)+|(?:[\s,;&+]|\b(?:and|but|then)\b)+$", "", rest)
