"""What is said after a report was taken: the number back, what moved and why, what is not safe.

One short line for each thing; routine readings cost one line.
"""

from __future__ import annotations

import dataclasses
import datetime as dt

from bot.messages.bodies import amount_text, body_text, fact_text, uncapital
from bot.messages.changed import corrected_text, old_fact
from bot.messages.contests import contest_text, differs_now, settle_buttons
from bot.messages.cooker import after_the_cooker
from bot.messages.dinner import box_line, box_told, dinner_line, unsafe_line
from bot.messages.each import of_each
from bot.messages.figures import Voice, held_for
from bot.messages.gates import vents_line
from bot.messages.kept import after_kept
from bot.messages.language import small
from bot.messages.message import Message, Option, lines
from bot.messages.moves import shift_text
from bot.messages.naming import named
from bot.messages.plan_back import amount_back, plan_back
from bot.messages.rest import rest_text
from bot.messages.stall import stall_news
from bot.messages.steps import step_words
from bot.messages.trip import step_names
from bot.messages.words import _
from bot.messages.wraps import bark_left
from scheduler.cook import (
    Already,
    Changes,
    Event,
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
    AirTold,
    Corrected,
    Discarded,
    Felt,
    PieceAdded,
    Planned,
    Reading,
    SafeBy,
    Slot,
    StepDone,
    Troubled,
    Wrapped,
)  # fmt: skip
from scheduler.planning.series import PIT_OFF_C, far_too_hot_c
from scheduler.safety.fire import DANGER_C
from scheduler.state import FIRST, Stage

_TIMED = (Reading, StepDone, Wrapped, Felt, Discarded, Troubled)
"""What is told with the time it was so."""

_RESTS = ("pull", "box_meat")

_NEWS = dt.timedelta(minutes=20)
"""Advice about the pit is given on readings not older than this."""


def receipt(changes: Changes, voice: Voice) -> Message:
    """Return what is said to the person who reported."""
    texts = [taken_line(changes, voice)]
    for event in changes.events:
        text = _by_piece(event, changes, voice)
        if text:
            texts.append(text)
    for piece in dict.fromkeys(e.piece for e in changes.events if isinstance(e, Taken)):
        texts += [named(changes.after, piece, text) for text in _of_the_rest(changes, piece, voice)]
    texts += after_the_cooker(changes, voice)
    texts += after_kept(changes, voice)
    if any(isinstance(e.body, Reading) and e.body.slot is Slot.PIT for e in changes.events if isinstance(e, Taken)):
        texts.append(vents_line(changes.after, voice))
    return Message(text=lines(*dict.fromkeys(texts)), choices=settling(changes, voice))


def settling(changes: Changes, voice: Voice, *, others: bool = False) -> tuple[tuple[Option, ...], ...]:
    """Return the buttons that settle readings which do not fit; for `others` only where two people differ."""
    differs = bool(contest_text(changes, voice))
    asked = [event for event in changes.events if isinstance(event, SpotAsked) and (differs or not others)]
    return tuple(row for event in asked for row in settle_buttons(event, voice, differs=differs))


def _of_the_rest(changes: Changes, piece: str | None, voice: Voice) -> list[str]:
    """Return what is said of the rest, or of a bark that is not asked about again, after what was told of a piece."""
    taken = [e.body for e in changes.events if isinstance(e, Taken) and e.piece == piece]
    after, texts = changes.after.seen_from(piece), []
    if unsafe_line(after, voice):
        pass  # what is to be done is said first, and nothing about a rest beside it
    elif any(isinstance(body, StepDone) and body.step in _RESTS for body in taken):
        before = None if changes.before is None else changes.before.seen_from(piece)
        texts += [rest_text(after, voice), "" if box_told(before, after, voice) else box_line(after, voice)]
    elif any(isinstance(body, Reading) and body.slot is Slot.CORE for body in taken):
        texts.append(rest_text(after, voice))
    if any(isinstance(body, StepDone) and body.step == "bark_check" and body.outcome == "not_yet" for body in taken):
        texts.append(bark_left(after))
    return texts


