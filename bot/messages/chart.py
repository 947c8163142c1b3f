"""Words on the chart: tags, axes, what each shape means, and the caption of the picture.

Short, for a phone: nothing is drawn or measured here.
"""

from __future__ import annotations

import datetime as dt
from zoneinfo import ZoneInfo

from bot.messages.bin_stops import orders_bin
from bot.messages.dinner import dinner_line
from bot.messages.figures import Voice, span
from bot.messages.findings import found_text
from bot.messages.language import capital
from bot.messages.message import lines
from bot.messages.naming import names_of, piece_name
from bot.messages.papers import wrap_word
from bot.messages.trip import next_line
from bot.messages.words import _, n_
from scheduler.cook import Situation
from scheduler.facts import Wrap
from scheduler.planning.outlook import Window
from scheduler.safety import Finding, FindingLevel
from scheduler.state import ReadingAt, Stage

_FEW = dt.timedelta(minutes=8)
"""A served dinner this near to its time was on time: times are told in steps of five minutes."""


# --- the head -------------------------------------------------------------------------------------------------------


def title(situation: Situation, voice: Voice) -> str:
    """Return the sentence about dinner; of one that was served, whether it was on time. A stop stands in its place."""
    if stopped := stop_title(situation, voice):
        return stopped
    served, wanted = _served_at(situation), situation.deciding.outlook.serve_end
    if served is None:
        return dinner_line(situation, voice)
    time = voice.clock(served)
    if wanted is None:
        return _("Dinner was served at {time}.").format(time=time)
    if abs(served - wanted) <= _FEW:
        return _("Dinner was served at {time}: on time.").format(time=time)
    if served < wanted:
        return _("Dinner was served at {time}: {span} early.").format(time=time, span=span(wanted - served))
    return _("Dinner was served at {time}: {span} late.").format(time=time, span=span(served - wanted))


def stop_title(situation: Situation, voice: Voice) -> str:
    """Return that food is not to be eaten while a stop stands about it; nothing when none does."""
    found = {view.piece: situation.stops_of(view.piece, voice.now) for view in situation.views}
    for piece, one in situation.left_standing:
        found[piece] = (*found[piece], one)
    stopped = tuple(piece for piece, stops in found.items() if stops)
    if not stopped:
        return ""
    if any(orders_bin(one) for stops in found.values() for one in stops):
        text = _("Stop: do not eat it, throw it away.")
    else:
        text = _("Stop: do not eat it now.")
    return _("{pieces}: {text}").format(pieces=capital(names_of(situation, stopped)), text=text)


def warnings(situation: Situation, voice: Voice) -> tuple[str, ...]:
    """Return the stop that stands, the gravest first, else the cautions: what they found, in one sentence each."""
    ended = [one for _piece, one in situation.left_standing]
    stops = [*(one for view in situation.views for one in situation.stops_of(view.piece, voice.now)), *ended]
    if stops:
        return (found_text(min(stops, key=lambda one: not orders_bin(one)), voice),)
    return tuple(dict.fromkeys(found_text(one, voice) for one in cautions(situation, voice)))


def cautions(situation: Situation, voice: Voice) -> list[Finding]:
    """Return the cautions that stand about any piece."""
    found = [one for view in situation.views for one in situation.seen_from(view.piece).findings(voice.now)]
    return [one for one in found if one.level is FindingLevel.CAUTION]


def served_late(situation: Situation) -> bool | None:
    """Return whether dinner was served late; None while it was not, or where no time was fixed."""
    served, wanted = _served_at(situation), situation.deciding.outlook.serve_end
    return None if served is None or wanted is None else served - wanted > _FEW


def _served_at(situation: Situation) -> dt.datetime | None:
    """Return when the last piece was served, None while one is still to be."""
    times = [view.state.at("serve") for view in situation.views if not view.state.discarded]
    known = [at for at in times if at is not None]
    return max(known) if known and len(known) == len(times) else None


def action(situation: Situation, voice: Voice) -> str:
    """Return the next thing to do and whose it is; nothing when the cook is over."""
    return "" if situation.state.stage is Stage.CLOSED else next_line(situation, voice, owner=True)


def foretold(expected: Window, pulled_at: dt.datetime, voice: Voice) -> str:
    """Return what was forecast when the meat went on, beside what came of it."""
    return _("Forecast at meat on: off {window}. It came off at {time}.").format(
        window=voice.window(expected), time=voice.clock(pulled_at)
    )


def more_pieces(names: tuple[str, ...]) -> str:
    """Return the names of the pieces that have no room of their own."""
    return _("Not drawn: {names}.").format(names=", ".join(names))


