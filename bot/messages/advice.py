"""Advice in words: what can still be done, with effect, cost and until when, as lines and as buttons.

Sentences only; what is open and what it brings is decided by `scheduler.planning.advice`.
"""

from __future__ import annotations

import datetime as dt

from bot.commands import Ask, TakeLever, Topic
from bot.messages.advice_words import LEVERS, NOTHING
from bot.messages.dinner import dinner_line
from bot.messages.figures import Voice, span
from bot.messages.message import Message, Option, lines
from bot.messages.naming import piece_name
from bot.messages.words import _
from scheduler.cook import Situation
from scheduler.facts import PitMoved
from scheduler.planning.advice import Advice, Lean, NotPaused
from scheduler.planning.advice import Option as Lever
from scheduler.planning.outlook import ON_TIME
from scheduler.safety import ACT_C
from scheduler.safety.fire import DANGER_C, PIT_COLD_C

MOST = 7
"""Options that are told when people ask."""

_REHEAT_C, _FRIDGE_C, _WARM_C, _COLD_C = 74.0, 4.0, 21.0, 5.0
"""Reheating: USDA FSIS leftovers, 165 F; fridge 40 F; cooling steps: FDA Food Code 3-501.14 [°C]."""

_TENTHS = 10
_HOLD_C = 71.0


def turned_advice(advice: Advice, situation: Situation, voice: Voice) -> Message:
    """Return the best two or three things to do, for the message in which dinner turned late or early; else nothing."""
    if advice.lean not in {Lean.LATE, Lean.CLOSE, Lean.EARLY} or not advice.best:
        return Message(text="")
    what = _("What can be done:")
    if situation.several:
        what = _("What can be done about the {piece}:").format(piece=piece_name(situation.view(advice.at.state.piece)))
    return Message(
        text=lines(what, *(_line(option, voice, several=situation.several) for option in advice.best)),
        choices=(*(_button(option, advice, voice) for option in advice.best), *_idle(advice)),
    )


def advice_message(advice: Advice, situation: Situation, voice: Voice) -> Message:
    """Return everything worth doing, best first, for whoever asked; when nothing is, that doing nothing is right."""
    dinner = dinner_line(situation, voice)
    if advice.lean is Lean.OPEN:
        return Message(text=lines(dinner, _("No time is fixed, so nothing is late: the meat decides.")))
    shown = advice.shown(MOST)
    if advice.calm:
        calm = _("Nothing needs doing: leave it as it is.")
        return Message(text=lines(dinner, calm))
    if not shown:
        return Message(text=lines(dinner, _("Nothing I know would help now. Feel it, and trust the hand.")))
    about = ""
    if situation.several:
        about = _("About the {piece}:").format(piece=piece_name(situation.view(advice.at.state.piece)))
    return Message(
        text=lines(dinner, about, *(_line(option, voice, several=situation.several) for option in shown)),
        choices=(*(_button(option, advice, voice) for option in shown), *_idle(advice)),
    )


def chosen_text(option: Lever, voice: Voice) -> str:
    """Return what to do now that a lever was chosen."""
    return _do(option, voice)


def stands(situation: Situation, voice: Voice) -> str:
    """Return when the meat comes off now and how dinner stands, after a choice that moved little."""
    pull_at = situation.outlook.pull.likely
    if situation.state.did("pull") or pull_at is None:
        return dinner_line(situation, voice)
    return lines(_("Pull now about {time}.").format(time=voice.about(pull_at)), dinner_line(situation, voice))


def closed_lever(lever: str) -> str:
    """Say that a lever is not open any more."""
    return _("{what}: that is not open any more.").format(what=lever_name(lever))


def lever_name(lever: str) -> str:
    """Return what a lever is called; its id when nobody has words for it."""
    words = LEVERS.get(lever)
    return lever if words is None else words.name()


def ask_levers() -> Option:
    """Return the button that asks what can be done."""
    return (_("What can I do?"), Ask(topic=Topic.LEVERS))


def no_pause(found: NotPaused | None, voice: Voice) -> Message:
    """Refuse to pause half-cooked meat, with the reason and the oven instead."""
    if found is None:
        return Message(
            text=_("Nothing is half cooked now: what is raw stays cold, what is done is held hot or chilled.")
        )
    reason = _(
        "No: half-cooked meat cannot wait. It has to keep climbing through {limit}; parked in a box, a fridge or a "
        "dying fire it sits where germs grow, and cooking it later does not undo that."
    ).format(limit=voice.temp(found.limit_c))
    if found.oven is None:
        return Message(text=lines(reason, _("If the fire cannot go on, finish it in an oven.")))
    offer = _("If the fire cannot go on: {line}").format(line=_line(found.oven, voice).removeprefix("- "))
    taken = TakeLever(lever=found.oven.lever.id)
    return Message(text=lines(reason, offer), choices=(((_label(found.oven, voice), taken),),))


