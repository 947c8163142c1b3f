"""The usual cook of each family, as people read it: the same steps in the same order, at about the same time."""

from __future__ import annotations

import datetime as dt

import pytest

from tests.usual_cooks import FAMILIES, FOLDER, listed

MOVED = dt.timedelta(minutes=30)
"""What moves less is not worth telling; a better forecast may move a plan by so much."""
_DAYS = ("Fri", "Sat", "Sun", "Mon", "Tue", "Wed", "Thu")


def _rows(text: str) -> list[tuple[dt.timedelta, str]]:
    rows = []
    for line in text.splitlines()[1:]:
        when, _, what = line.partition("  ")
        day, clock = when.split()
        hour, minute = map(int, clock.split(":"))
        rows.append((dt.timedelta(days=_DAYS.index(day), hours=hour, minutes=minute), what))
    return rows


@pytest.mark.parametrize("name", FAMILIES)
def test_a_usual_cook_is_planned_as_it_stands_in_its_file(name: str) -> None:
    """Every step once, in the order in which it comes; `python -m tests.usual_cooks` writes the files anew."""
    kept, now = (FOLDER / f"{name}.txt").read_text(encoding="utf-8"), listed(name)
    assert kept.splitlines()[0] == now.splitlines()[0]
    before, after = (sorted(_rows(text), key=lambda row: (row[1], row[0])) for text in (kept, now))
    assert [what for _, what in before] == [what for _, what in after]
    assert [what for (was, what), (at, _) in zip(before, after, strict=True) if abs(at - was) > MOVED] == []


@pytest.mark.parametrize("name", FAMILIES)
def test_a_usual_cook_can_be_read_at_one_sitting(name: str) -> None:
    """At the usual level of detail it has no more than forty lines."""
    assert len((FOLDER / f"{name}.txt").read_text(encoding="utf-8").splitlines()) <= 40
