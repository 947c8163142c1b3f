"""What is said after a report was taken: the number back, what moved and why, what is not safe.

One short line for each thing; routine readings cost one line.
"""

from __future__ import annotations

import datetime as dt

from bot.commands import Report, Value
from bot.messages.dinner import dinner_line
from bot.messages.figures import Voice, span, to_five
from bot.messages.findings import finding_text
from bot.messages.message import Message, Option, lines
from bot.messages.steps import step_words
from bot.messages.words import _
from scheduler.cook import (
    Already,
    Changes,
    Event,
    Found,
    GateOpened,
    Implied,
    NotSkipped,
    Shifted,
    Situation,
    SpotAsked,
    Stalled,
    Taken,
    Undid,
)  # fmt: skip
from scheduler.facts import (
    Body,
    Closed,
    Corrected,
    Detail,
    Fact,
    Feel,
    Felt,
    Noted,
    PitMoved,
    Planned,
    PutOff,
    Reading,
    ServingMoved,
    Slot,
    StepDone,
    StepSkipped,
    Wrap,
    Wrapped,
)  # fmt: skip
from scheduler.planning.anchors import PIT_OFF_C
from scheduler.planning.replanning import Move
from scheduler.state import Stage

_WRAPPED = {
    Wrap.NONE: lambda: _("Bare to the end"),
    Wrap.PAPER: lambda: _("Wrapped in paper"),
    Wrap.FOIL: lambda: _("Wrapped in foil"),
    Wrap.BOAT: lambda: _("In a foil boat"),
}

_FELT = {
    Feel.TIGHT: lambda: _("Still tight"),
    Feel.ALMOST: lambda: _("Almost there"),
    Feel.TENDER: lambda: _("Slides in"),
}

_MILESTONES = {
    "meat_on": lambda: _("meat on"),
    "bark_check": lambda: _("look at the bark"),
    "tender_test": lambda: _("first feel"),
    "pull": lambda: _("pull"),
    "plate": lambda: _("plate"),
}


def receipt(changes: Changes, voice: Voice) -> Message:
    """Return what is said to the person who reported."""
    texts, rows = [taken_line(changes, voice)], []
    for event in changes.events:
        text = _event_text(event, changes, voice)
        if text:
            texts.append(text)
        if isinstance(event, SpotAsked):
            rows.append(_confirm(event, voice))
    return Message(text=lines(*texts), choices=tuple(rows))


def echo(changes: Changes, name: str, voice: Voice) -> str:
    """Return one line for the others: who reported what, and what moved."""
    taken = taken_line(changes, voice)
    first = [_event_text(e, changes, voice) for e in changes.events if _of_the_log(e)]
    news = (Shifted, SpotAsked, GateOpened, Stalled, Implied)
    rest = [_event_text(e, changes, voice) for e in changes.events if isinstance(e, news)]
    told = lines(*first, taken)
    if not told and not any(rest):
        return ""
    said = _("{name}: {what}").format(name=name, what=told) if told else ""
    return lines(said, *rest)


def _of_the_log(event: Event) -> bool:
    """Return whether an event changes what was told before: a correction, or something taken back."""
    return isinstance(event, Undid) or (isinstance(event, Taken) and isinstance(event.body, Corrected))


def by_name(name: str) -> str:
    """Say who has done what follows: begun a cook, called it off."""
    return _("From {name}:").format(name=name)


def taken_line(changes: Changes, voice: Voice) -> str:
    """Return everything that was written down, in one line with its time."""
    taken = [e for e in changes.events if isinstance(e, Taken)]
    parts = [text for e in taken if (text := _body_text(e.body, voice))]
    if not parts:
        return ""
    at = max(e.at for e in taken)
    joined = ", ".join([parts[0], *[part[0].lower() + part[1:] for part in parts[1:]]])
    timed = any(isinstance(e.body, Reading | StepDone | Wrapped | Felt) for e in taken)
    text = _("{what}, {time}.").format(what=joined, time=voice.clock(at)) if timed else f"{joined}."
    return lines(text, *_pit_advice(changes, voice), *_on_course(changes, voice))


def _body_text(body: Body, voice: Voice) -> str:
    match body:
        case Reading():
            return _reading_text(body, voice)
        case StepDone():
            return _done_text(body)
        case StepSkipped():
            return _("Skipped: {what}").format(what=step_words(body.step).name)
        case PutOff():
            return _("I ask about it again at {time}: {what}").format(
                time=voice.clock(body.until), what=step_words(body.step).name
            )
        case Wrapped():
            return _WRAPPED[body.wrap]()
        case Felt():
            spot = "" if body.spot is None else f" ({body.spot})"
            return _FELT[body.feel]() + spot
        case ServingMoved():
            start = body.serving.starts_at()
            return _("Dinner moved to {time}").format(time=_("when ready") if start is None else voice.clock(start))
        case PitMoved():
            return _("Pit to {pit} from now").format(pit=voice.band(body.pit_low_c, body.pit_high_c))
        case Noted():
            return _("Noted") if body.understood else ""
        case Planned():
            return _planned_text(body)
        case Closed():
            return _("The cook is called off; everything stays in the log")
        case _:
            return ""


