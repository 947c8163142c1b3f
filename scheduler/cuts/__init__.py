"""Cuts of meat: what the catalogue says of each, checked when it is read.

Door of the room. It reads text, never files; it holds no steps and no schedule.
"""

from scheduler.cuts.aimed import aimed
from scheduler.cuts.catalogue import Cuts, read_cuts
from scheduler.cuts.cut import Cut, Holds, ServeBy
from scheduler.cuts.entries import read_entries
from scheduler.cuts.figures import Composition, SafetyClass, Spread

__all__ = [
    "Composition",
    "Cut",
    "Cuts",
    "Holds",
    "SafetyClass",
    "ServeBy",
    "Spread",
    "aimed",
    "read_cuts",
    "read_entries",
]
