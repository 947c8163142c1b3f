"""Words about the meat itself: what it is wrapped in, and what the probe or the fingers feel.

It says what the words mean; whether a wrap is the one on the fire or the rest, the stage decides in the interpreter.
"""

from __future__ import annotations

import dataclasses
import re

from bot.commands import FeelSaid
from bot.conversation.parsing.numbers import SOME_OF, SPOT_WORDS, how_many
from bot.conversation.parsing.words import phrases
from scheduler.facts import Feel, Wrap

_KINDS = (
    (Wrap.BOAT, re.compile(r"\bboat(?:ed|ing)?\b|\bfoil boat\b")),
    (
        Wrap.PAPER,
        re.compile(
            r"\b(?:butcher'?s? paper|pink paper|baking paper|paper|parchment"
            r"|greaseproof(?: paper)?|papier|papel|backpapier)\b"
        ),
    ),
    (
        Wrap.FOIL,
        re.compile(r"\b(?:foil(?:ed)?|tin ?foil|aluminium|aluminum|alu(?:folie)?|folie|aluminio|crutch(?:ed)?)\b"),
    ),
)
_BARE = phrases(
    r"^(?:we'?re |we are |i'?m |am )?not (?:gonna |going to )?wrap(?:ping)?(?: (?:it|this|them|at all|today|this"
    r" one))*$",
    r"\bunwrapped\b|\bto the end\b.*\b(?:bare|open)\b|^(?:leave|leaving|keep|keeping) it (?:bare|open|naked"
    r"|unwrapped)\b",
    r"\bno wrap(?:ping)?\b",
    r"\bnaked\b",
    r"\bbare\b",
    r"\bunwrapped\b",
    r"\bnot (?:going to |gonna )?wrap(?:ping)?(?: (?:it|them|at all|today|tonight|this))",
    r"\bwithout (?:a |any )?wrap\b",
    r"\b(?:won't|wont|don't|dont) wrap\b",
    r"\bleave it (?:open|as is)\b",
    r"\bnackt\b",
    r"\bsin envolver\b",
    r"\bohne\b",
)
_UNWRAPPED = phrases(
    r"\bunwrap(?:ped|ping)?\b",
    r"\b(?:took|taken|taking|take|ripped|opened) (?:(?:it|them) out of )?(?:the |its )?(?:foil|paper|wrap)\b",
    r"\b(?:foil|paper|wrap)(?:'s| is)? off\b",
    r"\bout of the (?:foil|paper|wrap)\b",
)
_DID = phrases(
    r"\bwrapped\b",
    r"\bwent\b",
    r"\bused\b",
    r"\bboated\b",
    r"\bfoiled\b",
    r"\bcrutched\b",
    r"\bwrapping (?:it |them )?now\b",
    r"\b(?:is|it's|they're|now) in (?:the )?(?:paper|foil)\b",
    r"\bin (?:the )?(?:butcher |pink )?(?:paper|foil|boat)\b",
    r"\bpuse\b",
    r"\b(?:ist|sind|jetzt) in\b",
    r"\beingewickelt\b",
    r"\beingepackt\b",
    r"\bemballe\b",
    r"\benvuelt[oa]s?\b",
    r"\bhecho\b",
    r"\bdone\b",
    r"\bit'?s wrapped\b",
)
_WILL = phrases(
    (
        r"\b(?:will|gonna|going to|about to|let's|lets|plan(?:ning)?|thinking|think|want|maybe"
        r"|should|i'll|we'll|later|prefer|would|getting ready)\b"
    ),
    r"\bgoing (?:with |for )?(?:paper|foil|boat)\b",
    r"\bgo (?:with |for )?(?:paper|foil|boat)\b",
)
_NOT_YET = phrases(
    r"\bno wrapping (?=yet\b)|\b(?:no (?:yet )?wrapped|not (?:yet )?(?:wrapped|wrapping))\b(?! (?:today|tonight"
    r"|at all|this|ever|it at all|any))",
    r"\b(?:haven't|havent|hasn't|didn't) (?:\w+ )?wrap(?:ped)?\b",
    r"\bnot wrapped\b",
)
_WRAPPED = phrases(
    r"\b(?:re)?wrapped\b",
    r"\bwrapping (?:it|them) now\b",
    "^wrapping(?: now)?$",
    r"\beingewickelt\b",
    r"\beingepackt\b",
    r"\bemballe\b",
    r"\benvuelt[oa]s?\b",
)
_NEVER = re.compile(
    r"^(?:(?:we'?re|we are|i'?m|am|no|nah|nope|think|probably|decided|definitely|just)[ ,]+)*not (?:gonna |going to"
    r" )?wrap(?:ping)?"
    r"(?: (?:it|this|them|at all|today|tonight|this one|this time|anything|any of it))*$"
)
"""Not wrapping is a choice; not wrapped is how it is."""
_LOOKING = re.compile(r"\b(?:out of|ran out of|no more|need|buy|get) (?:\w+ )?(?:paper|foil)\b")


