"""Rules of raw meat: storage, thawing, marinade, keeping raw and cooked apart. Values only."""

from __future__ import annotations

from scheduler.safety.register.rule import Rule

REGISTER: tuple[Rule, ...] = ()
