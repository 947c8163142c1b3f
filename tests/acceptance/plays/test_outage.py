"""An outage: the machine is off for two and a half hours in the middle of a cook, and people go on typing."""

from __future__ import annotations

import pytest

from scheduler.facts import Slot
from tests.fakes.kitchen import on
from tests.fakes.stages import Stage
from tests.fakes.stages.dinners import brisket_of_two

_MOST_LINES = 8


@pytest.fixture
def away(stage: Stage) -> Stage:
    """Return a stage on which the program was away from 13:10 to 15:40 while Ines and Tomas told what they did."""
    brisket_of_two(stage, "13:00")
    stage.says("Ines", "pit 250, meat 160")
    stage.now = on("13:40")
    stage.put("Tomas", "pit 262", group=False)
    stage.now = on("14:30")
    stage.put("Ines", "meat 166", group=False)
    stage.now = on("15:10")
    stage.put("Ines", "wrapped in paper", group=False)
    stage.away_until(on("15:40"))
    return stage


def test_everything_counts_at_the_time_it_was_sent(away: Stage) -> None:
    """Readings and the wrap are dated by their senders, not by the end of the outage."""
    state = away.situation.state
    pit, core = state.last(Slot.PIT), state.last(Slot.CORE)
    assert pit is not None
    assert core is not None
    assert (pit.at, core.at) == (on("13:40"), on("14:30"))
    assert [at for at, _wrap in state.wraps] == [on("15:10")]


def test_nobody_gets_a_flood(away: Stage) -> None:
    """Each gets one message about it, of eight lines at most; everybody finds their own number, if on the board."""
    for name, number in (("Ines", "166 F"), ("Tomas", "262 F")):
        texts = away.screen(name)
        (summary,) = [text for text in texts if "while I was away" in text] or [texts[-1]]
        assert summary == texts[-1]
        assert len(summary.split("\n")) <= _MOST_LINES
        assert number in away.all_seen(name)
        assert "15:10" in summary
