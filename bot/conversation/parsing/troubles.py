"""Problems that are reported unasked: the fire is out, the fuel is gone, the pit runs away, the probe is dead.

It names the problem; what to do about it is advice from elsewhere.
"""

from __future__ import annotations

import re

from bot.commands import OF_PEOPLE, Done, Intent, Note, Trouble, TroubleOver
from bot.conversation.context import Context
from bot.conversation.parsing.commands import questions
from bot.conversation.parsing.looked_after import about_the_fire, flames_out
from bot.conversation.parsing.readings import asked
from bot.conversation.parsing.steps import LATE_STAGES
from bot.conversation.parsing.telling import Telling
from bot.conversation.parsing.trouble_words import DANGERS, FIRE, GAUGES
from bot.conversation.parsing.trouble_words_danger import DIRT, MORTAL
from bot.conversation.parsing.trouble_words_foreign import FOREIGN, only_flames, plain
from bot.conversation.parsing.trouble_words_loud import PEOPLE_HURT, PLACES, UNCLEAR
from bot.conversation.parsing.trouble_words_meat import MEAT, PEOPLE
from bot.conversation.parsing.words import bare, phrases
from scheduler.facts import Slot

_PROBE = r"(?:probe|thermometer|thermo|sensor|gauge|reader|thermocouple|display)s?"
_PIT = r"(?:pit|smoker|cooker|grill|temps?|temperature|fire|it)"
_TROUBLES: tuple[tuple[str, re.Pattern[str]], ...] = (
    (
        "flare_up",
        phrases(
            r"\bflare[- ]?ups?\b",
            r"\bflaring\b",
            r"\b(?:big|huge|massive|high|tall|lots of|real|foot high|leaping) flames?\b",
            r"\b(?:is|it's|it is|meat's|ribs are|everything's) on fire\b",
            r"\bflames? (?:are|is|coming|shooting)\b",
            r"\bin flames\b",
        ),
    ),
    (
        "fire_out",
        phrases(
            (
                r"\bfire(?:'s| is| has| just| went| has gone|'s gone)*(?: just| went| gone| going| nearly| almost"
                r"| about| as good as| pretty much| burned"
                r"| burnt)* (?:out|dead|died|dying)\b"
            ),
            r"\b(?:fire|coals?|flame) (?:died|is dead|went out|went cold|has died)\b",
            r"\blost the fire\b|\bnothing(?:'s| is)? (?:glowing|burning|alight|left burning)\b",
            r"\b(?:burned|burnt) (?:right |all |completely |itself )*(?:out|away)$",
            r"\bfeuer (?:ist )?aus\b",
            r"\bfuego (?:se )?apagado\b",
            r"\bno fire\b(?![- ]?ban)",
            r"\bno more (?:fire|flames?|heat)\b",
            r"\bit went out\b",
            r"\b(?:coals?|embers|charcoal)(?:'s| is| are)? (?:all |completely |stone |gone |dead )*(?:dead|cold)\b"
            r"|\b(?:fire|pit|smoker|cooker)(?:'s| is| are|s)? (?:all |completely |stone |gone |dead )*(?:dead|cold"
            r"|gone|out)\b(?! (?:of|side|there|here|in the|on|by|yet|to|soon|now \d))(?=$|[,.! ]+(?:help|again|now"
            r"|guys|shit"
            r"|damn|wtf|lads|sos|sorry|and|what))",
            r"\b(?:embers|glow)(?: are| is)? (?:dead|gone|out)\b|\bno (?:embers|glow|heat left)\b|\bfire'?s? ?died\b",
        ),
    ),
    (
        "fuel_out",
        phrases(
            (
                r"\b(?:out of|outta|out off|ran out of|run out of|no more|no|used up (?:all )?(?:the "
                "|our )?) ?(?:coals?|charcoal|fuel|briquettes|briqs|lump|pellets|gas|propane"
                r"|firewood)\b(?! smell)"
            ),
            (
                r"\b(?:coals?|charcoal|fuel|briquettes|pellets|gas|propane)(?:'s| is| are| has| have)? "
                r"(?:all )?(?:gone|out|empty|ran out|run out|finished)\b"
            ),
        ),
    ),
    (
        "probe_dead",
        phrases(
            r"\b(?:it|reader|thermometer|probe|display) won't (?:turn|switch|power|come) on\b"
            r"|^[-_. ]*-(?:[-_. ])*-[-_. ]*$|^-{2,}",
            r"^(?:it |the |just |display |screen |it's |probe |keeps? |keep |kept |saying |showing |giving "
            r"|throwing |flashing |getting |me |now |only |all |still |got |get(?:ting)? |says "
            r"|shows |reads |reading"
            r" |an |a |i )*(?:err(?:or)?s?|e-?[0-9]|dashes|hhh+|lll+|nan|n/a|ol|no signal|no probe|blank|black screen"
            r"|low batt(?:ery)?)(?: (?:on (?:the |my )?(?:screen|display|reader|probe|thing)|again|now|only|message"
            r"|code|lol))*$",
            r"\b(?:screen|display|reader|thermometer|probe|readout|lcd)(?:'s|s| is| went| gone| goes| just| has|"
            r" all| gone)*"
            r" (?:blank|black|dead|off|gone|frozen|haywire|crazy|nuts|mad|kaput|toast|fried|faulty|dud|playing up"
            r"|acting up|cut out|gave up|packed (?:up|in)|knackered|banjaxed|shot|done for|bricked|cooked itself"
            r"|melted|quit|wrong|useless|bust|stuck|not (?:showing|responding"
            r"|on|turning on"
            r"|coming on|reading))\b",
            r"\b(?:nothing|no (?:number|reading|display|numbers|readout)) (?:on|from) (?:the |my )?(?:screen"
            r"|display|reader"
            r"|thermometer|probe)\b|^no (?:reading|signal|number|display)(?: at all)?$|\b(?:thermometer|probe"
            r"|reader) (?:batter(?:y|ies)"
            r"|won'?t (?:turn on|work|read|start))\b|\bbatter(?:y|ies)(?:'s|s| is| are| has| just)* (?:dead|died"
            r"|flat|gone|empty)\b",
            (
                rf"\b{_PROBE}(?:'s| is| has| just| are| got \w+ and| got \w+,)* (?:died|dead|broken?|broke|gone"
                rf"|bust(?:ed)?|failed"
                r"|failing|out|not working|unplugged|errors?|error|fell out|came out|stopped)\b"
            ),
            rf"\b{_PROBE} (?:says|shows|reads) (?:---?|err\w*|error|nothing|hhh|lll|hi|high)\b",
            rf"\bfried (?:the |my )?{_PROBE}\b",
            rf"\b(?:dead|broken|busted|faulty) {_PROBE}\b",
            r"\b(?:wireless|wired|leave-?in|bluetooth|remote|digital) one(?:'s| is| has| just)* (?:died|dead"
            r"|broken?|bust)\b",
            rf"\b(?:killed|lost) (?:the |my )?{_PROBE}\b",
        ),
    ),
    (
        "pit_hot",
        phrases(
            (
                rf"\b{_PIT}(?:'s| is| are| has| just)* (?:ran|run|running|runs|taken|took|getting|got) "
                r"(?:away|wild|off|out of control|too hot|way too hot|hot)\b"
            ),
            r"\brunaway\b|\bway too hot\b|\bthrough the roof\b|\b(?:gone|going|went) (?:mental|nuclear|nuts|mad|crazy"
            r"|wild|ballistic"
            r"|bonkers|berserk)\b",
            rf"\b{_PIT}(?:'s| is| are)*(?: way| far| much)? too hot\b",
            r"^(?:way|far|much) too hot\b",
            (
                r"\b(?:spiking|spiked|overshot|overshooting|climbing fast|shooting up|shot up|going crazy"
                r"|out of control|won't come down|wont come down|way over|too high)\b"
            ),
        ),
    ),
    (
        "pit_cold",
        phrases(
            (
                rf"\b{_PIT}(?:'s| is| are)*(?: way| far| much)? (?:too (?:cold|cool|low)|dropping|falling"
                r"|dying|struggling|sinking|plummeting|crashing|tanking|nosediving|collapsing)\b"
            ),
            (
                r"\b(?:can't|cant|cannot|won't|wont|not) (?:hold|holding|keep|get|reach|come up|coming up)"
                r"(?: \w+){0,2} (?:temps?|temperature|heat|to temp|up)\b"
            ),
            r"\bwon't come up\b",
            (
                r"\b(?:can't|cant|cannot) get (?:it|her|the (?:pit|smoker|temp|cooker))"
                r" (?:above|over|past|up|to (?=\d|temp|heat|hold))"
            ),
            rf"\b{_PIT} (?:crashed|tanked|dropped (?:a lot|like|way))\b",
        ),
    ),
)
_ALL_GONE = re.compile(
    r"^(?:(?:we'?re|we are|i'?m|it'?s|all|completely|totally|now|none|nothing|nope|no|that'?s|there'?s) )*"
    r"(?:out|gone|none left|nothing left|empty|none|all used up|nada|nix|zero|zip|burnt up|burned up|finished)(?:"
    r" now| left| at all| in the (?:bag|bags|sack|box|bin|basket|chimney|shed))?$"
)
_OF_FUEL = frozenset({"fuel_check", "refuel"})
"""Where these are asked about, "we're out" is of fuel."""
_OVER_NOW = re.compile(
    r"\b(?:all good|fixed|sorted|under control|back (?:on|to|up|in)|ok now|okay now|fine now"
    "|good now|had a|was a|relit|it's fine|its fine|handled|solved|no (?:flare|trouble"
    r"|problem))\b"
)
_SURELY_OVER = re.compile(
    r"\b(?:all good now|fixed|sorted|under control|is out now|handled|false alarm|all clear|alles gut|alles wieder gut"
    r"|under control|okay now|ok now|fine now)\b"
)
_ENDED = phrases(
    (
        r"^(?:it'?s |that'?s |the |all )*(?:all good|fixed|sorted|solved|handled|under control|over|dealt"
        r" with|better|fine|okay|ok)(?: again)?(?: now)?$"
    ),
    (
        r"^(?:everyone|everybody|we|i)(?:'s| is|'re| are|'m| am)? (?:\w+ )?(?:out|safe|clear|fine|ok|okay"
        r"|back)(?: now| again| outside)*$"
    ),
    r"^(?:it )?(?:has )?stopped(?: raining| now| thundering| smoking)?$",
    (
        r"^(?:the )?(?:rain|storm|wind|snow|fire|flames?)(?:'s| is| has)* (?:over|gone|stopped|passed|out"
        r"|down|died down|back)(?: now| again)?$"
    ),
    r"^(?:it'?s |fire'?s |we'?re )?(?:relit|back on|burning again|lit again|going again)(?: now)?$",
)
"""Words that end the problem which stands; with none standing they say nothing of one."""

