"""docs/explanation/food-safety.md says what the rules do: its example, its figures, and which cautions are minor."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from scheduler.safety import limits
from scheduler.safety.lethality import STEEPEST_C_PER_MIN, Point, exposure
from scheduler.safety.limits import Limit
from scheduler.safety.tables import MEAT_7_LOG
from scheduler.units import c_from_f
from tests.fakes.kitchen import CATALOGUE

ROOT = Path(__file__).parents[2]
PAGE = (ROOT / "docs" / "explanation" / "food-safety.md").read_text(encoding="utf-8")


def _opened_after(minutes: list[float]) -> float | None:
    points = [Point(minutes=at, low_c=round(c_from_f(138), 1)) for at in minutes]
    return exposure(MEAT_7_LOG, points, STEEPEST_C_PER_MIN).reached_min


def test_the_example_of_time_at_a_lower_temperature() -> None:
    """138 F read every five, every ten minutes, and twice in forty: 15:36, 16:08, and 15 in 100 of it."""
    assert _opened_after([5.0 * n for n in range(30)]) == pytest.approx(36, abs=0.5)
    assert _opened_after([10.0 * n for n in range(30)]) == pytest.approx(68, abs=0.5)
    twice = [Point(minutes=at, low_c=round(c_from_f(138), 1)) for at in (0.0, 40.0)]
    assert exposure(MEAT_7_LOG, twice, STEEPEST_C_PER_MIN).share == pytest.approx(0.15, abs=0.005)
    for shown in ("the gate opens at 15:36", "it opens at 16:08", "15 in 100 of them are done"):
        assert shown in PAGE


def test_the_minor_cautions_are_those_of_the_catalogue() -> None:
    """Each minor one is named by its id, and no other."""
    said = PAGE.partition("These are minor:")[2].partition("Whatever the")[0]
    named = set(re.findall(r"`([a-z_]+)`", said))
    assert named == {one.id for one in CATALOGUE.steps.cautions if one.minor}


@pytest.mark.parametrize(
    ("row", "limit"),
    [
        ("pit air, while the core", limits.PIT_COLD),
        ("core after six hours", limits.COME_UP_HIGH),
        ("held meat |", limits.HOT_HOLD),
        ("fridge, read above", limits.DANGER_LOW),
        ("cooling, first stage", limits.COOL_FIRST),
        ("cooling, in all", limits.COOL_COLD),
        ("reheating |", limits.REHEAT),
    ],
)
def test_figures_of_the_tables(row: str, limit: Limit) -> None:
    """The row names every publisher's Fahrenheit."""
    (line,) = [line for line in PAGE.split("\n") if line.startswith(f"| {row}")]
    for figure in limit.figures:
        assert f"{figure.value:g} F" in line


@pytest.mark.parametrize("page", ["docs/explanation/food-safety.md", "README.md", "docs/howto/guests-at-risk.md"])
def test_links_lead_somewhere(page: str) -> None:
    """Every page that is linked is there, and so is the heading that is named."""
    path = ROOT / page
    for target in re.findall(r"\]\((?!http)([^)#]*)(?:#[^)]*)?\)", path.read_text(encoding="utf-8")):
        assert not target or (path.parent / target).exists(), target
