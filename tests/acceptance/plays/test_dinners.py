"""Dinner for 8, 30 and 60 on every stage: from one sentence to the food put away, and what each person saw."""

from __future__ import annotations

import dataclasses
import datetime as dt
import re

import pytest

from scheduler.state import Stage as Standing
from tests.fakes.kitchen import on
from tests.fakes.stages import Stage
from tests.fakes.stages.robot import Cook

_CHICKEN = ((0, 40), (30, 80), (60, 130), (90, 168), (150, 176))
_RIBS = ((0, 40), (60, 88), (120, 128), (180, 152), (240, 163), (300, 172), (360, 186), (420, 199), (480, 204))
_SHOULDER = (
    (0, 40), (120, 95), (240, 140), (330, 158), (420, 162), (500, 166), (560, 174), (640, 185), (720, 196), (780, 203),
    (900, 206),
)  # fmt: skip
"""(minutes since the meat went on, core in °F): invented."""

_LONGEST_MESSAGE, _LONGEST_LINE = 2000, 330
"""Letters that no message and no line of one may exceed: docs/explanation/voice.md."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Dinner:
    """One dinner of the allotment club: what Ines types, and how the meat behaves."""

    people: int
    begins: str
    text: str
    guests: str
    rise_f: tuple[tuple[float, float], ...]
    pit_f: float
    until: str
    public: bool = False


DINNERS = [
    Dinner(
        people=8, begins="12:00", text="2 chickens 1.8 kg each, dinner 18:00, 8 people, pit 350",
        guests="no guests at risk, no allergies, family", rise_f=_CHICKEN, pit_f=350, until="22:00",
    ),
    Dinner(
        people=30, begins="06:00", text="12 racks of spareribs, dinner 18:00, 30 people, pit 250",
        guests="no guests at risk, no allergies, a club", rise_f=_RIBS, pit_f=250, until="22:00",
    ),
    Dinner(
        people=60, begins="00:30", text="8 pork shoulders 4 kg each, dinner 19:00, 60 people, pit 250, public meal",
        guests="no guests at risk, no allergies", rise_f=_SHOULDER, pit_f=250, until="23:30", public=True,
    ),
]  # fmt: skip


@pytest.mark.parametrize("dinner", DINNERS, ids=[f"for_{one.people}" for one in DINNERS])
def test_a_dinner_from_the_first_sentence_to_the_fridge(dinner: Dinner, stage: Stage) -> None:
    """The plan feeds everybody, the food goes out on time, nothing is unsafe, and it ends with the food put away;
    nobody is talked to death, the helper least.
    """
    stage.now = on(dinner.begins)
    stage.comes("Ines")
    stage.comes("Wren", "helper")
    stage.says("Ines", dinner.text)
    stage.says("Ines", dinner.guests)
    Cook(stage, "Ines", dinner.rise_f, dinner.pit_f).cook_until(on(dinner.until))
    _fed(dinner, stage)
    _bearable(stage)


def _fed(dinner: Dinner, stage: Stage) -> None:
    seen = stage.all_seen("Ines")
    assert f"enough for {dinner.people}" in seen
    state = stage.situation.state
    served, wanted = state.at("serve"), state.serving.starts_at()
    assert served is not None
    assert wanted is not None
    assert abs(served - wanted) <= dt.timedelta(minutes=15)
    assert "Food out. Enjoy it." in seen
    assert "Stop: " not in seen
    assert stage.situation.stage in {Standing.AFTER, Standing.CLOSED}
    assert ('"record"' in seen) == dinner.public


def _bearable(stage: Stage) -> None:
    """No message is a page, no line a paragraph; the helper's screen holds less than that of who leads."""
    for name in ("Ines", "Wren"):
        for text in stage.screen(name):
            assert len(text) <= _LONGEST_MESSAGE, text
            assert max(map(len, text.split("\n"))) <= _LONGEST_LINE, text
            assert not re.search(r"!!|\{\w*\}", text), text
    assert len(stage.screen("Wren")) < len(stage.screen("Ines"))
