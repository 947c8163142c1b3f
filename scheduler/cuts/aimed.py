"""A cut that comes off at a core that somebody wished, in place of the usual one of its entry.

No file makes one, and it judges nothing: what may be wished is decided in `scheduler.cook`.
"""

from __future__ import annotations

from scheduler.cuts.cut import Cut
from scheduler.cuts.figures import Figure


class AimedCut(Cut):
    """A cut as its entry says, but for the core at which it comes off [°C]."""

    aim_c: Figure

    @property
    def done_c(self) -> float:
        """Return the wished core [°C]."""
        return self.aim_c


def aimed(cut: Cut, core_c: float) -> Cut:
    """Return a cut done by temperature that comes off at `core_c` [°C]; its figures, and so its forecast, stay.

    Reading begins as long before the end as it does for the usual core.
    """
    figures = dict(cut)
    earlier_c = cut.target_c.typical - cut.start_testing_c
    return AimedCut.model_construct(**figures | {"aim_c": core_c, "start_testing_c": core_c - earlier_c})
