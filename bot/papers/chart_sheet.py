"""The chart of one cook as values, made from its situation, its log and an instant.

Nothing is placed and nothing is drawn here; the words come from `bot.messages.chart`.
"""

from __future__ import annotations

import dataclasses
import datetime as dt

from bot.messages import chart as words
from bot.messages.dinner import unsafe_line
from bot.messages.figures import Voice, to_five
from bot.messages.language import capital
from bot.messages.naming import piece_name
from bot.papers.chart_axes import ticks
from bot.papers.chart_people import people_of
from bot.papers.chart_piece import Frame, piece_of
from bot.papers.chart_pit import pit_of
from bot.papers.chart_type import printable
from bot.papers.chart_values import ChartPiece, ChartSheet, Deed, Tone
from scheduler.cook import Situation, assess
from scheduler.facts import Fact, Slot
from scheduler.planning.outlook import Verdict
from scheduler.planning.views import PieceView
from scheduler.state import Stage

MOST_PIECES = 5
"""Pieces that fit on a phone held upright; more are named in words."""

MOST_WHOLE, WHOLE_OF_MANY = 3, 2
"""So many pieces are all drawn whole; of more than that so many, and of the others the dinner line alone."""

_LEAD_IN = 0.02
"""Share of the span that is left free before meat on, for its mark."""

_AT_LEAST = dt.timedelta(hours=1)
_FINE = dt.timedelta(hours=5)
"""A shorter chart is marked in parts of an hour, too."""

_AT_MOST_AFTER = dt.timedelta(hours=6)
"""So much after dinner is drawn at most: house rule."""

_TONES = {
    Verdict.ON_TIME: Tone.GOOD,
    Verdict.USUAL: Tone.GOOD,
    Verdict.CLOSE: Tone.UNSURE,
    Verdict.EARLY: Tone.UNSURE,
    Verdict.LATE: Tone.BAD,
    Verdict.OPEN: Tone.PLAIN,
}


def chart_sheet_of(situation: Situation, log: tuple[Fact, ...], voice: Voice, *, dark: bool = False) -> ChartSheet:
    """Return the chart of a cook as of `voice.now`; `log` is its whole log, for the forecast made at meat on."""
    over = situation.ended or situation.state.stage is Stage.CLOSED
    shown, left_out = _shown(situation)
    expected = {view.piece: _at_meat_on(view, situation, log) if over else None for view in shown}
    frame = _frame(shown, voice, over=over)
    people = people_of(_names(shown))
    whole = _whole(shown, situation.deciding.focus)
    several = len(shown) > 1
    pieces = tuple(
        piece_of(view, expected[view.piece], frame, people, voice, several=several, whole=view.piece in whole)
        for view in shown
    )
    pit = pit_of(shown, frame, people, voice)
    fixed = any(view.outlook.serve_at is not None for view in shown)
    inside = not over and frame.begin_at <= voice.now <= frame.end_at
    made = ChartSheet(
        title=words.title(situation, voice),
        tone=_tone(situation, voice, over=over),
        notes=_notes(situation, shown, expected, left_out, voice),
        begin_at=frame.begin_at,
        end_at=frame.end_at,
        dinner_at=frame.dinner_at,
        dinner_until=max(frame.dinner_at, *(piece.dinner_until for piece in pieces)),
        dinner=words.dinner_tag(frame.dinner_at, voice) if fixed else words.ready_tag(frame.dinner_at, voice),
        now_at=voice.now if inside else None,
        now=words.now_tag(voice),
        ticks=ticks(frame.begin_at, frame.end_at, frame.dinner_at, voice.zone),
        axis=words.axis(fixed=fixed, fine=frame.end_at - frame.begin_at < _FINE),
        people=people,
        pieces=pieces,
        pit=pit,
        legend=(),
        over=over,
        dark=dark,
    )
    return _with_legend(made)


def _shown(situation: Situation) -> tuple[tuple[PieceView, ...], tuple[PieceView, ...]]:
    """Return the pieces that have a panel, and those that have none: the one that decides has one."""
    first = situation.deciding.focus
    order = sorted(situation.views, key=lambda view: (view.piece != first, not view.to_come))
    chosen = order[:MOST_PIECES]
    return tuple(v for v in situation.views if v in chosen), tuple(v for v in situation.views if v not in chosen)


def _whole(shown: tuple[PieceView, ...], first: str | None) -> frozenset[str]:
    """Return the pieces that are drawn with their core: the one that decides, then those on the fire."""
    order = sorted(shown, key=lambda view: (view.piece != first, view.state.stage is not Stage.COOKING))
    return frozenset(view.piece for view in (order if len(shown) <= MOST_WHOLE else order[:WHOLE_OF_MANY]))


def _at_meat_on(view: PieceView, situation: Situation, log: tuple[Fact, ...]) -> PieceView | None:
    """Return the piece as it was forecast when it went on, None where the log does not say."""
    on = view.state.did("meat_on")
    place = next((n for n, fact in enumerate(log) if on is not None and fact.id == on.fact), None)
    if place is None:
        return None
    then = assess(log[: place + 1], situation.catalogue)
    return next((one for one in then.views if one.piece == view.piece), None)


