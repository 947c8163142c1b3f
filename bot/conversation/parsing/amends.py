"""Texts that change what was said or planned: corrections, troubles, dinner moved, the pit moved.

Each reader takes a tidied text and gives an intent or None; none of them judges whether the change is wise.
"""

from __future__ import annotations

import dataclasses
import re
from typing import Literal

from bot.conversation.context import Context
from bot.conversation.intents import Correct, Intent, MoveDinner, MovePit, Note, Trouble, Undo, Unclear, Value
from bot.conversation.parsing import times
from bot.conversation.parsing.numbers import Figure, figures
from bot.conversation.parsing.readings import can_be, in_c, likely
from bot.conversation.parsing.serving import serving_said
from bot.conversation.parsing.words import bare, cut_out
from scheduler.facts import Serving, ServingKind, Slot

SETTING_C = (80.0, 250.0)
"""Lowest and highest set point of a pit that makes sense (common practice, no source)."""
USUAL_C = (95.0, 185.0)
"""Where slow cooking runs: what decides a unit that was not said (common practice, no source)."""

_N = r"(?P<new>[0-9]{1,4}(?:[.,][0-9]{1,2})?) ?(?P<unit>°? ?[cf]\b)?"
_OLD = r"(?P<old>[0-9]{1,4}(?:[.,][0-9]{1,2})?)(?: ?°? ?[cf]\b)?"
_SORRY = r"(?:(?:sorry|sry|oops|whoops|no|wait|ah|actually|correction|typo|my bad|scratch that|ups|i|meant|mean|to say|it's|its|that's|it was|make that|that) ?,? ?)*"
_STAR = re.compile(rf"^(?:\* ?)+{_N} ?\*?$")
_STAR_AFTER = re.compile(rf"^{_N} ?\*+$")
_NOT = re.compile(rf"^{_SORRY}{_N},? (?:and )?not {_OLD}(?: (?:sorry|sry|lol))?$")
_NOT_FIRST = re.compile(rf"^{_SORRY}(?:not|wasn't|isn't) {_OLD}[,;:. ]+(?:but |it's |its |it was |rather )?{_N}$")
_ARROW = re.compile(rf"^{_OLD} ?(?:->|=>|→|should be|should have been|was really|is really|was actually|meant) ?{_N}$")
_MEANT = re.compile(
    rf"^(?:(?:sorry|sry|oops|whoops|typo|no|wait|ah|correction|my bad|scratch that|actually)[,:.! ]+)*(?:(?:i )?(?:meant|mean)(?: to (?:say|type|write))?|make (?:that|it)|that should (?:be|have been)|should(?: have|'ve)? (?:be|been)"
    rf"|correction:?|typo:?|sorry,?|sry,?|oops,?|whoops,?|scratch that,?|correct(?:ed)? (?:to|is)|change (?:that|it) to) (?:it's |it was |is |to be )?{_N}(?: (?:sorry|sry|lol))?$"
)
_WAS_PIT = re.compile(
    r"\b(?:that|it|this|last one|the last(?: one)?)(?:'s| was| is)? (?:was |is )?(?:actually |really |only |just )?(?:from |for )?(?:the |my )?(?P<slot>pit|smoker|grill|grate|air|cooker|meat|core|brisket|ribs?|butt)(?: temp(?:erature)?)?(?: (?:lol|sorry|sry|haha|oops|not the \w+|one|reading|though))*$"
)
_RETRACT = re.compile(
    r"^(?:sorry )?(?:please )?(?:ignore|scratch|forget|disregard|delete|remove|strike|cancel|drop|discard)(?: (?:that|it|this|the last|last|my last))(?: (?:one|message|reading|number|please|sorry|pls|lol))*$"
    r"|^(?:never ?mind|nvm|nm|oops|whoops|my bad|wrong (?:number|reading|one|button)|wrong|mistake|my mistake|that(?:'s| was| is)? (?:wrong|a mistake|a typo)|didn't mean that|wrong chat)(?: (?:sorry|sry|lol|ignore that|ignore it|that))*$"
)
_TIME_WAS = re.compile(
    r"^(?:sorry|scratch that|actually|oops|correction|no|wait|my bad|i meant|meant|make that|that was|it was|not)\b"
)


