"""Words on paper and in the calendar file: limits, what to do without the bot, titles and descriptions of events.

Temperatures stand in both units: paper is read by whoever is awake. Nothing is laid out here.
"""

from __future__ import annotations

import datetime as dt
from zoneinfo import ZoneInfo

from bot.messages import language
from bot.messages.every_step import every
from bot.messages.figures import Voice, both, held_for, span, to_five
from bot.messages.message import lines
from bot.messages.steps import CAUTIONS, step_words
from bot.messages.words import _
from scheduler.cuts import Cut
from scheduler.facts import VentMark, Wrap
from scheduler.planning.outlook import Window
from scheduler.safety import ACT_C
from scheduler.safety.come_up import COME_UP_C
from scheduler.safety.fire import PIT_COLD_C
from scheduler.safety.holding import FLOOR_C
from scheduler.units import f_from_c

_PIT_HOT_C = 149.0
"""A pit above this for twenty minutes wakes the lead [°C]: 300 F, common practice, no source."""

_OVER_C = 14.0
"""So far over the hottest pit that is planned, where that is near the figure above or over it [°C]: 25 F, common
practice, no source."""

_CLIMB_C = 8.0
"""Meat that climbs more than this in half an hour is looked at [°C]; common practice, no source."""

_ONE_VALUE_C = 0.5
_CAUTIONS = ("co", "unattended", "fluid", "hot", "ash")
"""Cautions of fire that stand on every page, the gravest first."""


def both_band(low_c: float, high_c: float) -> str:
    """Return a band of the pit in both units."""
    if abs(high_c - low_c) < _ONE_VALUE_C:
        return _("{f:.0f} F ({c:.0f} C)").format(f=f_from_c(low_c), c=low_c)
    return _("{f_low:.0f} to {f_high:.0f} F ({c_low:.0f} to {c_high:.0f} C)").format(
        f_low=f_from_c(low_c), f_high=f_from_c(high_c), c_low=low_c, c_high=high_c
    )


# --- the page -------------------------------------------------------------------------------------------------------


def dinner_title(
    window: tuple[dt.datetime | None, dt.datetime | None], plate_at: dt.datetime | None, voice: Voice, *, late: bool
) -> str:
    """Return when people eat; `late` says that the meat will not be ready by then."""
    start, end = window
    if start is None:
        ready = _("Dinner when ready")
        return ready if plate_at is None else _("{ready}, about {time}").format(
            ready=ready, time=day_clock(to_five(plate_at), voice)
        )  # fmt: skip
    when = day_clock(start, voice)
    if end is not None and end != start:
        when = _("{start} to {end}").format(start=when, end=day_clock(end, voice).split()[-1])
    dinner = _("Dinner {time}").format(time=when)
    if not late or plate_at is None:
        return dinner
    return _("{dinner}, plate about {time}").format(dinner=dinner, time=day_clock(to_five(plate_at), voice))


def issue_line(sequence: int, issued_at: dt.datetime, voice: Voice) -> str:
    """Return the number of this issue and when it was made; the first one has number 1."""
    made = day_clock(issued_at, voice)
    if sequence == 0:
        return _("Plan no. 1, made {time}").format(time=made)
    return _("Plan no. {number}, made {time}. Throw away no. {before}.").format(
        number=sequence + 1, time=made, before=sequence
    )


def zone_line(zone: str) -> str:
    """Return whose clock the times follow."""
    return _("Clock of {zone}. Forecast times move with the meat; the limits below do not.").format(
        zone=zone.replace("_", " ")
    )


def clock_change_line(*, back: bool, wall: str, change_at: dt.datetime, voice: Voice) -> str:
    """Return that the clocks change within the plan: `wall` is what they show just before, `back` when an hour comes
    twice.
    """
    text = (
        _("The clocks go back an hour at {time}: later times are the new time.")
        if back
        else _("The clocks go forward an hour at {time}: later times are the new time.")
    )
    return text.format(time=_("{day} {wall}").format(day=day_clock(change_at, voice).split()[0], wall=wall))


def day_clock(at: dt.datetime, voice: Voice) -> str:
    """Return day and time, whatever day it is now: paper lies about for days."""
    local = at.astimezone(ZoneInfo(voice.zone))
    return _("{day} {time}").format(day=weekday(local), time=f"{local:%H:%M}")


def weekday(local: dt.datetime) -> str:
    """Return the name of a day, short."""
    return language.weekday(local)


def day_heading(local: dt.datetime) -> str:
    """Return the heading of the rows of one day."""
    return language.short_date(local)


def minimum_line(minimum_c: float, rest_min: float, name: str) -> str:
    """Return the published safe minimum of some meat [°C], with the rest that belongs to it [min]."""
    if rest_min > 0:
        return _("Safe to eat, {name}: {limit} in the coldest spot, then {rest}.").format(
            name=name, limit=both(minimum_c), rest=held_for(rest_min)
        )
    return _("Safe to eat, {name}: {limit} in the coldest spot.").format(name=name, limit=both(minimum_c))


