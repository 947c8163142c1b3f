"""Words about what was done to meat before it was bought or cooked: injected, tenderised, rolled, stuffed, or nothing.

It finds them; which minimum follows is decided elsewhere.
"""

from __future__ import annotations

import dataclasses
import re

from bot.commands import TreatedSaid
from bot.conversation.parsing.words import cut_out
from scheduler.facts import Treatment

_HOW = (
    (
        Treatment.TENDERISED,
        re.compile(
            r"\b(?:(?:mechanically|needle|blade|machine)[- ])?tenderi[sz]ed\b"
            r"|\b(?:needled|bladed)\b|\b(?:blade|needle)[- ]?tenderi[sz](?:er|ing)\b|\bcubed steak\b"
        ),
    ),
    (
        Treatment.INJECTED,
        re.compile(
            r"\b(?:pre-?)?injected(?: with (?:brine|marinade|broth|stock|butter))?\b|\bpumped\b(?= ?(?:[,.;]|with|$"
            r"|meat|pork|beef|chicken|turkey|ham))|\b(?:brine|marinade)[- ](?:injected|pumped)\b"
            r"|\b(?:contains?|with|has|plus) (?:up to )?[0-9]{1,2}(?:[.,][0-9])? ?(?:%|per cent|percent) (?:of )?"
            r"(?:a )?(?:solution|brine|broth|marinade|water|added (?:water|solution))\b"
            r"|\benhanced with\b|\bself[- ]bast(?:ed|ing)\b|\badded (?:solution|water|brine)\b"
        ),
    ),
    (
        Treatment.ROLLED,
        re.compile(
            r"\b(?:(?:de)?boned(?: out)? and |boneless and )?rolled(?: and tied| and stuffed)?\b"
            r"(?! (?:the|up|out|in|over|it))"
            r"|\bbone[- ]?less,? rolled\b|\brolled roast\b"
        ),
    ),
    (Treatment.STUFFED, re.compile(r"\bstuffed(?: with [a-z]+)?\b|\bwith (?:a |the )?stuffing (?:inside|in it)\b")),
    (Treatment.GROUND, re.compile(r"\b(?:minced|mincemeat|ground (?:beef|pork|lamb|meat|chicken|turkey))\b")),
)
_NOTHING = re.compile(
    r"\b(?:(?:it|they|meat|cut)(?:'s| is| are|'re) )?(?:intact|untreated|plain(?: meat)?,? (?:with )?nothing done"
    r"(?: to it)?|nothing (?:was |has been |is )?(?:done|injected|tenderi[sz]ed)(?: to (?:it|the meat))?"
    r"(?: (?:or|and) (?:injected|tenderi[sz]ed|rolled|stuffed))*"
    r"|as (?:it was |it is )?cut(?:,? nothing done)?|not (?:injected|tenderi[sz]ed|treated|rolled|stuffed)"
    r"(?:,? (?:or|nor|and not) (?:injected|tenderi[sz]ed|rolled|stuffed))*|whole muscle|in one piece,? nothing done)\b"
)
_NOT = re.compile(r"\b(?:not|isn't|wasn't|aren't|never|un|no|nothing)[ -]?$")
_DATED = re.compile(r" (?:it |them )?(?:at|@|around|about|by|since) ?[0-9]")
"""A deed with its time stays in the text: it is no time of dinner."""
_IT_IS = re.compile(
    r"\b(?:it'?s|its|it|is|are|was|were|been|has|have|they'?re|they|the|this|that|meat|piece|one|my|our|a|an|and|also"
    r"|by the way|from the|shop|butcher|label|says|said|so|bought|already|all|of|them|both|to|note|last night|yesterday"
    r"|this morning|today|i|we|myself|ourselves|pork|beef|lamb|chicken|turkey|bird|roast|joint)\b"
)


@dataclasses.dataclass(frozen=True, kw_only=True)
class TreatedFound:
    """What was done to the meat, and the text with those words blanked."""

    said: TreatedSaid
    rest: str


def treated_in(heard: str) -> TreatedFound | None:
    """Return what a tidied text tells was done to the meat, None when it tells nothing."""
    nothing = [found.span() for found in _NOTHING.finditer(heard)]
    rest = cut_out(heard, nothing)
    spans: list[tuple[int, int]] = []
    how: list[Treatment] = []
    for treatment, pattern in _HOW:
        for found in pattern.finditer(rest):
            if _NOT.search(rest[: found.start()]):
                continue
            how.append(treatment)
            if not _DATED.match(rest[found.end() :]):
                spans.append(found.span())
    if not how and not nothing:
        return None
    return TreatedFound(said=TreatedSaid(treatments=tuple(dict.fromkeys(how))), rest=cut_out(rest, spans))


def only_treated(heard: str) -> TreatedSaid | None:
    """Return what was done to the meat when a text says nothing else ("it's injected", "rolled and tied")."""
    found = treated_in(heard)
    if found is None:
        return None
    left = _IT_IS.sub(" ", found.rest.replace("|", " "))
    return None if re.search(r"[a-z0-9]", left) else found.said
