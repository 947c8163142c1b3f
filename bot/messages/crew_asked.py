"""What somebody asked for who does not decide it, in few words: the middle of a question to whoever does.

Words only; who decides is found in `bot.application.rights`.
"""

from __future__ import annotations

from bot import commands as say
from bot.messages.advice_words import LEVERS
from bot.messages.bodies import uncapital
from bot.messages.figures import Voice
from bot.messages.steps import step_words
from bot.messages.words import _
from scheduler.facts import Wrap

_LONGEST = 80


def asked_text(intent: say.Intent, typed: str, voice: Voice) -> str:
    """Return what was asked for: in figures where they are known, else as it was typed."""
    match intent:
        case say.MoveDinner(serving=serving) if serving is not None and (start := serving.starts_at()) is not None:
            return _("dinner at {time}").format(time=voice.clock(start))
        case say.MoveDinner(minutes=minutes) if minutes is not None and minutes >= 0:
            return _("dinner {minutes:g} min later").format(minutes=minutes)
        case say.MoveDinner(minutes=minutes) if minutes is not None:
            return _("dinner {minutes:g} min earlier").format(minutes=-minutes)
        case say.MovePit() | say.ChoosePlan():
            return _("the pit to {pit}").format(pit=voice.band(intent.pit_low_c, intent.pit_high_c))
        case say.TakeLever(lever=lever) if lever in LEVERS:
            return uncapital(LEVERS[lever].name())
        case say.WrapSaid(wrap=wrap):
            return _wrap(wrap)
        case say.Done(step=step) | say.Skip(step=step) if step is not None:
            return uncapital(step_words(step).name)
        case say.Discard():
            return _("the food thrown away")
        case _:
            short = " ".join(typed.split())
            return f'"{short[:_LONGEST]}"' if short else lever_text(intent.kind)


def lever_text(lever: str) -> str:
    """Return what a question is called of which only the name is known."""
    if lever in LEVERS:
        return uncapital(LEVERS[lever].name())
    names = {
        "move_dinner": _("another time for dinner"),
        "move_pit": _("another pit"),
        "choose_plan": _("another plan"),
        "change_plan": _("another plan"),
        "wrap": _("wrapping"),
        "done": _("what was told as done"),
        "skip": _("leaving a step out"),
        "guests": _("who eats"),
        "add_piece": _("one more piece"),
        "drop_piece": _("one piece less"),
        "trouble": _("what is wrong"),
    }
    return names.get(lever, _("a change"))


def _wrap(wrap: Wrap | None) -> str:
    names = {
        Wrap.NONE: _("bare to the end"),
        Wrap.PAPER: _("wrapped in paper"),
        Wrap.FOIL: _("wrapped in foil"),
        Wrap.BOAT: _("in a foil boat"),
    }
    return _("wrapped") if wrap is None else names[wrap]


def unconfirmed(name: str, text: str) -> str:
    """Bring a word of a guest to whoever has the watch."""
    return _('{name}, a guest, says: "{text}". Not checked: I took nothing of it. Look, then tell me yourself.').format(
        name=name, text=text
    )


def told_on(who: str) -> str:
    """Thank a guest for what was passed on."""
    return _("Thank you. {who} is told, and looks at it. I take nothing of it before that.").format(who=who)
