"""The board: one message per cook and room, edited in place: stops, dinner, what is next and whose, the watch, each
piece, the pit; temperatures last.

Ages are counted as of the time that stands in the last line: nobody has to know when the message was changed.
"""

from __future__ import annotations

import datetime as dt

from bot.messages.allergies import standing_care
from bot.messages.answers import OLD, headline
from bot.messages.cooker import fuel_line
from bot.messages.courses import headline_of, in_order
from bot.messages.crew_sound import deaf_lines
from bot.messages.dinner import dinner_line
from bot.messages.figures import Voice, span
from bot.messages.language import capital
from bot.messages.message import Message, lines
from bot.messages.naming import cook_title, named, piece_name
from bot.messages.stall import stall_line
from bot.messages.steps import step_words
from bot.messages.stops import board_lines, discarded_line
from bot.messages.trip import next_line, step_names
from bot.messages.words import _
from bot.messages.wraps import if_wrapped
from scheduler.cook import Situation
from scheduler.facts import Slot
from scheduler.planning.nights import changes, watches
from scheduler.planning.views import PieceView
from scheduler.safety.contested import contests
from scheduler.state import Stage
from scheduler.state.values import ReadingAt

_MOST_OPEN = 2


def board(situation: Situation, voice: Voice) -> Message:
    """Return how a cook stands, its temperatures last."""
    if situation.state.over or situation.state.stage is Stage.CLOSED:
        title = cook_title(situation) + "." if situation.several else headline(situation, voice)
        return Message(text=lines(title, _("This cook is over.")))
    dinner = "" if situation.several else discarded_line(situation, voice)
    return Message(
        text=lines(
            *board_lines(situation, voice),
            dinner or dinner_line(situation, voice),
            next_line(situation, voice, owner=True),
            *standing_care(situation),
            open_line(situation),
            watch_line(situation, voice),
            *claim_lines(situation, voice),
            *deaf_lines(situation, voice),
            *piece_lines(situation, voice),
            fuel_line(situation.at_the_fire, voice),
            *_temperatures(situation, voice),
            _("As of {time}.").format(time=voice.clock(voice.now)),
        )
    )


def claim_lines(situation: Situation, voice: Voice) -> list[str]:
    """Return who has claimed what, and until when."""
    found = []
    for view in situation.views:
        for step, held in view.state.claims.items():
            if held.lapses_at > voice.now:
                words = _("{name} has it until {time}: {what}.").format(
                    name=held.name, time=voice.clock(held.lapses_at), what=step_words(step).name
                )
                found.append(words)
    return list(dict.fromkeys(found))


def open_line(situation: Situation) -> str:
    """Return what was asked and not answered yet; nothing when nothing was."""
    waiting = step_names(situation.waiting[:_MOST_OPEN], situation)
    return _("Open: {what}.").format(what=", ".join(waiting)) if waiting else ""


def watch_line(situation: Situation, voice: Voice) -> str:
    """Return who has the watch and until when, and who comes then; nothing while no watch was told or all is off."""
    state = situation.state
    if all(view.state.did("pull") for view in situation.views):
        return ""
    holder = state.watch_holder(voice.now)
    following = next(((at, name) for at, _out, name in changes(state) if at > voice.now), None)
    if holder is None:
        following = min(((start, name) for name, start, _end in watches(state) if start > voice.now), default=following)
    if holder is None and following is None:
        return ""
    if holder is None and following is not None:
        return _("Watch: nobody now, {name} from {time}.").format(name=following[1], time=voice.clock(following[0]))
    if following is None:
        return _("Watch: {name}.").format(name=holder)
    return _("Watch: {name} until {time}, then {next}.").format(
        name=holder, time=voice.clock(following[0]), next=following[1]
    )


def piece_lines(situation: Situation, voice: Voice) -> list[str]:
    """Return a line or two for each piece: what it is, when it comes off, how it stands in its stall."""
    told = []
    for view in in_order(situation):
        seen = situation.seen_from(view.piece)
        told.append(_piece(view, seen, voice))
        told += [named(situation, view.piece, line) for line in (if_wrapped(seen, voice), stall_line(seen, voice))]
    return told


def _piece(view: PieceView, seen: Situation, voice: Voice) -> str:
    if view.state.discarded:
        return _("{piece}: thrown away, {time}.").format(
            piece=capital(headline_of(view)), time=voice.clock(view.state.discarded[-1].at)
        )
    if view.state.did("serve"):
        return _("{piece}: served.").format(piece=capital(headline_of(view)))
    what = capital(headline_of(view)) if seen.several else headline(seen, voice).removesuffix(".")
    pulled_at = view.state.at("pull")
    if pulled_at is not None:
        return _("{piece}: off the fire since {time}.").format(piece=what, time=voice.clock(pulled_at))
    window = voice.window(view.outlook.pull)
    if view.state.did("meat_on"):
        return _("{piece}: ready {window}.").format(piece=what, window=window)
    on_at = max(view.outlook.on_at, voice.now)
    return _("{piece}: on {time}, ready {window}.").format(piece=what, time=voice.clock(on_at), window=window)


def _temperatures(situation: Situation, voice: Voice) -> list[str]:
    """Return the newest reading of each piece, then the pit beside what it should hold."""
    told = []
    for view in in_order(situation):
        core = view.state.last(Slot.CORE)
        if core is not None and not view.state.did("serve") and not view.state.discarded:
            name = capital(piece_name(view)) if situation.several else _("Meat")
            plain = _("{name} {reading}.").format(name=name, reading=reading_words(core, voice))
            told.append(_differ(name, view, core, voice) or plain)
    fire = situation.at_the_fire.state
    pit = fire.last(Slot.PIT)
    if pit is not None and not all(view.state.did("pull") for view in situation.views):
        band = fire.pit[-1]
        told.append(
            _("Pit {reading}, should hold {pit}.").format(
                reading=reading_words(pit, voice), pit=voice.band(band.low_c, band.high_c)
            )
        )
    if not told and situation.stage is Stage.COOKING:
        told.append(_("No readings yet: the plan runs on the usual pace."))
    return told


def _differ(name: str, view: PieceView, core: ReadingAt, voice: Voice) -> str:
    """Return both of two readings that differ and that nothing has settled, where the newest is one of them."""
    pairs = contests(reading for reading in view.state.readings if reading.slot is Slot.CORE)
    pair = next((one for one in pairs if core.fact in {one.higher.fact, one.lower.fact}), None)
    if pair is None:
        return ""
    return _("{name}: {low} or {high} at {time}, two readings that differ.").format(
        name=name,
        low=voice.read(pair.lower.value_c),
        high=voice.read(pair.higher.value_c),
        time=voice.clock(max(pair.lower.at, pair.higher.at)),
    )


def reading_words(reading: ReadingAt, voice: Voice) -> str:
    """Return a reading with its time and its age; one older than an hour is called old."""
    age = voice.now - reading.at
    if age < dt.timedelta(minutes=1):
        how_old = _("just now")
    elif age <= OLD:
        how_old = _("{span} ago").format(span=span(age))
    else:
        how_old = _("old: {span}").format(span=span(age))
    return _("{temp} at {time} ({age})").format(
        temp=voice.read(reading.value_c), time=voice.clock(reading.at), age=how_old
    )
