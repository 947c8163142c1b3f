"""What holds for the lethality of any history: hotter or longer never turns safe into unsafe, nor less the reverse."""

from __future__ import annotations

import dataclasses
import itertools
import math

from hypothesis import given
from hypothesis import strategies as st

from scheduler.safety.lethality import Exposure, Point, dwell_at_s, exposure
from scheduler.safety.tables import CHICKEN, MEAT_5_LOG, MEAT_6_5_LOG, MEAT_7_LOG, NOT_INTACT, ROAST, TURKEY, Table

ROUNDING = 1e-6
TABLES = st.sampled_from((MEAT_5_LOG, MEAT_6_5_LOG, MEAT_7_LOG, ROAST, NOT_INTACT, CHICKEN[0], CHICKEN[11], TURKEY[5]))
SLOPES = st.sampled_from((0.1, 0.6, 1.3, 4.0))
POINTS = st.builds(Point, minutes=st.integers(0, 240).map(float), low_c=st.floats(45.0, 74.0))
HISTORIES = st.lists(POINTS, min_size=1, max_size=12)


@st.composite
def fitting(draw: st.DrawFn, slope: float) -> list[Point]:
    """Draw readings of which none contradicts another: a real core, read at some instants."""
    minutes, low_c, points = 0.0, draw(st.floats(50.0, 70.0)), []
    for _ in range(draw(st.integers(1, 12))):
        points.append(Point(minutes=minutes, low_c=low_c))
        gap = float(draw(st.integers(1, 30)))
        minutes += gap
        low_c = min(max(low_c + draw(st.floats(-0.999, 0.999)) * slope * min(gap, 8.0), 48.0), 73.0)
    return points


def _no_less(one: Exposure, other: Exposure) -> bool:
    """Return whether the first has reached as much as the second, and all of it where the second has."""
    return one.share >= other.share * (1.0 - ROUNDING) and (other.share < 1.0 + ROUNDING or one.reached_min is not None)


@given(HISTORIES, st.data(), TABLES, SLOPES)
def test_hotter_never_turns_safe_into_unsafe(
    history: list[Point], data: st.DataObject, table: Table, slope: float
) -> None:
    """Any readings raised by any amounts, also readings that contradict one another: never a smaller share."""
    more = data.draw(st.lists(st.floats(0.0, 12.0), min_size=len(history), max_size=len(history)))
    hotter = [dataclasses.replace(point, low_c=point.low_c + by_c) for point, by_c in zip(history, more, strict=True)]
    assert _no_less(exposure(table, hotter, slope), exposure(table, history, slope))


@given(st.data(), TABLES, SLOPES)
def test_longer_never_turns_safe_into_unsafe(data: st.DataObject, table: Table, slope: float) -> None:
    """A history that goes on, before or after: what was reached stays reached, however cold it is by then."""
    history = data.draw(fitting(slope))
    begin, end = sorted(data.draw(st.tuples(st.integers(0, len(history)), st.integers(0, len(history)))))
    assert _no_less(exposure(table, history, slope), exposure(table, history[begin:end], slope))


@given(st.data(), TABLES, SLOPES)
def test_dropping_readings_never_turns_unsafe_into_safe(data: st.DataObject, table: Table, slope: float) -> None:
    """Any readings left out of a history in which none contradicts another: never a larger share."""
    history = data.draw(fitting(slope))
    kept = [point for point in history if data.draw(st.booleans())]
    assert _no_less(exposure(table, history, slope), exposure(table, kept, slope))


@given(HISTORIES, st.data(), TABLES, SLOPES)
def test_dropping_from_any_history_what_contradicts_no_higher_reading(
    history: list[Point], data: st.DataObject, table: Table, slope: float
) -> None:
    """Where readings contradict one another the lower ones must be kept; any of the others may be left out."""

    def _holds_down(low: Point) -> bool:
        return any(low.low_c + slope * abs(low.minutes - other.minutes) < other.low_c for other in history)

    kept = [point for point in history if _holds_down(point) or data.draw(st.booleans())]
    assert _no_less(exposure(table, history, slope), exposure(table, kept, slope))


@given(HISTORIES, st.randoms(use_true_random=False), TABLES, SLOPES)
def test_the_order_of_readings_does_not_matter(
    history: list[Point], chance: object, table: Table, slope: float
) -> None:
    """Late messages come in any order: the same share, reached at the same minute."""
    shuffled = list(history)
    chance.shuffle(shuffled)  # type: ignore[attr-defined]  # Hypothesis draws a random.Random
    assert exposure(table, shuffled, slope) == exposure(table, history, slope)


@given(HISTORIES, TABLES, SLOPES, st.floats(1.0, 3.0))
def test_a_steeper_core_is_taken_lower(history: list[Point], table: Table, slope: float, times: float) -> None:
    """Of two readings that agree, a core that may fall faster between them has reached no more."""
    pair = [history[0], dataclasses.replace(history[-1], low_c=history[0].low_c)]
    assert _no_less(exposure(table, pair, slope), exposure(table, pair, slope * times))


@given(HISTORIES, TABLES, SLOPES)
def test_never_more_than_at_the_hottest_reading_all_the_time(history: list[Point], table: Table, slope: float) -> None:
    """From the first to the last reading the core counts for no more than at the hottest one; outside for nothing."""
    hottest_s = dwell_at_s(table, max(point.low_c for point in history))
    times = [point.minutes for point in history]
    found = exposure(table, history, slope)
    if hottest_s > 0:
        assert found.share <= 60.0 * (max(times) - min(times)) / hottest_s + ROUNDING
    assert found.reached_min is None or min(times) <= found.reached_min <= max(times)
    assert (found.reached_min is not None) == (found.share >= 1.0 - 1e-9)


@given(TABLES, st.floats(40.0, 80.0), st.floats(0.0, 5.0))
def test_hotter_food_never_takes_longer(table: Table, temp_c: float, more_c: float) -> None:
    """By every table, at every temperature between rows and beyond them."""
    assert dwell_at_s(table, temp_c + more_c) <= dwell_at_s(table, temp_c)


@given(TABLES, st.floats(54.5, 69.9), st.floats(1.0, 300.0), st.integers(2, 40))
def test_one_reading_more_of_a_level_core_only_helps(table: Table, temp_c: float, minutes: float, count: int) -> None:
    """Read ever more often, a level core comes near to its time over the table's, and never over it."""
    dwell = dwell_at_s(table, temp_c)
    if dwell == 0.0 or math.isinf(dwell):
        return
    shares = [
        exposure(table, [Point(minutes=minutes * k / n, low_c=temp_c) for k in range(n + 1)], 1.3).share
        for n in (1, count, 2 * count)
    ]
    assert all(one <= other + ROUNDING for one, other in itertools.pairwise(shares[1:]))
    assert shares[0] <= shares[1] + ROUNDING
    assert shares[2] <= 60.0 * minutes / dwell + ROUNDING
