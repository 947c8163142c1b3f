"""Words about food that was thrown away, and words that would wave a stop off.

Whole texts only; whether somebody may record it, and whether a stop stands, is judged elsewhere.
"""

from __future__ import annotations

import re

from bot.commands import Discard, Intent, WaveOff
from bot.conversation.context import Context
from bot.conversation.parsing.words import phrases

_THREW = (
    r"(?:bin(?:ned)?|threw|thrown|throwing|throw|tossed|toss|chucked|chuck|dumped|dump|trashed|trash"
    r"|discarded|discard"
    r"|ditched|scrapped)"
)
_SUBJECT = r"(?:(?:i|we|i've|we've|i have|we have|have|just|so|ok|okay|right|done|they|it's|it is|it was|all)[ ,]+)*"
_WHAT = (
    r"(?:it|them|that|those|this|everything|(?:all|the rest|the lot|the whole (?:lot|thing))"
    r"(?: of (?:it|them|the [a-z ]+))?"
    r"|(?:all |all of )?(?:the|our|my) (?!ash|coal|charcoal|trimming|fat|foil|paper|water|wood|wrap|bone)[a-z ]+?)"
)
_END = r"(?: (?:now|already|sadly|sorry|then|just now|in the bin|in the trash|in the garbage|out|away))*"
_DISCARDS = phrases(
    rf"^{_SUBJECT}{_THREW}(?: (?:out|away))?(?: {_WHAT})?{_END}$",
    rf"^{_SUBJECT}{_THREW} {_WHAT} (?:out|away){_END}$",
    rf"^{_SUBJECT}(?:{_WHAT} )?(?:(?:is|are|was|were|went|has been|got|it's|they're) )?(?:all )?(?:now )?"
    rf"(?:in|into) the (?:bin|trash|garbage|rubbish){_END}$",
    rf"^{_SUBJECT}(?:{_WHAT} )(?:is|are|was|were|has been|have been|got) (?:all )?(?:now )?{_THREW}"
    rf"(?: (?:out|away))?{_END}$",
    rf"^{_SUBJECT}put (?:{_WHAT} )(?:in|into) the (?:bin|trash|garbage|rubbish){_END}$",
)
_NOT_YET = re.compile(
    r"\b(?:don't|do not|won't|will not|not|never|shall|should|will|going to|gonna|must|can|could|may|want|if|or|to be"
    r"|have to|need to|might|let's|lets|thermometer|probe|spatula|gloves?)\b|\?"
)
_EVERY = re.compile(r"\b(?:everything|all|the (?:whole )?lot|the whole thing)\b")
_ANSWERED = frozenset({"two_hour", "leftovers", "leftover_expire", "ash"})
"""Steps of which "thrown" or "binned" by itself is an answer, while they are asked."""

_WAVES = phrases(
    (
        r"^(?:(?:it's|its|it is|that's|thats|they're|we're|i'm|this is|all|well|oh|no|nah|ok|okay|come on)[ ,]+)*"
        r"(?:fine|ok|okay|good|alright|all right|no problem|not a problem|safe|good enough|close enough|near enough)"
        r"(?:[ ,.]+(?:just |really |please )?(?:ignore|forget|skip|drop|dismiss|silence|mute) (?:it|that"
        r"|this|the stop))?"
        r"(?: (?:to (?:eat|serve)|anyway|really|now|trust me|i think|for us))*$"
    ),
    (
        r"^(?:(?:please|just|you can|ok|okay|it's fine|its fine|no)[ ,]+)*(?:ignore|forget|skip|drop"
        r"|dismiss|silence|mute"
        r"|cancel|clear|remove|delete|stop|end|lift|override|acknowledge|disregard) (?:about )?(?:it"
        r"|that|this|the|all|your|these"
        r"|those)?(?: ?(?:stops?|warnings?|alarms?|alerts?|messages?|safety(?: (?:stop|warning|message|thing)s?)?))?"
        r"(?: (?:please|now|it's fine|its fine|we know|i know))*$"
    ),
    (
        r"^(?:please )?(?:stop|quit|enough|no more|don't|do not)(?: (?:with|of))?(?: (?:telling|asking"
        r"|nagging|warning|saying"
        r"|reminding|bugging|bothering|pestering|messaging|tell|ask|nag|warn|remind|bug|bother|repeat"
        r"|repeating|the))*"
        r"(?: (?:me|us|this|that|it|again|about (?:it|that|this|the stop|safety)|stops?|warnings?|alarms?))*$"
    ),
    (
        r"^(?:(?:please|ok|okay)[ ,]+)*(?:remind|tell|ask|warn|bug|ping) (?:me|us)(?: again)?"
        r"(?: (?:later|tomorrow|then|in (?:a|an|\d+) ?(?:while|bit|min|minutes?|h|hours?)?))+$"
    ),
    (
        r"^(?:(?:we|i|we'll|i'll|we will|i will|let's|lets|just|we're going to|we are going to)[ ,]+)*"
        r"(?:(?:take|taking) the"
        r" risk|risk(?:ing)? it|chance it|serve (?:it )?anyway|eat (?:it )?anyway|serving (?:it )?anyway"
        r"|eating (?:it )?anyway"
        r"|keep it|kept it|keeping it|didn't (?:bin|throw|toss) it.*)$"
    ),
    r"^(?:not now|later|whatever|never ?mind|nvm|got it|understood|i know|we know|noted|acknowledged"
    r"|shut up|snooze)$",
    r"^(?:smells|looks|tastes|it smells|it looks|it tastes|seems) (?:fine|ok|okay|good|alright|great"
    r"|done)(?: to me)?$",
)


def discarding(heard: str, context: Context) -> Intent | None:
    """Return that food was thrown away, None when a text says nothing of it, or asks, or only means to.

    A bare word that answers an open question about leftovers stays that answer, unless a stop stands.
    """
    plain = heard.strip(" .!")
    if context.stage == "none" or not plain or _NOT_YET.search(heard):
        return None
    if not _DISCARDS.match(plain):
        return None
    asked = any(step.step in _ANSWERED for step in context.open_steps)
    if asked and not context.stop_stands:
        return None
    return Discard(every=bool(_EVERY.search(plain)))


def waved_off(heard: str, context: Context) -> Intent | None:
    """Return that a stop is to be forgotten, None when none stands or a text says something else."""
    if not context.stop_stands:
        return None
    return WaveOff() if _WAVES.match(heard.strip(" .!")) else None
