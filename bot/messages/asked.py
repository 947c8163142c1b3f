"""Answers to short questions: when is a step due, when does it come off, how does it rest, and what if it were wrapped.

One to three lines each; nothing is taken from a question.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable

from bot.commands import Ask, Topic
from bot.messages.dinner import box_line, dinner_line
from bot.messages.figures import Voice, span
from bot.messages.language import capital
from bot.messages.message import Message, lines
from bot.messages.reasons import if_skipped, why
from bot.messages.rest import rest_text
from bot.messages.steps import step_words
from bot.messages.trip import next_line
from bot.messages.words import _
from bot.messages.wraps import counting_on, in_wrap
from scheduler.cook import Situation
from scheduler.facts import Slot, Wrap
from scheduler.planning.backward import warm_oven
from scheduler.planning.rest import keeps_until
from scheduler.planning.wraps import pull_if


def short_answer(asked: Ask, situation: Situation, voice: Voice) -> Message | None:
    """Return the answer to a short question, None when it is another sort of question."""
    if asked.topic is Topic.STEP and asked.step is not None:
        return _step(asked.step, situation, voice)
    if asked.topic is Topic.WHAT_IF and asked.wrap is not None:
        return _what_if(asked.wrap, situation, voice)
    if asked.topic in {Topic.WHY, Topic.IF_SKIPPED}:
        return (why if asked.topic is Topic.WHY else if_skipped)(asked.step, situation, voice)
    if asked.topic is Topic.WHO_DID and asked.step is not None:
        return who_did(asked.step, situation, voice)
    if asked.topic is Topic.PROBES:
        return Message(text=which_probe())
    plain: dict[Topic, Callable[[Situation, Voice], Message]] = {Topic.REST: _rest, Topic.WHEN: _when}
    return plain[asked.topic](situation, voice) if asked.topic in plain else None


def which_probe() -> str:
    """Say which probe counts, and ask for its number."""
    return _(
        "No: a probe somewhere else reads the air there. Only one in the middle of the meat counts, off bone and fat. "
        "What does that one show?"
    )


def who_did(step_id: str, situation: Situation, voice: Voice) -> Message:
    """Return who told a step last and when, or that nobody did."""
    state = situation.state
    name = step_words(step_id).name
    slot = {"core_read": Slot.CORE, "pit_check": Slot.PIT}.get(step_id)
    last = state.did(step_id) if slot is None else state.last(slot)
    if last is None:
        return Message(text=_("{step}: nobody has told me.").format(step=name[:1].upper() + name[1:]))
    return Message(
        text=_("{name}, {time}: {step}.").format(name=last.by or _("Somebody"), time=voice.clock(last.at), step=name)
    )


def _step(step_id: str, situation: Situation, voice: Voice) -> Message:
    """Return when a step was done, or that it waits for an answer, or when it is due."""
    return Message(
        text=lines(_due(step_id, situation, voice), dinner_line(situation, voice), next_line(situation, voice))
    )


def _due(step_id: str, situation: Situation, voice: Voice) -> str:
    state = situation.state
    name = step_words(step_id).name
    name = capital(name)
    done_at = state.wraps[-1][0] if step_id == "wrap_do" and state.wraps else state.at(step_id)
    prompt = situation.prompt("bark_check" if step_id == "wrap_do" and situation.prompt(step_id) is None else step_id)
    if prompt is not None and prompt.asked_at is not None:
        return _("{name}: open, nobody has told me.").format(name=name)
    due_at = next((at for at, step in situation.itinerary() if step.id == step_id), None)
    due_at = due_at if prompt is None else prompt.due_at
    if due_at is not None and not (done_at is not None and situation.catalogue.steps.get(step_id) is None):
        if due_at <= voice.now:
            return _("{name}: now.").format(name=name)
        return _("{name}: about {time}.").format(name=name, time=voice.about(due_at))
    if done_at is not None:
        return _("{name}: done, {time}.").format(name=name, time=voice.clock(done_at))
    return _("{name}: not planned now.").format(name=name)


def _when(situation: Situation, voice: Voice) -> Message:
    """Return when the meat comes off, or came off, and what comes next."""
    pulled_at, pull = situation.state.at("pull"), situation.outlook.pull
    if pulled_at is not None:
        text = _("Off the fire since {time}.").format(time=voice.clock(pulled_at))
        return Message(text=lines(text, dinner_line(situation, voice), next_line(situation, voice)))
    likely = _("beyond 30 h") if pull.likely is None else voice.about(pull.likely)
    text = _("Ready to pull: {window}, likely {likely}.").format(window=voice.window(pull), likely=likely)
    if condition := counting_on(situation):
        text = _("Ready to pull: {window}, likely {likely}, {condition}.").format(
            window=voice.window(pull), likely=likely, condition=condition
        )
    return Message(text=lines(text, next_line(situation, voice)))


def _rest(situation: Situation, voice: Voice) -> Message:
    """Return how the meat rests: as planned before the pull, then until when the box keeps it."""
    state, cut = situation.state, situation.cut
    if state.did("serve"):
        return Message(text=_("Dinner is served."))
    if not state.did("pull"):
        low, high = (span(dt.timedelta(minutes=minutes)) for minutes in cut.rest_ideal_min)
        if warm_oven(state):
            warm = span(dt.timedelta(minutes=cut.rest_max_heated_min))
            return Message(
                text=_(
                    "After the pull: vent {vent:g} min, then into the warm oven until dinner, {longest} at most, read "
                    "by its core."
                ).format(vent=cut.vent_min, longest=warm)
            )
        longest = span(dt.timedelta(minutes=cut.rest_max_unheated_min))
        return Message(
            text=_(
                "After the pull: vent {vent:g} min, then {low} to {high} in the box. A cold box holds {longest} at "
                "most: the core says how long."
            ).format(vent=cut.vent_min, low=low, high=high, longest=longest)
        )
    until = keeps_until(state, cut)
    told = rest_text(situation, voice)
    if not told and until is not None:
        told = _("A cold box keeps it until {time} at most: read the meat.")
        if warm_oven(state):
            told = _("The oven keeps it until {time} at most: read the meat.")
        told = told.format(time=voice.by(until))
    return Message(text=lines(told, box_line(situation, voice)))


def _what_if(wrap: Wrap, situation: Situation, voice: Voice) -> Message:
    """Return the pull with another wrap beside the pull as it stands."""
    window = pull_if(situation.state, situation.outlook, situation.cut, wrap)
    if window is None:
        return Message(text=_("The meat is off the fire: no wrap changes the pull."))
    likely = _("beyond 30 h") if window.likely is None else voice.about(window.likely)
    now = situation.outlook.pull.likely
    stands = _("beyond 30 h") if now is None else voice.about(now)
    text = _("If {wrap}: pull near {likely} ({window}). As it stands: near {now}.").format(
        wrap=in_wrap(wrap), likely=likely, window=voice.window(window), now=stands
    )
    return Message(text=text)