_FELL = re.compile(r"^(?:it was |was |still )?(?:(?P<raw>raw|uncooked|not cooked)|done|cooked|ready)$")
_RIGHT = phrases(
    r"^(?:the |my |our )?(?:thermometer|reader) (?:is|was|reads) (?:right|correct|fine|true|ok)(?: after all)?$"
)


_FIRE_IS_OUT = frozenset({"fire_out", "fuel_out"})
"""Problems that end when somebody says that the fire burns, and not by words like fine."""
_LIT_AGAIN = re.compile(
    r"\b(?:re-?lit|re-?lighted|lit (?:it|the fire|the coals) again|lit again|burn(?:s|ing) again|going again"
    r"|got it going"
    r"|back on|fire(?:'s| is) back|on fire again|new (?:coals|charcoal|fuel) (?:is |are )?(?:in|on|lit))\b"
)
_BURNS_AGAIN = re.compile(
    r"^(?:it'?s |it is |the )?(?:fire'?s? |coals? |charcoal )(?:is |are )?(?:lit|back|burning|going)(?: now)?$"
    rf"|^(?:(?:ok|so|and|now|just|i|we|i've|we've|have|it|it's|its|is|the|fire|fire's|coals|are|got|only)\b ?)*"
    rf"{_LIT_AGAIN.pattern}(?: (?:it|them|the (?:fire|coals|charcoal)))?(?: (?:now|again|at|around|about|by|just"
    rf"|[0-9:.]+|am|pm"
    r"|min|mins|minutes|ago|hour|hours|an))*$"
)

