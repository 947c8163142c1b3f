"""The pit on the chart: what it should hold, what was read, when the lid was open, as values.

Nothing is placed and nothing is drawn here.
"""

from __future__ import annotations

import datetime as dt
import itertools

from bot.messages import chart as words
from bot.messages.figures import Voice
from bot.papers.chart_axes import levels, span_of
from bot.papers.chart_piece import Frame, dots_of
from bot.papers.chart_values import Band, ChartPerson, ChartPit
from scheduler.facts import Slot
from scheduler.planning.surroundings import openings_of
from scheduler.planning.views import PieceView
from scheduler.state import CookState

_FELT = "tender_test"
"""A step for which the lid is open although the forecast need not know it."""

_AIR_C = 8.0
"""So much is shown above and below the band at least [°C]."""


def pit_of(shown: tuple[PieceView, ...], frame: Frame, people: tuple[ChartPerson, ...], voice: Voice) -> ChartPit:
    """Return the pit of a cook: its bands, readings and openings between meat on and the last piece off."""
    state = shown[0].state
    bands = _bands(state, frame, _until(shown, frame))
    now = [band for band in bands if band.start <= voice.now] or list(bands)
    dots = dots_of(state.read(Slot.PIT, doubtful=True), frame, people)
    low_c, high_c = span_of(
        [
            *(band.low_c - _AIR_C for band in bands),
            *(band.high_c + _AIR_C for band in bands),
            *(dot.value_c for dot in dots),
            *((state.pit[-1].low_c, state.pit[-1].high_c) if not bands else ()),
        ]
    )
    newest = state.last(Slot.PIT)
    band = now[-1] if now else None
    lids = {one.at for view in shown for one in openings_of(view.state, view.outlook.on_at)}
    lids |= {done.at for view in shown for done in view.state.done.get(_FELT, ())}
    return ChartPit(
        words=words.pit(state.pit[-1].low_c, state.pit[-1].high_c, voice)
        if band is None
        else words.pit(band.low_c, band.high_c, voice),
        newest=words.readings(len(dots)) if frame.over else words.newest(newest if dots else None, voice),
        bands=bands,
        readings=dots,
        openings=tuple(sorted(at for at in lids if frame.shows(at))),
        levels=levels(low_c, high_c, voice, 3),
        low_c=low_c,
        high_c=high_c,
    )


def _until(shown: tuple[PieceView, ...], frame: Frame) -> dt.datetime:
    """Return until when the pit is wanted: the last piece comes off, as it did or is likely to."""
    offs = [view.state.at("pull") or view.outlook.pull.late or frame.end_at for view in shown]
    return min(max(offs), frame.end_at)


def _bands(state: CookState, frame: Frame, until: dt.datetime) -> tuple[Band, ...]:
    """Return each band that was or is wanted, from its instant to the next one's."""
    told = [*state.pit, *(band for band in state.pit_ahead if band.at > state.pit[-1].at)]
    ends = [band.at for band in told[1:]] + [until]
    found = []
    for band, end in itertools.zip_longest(told, ends):
        start = max(band.at, frame.begin_at)
        if start < min(end, until):
            found.append(Band(start=start, end=min(end, until), low_c=band.low_c, high_c=band.high_c))
    return tuple(found)
