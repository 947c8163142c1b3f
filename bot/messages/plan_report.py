"""What `slowbell plan` prints: the plan as text, why a prompt is due, what nobody said.

Words only; figures come from the plan. What cannot be used is said in `bot.messages.plan_refused`.
"""

from __future__ import annotations

import datetime as dt

from bot.messages.answers import headline
from bot.messages.capacity import capacity_note
from bot.messages.care_asked import care_line, not_told
from bot.messages.cooker import read_note
from bot.messages.dinner import dinner_line
from bot.messages.every_step import step_lines
from bot.messages.feeding import shopping_lines
from bot.messages.figures import Voice, kilograms, span
from bot.messages.pit_change import pit_snags
from bot.messages.pits import pit_note
from bot.messages.plans import likely_late, side_by_side, snag_lines
from bot.messages.steps import all_step_ids, step_words
from bot.messages.wished_core import time_means, treated_note
from bot.messages.words import _
from scheduler.cook import Situation
from scheduler.planning.alternatives import Alternative
from scheduler.planning.backward import Backward
from scheduler.planning.prompts import Why
from scheduler.planning.steps import MOMENTS
from scheduler.safety import by_time


def report(
    situation: Situation, offered: tuple[Alternative, ...], assumed: tuple[str, ...], voice: Voice,
    clock_change: str = "",
) -> list[str]:  # fmt: skip
    """Return a plan as lines of text: each piece, the ways to do it, every step, and what was taken as usual.

    `clock_change` is said of a plan over whose span the clocks change.
    """
    found: list[str] = []
    first_lit = min(view.outlook.plan.light_at for view in situation.views if view.outlook.plan is not None)
    for view in situation.views:
        seen, plan = situation.seen_from(view.piece), view.outlook.plan
        assert plan is not None, "a plan has nothing on the fire"
        found += [headline(seen, voice), *filter(None, (likely_late(plan, voice), dinner_line(seen, voice)))]
        found += _times(plan, voice, later=plan.light_at > first_lit)
        found += [note] if (note := pit_note(view, voice)) else []
        found += [note] if (note := treated_note(view, situation)) else []
        found += [time_means(view, situation)] if by_time(view.state, view.cut) else []
        found += [*snag_lines(plan, view.cut, voice), ""]
    found += [*pit_snags(situation, voice), ""] if situation.several and pit_snags(situation, voice) else []
    if room := capacity_note(situation):
        found += [room, ""]
    buying = shopping_lines(situation)
    found += [*buying, ""] if buying else []
    found += [read_note(situation), care_line(situation) or not_told(situation), ""]
    ways = side_by_side(offered, voice).text
    found += [*ways.split("\n"), ""] if ways else []
    found.append(_("Every step:"))
    found += step_lines(situation, voice)
    notes = [*([clock_change] if clock_change else []), *_assumptions(situation, assumed, voice)]
    return [*found, *([""] if notes else []), *notes]


def _times(plan: Backward, voice: Voice, *, later: bool) -> list[str]:
    """Return the start, the pull and the plate with their doubt; a piece that goes on `later` finds the fire lit."""
    likely = _("beyond 30 h") if plan.pull.likely is None else voice.about(plan.pull.likely)
    start = _("Meat on {on}.") if later else _("Light {light}, meat on {on}.")
    found = [
        start.format(light=voice.about(plan.light_at), on=voice.about(plan.on_at)),
        _("Off the fire: {window}, likely {likely}.").format(window=voice.window(plan.pull), likely=likely),
    ]
    if plan.late_probability is not None:
        late = round(100 * plan.late_probability)
        found.append(_("Late: {late} in 100. Rest: about {rest}.").format(late=late, rest=span(plan.rest)))
    return found


def why_text(why: Why, voice: Voice) -> str:
    """Return why a prompt is due when it is."""
    length = span(dt.timedelta(minutes=abs(why.minutes or 0)))
    event = "" if why.event is None else _event(why.event)
    match why.kind:
        case "before_serving" if (why.minutes or 0) < 0:
            return _("{span} after people eat").format(span=length)
        case "before_serving":
            return _("{span} before people eat").format(span=length)
        case "core":
            return _("when the meat is near {core}").format(core="?" if why.core_c is None else voice.temp(why.core_c))
        case "repeat":
            return _("{span} after the last time").format(span=length)
        case "food":
            return _("before the limit of cooked food")
        case "held":
            return _("when held meat may be down to its limit")
        case "put_off":
            return _("put off until then")
        case "gate":
            return _("before: {event}").format(event=event)
        case "rising" if why.pit_c is not None:
            return _("when the rising pit passes {pit}").format(pit=voice.temp(why.pit_c))
        case "watch":
            return _("{span} before the watch changes").format(span=length)
        case "after" if not why.minutes:
            return _("with: {event}").format(event=event)
        case "after" | "cut" if (why.minutes or 0) < 0:
            return _("{span} before: {event}").format(span=length, event=event)
        case "after" | "cut" | "rising":
            return _("{span} after: {event}").format(span=length, event=event)


def _event(event: str) -> str:
    if event in MOMENTS:
        return _("the work of the day before")
    return step_words(event).name if event in all_step_ids() else event.replace("_", " ")


def _assumptions(situation: Situation, assumed: tuple[str, ...], voice: Voice) -> list[str]:
    """Say what was taken as usual because nobody said it, with the figure that was taken."""
    found = []
    for view in situation.views if "mass" in assumed else ():
        mass = kilograms(view.cut.mass_kg.typical)
        if view.state.planned.mass_kg is None:
            found.append(
                _("Nobody said how heavy: {cut} taken as {mass} each, as usual (--mass {typed} says another).").format(
                    cut=_(view.cut.name), mass=mass, typed=mass.replace(" ", "")
                )
            )
    if "pit" in assumed:
        band = situation.views[0].state.pit[-1]
        pit = voice.band(band.low_c, band.high_c)
        found.append(
            _("Nobody said how hot: taken as {pit}, usual for the cut (--pit 250F says another).").format(pit=pit)
        )
    if "gap" in assumed:
        at = situation.state.serving.starts_at()
        time = "" if at is None else voice.clock(at)
        found.append(_("That time does not exist: the clocks go forward over it. Taken as {time}.").format(time=time))
    return found
