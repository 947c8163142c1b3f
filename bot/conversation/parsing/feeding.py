"""Questions about how much meat: "how much brisket for 20?", "will it be enough?", "how many does 6 kg of ribs feed?".

It reads the question only: nothing of it becomes a fact.
"""

from __future__ import annotations

import re

from bot.commands import GuestsSaid, HowMuch
from bot.conversation.parsing import amounts
from bot.conversation.parsing.cut_names import find_cut
from bot.conversation.parsing.guests import guests
from bot.conversation.parsing.time_words import NUMBER_WORDS
from bot.conversation.parsing.words import cut_out
from scheduler.cuts import Cuts

_MEAT = r"(?:meat|food)"
_POLITE = r"^(?:(?:hey|hi|ok|so|and|please|slowbell|tell me)[ ,]+)*"
_UNITS = r"(?:kilos?|kg|kilograms?|pounds?|lbs?|racks?|pieces?)"
_MUCH = re.compile(rf"{_POLITE}(?:about )?how (?:much|many {_UNITS}(?: of)?|big (?:a|should (?:a|the)))\b")
_BEFORE = r"(?:be|it|that|this|have|there|we|them|is|are|really|got)"
_ENOUGH = re.compile(
    rf"{_POLITE}(?:(?:will|would|is|are|do|does|have|has)\b.*\b{_BEFORE} enough\b"
    r"|enough (?:meat|food|for)\b|(?:it|that|this) enough\b)"
)
_OF_A_CUT = re.compile(rf"{_POLITE}(?:is|are|will|would)\b.*\benough\b")
_BUYING = re.compile(r"\b(?:buy|order|get|need|want|shop)\b|\bhow much(?: in all)?(?= for\b)")
_NO_CUT = re.compile(r"\b(?:buy|order|get|need|want|shop|should|would|will|enough)\b")
"""Words of such questions that look like a cut mistyped."""
_FEEDS = re.compile(
    r"^(?:so |and )*how many (?:people|guests|adults|mouths|persons|portions|plates)?\b.*\b(?:feeds?|serves?)\b"
)
_NOT_MEAT = re.compile(
    r"\b(?:charcoal|coal|coals|fuel|lump|briquettes?|wood|chunks?|salt|rub|water|time|longer|beer|sauce|sides|smoke"
    r"|spritz|rest|sleep|hot|warm|tender|room|bark|air|light|foil|paper)\b"
)
_FOR = re.compile(
    r"\bfor (?:about |around |some )?(?P<n>[0-9]{1,3}|" + "|".join(sorted(NUMBER_WORDS, key=len, reverse=True))
    + r")(?: of us)?(?= *(?:[?.!|,]|$|\+|and\b|in\b|people\b|hungry\b|with\b))"
)  # fmt: skip
_PLUS_CHILDREN = re.compile(
    r"\b(?P<n>[0-9]{1,3}) ?(?:(?:\+|plus) ?(?P<bare>[0-9]{1,3})\b(?! ?[a-z])"
    r"|(?:\+|plus|and) ?(?P<kids>[0-9]{1,3}) ?(?:children|kids?)\b)"
)


def how_much(heard: str, cuts: Cuts) -> HowMuch | None:
    """Return what a tidied text asks about amounts of meat, None when it asks nothing of the kind."""
    fed, much, enough = _FEEDS.search(heard), _MUCH.search(heard), _ENOUGH.search(heard)
    enough = enough or _OF_A_CUT.search(heard)
    if (fed is None and much is None and enough is None) or _NOT_MEAT.search(heard):
        return None
    who, rest = _who(heard)
    buying = _BUYING.search(heard)
    rest = cut_out(rest, [word.span() for word in _NO_CUT.finditer(rest)])
    named = find_cut(rest, cuts)
    if not _ENOUGH.search(heard) and fed is None and much is None and named is None:
        return None
    about_meat = named is not None or re.search(rf"\b{_MEAT}\b", heard) is not None
    if much is not None and fed is None and not about_meat and (buying is None or who is None):
        return None
    amount = amounts.amounts(rest if named is None else cut_out(rest, [(named.start, named.end)]))
    asks_mass = much is not None and fed is None and enough is None
    return HowMuch(
        cut=None if named is None else named.cut.id,
        guests=who,
        mass_kg=None if asks_mass else amount.mass_kg,
        count=None if asks_mass or named is None else amount.count,
    )


def _who(heard: str) -> tuple[GuestsSaid | None, str]:
    """Return who eats by a question, where "for 20" is enough, and the text without it."""
    if (both := _PLUS_CHILDREN.search(heard)) is not None:
        said = GuestsSaid(adults=int(both["n"]), children=int(both["kids"] or both["bare"]))
        rest = cut_out(heard, [both.span()])
        more = guests(f"1 adult {rest}")
        return said.model_copy(update={"buns": more.intent.buns if more else None}), rest
    found = guests(heard)
    if found is not None and (found.intent.adults is not None or found.intent.children is not None):
        return found.intent, found.rest
    if (plain := _FOR.search(heard)) is not None:
        number = plain["n"]
        adults = int(NUMBER_WORDS[number]) if number in NUMBER_WORDS else int(number)
        rest = cut_out(heard, [plain.span()])
        how = guests(f"{adults} adults {heard[plain.end() :]}")
        return GuestsSaid(adults=adults, buns=None if how is None else how.intent.buns, appetite=None), rest
    return None, heard
