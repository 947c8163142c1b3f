"""What people tell unasked in a word or two: how much fuel is left, no fire ban, the raw side washed.

A word that could mean several steps counts only while one of them is open.
"""

from __future__ import annotations

import datetime as dt
import re

from bot.commands import Done
from bot.conversation.context import Context
from bot.conversation.parsing.words import bare, phrases

_FUEL = r"(?:fuel|charcoal|coals?|briquettes|briqs|briquets|lump|pellets|gas|propane)"
_LEFT = (
    r"(?: (?:is|are|'s|looks?|looking|getting|running|runs|gets|level|left|at|about|only|just|now|still|a bit|quite))*"
)
_LOW = r"(?:low|little|short|running out|nearly (?:gone|out|empty)|almost (?:gone|out|empty))"
_HALF = r"(?:half(?:way)?(?: full| gone| left| empty| way)?)"
_PLENTY = r"(?:plenty|lots|loads|heaps|tons|full|enough)"
_FUEL_LEFT: tuple[tuple[str, re.Pattern[str]], ...] = (
    (
        "low",
        phrases(
            rf"\b{_FUEL}s?(?:'s)?{_LEFT} {_LOW}\b",
            rf"\b(?:low|short|running out) (?:on|of|with) (?:the |our )?{_FUEL}\b",
            rf"\b(?:low|little|not much|hardly any|barely any|not a lot of) {_FUEL}\b",
            rf"\b{_FUEL}{_LEFT} (?:not much|hardly any)\b",
        ),
    ),
    (
        "half",
        phrases(
            rf"\b{_FUEL}(?:'s)?{_LEFT} {_HALF}\b",
            rf"\bhalf (?:of )?(?:the |our |a (?:bag|basket|load) of )?{_FUEL}(?: is| are)?(?: left| gone)?$",
        ),
    ),
    (
        "plenty",
        phrases(
            rf"\b{_FUEL}(?:'s)?{_LEFT} {_PLENTY}\b",
            rf"\b{_PLENTY} (?:of )?(?:the |our )?{_FUEL}\b",
        ),
    ),
)
_NOT_FUEL_LEFT = re.compile(
    r"\b(?:add(?:ed|ing)?|put|threw|tossed|poured|dumped|lit|light|lighting|burning|glowing|red|white|ashed|need"
    r"|not (?:low|short|running)|isn't|aren't|no longer|more|buy|bought|bring|brought)\b"
)
_NO_BAN = phrases(
    r"\bno (?:fire[- ]?|burn(?:ing)? )?bans?\b",
    r"\b(?:isn't|is not|isnt) (?:any|a) (?:fire[- ]?|burn(?:ing)? )?bans?\b",
    r"\bban(?:'s| is)? (?:lifted|over)\b",
)
_BAN = phrases(
    r"\b(?:fire|burn(?:ing)?) ban\b",
    r"\bthere(?:'s| is) a (?:fire |burn )?ban\b",
    r"^(?:a )?ban$",
    r"\b(?:too|very|really|so) windy\b",
    r"\b(?:strong|high|heavy) winds?\b",
    r"^windy$",
)
_WIND = re.compile(r"\bwind(?:y|s)?\b")
_TOO_WINDY = phrases(r"\btoo windy\b", r"\bban\b")
_LIGHTS_LONG_AFTER = dt.timedelta(hours=3)
"""Wind told longer before the fire is lit is the air of now: house rule."""
_RAW = r"(?:raw(?: side| stuff| area)?|boards?|knives|knife|sink|counter|worktop|surfaces?|raw board)"
_WASHED = phrases(
    rf"\b(?:washed|scrubbed|saniti[sz]ed|disinfected|cleaned|wiped)(?: down| up| off)? (?:\w+ ){{0,2}}{_RAW}\b",
    rf"\b{_RAW}(?:'s| is| are)? (?:all )?(?:washed|scrubbed|saniti[sz]ed|disinfected|clean|cleaned)(?: down| up)?\b",
)
_COOKER_CLEAN = phrases(
    r"\b(?:cleaned|scrubbed|brushed)(?: out| down| off)? (?:the |my )?(?:cooker|smoker|pit|grill|grates?)\b",
    r"\b(?:cooker|smoker|pit|grill|grates?)(?:'s| is| are)? (?:all )?(?:clean|cleaned|scrubbed)\b",
)
_PROBES_TESTED = phrases(
    r"\b(?:tested|checked|calibrated) (?:the |my |our )?(?:probes?|thermometers?)\b",
    r"\b(?:probes?|thermometers?)(?:'s| is| are)? (?:tested|checked|calibrated)\b",
)
_NEEDS_OPEN: tuple[tuple[re.Pattern[str], tuple[str, ...]], ...] = (
    (
        re.compile(r"^(?:all )?(?:washed|scrubbed|saniti[sz]ed|wiped)(?: (?:it|them|all|everything))?(?: down| up)?$"),
        ("raw_cleanup",),
    ),
    (re.compile(r"^(?:the )?raw(?: side)?(?: done)?$"), ("raw_cleanup",)),
    (
        re.compile(r"^(?:all )?(?:cleaned|clean)(?: (?:it|them|everything))?(?: down| up)?$"),
        ("raw_cleanup", "clean_cooker"),
    ),
    (re.compile(r"^(?:the )?probes?(?: in| done)?$"), ("probe_in", "probe_test")),
)
"""Words that are an answer only while one of these steps, and no other of them, is open."""
_BEFORE_THE_MEAT = ("before", "fire")


