"""Who eats: "30 people", "24 adults 6 children", "12 hungry guests".

Figures and words only; portions are not counted here.
"""

from __future__ import annotations

import dataclasses
import re

from bot.commands import GuestsSaid
from bot.conversation.parsing.time_words import NUMBER_WORDS
from bot.conversation.parsing.words import cut_out
from scheduler.facts import Appetite

_N = r"(?P<n>[0-9]{1,3}|" + "|".join(sorted(NUMBER_WORDS, key=len, reverse=True)) + r")"
_HOW = r"(?P<how>(?:very )?(?:hungry|hearty|big|light|small))?"
_LEAD = r"(?:\b(?:for|we are|we're|there are|feeding|guests?:|us|about|around) )*"
_ADULTS = re.compile(
    rf"{_LEAD}(?<![0-9.,:]){_N} ?{_HOW} ?"
    r"(?:people|persons?|guests?|adults?|grown[- ]?ups|heads|mouths|eaters|friends|pax|of us)\b"
)
_CHILDREN = re.compile(
    rf"(?<![0-9.,:]){_N} ?(?:little |small |wee )?(?:children|child|kids?|kinder|kiddos?|toddlers?|babies"
    r"|little ones|bairns|teens|teenagers)\b"
)
_ADULTS_PLUS = re.compile(rf"{_LEAD}(?<![0-9.,:]){_N} ?(?:\+|plus) ?$")
"""Adults that only stand before the children ("12 + 4 kids")."""
_BUNS = re.compile(r"\b(?:(?:all |served )?(?:in|on) (?:buns|rolls|bread|sandwiches)|(?:as )?sandwiches)\b")
_APPETITE = (
    (Appetite.HEARTY, re.compile(r"\b(?:very hungry|hungry|hearty|big(?: eaters)?)\b")),
    (Appetite.LIGHT, re.compile(r"\b(?:light|small)(?: eaters)?\b")),
)


@dataclasses.dataclass(frozen=True, kw_only=True)
class Told:
    """Who eats, and the words left over."""

    intent: GuestsSaid
    rest: str


def guests(heard: str) -> Told | None:
    """Return who eats by a tidied text, None when it does not say."""
    adults, children = _ADULTS.search(heard), _CHILDREN.search(heard)
    if adults is None and children is None:
        return None
    if adults is None and children is not None:
        adults = _ADULTS_PLUS.search(heard[: children.start()])
    buns = _BUNS.search(heard)
    spans = [(found.start(), found.end()) for found in (adults, children, buns) if found is not None]
    how = "" if adults is None else adults.groupdict().get("how") or ""
    appetite = next((kind for kind, pattern in _APPETITE if pattern.search(how)), None)
    return Told(
        intent=GuestsSaid(
            adults=None if adults is None else _number(adults["n"]),
            children=None if children is None else _number(children["n"]),
            appetite=appetite,
            buns=None if buns is None else True,
        ),
        rest=cut_out(heard, spans),
    )


def _number(word: str) -> int:
    return int(NUMBER_WORDS[word]) if word in NUMBER_WORDS else int(word)