@dataclasses.dataclass(frozen=True, kw_only=True)
class WrapWords:
    """What was said about wrapping. `done` None: only the kind, neither done nor planned."""

    wrap: Wrap | None
    done: bool | None
    not_yet: bool = False


def wrap_words(clause: str) -> WrapWords | None:
    """Return what a clause says about wrapping, or None."""
    if _NEVER.match(clause):
        return WrapWords(wrap=Wrap.NONE, done=True)
    if _NOT_YET.search(clause):
        return WrapWords(wrap=None, done=False, not_yet=True)
    if _BARE.search(clause) or _UNWRAPPED.search(clause):
        return WrapWords(wrap=Wrap.NONE, done=True)
    said = _LOOKING.sub("", clause)
    kind = next((wrap for wrap, pattern in _KINDS if pattern.search(said)), None)
    if kind is None and not _WRAPPED.search(said):
        return None
    if _WILL.search(said):
        return WrapWords(wrap=kind, done=False)
    return WrapWords(wrap=kind, done=True if _DID.search(said) or _WRAPPED.search(said) else None)


_TENDER = (
    r"(?:butter\w*|buttr|tender|probe[- ]tender|done done|jiggl\w+|wobbl\w+|bends?|bending"
    "|cracks?|cracked|cracking|bent|fall(?:s|ing) (?:apart|off)|loose|wiggles?(?: free)?"
    "|(?:bones? )?(?:wiggles?|twists?|pulls?|comes?|slides?)(?: out| right)? (?:clean|free|out)|pull(?:s|ed|ing)? back"
    "|(?:probe )?(?:just |basically )?(?:falls?|drops?|glides?|melts?|sinks?|goes|slips|slides?) (?:right |straight"
    " |just )*(?:in"
    "|through)\\b|jello"
    "|slid(?:es?|ing|s)? (?:right |straight |all the way )?in|slid in|goes (?:right "
    "|straight )?in|slides?|no (?:resistance|grip)|without resistance|easy in|soft|zart|weich"
    "|wie butter|tierno|mantequilla|tendre|like (?:nothing |warm |soft |room temp |poking |cutting |stabbing |going"
    " into |through |into |a |hot |melted |set )*(?:butter|jelly"
    "|jello|nothing|pudding|cream cheese|peanut butter"
    "|a hot knife))"
)
_TIGHT = (
    "(?:tough|tight|rubbery|chewy|stiff|hard|grabs?|grabbing|grips|gripping|resist(?:s|ance"
    "|ing)?|resisting|fight(?:s|ing)?(?: me| back| it)?|pushes back|push back|leather(?:y)?|like (?:a |an |old "
    "|shoe )*(?:leather|boots?|tyre|tire"
    "|rubber|rock"
    "|brick|wood|jerky|concrete|sole|shoe)|firm|zah|duro|dure?|fest|not (?:going|sliding) in|won't go in|sticks)"
)
_ALMOST = (
    "(?:almost(?: there)?|not (?:far off|long now|far now)(?! ~?[0-9])|getting there|getting close"
    "|nearly(?: there)?|close"
    "|not quite"
    "(?: there)?|(?:some|a bit of|little) pull|some grip|(?:little|bit of|slight|touch of) (?:grip|resistance|drag"
    "|tug|bite)|coming along|fast(?:"
    " fertig)?|casi|presque|soon)"
)
_A_BIT = "(?:a (?:little|bit|touch|tad)(?: of)?|slight(?:ly)?|some|little|kinda|kind of|still some|somewhat)"
_NEGATED = re.compile(
    r"\b(?:not|isn't|isnt|aren't|ain't|n't|never|nicht|no esta|pas)(?: (?:yet|really|very|that"
    rf"|so|fully|all|probe))* (?:like )?{_TENDER}\b"
)
_FEEL_ALMOST = re.compile(rf"\b{_ALMOST}\b|\b{_A_BIT} {_TIGHT}\b")
_FEEL_TENDER = re.compile(rf"\b{_TENDER}\b")
_FEEL_TIGHT = re.compile(rf"\b{_TIGHT}\b")
_EXCEPT = re.compile(
    r"\b(?:except|apart from|besides|but not|all but|everywhere but|bis auf|excepto|sauf)\b(?:"
    r" for)?(?P<rest>.*)"
)
_PARTLY = re.compile(
    r"\b(?:mostly|mainly|largely|partly|partially|meistens|teilweise|in places|in parts"
    r"|(?:most|some|half|parts?|a (?:few|couple)) of (?:it|them|the (?:spots?|places|racks?|pieces|meat))"
    r"|(?:in|at) (?:most|some|half|a few|a couple of|several|one or two|one) (?:of the )?(?:spots?|places?|parts?)"
    r"|only (?:[a-z]+ )?(?:in|at|on) the|just (?:in|at|on) the|one side(?: only)?|on one side)\b"
)
"""Words that say that it is not so everywhere."""
_SPOT = re.compile(r"\b(" + "|".join(sorted(SPOT_WORDS, key=len, reverse=True)) + r")\b")