def _by_piece(event: Event, changes: Changes, voice: Voice) -> str:
    """Return an event in words, with the name of its piece where there are several."""
    piece = getattr(event, "piece", None)
    if piece is None or not changes.after.several:
        return _event_text(event, changes, voice)
    before = None if changes.before is None else changes.before.seen_from(piece)
    known = changes.after if any(view.piece == piece for view in changes.after.views) else changes.before
    seen = dataclasses.replace(changes, before=before, after=changes.after.seen_from(piece))
    return named(known or changes.after, piece, _event_text(event, seen, voice))


def still_open(situation: Situation, riding: tuple[str, ...]) -> str:
    """Return the safety steps that were asked and nobody has answered, but for those that ride in the same message."""
    names = step_names(
        tuple(p for p in situation.waiting if p.step.safety and not p.step.slots and p.key not in riding), situation
    )
    return _("Still open: {what}.").format(what=", ".join(names)) if names else ""


def echo(changes: Changes, name: str, voice: Voice) -> str:
    """Return one line for the others: who reported what, and what moved."""
    taken = taken_line(changes, voice)
    first = dict.fromkeys(_by_piece(e, changes, voice) for e in changes.events if _of_the_log(e))
    news = (Shifted, GateOpened, Stalled, Implied)
    rest = [_by_piece(e, changes, voice) for e in changes.events if isinstance(e, news)]
    told = lines(*first, taken)
    if not told and not any(rest):
        return ""
    said = _("{name}: {what}").format(name=name, what=told) if told else ""
    return lines(said, *rest)


def _of_the_log(event: Event) -> bool:
    """Return whether an event is news of what somebody told: kept aside, corrected, or taken back."""
    return isinstance(event, Undid | SpotAsked) or (
        isinstance(event, Taken) and isinstance(event.body, Corrected | Reading)
    )


def answered_by(question: str, name: str, told: str) -> str:
    """Return a question with who answered it and what below it."""
    answered = told.split("\n", maxsplit=1)[0] or _("answered.")
    return lines(question, _("{name}: {what}").format(name=name, what=answered))


def by_name(name: str) -> str:
    """Say who has done what follows: begun a cook, called it off."""
    return _("From {name}:").format(name=name)


def taken_line(changes: Changes, voice: Voice) -> str:
    """Return everything that was written down, and what it says of the pit and the pace."""
    said = told_line(changes, voice)
    if not said:
        return ""
    return lines(
        said,
        *_before_on(changes),
        *_pit_advice(changes, voice),
        *_on_course(changes, voice),
        *_moved_by_air(changes, voice),
    )


def nothing_but(changes: Changes, voice: Voice) -> str:
    """Return what is said of a report that changes nothing: what was written down, and that it is on its course."""
    return lines(told_line(changes, voice), *_on_course(changes, voice))


def told_line(changes: Changes, voice: Voice) -> str:
    """Return everything that was written down, in one line with its time, or each with its own where they differ."""
    taken = [(e, text) for e in changes.events if isinstance(e, Taken) and (text := _told_of(e, changes, voice))]
    if not taken:
        return ""
    clocks = {voice.clock(e.at) for e, _text in taken if isinstance(e.body, _TIMED)}
    if len(clocks) > 1:
        parts = [_("{what}, {time}").format(what=text, time=voice.clock(e.at)) for e, text in taken]
        said = f"{_joined(parts, '; ')}."
    elif clocks:
        said = _("{what}, {time}.").format(what=_joined([text for _e, text in taken], ", "), time=clocks.pop())
    else:
        said = f"{_joined([text for _e, text in taken], ', ')}."
    return said


