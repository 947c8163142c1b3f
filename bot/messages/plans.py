"""Plans in words: what should be known of one when it is made, and the plans side by side to choose from.

Sentences and buttons only; every time and chance comes from `scheduler.planning`.
"""

from __future__ import annotations

import dataclasses
import datetime as dt

from bot.commands import ChoosePlan
from bot.messages.advice import ask_levers
from bot.messages.figures import Voice, at_most, charcoal, span
from bot.messages.language import capital
from bot.messages.message import Message, Option, lines
from bot.messages.naming import piece_name
from bot.messages.words import _
from bot.messages.wraps import in_wrap
from scheduler.cook import Situation
from scheduler.cuts import Cut
from scheduler.facts import Wrap
from scheduler.planning.alternatives import Alternative, Kind
from scheduler.planning.backward import Backward, Snag, SnagKind
from scheduler.planning.shared_fire import alternatives_of

_NIGHT = dt.timedelta(minutes=30)
"""Less of the night than this is not worth a word."""

_EVEN = 0.5


def snag_lines(plan: Backward, cut: Cut, voice: Voice, known: frozenset[SnagKind] = frozenset()) -> tuple[str, ...]:
    """Return what should be known of a plan before the fire is lit, one sentence each; without what is `known`."""
    return tuple(snag_text(snag, plan, cut, voice) for snag in plan.snags if snag.kind not in known)


def snag_text(snag: Snag, plan: Backward, cut: Cut, voice: Voice) -> str:
    """Return the sentence of one thing that should be known."""
    length = span(dt.timedelta(minutes=snag.minutes))
    match snag.kind:
        case SnagKind.NEEDS_OVEN:
            return _("If it finishes early it outlasts a cold box ({limit} at most): have a warm oven ready.").format(
                limit=at_most(cut.rest_max_unheated_min)
            )
        case SnagKind.OUTLASTS_HOLD:
            return _("If it finishes early it waits {wait}, longer than it keeps hot ({limit} at most).").format(
                wait=length, limit=at_most(cut.rest_max_heated_min)
            )
        case SnagKind.REST_EATEN:
            return _("If it runs slow, only {rest} of rest are left.").format(rest=length)
        case SnagKind.SLIPS:
            return _("If it runs slow, the plate slips to about {time}.").format(time=_plate_late(plan, voice))
        case SnagKind.DOES_NOT_HOLD:
            return _("It does not keep: planned on its usual pace, so early and late are as likely.")
        case SnagKind.TOO_LATE:
            return _too_late(plan, length, voice)


def likely_late(plan: Backward, voice: Voice) -> str:
    """Return that dinner is likelier late than not, and when it is sure; nothing while it is not."""
    if plan.late_probability is None or plan.late_probability <= _EVEN:
        return ""
    late = round(100 * plan.late_probability)
    if plan.sure_at is None:
        return _("Late is likelier than not: {late} in 100.").format(late=late)
    return _("Late is likelier than not: {late} in 100. With {share} % it is on the table by {time}.").format(
        late=late, share=round(100 * plan.confidence), time=voice.about(plan.sure_at)
    )


def _too_late(plan: Backward, by: str, voice: Voice) -> str:
    """Return that there is no time left for the wanted confidence, and when dinner is sure."""
    short = _("There is no time for a sure dinner: it should have gone on {by} earlier.").format(by=by)
    if plan.sure_at is None or likely_late(plan, voice):
        return short
    share = round(100 * plan.confidence)
    return _("{short} With {share} % it is on the table by {time}.").format(
        short=short, share=share, time=voice.about(plan.sure_at)
    )


def _plate_late(plan: Backward, voice: Voice) -> str:
    return _("later than I can see") if plan.plate.late is None else voice.about(plan.plate.late)


def side_by_side(offered: tuple[Alternative, ...], voice: Voice) -> Message:
    """Return the plans to choose from: a line each with its start, its chance and what it asks of people; the asked one
    has no button, it stands. Nothing when there is no other.
    """
    if len(offered) < 2:  # noqa: PLR2004 - one plan is no choice
        return Message(text="")
    rows = [_row(one, voice) for one in offered]
    choices = tuple((option(one, voice),) for one in offered if one.kind is not Kind.AS_ASKED)
    return Message(text=lines(_("Ways to do it:"), *rows), choices=choices)


