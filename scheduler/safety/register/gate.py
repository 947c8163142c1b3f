"""Rules of the safety gate: least temperatures, rests, equivalence, readings that differ. Values only."""

from __future__ import annotations

from scheduler.safety.register.rule import Rule

REGISTER: tuple[Rule, ...] = ()