def _frame(shown: tuple[PieceView, ...], voice: Voice, *, over: bool) -> Frame:
    """Return from when to when is drawn: from the first meat on to dinner, beyond it as far as meat is late."""
    dinners = [at for view in shown if (at := dinner_of(view)) is not None]
    ons = [view.outlook.on_at for view in shown]
    dinner_at = max(dinners, default=max(ons) + _AT_LEAST)
    ends = [dinner_at]
    for view in shown:
        outlook, pulled_at = view.outlook, view.state.at("pull")
        served_at = view.state.at("serve") or (None if pulled_at or over else outlook.plate.likely)
        ready_at = pulled_at or outlook.pull.late or dinner_at + _AT_MOST_AFTER
        ends += [at for at in (served_at, ready_at, outlook.serve_end) if at is not None]
    end_at = min(max(ends), dinner_at + _AT_MOST_AFTER)
    if not over and voice.now > end_at:
        end_at = max(end_at, min(voice.now, dinner_at + 2 * _AT_MOST_AFTER))
    begin_at = min(*ons, dinner_at - _AT_LEAST)
    begin_at -= _LEAD_IN * (end_at - begin_at)
    return Frame(begin_at=begin_at, end_at=end_at, dinner_at=dinner_at, over=over)


def dinner_of(view: PieceView) -> dt.datetime | None:
    """Return when a piece is wanted on the table, or can be where no time was fixed."""
    if view.outlook.serve_at is not None:
        return view.outlook.serve_at
    free = view.state.at("serve") or view.outlook.plate_at
    return None if free is None else to_five(free)


def _names(shown: tuple[PieceView, ...]) -> list[str]:
    """Return who read the core or the pit, in the order of the readings."""
    found = [
        (reading.at, reading.by)
        for view in shown
        for slot in (Slot.CORE, Slot.PIT)
        for reading in view.state.read(slot, doubtful=True)
        if reading.by is not None
    ]
    return [name for _at, name in sorted(found)]


def _tone(situation: Situation, voice: Voice, *, over: bool) -> Tone:
    if words.stop_title(situation, voice) or unsafe_line(situation.deciding, voice):
        return Tone.BAD
    served_late = words.served_late(situation)
    careful = bool(words.cautions(situation, voice))
    if served_late is not None:
        return Tone.BAD if served_late else Tone.UNSURE if careful else Tone.GOOD
    if over or situation.state.stage in {Stage.AFTER, Stage.GONE}:
        return Tone.UNSURE if careful else Tone.PLAIN
    tone = _TONES[situation.deciding.outlook.verdict]
    return Tone.UNSURE if careful and tone in {Tone.GOOD, Tone.PLAIN} else tone


def _notes(
    situation: Situation,
    shown: tuple[PieceView, ...],
    expected: dict[str, PieceView | None],
    left_out: tuple[PieceView, ...],
    voice: Voice,
) -> tuple[str, ...]:
    """Return what stands under the title: a stop or caution, the forecast as it was, what is next, what is left out."""
    warned = words.warnings(situation, voice)[:1]
    found: list[str] = []
    if len(shown) == 1:
        (view,) = shown
        before, pulled_at = expected[view.piece], view.state.at("pull")
        if before is not None and pulled_at is not None:
            found.append(words.foretold(before.outlook.pull, pulled_at, voice))
    if not found:
        found.append(words.action(situation, voice))
    if left_out:
        found.append(words.more_pieces(tuple(piece_name(view) for view in left_out)))
    return (*warned, *(text for text in found if text))


def _with_legend(sheet: ChartSheet) -> ChartSheet:
    """Return the chart with what each of its shapes means, and with letters that the font has."""
    said = words.legend()
    deeds = {event.deed for piece in sheet.pieces for event in piece.events}
    used = {
        "foretold": sheet.over and any(piece.fan for piece in sheet.pieces),
        "fan": not sheet.over and any(piece.fan for piece in sheet.pieces),
        "window": any(piece.window is not None for piece in sheet.pieces),
        "rest": any(piece.off_by is not None and piece.pulled_at is None for piece in sheet.pieces),
        "rested": all(piece.pulled_at is not None for piece in sheet.pieces),
        "meat_on": Deed.MEAT_ON in deeds,
        "wrap": Deed.WRAP in deeds,
        "pull": Deed.PULL in deeds,
        "lid": bool(sheet.pit.openings),
        "pit": bool(sheet.pit.bands),
        "doubtful": any(dot.doubtful for piece in sheet.pieces for dot in piece.readings),
        "late": sheet.runs_on,
    }
    legend = tuple((name, said[name]) for name, there in used.items() if there)
    return _printable(sheet, legend)


def _printable(sheet: ChartSheet, legend: tuple[tuple[str, str], ...]) -> ChartSheet:
    def of(piece: ChartPiece) -> ChartPiece:
        return dataclasses.replace(piece, name=printable(capital(piece.name)))

    return dataclasses.replace(
        sheet,
        title=printable(sheet.title),
        notes=tuple(printable(note) for note in sheet.notes),
        people=tuple(dataclasses.replace(person, name=printable(person.name)) for person in sheet.people),
        pieces=tuple(of(piece) for piece in sheet.pieces),
        legend=legend,
    )
