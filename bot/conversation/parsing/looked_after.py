"""Words by which a danger about somebody is over: about just that, by name. "Fine" or "the fire is out" is none.

Values in, values out; what stands is told by the context.
"""

from __future__ import annotations

import re

from bot.commands import OF_FLAMES, OF_PEOPLE
from bot.conversation.context import Context
from bot.conversation.parsing.trouble_words_foreign import plain
from bot.conversation.parsing.words import bare, phrases

_WELL = (
    r"(?:looked after|treated|cooled|bandaged|dressed|fine|ok|okay|well|better|safe|versorgt|verbunden|gut|besser"
    r"|at the doctor|in hospital|at the hospital)"
)
_LIMB = r"(?:hands?|fingers?|thumb|arm|leg|foot|feet|face)"
_NOT = re.compile(r"\b(?:not|isn't|isnt|no better|never|nicht|kein\w*|still)\b")
_ENDS: dict[str, re.Pattern[str]] = {
    "burn": phrases(
        rf"\b(?:burns?|brandwunde|verbrennung)\b.*\b{_WELL}\b", rf"\b{_LIMB} (?:is|are|ist) (?:\w+ )?{_WELL}\b"
    ),
    "co_symptom": phrases(r"\b(?:headache|dizziness|nausea|kopfweh|kopfschmerzen)\b.*\b(?:gone|over|better|passed"
    r"|weg)\b"),
    "cooker_indoors": phrases(
        r"^(?:it|its|it's|the |grill|cooker|smoker|is|now|back|der|steht|ist|wieder| )+ (?:outside|outdoors|out"
        r"|draussen)"
        r"(?: again| now| wieder)*$"
    ),
    "choking": phrases(r"\bbreath(?:es|ing) (?:again|fine|normally|ok)\b|\bcoughed it (?:out|up)\b|\batmet wieder\b"),
    "collapsed": phrases(
        r"\b(?:awake|conscious|breathing|came round|up) ?(?:again|now|fine|normally)?$|\bcame to$|\bwieder (?:wach"
        r"|da)\b"
    ),
    "cut": phrases(
        r"\b(?:bleeding|blood)\b.*\bstopped\b|\bstopped bleeding\b|\b(?:cut|schnitt)\b.*\b" + _WELL + r"\b"
        r"|\bblutung steht\b"
    ),
    "guest_ill": phrases(rf"\b(?:guests?|kids?|child|gast|kind)(?:'s)? (?:\w+ )?{_WELL}\b|\bsickness is over\b"),
    "allergic_reaction": phrases(r"\b(?:reaction|swelling)\b.*\b(?:over|gone|better|treated|down)\b"),
    "danger_unclear": phrases(
        r"\b(?:nobody|no one)(?:'s| is| was| got)? (?:\w+ )?(?:in danger|hurt|injured)\b|\bfalse alarm\b|\bno danger\b"
        r"|\bfehlalarm\b"
    ),
}  # fmt: skip
_ENDS["burn_severe"] = _ENDS["burn"]
_EVERYBODY = phrases(
    r"^(?:we |we're |they are |they're )?(?:everyone|everybody|all|alle)(?:'s| is| are| sind)? (?:\w+ )?"
    r"(?:out|safe|clear|fine|ok|okay|well|outside|draussen|wohlauf)(?: now| again| outside| and well| and fine)*$"
)
_OF_EVERYBODY = frozenset({"co_symptom", "cooker_indoors", "danger_unclear"})
_HELP = phrases(
    r"\b(?:ambulance|paramedics?|doctor|medics?|notarzt|krankenwagen)(?: is| are| ist)? (?:here|there|has arrived"
    r"|arrived"
    r"|da|took (?:him|her|them))\b"
)
_FLAMES_OUT = phrases(
    r"^(?:the |all |that )*(?:fire|flames?|house|hut|shed|hedge|fence|grass|fat|it)(?:'s| is| are| has"
    r"| have)* (?:all |now )*"
    r"(?:out|gone out|put out|stopped burning|not burning any ?more)(?: now| again)*$|^(?:we )?put it out$"
)


def looked_after(heard: str, text: str, context: Context) -> str | None:
    """Return which danger that stands is over by these words, None when they say so of none."""
    words, typed = bare(heard), bare(plain(text))
    standing = [one for one in context.troubles if one in OF_PEOPLE]
    if not standing or _NOT.search(words) or heard.endswith("?"):
        return None
    by_name = [one for one in standing if _ENDS[one].search(words) or _ENDS[one].search(typed)]
    if by_name:
        return by_name[-1]
    if _EVERYBODY.match(words) or _EVERYBODY.match(typed):
        of_all = [one for one in standing if one in _OF_EVERYBODY]
        return of_all[-1] if of_all else None
    alone = [one for one in standing if one not in _OF_EVERYBODY]
    if _HELP.search(words) or _HELP.search(typed):
        return alone[-1] if alone else None
    return alone[0] if len(alone) == 1 and _somebody_is_well(words, context) else None


def _somebody_is_well(words: str, context: Context) -> bool:
    """Return whether words say of one person that they are well again, by name."""
    names = "|".join(re.escape(bare(name.casefold())) for name in context.people if bare(name.casefold()))
    who = rf"(?:{names}|he|she|kid|child|guest)" if names else "(?:he|she|kid|child|guest)"
    return bool(re.search(rf"^(?:the )?{who}(?:'s| is) (?:\w+ )?{_WELL}(?: now| again)*$", words))


def flames_out(heard: str, context: Context) -> str | None:
    """Return what burned, other than the fire of the cooker, and is out by these words; None when nothing did."""
    burning = [one for one in context.troubles if one in OF_FLAMES]
    return burning[-1] if burning and _FLAMES_OUT.match(bare(heard)) else None


def about_the_fire(heard: str) -> bool:
    """Return whether words say that a fire is out: they end nothing that was told of people."""
    return bool(_FLAMES_OUT.match(bare(heard)))
