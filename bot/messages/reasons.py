"""Why a step is asked and why then, what happens without it, and what another plan would mean. Nothing is changed.

Words only; every time and chance comes from the engine.
"""

from __future__ import annotations

import datetime as dt

from bot.commands import MoveDinner, MovePit, Skip, Suppose
from bot.messages.figures import Voice, span
from bot.messages.language import capital
from bot.messages.message import Message, Option, lines
from bot.messages.plan_report import why_text
from bot.messages.steps import consequence, step_words
from bot.messages.trip import next_line
from bot.messages.words import _
from scheduler.cook import Situation
from scheduler.planning.prompts import Prompt


def why(step_id: str | None, situation: Situation, voice: Voice) -> Message:
    """Return why a step matters and why it is due when it is; without one, of what is open, else of what comes."""
    prompt = _meant(step_id, situation)
    step = step_id or (None if prompt is None else prompt.step.id)
    if step is None:
        return Message(text=lines(_("Nothing is open."), next_line(situation, voice)))
    name = capital(step_words(step).name)
    return Message(text=lines(f"{name}. {consequence(step)}".rstrip(), _due(prompt, voice)))


def if_skipped(step_id: str | None, situation: Situation, voice: Voice) -> Message:
    """Return what happens without a step, and whether it may be left out."""
    prompt = _meant(step_id, situation)
    step = step_id or (None if prompt is None else prompt.step.id)
    if step is None:
        return Message(text=lines(_("Nothing is open."), next_line(situation, voice)))
    known = situation.catalogue.steps.get(step)
    name = capital(step_words(step).name)
    if known is not None and known.safety:
        stays = _("It is about safety: it stays open until it is done.")
        return Message(text=lines(f"{name}. {consequence(step)}".rstrip(), stays))
    choices: tuple[tuple[Option, ...], ...] = ()
    if prompt is not None:
        choices = (((_("Skip it this once"), Skip(step=step)),),)
    return Message(text=f"{name}. {consequence(step)}".rstrip(), choices=choices)


def _meant(step_id: str | None, situation: Situation) -> Prompt | None:
    """Return the prompt that is meant: the named one, else the newest open one, else the next."""
    if step_id is not None:
        return situation.prompt(step_id)
    if situation.waiting:
        return situation.waiting[0]
    return None if situation.coming is None else situation.coming[1]


def _due(prompt: Prompt | None, voice: Voice) -> str:
    """Return why a prompt comes when it does."""
    if prompt is None:
        return ""
    reason = why_text(prompt.why, voice)
    if prompt.due_at <= voice.now:
        return _("Due now, {reason}.").format(reason=reason)
    return _("Due {time}, {reason}.").format(time=voice.about(prompt.due_at), reason=reason)


def supposed(asked: Suppose, then: Situation, now: Situation, voice: Voice) -> Message:
    """Return start, pull and chance under a change beside those that stand, with a button that makes it so."""
    changed = lines(
        _("If {what}: {times}").format(what=_what(asked, then, voice), times=_times(then, voice)),
        _("As it stands: {times}").format(times=_times(now, voice)),
        _("Nothing is changed."),
    )
    return Message(text=changed, choices=_make_it_so(asked))


def not_possible(why_not: str, now: Situation, voice: Voice) -> Message:
    """Return why a change is not possible, and how it stands."""
    return Message(text=lines(why_not, _("As it stands: {times}").format(times=_times(now, voice))))


def on_already(voice: Voice, now: Situation) -> Message:
    """Return that the start has been made, and how it stands."""
    started = _("The meat is on already: its start stands.")
    return Message(text=lines(started, _("As it stands: {times}").format(times=_times(now, voice))))


def _times(situation: Situation, voice: Voice) -> str:
    """Return the times and the chance of a plan or of a cook that runs."""
    outlook = situation.outlook
    parts = []
    if outlook.chance is not None:
        parts.append(_("late {share} in 100").format(share=round(100 * (1.0 - outlook.chance))))
    if outlook.plan is not None:
        parts.append(_("light {time}").format(time=voice.about(outlook.plan.light_at)))
    likely = outlook.pull.likely
    parts.append(_("pull beyond 30 h") if likely is None else _("pull about {time}").format(time=voice.about(likely)))
    if outlook.plate_at is not None:
        parts.append(_("plate {time}").format(time=voice.about(outlook.plate_at)))
    return ", ".join(parts) + "."


def _what(asked: Suppose, then: Situation, voice: Voice) -> str:
    """Return what is supposed, in a few words."""
    parts = []
    if asked.pit_low_c is not None:
        high_c = asked.pit_low_c if asked.pit_high_c is None else asked.pit_high_c
        parts.append(_("pit {pit}").format(pit=voice.band(asked.pit_low_c, high_c)))
    dinner = None if asked.serving is None else asked.serving.starts_at()
    if asked.serving is not None:
        parts.append(_("dinner {time}").format(time=_("when ready") if dinner is None else voice.clock(dinner)))
    if asked.light_at is not None:
        parts.append(_("lit {time}").format(time=voice.about(then.outlook.light_at)))
    if asked.on_at is not None:
        parts.append(_("meat on {time}").format(time=voice.about(then.outlook.on_at)))
    if asked.later_min is not None:
        length = span(dt.timedelta(minutes=asked.later_min))
        way = _("{span} later") if asked.later_min > 0 else _("{span} earlier")
        parts.append(way.format(span=length))
    return ", ".join(parts)


def _make_it_so(asked: Suppose) -> tuple[tuple[Option, ...], ...]:
    """Return the button that keeps a supposed pit or dinner; a start is kept by starting then."""
    if asked.light_at is not None or asked.on_at is not None or asked.later_min is not None:
        return ()
    if asked.serving is not None and asked.pit_low_c is None:
        return (((_("Do it so"), MoveDinner(serving=asked.serving)),),)
    if asked.serving is None and asked.pit_low_c is not None:
        high_c = asked.pit_low_c if asked.pit_high_c is None else asked.pit_high_c
        return (((_("Do it so"), MovePit(pit_low_c=asked.pit_low_c, pit_high_c=high_c)),),)
    return ()