def _line(option: Lever, voice: Voice, *, several: bool = False) -> str:
    """Return one option as a line: name, effect, from and until when, how dinner stands then, and its cost."""
    parts = [part for part in (_effect(option), _when(option, voice), _odds(option)) if part]
    cost = LEVERS[option.lever.id].cost()
    if several and option.lever.change == "pit":
        cost = _("every piece gets it, {cost}").format(cost=cost)
    told = _("- {name}: {parts}").format(name=_name(option, voice), parts=", ".join(parts)) if parts else _(
        "- {name}"
    ).format(name=_name(option, voice))  # fmt: skip
    told = f"{told} ({cost})" if cost else told
    return f"{told}."


def _button(option: Lever, advice: Advice, voice: Voice) -> tuple[Option, ...]:
    return ((_label(option, voice), TakeLever(lever=option.lever.id, piece=advice.at.state.piece)),)


def _label(option: Lever, voice: Voice) -> str:
    effect, until = _effect(option), _until(option, voice)
    told = ", ".join(part for part in (effect, until) if part)
    return _("{name}: {told}").format(name=_name(option, voice), told=told) if told else _name(option, voice)


def _idle(advice: Advice) -> tuple[tuple[Option, ...], ...]:
    """Return the choice to change nothing, where it is a sensible one: it may still be on time, or only early."""
    if advice.lean is Lean.LATE:
        return ()
    return (((LEVERS[NOTHING].name(), TakeLever(lever=NOTHING)),),)


def _name(option: Lever, voice: Voice) -> str:
    name = LEVERS[option.lever.id].name()
    pits = [body for body in option.bodies if isinstance(body, PitMoved)]
    if not pits:
        return name
    return _("{name} to {pit}").format(name=name, pit=voice.band(pits[0].pit_low_c, pits[0].pit_high_c))


def _effect(option: Lever) -> str:
    effect = option.effect
    size = span(effect.shift)
    match effect.of:
        case "rest":
            return _("{size} less, counted in already").format(size=size)
        case "pull" if effect.shift:
            said = _("{size} earlier") if effect.shift < dt.timedelta() else _("{size} later")
            said = said.format(size=size)
            return said if effect.computed else _("usually {said}").format(said=said)
        case "opening":
            return _("{size} kept").format(size=size)
        case "hold":
            return _("keeps it up to {size}").format(size=size)
        case "dinner" if not effect.computed:
            return _("usually buys {size}").format(size=size)
        case _:
            return ""


def _when(option: Lever, voice: Voice) -> str:
    start = "" if option.from_at is None else _("from about {time}").format(time=voice.about(option.from_at))
    return ", ".join(part for part in (start, _until(option, voice)) if part)


def _until(option: Lever, voice: Voice) -> str:
    if option.until is None or option.lever.change == "verify":
        return ""
    return _("until {time}").format(time=voice.by(option.until))


def _odds(option: Lever) -> str:
    """Return how likely dinner is on time then, in tenths: no forecast is finer than that."""
    chance = option.effect.after.chance
    if chance is None or option.effect.of in {"none", "hold", "rest"} or option.lever.when == "early":
        return ""
    tenths = round(chance * _TENTHS)
    if tenths == 0:
        return _("still late")
    if chance >= ON_TIME and tenths >= _TENTHS:
        return _("then likely on time")
    return _("then on time {tenths} times in 10").format(tenths=tenths)


def _do(option: Lever, voice: Voice) -> str:
    return LEVERS[option.lever.id].do().format(
        oven="" if option.lever.oven_c is None else voice.temp(option.lever.oven_c),
        hold=voice.temp(_HOLD_C if option.lever.oven_c is None else option.lever.oven_c),
        reheat=voice.temp(_REHEAT_C),
        fridge=voice.temp(_FRIDGE_C),
        floor=voice.temp(PIT_COLD_C),
        floor60=voice.temp(DANGER_C),
        act=voice.temp(ACT_C),
        warm=voice.temp(_WARM_C),
        cold=voice.temp(_COLD_C),
    )  # fmt: skip
