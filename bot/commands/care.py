"""What bears on safety as people say it: who eats, how meat was treated, which rules count, a core that is wished.

Values only; what may be and what changes is decided elsewhere.
"""

from __future__ import annotations

from typing import Literal

from bot.commands.intent import Said
from scheduler.facts import Edition, SafeBy, Treatment

UNNAMED = "?"
"""An allergy of which nobody has said what it is; it is asked for, and shown as not named."""

Doneness = Literal["rare", "medium_rare", "pink", "medium", "medium_well", "well_done"]


class CareSaid(Said):
    """Who eats and where; None was not said. With `all_told` whatever nobody has told is not so."""

    kind: Literal["care"] = "care"
    at_risk: bool | None = None
    allergies: tuple[str, ...] | None = None
    public: bool | None = None
    all_told: bool = False
    sure: bool = False
    """True once somebody answered that what it takes back was wrong."""

    @property
    def only_adds(self) -> bool:
        """Return whether it makes nothing less strict: that may be said by anybody."""
        takes_back = (False, ())
        return self.at_risk not in takes_back and self.allergies not in takes_back and self.public not in takes_back


class TreatedSaid(Said):
    """What was done to a piece of meat; nothing: it is as it was cut."""

    kind: Literal["treated"] = "treated"
    treatments: tuple[Treatment, ...] = ()
    piece: str | None = None
    sure: bool = False
    """True once somebody answered that an earlier treatment was told wrongly."""


class SafeBySaid(Said):
    """By which rule a piece is safe; `intact` says with it that nothing was done to it, `nobody_at_risk` that no guest
    is, `core_c` [°C] where it is to come off.
    """

    kind: Literal["safe_by"] = "safe_by"
    by: SafeBy
    intact: bool = False
    nobody_at_risk: bool = False
    core_c: float | None = None
    piece: str | None = None
    sure: bool = False
    """True once somebody answered that an earlier treatment was told wrongly."""


class TargetSaid(Said):
    """The core at which a piece is to come off [°C], or a word for it."""

    kind: Literal["target"] = "target"
    core_c: float | None = None
    word: Doneness | None = None
    piece: str | None = None


class EditionSaid(Said):
    """Which published rules are to count; None: `given` names none that is known, or nothing."""

    kind: Literal["edition"] = "edition"
    edition: Edition | None = None
    given: str = ""
