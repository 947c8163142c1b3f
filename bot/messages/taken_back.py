"""What a word would take back that was told before, asked once: "You told it: injected, at 08:00. Was that wrong?"

Words and buttons only; whether anything is taken back is seen by the caller.
"""

from __future__ import annotations

from bot.commands import Intent, Note
from bot.messages.care import care_text
from bot.messages.figures import Voice, both
from bot.messages.message import Message, lines
from bot.messages.words import _
from scheduler.facts import CareTold, Fact, TreatedTold


def asked(told: tuple[Fact, ...], meant: Intent, voice: Voice) -> Message:
    """Ask whether what was told before was wrong: each with who told it and when; `meant` is what a yes does."""
    each = [
        _("{who} told me at {clock}: {what}.").format(
            who=fact.by, clock=voice.clock(fact.happened_at), what=care_text(fact.body)
        )
        for fact in told
        if isinstance(fact.body, CareTold | TreatedTold)
    ]
    choices = (((_("It was wrong"), meant), (_("It stays"), Note(text="it stays"))),)
    return Message(text=lines(*each, _("Was that wrong? Until you say so it counts.")), choices=choices)


def minimum_moved(before_c: float, after_c: float) -> str:
    """Return the minimum that counts now, and the one that counted before [°C]."""
    return _("The minimum is {now} now; it was {before}.").format(now=both(after_c), before=both(before_c))