def ways(situation: Situation, voice: Voice) -> Message:
    """Return the ways to do it at any time before the meat is on; after that, what can still be changed."""
    if any(view.outlook.plan is None for view in situation.views):
        return dataclasses.replace(too_late_to_choose(), choices=((ask_levers(),),))
    offered = alternatives_of([(view.state, view.cut) for view in situation.views], situation.catalogue.cookers)
    shown = side_by_side(offered, voice)
    return shown if shown.text else Message(text=lines(_("No other way is worth a word:"), _row(offered[0], voice)))


def option(one: Alternative, voice: Voice) -> Option:
    """Return the button that chooses a plan."""
    label = _("Light {time}, {how}").format(time=voice.about(one.plan.light_at), how=how(one, voice))
    return label, ChoosePlan(pit_low_c=one.pit_low_c, pit_high_c=one.pit_high_c, wrap=one.wrap)


def how(one: Alternative, voice: Voice) -> str:
    """Return pit and wrap of a plan, such as "275 F, in foil"."""
    pit = voice.band(one.pit_low_c, one.pit_high_c)
    if one.wrap is None or one.wrap is Wrap.NONE:
        return pit
    return _("{pit}, {wrap}").format(pit=pit, wrap=in_wrap(one.wrap))


def _row(one: Alternative, voice: Voice) -> str:
    row = _("- {how}: light {light}, {late}{awake}").format(
        how=how(one, voice), light=voice.about(one.plan.light_at), late=_late(one.plan, voice), awake=awake_text(one)
    )
    if one.fuel_kg is None:
        return row
    return _("{row}, charcoal {range}").format(row=row, range=charcoal(one.fuel_kg.low, one.fuel_kg.high))


def _late(plan: Backward, voice: Voice) -> str:
    """Return the chance of being late; of a dinner that follows the meat, when the plate likely is."""
    if plan.late_probability is None:
        likely = plan.plate.likely
        return "" if likely is None else _("plate about {time}, ").format(time=voice.about(likely))
    return _("late {share} in 100, ").format(share=round(100 * plan.late_probability))


def awake_text(one: Alternative) -> str:
    """Return how long somebody must be awake for a plan, and how much of it at night."""
    if one.awake_quiet < _NIGHT:
        return _("awake {awake}").format(awake=_hours(one.awake))
    return _("awake {awake}, {night} of it at night").format(awake=_hours(one.awake), night=_hours(one.awake_quiet))


def _hours(length: dt.timedelta) -> str:
    return _("{hours:g} h").format(hours=round(2 * (length / dt.timedelta(hours=1))) / 2)


def would_meet(instead: tuple[Alternative, ...], voice: Voice) -> str:
    """Return what would make a dinner possible that the asked plan cannot meet; nothing when nothing does."""
    if not instead:
        return ""
    return _("It could be met at {ways}.").format(ways=_(" or ").join(how(one, voice) for one in instead))


def too_late_to_choose() -> Message:
    """Say that the meat is on already."""
    return Message(text=_("The meat is on already: move the pit or the wrap instead, like pit 275 or wrap foil."))


def snags_of_several(situation: Situation, voice: Voice) -> tuple[str, ...]:
    """Return what should be known of a plan of several pieces: each thing once, of the piece where it is gravest."""
    found: dict[SnagKind, tuple[float, str]] = {}
    for view in situation.views:
        plan = view.outlook.plan
        for snag in () if plan is None else plan.snags:
            if plan is not None and (snag.kind not in found or found[snag.kind][0] < snag.minutes):
                text = snag_text(snag, plan, view.cut, voice)
                found[snag.kind] = snag.minutes, _("{piece}: {what}").format(piece=piece_name(view), what=text)
    return tuple(capital(text) for _minutes, text in found.values())
