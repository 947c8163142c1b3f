"""Problems that are reported unasked: the fire is out, the fuel is gone, the pit runs away, the probe is dead.

It names the problem; what to do about it is advice from elsewhere.
"""

from __future__ import annotations

import re
from typing import Literal

from bot.commands import Done, Intent, Note, Trouble
from bot.conversation.context import Context
from bot.conversation.parsing.steps import LATE_STAGES
from bot.conversation.parsing.words import phrases
from scheduler.facts import Slot

What = Literal["fire_out", "fuel_out", "pit_hot", "pit_cold", "probe_dead", "flare_up", "other"]
_PROBE = r"(?:probe|thermometer|thermo|sensor|gauge|reader|thermocouple|display)s?"
_PIT = r"(?:pit|smoker|cooker|grill|temps?|temperature|fire|it)"
_TROUBLES: tuple[tuple[What, re.Pattern[str]], ...] = (
    (
        "flare_up",
        phrases(
            r"\bflare[- ]?ups?\b",
            r"\bflaring\b",
            r"\bgrease fire\b",
            r"\b(?:is|it's|it is|meat's|ribs are|everything's) on fire\b",
            r"\bflames? (?:everywhere|are|is|coming|shooting)\b",
            r"\bin flames\b",
        ),
    ),
    (
        "fire_out",
        phrases(
            (
                r"\bfire(?:'s| is| has| just| went| has gone|'s gone)*(?: just| went| gone| burned"
                r"| burnt)* (?:out|dead|died|dying)\b"
            ),
            r"\b(?:fire|coals?|flame) (?:died|is dead|went out|went cold|has died)\b",
            r"\blost the fire\b",
            r"\bfeuer (?:ist )?aus\b",
            r"\bfuego (?:se )?apagado\b",
            r"\bno fire\b(?![- ]?ban)",
            r"\bit went out\b",
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
            r"^-{2,}",
            (
                rf"\b{_PROBE}(?:'s| is| has| just| are)* (?:died|dead|broken?|broke|gone|bust(?:ed)?|failed"
                r"|failing|out|not working|unplugged|errors?|error|fell out|came out|stopped)\b"
            ),
            rf"\b{_PROBE} (?:says|shows|reads) (?:---?|err\w*|error|nothing|hhh|lll|hi|high)\b",
            rf"\bfried (?:the |my )?{_PROBE}\b",
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
            r"\brunaway\b",
            rf"\b{_PIT}(?:'s| is| are)*(?: way| far| much)? too hot\b",
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
                r"|dying|struggling|sinking|plummeting)\b"
            ),
            (
                r"\b(?:can't|cant|cannot|won't|wont|not) (?:hold|holding|keep|get|reach|come up|coming up)"
                r"(?: \w+){0,2} (?:temps?|temperature|heat|to temp|up)\b"
            ),
            r"\bwon't come up\b",
            r"\b(?:can't|cant|cannot) get (?:it|her|the (?:pit|smoker|temp|cooker)) (?:above|over|past|up|to)\b",
            rf"\b{_PIT} (?:crashed|tanked|dropped (?:a lot|like|way))\b",
        ),
    ),
)
_OVER_NOW = re.compile(
    r"\b(?:all good|fixed|sorted|under control|back (?:on|to|up|in)|ok now|okay now|fine now"
    "|good now|had a|was a|relit|it's fine|its fine|handled|solved|no (?:flare|trouble"
    r"|problem))\b"
)


def trouble(heard: str, text: str, context: Context) -> tuple[Intent, Slot | None] | None:
    """Return the trouble that a text reports, with the slot its figures belong to; a note when it is none (any more).

    Once the meat is off, a fire that is out is what was wanted.
    """
    for what, pattern in _TROUBLES:
        if pattern.search(heard):
            if what in ("fire_out", "fuel_out") and context.stage in LATE_STAGES:
                asked = any(step.step == "fire_out" for step in context.open_steps)
                return (Done(step="fire_out") if asked and what == "fire_out" else Note(text=text)), None
            if _OVER_NOW.search(heard):
                return Note(text=text), None
            return Trouble(what=what, text=text), Slot.PIT if what in ("pit_hot", "pit_cold", "flare_up") else None
    return None
