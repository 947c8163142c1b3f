"""The questions whose answers are timed: a brisket over twelve hours and a plate of ribs, three readings and forty.

Every round asks about readings that are a hair different, so that nothing is remembered; no time is taken here.
"""

from __future__ import annotations

import dataclasses
import datetime as dt

import numpy as np

from scheduler.forecast import Observation, Question
from tests.unit.scheduler.forecast.questions import ON_AT, cut, question

BRISKET = ((0.0, 5.0), (2.0, 30.0), (4.0, 56.0), (6.0, 66.0), (8.0, 71.0), (10.0, 78.0), (12.0, 88.0))
RIBS = ((0.0, 5.0), (1.0, 33.0), (2.0, 56.0), (3.0, 67.0), (4.0, 76.0), (5.0, 86.0))
"""(hours after meat on, °C)."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Case:
    """A cut, how it warms, and how many readings are told."""

    name: str
    cut: str
    curve: tuple[tuple[float, float], ...]
    readings: int

    def question(self, number: int) -> Question:
        """Return the question of a round: evenly spread readings, moved by thousandths of a degree."""
        last_h = self.curve[-1][0]
        hours = np.linspace(last_h / self.readings, last_h, self.readings)
        cores_c = np.interp(hours, *np.array(self.curve).T) + 1e-4 * number
        told = zip(hours.tolist(), cores_c.tolist(), strict=True)
        return question(
            cut(self.cut),
            readings=tuple(Observation(at=ON_AT + dt.timedelta(hours=hour), value_c=core_c) for hour, core_c in told),
        )


CASES = tuple(
    Case(name=f"{name}, {readings} readings", cut=kind, curve=curve, readings=readings)
    for name, kind, curve in (("brisket over 12 h", "brisket_packer", BRISKET), ("ribs", "beef_chuck_ribs", RIBS))
    for readings in (3, 40)
)
