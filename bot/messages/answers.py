"""Answers to what can be asked at any moment: how long, what next, plan, is it safe.

Bounded: how long and what next in six lines, the plan in ten.
"""

from __future__ import annotations

import dataclasses
import datetime as dt

from bot.commands import Ask, Topic
from bot.messages.advice import ask_levers
from bot.messages.capacity import capacity_note
from bot.messages.care_asked import care_line
from bot.messages.cooker import fuel_line
from bot.messages.courses import pit_line, plan_of_several, where_each_stands
from bot.messages.crew_sound import deaf_line
from bot.messages.dinner import box_line, dinner_line, unsafe_line
from bot.messages.every_step import step_lines
from bot.messages.feeding import plan_note
from bot.messages.figures import Voice, at_most, kilograms, span
from bot.messages.gates import waiting_line
from bot.messages.language import capital
from bot.messages.message import Message, Option, lines
from bot.messages.pieces import counted
from bot.messages.plans import likely_late, snag_lines
from bot.messages.stall import stall_line
from bot.messages.steps import step_words
from bot.messages.trip import next_line, step_names
from bot.messages.words import _
from bot.messages.wraps import counting_on, if_wrapped
from scheduler.cook import Situation
from scheduler.facts import Slot, Wrap
from scheduler.planning.backward import SnagKind, warm_oven
from scheduler.planning.outlook import Verdict
from scheduler.planning.trips import JOIN
from scheduler.state import Stage

PLAN_LINES = 10
"""The plan never has more lines than this; the rest is shown on request."""

_MAIN = ("meat_on", "pull", "light", "dry_brine", "bark_check", "tender_test", "slice", "box_meat", "two_hour", "ash")
"""Steps that the short plan shows, the most wanted first: as many as there is room for."""

_AFTER_DINNER = frozenset({"two_hour", "ash"})

OLD = dt.timedelta(minutes=60)
"""A reading older than this is called old; common practice, no source."""


def how_long(situation: Situation, voice: Voice) -> Message:
    """Return when the meat and the plate come, in at most six lines: beside a stall or an open wrap without the plate,
    which the first line names.
    """
    if situation.several and situation.focus is None:
        stands = where_each_stands(situation, voice)
        last = owner_line(situation, voice)
        return Message(text=lines(dinner_line(situation, voice), *stands, pit_line(situation, voice), last))
    state, outlook = situation.state, situation.outlook
    pulled_at = state.at("pull")
    if state.stage in {Stage.AFTER, Stage.GONE, Stage.CLOSED}:
        return Message(text=lines(dinner_line(situation, voice), owner_line(situation, voice)))
    if pulled_at is not None:
        pull = _("Off the fire since {time}.").format(time=voice.clock(pulled_at))
    else:
        likely = _("beyond 30 h") if outlook.pull.likely is None else voice.about(outlook.pull.likely)
        pull = _("Ready to pull: {window}, likely {likely}.").format(window=voice.window(outlook.pull), likely=likely)
        if condition := counting_on(situation):
            pull = _("Ready to pull: {window}, likely {likely}, {condition}.").format(
                window=voice.window(outlook.pull), likely=likely, condition=condition
            )
    more = [line for line in (if_wrapped(situation, voice), stall_line(situation, voice)) if line]
    plate = [] if len(more) > 1 else [plate_line(situation, voice)]
    last = last_line(situation, voice)
    text = lines(dinner_line(situation, voice), pull, *more, *plate, last, owner_line(situation, voice))
    uneasy = outlook.verdict in {Verdict.LATE, Verdict.CLOSE, Verdict.EARLY}
    return Message(text=text, choices=((ask_levers(),),) if uneasy else ())


def what_next(situation: Situation, voice: Voice) -> Message:
    """Return what is open and what comes, with clock times, in at most six lines."""
    waiting = [_("Open: {what}.").format(what=step_names((p,), situation)[0]) for p in situation.waiting[:2]]
    first = next_line(situation, voice, owner=True)
    stage_line = dinner_line(situation, voice)
    then = [_("Then {time}: {what}.").format(time=voice.clock(at), what=what) for at, what in _later(situation)]
    gate = waiting_line(situation, voice) if situation.prompt("meat_on") is not None else ""
    shown = lines(*waiting, stage_line, gate, fuel_line(situation, voice), " ".join((first, *then[:1])))
    return Message(text=shown)


