"""Guests in bare figures, before the fire: "14ish maybe 16", "14-16 people"; and a 7 that may be guests or an hour.

Figures only; portions are not counted here.
"""

from __future__ import annotations

import re

from bot.commands import GuestsSaid, Intent, MoveDinner, Unclear
from bot.conversation.context import Context
from bot.conversation.parsing.readings import asked
from bot.conversation.parsing.serving import serving_said
from bot.conversation.parsing.words import bare

_HOURS, _NOON = 24, 12
_MOST = 500
"""More guests than this are a slip of the thumb: house rule."""
_N = r"[0-9]{1,3}"
_PEOPLE = r"(?:people|persons?|guests?|adults?|of us|heads|pax|folks|eaters|mouths|friends)"
_WORDS = (
    r"(?:(?:about|around|roughly|somewhere|anywhere|maybe|probably|like|say|we|we're|we'll|we'll be|are|be|will be|it's"
    r"|i think|i guess|or so|ish|now|in all"
    rf"|in total|{_PEOPLE})\b[ ,]*)*"
)
_OR = r"(?:-|to|or|and|bis|maybe|perhaps|possibly|could be|up to|at most|max)[ ,]*(?:maybe |even )*"
_RANGE = re.compile(
    rf"^{_WORDS}(?:between )?(?P<low>{_N}) ?(?:ish)?(?: {_PEOPLE})?[ ,]*{_OR}"
    rf"(?P<high>{_N}) ?(?:ish|max)?[ ,]*{_WORDS}$"
)
_ONLY_ABOUT = re.compile(r"(?:(?:about|around|roughly|maybe|probably|like|i think|i guess|it's)[ ,]+)+")
"""Before a small figure these tell no guests from an hour."""
_ABOUT = re.compile(rf"^(?P<lead>{_WORDS})(?P<n>{_N})(?P<ish> ?-?ish)?[ ,]*(?P<end>{_WORDS})$")


_NOT_SO_MANY = re.compile(
    rf"^(?:(?:sorry|no|oops|actually|wait)[, ]+)*(?:we're|we are|we'll be|we will be|there are|there will be|wir sind)"
    rf" (?:now |jetzt )?(?P<n>{_N})(?: {_PEOPLE})?,? (?:and |und )?(?:not|nicht) (?P<old>{_N})(?: {_PEOPLE})?$"
)
"""So many, not as many as was said ("we're 14 not 8")."""
_NO_CORE_BELOW_C = 45.0
"""Meat read above this is not corrected to a figure of guests [°C]."""
_TABLE = 40
"""Corrected guests without their word are not more than this; house rule."""


def _counted_anew(plain: str, context: Context) -> GuestsSaid | None:
    """Return how many eat after all, where neither figure can be a reading that is put right."""
    found = _NOT_SO_MANY.match(plain)
    if found is None or not 0 < int(found["n"]) <= _MOST:
        return None
    named = re.search(rf"\b{_PEOPLE}\b", plain) is not None
    hot = context.last_core_c is None or context.last_core_c > _NO_CORE_BELOW_C
    small = max(int(found["n"]), int(found["old"])) <= _TABLE and (context.unit == "F" or hot)
    return GuestsSaid(adults=int(found["n"])) if named or small else None


def headcount(heard: str, text: str, context: Context) -> Intent | None:
    """Return who eats by bare figures, or the question whether they are guests or an hour; None for other words."""
    named = re.search(rf"\b{_PEOPLE}\b", heard) is not None
    opened = any(step.step == "headcount" for step in context.open_steps)
    waits = bool(asked(context)) or any(step.step != "headcount" for step in context.open_steps)
    if context.stage == "none" or context.setup_slot is not None or heard.endswith("?") or "°" in heard:
        return None
    if (anew := _counted_anew(heard.strip(" .!"), context)) is not None:
        return anew
    if not named and (context.stage != "before" or (waits and not opened)):
        return None
    plain = heard.strip(" .!~")
    if (found := _RANGE.match(plain)) is not None:
        low, high = sorted((int(found["low"]), int(found["high"])))
        likely = 0 < low < high <= min(_MOST, 3 * low)
        return GuestsSaid(adults=high, fewest=low) if likely else None
    if (found := _ABOUT.match(plain)) is None or named:
        return None
    n, about = int(found["n"]), bool(found["ish"] or found["lead"])
    if not 0 < n <= _MOST:
        return None
    by_hours = found["n"] in text and n <= _NOON and not opened and _ONLY_ABOUT.fullmatch(found["lead"])
    if by_hours or (bare(text) == found["n"] and n <= _HOURS):
        return _guests_or_hour(n, text, context)
    return GuestsSaid(adults=n) if opened or about else None


def _guests_or_hour(n: int, text: str, context: Context) -> Unclear:
    """Return the question whether a bare figure is guests or the hour of dinner."""
    said = serving_said(f"at {n}", context)
    dinner = () if said is None else (("dinner", MoveDinner(serving=said.serving)),)
    options: tuple[tuple[str, Intent], ...] = (("guests", GuestsSaid(adults=n)), *dinner)
    return Unclear(question="guests_or_time", text=text, values=(float(n),), options=options)
