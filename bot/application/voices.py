"""What the reader of a text must know of the cook that it is about."""

from __future__ import annotations

import dataclasses
import datetime as dt
import string

from bot.application.boards import PAPER
from bot.application.cookers import cooker_names
from bot.application.visit import Visit
from bot.application.which import asked_cores
from bot.commands import INTENT, UNNAMED
from bot.conversation.context import Context, KnownPiece, OfferedChoice, OpenStep
from bot.messages.answers import all_steps
from bot.messages.care_asked import still_asked
from bot.messages.steps import step_words
from bot.messages.trip import choices_for
from scheduler.cook import Situation, may_be_kept
from scheduler.facts import Serving, Slot
from scheduler.planning.handover import coming_change
from scheduler.planning.prompts import Prompt
from scheduler.safety import chilling_since
from scheduler.safety.each import needed
from scheduler.state import Stage

DEFAULT_UNIT = "F"
"""Unit spoken while nobody has used one."""


def context_of(visit: Visit, situation: Situation) -> Context:
    """Return what decides the meaning of a text said now in this cook: of several pieces each has its own."""
    if not situation.several:
        return _context(visit, situation)
    asked = asked_cores(situation)
    first = asked[0] if asked else situation.at_the_fire.focus
    alone = [(view, _context(visit, situation.seen_from(view.piece))) for view in situation.views]
    pieces = tuple(
        KnownPiece(piece=view.piece, cut=view.cut.id, number=view.number, context=context) for view, context in alone
    )
    whole = _context(visit, situation.seen_from(first))
    return dataclasses.replace(
        whole,
        stage=situation.stage.value,
        open_steps=_open_steps(situation),
        choices=_with_typed(offered(visit), situation),
        pieces=pieces,
        asked_cores=asked,
    )


def _open_steps(situation: Situation) -> tuple[OpenStep, ...]:
    """Return the open steps, each once: which piece is meant is settled afterwards."""
    return tuple({prompt.step.id: _open_step(prompt) for prompt in reversed(situation.waiting)}.values())[::-1]


def _context(visit: Visit, situation: Situation) -> Context:
    state = situation.state
    core, pit = state.last(Slot.CORE), state.last(Slot.PIT)
    return Context(
        now=visit.incoming.sent_at,
        zone=state.serving.zone,
        unit=visit.unit(situation),
        stage=state.stage.value,
        cuts=visit.house.catalogue.cuts,
        cut=situation.cut.id,
        each=needed(state, situation.cut),
        open_steps=tuple(_open_step(prompt) for prompt in situation.waiting),
        choices=_with_typed(offered(visit), situation),
        cooker_names=cooker_names(visit.house),
        pit_target_c=state.pit_c,
        last_core_c=None if core is None else core.value_c,
        last_core_at=None if core is None else core.at,
        last_pit_c=None if pit is None else pit.value_c,
        last_pit_at=None if pit is None else pit.at,
        last_told_at=max((reading.at for reading in state.readings), default=None),
        lights_at=_lights_at(situation),
        meat_on_at=state.at("meat_on"),
        wrap=state.wraps[-1][1].wrap if state.wraps else state.planned.wrap,
        troubles=tuple(dict.fromkeys(one for view in situation.views for one in view.state.troubles)),
        serving=state.serving,
        people=tuple(person.name for person in visit.house.store.people()),
        chilling=chilling_since(state) is not None,
        may_keep=may_be_kept(situation.view(state.piece), visit.incoming.sent_at),
        rest_place=None if state.rest is None else state.rest.place,
        stop_stands=any(situation.stops_of(view.piece, visit.now) for view in situation.views),
        asks_allergy=UNNAMED in (state.care.allergies or ()),
        muted=tuple(state.muted),
        watch_offered=_watch_offered(visit, situation),
        sound_open=any(one.heard_at is None for one in state.sound.values()),
    )


def _watch_offered(visit: Visit, situation: Situation) -> bool:
    """Return whether whoever speaks is asked to take the watch."""
    offer = situation.state.handover
    if offer is not None:
        return offer.to == visit.person.name
    change = coming_change(situation.state)
    asked = any(prompt.step.id == "handover" for prompt in situation.waiting)
    return asked and change is not None and change.incoming == visit.person.name


def _lights_at(situation: Situation) -> dt.datetime | None:
    """Return when the fire is to be lit for the first piece, None once it burns."""
    plans = [view.outlook.plan for view in situation.views if view.outlook.plan is not None]
    burns = situation.stage is not Stage.BEFORE or not plans
    return None if burns else min(plan.light_at for plan in plans)


def setup_context(visit: Visit, slot: str | None, unit: str | None, dinner: Serving | None = None) -> Context:
    """Return what decides the meaning of a text while no cook is running; `dinner` is what was said of it so far."""
    return Context(
        now=visit.incoming.sent_at,
        zone=visit.house.zone,
        unit=unit or visit.manner.unit,
        stage="none",
        cuts=visit.house.catalogue.cuts,
        choices=offered(visit),
        cooker_names=cooker_names(visit.house),
        setup_slot=slot,
        serving=dinner,
    )


def offered(visit: Visit) -> tuple[OfferedChoice, ...]:
    """Return the buttons now on the screen of the room, lettered in order where buttons have letters: elsewhere "k" is
    no button.
    """
    stored = visit.house.store.open_choices(visit.address)
    letters = string.ascii_lowercase if visit.address.transport in PAPER else ""
    return tuple(
        OfferedChoice(
            letter=letters[number] if number < len(letters) else "",
            label=choice.label,
            meaning=INTENT.validate_python(choice.meaning),
        )
        for number, choice in enumerate(stored)
    )


def _with_typed(shown: tuple[OfferedChoice, ...], situation: Situation) -> tuple[OfferedChoice, ...]:
    """Return the buttons on the screen and the choices of every open prompt, which newer buttons may have covered."""
    labels = {choice.label for choice in shown}
    rows = (*choices_for(situation.waiting, situation), (all_steps(),), still_asked(situation.state.care))
    covered = [(label, meaning) for row in rows for label, meaning in row if label not in labels]
    return (*shown, *(OfferedChoice(letter="", label=label, meaning=meaning) for label, meaning in covered))


def _open_step(prompt: Prompt) -> OpenStep:
    return OpenStep(
        step=prompt.step.id,
        title=step_words(prompt.step.id).name,
        slots=prompt.step.slots,
        outcomes=prompt.step.outcomes,
        is_question=prompt.is_question,
    )
