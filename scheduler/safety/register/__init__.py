"""The register of every rule, in the order of a cook.

It computes nothing. Docs are made from it, and tests hold it and the rules together.
"""

from scheduler.safety.register import after, before, fire, gate, hold, people, reported
from scheduler.safety.register.rule import Rule

REGISTER: tuple[Rule, ...] = (
    *before.REGISTER,
    *fire.REGISTER,
    *gate.REGISTER,
    *hold.REGISTER,
    *after.REGISTER,
    *reported.REGISTER,
    *people.REGISTER,
)
"""Every rule."""

__all__ = ["REGISTER", "Rule"]