def _later(situation: Situation) -> list[tuple[dt.datetime, str]]:
    """Return the two messages after the next one: when, and what they are about."""
    groups: list[tuple[dt.datetime, list[str]]] = []
    for at, prompt in sorted(((p.wake_at, p) for p in situation.prompts if p.wake_at is not None), key=lambda e: e[0]):
        name = step_names((prompt,), situation)[0]
        if groups and at - groups[-1][0] <= JOIN:
            groups[-1][1].append(name)
        else:
            groups.append((at, [name]))
    return [(at, ", ".join(dict.fromkeys(names[:2]))) for at, names in groups[1:3]]


def plan(situation: Situation, voice: Voice, *, owner: bool = True) -> Message:
    """Return the plan backward from serving in at most ten lines; the rest on request. `owner` names whose it is."""
    if situation.several and situation.focus is None:
        several = plan_of_several(situation, voice, owner=owner)
        *above, last = several.text.split("\n")
        several = dataclasses.replace(several, text=lines(*above, deaf_line(situation, voice), last))
        return dataclasses.replace(several, choices=() if situation.state.over else ((all_steps(),),))
    state = situation.state
    # What comes after dinner is of no help in planning it.
    wanted = [step for step in _MAIN if state.stage is Stage.AFTER or step not in _AFTER_DINNER]
    main = [(at, step.id) for at, step in situation.itinerary() if step.id in wanted]
    wraps = if_wrapped(situation, voice) if state.stage is Stage.COOKING else ""
    told = (wraps, _salt_note(situation), *_plan_notes(situation, voice))
    care, deaf = care_line(situation), deaf_line(situation, voice)
    notes = [note for note in (*told, capacity_note(situation), plan_note(situation), care, deaf) if note]
    late = "" if situation.outlook.plan is None else likely_late(situation.outlook.plan, voice)
    room = PLAN_LINES - (4 if late else 3) - len(notes)
    chosen = sorted(_without_past(main, situation), key=lambda entry: _MAIN.index(entry[1]))[:room]
    shown = [_plan_entry(at, step_id, situation, voice) for at, step_id in sorted(chosen, reverse=True)]
    last = next_line(situation, voice, owner=owner)
    text = lines(headline(situation, voice), late, dinner_line(situation, voice), *shown, *notes, last)
    choices = () if state.stage is Stage.CLOSED else ((all_steps(),),)
    return Message(text=text, choices=choices)


def all_steps() -> Option:
    """Return the button that shows the whole plan."""
    return (_("All steps"), Ask(topic=Topic.PLAN_REST))


def plan_rest(situation: Situation, voice: Voice) -> Message:
    """Return every step still to come, in order of time."""
    return Message(
        text=lines(_("Every step still to come:"), *step_lines(situation, voice), next_line(situation, voice))
    )


def headline(situation: Situation, voice: Voice) -> str:
    """Return what is cooking: pieces, cut, mass, pit, wrap."""
    planned, cut = situation.state.planned, situation.cut
    pieces = counted(cut, planned.count)
    mass = "" if planned.mass_kg is None else ", " + kilograms(planned.mass_kg)
    band = situation.state.pit[-1]
    return _("{pieces}{mass}, pit {pit}, {wrap}.").format(
        pieces=capital(pieces), mass=mass, pit=voice.band(band.low_c, band.high_c), wrap=_wrap(situation)
    )


def _wrap(situation: Situation) -> str:
    state = situation.state
    wrap = state.wraps[-1][1].wrap if state.wraps else state.planned.wrap
    if wrap is None:
        return _("wrap decided at the bark") if situation.cut.asks_bark else _("bare")
    names = {Wrap.NONE: _("bare"), Wrap.PAPER: _("paper"), Wrap.FOIL: _("foil"), Wrap.BOAT: _("foil boat")}
    return names[wrap]


def plate_line(situation: Situation, voice: Voice) -> str:
    """Return the window in which it could be on the table; nothing of meat that was pulled too cold."""
    plate = situation.outlook.plate
    if unsafe_line(situation, voice):
        return ""
    if situation.state.did("pull") and plate.likely is not None:
        possible = _("Plate possible from {time}.").format(time=voice.about(plate.likely))
        return " ".join(part for part in (possible, box_line(situation, voice)) if part)
    return _("Plate possible: {window}.").format(window=voice.window(plate))