def _planned_text(planned: Planned) -> str:
    """Return how much is told from now on, and the wrap that is meant."""
    told = {
        Detail.EVERY: _("I tell every step"),
        Detail.USUAL: _("I tell the usual steps"),
        Detail.DECISIONS: _("I tell only decisions, and whatever is about safety"),
    }[planned.detail]
    meant = {None: _("wrap decided at the bark"), Wrap.NONE: _("bare")}
    wrap = meant.get(planned.wrap, _("wrap: {wrap}").format(wrap=planned.wrap))
    return _("Plan: {wrap}. {told}").format(wrap=wrap, told=told)


def _reading_text(reading: Reading, voice: Voice) -> str:
    name = _("Meat") if reading.slot is Slot.CORE else _("Pit")
    spot = "" if reading.spot is None else _(", {spot}").format(spot=reading.spot)
    about = _("about ") if reading.spread_c > 0 else ""
    return f"{name} {about}{voice.temp(reading.value_c)}{spot}"


def _done_text(done: StepDone) -> str:
    words = step_words(done.step)
    return dict(words.outcomes).get(done.outcome or "", words.done)


def _pit_advice(changes: Changes, voice: Voice) -> list[str]:
    """Return what to do about a pit that is out of its band."""
    pits = [
        e.body.value_c
        for e in changes.events
        if isinstance(e, Taken) and isinstance(e.body, Reading) and e.body.slot is Slot.PIT
    ]
    state = changes.after.state
    band = state.pit[-1]
    warned = any(f.rule == "pit_cold" for f in changes.after.findings(voice.now))
    if not pits or warned or state.stage is not Stage.COOKING:
        return []
    if pits[-1] > band.high_c + PIT_OFF_C:
        return [
            _("That is above {pit}: close the vents a little, one small move, then wait 15 min.").format(
                pit=voice.band(band.low_c, band.high_c)
            )
        ]
    if pits[-1] < band.low_c - PIT_OFF_C:
        return [
            _("That is below {pit}: clear the ash, open the bottom a little, look at the fuel.").format(
                pit=voice.band(band.low_c, band.high_c)
            )
        ]
    return []


def _on_course(changes: Changes, voice: Voice) -> list[str]:
    """After a core reading that moves nothing worth a word, say so in one sentence."""
    read = any(
        isinstance(e, Taken) and isinstance(e.body, Reading) and e.body.slot is Slot.CORE for e in changes.events
    )
    moved = any(isinstance(e, Shifted | SpotAsked) for e in changes.events)
    return [dinner_line(changes.after, voice)] if read and not moved and not changes.after.state.did("pull") else []


def _event_text(event: Event, changes: Changes, voice: Voice) -> str:
    match event:
        case Already():
            who = event.by or _("somebody")
            return _("Thanks. {name} has that down at {time} already: {what}.").format(
                name=who, time=voice.clock(event.at), what=step_words(event.step).name
            )
        case Implied():
            return _("Then I take it this was done too: {what}.").format(what=step_words(event.step).name)
        case NotSkipped():
            return _("This one is about safety, so it stays open: {what}.").format(what=step_words(event.step).name)
        case SpotAsked():
            return _(
                "That does not fit {before} at {time}. I keep it aside. What does a second spot say, off bone and fat?"
            ).format(before=voice.temp(event.before_c), time=voice.clock(event.before_at))
        case Undid():
            return _("Taken back: {what} ({time}).").format(
                what=fact_text(event.fact, voice), time=voice.clock(event.fact.happened_at)
            )
        case Stalled():
            return stall_text(event, changes.after, voice)
        case GateOpened():
            return _gate_text(event, voice)
        case Shifted():
            return shift_text(event, changes, voice)
        case Taken(body=Corrected()):
            return _corrected_text(event, changes, voice)
        case _:
            return ""


def fact_text(fact: Fact, voice: Voice) -> str:
    """Return what a fact said, for undo."""
    text = _body_text(fact.body, voice)
    return text[0].lower() + text[1:] if text else _("a note")


def _corrected_text(event: Taken, changes: Changes, voice: Voice) -> str:
    assert isinstance(event.body, Corrected)
    old = next((f for f in changes.facts if f.id == event.body.of), None)
    old = old or _old_fact(changes, event.body.of)
    was = "" if old is None else fact_text(old, voice)
    now_it_is = _body_text(event.body.body, voice)
    return _("Changed: {new}, {time} (it was {old}).").format(
        new=now_it_is[:1].lower() + now_it_is[1:], time=voice.clock(event.at), old=was or _("something else")
    )


