"""Whole cooks played through the kitchen by a crew that answers what it is asked, with meat that rises by a table.

It asserts nothing. Everything that was sent stays in the kitchen that was played.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
import itertools
from collections.abc import Callable

from tests.fakes.kitchen import MINUTE, Heard, PlayedKitchen, window

RIBS_F = ((0, 40), (60, 88), (120, 128), (180, 152), (240, 163), (300, 172), (360, 186), (420, 199), (480, 204))
"""(minutes since the meat went on, core in °F) of racks with a short stall: invented."""

BRISKET_F = (
    (0, 40), (120, 95), (240, 140), (330, 158), (420, 162), (500, 165), (560, 172), (640, 182), (720, 192),
    (780, 199), (840, 203), (900, 206),
)  # fmt: skip
"""The same of a brisket, wrapped after about six hours: invented."""


@dataclasses.dataclass
class Crew:
    """One person beside the cooker, who needs four minutes for everything."""

    kitchen: PlayedKitchen
    name: str
    rise_f: tuple[tuple[float, float], ...]
    wrap: str = "wrapped in paper"
    each_time: Callable[[PlayedKitchen], None] = lambda _kitchen: None
    """Called after every answer and every message that came by itself."""
    seen: Callable[[str], str] = lambda text: text
    """What this person makes of a text on the screen."""
    on_at: dt.datetime | None = None
    _felt: int = 0
    _wrapped: bool = False

    def play(self, until: dt.datetime) -> None:
        """Answer whatever comes, until an instant or until nothing comes any more."""
        kitchen = self.kitchen
        while (wake := kitchen.kitchen.next_wake_at()) is not None and wake <= until:
            sent = [h for h in kitchen.until(wake) if h.room == window(self.name) and h.sort == "prompt"]
            self.each_time(kitchen)
            if sent:
                kitchen.now += 4 * MINUTE
                self._answer(sent[-1])

    def core_f(self) -> float:
        """Return what the meat reads now [°F]."""
        minutes = (self.kitchen.now - self.on_at) / MINUTE if self.on_at else 0.0
        for (early, low), (late, high) in itertools.pairwise(self.rise_f):
            if early <= minutes <= late:
                return round(low + (high - low) * (minutes - early) / (late - early))
        return self.rise_f[-1][1]

    def _say(self, text: str) -> None:
        self.kitchen.say(self.name, text)
        self.each_time(self.kitchen)

    def _answer(self, asked: Heard) -> None:
        for text in self._replies(asked):
            self._say(text)
            if text == "meat is on":
                self.on_at = self.kitchen.now

    def _replies(self, asked: Heard) -> list[str]:
        """Return what is typed to a message, in the order of doing."""
        labels, text_seen, core = {self.seen(label) for label in asked.labels}, self.seen(asked.text), self.core_f()
        found = [text for label, text in _TICKS if label in labels and not (label == "Meat is on" and self.on_at)]
        if "Wrapped in paper" in labels and not self._wrapped:
            self._wrapped = True
            found.append(self.wrap)
        if "Feel for" in text_seen:
            self._felt += 1
            found.append(f"{core:g}, " + ("slides in" if core > 202 else "almost" if core > 197 else "still tight"))
        elif "Read the meat as you open it" in text_seen:
            found += ["151", "slicing", "food is out"]
        elif "Open the box once" in text_seen:
            found.append("158")
        elif "Read pit and meat" in text_seen or "Four-hour check" in text_seen:
            found.append(f"252/{core:g}")
        elif "Read the pit" in text_seen:
            found.append("pit 248")
        elif "Read the meat" in text_seen:
            found.append(f"{core:g}")
        return found


_TICKS = (
    ("All done", "all done"),
    ("No ban, calm enough", "no ban"),
    ("Lit", "lit"),
    ("Parts are in", "parts in"),
    ("Smoke: thin", "thin"),
    ("Probe is in", "probe is in"),
    ("Meat is on", "meat is on"),
    ("Raw side washed", "raw side washed"),
    ("Fuel: half", "fuel half"),
    ("Charcoal added", "charcoal added"),
    ("Box is warm", "box is warm"),
    ("It is off", "it is off"),
    ("Vents closed", "vents closed"),
    ("Boxed", "boxed"),
    ("Dinner: go", "go"),
    ("Food is out", "food is out"),
    ("Put away", "put away"),
    ("Leftovers in the fridge", "leftovers in the fridge"),
    ("Cooling", "cooling"),
    ("No notes", "no notes"),
    ("Ash is out, cold", "ash is out, cold"),
    ("Eaten", "eaten"),
)
"""(button, what the crew types when it stands there), in the order of doing."""
