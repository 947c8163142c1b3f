"""Readings that differ, found quickly: the same as by the plain definition, which looks at every three of them."""

from __future__ import annotations

import datetime as dt

from hypothesis import given
from hypothesis import strategies as st

from scheduler.facts import Slot
from scheduler.safety.contested import APART_C, SETTLED_BY, TOGETHER, contests, low_edge_c, same_spot
from scheduler.state import ReadingAt

START = dt.datetime(2026, 9, 12, 6, 0, tzinfo=dt.UTC)

READINGS = st.lists(
    st.tuples(
        st.integers(0, 90).map(float),
        st.floats(50.0, 70.0).map(lambda c: round(c, 1)),
        st.sampled_from((0.0, 0.0, 1.5)),
        st.sampled_from((None, None, "flat", "Flat", "point")),
        st.sampled_from((False, False, False, True)),
    ),
    max_size=14,
).map(
    lambda told: tuple(
        ReadingAt(
            at=START + dt.timedelta(minutes=minutes), slot=Slot.CORE, value_c=value_c, spread_c=spread_c, spot=spot,
            doubtful=doubtful, by="Ines", fact=f"f{number}",
        )
        for number, (minutes, value_c, spread_c, spot, doubtful) in enumerate(told)
    )
)  # fmt: skip


def _apart(one: ReadingAt, other: ReadingAt) -> bool:
    return round(abs(one.value_c - other.value_c) - one.spread_c - other.spread_c, 6) > APART_C


def _settles(third: ReadingAt, higher: ReadingAt, lower: ReadingAt) -> bool:
    """Return whether a third that is not doubted is like the higher, unlike the lower, near both, and not all before
    the lower.
    """
    return (
        not third.doubtful
        and third.fact not in {higher.fact, lower.fact}
        and (third.at >= lower.at or higher.at >= lower.at)
        and abs(third.at - lower.at) <= SETTLED_BY
        and abs(third.at - higher.at) <= SETTLED_BY
        and same_spot(third, higher)
        and not _apart(third, higher)
        and third.value_c > lower.value_c
        and _apart(third, lower)
    )


def _plainly(readings: tuple[ReadingAt, ...]) -> list[tuple[str, str]]:
    """Return (higher, the lowest that stands against it) of every reading that does not stand, in the order given."""
    found = []
    for higher in readings:
        against = [
            lower
            for lower in readings
            if lower.value_c < higher.value_c
            and not (lower.doubtful and higher.doubtful)
            and same_spot(lower, higher)
            and abs(lower.at - higher.at) <= TOGETHER
            and _apart(lower, higher)
            and not any(_settles(third, higher, lower) for third in readings)
        ]
        if against:
            lowest = min(against, key=lambda one: (low_edge_c(one), one.at, one.fact))
            found.append((higher.fact, lowest.fact))
    return found


@given(READINGS)
def test_the_same_contests_as_by_the_plain_definition(readings: tuple[ReadingAt, ...]) -> None:
    """Whatever the readings and their order, nothing is missed and nothing is added, asked once or twice."""
    in_time = tuple(sorted(readings, key=lambda one: one.at))
    for order in (readings, in_time, in_time[::-1], readings):
        assert [(one.higher.fact, one.lower.fact) for one in contests(order)] == _plainly(order)
