"""Food safety: what has been measured, what it is compared with, and what must be said. Never softened to suit a
plan.
"""

from scheduler.safety.contested import standing_readings
from scheduler.safety.cooling import cold_by
from scheduler.safety.cooling import is_measured as is_cooling_measured
from scheduler.safety.eating import Eating, Serving, serving
from scheduler.safety.finding import Finding, FindingLevel
from scheduler.safety.findings import findings, for_the_bin, pulled_too_cold, standing_stops
from scheduler.safety.holding import ACT_C, FLOOR_C, act_by
from scheduler.safety.least import Minimum, NotByTime, least_of, under_least
from scheduler.safety.leftovers import eat_by
from scheduler.safety.looks import next_look
from scheduler.safety.minimum import SafeGate, safe_gate
from scheduler.safety.put_away import PutAway, chilling_since, gone_at, put_away
from scheduler.safety.raw import out_by
from scheduler.safety.reheating import hot_by
from scheduler.safety.wished import Undercooked, as_wished, by_time, not_by_time, undercooked

__all__ = [
    "ACT_C",
    "FLOOR_C",
    "Eating",
    "Finding",
    "FindingLevel",
    "Minimum",
    "NotByTime",
    "PutAway",
    "SafeGate",
    "Serving",
    "Undercooked",
    "act_by",
    "as_wished",
    "by_time",
    "chilling_since",
    "cold_by",
    "eat_by",
    "findings",
    "for_the_bin",
    "gone_at",
    "hot_by",
    "is_cooling_measured",
    "least_of",
    "next_look",
    "not_by_time",
    "out_by",
    "pulled_too_cold",
    "put_away",
    "safe_gate",
    "serving",
    "standing_readings",
    "standing_stops",
    "under_least",
    "undercooked",
]
