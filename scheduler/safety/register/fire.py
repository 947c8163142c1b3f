"""Rules of meat on the fire: a cold pit, a slow come-up. Values only."""

from __future__ import annotations

from scheduler.safety.register.rule import Rule

REGISTER: tuple[Rule, ...] = ()
