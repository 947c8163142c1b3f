"""What the forecast is asked about a piece, from what its log says; and the words for its answers.

Pure; nothing is planned here.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
import functools
import math

from scheduler.cuts import Cut
from scheduler.facts import Slot
from scheduler.forecast import (
    Air,
    Crossing,
    Forecast,
    Observation,
    Opening,
    OpeningEvent,
    PitEvent,
    Question,
    WrapEvent,
    forecast,
)  # fmt: skip
from scheduler.planning.surroundings import air_of, openings_of, start_of
from scheduler.state import CookState, ReadingAt

HORIZON = dt.timedelta(hours=30)
"""What lies beyond the horizon of the forecast is taken as so long after meat on."""

DICE = "c1"
"""The dice of every plan, those of the tables in docs: until meat is on the same words give the same plan in a chat,
on the command line and in a rehearsal. From then on a cook has its own."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Window:
    """An instant with its doubt: one in ten comes before `early`, one in ten after `late` (None: beyond the
    horizon).
    """

    early: dt.datetime | None
    likely: dt.datetime | None
    late: dt.datetime | None

    def plus(self, span: dt.timedelta) -> Window:
        """Return the window moved by a span."""
        early, likely, late = (None if t is None else t + span for t in (self.early, self.likely, self.late))
        return Window(early=early, likely=likely, late=late)

    def not_before(self, at: dt.datetime | None) -> Window:
        """Return the window with nothing in it before an instant; None changes nothing."""
        if at is None:
            return self
        early, likely, late = (None if t is None else max(t, at) for t in (self.early, self.likely, self.late))
        return Window(early=early, likely=likely, late=late)


def window_of(crossing: Crossing) -> Window:
    """Return the window of something that is forecast."""
    return Window(early=crossing.quantile(0.1), likely=crossing.quantile(0.5), late=crossing.quantile(0.9))


@functools.lru_cache(maxsize=64)
def known(question: Question) -> Forecast:
    """Return the forecast for a question; one decision asks the same question several times."""
    return forecast(question)


def question_of(state: CookState, cut: Cut, on_at: dt.datetime) -> Question:
    """Return what the forecast may know of the piece."""
    planned = state.planned
    wraps = tuple(WrapEvent(at=at, wrap=body.wrap) for at, body in state.wraps if at >= on_at)
    intended = planned.wrap if planned.wrap is not None or cut.asks_bark else cut.usual_wrap
    decided = wraps[-1].wrap if wraps else intended
    pulled_at = state.at("pull")
    start = start_of(state, on_at)
    whole = Question(
        cook=DICE if state.at("meat_on") is None else state.cook,
        piece=state.piece,
        cut=cut,
        mass_kg=planned.mass_kg,
        thickness_m=planned.thickness_m,
        on_at=on_at,
        pit=tuple(
            PitEvent(at=band.at, low_c=band.low_c, high_c=band.high_c) for band in (*state.pit, *state.pit_ahead)
        ),
        readings=_observations(state, Slot.CORE, on_at, pulled_at, but=start),
        pit_readings=_observations(state, Slot.PIT, on_at, pulled_at),
        wraps=wraps,
        wrap_plan=decided,
        openings=openings_of(state, on_at),
        air=air_of(state),
        start_c=None if start is None else start.value_c,
    )
    parted = in_parts(whole, math.prod(parts for _at, parts in state.divided))
    return parted if state.oven is None else indoors(parted, state.oven[0])


def in_parts(question: Question, parts: int) -> Question:
    """Return the question about meat cut into so many even parts: each weighs its share, lengths go by the cube root.

    The readings stay: they say how hot the middle is, and the smaller body how fast heat reaches it from now on.
    """
    if parts == 1:
        return question
    thickness_m = question.thickness_m
    if thickness_m is not None and not question.cut.bone_plate:
        thickness_m *= parts ** (-1.0 / 3.0)
    mass_kg = (question.mass_kg or question.cut.mass_kg.typical) / parts
    return dataclasses.replace(question, mass_kg=mass_kg, thickness_m=thickness_m)


def indoors(question: Question, since: dt.datetime) -> Question:
    """Return the question about meat that cooks on in an oven: no weather, and the door was open once.

    The oven's temperature is a set point like any other and stands among those of the pit.
    """
    opened = OpeningEvent(at=since, kind=Opening.LID)
    return dataclasses.replace(question, air=Air(), openings=(*question.openings, opened))


def _observations(
    state: CookState, slot: Slot, on_at: dt.datetime, until: dt.datetime | None, *, but: ReadingAt | None = None
) -> tuple[Observation, ...]:
    """Return the readings the model may use: undoubted, on the fire, `but` for the one that says how it began.

    Of meat that was off the heat and went back on, those of that time are not among them: the model heats on as if the
    lid had been open, and the next reading says where the core is.
    """
    return tuple(
        Observation(at=r.at, value_c=r.value_c, spread_c=r.spread_c)
        for r in state.read(slot)
        if r is not but
        and r.at >= on_at
        and (until is None or r.at <= until)
        and not any(off.pulled_at < r.at <= off.back_at for off in state.off_spells if slot is Slot.CORE)
    )
