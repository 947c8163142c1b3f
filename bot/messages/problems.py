"""The answer to a problem: one short card, what it costs where the engine knows, and buttons for the usual answers.

People in danger come first, with the emergency number and nothing of the plan. It decides nothing.
"""

from __future__ import annotations

import datetime as dt

from bot.commands import DANGERS, Intent, TakeLever, TroubleOver
from bot.messages.advice_words import LEVERS
from bot.messages.figures import Voice, span
from bot.messages.message import Message, Option, lines
from bot.messages.problem_card import Card
from bot.messages.problem_over import over_words
from bot.messages.problems_danger import DANGER, emergency
from bot.messages.problems_fire import FIRE, GAUGES
from bot.messages.problems_meat import MEAT
from bot.messages.problems_people import PEOPLE
from bot.messages.words import _
from scheduler.cook import Situation
from scheduler.planning.advice import Cost
from scheduler.planning.remedies import Problem
from scheduler.safety import ACT_C
from scheduler.safety.fire import DANGER_C, PIT_COLD_C

CARDS: dict[str, Card] = {**DANGER, **FIRE, **GAUGES, **MEAT, **PEOPLE}
"""Cards by problem."""

_REHEAT_C, _ABOVE_C, _BARK_C, _HOT_C = 74.0, 66.0, 140.0, 32.2
"""Reheating 165 F and hot day 90 F: USDA FSIS; oven for bark 135 to 149 C and "above 66 C": common practice [°C]."""


def danger_card(problem: str) -> Message:
    """Return the card of a problem in which people are in danger; it needs no cook."""
    card = DANGER[problem]
    text = lines(_filled(card.do, {}), _filled(card.caution, {}), card.ask())
    return Message(text=text, choices=_rows(card.answers()))


def problem_card(
    problem: Problem, situation: Situation, voice: Voice, *, cost: Cost | None = None, lever: bool = False
) -> Message:
    """Return the card of a problem in a running cook; `lever` says that the lever it names is open now."""
    if problem.id in DANGERS:
        message = danger_card(problem.id)
        return Message(text=message.text, choices=(*message.choices, *_rows(_over(problem))))
    card = CARDS[problem.id]
    words = _words(situation, voice)
    answers = (*card.answers(), *(_levered(card) if lever else ()), *_over(problem))
    return Message(
        text=lines(
            _filled(card.do, words),
            _careful(_filled(card.caution, words)),
            cost_line(cost, voice),
            _filled(card.ask, words),
        ),
        choices=_rows(answers),
    )


def other_problem() -> str:
    """Answer a problem that has no card."""
    return _("Noted. If anybody is in danger, the fire and the meat can wait: people first. {emergency}").format(
        emergency=emergency()
    )


def none_stands() -> str:
    """Say that no problem stands that could be over."""
    return _("Good. No problem stands here.")


def still_in_danger(problem: str) -> Message:
    """Say that a danger about people stands until somebody says of just that that it is over, with the button."""
    text = _("Noted. It stands here until somebody says that it is looked after: {what}. Is it?")
    over: Intent = TroubleOver(what=problem)
    return Message(text=text.format(what=CARDS[problem].name()), choices=_rows(((over_words(problem), over),)))


def no_word_ends_it() -> str:
    """Say what ends dirt on food and a wrong thermometer."""
    return _(
        'A word does not end that: throw it away, or read it hot enough. Told by mistake? Type "undo" right after it.'
    )


def does_it_burn() -> str:
    """Ask somebody who says that all is well, while the fire is told to be out, whether it burns."""
    return _('Does the fire burn again? Then type "relit" and what the pit reads. Until then it counts as out.')


def cost_line(cost: Cost | None, voice: Voice) -> str:
    """Return what a problem costs if nothing is done about it; nothing when the engine cannot say."""
    if cost is None or cost.after.pull.likely is None:
        return ""
    way = _("later") if cost.shift > dt.timedelta() else _("earlier")
    likely = voice.about(cost.after.pull.likely)
    if cost.pit_c is not None:
        return _("If the pit stays near {pit}: pull about {size} {way}, near {time}.").format(
            pit=voice.temp(cost.pit_c), size=span(cost.shift), way=way, time=likely
        )
    return _("That costs: pull about {size} {way}, near {time}.").format(size=span(cost.shift), way=way, time=likely)


def _words(situation: Situation, voice: Voice) -> dict[str, str]:
    return {
        "minimum": voice.limit(situation.gate.minimum_c),
        "lead": situation.state.lead or _("The fire lead"),
        "floor": voice.limit(PIT_COLD_C),
        "danger": voice.limit(DANGER_C),
        "act": voice.temp(ACT_C),
        "reheat": voice.temp(_REHEAT_C),
        "above": voice.temp(_ABOVE_C),
        "bark": voice.temp(_BARK_C),
        "hot": voice.temp(_HOT_C),
        "climbs": _("Meat under {danger} has to keep climbing.").format(danger=voice.limit(DANGER_C)),
    }


def _filled(words: object, fields: dict[str, str]) -> str:
    assert callable(words)
    return str(words()).format(**fields, emergency=emergency())


def _careful(text: str) -> str:
    return _("Careful: {text}").format(text=text) if text else ""


def _levered(card: Card) -> tuple[Option, ...]:
    return () if card.lever is None else ((LEVERS[card.lever].name(), TakeLever(lever=card.lever)),)


def _over(problem: Problem) -> tuple[Option, ...]:
    """Return the button that ends a problem, for those that stand until somebody says so."""
    over: Intent = TroubleOver(what=problem.id)
    return ((_("It is over"), over),) if problem.lasts or problem.danger else ()


def _rows(answers: tuple[Option, ...]) -> tuple[tuple[Option, ...], ...]:
    return tuple((answer,) for answer in answers)
