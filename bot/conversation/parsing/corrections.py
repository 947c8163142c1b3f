"""Texts that take back or change what was said: "*187", "sorry 187 not 178", "that was the pit lol", "ignore that".

They say what is right instead; which fact they change, the engine finds.
"""

from __future__ import annotations

import datetime as dt
import re

from bot.commands import Correct, Intent, Unclear, Undo
from bot.conversation.context import Context
from bot.conversation.parsing import times
from bot.conversation.parsing.corrected_units import corrected_unit, swapped_keys
from bot.conversation.parsing.numbers import Figure
from bot.conversation.parsing.readings import asked, can_be, in_c, likely
from bot.conversation.parsing.words import bare, phrases, word_set
from scheduler.facts import Slot

_N = r"(?P<new>[0-9]{1,4}(?:[.,][0-9]{1,2})?) ?(?P<unit>°? ?[cf]\b)?"
_OLD = r"(?P<old>[0-9]{1,4}(?:[.,][0-9]{1,2})?)(?: ?°? ?[cf]\b)?"
_SORRY = (
    "(?:(?:sorry|sry|oops|whoops|no|wait|ah|oh|damn|argh?|actually|correction|typo|my bad|scratch that|ups"
    "|i|meant|mean|to say|it's|its|that's|it was|make that|that|fat (?:fingers?|thumbs?)|(?:my )?(?:fingers?|thumb)"
    " slipped|mis-?(?:typed?|read)(?: it| that)?|wrong (?:number|key|button)|my mistake|autocorrect)[ ,:.!]*)*"
)
_FIGURE_WAS = re.compile(
    rf"^{_SORRY}(?:the )?{_OLD} (?:was|is|were)(?: really| actually)? (?:from |of )?(?:the |my )?(?:pit|smoker"
    rf"|grill|grate|air"
    r"|ambient|dome|chamber|lid|cooker)(?: temp(?:erature)?)?(?: (?:sorry|sry|lol|not the \w+))*$"
)
_SAME_C = 0.6
_PITS = ("pit", "smoker", "grill", "grate", "air", "cooker")
_STAR = re.compile(rf"^(?:\* ?)+{_N} ?\*?$")
_PROBE = r"(?P<slot>pit|smoker|grill|grate|air|cooker|meat|core|internal)"
_LABELLED = rf"(?:the )?{_PROBE} ?(?:is |was |at |[:=] ?)?{_N}"
_STAR_SLOTS = (re.compile(rf"^(?:\* ?)+{_LABELLED} ?\**$"), re.compile(rf"^{_LABELLED} ?\*+$"))
"""A star beside a figure with its probe ("*pit 255")."""
_STAR_AFTER = re.compile(rf"^{_N} ?\*+$")
_NOT = re.compile(rf"^{_SORRY}{_N},? (?:and )?not {_OLD}(?: (?:sorry|sry|lol))?$")
_NOT_FIRST = re.compile(
    rf"^{_SORRY}(?:not|no|pas|wasn't|isn't) {_OLD}(?:[,;:. ]*[,;: ]|[.] )(?:but |it's |its |it was |rather )?{_N}$"
)
_ARROW = re.compile(
    rf"^{_OLD} ?(?:->|=>|→|(?:was|is) (?:wrong|a typo|a mistake)[,.]?(?: it's| its| it is| it was| should be)?"
    rf"|should be|should have been|was really|is really|was actually|meant) ?{_N}$"
)
_MEANT = re.compile(
    "^(?:(?:sorry|sry|oops|whoops|typo|no|wait|ah|oh|damn|argh?|correction|my bad|scratch that"
    "|actually|that was wrong|wrong)[,:.! ]+)*(?:(?:i )?(?:meant|mean)(?: to (?:say|type|write))?|make (?:that|it)"
    "|that should (?:be|have been|say|read)|should(?:(?: have|'ve) been| be)"
    "|correction[:,]?|typo[:,]?|fat (?:fingers?|thumbs?),?|(?:my )?(?:fingers?|thumb) slipped,?|mis-?(?:typed?|read)(?:"
    " it| that)?,?"
    "|wrong (?:number|key|button),?|my mistake,?|autocorrect,?|it's actually|its actually|that's actually|sorry,?"
    "|sry,?|oops,?|whoops,?|scratch that,?|correct(?:ed)? (?:to"
    rf"|is)|(?:change|swap|fix|replace|edit) (?:that|it)(?: (?:to|for|with))?,?|(?:i )?(?:typed|put|wrote|read|had"
    rf"|got) (?:it|that) wrong,?|wrong,?|no,?|wait,|wait(?= [0-9]{{3}}(?![0-9]))|actually,?) (?:it's |it was |is "
    rf"|to be )?{_N}(?: (?:sorry|sry"
    rf"|lol))?$"
)
_WRONG = re.compile(
    "^(?:(?:sorry|sry|oops|whoops|no|wrong|wait|actually|typo|correction)[,:.! ]+)+"
    rf"(?:it(?:'s|s| was| is)|that(?:'s|s| was))(?: really| actually)? {_N}$"
)
_AFTER = re.compile(
    rf"^{_N},? (?:(?:sorry|sry|i mean|i meant|correction|typo|my bad|fat (?:fingers?|thumbs?)|not the other one|i"
    rf" mis-?typed)[ ,]*)+$"
)
_APOLOGY = re.compile(r"^(?:sorry|sry)[,. ]+[0-9]|[0-9a-z°] ?,? (?:sorry|sry)$")
"""Beside a number that was asked for these are manners, not a correction."""
ASKED_LONG_AGO = dt.timedelta(minutes=20)
"""So long after the last reading an apology beside a number that is asked for is for being late: house rule."""
_WAS_PIT = re.compile(
    r"\b(?:thats|that|it|this|last one|the last(?: one)?"
    r"|(?:that|this)(?: last)? (?:one|number|reading|temp|figure))(?:'s| was| is)? (?:was |is )?(?:actually "
    "|really |only |just )?(?:from |for |of )?(?:the |my )?(?P<slot>pit|smoker|grill|grate|air|ambient|dome|chamber|lid"
    "|cooker|meat|core|internal|brisket|ribs?|butt|shoulder)(?: temp(?:erature)?)?(?: (?:lol|sorry|sry|haha"
    r"|oops|not (?:the )?\w+|one|reading|though))*$"
)
_RETRACT = phrases(
    (
        "^(?:(?:sorry|oops|no|wait|ah|please|pls|can you|could you) )*(?:ignore|never ?mind|nvm|scrap|scratch"
        "|forget|disregard|delete|remove"
        "|strike|erase|cancel|drop|discard|undo|bin|lose|take back)"
        "(?: (?:that last|this last|that|it|this|the last|last|my last|the|my))"
        "(?: (?:one|message|reading|number|value|entry|temp|temperature|please|sorry|pls|lol|again|again please|"
        "last|thing))*$"
    ),
    r"^(?:please )?(?:disregard|ignore|scratch)(?: (?:please|pls|sorry|lol))*$",
    r"^(?:(?:oops|whoops|sorry|sry|no|wait|ah|oh|damn|please|pls) )+(?:undo|scratch|ignore)(?: (?:please|sorry))*$",
    (
        "^(?:(?:oops|whoops|sorry|ah|no|wait) )*(?:(?:that(?:'s| was|s)?|it was|this was) )?(?:from )?(?:the |my )?"
        "(?:wrong|other) (?:cook|chat|group|piece|probe|brisket|meat|one|fire|butt|shoulder|rack|smoker|pit|cooker)"
        "(?:,? (?:sorry|sry|lol|ignore that|ignore it|ignore|that|not this one|my bad|oops))*$"
    ),
    (
        "^(?:(?:oops|whoops|sorry|ah) )*(?:never ?mind|nvm|nm|oops|whoops|my bad"
        "|wrong (?:number|reading|one|button)|wrong"
        "|mistake|my mistake|that(?: reading| number| one|'s)?(?: was| is)? (?:wrong|a mistake|a typo|rubbish"
        "|nonsense|garbage|bogus|bad|crap|off)|didn't mean that"
        "|wrong chat)(?: (?:please|pls|sorry|sry|lol|ignore that|ignore it|ignore|scratch that|that))*$"
    ),
)
_PLAINLY_AMENDS = re.compile(
    r"^(?:sorry|scratch that|actually|oops|wrong|correction|wait|my bad|i meant|meant|make that|no|nope|not)\b"
)
_TIME_WAS = re.compile(
    r"^(?:(?:sorry|scratch that|actually|oops|wrong|correction|wait|my bad|i meant|meant|make that|that was|it was)\b"
    r"|(?:no|nope|not)\b[, ]*(?=[0-9]|(?:it|that|at|sorry|actually|wait|make|i|rather)\b))"
)