def _told_of(event: Taken, changes: Changes, voice: Voice) -> str:
    """Return what was told, with the name of its piece where there are several."""
    amount = _amount_changed(event, changes)
    if amount:
        return amount
    text = body_text(event.body, voice)
    here = any(view.piece == event.piece for view in changes.after.views)
    known = changes.after if here else changes.before
    if known is None or not text or event.piece is None or not known.several:
        return text
    return named(known, event.piece, small(text))


def _amount_changed(event: Taken, changes: Changes) -> str:
    """Return the new count and mass of one of several pieces that was there before, nothing for anything else."""
    body, before = event.body, changes.before
    if not isinstance(body, Planned | PieceAdded) or before is None or not before.several:
        return ""
    piece = event.piece or FIRST
    known = [view.state.planned for view in before.views if view.piece == piece]
    if not known or (known[0].count, known[0].mass_kg) == (body.count, body.mass_kg):
        return ""
    return named(changes.after, piece, _("now {amount}").format(amount=amount_text(body.count, body.mass_kg)))


def _joined(parts: list[str], by: str) -> str:
    """Return parts as one sentence: only the first begins with a capital."""
    return by.join([parts[0], *[uncapital(part) for part in parts[1:]]])


def _before_on(changes: Changes) -> list[str]:
    """Return that a hot core read while the meat was not on the fire tells nothing about it."""
    for event in changes.events:
        if not isinstance(event, Taken) or not isinstance(event.body, Reading) or event.body.slot is not Slot.CORE:
            continue
        on_at = changes.after.view(event.piece).state.at("meat_on")
        if event.body.value_c >= DANGER_C and (on_at is None or event.at < on_at):
            return [_("The meat was not on the fire then: kept, but it says nothing about this meat being safe.")]
    return []


def _pit_advice(changes: Changes, voice: Voice) -> list[str]:
    """Return what to do about a pit that is out of its band."""
    pits = [
        e.body.value_c
        for e in changes.events
        if isinstance(e, Taken)
        and isinstance(e.body, Reading)
        and e.body.slot is Slot.PIT
        and voice.now - e.at <= _NEWS
    ]
    fire = changes.after.at_the_fire
    state = fire.state
    band = state.pit[-1]
    warned = any(f.rule == "pit_cold" for f in fire.findings(voice.now))
    if not pits or warned or state.stage is not Stage.COOKING or pits[-1] > far_too_hot_c(band):
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
    pulled = all(view.state.did("pull") for view in changes.after.views)
    known = changes.after.late_as_told
    return [dinner_line(changes.after, voice)] if read and not moved and not pulled and not known else []


def _moved_by_air(changes: Changes, voice: Voice) -> list[str]:
    """After a word about the air say when the pull is now, if it moved at all and nothing else tells it."""
    told = any(isinstance(e, Taken) and isinstance(e.body, AirTold) for e in changes.events)
    shifted = any(isinstance(e, Shifted) and e.shift.moves for e in changes.events)
    if not told or shifted or changes.before is None or changes.after.state.did("pull"):
        return []
    before, after = changes.before.outlook.pull.likely, changes.after.outlook.pull.likely
    if before is None or after is None or voice.about(before) == voice.about(after):
        return []
    return [_("Pull now about {after}, was {before}.").format(after=voice.about(after), before=voice.about(before))]


def _event_text(event: Event, changes: Changes, voice: Voice) -> str:
    match event:
        case Already():
            return _already(event, voice)
        case Implied():
            return _("Then I take it this was done too: {what}.").format(what=step_words(event.step).name)
        case NotSkipped():
            return _("This one is about safety, so it stays open: {what}.").format(what=step_words(event.step).name)
        case SpotAsked():
            differ = contest_text(changes, voice)
            third = _("{text} What does it say, off bone and fat?").format(text=differ)
            return third if differ else _spot_text(event, voice, contested=differs_now(changes))
        case Taken(body=Reading(slot=Slot.CORE)):
            return contest_text(changes, voice)
        case Undid():
            return _undid(event, changes, voice)
        case Stalled():
            return stall_news(event.stall, changes.after, voice)
        case GateOpened():
            return _gate_text(event, changes.after, voice)
        case Shifted():
            return shift_text(event, changes, voice)
        case Taken(body=Corrected()):
            return corrected_text(event, changes, voice)
        case _:
            return ""


