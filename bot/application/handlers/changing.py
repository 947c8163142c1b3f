"""What of a running cook can be changed by taps: each thing is asked with the buttons of the set-up.

It changes nothing itself: a button means what the typed words mean.
"""

from __future__ import annotations

from bot import commands as say
from bot.application.announcements import reply
from bot.application.handlers.setup_memory import Setup
from bot.application.handlers.setup_questions import evenings
from bot.application.visit import Visit, Work
from bot.conversation.flows.setup import BY_COUNT
from bot.messages import care_asked, setup, setup_taps, talk
from bot.messages.message import Message
from scheduler.cook import Situation


def handle(visit: Visit, work: Work, situation: Situation, said: say.SetUp) -> None:
    """Show what can be changed, or ask for one thing anew; a button of the set-up before it is told to be old."""
    reply(visit, work, situation, _message(visit, situation, said))


def _message(visit: Visit, situation: Situation, said: say.SetUp) -> Message:
    cuts, cut, voice = visit.house.catalogue.cuts, situation.cut, visit.voice(situation)
    match said.what:
        case "change":
            return setup_taps.changed_cook()
        case "cut":
            on = situation.several or situation.state.did("meat_on") is not None
            return setup_taps.no_other_cut() if on else _meaning(setup.ask_cut(cuts))
        case "mass":
            return _meaning(setup_taps.ask_mass(cut, voice.unit, counted=cut.piece_word in BY_COUNT))
        case "serving":
            known = Setup(draft=say.Draft(cut=cut.id), unit=voice.unit)
            return _meaning(setup_taps.ask_serving(evenings(visit, known), voice))
        case "pit":
            return _meaning(setup.ask_pit(tuple(view.cut for view in situation.views), voice))
        case "wrap":
            return _meaning(setup_taps.ask_wrap(cut))
        case "who":
            asked = care_asked.ask(situation.state.care)
            return asked if asked.text else setup_taps.who_is_told(care_asked.care_line(situation))
        case _:
            return Message(text=talk.old_button())


def _meaning(asked: Message) -> Message:
    """Return a question of the set-up with what its answers mean to a cook that runs."""
    rows = (tuple((label, _of_a_cook(meant)) for label, meant in row) for row in asked.choices)
    kept = (tuple((label, meant) for label, meant in row if meant is not None) for row in rows)
    return Message(text=asked.text, choices=tuple(row for row in kept if row))


def _of_a_cook(meant: say.Intent) -> say.Intent | None:
    """Return what an answer of the set-up means to a cook that runs; None: there is no such answer."""
    match meant:
        case say.Draft(cut=str() as cut):
            return say.ChangePlan(cut=cut)
        case say.Draft(serving=serving) if serving is not None:
            return say.MoveDinner(serving=serving)
        case say.Draft(pit_low_c=float() as low_c, pit_high_c=float() as high_c):
            return say.MovePit(pit_low_c=low_c, pit_high_c=high_c)
        case say.Draft(wrap=wrap) if wrap is not None:
            return say.WrapSaid(wrap=wrap, done=False)
        case say.Draft(mass_kg=mass_kg, count=count) if mass_kg is not None or count is not None:
            return say.ChangePlan(mass_kg=mass_kg, count=count)
        case _:
            return None