def correction(heard: str, text: str, context: Context) -> Intent | None:
    """Return the correction that a tidied text is, or None."""
    plain = bare(heard)
    if _RETRACT.match(plain):
        return Undo()
    if slot := _WAS_PIT.search(plain):
        if not re.search(r"[0-9]", plain):
            is_pit = slot["slot"] in ("pit", "smoker", "grill", "grate", "air", "cooker")
            return Correct(slot=Slot.PIT if is_pit else Slot.CORE)
    for pattern in (_STAR, _STAR_AFTER, _NOT, _NOT_FIRST, _ARROW, _MEANT):
        if found := pattern.match(heard):
            return _corrected(found, text, context)
    return None


def _corrected(found: re.Match[str], text: str, context: Context) -> Intent:
    typed = (found["unit"] or "").strip("° ").upper() or None
    old_typed = found.groupdict().get("old")
    new = _value(found["new"], typed, context)
    old = _value(old_typed, None, context) if old_typed else None
    if new is None:
        return Unclear(question="impossible", text=text, values=(float(found["new"].replace(",", ".")),))
    return Correct(value_c=new, old_c=old)


def _value(typed: str, unit: str | None, context: Context) -> float | None:
    """Return °C for a corrected figure: the unit said, the chat's, or the one that is possible."""
    figure = Figure(value=float(typed.replace(",", ".")), start=0, end=0)
    units = (unit,) if unit else (context.unit, *(other for other in ("C", "F") if other != context.unit))
    fits = [value for one in units if one for slot in (Slot.CORE, Slot.PIT) if can_be(value := in_c(figure, one, slot))]
    better = fits[0] if context.unit and fits else next((value for value in fits if likely(value, context)), None)
    best = better or (fits[0] if fits else None)
    return None if best is None else best.value_c


def corrected_time(heard: str, context: Context) -> Intent | None:
    """Return the correction of when something was ("scratch that, ines says it was 11:40"), or None."""
    whens = times.find(heard)
    if not _TIME_WAS.match(heard) or len(whens) != 1 or whens[0].kind is not times.Kind.CLOCK:
        return None
    if re.search(r"\b(?:dinner|eat(?:ing)?|serv\w+|guests?)\b", heard):
        return None
    return Correct(at=times.past(whens[0], context.now, context.zone))


