"""The cook as one whole: decides what a report, or the passing of time, changes. Pure; it writes and sends nothing."""

from scheduler.cook.begin import Beginning, begin
from scheduler.cook.changes import (
    Already,
    Changes,
    Event,
    Found,
    GateOpened,
    Implied,
    Lapsed,
    NotSkipped,
    Over,
    Refusal,
    Report,
    Shifted,
    SpotAsked,
    Stalled,
    StopOver,
    Taken,
    TripDue,
    Undid,
)  # fmt: skip
from scheduler.cook.decide import decide, may_be_kept
from scheduler.cook.implied import possible
from scheduler.cook.plausible import fits
from scheduler.cook.ring import ring
from scheduler.cook.situation import ENGINE, Situation, assess

__all__ = [
    "ENGINE",
    "Already",
    "Beginning",
    "Changes",
    "Event",
    "Found",
    "GateOpened",
    "Implied",
    "Lapsed",
    "NotSkipped",
    "Over",
    "Refusal",
    "Report",
    "Shifted",
    "Situation",
    "SpotAsked",
    "Stalled",
    "StopOver",
    "Taken",
    "TripDue",
    "Undid",
    "assess",
    "begin",
    "decide",
    "fits",
    "may_be_kept",
    "possible",
    "ring",
]
