"""Words about where meat is to come off: a core ("pull at 150"), or a word for it ("medium rare").

It finds them; whether such a core may be planned is decided elsewhere. No core is hotter than 100 C, none is wished
under 100 F: figures above 100 are Fahrenheit, the others Celsius, whatever the chat speaks.
"""

from __future__ import annotations

import dataclasses
import re

from bot.commands import Doneness, TargetSaid
from bot.conversation.parsing.words import cut_out
from scheduler.units import c_from_f

_N = (
    r"(?P<n>[0-9]{2,3}(?:[.,][0-9])?)(?! ?(?::|[.]?[0-9]|/|-[0-9]|h\b|hours?|min|kg|lbs?\b|g\b|%|pm\b|am\b|people"
    r"|guests))"
)
_UNIT = r" ?°? ?(?P<unit>[cf]\b|celsius|fahrenheit|degrees?)?"
_IT = r"(?: it| them| the (?:meat|chicken|turkey|roast|lamb|pork|beef|sausages|breast))?(?: off)?"
_INSIDE = r"(?: (?:internal|inside|in the (?:middle|centre|center|meat)|core))?"
_SAYS = (
    re.compile(
        rf"\b(?:to be )?(?:pull(?:ing)?|take|taking|done|finish(?:ed)?|ready|remove){_IT} (?:at|when it(?:'s| is| reads"
        rf"| hits| reaches)?(?: at)?|once it (?:reads|hits|reaches)) (?:about |around )?{_N}{_UNIT}{_INSIDE}"
    ),
    re.compile(
        rf"\b(?:cook(?:ed|ing)?|bring|take|taken)(?: it| them| the (?:meat|middle|core))? (?:up )?(?:only |just )?to "
        rf"(?:about )?{_N}{_UNIT}{_INSIDE}"
    ),
    re.compile(
        rf"\b(?:(?:core|internal|pull|meat|finish(?:ing)?) target|target (?:core|internal|temp(?:erature)?)|target"
        rf"|pull temp(?:erature)?|aim(?:ing)?(?: for)?|wished core)(?: of|:| is| to be| should be| at| to|=)? ?"
        rf"{_N}{_UNIT}{_INSIDE}"
    ),
    re.compile(rf"\b(?:until|till) (?:it(?:'s| is| reads| hits| reaches) )?(?:about )?{_N}{_UNIT} (?:internal|inside"
               r"|in the (?:middle|centre|center|meat)|core)"),
    re.compile(rf"\bplan (?:it )?to {_N}{_UNIT}"),
)  # fmt: skip
_PIT = re.compile(r"\b(?:pit|smoker|cooker|grill|oven|fire|air)\b[^,;]*$")
_WORD = re.compile(
    r"\b(?P<word>medium[- ]rare|medium[- ]well(?:[- ]done)?|well[- ]done|rare|medium|pink(?: (?:inside|in the (?:middle"
    r"|centre|center)))?|bloody)\b(?! ?(?:heat|fire|hot|sized?|bowl|pan|pieces?|onions?|eggs?|salt|smoke|wood|low"
    r"|butcher|paper|speed|,? ?(?:everybody|everyone|all|team|mate)))"
)
_NOT_WISHED = re.compile(r"\b(?:not|no|never|isn't|is it|still|looks?|too|it's|it is|was|came out|turned)\s*$")
_WORDS: dict[str, Doneness] = {
    "rare": "rare", "bloody": "rare", "medium rare": "medium_rare", "pink": "pink", "medium": "medium",
    "medium well": "medium_well", "medium well done": "medium_well", "well done": "well_done",
}  # fmt: skip
_COLDEST_F, _HOTTEST_F = 100.0, 212.0
_COLDEST_C = 38.0


@dataclasses.dataclass(frozen=True, kw_only=True)
class TargetFound:
    """What core is wished, and the text with those words blanked."""

    said: TargetSaid
    rest: str


def core_in(heard: str) -> TargetFound | None:
    """Return the core that a tidied text wishes for in figures, None when it names none."""
    for pattern in _SAYS:
        for found in pattern.finditer(heard):
            core_c = in_c(float(found["n"].replace(",", ".")), (found["unit"] or "")[:1])
            if core_c is not None and not _PIT.search(heard[: found.start()]):
                return TargetFound(said=TargetSaid(core_c=core_c), rest=cut_out(heard, [found.span()]))
    return None


def word_in(heard: str) -> TargetFound | None:
    """Return the core that a tidied text wishes for by a word, None when it names none."""
    for found in _WORD.finditer(heard):
        if _NOT_WISHED.search(heard[: found.start()]):
            continue
        word = " ".join(re.sub(r"-", " ", found["word"]).split())
        said = next(_WORDS[known] for known in sorted(_WORDS, key=len, reverse=True) if word.startswith(known))
        return TargetFound(said=TargetSaid(word=said), rest=cut_out(heard, [found.span()]))
    return None


def target_in(heard: str) -> TargetFound | None:
    """Return the core that a sentence about a cook to come wishes for, in figures or by a word."""
    return core_in(heard) or word_in(heard)


def only_target(heard: str) -> TargetSaid | None:
    """Return the core that is wished for when a text of a running cook says nothing else.

    "Well done" alone is praise, "rare" alone no wish: words need "I want it", "make it" or the name of the meat.
    """
    wish = _WISH.match(heard)
    found = core_in(heard) or (word_in(heard[wish.end() :]) if wish is not None else None)
    if found is None:
        return None
    left = _LITTLE.sub(" ", found.rest.replace("|", " "))
    return None if re.search(r"[a-z0-9]", left) else found.said


_WISH = re.compile(
    r"^(?:please )?(?:(?:i|we)(?:'d)? (?:want|like|would like|prefer|need|have)|make|cook|serve|do|plan)(?: it| them"
    r"| the meat)?(?: to be)? "
)
_LITTLE = re.compile(
    r"\b(?:please|it|them|the|meat|i|we|want|like|would|to|be|at|off|from|now|on|is|a|an|make|cook|let's|lets|and|core"
    r"|internal|fahrenheit|celsius|inside|will|i'll|we'll|going|do)\b"
)


def in_c(value: float, unit: str) -> float | None:
    """Return a wished core in Celsius; None for a figure that no core can be."""
    fahrenheit = unit == "f" if unit in ("c", "f") else value > _COLDEST_F
    if fahrenheit:
        return c_from_f(value) if _COLDEST_F <= value <= _HOTTEST_F else None
    return value if _COLDEST_C <= value <= _COLDEST_F else None
