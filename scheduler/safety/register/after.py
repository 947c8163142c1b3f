"""Rules of leftovers: cooling, reheating, how long they keep. Values only."""

from __future__ import annotations

from scheduler.safety.register.rule import Rule

REGISTER: tuple[Rule, ...] = ()
