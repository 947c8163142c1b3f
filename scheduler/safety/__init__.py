"""Food safety: what has been measured, what it is compared with, and what must be said. Never softened to suit a
plan.
"""

from scheduler.safety.finding import Finding, FindingLevel
from scheduler.safety.findings import findings, pulled_too_cold
from scheduler.safety.holding import ACT_C, FLOOR_C, act_by
from scheduler.safety.looks import next_look
from scheduler.safety.minimum import SafeGate, safe_gate
from scheduler.safety.wished import NotByTime, Undercooked, as_wished, by_time, not_by_time, undercooked

__all__ = [
    "ACT_C",
    "FLOOR_C",
    "Finding",
    "FindingLevel",
    "NotByTime",
    "SafeGate",
    "Undercooked",
    "act_by",
    "as_wished",
    "by_time",
    "findings",
    "next_look",
    "not_by_time",
    "pulled_too_cold",
    "safe_gate",
    "undercooked",
]
