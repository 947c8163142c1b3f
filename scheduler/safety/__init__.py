"""Food safety: what has been measured, what it is compared with, and what must be said. Never softened to suit a
plan.
"""

from scheduler.safety.finding import Finding, FindingLevel
from scheduler.safety.findings import findings, pulled_too_cold
from scheduler.safety.holding import ACT_C, FLOOR_C, act_by
from scheduler.safety.minimum import SafeGate, safe_gate
from scheduler.safety.off import next_look

__all__ = [
    "ACT_C",
    "FLOOR_C",
    "Finding",
    "FindingLevel",
    "SafeGate",
    "act_by",
    "findings",
    "next_look",
    "pulled_too_cold",
    "safe_gate",
]
