"""What the backtest says: its table, how far off each forecast was, and what of a log could not be used.

Sentences and columns of one report; it forecasts and scores nothing.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Sequence

from bot.messages.figures import in_unit, kilograms
from bot.messages.language import number
from bot.messages.words import _, n_
from scheduler.facts import Wrap
from scheduler.units import f_from_c

_NOTICES = {
    "header_unknown": lambda: _("# {words}: nothing here reads that, ignored."),
    "header_unreadable": lambda: _(
        "cannot read {words}, ignored. Like this: # mass: 6.2 kg (or lb), # thickness: 7.5 cm (or in, mm), "
        "# pit: 250 F (or 250-275 F, or C), # wrap: none, paper, foil or boat."
    ),
    "time": lambda: _("no time in {words}, row skipped. A minute is a number; a time is like 2026-09-12T09:30."),
    "no_date": lambda: _(
        "{words} has no date, row skipped. With one it can be read: 2026-09-12T20:30; or count minutes since meat "
        "on in a column minute."
    ),
    "too_long": lambda: _("{words} is too far from the rest of the cook (more than 14 days), row skipped."),
    "zone": lambda: _("{words}: times of one log all need a zone, or none; row skipped."),
    "temperature": lambda: _("{words} is no temperature, row skipped."),
    "core_too_hot": lambda: _("{words} is hotter than meat gets, row skipped."),
    "core_perhaps_f": lambda: _("{words} is hotter than meat gets: perhaps F? Row skipped."),
    "pit_too_hot": lambda: _("{words} is hotter than a cooker gets, row skipped."),
    "too_cold": lambda: _("{words} is colder than meat or cooker get, row skipped."),
    "event": lambda: _(
        "do not know the event {words}, ignored. Events: on, wrap foil, wrap paper, wrap boat, unwrap, spritz, lid, "
        "pit 275F, pull; several in one cell with ; or , between."
    ),
    "second_on": lambda: _("meat on stands a second time; the first counts."),
    "before_on": lambda: _("{words} core readings before meat on; the last says how warm the meat was."),
    "extra_cells": lambda: _("more cells than columns ({words}), ignored."),
    "no_columns": lambda: _("no line of column names with minute (or at) and core_f (or core_c): {words}"),
    "no_row": lambda: _("not one row with a time and a core reading."),
}
_PLAIN = frozenset({"before_on", "core_too_hot", "core_perhaps_f", "pit_too_hot", "too_cold"})
"""Of these the words are figures, not quotations."""
_WRAPS: dict[Wrap | None, Callable[[], str]] = {
    None: lambda: _("wrap undecided"),
    Wrap.NONE: lambda: _("bare to the end"),
    Wrap.PAPER: lambda: _("paper intended"),
    Wrap.FOIL: lambda: _("foil intended"),
    Wrap.BOAT: lambda: _("boat intended"),
}
_UNREADABLE = {
    "missing": lambda: _("there is no such file."),
    "folder": lambda: _("that is a folder; name the logs in it."),
    "forbidden": lambda: _("that file may not be read."),
    "too_large": lambda: _("that is too large for the log of a cook."),
    "binary": lambda: _("that is no text file; save the log as CSV."),
    "encoding": lambda: _("that text can be read neither as UTF-8 nor as Windows-1252; save the log as CSV in UTF-8."),
    "failed": lambda: _("that file cannot be read."),
}
_LATER = "-"


# --- what could not be used ----------------------------------------------------------------------------------------


def notice(file: str, trouble: str, line: int | None, words: str) -> str:
    """Say what in a log could not be used, and what would work."""
    said = _NOTICES[trouble]().format(words=words if trouble in _PLAIN else repr(words))
    return (
        f"{file}: {said}" if line is None else _("{file}, line {line}: {said}").format(file=file, line=line, said=said)
    )


def skipped(file: str, count: int) -> str:
    """Say how many rows were malformed."""
    return n_("{file}: {count} row skipped.", "{file}: {count} rows skipped.", count).format(file=file, count=count)


def unreadable(file: str, why: str) -> str:
    """Say why a file cannot be read at all."""
    return f"{file}: {_UNREADABLE[why]()}"


def stand_in(file: str, said: str | None, name: str) -> str:
    """Say which cut stands in for one that is not known."""
    if said is None:
        return _("{file}: no line like # cut: brisket, so it is taken for {name}.").format(file=file, name=name)
    return _("{file}: no cut called {said} is known, so it is taken for {name}.").format(
        file=file, said=repr(said), name=name
    )


def nearest(file: str, said: str, name: str, *, assumed: bool) -> str:
    """Say which known cut a piece is taken for: as the nearest, or because its name leaves it open."""
    if assumed:
        text = _("{file}: {said} may be several cuts; it is assumed to be {name}. A fuller name says it for sure.")
    else:
        text = _("{file}: {said} is taken for {name}, the nearest cut that is known.")
    return text.format(file=file, said=repr(said), name=name)


def progress(file: str, done: int) -> str:
    """Say how far a long log is."""
    return n_("{file}: {count} forecast so far", "{file}: {count} forecasts so far", done).format(file=file, count=done)


def bad_target(given: str) -> str:
    """Say how a target is given."""
    return _("--target {given} is no core temperature: give it with its unit, like 195F or 90C, up to 212F.").format(
        given=repr(given)
    )


# --- the report ------------------------------------------------------------------------------------------------------


def title(
    file: str, name: str, mass_kg: float | None, thickness_m: float | None, pit: tuple[float, float] | None,
    wrap: Wrap | None, unit: str,
) -> str:  # fmt: skip
    """Return the line above a table: file, cut, and what the log says of it."""
    parts = [name]
    if mass_kg is not None:
        parts.append(kilograms(mass_kg))
    if thickness_m is not None:
        parts.append(_("{thickness:g} cm thick").format(thickness=round(thickness_m * 100, 1)))
    if pit is None:
        parts.append(_("pit as read"))
    elif round(pit[0]) == round(pit[1]):
        parts.append(_("pit {temp}").format(temp=temp(pit[0], unit)))
    else:
        low = temp(pit[0], unit).split()[0]
        parts.append(_("pit {low} to {high}").format(low=low, high=temp(pit[1], unit)))
    return f"{file}: {', '.join([*parts, _WRAPS[wrap]()])}."


def legend(*, by_clock: bool) -> str:
    """Say what the columns are."""
    times = _("times of day") if by_clock else _("h:mm after meat on")
    return _(
        "10, 50, 90 %: the target is reached by then with that probability; {times}; - is beyond the horizon."
    ).format(times=times)


def columns(targets: Sequence[str]) -> list[list[str]]:
    """Return the two lines above a table of forecasts."""
    names = ["", "", *(cell for target in targets for cell in (target, "", ""))]
    return [names, [_("time"), _("core"), *([_("10 %"), _("50 %"), _("90 %")] * len(targets))]]


def table(rows: Sequence[Sequence[str]]) -> list[str]:
    """Return lines with the columns of `rows` below one another: the first to the left, the others to the right."""
    widths = [max(len(row[place]) for row in rows) for place in range(len(rows[0]))]
    return [
        "  ".join(
            cell.rjust(width) if place else cell.ljust(width)
            for place, (cell, width) in enumerate(zip(row, widths, strict=True))
        ).rstrip()
        for row in rows
    ]


def moment(minute: float | None, on_at: dt.datetime | None) -> str:
    """Return a time of the cook: the time of day when meat on is known, else h:mm after it."""
    if minute is None:
        return _LATER
    if on_at is None:
        hours, minutes = divmod(round(minute), 60)
        return f"{hours}:{minutes:02}"
    at = on_at + dt.timedelta(minutes=round(minute))
    days = (at.date() - on_at.date()).days
    return f"{at:%H:%M}" if days == 0 else _("{clock} day {day}").format(clock=f"{at:%H:%M}", day=days + 1)


def temp(temp_c: float, unit: str) -> str:
    """Return a temperature in the unit of a log, to a tenth when it has one."""
    value = round(f_from_c(temp_c) if unit == "F" else temp_c, 1)
    return in_unit(number(value), unit)


def reached(target: str, when: str, before: str | None, after: str) -> str:
    """Say when the log reached a target, between which readings."""
    if before is None:
        return _("{target} was reached at the first reading, {after}: nothing to score.").format(
            target=target, after=after
        )
    return _("{target} was reached about {when} (read {before} and {after}).").format(
        target=target, when=when, before=before, after=after
    )


def not_reached(target: str) -> str:
    """Say that a log has nothing to score a target by."""
    return _("{target} is not reached in this log: nothing to score.").format(target=target)


def score_columns() -> list[str]:
    """Return the names of the columns of a score."""
    return [_("as of"), _("time"), _("core"), _("said"), _("error"), _("80 %")]


def share_of_rise(percent: int) -> str:
    """Return the name of a stage: so much of the rise is done."""
    return _("{percent} % of the rise").format(percent=percent)


def passing(mark: str) -> str:
    """Return the name of a stage: the core first passes a mark."""
    return _("passing {mark}").format(mark=mark)


def error(minutes: float | None) -> str:
    """Return how far off a forecast was, plus is too late: in minutes, from an hour on as h:mm."""
    if minutes is None:
        return _LATER
    hours, rest = divmod(abs(round(minutes)), 60)
    if hours:
        return f"{'-' if minutes < 0 else '+'}{hours}:{rest:02}"
    return _("{minutes:+d} min").format(minutes=round(minutes))


def window(*, inside: bool) -> str:
    """Say whether the time lay between the 10 and the 90 % of the forecast."""
    return _("inside") if inside else _("outside")
