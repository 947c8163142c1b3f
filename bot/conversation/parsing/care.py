"""Words about who eats and where: guests at risk, allergies, public or paid meals, or nobody special.

It finds them; what they change is decided elsewhere.
"""

from __future__ import annotations

import dataclasses
import re

from bot.commands import UNNAMED, CareSaid
from bot.conversation.parsing.allergies import allergies_in
from bot.conversation.parsing.time_words import NUMBER_WORDS
from bot.conversation.parsing.words import cut_out, phrases

_NO = r"(?:no|not|nobody|no ?one|none|neither|nor|without|isn't|aren't)"
_NUMBER = r"(?:[0-9]{1,2}|" + "|".join(sorted(NUMBER_WORDS, key=len, reverse=True)) + r")"
_SOMEBODY = (
    r"(?:mum|mom|mother|dad|father|gran|granny|grandma|nan|nana|grandmother|grandpa|grandad|granddad|grandfather|aunt"
    r"|auntie|uncle|wife|husband|partner|sister|brother|cousin|friend|neighbou?r|guest|guests|man|woman|lady|somebody"
    r"|someone|one of (?:us|them|the guests)|she|he)"
)
_CHILD = r"(?:kids?|child|children|son|daughter|boy|girl|grandson|granddaughter|nephew|niece|little one)s?"
_AGE_OLD = r"(?:6[5-9]|[789][0-9]|10[0-9])"
_AT_RISK = phrases(
    r"\b(?:pregnant|pregnancy|expecting (?:a )?(?:baby|child|twins))\b",
    rf"\b{_SOMEBODY}(?:'s| is| are)? expecting\b(?! (?:us|you|me|guests?|dinner|food|people|a (?!baby|child)|the|it"
    rf"|rain))",
    r"\b(?:baby|babies|infants?|toddlers?|newborns?)\b(?! ?-?backs?\b)",
    rf"\b(?:(?:{_NUMBER} )?{_CHILD} )?(?:under|below|younger than) (?:the age of )?(?:five|5|four|4|three|3|two|2)"
    r"(?: years?(?: old)?)?\b(?! ?(?:h|hours?|min|kg|lb|%|°|pm|am|:))",
    rf"\b{_CHILD} (?:is |are |aged? )+(?:[0-4]|one|two|three|four)\b(?! ?(?:hours?|kg))",
    rf"\b(?:[0-4]|one|two|three|four)[- ]years?[- ]olds?\b|\b(?:{_AGE_OLD})[- ]years?[- ]olds?\b",
    rf"\b{_SOMEBODY}(?:'s| is| are| aged?| turns| turned)+ (?:over |nearly |almost )?{_AGE_OLD}\b(?! ?[fc]\b)",
    rf"\bover (?:6[05]|7[05]|80)s\b|\bpeople (?:over|above) {_AGE_OLD}\b",
    r"\b(?:elderly|pensioners|frail|care home|nursing home|(?:very )?old (?:people|folks?|guests?|lady|man|woman)"
    r"|older (?:people|folks?|guests?)|senior citizens|seniors)\b",
    r"\b(?:cancer|chemo(?:therapy)?|immuno?-?(?:compromised|suppressed|deficient)|weak(?:ened)? immune"
    r"|immune (?:system|problem)|transplant|dialysis|leuka?emia|hiv|diabet(?:es|ic)|liver disease|kidney disease)\b",
    rf"\b{_SOMEBODY}(?:'s| is| are| has been) (?:very |quite |rather |seriously |badly )?(?:ill|sick|poorly|unwell)\b",
    r"\b(?:guests?|people|someone|somebody|anybody|some) (?:is |are )?(?:at risk|vulnerable)\b|\bat[- ]risk (?:guests?"
    r"|people)\b|^at[- ]risk$|\bvulnerable (?:guests?|people)\b",
)
_AGES = re.compile(
    rf"\b{_CHILD}\b(?: (?:are |is )?(?:coming|there|here|too|with us))?(?: (?:are|is|aged?|of|ages))*[ ,:]+"
    r"(?P<ages>[0-9]{1,2}(?: ?(?:,|and|&|,? and) ?[0-9]{1,2})*)(?: years?(?: old)?| yo| y/o)?$"
)
"""Children with their ages: "kids coming, 4 and 6"."""
_GROWN_FROM, _SMALL_UNDER = 18, 5
_NOT_AT_RISK = phrases(
    rf"\b{_NO} (?:guests? |people |body |one )?(?:is |are )?(?:at risk|pregnant|vulnerable)\b",
    rf"\b{_NO} (?:pregnant|at[- ]risk|vulnerable|elderly|old|ill|sick) (?:guests?|people|ones?|women)\b",
    rf"\b{_NO} (?:babies|toddlers|infants|small children)\b",
    r"\b(?:everybody|everyone|all)(?:'s| is| are|'re)? (?:of (?:us|them) (?:is |are )?)?(?:fit|healthy|well|grown-?ups?"
    r"|(?:fit |healthy )?adults)(?: and (?:fit|healthy|well|adult))?\b",
)
_PUBLIC = phrases(
    r"\b(?:a |the )?public (?:supper|dinner|lunch|meal|event|party|barbecue|bbq|occasion|do)\b",
    r"\b(?:it'?s |it is |this is |we'?re |we are )(?:a )?public\b|^public$",
    r"\bopen to (?:the public|everybody|everyone|all)\b",
    r"\b(?:everyone|everybody|they|people|guests|each|all) pays?\b|\bpays? (?:us )?[0-9]+ (?:each|a head"
    r"|per (?:head|person))\b",
    r"\b(?:charg(?:e|es|ing)|taking|asking|collecting) (?:people |an? |for )*(?:entrance|entry|admission|fee|money"
    r"|[0-9]+ (?:each|a "
    r"head|per (?:head|person)))\b|\b(?:entrance|entry|admission) (?:fee|is|costs)\b",
    r"\btickets?(?: are| were)? (?:sold|sales?|\w+ each)\b|\bticketed\b|\bsold (?:tickets|by the plate)\b",
    r"\b(?:we |i )?sell(?:ing)? (?:tickets|plates|food|it|meals|sandwiches)\b",
    r"\b(?:village|church|school|town|summer|street|country|county) (?:fete|fair|fayre|supper|festival|party)\b",
    r"\bfete\b",
    r"\b(?:fund-?raiser|charity (?:do|supper|dinner|event|barbecue|bbq)|street food|food (?:stall|truck)|market stall"
    r"|pop-?up)\b",
    r"\b(?:paid|paying) (?:meal|supper|dinner|event|guests?|customers?)\b|\bguests? (?:pay|are paying)\b"
    r"|\b(?:cater(?:ing|ed)?) (?:for|event|job)\b|^catering$|\bwe cater\b",
)
_PRIVATE = phrases(
    r"\b(?:not|no|isn't) (?:a )?(?:public|paid)(?: or paid)?(?: (?:supper|dinner|meal|event|one))?\b",
    r"\b(?:a |it'?s |it is )?private (?:meal|party|dinner|supper|do|one)\b|^(?:it'?s )?private$",
    r"\b(?:just|only) (?:us|the family|family|friends|family and friends|friends and family)\b"
    r"|\b(?:family|friends) only\b|\bno(?:body|one)? (?:pays|tickets)\b",
)
_NOBODY = re.compile(
    r"^(?:no,? )?(?:none of (?:these|those|them|that|the above)|nobody(?: special| like that)?|no ?one(?: special)?"
    r"|nothing (?:special|like that)|none|nope|no|that(?:'s| is) all|that is everything|all (?:fine|clear))[.!]?$"
)
_PLAINLY_NOBODY = re.compile(
    r"^(?:none of (?:these|those|the above)|nobody (?:special|like that)|no ?one special)[.!]?$"
)
_OF_ONESELF = re.compile(r"\bi(?:'m| am| feel)\b[^,]*\b(?:ill|sick|unwell)\b")


