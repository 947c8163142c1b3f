"""What bears on safety beyond temperatures: who eats, how the meat was treated, which rules count, what was thrown
away. Values only.
"""

from __future__ import annotations

import dataclasses
from typing import ClassVar

from scheduler.facts.choices import Edition, SafeBy, Treatment


@dataclasses.dataclass(frozen=True, kw_only=True)
class CareTold:
    """Who eats and where: each None was not told and changes nothing that was told before."""

    kind: ClassVar[str] = "care_told"
    version: ClassVar[int] = 1
    at_risk: bool | None = None
    """Pregnant, old, very young or ill guests eat with them."""
    allergies: tuple[str, ...] | None = None
    """In people's own words; empty: asked, and nobody has any."""
    public: bool | None = None
    """A public or paid meal: local codes, permits and trained handlers."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class TreatedTold:
    """What was done to a piece that brings bacteria inside; empty: it is intact, as somebody said."""

    kind: ClassVar[str] = "treated_told"
    version: ClassVar[int] = 1
    treatments: tuple[Treatment, ...] = ()


@dataclasses.dataclass(frozen=True, kw_only=True)
class SafeByTold:
    """By which rule the safety gate of a piece opens; anything but the minimum is somebody's own choice."""

    kind: ClassVar[str] = "safe_by_told"
    version: ClassVar[int] = 1
    by: SafeBy


@dataclasses.dataclass(frozen=True, kw_only=True)
class TargetTold:
    """The core at which a piece is to come off [°C], as somebody wishes it; only of cuts that go by temperature."""

    kind: ClassVar[str] = "target_told"
    version: ClassVar[int] = 1
    core_c: float


@dataclasses.dataclass(frozen=True, kw_only=True)
class EditionTold:
    """Which published rules count for this cook."""

    kind: ClassVar[str] = "edition_told"
    version: ClassVar[int] = 1
    edition: Edition


@dataclasses.dataclass(frozen=True, kw_only=True)
class Discarded:
    """A piece, or what was left of it, was thrown away: nobody eats it."""

    kind: ClassVar[str] = "discarded"
    version: ClassVar[int] = 1
