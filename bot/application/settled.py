"""What becomes of a question once a button of it was pressed: who answered and what stands below it, and the buttons of
what is settled are gone.

It words nothing itself and decides nothing about the cook.
"""

from __future__ import annotations

from bot import commands as say
from bot.application.boards import PAPER
from bot.application.pictures import below_a_picture
from bot.application.turns import Turn
from bot.application.visit import Visit, Work
from bot.messages.receipts import answered_by, told_line
from bot.ports import Json, ShownMessage
from scheduler.cook import Situation

_WANT_STEPS: dict[type[object], frozenset[str]] = {
    say.WrapSaid: frozenset({"bark_check", "wrap_do"}),
    say.FeelSaid: frozenset({"tender_test"}),
}
"""Steps that a button of this kind answers without naming one."""


def settle(visit: Visit, work: Work, done: Turn) -> bool:
    """Change the message whose button was pressed, where messages can be changed; return whether it says what was told.

    A message of an earlier day, or one that was never delivered, is changed all the same: the transport knows.
    """
    tapped = visit.tapped
    if tapped is None or visit.address.transport in PAPER:
        return False
    shown = visit.house.store.shown(tapped.outbox_key)
    line = told_line(done.reported, visit.voice(done.after))
    if shown is None:
        return False
    left = []
    meanings: list[Json] = []
    for row in shown.choices:
        kept = []
        for button in row:
            stored = visit.house.store.choice(button.token)
            if stored is not None and still_asked(say.INTENT.validate_python(stored.meaning), done.after):
                kept.append(button)
                meanings.append(stored.meaning)
        if kept:
            left.append(tuple(kept))
    text = _answered(shown, visit.person.name, line)
    work.change(
        tapped.outbox_key, text, to=visit.address, row=visit.row_id, choices=tuple(left), meanings=tuple(meanings)
    )
    return bool(line)


def _answered(shown: ShownMessage, name: str, line: str) -> str:
    """Return the text with who answered it, short enough for a caption where it is one."""

    def answered(question: str) -> str:
        return answered_by(question, name, line)

    return below_a_picture(shown.text, answered) if shown.captioned else answered(shown.text)


def still_asked(meaning: say.Intent, after: Situation) -> bool:
    """Return whether a button still answers something: a step or figure that is asked for, or anything else."""
    waiting = after.waiting
    if isinstance(meaning, say.Report):
        slots = {slot for prompt in waiting for slot in prompt.step.slots}
        return any(value.slot is None or value.slot in slots for value in meaning.values)
    wanted = _WANT_STEPS.get(type(meaning))
    step = getattr(meaning, "step", None)
    if wanted is None and step is None:
        return True
    steps = wanted or {step}
    piece = getattr(meaning, "piece", None)
    return any(p.step.id in steps and (piece is None or p.piece == piece) for p in waiting)