_BEHIND = re.compile(
    r"\b(?:not (?:yet|quite|there|so much|done|tender|ready|really)|isn't|is not|aren't|needs?|wants?|behind|lagging"
    r"|noch nicht|todavia no|aun no|pas encore)\b|\bnot$"
)


def spot_behind(clause: str, *, waits: bool) -> str | None:
    """Return the spot that a clause says is not there yet ("thick end not yet", or `waits`: a time to wait stands
    beside it), None where it says no such thing.
    """
    spot = _SPOT.search(clause)
    return SPOT_WORDS[spot[1]] if spot and (waits or _BEHIND.search(clause[spot.end() :])) else None


def feel_words(clause: str) -> tuple[FeelSaid, ...]:
    """Return what a clause says the meat feels like: nothing, one feel, or almost with the spot that is behind.

    "Like butter except the thick corner" is almost: the tightest spot decides when to test again.
    """
    if _FEEL_TENDER.search(clause) and _not_everywhere(clause) and _feel(clause) is Feel.TENDER:
        return (FeelSaid(feel=Feel.ALMOST),)
    exception = _EXCEPT.search(clause)
    if exception and (feel := _feel(clause[: exception.start()])) is not None:
        spot = _SPOT.search(exception["rest"])
        if feel is Feel.TENDER and spot:
            return (FeelSaid(feel=Feel.ALMOST), FeelSaid(feel=Feel.TIGHT, spot=SPOT_WORDS[spot[1]]))
        return (FeelSaid(feel=Feel.ALMOST if feel is Feel.TENDER else feel),)
    feel = _feel(clause)
    if feel is None:
        return ()
    spot = _SPOT.search(clause)
    return (FeelSaid(feel=feel, spot=SPOT_WORDS[spot[1]] if spot else None),)


def _not_everywhere(clause: str) -> bool:
    """Return whether a feel is told of a part of the spots or pieces alone ("slides in 2 of 3")."""
    counted = SOME_OF.search(clause)
    return _PARTLY.search(clause) is not None or (
        counted is not None and how_many(counted["some"]) < how_many(counted["all"])
    )


def _feel(clause: str) -> Feel | None:
    if re.search(r"\bno (?:resistance|grip)\b", clause):
        return Feel.TENDER
    if _FEEL_ALMOST.search(clause):
        return Feel.ALMOST
    if _NEGATED.search(clause) or _FEEL_TIGHT.search(clause):
        return Feel.TIGHT
    return Feel.TENDER if _FEEL_TENDER.search(clause) else None
