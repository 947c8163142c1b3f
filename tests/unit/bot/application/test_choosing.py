"""The ways to do it that are offered with a new plan, and what choosing one changes."""

from __future__ import annotations

import datetime as dt

from scheduler.facts import PitMoved, Planned, Wrap
from tests.fakes.kitchen import Heard, PlayedKitchen, on
from tests.unit.bot.application.conftest import RIBS


def _brisket(kitchen: PlayedKitchen) -> Heard:
    kitchen.now = on("12:00") - dt.timedelta(days=1)
    return kitchen.say("Ines", "brisket 6 kg, dinner tomorrow 18:00, pit 250")


def test_the_plan_offers_its_other_ways(kitchen: PlayedKitchen) -> None:
    """Each with its start, its chance, and how long somebody is awake; the asked one has no button, for it stands."""
    plan = _brisket(kitchen)
    rows = [line for line in plan.lines if line.startswith("- ")]
    assert 2 <= len(rows) <= 3
    assert rows[0].startswith("- 250 F: light ")
    assert all("late 1" in row and "awake" in row for row in rows)
    ways = [label for label in plan.labels if label.startswith("Light ")]
    assert ways == list(plan.labels[1 : 1 + len(ways)])
    assert len(ways) == len(rows) - 1
    assert plan.last.startswith("Next: ")


def test_choosing_one_becomes_a_fact_and_the_plan_follows(kitchen: PlayedKitchen) -> None:
    """The hotter way: its pit stands in the log, and the fire is lit when the button said."""
    label = next(label for label in _brisket(kitchen).labels if label.endswith("300 F"))
    answer = kitchen.tap("Ines", label)
    assert answer.text.startswith("Whole brisket, 6 kg, pit 300 F, ")
    assert label.split(",")[0].removeprefix("Light ") in answer.text
    state = kitchen.situation.state
    assert round(state.pit_c * 1.8 + 32) == 300
    assert state.planned.mass_kg == 6.0


def test_choosing_a_wrap_decides_it(kitchen: PlayedKitchen) -> None:
    """In foil: the wrap is planned, the pit is as it was, and nothing is wrapped yet."""
    label = next(label for label in _brisket(kitchen).labels if label.endswith("in foil"))
    kitchen.tap("Ines", label)
    state = kitchen.situation.state
    assert (state.planned.wrap, round(state.pit_c * 1.8 + 32), state.wraps) == (Wrap.FOIL, 250, ())


def test_a_pit_that_was_moved_in_between_is_moved_again(kitchen: PlayedKitchen) -> None:
    """Chosen after "pit 275": the way that was chosen counts, not the pit said before it."""
    label = next(label for label in _brisket(kitchen).labels if label.endswith("300 F"))
    kitchen.say("Ines", "pit 275")
    kitchen.tap("Ines", label)
    assert round(kitchen.situation.state.pit_c * 1.8 + 32) == 300
    assert [f.body for f in kitchen.cook.facts if isinstance(f.body, Planned | PitMoved)][-1] is not None


def test_an_offer_is_void_once_the_meat_is_on(kitchen: PlayedKitchen) -> None:
    """On the fire the plan is no longer chosen; what can be done instead is said."""
    kitchen.now = on("06:00")
    plan = kitchen.say("Ines", RIBS)
    label = next(label for label in plan.labels if label.startswith("Light "))
    for text in ("lit", "meat is on"):
        kitchen.later(60)
        kitchen.say("Ines", text)
    before = kitchen.situation.state.pit_c
    answer = kitchen.tap("Ines", label)
    assert "on already" in answer.text or "older question" in answer.text
    assert kitchen.situation.state.pit_c == before