_NO_WORD_ENDS = frozenset({"dropped", "dropped_done", "cross_contamination", "reader_wrong"})
"""Told with "all good now" they are told all the same."""


def trouble(heard: str, text: str, context: Context) -> tuple[Intent, Slot | None] | None:
    """Return the trouble that a text reports, with the slot its figures belong to; a note when it is none (any more).

    Once the meat is off, a fire that is out is what was wanted.
    """
    if "dropped" in context.troubles and (fell := _FELL.match(bare(heard))):
        return Trouble(what=f"dropped_{'raw' if fell['raw'] else 'done'}", text=text), None
    if (dirt := next((one.what for one in DIRT if _tells(one, heard)), None)) is not None:
        return _told(dirt, heard, text, context, None)
    if _ALL_GONE.match(bare(heard)) and any(step.step in _OF_FUEL for step in context.open_steps):
        return _told("fuel_out", heard, text, context, None)
    for what, pattern in _TROUBLES:
        if pattern.search(heard):
            if what in ("fire_out", "fuel_out") and context.stage in LATE_STAGES:
                asked = any(step.step == "fire_out" for step in context.open_steps)
                return (Done(step="fire_out") if asked and what == "fire_out" else Note(text=text)), None
            return _told(
                what, heard, text, context, Slot.PIT if what in _OF_THE_PIT and not _core_asked(what, context) else None
            )
    for telling in _TELLINGS:
        if _tells(telling, heard) and _meant(telling.what, context):
            return _told(telling.what, heard, text, context, _SLOTS.get(telling.what))
    return None


