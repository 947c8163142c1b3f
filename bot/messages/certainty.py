"""How sure dinner is, in words: what another certainty does to the start, and why there are limits to it.

Words only; starts and chances come from `scheduler.planning.backward`.
"""

from __future__ import annotations

import datetime as dt

from bot.messages.advice import ask_levers
from bot.messages.figures import Voice
from bot.messages.message import Message, lines
from bot.messages.plans import likely_late, snag_text
from bot.messages.words import _
from scheduler.cook import Situation
from scheduler.planning.backward import LEAST_CONFIDENCE, MOST_CONFIDENCE, SnagKind, wanted_confidence


def certainty_changed(before: Situation, after: Situation, voice: Voice) -> Message:
    """Return how the start moved with another certainty, and the chance of being late that comes of it."""
    old, new = wanted_confidence(before.state), wanted_confidence(after.state)
    head = _("{new} % sure, was {old} %.").format(new=round(100 * new), old=round(100 * old))
    plan, was = after.deciding.outlook.plan, before.deciding.outlook.plan
    if plan is None or was is None:
        return Message(text=head)
    (light_at, on_at), (was_at, _on_at) = _starts(after), _starts(before)
    start = _("Light the fire {light}, meat on {on}.").format(light=voice.about(light_at), on=voice.about(on_at))
    if light_at != was_at:
        start = _("Light the fire {light} (was {was}), meat on {on}.").format(
            light=voice.about(light_at), was=voice.about(was_at), on=voice.about(on_at)
        )
    late = "" if plan.late_probability is None else _("Late {share} in 100.").format(
        share=round(100 * plan.late_probability)
    )  # fmt: skip
    cut = after.deciding.cut
    missed = [snag_text(snag, plan, cut, voice) for snag in plan.snags if snag.kind is SnagKind.TOO_LATE]
    return Message(text=lines(f"{head} {start}", likely_late(plan, voice) or late, *missed))


def _starts(situation: Situation) -> tuple[dt.datetime, dt.datetime]:
    """Return when the fire is lit and the first of the meat goes on: of several pieces the first one decides."""
    outlooks = [view.outlook for view in situation.views]
    return min(outlook.light_at for outlook in outlooks), min(outlook.on_at for outlook in outlooks)


def out_of_limits() -> str:
    """Return between what a plan can be made, kindly."""
    return _("I plan for {least} to {most} %: less is a coin toss, and nobody can promise 100.").format(
        least=round(100 * LEAST_CONFIDENCE), most=round(100 * MOST_CONFIDENCE)
    )


def as_sure_as_can_be(confidence: float) -> str:
    """Return that the plan is at the end of what can be wished already."""
    return _("It is planned for {share} % already. {limits}").format(
        share=round(100 * confidence), limits=out_of_limits()
    )


def too_late_for_it(situation: Situation) -> Message:
    """Return that the start cannot move any more, how dinner stands, and where to look for what can be done."""
    chance = situation.deciding.outlook.chance
    stands = "" if chance is None else _("Dinner is in time with about {share} in 100.").format(
        share=round(100 * chance)
    )  # fmt: skip
    text = _("The meat is on, so its start stands.")
    return Message(text=" ".join(part for part in (text, stands) if part), choices=((ask_levers(),),))


def does_not_keep() -> str:
    """Return that a cut that does not keep has no other start, however sure people want to be."""
    return _("It does not keep, so an earlier start only moves it: planned on its usual time, as before.")


def no_time_fixed() -> str:
    """Return that a dinner without a time has nothing to be sure of."""
    return _("Dinner follows the meat, so there is no time to be sure of. Name one, like dinner at 18:00.")