# --- tags and axes --------------------------------------------------------------------------------------------------


def dinner_tag(at: dt.datetime, voice: Voice) -> str:
    """Return the words on the dinner line."""
    return _("Dinner {time}").format(time=voice.about(at))


def ready_tag(at: dt.datetime, voice: Voice) -> str:
    """Return the words on the line where no time was fixed: dinner follows the meat."""
    return _("Plate about {time}").format(time=voice.about(at))


def now_tag(voice: Voice) -> str:
    """Return the words on the line of the present."""
    return _("now {time}").format(time=voice.now.astimezone(ZoneInfo(voice.zone)).strftime("%H:%M"))


def axis(*, fixed: bool, fine: bool) -> str:
    """Return what the axis counts; `fine` where it is marked in parts of an hour, too."""
    if fine:
        return _("time before dinner") if fixed else _("time before the plate")
    return _("hours before dinner") if fixed else _("hours before the plate")


def before(minutes: int) -> str:
    """Return the words under a tick: so long before dinner, 0 is dinner itself, below that after it."""
    size = abs(minutes)
    text = _("{count} h").format(count=size // 60) if size % 60 == 0 else _("{count} min").format(count=size)
    return _("0") if minutes == 0 else text if minutes > 0 else _("+{time}").format(time=text)


def pit(low_c: float, high_c: float, voice: Voice) -> str:
    """Return what the pit should hold."""
    return _("Pit {band}").format(band=voice.band(low_c, high_c))


def done_at(temp_c: float, voice: Voice) -> str:
    """Return the words on the core at which it is done."""
    return _("done about {temp}").format(temp=voice.temp(temp_c))


# --- a piece --------------------------------------------------------------------------------------------------------


def newest(reading: ReadingAt | None, voice: Voice) -> str:
    """Return the newest reading with its time."""
    if reading is None:
        return _("no reading yet")
    return _("{temp} at {time}").format(temp=voice.read(reading.value_c), time=voice.clock(reading.at))


def readings(count: int) -> str:
    """Return how many readings there were, of a cook that is over."""
    return n_("{count} reading", "{count} readings", count).format(count=count)


def off(window: Window, voice: Voice) -> str:
    """Return when the meat will be ready to come off."""
    if window.likely is None:
        return _("off the fire later than I can see")
    return _("off the fire {window}").format(window=voice.window(window))


def came_off(at: dt.datetime, voice: Voice) -> str:
    """Return when the meat came off."""
    return _("off the fire at {time}").format(time=voice.clock(at))


def for_its_dinner(when: str, dinner_at: dt.datetime, voice: Voice) -> str:
    """Return when a piece comes off, with the dinner that it is for, where not all have the same."""
    return _("{off}, for {time}").format(off=when, time=voice.clock(dinner_at))


def thrown_away() -> str:
    """Return that a piece was thrown away."""
    return _("thrown away")


def stall() -> str:
    """Return the word at the bracket of the stall."""
    return _("stall")


def wrap(kind: Wrap) -> str:
    """Return the word at the mark of a wrap."""
    return _("unwrapped") if kind is Wrap.NONE else wrap_word(kind, open_to=False)


# --- what the shapes mean -------------------------------------------------------------------------------------------


def legend() -> dict[str, str]:
    """Return what each shape means, by the name of the shape."""
    return {
        "fan": _("forecast, 8 in 10 inside"),
        "foretold": _("forecast at meat on"),
        "window": _("ready to come off"),
        "rest": _("rest it needs, then dinner"),
        "rested": _("rest, then dinner"),
        "stall": _("stall"),
        "meat_on": _("meat on"),
        "pull": _("off the fire"),
        "wrap": _("wrapped"),
        "lid": _("lid open"),
        "pit": _("pit, as wanted"),
        "doubtful": _("doubted reading"),
        "late": _("after dinner time"),
    }


# --- in the chat ----------------------------------------------------------------------------------------------------


def caption(situation: Situation, voice: Voice) -> str:
    """Return the words under the picture: what it says, for whoever cannot see it."""
    return lines(title(situation, voice), *_pieces(situation, voice), action(situation, voice))


_NAMED = 6
"""Pieces that a caption names."""


def _pieces(situation: Situation, voice: Voice) -> list[str]:
    """Return a line for each piece: its newest reading, and when it comes off."""
    found = []
    for view in situation.views[:_NAMED]:
        pulled_at = view.state.at("pull")
        when = off(view.outlook.pull, voice) if pulled_at is None else came_off(pulled_at, voice)
        if view.state.discarded:
            when = thrown_away()
        found.append(f"{capital(piece_name(view))}: {when}.")
    return found