def _spot_text(event: SpotAsked, voice: Voice, *, contested: bool) -> str:
    """Say why a reading is kept aside, and ask for a second spot; of two of one moment that the lower one stands."""
    temp = voice.temp(event.reading.value_c)
    if event.before_c is not None and event.before_at is not None:
        why = _does_not_fit(temp, event.before_c, event.before_at, voice)
    elif event.expected_c is not None:
        why = _("{temp} surprises me: I expected {expected}.").format(temp=temp, expected=voice.band(*event.expected_c))
    else:
        why = _("{temp} surprises me.").format(temp=temp)
    if contested:
        stands = _("{why} The lower one stands until a second spot is read. What does it say, off bone and fat?")
        return stands.format(why=why)
    return _kept_aside(why)


def spot_text(value_c: float, before_c: float, before_at: dt.datetime, voice: Voice) -> str:
    """Say that a reading does not fit the one before, and ask for a second spot [°C]."""
    return _kept_aside(_does_not_fit(voice.temp(value_c), before_c, before_at, voice))


def _kept_aside(why: str) -> str:
    return _("{why} I keep it aside. What does a second spot say, off bone and fat?").format(why=why)


def _does_not_fit(temp: str, before_c: float, before_at: dt.datetime, voice: Voice) -> str:
    return _("{temp} does not fit {before} at {time}.").format(
        temp=temp, before=voice.temp(before_c), time=voice.clock(before_at)
    )


def _undid(event: Undid, changes: Changes, voice: Voice) -> str:
    """Say what was taken back, and for a correction what holds again."""
    fact = event.fact
    if isinstance(fact.body, PieceAdded) and any(view.piece == event.piece for view in changes.after.views):
        return amount_back(changes.after, event.piece)
    if isinstance(fact.body, Planned) and changes.before is not None:
        back = plan_back(changes.before, changes.after, voice)
        if back:
            return back
    if event.of is not None:
        old = old_fact(changes.after, event.of)
        if old is not None:
            return _("Back to: {what}, {time}.").format(what=fact_text(old, voice), time=voice.clock(old.happened_at))
    return _("Taken back: {what} ({time}).").format(what=fact_text(fact, voice), time=voice.clock(fact.happened_at))


def _already(event: Already, voice: Voice) -> str:
    """Thank for what was told before; by name when somebody else told it."""
    mine = event.by is not None and event.by == event.said_by
    text = (
        _("I have that down at {time} already: {what}.")
        if mine or event.by is None
        else _("Thanks. {name} told me at {time} already: {what}.")
    )
    return text.format(name=event.by, time=voice.clock(event.at), what=step_words(event.step).name)


def _gate_text(event: GateOpened, after: Situation, voice: Voice) -> str:
    gate = event.gate
    if gate.lowest is None:
        return ""
    needs = voice.limit(gate.minimum_c)
    if gate.rest_min:
        needs = _("{limit} and {rest}").format(limit=needs, rest=held_for(gate.rest_min))
    if gate.by is SafeBy.EQUIVALENCE:
        return _(
            "Its time at a lower temperature is over at every spot you read: safe by your choice, not by {needs}."
        ).format(needs=needs)
    text = _("Safe minimum passed where you read it: {found} (it needs {needs}, at the coldest spot).").format(
        found=voice.temp((gate.opened_by or gate.lowest).value_c, fine=True), needs=needs
    )
    text = " ".join(part for part in (text, of_each(after.seen_from(event.piece))) if part)
    return _("{text} Tender comes later.").format(text=text) if after.cut.doneness == "feel" else text
