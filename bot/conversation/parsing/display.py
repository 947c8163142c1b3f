"""What the display of a reader shows when it shows no temperature: LO, HI, dashes, an error. And which probe counts.

It names what was seen; no value is made of it.
"""

from __future__ import annotations

import re

from bot.commands import Ask, Intent, Topic, Trouble, Unclear
from bot.conversation.context import Context
from bot.conversation.parsing.readings import asked
from bot.conversation.parsing.words import bare, phrases

_IT = (
    r"(?:(?:it|it's|its|the|my|our|just|only|still|now|display|screen|probe|thermometer|reader|handheld|meter|gauge"
    r"|says"
    r"|say|said|shows?|showing|reads?|reading|displays?|saying|is|on|all|i|get|see|getting|there's)\s)*"
)
_AFTER = r"(?:\s(?:it says|it shows|on the (?:display|screen|probe|reader)|only|again|still|now|here|sorry|lol))*"
_OUT_OF_RANGE = re.compile(rf"^{_IT}(?P<shown>lo|ll+|hh+|low|high|hi){_AFTER}$")
_ALONE = ("lo", "ll", "lll", "hh", "hhh")
"""Shown by themselves they are nothing else; "hi" greets, and "low" may be the fuel."""
_NO_READING = re.compile(
    rf"^{_IT}(?:err(?:or)?s?|e ?[0-9]{{1,2}}|fault|no probe|blank|dashes|lines|nothing|dead|three dashes|ooo|n/?a|oops)"
    rf"(?: only| (?:on|in) (?:it|the \w+))*{_AFTER}$"
)
_DASHES = re.compile(r"(?:^|\s)(?:-{2,}|- - -?)(?:\s|$)")
_OTHER_PROBE = phrases(
    r"\b(?:can|could|should|shall|may|do|would|is it ok(?:ay)? to|ok to|fine to)\b"
    r".*\b(?:read|use|take|trust|go by|check|believe)\b"
    r".*\b(?:probe|thermometer|thermo|sensor|gauge|dial|app|reader|display)\b",
    r"\b(?:which|what) (?:probe|thermometer|reader|sensor|one)\b.*\b(?:use|read|trust|meat|right|in)\b",
    r"\b(?:does|is) (?:the |my )?(?:dial|lid|fridge|oven|room|wall)\b.*\b(?:thermometer|probe|gauge|dial)\b"
    r".*\b(?:count|ok|good|enough|fine|right)\b",
)


def display_shows(heard: str, text: str, context: Context) -> Intent | None:
    """Return what a display without a temperature means: out of range, or no reader at all; None for other words."""
    if context.stage == "none" or heard.endswith("?") or re.search(r"[0-9]{2}", heard):
        return None
    wanted = bool(asked(context))
    if any("low" in step.outcomes for step in context.open_steps) or any(
        "low" in choice.label.casefold() for choice in context.choices
    ):
        return None  # that is how much fuel is left
    plain = bare(heard)
    found = _OUT_OF_RANGE.match(plain)
    if found is not None and (found["shown"] in _ALONE or (wanted and _plainly(plain, text))):
        return Unclear(question="out_of_range", text=text)
    if wanted and (_DASHES.search(heard) or _NO_READING.match(plain)):
        return Trouble(what="probe_dead", text=text)
    return None


def _plainly(plain: str, text: str) -> bool:
    """Return whether "hi" or "low" is what a display shows: said of one, or in its capital letters."""
    return " " in plain or text.strip().isupper()


def probe_asked(heard: str, _text: str, context: Context) -> Intent | None:
    """Return the question which probe counts, None for other words."""
    if context.stage == "none" or context.setup_slot is not None:
        return None
    return Ask(topic=Topic.PROBES) if _OTHER_PROBE.search(heard) and not re.search(r"[0-9]{2}", heard) else None
