"""Core temperatures to ask for, as they are given on the command line.

A unit is never guessed: 90 is hot in one and cold in the other.
"""

from __future__ import annotations

import dataclasses
import re

from scheduler.units import c_from_f

USUAL = "195F"
BOILING_C = 100.0
"""Meat does not pass boiling while there is water in it."""
_TARGET = re.compile(r"(\d{1,3}(?:\.\d+)?)\s*\u00b0?\s*([fcFC])")


@dataclasses.dataclass(frozen=True, kw_only=True)
class Target:
    """A core temperature [°C] and the name it was given by, such as "195F"."""

    name: str
    temp_c: float


@dataclasses.dataclass(frozen=True, kw_only=True)
class BadTarget:
    """What was given and is no core temperature."""

    given: str


def read_targets(given: list[str] | None) -> tuple[Target, ...] | BadTarget:
    """Return the targets in the order given, each once; 195F when there are none; or the first that cannot be used."""
    found: dict[str, Target] = {}
    for text in given or [USUAL]:
        read = _TARGET.fullmatch(text.strip())
        if read is None:
            return BadTarget(given=text)
        name, value = f"{read[1]}{read[2].upper()}", float(read[1])
        target_c = c_from_f(value) if read[2] in "fF" else value
        if not 0.0 < target_c <= BOILING_C:
            return BadTarget(given=text)
        found.setdefault(name, Target(name=name, temp_c=target_c))
    return tuple(found.values())
