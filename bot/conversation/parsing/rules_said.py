"""Words about the published rules that count, and about the rule by which a piece is safe.

It finds them; whether the choice may be made is decided elsewhere.
"""

from __future__ import annotations

import re

from bot.commands import EditionSaid, SafeBySaid
from scheduler.facts import Edition, SafeBy

_EDITIONS = (
    (Edition.FOOD_CODE, re.compile(r"^(?:the |fda )*(?:food[- _]?code|professional|restaurant|kitchen)(?: rules?)?$")),
    (
        Edition.CONSUMER,
        re.compile(r"^(?:the |usda |fsis )*(?:consumers?|home|household|usda|fsis)(?: rules?| advice)?$"),
    ),
    (
        Edition.STRICTER,
        re.compile(r"^(?:the )?(?:stricter|strict|strictest|safest|default|usual)(?: rules?| of (?:the )?two)*$"),
    ),
)
_RULES = re.compile(
    r"^(?:please )?(?:/?rules? ?(?::|=| are| is|to)? ?(?P<a>[a-z _-]+)"
    r"|(?:use|follow|go by|take|switch to|by) (?:the )?(?P<b>[a-z _-]+?(?: rules?|[ _-]code|advice)))[.!]?$"
)
_BARE_RULES = re.compile(r"^/?(?:which )?(?:food |safety )?rules(?: count)?\??$")
_LEAD = (
    r"^(?:please )?(?:i |we )?(?:(?:want|choose|use|take|go|go by|back to|stay with|make it|i'd like)(?: to)?"
    r"(?: be| go| use)? )?(?:it )?(?:safe )?(?:by )?(?:the )?"
)
_TIME = re.compile(
    rf"{_LEAD}(?:time at (?:a lower )?temperature|time and temperature|time[- ]temperature(?: table)?|equivalence"
    r"|lethality|safe by time)[.!]?$|^(?:it(?:'s| is) )?safe by time[.!]?$"
)
_MINIMUM = re.compile(rf"{_LEAD}(?:published |safe )*minimum(?: temperature| rule)?[.!]?$")


def edition_named(text: str) -> Edition | None:
    """Return the edition that a few words name ("food code", "consumer", "stricter"), None when they name none."""
    plain = " ".join(re.sub(r"[_-]+", " ", text.casefold()).split())
    return next((edition for edition, pattern in _EDITIONS if pattern.match(plain)), None)


def rules_said(heard: str) -> EditionSaid | SafeBySaid | None:
    """Return what a whole tidied text chooses of rules, None when it chooses none."""
    heard = heard.strip()
    if _TIME.match(heard):
        return SafeBySaid(by=SafeBy.EQUIVALENCE)
    if _MINIMUM.match(heard):
        return SafeBySaid(by=SafeBy.MINIMUM)
    if _BARE_RULES.match(heard):
        return EditionSaid()
    if (edition := _named_alone(heard)) is not None:
        return EditionSaid(edition=edition, given=heard)
    found = _RULES.match(heard)
    if found is None:
        return None
    given = (found["a"] or found["b"] or "").strip()
    edition = edition_named(given)
    if edition is None and found["b"]:
        return None  # "use the low rules" is of something else
    return EditionSaid(edition=edition, given=given)


def _named_alone(heard: str) -> Edition | None:
    """Return the edition that a text only names, "stricter rules"; a bare "home" or "usual" names none."""
    return edition_named(heard) if re.search(r"\brules$|\bfood code$", heard) else None