def _old_fact(changes: Changes, fact_id: str) -> Fact | None:
    if changes.before is None:
        return None
    for reading in changes.before.state.readings:
        if reading.fact == fact_id:
            body = Reading(slot=reading.slot, value_c=reading.value_c, spread_c=reading.spread_c, spot=reading.spot)
            return _stand_in(changes, fact_id, reading.at, body)
    for step, times in changes.before.state.done.items():
        for done in times:
            if done.fact == fact_id:
                return _stand_in(changes, fact_id, done.at, StepDone(step=step, outcome=done.outcome))
    return None


def _stand_in(changes: Changes, fact_id: str, at: dt.datetime, body: Body) -> Fact:
    state = changes.after.state
    return Fact(id=fact_id, cook=state.cook, piece=state.piece, happened_at=at, recorded_at=at, by=None, body=body)


def _gate_text(event: GateOpened, voice: Voice) -> str:
    gate = event.gate
    if gate.lowest is None:
        return ""
    return _(
        "Safe minimum measured: {found} at the lowest spot (it needs {limit} and {rest:g} min). Tender comes later."
    ).format(
        found=voice.temp(gate.lowest.value_c, fine=True),
        limit=voice.temp(gate.minimum_c, fine=True),
        rest=gate.rest_min,
    )


def stall_text(event: Stalled, situation: Situation, voice: Voice) -> str:
    """Return the calm sentence about the stall."""
    if event.stall is None:
        return _("It is climbing again: the stall is over.")
    low, high = situation.cut.stall_h.low, situation.cut.stall_h.high
    return _(
        "The stall has begun, near {core}. Usual: {low:g} to {high:g} h. Check pit and fuel, then leave it alone."
    ).format(core=voice.temp(event.stall.core_c), low=low, high=high)


def shift_text(event: Shifted, changes: Changes, voice: Voice) -> str:
    """Return what moved, by how much and why, and how dinner stands, in one go."""
    shift = event.shift
    moved = [m for m in shift.moves if m.name in _MILESTONES and not _told_by_itself(m, changes)]
    moves = [
        _("{what} {before} to {after} ({sign}{by})").format(
            what=_MILESTONES[m.name](),
            before=voice.about(m.before),
            after=voice.about(m.after),
            sign="+" if m.after > m.before else "-",
            by=span(to_five(m.after) - to_five(m.before)),
        )
        for m in moved
    ]
    dinner = dinner_line(changes.after, voice)
    if not moves:
        return dinner
    return lines(_("{why}: {moves}.").format(why=_why(changes), moves=", ".join(moves)), dinner)


def _told_by_itself(move: Move, changes: Changes) -> bool:
    """Return whether a move is just what was reported: dinner moved, and so the plate."""
    dinner = any(isinstance(e, Taken) and isinstance(e.body, ServingMoved) for e in changes.events)
    return dinner and move.name == "plate"


def _why(changes: Changes) -> str:
    """Return the reason of a move: what was just reported, or that time has passed."""
    bodies = [e.body for e in changes.events if isinstance(e, Taken)]
    kinds = {type(body.body) if isinstance(body, Corrected) else type(body) for body in bodies}
    undone = any(isinstance(e, Undid) for e in changes.events)
    if undone:
        return _("Without it the plan moves")
    for kind, text in (
        (ServingMoved, _("Dinner moved, and with it")),
        (PitMoved, _("With the pit elsewhere")),
        (Wrapped, _("With the wrap as it is now")),
    ):
        if kind in kinds:
            return text
    pull = changes.after.outlook.pull.likely
    shifts = [e.shift for e in changes.events if isinstance(e, Shifted)]
    later = any(m.after > m.before for s in shifts for m in s.moves)
    if Reading in kinds and pull is not None:
        return _("The meat runs slower than I said") if later else _("The meat runs faster than I said")
    if StepDone in kinds:
        return _("Counted from that")
    return _("As time goes on without news")


def warnings(changes: Changes, voice: Voice) -> Message:
    """Return what is not safe and is told now, gravest first."""
    return Message(text=lines(*(finding_text(e.finding, voice) for e in changes.events if isinstance(e, Found))))


def _confirm(event: SpotAsked, voice: Voice) -> tuple[Option, ...]:
    reading = event.reading
    value = Value(value_c=reading.value_c, slot=reading.slot, spread_c=reading.spread_c, spot=reading.spot)
    label = _("{temp} is right").format(temp=voice.temp(reading.value_c))
    return ((label, Report(values=(value,), spot_confirmed=True)),)