# --- troubles -----------------------------------------------------------------------------------------------------
What = Literal["fire_out", "fuel_out", "pit_hot", "pit_cold", "probe_dead", "flare_up", "other"]
_PROBE = r"(?:probe|thermometer|thermo|sensor|gauge|reader|thermocouple|display)s?"
_PIT = r"(?:pit|smoker|cooker|grill|temps?|temperature|fire|it)"
_TROUBLES: tuple[tuple[What, re.Pattern[str]], ...] = (
    ("flare_up", re.compile(r"\bflare[- ]?ups?\b|\bflaring\b|\bgrease fire\b|\b(?:is|it's|it is|meat's|ribs are|everything's) on fire\b|\bflames? (?:everywhere|are|is|coming|shooting)\b|\bin flames\b")),
    ("fire_out", re.compile(r"\bfire(?:'s| is| has| just| went| has gone|'s gone)*(?: just| went| gone| burned| burnt)* (?:out|dead|died|dying)\b|\b(?:fire|coals?|flame) (?:died|is dead|went out|went cold|has died)\b|\blost the fire\b|\bfeuer (?:ist )?aus\b|\bfuego (?:se )?apagado\b|\bno fire\b|\bit went out\b")),
    ("fuel_out", re.compile(r"\b(?:out of|outta|out off|ran out of|run out of|no more|no|used up (?:all )?(?:the |our )?) ?(?:coals?|charcoal|fuel|briquettes|briqs|lump|pellets|gas|propane|firewood)\b(?! smell)|\b(?:coals?|charcoal|fuel|briquettes|pellets|gas|propane)(?:'s| is| are| has| have)? (?:all )?(?:gone|out|empty|ran out|run out|finished)\b")),
    ("probe_dead", re.compile(rf"^-{{2,}}|\b{_PROBE}(?:'s| is| has| just| are)* (?:died|dead|broken?|broke|gone|bust(?:ed)?|failed|failing|out|not working|unplugged|errors?|error|fell out|came out|stopped)\b|\b{_PROBE} (?:says|shows|reads) (?:---?|err\w*|error|nothing|hhh|lll|hi|high)\b|\bfried (?:the |my )?{_PROBE}\b|\b(?:killed|lost) (?:the |my )?{_PROBE}\b")),
    ("pit_hot", re.compile(rf"\b{_PIT}(?:'s| is| are| has| just)* (?:ran|run|running|runs|taken|took|getting|got) (?:away|wild|off|out of control|too hot|way too hot|hot)\b|\brunaway\b|\b{_PIT}(?:'s| is| are)*(?: way| far| much)? too hot\b|\b(?:spiking|spiked|overshot|overshooting|climbing fast|shooting up|shot up|going crazy|out of control|won't come down|wont come down|way over|too high)\b")),
    ("pit_cold", re.compile(rf"\b{_PIT}(?:'s| is| are)*(?: way| far| much)? (?:too (?:cold|cool|low)|dropping|falling|dying|struggling|sinking|plummeting)\b|\b(?:can't|cant|cannot|won't|wont|not) (?:hold|holding|keep|get|reach|come up|coming up)(?: \w+){{0,2}} (?:temps?|temperature|heat|to temp|up)\b|\bwon't come up\b|\b{_PIT} (?:crashed|tanked|dropped (?:a lot|like|way))\b")),
)  # fmt: skip
_OVER_NOW = re.compile(
    r"\b(?:all good|fixed|sorted|under control|back (?:on|to|up|in)|ok now|okay now|fine now|good now|had a|was a|relit|it's fine|its fine|handled|solved|no (?:flare|trouble|problem))\b"
)


def trouble(heard: str, text: str) -> tuple[Intent, Slot | None] | None:
    """Return the trouble that a text reports, with the slot its figures belong to; a note when it is over."""
    for what, pattern in _TROUBLES:
        if pattern.search(heard):
            if _OVER_NOW.search(heard):
                return Note(text=text), None
            return Trouble(what=what, text=text), Slot.PIT if what in ("pit_hot", "pit_cold", "flare_up") else None
    return None


# --- dinner and pit -----------------------------------------------------------------------------------------------
_EATERS = r"(?:dinner|supper|lunch|meal|guests?|people|folks|everyone|everybody|eat(?:ing)?|serv(?:e|ing)|crowd|family|they|table|sit down|abendessen|cena|essen)"
_LATE = re.compile(r"\b(?:late|later|delay(?:ed)?|push(?:ed|ing)?(?: \w+)? back|push|postpone|back|behind|slip)\b")
_EARLY = re.compile(r"\b(?:earlier|early|sooner|forward|ahead)\b")
_MOVES = re.compile(rf"\b{_EATERS}\b")
_PUSH = re.compile(r"\b(?:push|move|shift|delay|postpone|slip|bring|put)\b")
_LATEST = re.compile(r"\blatest\b|\bno later than\b")


def dinner(heard: str, context: Context) -> Intent | None:
    """Return a move of dinner ("dinner at 7", "guests an hour late", "1830 latest"), or None."""
    whens = times.find(heard)
    about_dinner = _MOVES.search(heard)
    if _LATEST.search(heard) and len(whens) == 1 and whens[0].kind is times.Kind.CLOCK:
        return MoveDinner(serving=_latest(heard, context))
    if not about_dinner and not _PUSH.search(heard):
        return None
    spans = [when for when in whens if when.kind in (times.Kind.SPAN, times.Kind.AHEAD)]
    if spans and (_LATE.search(heard) or _EARLY.search(heard)):
        return MoveDinner(
            minutes=-spans[0].minutes if _EARLY.search(heard) and not _LATE.search(heard) else spans[0].minutes
        )
    if (
        about_dinner
        and re.search(r"\b(?:guests?|people|folks|everyone|everybody|they|crowd|family)\b", heard)
        and not re.search(r"\beat(?:ing)?\b", heard)
    ):
        return None
    said = serving_said(heard, context) if about_dinner else None
    return MoveDinner(serving=said.serving) if said else None


