"""What planning takes: one cook with its alternatives, and six pieces on one fire; printed, and asserted nowhere.

The aims are 500 ms and 2 s on one core, from cold: nothing is remembered between rounds.
"""

from __future__ import annotations

import datetime as dt
from typing import Any

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from bot.plan.making import Made, make
from bot.plan.wanted import PieceTyped, PlanTyped
from scheduler.forecast import model
from scheduler.planning import asking
from tests.unit.scheduler.logbook import CATALOGUE

NOW = dt.datetime(2026, 8, 12, 12, tzinfo=dt.UTC)
ONE = (PieceTyped(cut="brisket_packer", mass="6kg"),)
SIX = (
    *ONE,
    PieceTyped(cut="pork_butt", mass="3.5kg"),
    PieceTyped(cut="pork_butt", mass="4.2kg"),
    PieceTyped(cut="spareribs_stl", mass="1.2kg", count=3),
    PieceTyped(cut="beef_chuck_ribs", mass="2kg", count=2),
    PieceTyped(cut="whole_chicken", mass="1.9kg"),
)


def planned(pieces: tuple[PieceTyped, ...]) -> Made:
    """Return the plan of some pieces with its alternatives."""
    typed = PlanTyped(pieces=pieces, serve="2026-08-15T18:00", pit="275F", cooker="kettle")
    made = make(typed, zone="Europe/London", now=NOW, catalogue=CATALOGUE)
    assert isinstance(made, Made), made
    return made


@pytest.mark.parametrize("pieces", [ONE, SIX], ids=["one piece", "six pieces"])
def test_a_plan_with_its_alternatives(pieces: tuple[PieceTyped, ...], benchmark: BenchmarkFixture) -> None:
    """From cold: the plan, its ways and its prompts."""

    def fresh() -> tuple[tuple[Any, ...], dict[str, Any]]:
        model.forget()
        asking.known.cache_clear()
        return (pieces,), {}

    made = benchmark.pedantic(planned, setup=fresh, rounds=5, warmup_rounds=1)  # type: ignore[no-untyped-call]  # the plugin leaves it untyped
    assert len(made.situation.views) == len(pieces)
    assert made.offered