def _core_asked(what: str, context: Context) -> bool:
    """Return whether a figure beside a dying fire answers the question about the meat."""
    return what in _FIRE_IS_OUT and Slot.CORE in asked(context)


def was_but_is_over(heard: str) -> bool:
    """Return whether a text tells of a problem that is over by its own words ("had a flareup, all good now")."""
    told = any(pattern.search(heard) for _, pattern in _TROUBLES) or any(_tells(one, heard) for one in _TELLINGS)
    return told and bool(_OVER_NOW.search(heard))


def danger(heard: str, text: str) -> Trouble | None:
    """Return the danger to people that a text reports: read before anything else, with or without a cook."""
    typed = plain(text)
    loud = next((one.what for one in PEOPLE_HURT if _tells(one, heard)), None)
    loud = loud or next((one.what for one in FOREIGN if _tells(one, typed)), None)
    loud = loud or next((one.what for one in PLACES if _tells(one, heard)), None)
    if loud is not None:
        return None if _SURELY_OVER.search(heard) else Trouble(what=loud, text=text)
    found = next((telling.what for telling in (*MORTAL, *DANGERS) if _tells(telling, heard)), None)
    if found is None and children_near(heard):
        found = "children_near"
    if found is not None:
        return None if _OVER_NOW.search(heard) else Trouble(what=found, text=text)
    if only_flames(text) or any(_tells(one, heard) for one in UNCLEAR):
        return None if _SURELY_OVER.search(heard) else Trouble(what="danger_unclear", text=text)
    return None


