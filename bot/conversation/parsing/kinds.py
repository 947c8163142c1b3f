"""How much people want to be told: prompts of one step switched off or on, the level of detail, and what is told now.

Only whole texts; whether a prompt may be switched off is judged elsewhere.
"""

from __future__ import annotations

import re

from bot.commands import Ask, Intent, TellMe, Topic
from bot.commands.wishes import KindSaid
from bot.conversation.context import Context
from bot.conversation.parsing.steps import named
from bot.conversation.parsing.words import phrases
from scheduler.facts import Detail

_PROMPTS = r"(?:prompts?|reminders?|questions?|messages?|pings?|nags?|nagging|alerts?|notifications?)"
_ASK = (
    r"(?:ask(?:ing)?|remind(?:ing)?|tell(?:ing)?|bug(?:ging)?|ping(?:ing)?|nag(?:ging)?|bother(?:ing)?|pester(?:ing)?)"
)
_ABOUT = r"(?: (?:about|of|for|to|on|with|when to|that i should))?"
_END = r"(?: (?:please|pls|any ?more|now|for now|today|this time|thanks))*"
_OFF = phrases(
    rf"^(?:please )?(?:no(?: more)?|stop(?: the| with(?: the)?)?|enough(?: of)?|mute|turn off|switch off|drop|less)"
    rf" (?:the |those |your |any |all )*(?P<a>.+?) {_PROMPTS}{_END}$",
    rf"^(?:please )?(?:turn|switch) (?:the )?(?P<b>.+?) {_PROMPTS} off{_END}$",
    rf"^(?:please )?(?:stop|quit|don't|do not|never|no need to|need not|you (?:don't|do not) (?:have|need) to"
    rf"|you can stop|no more) (?:keep )?{_ASK}(?: (?:me|us))?{_ABOUT} (?:the |this |any )?(?P<c>.+?){_END}$",
    rf"^(?:please )?(?:mute|silence) (?:the )?(?P<d>.+?){_END}$",
    r"^(?:we |i )?(?:don't|do not|won't|will not|never) (?P<e>spritz|rotate)(?: (?:it|them|at all|today|this time))*$",
)
_ON = phrases(
    rf"^(?:please )?{_ASK}(?: (?:me|us))?{_ABOUT} (?:the )?(?P<a>.+?) again{_END}$",
    rf"^(?:please )?(?:(?:i |we )?(?:do )?want|(?:turn|switch) (?:back )?on|bring back|give me)"
    rf" (?:the )?(?P<b>.+?) {_PROMPTS}(?: (?:again|back|too))*{_END}$",
    rf"^(?:please )?(?:turn|switch) (?:the )?(?P<c>.+?) {_PROMPTS} (?:back )?on(?: again)?{_END}$",
    rf"^(?:please )?unmute (?:the )?(?P<d>.+?){_END}$",
    rf"^(?:the )?(?P<e>.+?) {_PROMPTS} (?:again|back(?: on)?){_END}$",
)
_AGAIN = re.compile(rf"^(?:and |the )*(?P<step>[a-z ]+?)(?<!ed) again{_END}$")
_NAMES: tuple[tuple[str, str], ...] = (
    ("fuel_check", r"\bfuel\b|\bcharcoal\b|\bcoals?\b"),
    ("core_read", r"\b(?:readings?|numbers?|temps?|temperatures?|the meat|core)\b"),
    ("water_pan", r"\bwater\b"),
    ("two_hour", r"\btwo[- ]hours?\b"),
    ("come_up_check", r"\bfour[- ]hours?\b"),
    ("raw_cleanup", r"\braw\b|\bboards?\b"),
    ("hold_check", r"\bhold(?:ing)?\b"),
    ("ash", r"\bash(?:es)?\b"),
    ("leftovers", r"\bleftovers?\b"),
    ("rules_recheck", r"\b(?:fire )?ban\b|\brules\b"),
    ("quick_notes", r"\bnotes\b"),
)
"""Words of kinds that a person calls otherwise than the steps they are done in."""

_ME = r"(?:(?:tell|ask) (?:me|us) |i want |give me )"
_LEVELS = (
    (
        Detail.EVERY,
        phrases(
            rf"^{_ME}?(?:about )?(?:every|each|all the) (?:single )?steps?{_END}$",
            rf"^(?:tell|ask) (?:me|us) (?:about )?(?:more|each step|all of it){_END}$",
        ),
    ),
    (
        Detail.USUAL,
        phrases(
            rf"^{_ME}?(?:just |only )?(?:the )?usual(?: (?:steps|prompts|ones))?{_END}$",
        ),
    ),
    (
        Detail.DECISIONS,
        phrases(
            rf"^{_ME}?(?:about )?(?:just |only )(?:the )?decisions(?: only)?{_END}$",
            rf"^decisions only{_END}$",
            rf"^(?:tell|ask) (?:me|us) (?:less|only what matters|only what i must decide){_END}$",
            rf"^(?:fewer|less|no more|enough) {_PROMPTS}{_END}$",
            rf"^(?:please )?(?:stop|quit) {_ASK}(?: me| us)?{_END}$",
        ),
    ),
)
_TOLD = phrases(
    r"^what (?:do|will|are) you (?:tell|ask|remind|going to (?:tell|ask))(?: (?:me|us))?(?: about| of)?$",
    r"^what(?: is|'s)? (?:switched|turned) off$",
    r"^what(?: is|'s|s)? muted$",
    r"^how much (?:do|will) you tell(?: (?:me|us))?$",
    r"^(?:my |the )?(?:level|detail)(?: of detail)?$",
)


def kinds_said(heard: str, _text: str, context: Context) -> Intent | None:
    """Return what a whole text says of the prompts themselves, None when it is about something else."""
    plain = heard.strip(" .!")
    if _TOLD.match(plain.rstrip(" ?")):
        return Ask(topic=Topic.TOLD)
    if heard.endswith("?"):
        return None
    level = next((detail for detail, pattern in _LEVELS if pattern.match(plain)), None)
    if level is not None:
        return TellMe(detail=level)
    for pattern, wanted in ((_OFF, False), (_ON, True)):
        if (found := pattern.match(plain)) is not None:
            words = next(word for word in found.groupdict().values() if word)
            step = step_called(words)
            return None if step is None else KindSaid(step=step, wanted=wanted)
    again = _AGAIN.match(plain)
    step = None if again is None else step_called(again["step"])
    return KindSaid(step=step, wanted=True) if step is not None and step in context.muted else None


_IN_A_PLAN = re.compile(
    r"\b(?:(?:tell|ask) (?:me|us) )?(?:(?P<every>every (?:single )?step)|(?:just |only )(?P<few>(?:the )?decisions))\b"
)


def level_in(heard: str) -> tuple[Detail, tuple[int, int]] | None:
    """Return the level of detail that a sentence about a cook to come names, and where; None when it names none."""
    found = _IN_A_PLAN.search(heard)
    if found is None:
        return None
    return (Detail.EVERY if found["every"] else Detail.DECISIONS), found.span()


def step_called(words: str) -> str | None:
    """Return the step that people mean by a name of its prompts, None when it is none."""
    return next((step for step, pattern in _NAMES if re.search(pattern, words)), None) or named(words)
