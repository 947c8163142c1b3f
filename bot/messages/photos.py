"""Pictures in words: kept with which step, what is still to be answered, and what was kept. Words only."""

from __future__ import annotations

from bot.messages.figures import Voice
from bot.messages.message import Message, lines
from bot.messages.steps import step_words
from bot.messages.trip import choices_for
from bot.messages.words import _, n_
from scheduler.cook import Situation
from scheduler.planning.prompts import Prompt

_MOST = 6
"""So many pictures are named, then how many more there are."""


def still_to_answer(prompt: Prompt, situation: Situation, voice: Voice) -> Message:
    """Return the question that a picture does not answer by itself, with its buttons."""
    name = step_words(prompt.step.id).name
    return Message(
        text=_("Still to answer: {what}.").format(what=name), choices=choices_for((prompt,), situation, voice)
    )


def photos(situation: Situation, voice: Voice) -> Message:
    """Return which pictures were kept: when, with what, of whom."""
    kept = situation.state.photos
    if not kept:
        return Message(text=_("No pictures yet. Send one at any time: it is kept with the step that is open."))
    each = [
        _("{time} {what} ({who})").format(
            time=voice.clock(one.at),
            what=_("no step") if one.step is None else step_words(one.step).name,
            who=one.by or _("unknown"),
        )
        for one in kept[-_MOST:]
    ]
    count = n_("{count} picture is kept with this cook.", "{count} pictures are kept with this cook.", len(kept))
    return Message(text=lines(count.format(count=len(kept)), *each, _("They lie in the data folder, under photos.")))


def picture_kept() -> str:
    """Say that a picture is kept, beside an answer about what stood under it."""
    return _("The picture is kept.")


def no_cook_for_it() -> str:
    """Say that a picture needs a cook to be kept with."""
    return _("I keep pictures with a cook, and none runs now.")


def not_heard() -> str:
    """Answer a voice note."""
    return _("I cannot listen to voice notes. Type it short, like 178 or wrapped it.")