def retracts(heard: str) -> bool:
    """Return whether a tidied text takes back what was said last, by other words than the command."""
    return bool(_RETRACT.match(bare(heard)))


def correction(heard: str, text: str, context: Context) -> Intent | None:
    """Return the correction that a tidied text is, or None."""
    plain = bare(heard)
    if retracts(heard):
        return Undo()
    if (slot := _WAS_PIT.search(plain)) and not re.search(r"[0-9]", plain):
        return _of_slot(Correct(), slot["slot"])
    for amended in (corrected_unit(heard, text, context), swapped_keys(heard, context)):
        if amended is not None:
            return amended
    if _APOLOGY.search(heard) and _asked_long_ago(context):
        return None
    if (slot := _FIGURE_WAS.match(heard)) and (moved := _moved(slot, context)) is not None:
        return moved
    for pattern in _STAR_SLOTS:
        if found := pattern.match(heard):
            return _of_slot(_corrected(found, text, context), found["slot"])
    for pattern in (_STAR, _STAR_AFTER, _NOT, _NOT_FIRST, _ARROW, _MEANT, _WRONG, _AFTER):
        if found := pattern.match(heard):
            return _corrected(found, text, context)
    return None


def _of_slot(amended: Intent, probe: str) -> Intent:
    """Return a correction with the probe that was named."""
    slot = Slot.PIT if probe in _PITS else Slot.CORE
    return amended.model_copy(update={"slot": slot}) if isinstance(amended, Correct) else amended


