"""Which cut of the catalogue a log speaks of; a stand-in by rule when it speaks of none.

It reads the catalogue that lies beside the engine, all cuts of it; it must not plan or forecast anything.
"""

from __future__ import annotations

import importlib.resources
import math

from bot.backtest.log import Head
from scheduler.cut_names import ANIMALS, words_of
from scheduler.cuts import Cut, Cuts, read_cuts

TEXTS = ("cuts", "cuts_forecast")
USUAL = "pork_butt"
"""The stand-in of which nothing is known: the most forgiving big cut, and the one most often cooked (common practice,
no source)."""


def all_cuts() -> Cuts:
    """Return every cut that the forecast knows, also those that the planner does not offer."""
    folder = importlib.resources.files("scheduler") / "catalogue"
    return read_cuts(*((folder / f"{name}.toml").read_text("utf-8") for name in TEXTS))


def stand_in(head: Head, cuts: Cuts) -> Cut:
    """Return the cut that stands in for one that is not known, by this rule.

    Of the cuts of the animal that is named (all when none is), those with a plate of bone when ribs are named, and of
    these the tough ones if there are any, the one nearest in mass and thickness, in shares; without both the usual one.
    """
    words = words_of(head.cut or "")
    left = list(cuts.cuts)
    tests = (
        lambda cut: cut.species in {ANIMALS[word] for word in words if word in ANIMALS},
        lambda cut: "rib" in words and cut.bone_plate,
        lambda cut: cut.doneness == "feel",
    )
    for test in tests:
        left = [cut for cut in left if test(cut)] or left
    return min(left, key=lambda cut: (_distance(head, cut), cut.id != USUAL))


def _distance(head: Head, cut: Cut) -> float:
    """Return how far the typical piece of a cut is from what is known of this one, 0 when nothing is."""
    mass = 0.0 if head.mass_kg is None else abs(math.log(head.mass_kg / cut.mass_kg.typical))
    thickness = 0.0 if head.thickness_m is None else abs(math.log(head.thickness_m / cut.thickness_m.typical))
    return mass + thickness