def _latest(heard: str, context: Context) -> Serving | None:
    said = serving_said(heard, context)
    if said is None:
        return None
    now_planned = context.serving
    if now_planned and now_planned.start and said.serving.start and now_planned.start < said.serving.start:
        return dataclasses.replace(
            said.serving, kind=ServingKind.WINDOW, start=now_planned.start, end=said.serving.start
        )
    return said.serving


_SET = re.compile(
    r"^(?:please )?(?:(?:i'm |im |i |i'll |we're |we |we'll |let's |lets |gonna |going to |just |ok |now )*)(?:set|setting|run|running|ran|take|taking|took|turn(?:ed|ing)?|bump(?:ed|ing)?|rais(?:e|ed|ing)|lower(?:ed|ing)?|bring(?:ing)?|brought"
    r"|crank(?:ed|ing)?|mov(?:e|ed|ing)|chang(?:e|ed|ing)|put|dial(?:led|ed|ing)?|drop(?:ped|ping)?|target|aim(?:ing)?|go|going)\b"
    r"(?: (?:the|it|this|her|pit|smoker|cooker|grill|temp(?:erature)?|heat|up|down|target|point|in|back|for))* ?(?:to|at|for|=|:)? ?(?=[~0-9])"
    r"|^(?:the )?(?:pit|smoker|cooker|grill)(?: temp)?(?: up| down)? to (?=[0-9])|^(?:new )?(?:pit )?(?:target|set ?point|setting)(?: is| now|:)* (?=[0-9])"
)


def pit_moved(heard: str, text: str, context: Context) -> Intent | None:
    """Return a new set point or band ("pit to 275", "turn it up to 250-275"), or None."""
    found = _SET.match(heard)
    if found is None:
        return None
    said = figures(cut_out(heard, [(0, found.end())]))
    if len(said) != 1 or (said[0].slot is Slot.CORE):
        return None
    if re.match(r".*\b(?:put|go|going|run|ran|running|take|took)\b", found.group()) and not re.search(
        r"pit|smoker|cooker|grill|temp|heat|up|down|(?:to|at) ?$", found.group()
    ):
        return None
    return band(said[0], text, context)


def band(figure: Figure, text: str, context: Context) -> MovePit | Unclear:
    """Return the band a figure sets, or what keeps it from being one."""
    units = (figure.unit,) if figure.unit else (context.unit, *(unit for unit in ("C", "F") if unit != context.unit))
    fits = [value for unit in units if unit and sensible((value := in_c(figure, unit, Slot.PIT)).value_c)]
    if not fits:
        return Unclear(question="impossible", text=text, values=(figure.value,))
    usual = [value for value in fits if USUAL_C[0] <= value.value_c <= USUAL_C[1]]
    if figure.unit or len(fits) == 1 or (context.unit and fits[0] in usual):
        return _moved(fits[0])
    if len(usual) == 1 and not context.unit:
        return _moved(usual[0])
    by_unit = zip([unit for unit in units if unit], fits, strict=True)
    pairs = tuple((f"unit_{unit.lower()}", _moved(value)) for unit, value in by_unit)
    return Unclear(question="unit", text=text, values=(figure.value,), options=pairs)


def _moved(value: Value) -> MovePit:
    return MovePit(pit_low_c=value.value_c - value.spread_c, pit_high_c=value.value_c + value.spread_c)


def sensible(setting_c: float) -> bool:
    """Return True when a pit can be set to this temperature at all."""
    return SETTING_C[0] - 1e-9 <= setting_c <= SETTING_C[1] + 1e-9
