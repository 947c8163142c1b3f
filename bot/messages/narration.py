"""What the narrator of the rehearsal says: who and what is invented, why things happen, and what came of it.

Nothing here is ever said to the crew of a real cook.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence

from bot.messages.figures import Voice, span
from bot.messages.language import long_date
from bot.messages.message import lines
from bot.messages.steps import step_words
from bot.messages.words import _, n_
from scheduler.planning.prompts import Why
from scheduler.planning.steps import MOMENTS


def opening() -> str:
    """Say what is invented and what is not."""
    return lines(
        _("REHEARSAL: the harvest supper of the Harrow Lane allotment club."),
        _(
            "Ines, Tomas, the ribs and the fire are invented, and so is every number. The program is real: it plans,"
            " asks and answers as it would for you, on a database of its own, with its clock moved by hand."
        ),
    )


def day(date: dt.date) -> str:
    """Return the heading of a day."""
    return long_date(date)


def types(name: str) -> str:
    """Return what stands before a typed line."""
    return _("{name} types").format(name=name)


def opens(name: str) -> str:
    """Say that somebody opens a window."""
    return _("{name} opens a window.").format(name=name)


# --- why ------------------------------------------------------------------------------------------------------------


def why_now(whys: Sequence[tuple[str, Why]], voice: Voice) -> str:
    """Say why a message comes now: one reason for each kind, in the order of the items (step id, reason)."""
    reasons: dict[str, list[str]] = {}
    for step_id, why in whys:
        reasons.setdefault(_reason(why, voice), []).append(step_words(step_id).name)
    parts = [
        reason if len(reasons) == 1 else _("{reason} ({what})").format(what=_few(names), reason=reason)
        for reason, names in reasons.items()
    ]
    return _("Why now: {reasons}.").format(reasons="; ".join(parts))


def _few(names: list[str]) -> str:
    return names[0] if len(names) == 1 else _("{first} and {count} more").format(first=names[0], count=len(names) - 1)


def _reason(why: Why, voice: Voice) -> str:
    minutes = why.minutes or 0.0
    by = span(dt.timedelta(minutes=abs(minutes)))
    if why.event in MOMENTS:
        return _("the work of the day before begins")
    event = "" if why.event is None else step_words(why.event).name
    match why.kind:
        case "before_serving":
            return _("{by} before dinner").format(by=by) if minutes else _("at dinner time")
        case "after" if minutes == 0:
            return _('together with "{event}"').format(event=event)
        case "after" | "cut":
            order = _('{by} after "{event}"') if minutes > 0 else _('{by} before "{event}"')
            return order.format(by=by, event=event)
        case "repeat":
            return _("{by} after the last time").format(by=by)
        case "core":
            core = "?" if why.core_c is None else voice.temp(why.core_c)
            return _("the forecast puts the meat near {core}").format(core=core)
        case "gate":
            return _("the meat waits for clean smoke, a steady pit and a placed probe")
        case "food":
            return _("cooked food is read, or put away, before its limit")
        case "held":
            return _("a careful estimate says the held meat comes down to where one must act")
        case "rising":
            if why.pit_c is None:
                return _('{by} after "{event}"').format(by=by, event=event)
            return _("by its readings the pit passes {pit} now").format(pit=voice.temp(why.pit_c))
        case "watch":
            return _("the watch changes")
        case "put_off":
            return _("somebody asked for a little time")


def moved(before: dt.datetime, after: dt.datetime, *, corrected: bool) -> str:
    """Say why a forecast moved enough to be told."""
    by = span(after - before)
    if corrected:
        return _("The plan follows the corrected number: pull moves by {by}, and all that hangs on it.").format(by=by)
    if after < before:
        return _(
            "This reading is ahead of the usual pace, so pull comes {by} earlier and the later prompts with it."
        ).format(by=by)
    return _(
        "This reading is behind the last forecast, so pull goes back by {by} and the later prompts with it."
    ).format(by=by)


def stall_began() -> str:
    """Say what the stall is."""
    return _(
        "The meat stalls: what the fire gives goes into drying the skin, not into heating. So everything that waits for"
        " the meat waits longer, and nobody should touch the vents for it."
    )


def late_reply(by: dt.timedelta) -> str:
    """Say that a reply counts from when it was so."""
    return _("Told {by} late, but with its time: the log dates it by when it was read.").format(by=span(by))


def corrected() -> str:
    """Say what a correction does."""
    return _(
        "Two figures had changed places. The slip stays in the log, and so does its correction; only the right number"
        " counts from here on."
    )


def unasked() -> str:
    """Say that a reading came unasked."""
    return _("Nobody asked; a number told early answers the question that was about to come.")


def skipped() -> str:
    """Say what skipping does."""
    return _("They were in before the fire was lit. A step that is not about safety may be skipped.")


def put_off() -> str:
    """Say what not yet does."""
    return _("Not yet means: ask again, in this step's own rhythm.")


def given_up(step_ids: Sequence[str]) -> str:
    """Say that prompts were withdrawn because their time had gone."""
    names = ", ".join(dict.fromkeys(step_words(step_id).name for step_id in step_ids))
    return _("Too late to be of use, so withdrawn and said so: {names}.").format(names=names)


def gate_opened() -> str:
    """Say what the safe minimum means."""
    return _(
        "The published minimum has been measured where it was read; the coldest spot counts. Safe is not yet tender."
    )


def stall_over() -> str:
    """Say that the stall is over."""
    return _("The skin has dried; now the heat goes inward again.")


# --- the kill -------------------------------------------------------------------------------------------------------


def killed(time: str, code: int, facts: int) -> str:
    """Say that the program was killed."""
    return _(
        "{time}: the program is killed with SIGKILL (exit code {code}), in the middle of the cook, with {facts} facts"
        " in its log. No goodbye, nothing is closed. The two windows stay open."
    ).format(time=time, code=code, facts=facts)


def unheard() -> str:
    """Say that a line was typed while nobody listened."""
    return _("Nobody hears it, but it is in the inbox on disk.")


def restarted(time: str, length: dt.timedelta, facts: int) -> str:
    """Say that the program was started again."""
    return _(
        "{time}: somebody notices, {length} later, and starts it again: a new process on the same file. All {facts}"
        " facts are there. First what was typed meanwhile, then what fell due, each by its own rule for being late."
    ).format(time=time, length=span(length), facts=facts)


# --- the end --------------------------------------------------------------------------------------------------------


def summary_heading() -> str:
    """Return the heading of the summary."""
    return _("What came of it (all of it invented, except that it ran)")


def messages_counted(name: str, own: int, most: int, answers: int, echoes: int) -> str:
    """Say how many messages somebody got from meat on to plate."""
    return _(
        "{name}, meat on to plate: {own} {messages} by the program itself (at most {most}), {answers} answers to what"
        " {name} typed, {echoes} lines about what the other did."
    ).format(name=name, own=own, messages=n_("message", "messages", own), most=most, answers=answers, echoes=echoes)


def dinner_came(planned: str, came: str, late: dt.timedelta) -> str:
    """Say when the plate came."""
    if abs(late) < dt.timedelta(minutes=1):
        return _("Dinner was set for {planned}; the food was out at {came}.").format(planned=planned, came=came)
    word = _("late") if late > dt.timedelta() else _("early")
    return _("Dinner was set for {planned}; the food was out at {came}, {by} {word}.").format(
        planned=planned, came=came, by=span(late), word=word
    )


def pulled(time: str, core: str) -> str:
    """Say when the meat came off."""
    return _("Pulled at {time}, {core}.").format(time=time, core=core)


def forecast_missed(when: str, made: str, said: str, error: dt.timedelta) -> str:
    """Say how far off a forecast of the pull was."""
    if abs(error) < dt.timedelta(minutes=1):
        return _("Forecast {when} ({made}): pull {said}, right to the minute.").format(when=when, made=made, said=said)
    word = _("too early") if error < dt.timedelta() else _("too late")
    return _("Forecast {when} ({made}): pull {said}, {by} {word}.").format(
        when=when, made=made, said=said, by=span(error), word=word
    )


def moments() -> tuple[str, str, str]:
    """Return the names of the three moments at which forecasts are compared."""
    return _("after the first reading"), _("half-way"), _("an hour before")


def nothing_lost(before: int, after: int) -> str:
    """Say what became of the log over the kill."""
    return _("Over the kill: all {before} facts from before are the first {before} of the {after} at the end.").format(
        before=before, after=after
    )


def something_lost() -> str:
    """Say that the log did not survive; this must never be read."""
    return _("Over the kill facts were LOST. That is a fault of the program; please report it.")


def wall_time(seconds: float) -> str:
    """Say how long the rehearsal took."""
    return _("Four days in {seconds:.0f} seconds.").format(seconds=seconds)


def stopped() -> str:
    """Say that the rehearsal was broken off."""
    return _("Rehearsal stopped; nothing is left behind.")


def folder_in_use(path: str) -> str:
    """Say that a folder has a database already."""
    return _("{path} holds a database already; a rehearsal never plays on real data. Give it an empty folder.").format(
        path=path
    )


def died(path: str) -> str:
    """Say that the program under rehearsal ended by itself."""
    return _("The program under rehearsal ended by itself; {path} may say why.").format(path=path)
