"""Meat that is hotter at every reading, or as hot earlier, is never told to be done later.

The ensemble has a grain: the weights of a few hundred members move its median by up to a quarter of an hour either way.
What is held here is that the grain hardly grows into a move that people would be told. Left out are pieces at half the
usual pace: there are no members like them, which reading is distrusted can change with a few minutes, and with it the
pull by up to 41 min.
"""

from __future__ import annotations

import dataclasses
import datetime as dt

from hypothesis import given, settings
from hypothesis import strategies as st

from scheduler.facts import Body, Fact, Planned, Reading, Serving, ServingKind, Slot, StepDone, Wrap
from scheduler.planning.outlook import Window
from scheduler.planning.replanning import WORTH_TELLING
from tests.properties.play import again, rise_c

HOTTEST_C = 94.0
"""Readings stay below the end point, where the pull is a matter of the hand and no longer of the forecast."""

GRAIN = dt.timedelta(minutes=10)

ON_AT = dt.datetime(2026, 9, 12, 6, 0, tzinfo=dt.UTC)
WHEN_READY = Serving(kind=ServingKind.WHEN_READY, zone="Etc/UTC")


@dataclasses.dataclass(frozen=True, kw_only=True)
class Meat:
    """Readings of one piece: (hours after meat on, °C), in order."""

    cut: str
    wrap: Wrap | None
    points: tuple[tuple[float, float], ...]

    def pull(self, *, hotter_c: float = 0.0, earlier_h: float = 0.0) -> Window:
        """Return when it is expected to come off, were it hotter or earlier than it was read."""
        plan = Planned(cut=self.cut, serving=WHEN_READY, pit_low_c=121.0, pit_high_c=121.0, wrap=self.wrap)
        readings = [
            (hours - earlier_h, Reading(slot=Slot.CORE, value_c=value_c + hotter_c)) for hours, value_c in self.points
        ]
        seen_last = (self.points[-1][0], StepDone(step="spritz"))  # the same newest news for both
        told: list[tuple[float, Body]] = [(0.0, plan), (0.0, StepDone(step="meat_on")), *readings, seen_last]
        facts = tuple(
            Fact(
                id=f"f{n}", cook="c1", piece="p1", by="Ines", body=body,
                happened_at=ON_AT + dt.timedelta(hours=hours), recorded_at=ON_AT + dt.timedelta(hours=hours),
            )
            for n, (hours, body) in enumerate(told)
        )  # fmt: skip
        return again(facts).outlook.pull


@st.composite
def meats(draw: st.DrawFn) -> Meat:
    """Draw a piece that rises as meat does, slow or fast, read one to seven times."""
    pace = draw(st.sampled_from((0.7, 0.9, 1.1)))
    hours = draw(st.lists(st.integers(10, int(70 / pace)), min_size=1, max_size=7, unique=True))
    points = tuple(
        (hour / 10, min(HOTTEST_C, rise_c(hour / 10 * pace) + draw(st.integers(-4, 4)) / 4)) for hour in sorted(hours)
    )
    return Meat(
        cut=draw(st.sampled_from(("beef_chuck_ribs", "brisket_packer", "pork_butt"))),
        wrap=draw(st.sampled_from((None, Wrap.PAPER, Wrap.NONE))),
        points=points,
    )


def _not_later(faster: Window, slower: Window) -> None:
    if slower.likely is not None:
        assert faster.likely is not None
        assert faster.likely - slower.likely < WORTH_TELLING + GRAIN


@settings(max_examples=25)
@given(meat=meats(), hotter_c=st.sampled_from((0.5, 1.0, 2.0, 4.0)))
def test_hotter_at_every_reading_is_never_later(meat: Meat, hotter_c: float) -> None:
    """A few degrees more at every reading: the pull that is told moves to no later time, but for the grain."""
    cooler = max(value_c for _, value_c in meat.points) + hotter_c <= HOTTEST_C + 1
    hotter_c = hotter_c if cooler else 0.0
    _not_later(meat.pull(hotter_c=hotter_c), meat.pull())


@settings(max_examples=15)
@given(meat=meats(), earlier_min=st.integers(5, 40))
def test_as_hot_earlier_is_never_later(meat: Meat, earlier_min: int) -> None:
    """The same readings some minutes earlier: the pull that is told moves to no later time, but for the grain."""
    _not_later(meat.pull(earlier_h=earlier_min / 60), meat.pull())
