"""Somebody at the fire who answers whatever is open, as a steady hand would: invented, and knowing no more than asked.

It reads what is asked from the cook, never what a good message is: that is for whoever looks at the screens.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
import itertools
from collections.abc import Callable

from bot.messages.steps import step_words
from scheduler.facts import Slot
from scheduler.planning.prompts import Prompt
from tests.fakes.stages.stage import Stage

MINUTE = dt.timedelta(minutes=1)

_CHOSEN = {
    "rules_recheck": "no fire ban, calm",
    "smoke_clean": "smoke is thin",
    "fuel_check": "plenty",
    "bark_check": "wrapped in paper",
    "wrap_do": "wrapped in paper",
    "t_minus": "dinner: go",
    "two_hour": "all put away",
}
"""What is typed to steps that offer a choice."""


@dataclasses.dataclass
class Cook:
    """One person on a stage, beside a pit that holds, with meat that rises by a table."""

    stage: Stage
    name: str
    rise_f: tuple[tuple[float, float], ...]
    """(minutes since the meat went on, core in °F)."""
    pit_f: float
    tender_f: float = 203.0
    takes: dt.timedelta = 3 * MINUTE
    """How long it takes to get to the fire and answer."""
    seen: Callable[[Stage], None] = lambda _stage: None
    """Called after every answer."""

    def cook_until(self, at: dt.datetime) -> None:
        """Answer all that is open whenever something new is asked, until an instant or the end of the cook."""
        stage = self.stage
        while stage.store.open_cooks() and stage.now < at:
            wake = stage.kitchen.next_wake_at()
            if not self._answer_all() and wake is not None:
                stage.until(min(at, max(wake, stage.now + MINUTE)))
            elif wake is None:
                return
            stage.until(min(at, stage.now + self.takes))
        stage.until(at)

    def core_f(self) -> float:
        """Return what the meat reads now [°F]."""
        on_at = next((v.state.at("meat_on") for v in self.stage.situation.views if v.state.did("meat_on")), None)
        minutes = 0.0 if on_at is None else (self.stage.now - on_at) / MINUTE
        for (early, low), (late, high) in itertools.pairwise(self.rise_f):
            if early <= minutes <= late:
                return round(low + (high - low) * (minutes - early) / (late - early))
        return self.rise_f[-1][1]

    def cooled_f(self) -> float:
        """Return what shallow boxes in a fridge read now [°F]: half of what is left above 38 F every 40 minutes."""
        away_at = next((v.state.at("leftovers") for v in self.stage.situation.views if v.state.did("leftovers")), None)
        minutes = 0.0 if away_at is None else (self.stage.now - away_at) / MINUTE
        return float(round(38 + (120 - 38) * 0.5 ** (minutes / 40)))

    def _answer_all(self) -> bool:
        """Answer each open prompt once; return whether anything was said."""
        said = False
        for step in dict.fromkeys(prompt.step.id for prompt in self.stage.situation.waiting):
            if not self.stage.store.open_cooks():
                return True
            prompt = next((p for p in self.stage.situation.waiting if p.step.id == step), None)
            if prompt is not None and (text := self._text(prompt)):
                self.stage.says(self.name, text)
                self.seen(self.stage)
                said = True
        return said

    def _text(self, prompt: Prompt) -> str:
        step = prompt.step
        if step.id == "tender_test":
            core = self.core_f()
            return f"{core:g}, " + ("slides in like butter" if core >= self.tender_f - 1 else "still tight")
        if step.id in _CHOSEN:
            return _CHOSEN[step.id]
        if Slot.LEFTOVERS in step.slots:
            return f"leftovers {self.cooled_f():g}"
        if step.slots:
            parts = [f"pit {self.pit_f:g}"] if Slot.PIT in step.slots else []
            return " ".join([*parts, *([f"meat {self.core_f():g}"] if Slot.CORE in step.slots else [])])
        return step_words(step.id).done