def children_near(heard: str) -> bool:
    """Return whether a text says that children are near the fire: that is heard before who eats."""
    return any(telling.what == "children_near" and _tells(telling, heard) for telling in _TELLINGS)


def weather(heard: str, text: str, context: Context) -> Trouble | None:
    """Return the weather that a text complains of, so that it is answered as well as kept."""
    found = next((telling.what for telling in FIRE if telling.what in _WEATHER and _tells(telling, heard)), None)
    cooking = context.stage in ("fire", "cooking", *LATE_STAGES)
    return Trouble(what=found, text=text) if found is not None and cooking else None


def ended(heard: str, context: Context) -> TroubleOver | None:
    """Return that the problem which stands is over, None when none stands or the words do not say so."""
    if "reader_wrong" in context.troubles and _RIGHT.match(bare(heard)):
        return TroubleOver(what="reader_wrong")
    out = next((what for what in context.troubles if what in _FIRE_IS_OUT), None)
    if out is not None and not questions(heard) and not heard.endswith("?") and _BURNS_AGAIN.match(bare(heard)):
        return TroubleOver(what=out)
    if (burned := flames_out(heard, context)) is not None:
        return TroubleOver(what=burned)
    if about_the_fire(heard) and not any(one not in OF_PEOPLE for one in context.troubles):
        return None  # it is told of the fire, and ends nothing about people
    return TroubleOver() if context.troubles and _ENDED.match(bare(heard)) else None


def _told(what: str, heard: str, text: str, context: Context, slot: Slot | None) -> tuple[Intent, Slot | None]:
    if what in _NO_WORD_ENDS or not _OVER_NOW.search(heard):
        return Trouble(what=what, text=text), slot
    over = what in context.troubles and (what not in _FIRE_IS_OUT or _LIT_AGAIN.search(heard))
    return (TroubleOver(what=what) if over else Note(text=text)), None


def _tells(telling: Telling, heard: str) -> bool:
    return bool(telling.says.search(heard)) and not (telling.unless is not None and telling.unless.search(heard))


def _meant(what: str, context: Context) -> bool:
    """Return whether words that also answer a question, or mean something else at another stage, report a problem."""
    opened = {step.step for step in context.open_steps}
    match what:
        case "dirty_smoke":
            return "smoke_clean" not in opened
        case "bark_soft" | "bark_dark":
            return "bark_check" not in opened and context.stage in ("cooking", *LATE_STAGES)
        case "too_tough_at_dinner":
            return "tender_test" not in opened and context.stage in LATE_STAGES
        case "over_tender":
            return "tender_test" not in opened
        case "fire_ban_now" | "wind":
            return "rules_recheck" not in opened and context.stage in ("cooking", *LATE_STAGES)
        case "wont_light" | "frozen_middle" | "no_salt":
            return context.stage not in LATE_STAGES
        case "hold_low":
            return context.stage in LATE_STAGES
        case "probe_bone" | "probe_air_fat" | "stall_long":
            return context.stage == "cooking"
        case _:
            return True


_WEATHER = ("wind", "rain", "cold", "heat")
_OF_THE_PIT = ("pit_hot", "pit_cold", "flare_up", "fire_out", "fuel_out")
"""A figure beside these, without a word of which probe, is what the fire gives."""
_SLOTS = {
    "yo_yo": Slot.PIT,
    "wind": Slot.PIT,
    "rain": Slot.PIT,
    "probe_bone": Slot.CORE,
    "probe_air_fat": Slot.CORE,
    "stall_long": Slot.CORE,
    "hold_low": Slot.CORE,
}
_TELLINGS = (*MORTAL, *DANGERS, *DIRT, *FIRE, *GAUGES, *MEAT, *PEOPLE)
