"""Rules of held and served food: the floor, time without temperature control. Values only."""

from __future__ import annotations

from scheduler.safety.register.rule import Rule

REGISTER: tuple[Rule, ...] = ()
