"""How cooks are begun and what their crews do, drawn by Hypothesis: mostly sensible, sometimes not."""

from __future__ import annotations

import dataclasses
import datetime as dt
from zoneinfo import ZoneInfo

from hypothesis import strategies as st

from scheduler.facts import Feel, PieceAdded, Serving, ServingKind, Slot, Wrap
from tests.properties.actions import (
    Action,
    Amend,
    Answer,
    Away,
    Do,
    Later,
    MoveDinner,
    MovePit,
    PutOn,
    Read,
    Skip,
    Start,
    Touch,
    Undo,
    Wait,
    Work,
)  # fmt: skip
from tests.properties.play import CATALOGUE

STEPS = tuple(step.id for step in CATALOGUE.steps.steps)
MILESTONES = ("light", "meat_on", "pull", "box_meat", "slice", "serve")

DAYS = (
    dt.datetime(2026, 9, 12, tzinfo=dt.UTC),
    dt.datetime(2026, 10, 24, tzinfo=dt.UTC),  # the clocks go back in London in the night that follows
    dt.datetime(2026, 3, 28, tzinfo=dt.UTC),  # and forward in this one
)


@st.composite
def starts(draw: st.DrawFn, *, middle: bool = False) -> Start:
    """Draw how a cook is begun: at any hour of some days, with a plan or in the middle."""
    return Start(
        at=draw(st.sampled_from(DAYS)) + dt.timedelta(minutes=draw(st.integers(0, 24 * 60 - 1))),
        cut=draw(st.sampled_from(tuple(cut.id for cut in CATALOGUE.cuts.cuts))),
        dinner_min=draw(st.sampled_from((None, 600, 720, 900, 1500))),
        window_min=draw(st.sampled_from((0, 60))),
        zone=draw(st.sampled_from(("Europe/London", "America/Chicago", "Asia/Tokyo"))),
        pit_c=draw(st.sampled_from((121.0, 135.0, 149.0))),
        wrap=draw(st.sampled_from((None, Wrap.PAPER, Wrap.NONE))),
        on_ago_min=draw(st.integers(0, 700)) if middle else None,
        core_c=draw(st.sampled_from((None, 50.0, 74.0, 90.0))),
        pace=draw(st.sampled_from((0.6, 1.0, 1.3))),
    )


@st.composite
def several(draw: st.DrawFn, pieces: int) -> Start:
    """Draw a cook of so many pieces for one dinner, or for a later one of its own."""
    first = draw(starts())
    first = dataclasses.replace(first, dinner_min=draw(st.sampled_from((None, 720, 900, 1500))), window_min=0)
    others = []
    for _ in range(pieces - 1):
        pit_c = draw(st.sampled_from((None, None, 149.0)))
        serving = None
        if first.dinner_min is not None and draw(st.booleans()):
            start = first.at.astimezone(ZoneInfo(first.zone)).replace(tzinfo=None)
            later = first.dinner_min + draw(st.sampled_from((60, 120)))
            serving = Serving(kind=ServingKind.AT, zone=first.zone, start=start + dt.timedelta(minutes=later))
        cut = draw(st.sampled_from(tuple(cut.id for cut in CATALOGUE.cuts.cuts)))
        others.append(PieceAdded(cut=cut, pit_low_c=pit_c, pit_high_c=pit_c, serving=serving))
    return dataclasses.replace(first, others=tuple(others))


ANSWERS = st.builds(Answer, choice=st.integers(0, 5))
WAITS = st.builds(Wait, minutes=st.sampled_from((5, 20, 60, 120, 240)))
WORKS = st.builds(Work, minutes=st.sampled_from((60, 240, 600, 1500, 4500)))
REPORTS = st.builds(
    Do,
    step=st.sampled_from(MILESTONES * 4 + STEPS),
    choice=st.integers(0, 4),
    ago_min=st.sampled_from((0, 0, 10, 60, -3, -10)),
    dated=st.booleans(),
)
READINGS = st.builds(
    Read,
    slot=st.sampled_from((Slot.CORE, Slot.CORE, Slot.PIT)),
    off_c=st.sampled_from((0.0, 0.0, 1.0, -15.0, 20.0)),
    ago_min=st.sampled_from((0, 0, 30, 120)),
    spread_c=st.sampled_from((0.0, 2.0)),
    spot=st.sampled_from((None, None, "flat", "point")),
    sure=st.booleans(),
)
CHANGES_OF_MIND = st.one_of(
    st.builds(Undo, who=st.integers(0, 1)),
    st.builds(
        Amend,
        which=st.integers(0, 20),
        off_c=st.sampled_from((-3.0, 1.0, 5.0)),
        ago_min=st.sampled_from((None, None, 10, 60, 200)),
    ),
    st.builds(MoveDinner, minutes=st.sampled_from((None, 30, 180, 400, 700))),
    st.builds(MovePit, pit_c=st.sampled_from((107.0, 121.0, 150.0))),
)
TURNS = st.one_of(
    st.builds(Skip, step=st.sampled_from(STEPS)),
    st.builds(Later, minutes=st.sampled_from((5, 20, 120))),
    st.builds(PutOn, wrap=st.sampled_from(Wrap)),
    st.builds(Touch, feel=st.sampled_from(Feel)),
    st.builds(Away, minutes=st.sampled_from((45, 240, 900, 3000))),
)
ACTIONS: st.SearchStrategy[Action] = st.one_of(
    WORKS, WORKS, ANSWERS, ANSWERS, WAITS, REPORTS, READINGS, CHANGES_OF_MIND, TURNS
)


@st.composite
def crews(draw: st.DrawFn, most: int = 20) -> tuple[Action, ...]:
    """Draw what a crew does in one cook: often it works well for a while first."""
    first = draw(st.sampled_from(((), (Work(minutes=240),), (Work(minutes=720),), (Work(minutes=1500),))))
    return (*first, *draw(st.lists(ACTIONS, min_size=6, max_size=most)))
