"""Words about what was done to meat before it was bought or cooked: injected, tenderised, rolled, stuffed, or nothing.

It finds them; which minimum follows is decided elsewhere.
"""

from __future__ import annotations

import dataclasses
import re

from bot.commands import TreatedSaid
from bot.conversation.parsing.words import cut_out
from scheduler.facts import Treatment

_THING = (
    r"(?:it|them|this|these|everything|(?:the |my |our |some )?(?:whole )?(?:meat|pork|beef|lamb|chicken|turkey"
    r"|bird|roast"
    r"|joint|leg|shoulders?|butts?|brisket|loin|ribs?|steaks?|breasts?|thighs?|ham|tri[- ]?tip|cut|piece))"
)
_NOUN = re.compile(
    r"\b(?:whole )?(?:pork|beef|lamb|chicken|turkey|leg|shoulders?|butts?|brisket|loin|ribs?|steaks?|breasts?"
    r"|thighs?|ham"
    r"|tri[- ]?tip|roast)\b"
)
"""Names of meat that a set-up has to find again."""
_TOOL = r"(?:forks?|needles?|knife|knives|skewers?|blades?|spikes?|pins?|tenderi[sz]er|injector|syringe)"
_MEANT = r"(?:will|'ll|going to|gonna|want to|plan to|about to|have to|shall)"
_HOW = (
    (
        Treatment.TENDERISED,
        re.compile(
            rf"\b(?:(?:mechanically|needle|blade|machine)[- ])?tenderi[sz]ed\b(?: {_THING})?(?: with (?:a "
            rf"|the )?[a-z]+)?"
            rf"|\b(?:needled|bladed)\b(?: {_THING})?|\b(?:blade|needle)[- ]?tenderi[sz](?:er|ing)\b"
            rf"|\bcubed steak\b"
            rf"|\b{_MEANT} (?:needle|tenderi[sz]e)\b(?: {_THING})?"
            rf"|\b(?:stabbed|poked|pricked|pierced|punctured|perforated|forked|docked)\b(?: (?:holes|slits))?"
            rf"(?: (?:in|into|through))?(?: {_THING})?(?: all over)?(?: with (?:a |the |my )?{_TOOL})?"
            rf"|\b(?:holes|slits) (?:poked |stabbed |pricked |cut )?(?:all over|in|into) {_THING}"
        ),
    ),
    (
        Treatment.INJECTED,
        re.compile(
            rf"\b(?:pre-?)?(?:injected|inject(?:ing)?)\b(?: {_THING})?(?: with(?: (?:a|some|the|apple|cider|chicken"
            rf"|beef"
            r"|garlic|butter))? [a-z]+(?: (?:juice|vinegar|stock|broth|brine|butter|marinade|mix))?)?"
            rf"|\bpumped\b(?: {_THING})?(?: (?:up|full))?(?: (?:with|of) [a-z]+| {_THING})?"
            r"|\b(?:brine|marinade)[- ](?:injected|pumped)\b|\b(?:by|with an?|used an?) (?:injection|injector"
            r"|syringe)\b"
            r"|\b(?:(?:contains?|with|has|plus|in|says?) )?(?:up to )?[0-9]{1,2}(?:[.,][0-9])? ?(?:%|per cent|percent) "
            r"(?:of )?(?:a )?(?:salt |added )*(?:solution|brine|broth|marinade|water)\b"
            r"|\benhanced\b(?: with(?: a)? [a-z]+)?|\bself[- ]bast(?:ed|ing)\b|\badded (?:solution|water|brine)\b"
            r"|\bplumped\b"
        ),
    ),
    (
        Treatment.ROLLED,
        re.compile(
            r"\b(?:(?:de)?boned(?: out)? and |boneless and )?rolled(?: and tied| and stuffed)?\b"
            r"(?! (?:the|up|out|in|over|it|them|a|my|our|this))|\bbone[- ]?less,? rolled\b|\brolled roast\b"
            rf"|\brolled {_THING}(?: up)?(?: into a (?:roll|log))?(?: and tied(?: it)?)?(?! (?:up )?(?:in|out|over"
            rf"|into)\b)"
            rf"|\b(?:tied|rolled|netted)(?: {_THING})?(?: up)? (?:into|in|as) a (?:roll|log)\b"
            r"|\b(?:boneless|boned)(?: out)? and (?:tied|netted)\b|\b(?:tied|netted) (?:roast|joint|shoulder|leg)\b"
        ),
    ),
    (
        Treatment.STUFFED,
        re.compile(
            rf"\bstuffed\b(?: {_THING})?(?: with (?:the |some )?[a-z]+(?: and [a-z]+)?)?"
            r"|\bwith (?:a |the )?stuffing (?:inside|in it)\b|\bstuffing (?:is )?(?:inside|in)\b"
        ),
    ),
    (Treatment.GROUND, re.compile(r"\b(?:minced|mincemeat|ground (?:beef|pork|lamb|meat|chicken|turkey))\b")),
)
_NO_TREATMENT = re.compile(
    r"\b(?:i'm|i am|we're|we are|everyone(?:'s| is)|everybody(?:'s| is)|all|feel(?:ing)?|so) (?:\w+ )?(?:stuffed"
    r"|pumped)\b"
    r"|\b(?:stabbed|poked|pierced|pricked)\b[^,]*\b(?:probes?|thermometer|thermo|fire|coals?|charcoal|finger|thumb"
    r"|hand|eye)\b"
    r"|\b(?:pumped|rolled|stuffed)\b[^,]*\b(?:tyres?|tires?|ball|pool|water out|gas|grill|cooker|cart|towel|foil"
    r"|blanket"
    r"|napkins?|dough|bread|sleeves?|eyes?|fridge|cooler|box|bin)\b"
)
"""The same words of people, fires and other things."""
_LIKE_A_TREATMENT = re.compile(
    r"\b(?:pounded|hammered|beaten|flattened|tumbled|massaged in a (?:drum|tumbler)|processed|treated|prepared by"
    r"|reformed"
    r"|restructured|tied|netted|butterflied|scored deep|larded|vacuum tumbled|water added|pre-?marinated|shop marinated"
    r"|tenderi[sz]e)\b"
)
"""Words that may mean a treatment: it is asked which."""
_MEAT = re.compile(rf"\b{_THING}\b")
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
    places: tuple[int, ...]
    """Where each of those words begins."""