@dataclasses.dataclass(frozen=True, kw_only=True)
class CareFound:
    """What is told of guests and occasion, and the text with those words blanked."""

    said: CareSaid
    rest: str


def nobody(heard: str, *, asked: bool) -> CareSaid | None:
    """Return that there is nobody special, when that is all of a text; short words only where it was `asked`."""
    if (_NOBODY if asked else _PLAINLY_NOBODY).match(heard.strip()):
        return CareSaid(all_told=True)
    return None


def care_in(heard: str, people: tuple[str, ...] = ()) -> CareFound | None:
    """Return what a tidied text tells of guests at risk, allergies and the occasion, None when it tells nothing."""
    said: dict[str, object] = {}
    rest = heard
    allergies = allergies_in(rest, people)
    if allergies is not None:
        said["allergies"] = allergies.what
        rest = cut_out(rest, list(allergies.spans))
    if (aged := _aged(rest, people)) is not None:
        said["at_risk"] = True
        rest = cut_out(rest, [aged])
    for name, no, yes in (("at_risk", _NOT_AT_RISK, _AT_RISK), ("public", _PRIVATE, _PUBLIC)):
        for pattern, value in ((no, False), (yes, True)):
            spans = [found.span() for found in pattern.finditer(rest) if not _OF_ONESELF.search(rest)]
            if spans:
                said[name] = value
                rest = cut_out(rest, spans)
    if not said:
        return None
    return CareFound(said=CareSaid.model_validate(said), rest=rest)


