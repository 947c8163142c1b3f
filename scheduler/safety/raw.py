"""Rules of raw meat: how long it is kept, how it thaws, how long it lies out."""

from __future__ import annotations

from collections.abc import Callable

from scheduler.safety.case import Case
from scheduler.safety.finding import Finding

RULES: tuple[Callable[[Case], list[Finding]], ...] = ()
"""Rules in the order in which they are told."""
