"""Words of a fire that goes wrong, as the lead and the watch hear it: who says so, then the card of the problem.

They decide nothing; the cards stand in `bot.messages.problems`.
"""

from __future__ import annotations

from bot.messages.figures import Voice
from bot.messages.message import Message, lines
from bot.messages.problems import problem_card
from bot.messages.words import _
from scheduler.cook import Situation
from scheduler.planning.remedies import Problem


def runaway(problem: Problem, situation: Situation, pit_c: float, name: str, voice: Voice) -> Message:
    """Return that the pit [°C] was read far above its band, by whom, and the card of a runaway pit."""
    band = situation.state.pit[-1]
    first = _("Pit {temp}, far above {pit} (read by {name}).").format(
        temp=voice.temp(pit_c), pit=voice.band(band.low_c, band.high_c), name=name
    )
    return Message(text=first).then(problem_card(problem, situation, voice))


def said_by(name: str, text: str, card: Message) -> Message:
    """Return a card with who told the problem, and how, before it."""
    said = _("{name} says: {text}").format(name=name, text=f'"{text}"')
    return Message(text=lines(said, card.text), choices=card.choices)