def _moved(found: re.Match[str], context: Context) -> Correct | None:
    """Return the last core as the pit, for "178 was the pit" right after 178; None for another figure."""
    if context.last_core_c is None:
        return None
    figure = Figure(value=float(found["old"].replace(",", ".")), start=0, end=0)
    near = any(abs(in_c(figure, unit, Slot.CORE).value_c - context.last_core_c) < _SAME_C for unit in ("F", "C"))
    return Correct(slot=Slot.PIT) if near else None


def _asked_long_ago(context: Context) -> bool:
    """Return whether a number is asked for, and the last one was read a good while ago."""
    if not {Slot.CORE, Slot.PIT} & set(asked(context)):
        return False
    known = [at for at in (context.last_core_at, context.last_pit_at, context.last_told_at) if at is not None]
    return not known or context.now - max(known) >= ASKED_LONG_AGO


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


def _right_of_two(heard: str, whens: tuple[times.When, ...]) -> times.When | None:
    """Return which of two clock times is right ("it was 2:15 not 2:50", "not 2:50, 2:15"), None where none is"
    " denied.
    """
    if len(whens) != _TWO or any(when.kind is not times.Kind.CLOCK for when in whens):
        return None
    first, second = whens
    lead = _SAYS.sub("", heard[: first.start])
    beside = bare(lead + heard[second.end :].replace("?", " what "))
    if any(word not in _BESIDE_TWO for word in beside.split()):
        return None
    if re.match(r"^[, ]*(?:and )?not ?(?:at )?$", heard[first.end : second.start]):
        return first
    denied = re.search(r"\b(?:not|wasn't|isn't)(?: (?:at|on|in))* ?$", heard[: first.start])
    return (
        second
        if denied and re.match(r"^[,;. ]*(?:but|it was|rather|at|,| )*$", heard[first.end : second.start])
        else None
    )


_TWO = 2
_SAYS = re.compile(
    r"^(?:\w+ )?(?!(?:who|what|nobody|recipe|book)\b)\w+ (?:says?|said|reckons?|thinks?|tells? (?:me|us)|told (?:me|us)"
    r"|is sure|swears)(?: that)?\b"
)
"""Who says so ("tomas says 1:20 not 1:40")."""
_BESIDE_TWO = word_set(
    "it was it's its sorry sry no oops actually wait meant i mean that on at not went meat the correction my bad lol "
    "wasn't isn't in put done did started began"
)


def corrected_time(heard: str, context: Context) -> Intent | None:
    """Return the correction of when something was ("scratch that, ines says it was 11:40"), or None."""
    whens = times.find(heard)
    if (right := _right_of_two(heard, whens)) is not None:
        return Correct(at=times.past(right, context.now, context.zone))
    if not _TIME_WAS.match(heard) or len(whens) != 1 or whens[0].kind not in (times.Kind.CLOCK, times.Kind.AGO):
        return None
    if whens[0].kind is times.Kind.AGO and not _PLAINLY_AMENDS.match(heard):
        return None  # "it was 10 min ago" answers a question about a time
    if re.search(r"\b(?:dinner|eat(?:ing)?|serv\w+|guests?)\b", heard):
        return None
    return Correct(at=times.past(whens[0], context.now, context.zone))