def last_line(situation: Situation, voice: Voice) -> str:
    """Return the newest readings with their age."""
    parts = []
    for slot, name in ((Slot.CORE, _("meat")), (Slot.PIT, _("pit"))):
        reading = situation.state.last(slot)
        if reading is not None:
            fresh = voice.now - reading.at < dt.timedelta(minutes=1)
            age = _("just now") if fresh else _("{span} ago").format(span=span(voice.now - reading.at))
            parts.append(_("{name} {temp} ({age})").format(name=name, temp=voice.temp(reading.value_c), age=age))
    if not parts:
        return _("No readings yet: the plan runs on the usual pace.")
    told = _("Last: {readings}.").format(readings=", ".join(parts))
    core = situation.state.last(Slot.CORE)
    if core is None or situation.state.stage is not Stage.COOKING or voice.now - core.at <= OLD:
        return told
    return " ".join((told, _("The meat was read long ago: a new reading narrows the window.")))


def owner_line(situation: Situation, voice: Voice) -> str:
    """Return the next action with its clock time and whose it is."""
    return next_line(situation, voice, owner=True)


def _plan_entry(at: dt.datetime, step_id: str, situation: Situation, voice: Voice) -> str:
    outlook = situation.outlook
    name = step_words(step_id).name
    if at < voice.now:
        return _("now  {name}").format(name=name)
    if step_id == "pull":
        window = voice.window(outlook.pull)
        if condition := counting_on(situation):
            window = _("{window}, {condition}").format(window=window, condition=condition)
        return _("{time}  {name} ({window})").format(time=voice.about(at), name=name, window=window)
    if step_id in {"bark_check", "tender_test"}:
        core_c = situation.cut.bark_look_c if step_id == "bark_check" else situation.cut.start_testing_c
        return _("{time}  {name}, near {core}").format(time=voice.about(at), name=name, core=voice.temp(core_c))
    return f"{voice.about(at)}  {name}"


def _without_past(entries: list[tuple[dt.datetime, str]], situation: Situation) -> list[tuple[dt.datetime, str]]:
    """Drop what was asked already or lies too far back to be asked."""
    late = {p.step.id for p in situation.prompts if not p.must_arrive and p.late_until < situation.state.as_of}
    return [(at, step_id) for at, step_id in entries if step_id not in late]


def _salt_note(situation: Situation) -> str:
    """Return what to do about the salt when there is no time left to salt ahead."""
    missed = situation.state.withdrawn.get(f"{situation.state.piece}/dry_brine/1") == "too_late"
    if not missed or situation.state.did("meat_on") or situation.state.did("dry_brine"):
        return ""
    return _("Too late to salt ahead: put the salt into the rub now, and some more on the slices.")


def _plan_notes(situation: Situation, voice: Voice) -> tuple[str, ...]:
    """Return what should be known of the plan before the meat is on, or of the meat on the fire."""
    made = situation.outlook.plan
    if made is not None:
        usual = situation.outlook.verdict is Verdict.USUAL  # the line about dinner says it already
        return snag_lines(made, situation.cut, voice, known=_SAID_OF_THE_USUAL if usual else frozenset())
    return _box_note(situation), _late_note(situation, voice)


_SAID_OF_THE_USUAL = frozenset({SnagKind.DOES_NOT_HOLD, SnagKind.SLIPS})


def _box_note(situation: Situation) -> str:
    if not situation.outlook.box_outlasted or situation.state.did("pull"):
        return ""
    if warm_oven(situation.state):
        return _("If it finishes early it waits longer than it keeps hot ({limit} at most).").format(
            limit=at_most(situation.cut.rest_max_heated_min)
        )
    return _("If it finishes early it outlasts a cold box ({limit} at most): have a warm oven ready.").format(
        limit=at_most(situation.cut.rest_max_unheated_min)
    )


def _late_note(situation: Situation, voice: Voice) -> str:
    outlook = situation.outlook
    if outlook.plate.late is None or outlook.serve_end is None or outlook.plate.late <= outlook.serve_end:
        return ""
    return _("If it runs slow, the plate slips to about {time}.").format(time=voice.about(outlook.plate.late))
