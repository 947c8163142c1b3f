"""Safety findings in words: the level, the number and its limit, what to do now, what ends it. Never softened.

Each rule has its words in the file of its topic; nothing is judged here.
"""

from __future__ import annotations

from collections.abc import Callable

from bot.messages.figures import Voice
from bot.messages.findings import after, before, fire, gate, hold, reported
from bot.messages.findings.told import Told, Words, limit_text
from bot.messages.words import _
from scheduler.safety import Finding, FindingLevel

__all__ = ["WORDS", "Told", "Words", "finding_text", "found_text", "limit_text", "standing_text", "still_text"]

WORDS: dict[str, Callable[[Told], Words]] = {
    **before.WORDS,
    **fire.WORDS,
    **gate.WORDS,
    **hold.WORDS,
    **after.WORDS,
    **reported.WORDS,
}
"""Words by the id of the rule: every rule of `scheduler.safety.register` that gives a finding."""

_LEVELS = {
    FindingLevel.STOP: lambda: _("Stop: {text}."),
    FindingLevel.CAUTION: lambda: _("Caution: {text}."),
    FindingLevel.NOTE: lambda: _("Note: {text}."),
}


def finding_text(finding: Finding, voice: Voice) -> str:
    """Return a finding in three sentences: level and numbers, what to do now, what ends it."""
    words = WORDS[finding.rule](Told(finding=finding, voice=voice))
    return _("{found} {do}. {ends}.").format(found=found_text(finding, voice), do=words.do, ends=words.ends)


def found_text(finding: Finding, voice: Voice) -> str:
    """Return the level and what was found, in one sentence."""
    return _LEVELS[finding.level]().format(text=WORDS[finding.rule](Told(finding=finding, voice=voice)).found)


def still_text(finding: Finding, voice: Voice) -> str:
    """Return that a stop still stands, without a full stop: what is told with the number of the others."""
    return _("Stop, still: {found}").format(found=WORDS[finding.rule](Told(finding=finding, voice=voice)).found)


def standing_text(finding: Finding, voice: Voice) -> str:
    """Return in two sentences that a stop still stands, and what ends it: what every later message says."""
    words = WORDS[finding.rule](Told(finding=finding, voice=voice))
    return _("Stop, still: {found}. {ends}.").format(found=words.found, ends=words.ends)
