"""One new reading to a new forecast: what the median takes is printed by `--benchmark-enable`, and asserted nowhere.

The aim is 25 ms on one core.
"""

from __future__ import annotations

import itertools
from typing import Any

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from scheduler.forecast import Forecast, forecast, model
from tests.benchmarks.cooks import CASES, Case

_NUMBERS = itertools.count()


def answered(case: Case) -> Forecast:
    """Return the forecast of a fresh round, with everything that a chat asks of it."""
    outlook = forecast(case.question(next(_NUMBERS)))
    for p in (0.1, 0.5, 0.9):
        outlook.ready().quantile(p)
    outlook.stall()
    return outlook


@pytest.mark.parametrize("case", CASES, ids=lambda one: one.name)
def test_a_new_reading_to_a_new_forecast(case: Case, benchmark: BenchmarkFixture) -> None:
    """Nothing is remembered between rounds; the answer has a time in it."""

    def fresh() -> tuple[tuple[Case], dict[str, Any]]:
        model.forget()
        return (case,), {}

    outlook = benchmark.pedantic(answered, setup=fresh, rounds=30, warmup_rounds=2)  # type: ignore[no-untyped-call]  # the plugin leaves it untyped
    assert outlook.ready().quantile(0.5) is not None


@pytest.mark.parametrize("case", CASES[:1], ids=lambda one: one.name)
def test_the_same_question_again(case: Case, benchmark: BenchmarkFixture) -> None:
    """What planning asks again and again is remembered."""
    asked = case.question(0)
    forecast(asked)
    assert benchmark(forecast, asked).ready().quantile(0.5) is not None
