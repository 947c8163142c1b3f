"""Tells three performances of one plan: the usual piece whole, the other two where they differ, then side by side.

It prints nothing; lines are put through a function. All its words come from `bot.messages`.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterator
from zoneinfo import ZoneInfo

from bot.messages import rehearsed
from bot.messages.figures import Voice, span
from bot.messages.language import weekday
from bot.messages.naming import piece_name
from bot.rehearsal.own.meat import Pace
from bot.rehearsal.own.performance import Performance, Said, Shown
from bot.transport.terminal.layout import wrap
from scheduler.planning.views import PieceView

WIDTH = 96
_STAMP = 11
_NAME = 34
_COLUMN = 16
_NIGHT_FROM, _NIGHT_TO = 22, 7

Put = Callable[[str], None]


def tell(performances: tuple[Performance, ...], put: Put, *, whole: bool = False) -> None:
    """Tell them in the order given; with `whole` every message of every piece."""
    for performance in performances:
        put("")
        put(rehearsed.heading(performance.pace.value))
        full = whole or performance.pace is Pace.USUAL
        if not full:
            put(rehearsed.only_differences())
        for line in _story(performance, whole=full):
            put(line)
        if not performance.finished:
            put(rehearsed.unfinished())
    put("")
    for line in side_by_side(tuple(sorted(performances, key=lambda one: list(Pace).index(one.pace)))):
        put(line)


def _story(performance: Performance, *, whole: bool) -> Iterator[str]:
    zone = performance.after.state.serving.zone
    for entry in performance.told:
        local = entry.at.astimezone(ZoneInfo(zone))
        stamp = f"{weekday(local)} {local:%H:%M}"
        if isinstance(entry, Said):
            if whole:
                yield f"{'':<{_STAMP}}> {entry.text}"
            continue
        if whole and entry.own:
            yield from _set(stamp, _body(entry))
        else:
            found = [line for line in _body(entry) if any(words in line for words in rehearsed.told_of_each())]
            if found:
                yield from _set(stamp, found)


def _body(entry: Shown) -> list[str]:
    """Return a message without its last line about the next one."""
    return [line for line in entry.text.split("\n") if line and not line.startswith("Next: ")]


def _set(stamp: str, lines: list[str]) -> Iterator[str]:
    for number, line in enumerate(lines):
        for part, text in enumerate(wrap(line, WIDTH - _STAMP)):
            yield f"{stamp if number == part == 0 else '':<{_STAMP}}{text}"


def side_by_side(performances: tuple[Performance, ...]) -> list[str]:
    """Return the comparison: one row for each milestone of each piece, one column for each pace."""
    heads = [rehearsed.column(performance.pace.value) for performance in performances]
    columns = [_figures(performance) for performance in performances]
    names = list(dict.fromkeys(name for column in columns for name in column))
    table = [f"{'':<{_NAME}}" + "".join(f"{head:>{_COLUMN}}" for head in heads)]
    for name in names:
        values = [column.get(name, rehearsed.never()) for column in columns]
        table.append(f"{name:<{_NAME}}" + "".join(f"{value:>{_COLUMN}}" for value in values))
    return [line.rstrip() for line in table]


def _figures(performance: Performance) -> dict[str, str]:
    """Return the rows of one performance by name, in order: each piece's own, dinner by its worst."""
    situation = performance.after
    zone, unit = situation.state.serving.zone, situation.state.planned.unit
    # Told from some days before, so that every time carries its weekday.
    far = Voice(zone=zone, unit=unit, now=performance.told[-1].at - dt.timedelta(days=3))
    found: dict[str, str] = {}
    lit_at = situation.state.at("light")
    if lit_at is not None:
        found[rehearsed.row("light")] = far.clock(lit_at)
    late: list[dt.timedelta] = []
    for view in situation.views:
        name = piece_name(view) if situation.several else ""
        found |= {rehearsed.row(key, name): value for key, value in _of_piece(view, far).items()}
        served_at, dinner_at = view.state.at("serve"), view.state.serving.ends_at()
        if served_at is not None and dinner_at is not None:
            late.append(served_at - dinner_at)
    if late:
        found[rehearsed.row("dinner")] = rehearsed.late_by(max(late))
    own = [entry for entry in performance.told if isinstance(entry, Shown) and entry.own]
    found[rehearsed.row("messages")] = rehearsed.count(len(own))
    found[rehearsed.row("night")] = rehearsed.count(sum(_at_night(entry.at, zone) for entry in own))
    return found


def _of_piece(view: PieceView, far: Voice) -> dict[str, str]:
    state = view.state
    found = {
        key: far.clock(at)
        for key, step in {"on": "meat_on", "pull": "pull"}.items()
        if (at := state.at(step)) is not None
    }
    if state.wraps:
        found["wrap"] = far.clock(state.wraps[-1][0])
    pulled_at, served_at = state.at("pull"), state.at("serve")
    if pulled_at is not None and served_at is not None:
        found["rest"] = span(served_at - pulled_at)
    if served_at is not None:
        found["table"] = far.clock(served_at)
    return {key: found[key] for key in ("on", "wrap", "pull", "rest", "table") if key in found}


def _at_night(at: dt.datetime, zone: str) -> bool:
    hour = at.astimezone(ZoneInfo(zone)).hour
    return hour >= _NIGHT_FROM or hour < _NIGHT_TO