def ages_in(heard: str) -> CareSaid | bool | None:
    """Return that small children eat, False for children with ages from five on, None when no ages are told."""
    found = _AGES.search(heard.strip(" .!"))
    ages = [] if found is None else [int(age) for age in re.findall(r"[0-9]+", found["ages"])]
    if not ages or max(ages) >= _GROWN_FROM:
        return None
    return CareSaid(at_risk=True) if min(ages) < _SMALL_UNDER else False


_MAYBE = (
    (
        "under_five",
        re.compile(r"^(?:there (?:are|will be)|we have|with|and)? ?(?:some |a few |the |lots of )?(?:small )?"
                   r"(?:kids|children|a child|a kid)(?: (?:too|are coming|coming|as well|there|will be there"
                   r"|eat with us))?$"),
        CareSaid(at_risk=True),
    ),
    (
        "public_or_paid",
        re.compile(r"^(?:it'?s |it is |this is )?(?:for )?(?:a |the |our )?(?:wedding|funeral|christening|church|club"
                   r"|school|company|works?|office|team|festival)(?: (?:party|do|supper|dinner|meal|event|lunch))?$"),
        CareSaid(public=True),
    ),
)  # fmt: skip


def perhaps_in(heard: str) -> tuple[str, CareSaid] | None:
    """Return the question that decides what words of guests or occasion mean, with what a yes says; else None."""
    plain = heard.strip(" .!")
    return next(((name, said) for name, pattern, said in _MAYBE if pattern.match(plain)), None)


def _aged(heard: str, people: tuple[str, ...]) -> tuple[int, int] | None:
    """Return where one of these people is said to be old ("Tomas is 82")."""
    names = "|".join(re.escape(name.casefold()) for name in people)
    found = re.search(rf"\b(?:{names}) is {_AGE_OLD}\b(?! ?[fc]\b)", heard) if names else None
    return None if found is None else found.span()


def named_allergy(heard: str, people: tuple[str, ...], *, own_words: bool = False) -> CareSaid | None:
    """Return the allergy that was asked for, from a text that only names it ("nuts, Wren"); a food that is not known
    only where `own_words` are to count.
    """
    words = heard.strip(" .!,")
    if not words or re.search(r"[0-9?|]", words) or len(words.split()) > _MOST_WORDS:
        return None
    found = allergies_in(f"allergies: {words}", people, own_words=own_words)
    return None if found is None or found.what in ((), (UNNAMED,)) else CareSaid(allergies=found.what)


_MOST_WORDS = 10
"""More words than this name no allergy."""