def treated_in(heard: str) -> TreatedFound | None:
    """Return what a tidied text tells was done to the meat, None when it tells nothing."""
    if _NO_TREATMENT.search(heard):
        return None
    nothing = [found.span() for found in _NOTHING.finditer(heard)]
    rest = cut_out(heard, nothing)
    spans: list[tuple[int, int]] = []
    places = [start for start, _end in nothing]
    how: list[Treatment] = []
    for treatment, pattern in _HOW:
        for found in pattern.finditer(rest):
            if _NOT.search(rest[: found.start()]):
                continue
            how.append(treatment)
            places.append(found.start())
            if not _DATED.match(rest[found.end() :]):
                spans += _without_nouns(rest, *found.span())
    if not how and not nothing:
        return None
    return TreatedFound(
        said=TreatedSaid(treatments=tuple(dict.fromkeys(how))), rest=cut_out(rest, spans), places=tuple(places)
    )


def _without_nouns(heard: str, start: int, end: int) -> list[tuple[int, int]]:
    """Return the parts of a span that are no name of the meat: "stuffed whole turkey" leaves its turkey in the text."""
    head = heard.find(" with ", start, end)
    nouns = [found.span() for found in _NOUN.finditer(heard, start, end if head < 0 else head)]
    edges = [start, *(edge for noun in nouns for edge in noun), end]
    return [(left, right) for left, right in zip(edges[::2], edges[1::2], strict=True) if left < right]


def only_treated(heard: str) -> TreatedSaid | None:
    """Return what was done to the meat when a text says nothing else ("it's injected", "rolled and tied")."""
    found = treated_in(heard)
    if found is None:
        return None
    left = _IT_IS.sub(" ", found.rest.replace("|", " "))
    return None if re.search(r"[a-z0-9]", left) else found.said


def like_treated(heard: str) -> str | None:
    """Return the word of a tidied text about meat that may mean a treatment, None when there is none or it is known."""
    found = _LIKE_A_TREATMENT.search(heard)
    if found is None or _NO_TREATMENT.search(heard) or _NOT.search(heard[: found.start()]) or not _MEAT.search(heard):
        return None
    return None if treated_in(heard) is not None else found.group()
