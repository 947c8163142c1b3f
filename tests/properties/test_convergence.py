"""What grid and step do to a forecast: how far the time of 95 C moves when either is made finer or coarser.

Both are converged to a hundredth. The figures stand here so that they are seen.
"""

from __future__ import annotations

import dataclasses
import functools
import statistics

import numpy as np
import pytest

from scheduler.facts import Wrap
from scheduler.forecast import Crossing, Question, course, forecast, model
from scheduler.thermal import conduction
from tests.calibration.trade import cuts
from tests.unit.scheduler.forecast.questions import STALLED, cut, hours, question, read

CASES: dict[str, tuple[Question, float]] = {
    "brisket, bare": (question(cut("brisket_packer"), wrap_plan=Wrap.NONE), 95.0),
    "brisket, paper": (question(cut("brisket_packer"), wrap_plan=Wrap.PAPER), 95.0),
    "shoulder, foil": (question(cut("pork_butt"), wrap_plan=Wrap.FOIL), 95.0),
    "chuck ribs": (question(cut("beef_chuck_ribs"), wrap_plan=Wrap.NONE), 95.0),
    "turkey": (question(cuts().get("whole_turkey")), 74.0),
    "brisket, seven readings": (
        question(cut("brisket_packer"), wrap_plan=Wrap.PAPER, readings=read(*STALLED)),
        95.0,
    ),
}


@dataclasses.dataclass(frozen=True, kw_only=True)
class Steps:
    """Factors on the first step, on how it grows, and on the longest one."""

    first: float = 1.0
    growth: float = 1.0
    last: float = 1.0


def _middle_h(crossing: Crossing) -> float:
    """Return the mean of the middle half of the distribution [h]: a median alone jumps from one member to the next."""
    return statistics.fmean(hours(crossing, 0.25 + 0.025 * step) for step in range(21))


def _hours(monkeypatch: pytest.MonkeyPatch, nodes: int = conduction.NODES, steps: Steps | None = None) -> list[float]:
    """Return the times of all cases [h] on a grid of `nodes` and with other steps."""
    steps = steps or Steps()
    plain = vars(conduction)["_table"].__wrapped__
    spots = 1.0 - (1.0 - np.linspace(0.0, 1.0, nodes)) ** vars(conduction)["_GRADING"]
    first, longest, growth, last = (
        vars(course)[name] for name in ("_STEP_FOURIER", "_LONGEST_S", "_GROWTH", "_LAST_S")
    )
    with monkeypatch.context() as changed:
        changed.setattr(conduction, "NODES", nodes)
        changed.setattr(conduction, "_INNER", int(np.argmin(np.abs(spots - 0.6))))
        changed.setattr(conduction, "_table", functools.lru_cache(maxsize=1)(plain))
        changed.setattr(course, "_STEP_FOURIER", steps.first * first)
        changed.setattr(course, "_LONGEST_S", steps.first * longest)
        changed.setattr(course, "_GROWTH", 1.0 + steps.growth * (growth - 1.0))
        changed.setattr(course, "_LAST_S", steps.last * last)
        course._stretched.cache_clear()  # noqa: SLF001 - kept steps belong to the figures before
        model.forget()
        found = [_middle_h(forecast(asked).crossing(core_c)) for asked, core_c in CASES.values()]
    course._stretched.cache_clear()  # noqa: SLF001 - and these to the figures just now
    model.forget()
    return found


def _change(finer: list[float], coarser: list[float]) -> dict[str, float]:
    """Return by what share the coarser one is later, by case."""
    return {name: other / one - 1.0 for name, one, other in zip(CASES, finer, coarser, strict=True)}


def test_twelve_nodes_are_enough(monkeypatch: pytest.MonkeyPatch) -> None:
    """Against 24 nodes no time moves by 0.6 %. Reached: 0.4 % (1 min of a turkey); 6 nodes: 1.3 %, 1 to 4 min."""
    six, twelve, fine = (_hours(monkeypatch, nodes) for nodes in (6, 12, 24))
    assert all(abs(change) < 0.006 for change in _change(fine, twelve).values())
    assert all(abs(change) < 0.02 for change in _change(fine, six).values())


def test_the_first_step_hardly_matters(monkeypatch: pytest.MonkeyPatch) -> None:
    """First steps of 0.25, 0.5, 1 and 2 times the engine's, growing alike: within 1 % of one another.

    Reached, in minutes against the engine's: brisket bare 0, 0, +1; paper 0, 0, +3; shoulder in foil -2, -2, +1; ribs
    -1, -1, +1; turkey -1, -1, +2; with seven readings -2, -2, +2. At most 0.4 % earlier and 0.6 % later.
    """
    quarter, half, whole, double = (_hours(monkeypatch, steps=Steps(first=by)) for by in (0.25, 0.5, 1.0, 2.0))
    assert all(abs(change) < 0.006 for change in _change(half, whole).values())
    assert all(abs(change) < 0.008 for change in _change(quarter, whole).values())
    assert all(abs(change) < 0.01 for change in _change(whole, double).values())


def test_steps_that_stay_short_move_it_by_less_than_a_hundredth(monkeypatch: pytest.MonkeyPatch) -> None:
    """Everything half, a quarter, an eighth: first step, growth and longest. No time moves by 1 %.

    Reached, in minutes against the engine's: brisket bare -2, -3, -3; paper -2, -2, -3; shoulder in foil -3, -4, -5
    (0.8 %, the most); ribs -1, -1, -2; turkey -1, -1, -2; with seven readings -2, -2, -3. Each halving changes less:
    fluxes are linear within a step, and a planned wrap goes on within it. All doubled: up to 7 min or 0.9 % later.
    """
    whole = _hours(monkeypatch)
    half, quarter, eighth = (
        _hours(monkeypatch, steps=Steps(first=by, growth=by, last=by)) for by in (0.5, 0.25, 0.125)
    )
    for finer in (half, quarter, eighth):
        assert all(abs(change) < 0.01 for change in _change(finer, whole).values())
    last = _change(eighth, quarter)
    assert all(abs(last[name]) <= abs(change) + 0.001 for name, change in _change(quarter, whole).items())
