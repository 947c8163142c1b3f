"""Dinners of the allotment club for 8, 30 and 60: what Ines types, and how the meat behaves. Invented."""

from __future__ import annotations

import dataclasses

from tests.fakes.kitchen import on
from tests.fakes.stages.robot import Cook
from tests.fakes.stages.stage import Stage

CHICKEN = ((0, 40), (30, 80), (60, 130), (90, 168), (150, 176))
RIBS = ((0, 40), (60, 88), (120, 128), (180, 152), (240, 163), (300, 172), (360, 186), (420, 199), (480, 204))
SHOULDER = (
    (0, 40), (120, 95), (240, 140), (330, 158), (420, 162), (500, 166), (560, 174), (640, 185), (720, 196), (780, 203),
    (900, 206),
)  # fmt: skip
"""(minutes since the meat went on, core in °F): invented."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Dinner:
    """One dinner of the allotment club: what Ines types, and how the meat behaves."""

    people: int
    begins: str
    text: str
    guests: str
    rise_f: tuple[tuple[float, float], ...]
    pit_f: float
    until: str
    public: bool = False


DINNERS = [
    Dinner(
        people=8, begins="12:00", text="2 chickens 1.8 kg each, dinner 18:00, 8 people, pit 350",
        guests="no guests at risk, no allergies, family", rise_f=CHICKEN, pit_f=350, until="22:00",
    ),
    Dinner(
        people=30, begins="06:00", text="12 racks of spareribs, dinner 18:00, 30 people, pit 250",
        guests="no guests at risk, no allergies, a club", rise_f=RIBS, pit_f=250, until="22:00",
    ),
    Dinner(
        people=60, begins="00:30", text="8 pork shoulders 4 kg each, dinner 19:00, 60 people, pit 250, public meal",
        guests="no guests at risk, no allergies", rise_f=SHOULDER, pit_f=250, until="23:30", public=True,
    ),
]  # fmt: skip


def brisket_of_two(stage: Stage, until: str) -> None:
    """Play a brisket of Ines and Tomas for half past eleven at night, on the fire since seven, until a clock time."""
    stage.comes("Ines")
    stage.comes("Tomas")
    stage.says("Ines", "brisket 12 lb, dinner 23:30, pit 250F")
    stage.says("Ines", "no guests at risk, no allergies, a club")
    stage.until(on("07:00"))
    stage.says("Ines", "meat on")
    stage.until(on(until))


def give(dinner: Dinner, stage: Stage) -> None:
    """Play a dinner: Ines at the fire, Wren to help, nobody in a hurry, until the food is put away."""
    stage.now = on(dinner.begins)
    stage.comes("Ines")
    stage.comes("Wren", "helper")
    stage.says("Ines", dinner.text)
    stage.says("Ines", dinner.guests)
    Cook(stage, "Ines", dinner.rise_f, dinner.pit_f).cook_until(on(dinner.until))
