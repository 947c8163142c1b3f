"""A cut that comes off at a core that somebody wished, or never under a least one, in place of the usual of its entry.

No file makes one, and it judges nothing: what may be wished is decided in `scheduler.cook`.
"""

from __future__ import annotations

from scheduler.cuts.cut import Cut
from scheduler.cuts.figures import Figure

TENTH_C = 0.049
"""A reading this much under a limit is the limit when it is rounded to 0.1, as limits are compared [°C]."""


class AimedCut(Cut):
    """A cut as its entry says, but for the core at which it comes off [°C]."""

    aim_c: Figure
    least_c: Figure
    """Under this nothing is off [°C]: the minimum, rounded to 0.1 as limits are compared."""

    @property
    def done_c(self) -> float:
        """Return the wished core [°C]."""
        return self.aim_c

    @property
    def off_c(self) -> float:
        """Return the reading at which it comes off [°C], never one under the least core or the wished one below it."""
        return max(super().off_c, self.least_c - TENTH_C)


def aimed(cut: Cut, core_c: float, least_c: float) -> Cut:
    """Return a cut done by temperature that comes off at `core_c` [°C]; its figures, and so its forecast, stay.

    It never comes off under `least_c` [°C]. Reading begins as long before the end as it does for the usual core.
    """
    figures = dict(cut)
    earlier_c = cut.target_c.typical - cut.start_testing_c
    told = {"aim_c": core_c, "least_c": least_c, "start_testing_c": core_c - earlier_c}
    return AimedCut.model_construct(**figures | told)