def told(words: str, text: str, context: Context) -> Done | None:
    """Return the step that a clause tells of, with the choice it makes, or None."""
    if (fuel := _fuel_left(words.replace(":", ""))) is not None:
        return Done(step="fuel_check", outcome=fuel)
    if (rules := _rules(words, text, context)) is not None:
        return rules
    if _WASHED.search(words) and context.stage in ("before", "fire", "cooking"):
        return Done(step="raw_cleanup")
    if context.stage in _BEFORE_THE_MEAT:
        if _COOKER_CLEAN.search(words):
            return Done(step="clean_cooker")
        if _PROBES_TESTED.search(words):
            return Done(step="probe_test")
    return _of_an_open_step(bare(words.replace("|", " ")), context)


def _fuel_left(words: str) -> str | None:
    if _NOT_FUEL_LEFT.search(words):
        return None
    return next((left for left, pattern in _FUEL_LEFT if pattern.search(words)), None)


def _rules(words: str, text: str, context: Context) -> Done | None:
    """Return what was said of a fire ban or the wind: wind anywhere in the text outweighs "no ban"."""
    opened = any(step.step == "rules_recheck" for step in context.open_steps)
    if context.stage not in _BEFORE_THE_MEAT and not opened:
        return None
    if _NO_BAN.search(words):
        windy = re.search(r"\bwindy|\b(?:strong|high|heavy) winds?", text.casefold())
        calm = re.search(r"\bnot (?:too |very |so )?windy", text.casefold())
        return Done(step="rules_recheck", outcome="stop" if windy and not calm else "ok")
    if not opened and _until_lit(context) > _LIGHTS_LONG_AFTER and _WIND.search(words) and not _TOO_WINDY.search(words):
        return None  # the weather of another day: whether the fire may be lit is asked when it is to be lit
    if _BAN.search(words) and not re.search(r"\b(?:not|isn't|no)\b", words):
        return Done(step="rules_recheck", outcome="stop")
    return None


def _until_lit(context: Context) -> dt.timedelta:
    """Return how long it is until the fire is to be lit; nothing when that is not known."""
    return dt.timedelta() if context.lights_at is None else context.lights_at - context.now


def _of_an_open_step(plain: str, context: Context) -> Done | None:
    opened = {step.step for step in context.open_steps}
    for pattern, steps in _NEEDS_OPEN:
        meant = [step for step in steps if step in opened]
        if pattern.match(plain) and len(meant) == 1:
            return Done(step=meant[0])
    if re.match(r"^(?:cleaned)(?: up| down)?$", plain) and not opened and context.stage == "before":
        return Done(step="clean_cooker")
    return None
