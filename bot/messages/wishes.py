"""Answers to wishes about the program itself: what it tells, what is switched off, what stays on and why.

Sentences and buttons only.
"""

from __future__ import annotations

from bot.commands import KindSaid, TellMe
from bot.messages.language import capital
from bot.messages.message import Message, Option, lines
from bot.messages.steps import consequence, step_words
from bot.messages.words import _
from scheduler.cook import Situation
from scheduler.facts import Detail

_LEVELS = {
    Detail.EVERY: lambda: _("I tell every step."),
    Detail.USUAL: lambda: _("I tell the usual steps."),
    Detail.DECISIONS: lambda: _("I tell only decisions."),
}
_BUTTONS = {
    Detail.EVERY: lambda: _("Every step"),
    Detail.USUAL: lambda: _("The usual"),
    Detail.DECISIONS: lambda: _("Only decisions"),
}


def what_i_tell(situation: Situation) -> Message:
    """Return the level of detail and what is switched off, with the other levels as buttons."""
    state = situation.state
    off = ", ".join(step_words(step).name for step, wanted in state.kinds.items() if not wanted)
    on = ", ".join(step_words(step).name for step, wanted in state.kinds.items() if wanted)
    text = lines(
        _("{level} Whatever is about safety always comes.").format(level=_LEVELS[state.detail]()),
        _("Switched off: {names}.").format(names=off) if off else _("Nothing is switched off."),
        _("Told as well: {names}.").format(names=on) if on else "",
    )
    others: tuple[Option, ...] = tuple(
        (_BUTTONS[level](), TellMe(detail=level)) for level in Detail if level is not state.detail
    )
    muted: tuple[tuple[Option, ...], ...] = tuple((again(step),) for step, wanted in state.kinds.items() if not wanted)
    return Message(text=text, choices=(others, *muted))


def again(step: str) -> Option:
    """Return the button that switches the prompts of a step on again."""
    return _("{name} again").format(name=capital(step_words(step).name)), KindSaid(step=step, wanted=True)


def switched(said: KindSaid) -> Message:
    """Return what it means that prompts of a step do not come any more; nothing when they come again."""
    if said.wanted:
        return Message(text="")
    return Message(text=consequence(said.step), choices=((again(said.step),),))


def stays_on(step: str, *, safety: bool) -> Message:
    """Return why the prompts of a step cannot be switched off."""
    name = capital(step_words(step).name)
    if safety:
        text = _("{name} is about safety, so I keep asking.").format(name=name)
    else:
        text = _("{name} stays: every later time is counted from it.").format(name=name)
    return Message(text=lines(text, consequence(step)))


def kept_level(detail: Detail) -> Message:
    """Return that the level of detail is the one with which the last cook ended; nothing for the usual one."""
    if detail is Detail.USUAL:
        return Message(text="")
    text = _("{level} As in the last cook; whatever is about safety always comes.").format(level=_LEVELS[detail]())
    return Message(text=text, choices=((((_BUTTONS[Detail.USUAL]()), TellMe(detail=Detail.USUAL)),),))
