"""Numbers as buttons: none reaches over a limit of food safety, none is marked, and most answers are among seven."""

from __future__ import annotations

import datetime as dt
import functools
import itertools
from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.backtest.replay import on_the_fire, question
from bot.messages.number_buttons import NUMBERS, spans_around
from scheduler.forecast import forecast
from scheduler.safety.limits import LIMITS
from scheduler.units import f_from_c
from tests.fakes.kitchen import PlayedKitchen, on
from tests.skill.cooks import all_cooks, read

LIMITS_F = sorted({figure.value for limit in LIMITS for figure in limit.figures if figure.unit == "F"})
STEPS = {"F": 5.0, "C": 2.0}
EVERY = 16
"""One cook in so many of the virtual kitchen, so that the test is short; all of them give the same shares."""


@given(expected=st.floats(-5, 320), limits=st.lists(st.sampled_from(LIMITS_F), max_size=3, unique=True))
def test_no_button_reaches_over_a_limit(expected: float, limits: list[float]) -> None:
    """Whatever is expected and whatever limits count: a limit lies at an edge or outside of every span."""
    for step, in_unit in ((5.0, limits), (2.0, [round((value - 32) / 1.8, 1) for value in limits])):
        spans = spans_around(expected, step, tuple(in_unit))
        assert not [span for span in spans for limit in in_unit if span.low < limit < span.high]


@given(expected=st.floats(-5, 320), limits=st.lists(st.sampled_from(LIMITS_F), max_size=3, unique=True))
def test_at_most_seven_in_rising_order_without_a_gap(expected: float, limits: list[float]) -> None:
    """Seven spans that touch one another, and what is expected lies among them."""
    spans = spans_around(expected, 5.0, tuple(limits))
    assert len(spans) == NUMBERS
    assert all(one.high == pytest.approx(other.low) for one, other in itertools.pairwise(spans))
    assert spans[0].low <= expected <= spans[-1].high


def test_a_plain_button_is_a_round_number() -> None:
    """Where no limit lies among them each says its middle: a multiple of the step."""
    assert [span.shown for span in spans_around(163.2, 5.0, (145.0,))] == [150, 155, 160, 165, 170, 175, 180]
    assert [span.shown for span in spans_around(83.9, 2.0, ())] == [78, 80, 82, 84, 86, 88, 90]


def test_near_the_minimum_each_says_its_span() -> None:
    """The limit is an edge: 145 F in Fahrenheit, 62.8 C in Celsius."""
    edges = [(span.low, span.high) for span in spans_around(147.0, 5.0, (145.0,))]
    assert edges == [(130, 135), (135, 140), (140, 145), (145, 150), (150, 155), (155, 160), (160, 165)]
    assert all(span.shown is None for span in spans_around(147.0, 5.0, (145.0,)))
    celsius = [(span.low, span.high) for span in spans_around(63.0, 2.0, (62.8,))]
    assert (60, 62.8) in celsius
    assert (62.8, 64) in celsius


@functools.cache
def _cores() -> tuple[tuple[float, float, bool], ...]:
    """Return (core as typed, core as foreseen before it [°F], whether it was the first) of cooks nobody has seen."""
    found: list[tuple[float, float, bool]] = []
    for cook in all_cooks()[::EVERY]:
        rows, slipped = on_the_fire(read(cook)), {row.minute for row in cook.rows if row.slip}
        seen = 0
        for place, row in enumerate(rows):
            if row.core_c is None:
                continue
            if row.minute > 0 and row.minute not in slipped:
                asked = question(read(cook), cook.cut, rows[:place])
                at = asked.on_at + dt.timedelta(minutes=row.minute)
                found.append((f_from_c(row.core_c), f_from_c(forecast(asked).core_c(at)), seen == 0))
            seen += 1
    return tuple(found)


@pytest.mark.parametrize("unit", ["F", "C"])
def test_nine_cores_in_ten_are_among_the_seven(unit: str) -> None:
    """In the cooks of the virtual kitchen, each reading against the buttons that were offered for it."""
    inside = []
    for core_f, foreseen_f, _first in _cores():
        core, foreseen = (core_f, foreseen_f) if unit == "F" else ((core_f - 32) / 1.8, (foreseen_f - 32) / 1.8)
        spans = spans_around(foreseen, STEPS[unit], ())
        inside.append(spans[0].low <= core <= spans[-1].high)
    assert len(inside) > 100
    assert sum(inside) >= 0.9 * len(inside)


@pytest.mark.parametrize(("unit", "share"), [("F", 0.85), ("C", 0.7)])
def test_most_pits_are_among_the_seven(unit: str, share: float) -> None:
    """Around half way between the last reading and the set point; others cost a second tap."""
    inside = []
    for cook in all_cooks():
        told, last = float(cook.told["told_pit_f"]), None
        for row in cook.rows:
            if not row.pit_f:
                continue
            read_f, middle_f = float(row.pit_f), 0.5 * (told + (told if last is None else last))
            read_u, middle = (read_f, middle_f) if unit == "F" else ((read_f - 32) / 1.8, (middle_f - 32) / 1.8)
            spans = spans_around(middle, STEPS[unit], ())
            inside.append(spans[0].low <= read_u <= spans[-1].high)
            last = read_f
    assert sum(inside) >= share * len(inside)


@pytest.fixture
def chicken(tmp_path: Path) -> Iterator[PlayedKitchen]:
    """Return a kitchen with chickens on the fire."""
    kitchen = PlayedKitchen(tmp_path, on("12:00"))
    kitchen.say("Ines", "2 chickens 1.9 kg, dinner 18:00, pit 325")
    kitchen.now = on("14:00")
    for text in ("lit at 13:00", "meat on at 14:00"):
        kitchen.say("Ines", text)
    yield kitchen
    kitchen.close()


def test_a_tap_just_under_the_minimum_leaves_the_gate_shut(chicken: PlayedKitchen) -> None:
    """165 F counts from the button that begins with it; the one below never opens the gate."""
    while not any("160 to under 165 F" in heard.labels for heard in chicken.heard):
        chicken.later(10)
        assert chicken.now < on("18:00")
    chicken.tap("Ines", "160 to under 165 F")
    assert chicken.situation.gate.open_at is None


def test_a_tap_at_the_minimum_counts_from_its_lower_edge(chicken: PlayedKitchen) -> None:
    """165 F or more, read on the probe: the low edge of the button is the minimum itself."""
    while not any("165 to under 170 F" in heard.labels for heard in chicken.heard):
        chicken.later(10)
        assert chicken.now < on("18:00")
    chicken.tap("Ines", "165 to under 170 F")
    assert chicken.situation.gate.open_at is not None
