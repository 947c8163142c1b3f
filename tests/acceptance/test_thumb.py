"""A rib cook from set-up to the table by taps alone: no key is pressed, and no step takes more than two.

The thumb knows the meat: it takes the button whose span holds what is so, and goes by "Another number" where none does.
"""

from __future__ import annotations

import collections
import datetime as dt
import itertools
import re
from pathlib import Path

import pytest

from scheduler.planning.prompts import Prompt
from scheduler.state import Stage
from tests.fakes.kitchen import MINUTE, Heard, PlayedKitchen, on, window
from tests.unit.bot.application.cooks import RIBS_F

INES = "Ines"
RISING_F = ((0, 60), (15, 90), (27, 180), (40, 235), (65, 270))
"""(minutes since the fire was lit, pit in °F) on its way up: invented."""
SPAN = re.compile(r"^(?P<pit>Pit )?(?P<low>\d+)(?: to under (?P<high>\d+))? F$")
PIT_F, FRIDGE_F, HELD_F = 268, 38, 158
SO = (
    "Smoke: thin", "No ban, calm enough", "Fuel: plenty", "Wrapped in paper", "Dinner: go", "Vents closed", "Put away",
    "Cooling",
)  # fmt: skip
"""What is so, where a step offers a choice."""


class Thumb:
    """Taps what is so, a minute after it was asked, and counts taps for each thing that was asked."""

    def __init__(self, folder: Path) -> None:
        self.kitchen = PlayedKitchen(folder, on("06:00"))
        self.taps: collections.Counter[str] = collections.Counter()
        self.on_at: dt.datetime | None = None

    def tap(self, label: str, what: str) -> Heard:
        """Press a button."""
        self.taps[what] += 1
        return self.kitchen.tap(INES, label)

    def set_up(self) -> None:
        """Set the cook up."""
        self.kitchen.opens(INES)
        for label in ("Beef short ribs", "4", "Today 18:00", "Usual: 275 F", "Start", "None of these"):
            self.tap(label, "set-up")

    def cook(self) -> None:
        """Answer whatever comes until the food is out."""
        for _turn in range(400):
            if self.kitchen.situation.state.stage is Stage.AFTER:
                return
            if self.kitchen.situation.waiting:
                self.kitchen.later(1)
                self._answer(self.kitchen.situation.waiting[-1])
            else:
                wake = self.kitchen.kitchen.next_wake_at()
                assert wake is not None
                self.kitchen.until(wake)
        raise AssertionError("the cook does not end")

    def _answer(self, prompt: Prompt) -> None:
        for _tap in range(6):
            if all(p.key != prompt.key for p in self.kitchen.situation.waiting):
                break
            told = self.tap(self._choice(prompt), prompt.key)
            if "And the coldest spot?" in told.lines:
                spans = [(label, found) for label in told.labels if (found := SPAN.match(label))]
                self.tap(next(label for label, found in spans if self._holds(found, prompt.step.id)), prompt.key)
        if prompt.step.id == "meat_on":
            self.on_at = self.kitchen.now

    def _choice(self, prompt: Prompt) -> str:
        """Return the button to press: of the newest message that has one for this prompt."""
        step = prompt.step
        rows = [h.labels for h in reversed(self.kitchen.heard) if h.room == window(INES) and h.labels]
        if step.id == "tender_test":
            return "Slides in" if self._core_f() >= 203 else "Almost" if self._core_f() >= 198 else "Still tight"
        if step.slots:
            for labels in rows:
                spans = [(label, found) for label in labels if (found := SPAN.match(label))]
                if spans:
                    holds = [label for label, found in spans if self._holds(found, step.id)]
                    return holds[0] if holds else "Another number"
        if step.outcomes:
            return next(label for labels in rows for label in labels if label in SO and self._of(label, step.id))
        done = self._done(step.id)
        return next(label for labels in rows for label in labels if label in (done, "All done"))

    def _holds(self, found: re.Match[str], step: str) -> bool:
        low, high = float(found["low"]), float(found["high"] or 0)
        low, high = (low, high) if found["high"] else (low - 2.5, low + 2.5)
        so = self._rising_f() if found["pit"] else FRIDGE_F if step == "fridge_check" else self._core_f()
        return low <= so < high

    @staticmethod
    def _of(label: str, step: str) -> bool:
        from bot.messages.steps import step_words  # noqa: PLC0415 - labels are made when they are asked for

        return label in {words for _outcome, words in step_words(step).outcomes}

    @staticmethod
    def _done(step: str) -> str:
        from bot.messages.steps import step_words  # noqa: PLC0415 - labels are made when they are asked for

        return step_words(step).done

    def _rising_f(self) -> float:
        """Return what the pit reads on its way up [°F]: invented."""
        lit = self.kitchen.situation.state.at("light")
        minutes = 0.0 if lit is None else (self.kitchen.now - lit) / MINUTE
        for (early, low), (late, high) in itertools.pairwise(RISING_F):
            if early <= minutes <= late:
                return low + (high - low) * (minutes - early) / (late - early)
        return PIT_F

    def _core_f(self) -> float:
        if self.kitchen.situation.state.did("pull"):
            return HELD_F
        minutes = (self.kitchen.now - self.on_at) / MINUTE if self.on_at else 0.0
        for (early, low), (late, high) in itertools.pairwise(RIBS_F):
            if early <= minutes <= late:
                return low + (high - low) * (minutes - early) / (late - early)
        return RIBS_F[-1][1]


@pytest.fixture(scope="module")
def thumb(tmp_path_factory: pytest.TempPathFactory) -> Thumb:
    """Return a thumb after a whole cook."""
    played = Thumb(tmp_path_factory.mktemp("thumb"))
    played.set_up()
    played.cook()
    return played


def test_a_rib_cook_needs_no_key(thumb: Thumb) -> None:
    """From the greeting to the table nothing was typed, and the food is out."""
    assert thumb.kitchen.situation.state.did("serve") is not None
    assert thumb.kitchen.notes == []


def test_the_coldest_spot_is_read_with_the_feel(thumb: Thumb) -> None:
    """A feel that is not tender yet brings the numbers: two taps for hand and probe."""
    felt = [taps for key, taps in thumb.taps.items() if key.startswith("p1/tender_test/")]
    assert 2 in felt


def test_the_set_up_takes_six_taps(thumb: Thumb) -> None:
    """Cut, racks, dinner, pit, start, who eats."""
    assert thumb.taps["set-up"] == 6


def test_no_step_takes_more_than_two_taps(thumb: Thumb) -> None:
    """Each thing that was asked was answered by one tap, or by two where a number was far out or the hand feels too."""
    asked = {key: taps for key, taps in thumb.taps.items() if key != "set-up"}
    assert {key: taps for key, taps in asked.items() if taps > 2} == {}
    assert len(asked) > 20


def test_a_phone_shows_every_question_with_its_buttons(thumb: Thumb) -> None:
    """Ten rows at the most below a question: beside deeds and choices fewer numbers are offered."""
    asked = [heard for heard in thumb.kitchen.heard if "Cannot read it now" in heard.labels]
    asked = [heard for heard in asked if any(SPAN.match(label) for label in heard.labels)]
    rows = [len(heard.outgoing.choices) for heard in asked]
    assert max(rows) == 10
    assert min(rows) >= 5
