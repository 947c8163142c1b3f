"""Somebody at the cooker who answers whatever is asked about several pieces, with cores as they are foreseen.

It asserts nothing; everything that was sent stays in its kitchen.
"""

from __future__ import annotations

import datetime as dt
from pathlib import Path

from bot.application.which import asked_cores
from scheduler.facts import Slot
from scheduler.planning.prompts import Prompt
from scheduler.planning.views import PieceView
from scheduler.state import Stage
from scheduler.units import f_from_c
from tests.fakes.kitchen import PlayedKitchen, on

INES = "Ines"
MOST_TURNS = 150


class Table:
    """A crew of one that answers whatever is asked, with cores as they are foreseen."""

    def __init__(self, folder: Path) -> None:
        self.kitchen = PlayedKitchen(folder, on("6:00"))
        self.kitchen.opens(INES)

    def play(self, end: dt.datetime) -> None:
        """Answer everything until an instant."""
        for _turn in range(MOST_TURNS):
            waiting = self.kitchen.situation.waiting
            if waiting and self.kitchen.now < end:
                self.kitchen.later(2)
                if self.kitchen.situation.waiting:
                    self._answer(self.kitchen.situation.waiting[0])
                continue
            wake = self.kitchen.kitchen.next_wake_at()
            if wake is None or wake > end:
                break
            self.kitchen.until(wake)
        self.kitchen.until(end)

    def _answer(self, prompt: Prompt) -> None:
        situation = self.kitchen.situation
        view = situation.view(prompt.piece)
        step = prompt.step
        if step.id == "tender_test":
            ready = self._core_f(view) >= f_from_c(view.cut.start_testing_c) + 3
            self._say(f"{view.cut.name} {self._core_f(view):.0f}, {'slides in' if ready else 'still tight'}")
        elif step.slots:
            asked = {s for p in situation.waiting if p.asked_at == prompt.asked_at for s in p.step.slots}
            numbers = ["275"] if Slot.PIT in asked else []
            numbers += [f"{self._core_f(situation.view(piece)):.0f}" for piece in asked_cores(situation)]
            self._say(" ".join(numbers))
            if any(p.key == prompt.key for p in self.kitchen.situation.waiting):
                self._say(f"{view.cut.name} {self._core_f(view):.0f}")
        elif step.id == "bark_check":
            self._say(f"{view.cut.name} bare")
        elif step.outcomes:
            self._tap(step.id)
        else:
            self._say("all done")

    def _tap(self, step_id: str) -> None:
        label = {
            "rules_recheck": "No ban, calm enough", "smoke_clean": "Smoke: thin", "fuel_check": "Fuel: plenty",
            "shutdown": "Vents closed", "t_minus": "Dinner: go", "two_hour": "Put away", "fire_out": "Cooling",
        }[step_id]  # fmt: skip
        self.kitchen.tap(INES, label)

    def _say(self, text: str) -> None:
        self.kitchen.mutter(INES, text)

    def _core_f(self, view: PieceView) -> float:
        core_c = view.outlook.forecast.core_c(self.kitchen.now, 0.5)
        return f_from_c(core_c if view.state.stage is not Stage.RESTING else max(core_c, 70.0))
