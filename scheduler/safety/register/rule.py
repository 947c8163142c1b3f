"""One entry of the register: what a rule limits, whose figure it is, how grave it gets, where it is tested. A value."""

from __future__ import annotations

import dataclasses

from scheduler.safety.finding import FindingLevel
from scheduler.safety.limits import Limit


@dataclasses.dataclass(frozen=True, kw_only=True)
class Rule:
    """One rule.

    `worst` is the gravest level that it may give; a house rule is never graver than a caution. `figure` says in plain
    words what is compared, `sources` name the publishers where `limits` do not. `tests` are paths from the root.
    """

    id: str
    worst: FindingLevel
    figure: str
    limits: tuple[Limit, ...] = ()
    sources: tuple[str, ...] = ()
    house: bool = False
    tests: tuple[str, ...]

    def __post_init__(self) -> None:
        """Raise `ValueError` for a house rule above caution, or a rule without any source."""
        if self.house and self.worst is FindingLevel.STOP:
            raise ValueError(f"{self.id}: a house rule never stops a cook")
        if not self.house and not self.limits and not self.sources:
            raise ValueError(f"{self.id}: a rule needs a source, or is a house rule")