def pit_line(bands: tuple[tuple[float, float], ...]) -> str:
    """Return the bands of the pit, one after the other, and where it is too cold."""
    pits = _(", later ").join(both_band(low_c, high_c) for low_c, high_c in bands)
    return _("Pit: {band}. Never below {cold} while the meat is below {floor}.").format(
        band=pits, cold=both(PIT_COLD_C), floor=both(FLOOR_C)
    )


def come_up_line(by: dt.datetime, voice: Voice, *, name: str, others: tuple[tuple[str, dt.datetime], ...]) -> str:
    """Return the four-hour check of big pieces, each with its time; `name` is empty when there is one piece."""
    first = _("{name} {time}").format(name=name, time=voice.about(by)).strip()
    times = [first, *(_("{name} {time}").format(name=one, time=voice.about(at)) for one, at in others)]
    return _(
        "Four hours on (about {times}): meat above {limit}. If not: get the pit up, look at fuel and probe."
    ).format(times=", ".join(times), limit=both(COME_UP_C))


def hold_line() -> str:
    """Return the floor of held meat."""
    return _("Held meat: never below {floor}; at {act} serve, warm oven, or slice and chill.").format(
        floor=both(FLOOR_C), act=both(ACT_C)
    )


def two_hour_line() -> str:
    """Return how long food may stand out."""
    return _("Food out: two hours, one above 90 F (32 C). Then fridge or bin.")


def fire_lines() -> tuple[str, ...]:
    """Return the cautions of fire and carbon monoxide, the gravest first."""
    return tuple(CAUTIONS[name]() for name in _CAUTIONS)


def silent_lines(lead: str | None) -> tuple[str, ...]:
    """Return what to do while the bot says nothing."""
    asked = _("In doubt wake {lead}.").format(lead=lead) if lead else _("In doubt wake whoever leads the cook.")
    return (
        _("Carry on from this page. Limits and the hand decide, not the times."),
        _("Read pit and meat every hour. Write time and number down, on the back; type them in later (178 at 03:40)."),
        asked,
        _("Never pause half-cooked meat: if the fire is lost, into a hot oven."),
    )


def wake_if_line(hottest_c: float) -> str:
    """Return when somebody is to be woken; `hottest_c` is the hottest pit that is planned [°C]."""
    return _(
        "Wake if: pit under {cold} or over {hot} for 20 min, meat up {climb:.0f} F ({climb_c:.0f} C) in 30 min, "
        "fire out, rain or wind, doubt."
    ).format(
        cold=both(PIT_COLD_C), hot=both(max(_PIT_HOT_C, hottest_c + _OVER_C)), climb=_CLIMB_C * 1.8, climb_c=_CLIMB_C
    )


def vent_line(mark: VentMark) -> str:
    """Return where the vents stand for a band, in the owner's words."""
    return _("{band}: {words}").format(band=both_band(mark.low_c, mark.high_c), words=mark.words)


def dial_line(offset_c: float) -> str:
    """Return what the dial in the lid shows against the grate."""
    more = _("add") if offset_c > 0 else _("take off")
    return _("Dial in the lid: {more} {f:.0f} F ({c:.0f} C).").format(more=more, f=abs(offset_c) * 1.8, c=abs(offset_c))


def wake_line(name: str, start: dt.datetime, end: dt.datetime, voice: Voice) -> str:
    """Return who has the watch, and when."""
    return _("{name}: {start} to {end}").format(
        name=name, start=day_clock(start, voice), end=day_clock(end, voice).split()[-1]
    )


def short_window(window: Window, voice: Voice) -> str:
    """Return a window by its clock times alone, for under the heading of a day."""
    zone = ZoneInfo(voice.zone)
    early, late = (
        _("?") if at is None else f"{to_five(at).astimezone(zone):%H:%M}" for at in (window.early, window.late)
    )
    return _("{early} to {late}").format(early=early, late=late)


def row_title(step_id: str, title: str, pieces: tuple[str, ...]) -> str:
    """Return a row of the page: what is done, and to which pieces when not to all, short enough for a column."""
    if not pieces:
        return title
    short = {
        "meat_on": _("on"), "bark_check": _("bark"), "tender_test": _("feel"), "second_spot": _("read"),
        "pull": _("off"),
    }  # fmt: skip
    return _("{title}: {pieces}").format(title=short.get(step_id, title), pieces=", ".join(pieces))


def row_often(title: str, length: dt.timedelta) -> str:
    """Return a row of the page that comes again and again, with how often."""
    return _("{title}, {every}").format(title=title, every=every(length))


