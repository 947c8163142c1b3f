"""Dinner for 8, 30 and 60 on every stage: from one sentence to the food put away, and what each person saw."""

from __future__ import annotations

import datetime as dt
import re

import pytest

from scheduler.state import Stage as Standing
from tests.fakes.stages import Stage
from tests.fakes.stages.dinners import DINNERS, Dinner, give

_LONGEST_MESSAGE, _LONGEST_LINE = 2000, 330
"""Letters that no message and no line of one may exceed: docs/explanation/voice.md."""


@pytest.mark.parametrize("dinner", DINNERS, ids=[f"for_{one.people}" for one in DINNERS])
def test_a_dinner_from_the_first_sentence_to_the_fridge(dinner: Dinner, stage: Stage) -> None:
    """The plan feeds everybody, the food goes out on time, nothing is unsafe, and it ends with the food put away;
    nobody is talked to death, the helper least.
    """
    give(dinner, stage)
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
