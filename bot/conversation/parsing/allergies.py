"""Words about allergies: what somebody must not eat, and who. It judges nothing; words are kept as people say them."""

from __future__ import annotations

import dataclasses
import re

from bot.commands import UNNAMED

_FOODS = {
    "nut": "nuts", "nuts": "nuts", "tree nut": "tree nuts", "tree nuts": "tree nuts", "peanut": "peanuts",
    "peanuts": "peanuts", "almond": "almonds", "almonds": "almonds", "walnut": "walnuts", "walnuts": "walnuts",
    "hazelnut": "hazelnuts", "hazelnuts": "hazelnuts", "cashew": "cashews", "cashews": "cashews", "gluten": "gluten",
    "wheat": "wheat", "egg": "eggs", "eggs": "eggs", "milk": "milk", "dairy": "dairy", "lactose": "lactose",
    "soy": "soya", "soya": "soya", "sesame": "sesame", "mustard": "mustard", "celery": "celery", "fish": "fish",
    "shellfish": "shellfish", "crustaceans": "crustaceans", "prawns": "prawns", "shrimp": "shrimp",
    "molluscs": "molluscs", "lupin": "lupin", "sulphites": "sulphites", "sulfites": "sulphites", "garlic": "garlic",
    "onion": "onions", "onions": "onions", "tomato": "tomatoes", "tomatoes": "tomatoes", "pepper": "pepper",
    "paprika": "paprika", "corn": "corn", "maize": "maize", "honey": "honey", "pork": "pork", "beef": "beef",
    "alcohol": "alcohol", "strawberries": "strawberries",
}  # fmt: skip
"""Foods that people are al+er[gj]ic to, the fourteen of the EU's food information rules among them (from memory)."""
_FOOD = r"(?:" + "|".join(sorted(_FOODS, key=len, reverse=True)) + r")"
_LIST = rf"{_FOOD}s?(?:(?:,| and| or|,? &| plus)+ {_FOOD}s?)*"
_WHO = r"(?P<who>(?:my |our |the |one |two |some )?(?!(?:a|an|has|have|with|and|the|is|of)\b)[a-z][a-z'-]*)"
_NONE = re.compile(
    r"\b(?:no|without|no known|no food|nobody has|no ?one has|nobody with|there are no|zero) (?:any )?(?:food )?"
    r"al+er[gj](?:y|ies|ens)\b|\b(?:nobody|no ?one) (?:is |has )?(?:an? )?al+er[gj](?:ic|y|ies)(?: to anything)?\b"
    r"|\bal+er[gj](?:y|ies):? (?:none|no|nobody)\b|\bnobody is allergic\b"
)
_SAYS = (
    re.compile(rf"\b{_WHO} (?:has|have|had|with) (?:an? |the )?(?:bad |severe |serious )?(?P<what>{_LIST}) "
               r"al+er[gj](?:y|ies)\b"),
    re.compile(rf"\b{_WHO}(?:'s| is| are) (?:very |badly |severely )?al+er[gj]ic to (?P<what>{_LIST})\b"),
    re.compile(rf"\b{_WHO} (?:can't|cant|cannot|can not|must not|mustn't|may not) (?:eat|have) (?:any )?"
               rf"(?P<what>{_LIST})\b"),
    re.compile(rf"\b{_WHO}(?:'s| is| are) (?P<what>coeliac|celiac|lactose intolerant|gluten intolerant"
               r"|gluten[- ]free)\b"),
    re.compile(rf"\bal+er[gj](?:y|ies|ic)(?: to)?:? (?P<what>{_LIST})(?:,? (?:\(|for |of |that is |it'?s )?"
               r"(?P<who>[a-z][a-z'-]*)\)?)?(?=[.,;!]|$)"),
    re.compile(rf"\bal+er[gj](?:y|ies):? (?P<who>[a-z][a-z'-]*)[:,]? (?P<what>{_LIST})\b"),
    re.compile(rf"\b(?:an? |the )?(?P<what>{_LIST}) al+er[gj](?:y|ies)(?: \(?(?:for |of |in )?"
               r"(?P<who>[a-z][a-z'-]*)\)?(?=[.,;!]|$))?"),
    re.compile(r"\b(?P<what>coeliac|celiac|lactose intolerant|gluten intolerant)\b"),
)  # fmt: skip
_SOME = re.compile(
    r"\b(?:somebody|someone|one guest|a guest|some|guests?|we|people)?(?: has| have)? ?(?:an? |some )?(?:food )?"
    r"al+er[gj](?:y|ies|ic)\b|\banaphyla\w+ risk\b"
)
_NOT_A_NAME = frozenset(
    "somebody someone guest guests people nobody we they she he i it who that and has have food".split()  # noqa: SIM905 - read as a sentence
)
_OWN_WORD = re.compile(r"^al+er[gj](?:y|ies|ic)(?: to)?:? (?P<what>[a-z][a-z ,'&-]{1,60})$")
_RELATIVES = re.compile(
    r"^(?:my|our|the|one|two|some)\b|^(?:mum|mom|dad|gran|granny|grandma|grandpa|grandad|uncle|aunt|auntie)$"
)


@dataclasses.dataclass(frozen=True, kw_only=True)
class Allergies:
    """What somebody is al+er[gj]ic to, with whom it is: "nuts (Wren)"; empty: nobody. `spans` are the words used."""

    what: tuple[str, ...]
    spans: tuple[tuple[int, int], ...]


def allergies_in(heard: str, people: tuple[str, ...] = (), *, own_words: bool = True) -> Allergies | None:
    """Return the allergies that a tidied text tells of, None when it tells of none; names as `people` has them."""
    if (none := _NONE.search(heard)) is not None:
        return Allergies(what=(), spans=(none.span(),))
    found: list[str] = []
    spans: list[tuple[int, int]] = []
    for pattern in _SAYS:
        for one in pattern.finditer(heard):
            if any(start < one.end() and one.start() < end for start, end in spans):
                continue
            spans.append(one.span())
            found.append(_worded(one["what"], one.groupdict().get("who"), people))
    if found:
        return Allergies(what=tuple(dict.fromkeys(found)), spans=tuple(spans))
    if own_words and (own := _OWN_WORD.match(heard.strip(" .!"))) is not None:
        return Allergies(what=(_own(own["what"], people),), spans=((0, len(heard)),))
    if (some := _SOME.search(heard)) is not None:
        return Allergies(what=(UNNAMED,), spans=(some.span(),))
    return None


def _worded(what: str, who: str | None, people: tuple[str, ...]) -> str:
    parts = [part.strip() for part in re.split(r",| and | or | & | plus ", what) if part.strip()]
    foods = " and ".join(_FOODS.get(part, part) for part in parts)
    if who is None or who in _NOT_A_NAME:
        return foods
    return f"{foods} ({_name(who, people)})"


def _name(who: str, people: tuple[str, ...]) -> str:
    known = next((name for name in people if name.casefold() == who), None)
    return known or (who if _RELATIVES.match(who) else who.title())


def _own(what: str, people: tuple[str, ...]) -> str:
    """Return words that name a food this room does not know, as they were said, names written large."""
    known = {name.casefold(): name for name in people}
    return " ".join(known.get(word, word) for word in what.split())