def row_note(step_id: str, cut: Cut, window: Window | None, voice: Voice, *, short: bool = False) -> str:
    """Return what stands behind a step on the page: a window, or a temperature to look for; `short` in half a line."""
    if step_id == "pull" and window is not None:
        return short_window(window, voice) if short else _("usual {window}").format(window=short_window(window, voice))
    notes = {
        "bark_check": (_("near {core}"), cut.bark_look_c),
        "tender_test": (_("from {core}"), cut.start_testing_c),
        "second_spot": (_("needs {core}"), cut.done_c),
    }
    if step_id not in notes:
        return ""
    text, core_c = notes[step_id]
    core = voice.target(core_c)
    return core if short else text.format(core=core)


def target_words(cut: Cut, minimum_c: float, voice: Voice) -> str:
    """Return the core at which a cut is usually done [°C], never below the safe minimum of its class.

    Paper is read by everybody: rare is there only as somebody chose it for this very piece, by time at temperature.
    """
    if cut.done_c != cut.target_c.typical:
        return voice.temp(cut.done_c)
    low = voice.temp(max(cut.target_c.low, minimum_c))
    high = voice.temp(max(cut.target_c.high, minimum_c))
    return low if low == high else _("{low} to {high}").format(low=low.split()[0], high=high)


def wrap_word(wrap: Wrap | None, *, open_to: bool) -> str:
    """Return the wrap that is meant."""
    if wrap is None:
        return _("see bark") if open_to else _("bare")
    return {Wrap.NONE: _("bare"), Wrap.PAPER: _("paper"), Wrap.FOIL: _("foil"), Wrap.BOAT: _("foil boat")}[wrap]


def headings() -> dict[str, str]:
    """Return the headings of the page by their place."""
    return {
        "limits": _("Limits"),
        "fire": _("Fire and fumes"),
        "silent": _("If the bot is silent"),
        "vents": _("Vents"),
        "wake": _("Who to wake"),
        "columns": _("time|pit|meat|what was done"),
        "piece_columns": _("meat|on|off the fire|done at|wrap"),
        "more": _('... and {count} smaller things: ask for "all steps" in the chat.'),
        "letters": _("? = a letter this printer font lacks; names stand in the chat."),
    }


# --- in the chat ----------------------------------------------------------------------------------------------------


def given_out(paper: str, sequence: int) -> str:
    """Return what goes with a paper: what to do with it, and what it cannot do."""
    if paper == "page":
        return _("The plan on one page, no. {number}. Tape it up beside the cooker.").format(number=sequence + 1)
    return lines(
        _("The plan for your calendar, no. {number}: open the file on your phone.").format(number=sequence + 1),
        _("It is a help. Phones may stay silent: set an ordinary alarm for what must wake you."),
    )


def out_of_date(paper: str, sequence: int, moved: dt.timedelta | None) -> tuple[str, str]:
    """Return the line and the button that offer a new paper; `moved` None: there is other meat on it."""
    if moved is None and paper == "page":
        return _("Page no. {number} has other meat on it: print a new one?").format(number=sequence + 1), _("New page")
    if moved is None:
        return _("Your calendar file has other meat in it: take a new one?"), _("New calendar")
    if paper == "page":
        line = _("Page no. {number} is off by {span} now: print a new one?")
        return line.format(number=sequence + 1, span=span(moved)), _("New page")
    line = _("Your calendar file is off by {span} now: take a new one?")
    return line.format(span=span(moved)), _("New calendar")


# --- the calendar ---------------------------------------------------------------------------------------------------


def calendar_name(title: str) -> str:
    """Return the name of the calendar."""
    return _("Cook: {title}").format(title=title)


def no_alarm_promise() -> str:
    """Return what a calendar file can and cannot do; stands in every event."""
    return _(
        "This calendar is a help. Phones may stay silent: set an ordinary alarm for what must wake you. "
        "Times move with the meat; the chat has the newest."
    )


def event_title(step_id: str, piece: str | None, cut: Cut | None = None) -> str:
    """Return the title of an event; a cut that goes by its temperature comes off by that, not by the hand."""
    special = {
        "bark_check": _("wrap window: look at the bark"),
        "pull": _("pull window: off the fire when it is tender"),
        "serve": _("dinner: food out"),
    }
    name = special.get(step_id) or step_name(step_id)
    if step_id == "pull" and cut is not None and cut.doneness == "temperature":
        name = _("pull window: off the fire when the coldest spot reads {core}").format(core=both(cut.done_c))
    text = name if piece is None else _("{piece}: {name}").format(piece=piece, name=name)
    return language.capital(text)


def step_name(step_id: str) -> str:
    """Return the name of a step, also of one that this version no longer knows."""
    try:
        return step_words(step_id).name
    except KeyError:
        return step_id.replace("_", " ")


def event_cancelled(title: str) -> str:
    """Return the title of an event that is no longer in the plan."""
    return _("No longer planned: {title}").format(title=title)


def alarm_words(title: str, lead: dt.timedelta) -> str:
    """Return what an alarm shows."""
    return title if not lead else _("In {span}: {title}").format(span=span(lead), title=title)
