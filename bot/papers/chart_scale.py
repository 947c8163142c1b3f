"""Where instants and temperatures lie on the picture, and the measures of it that every part shares.

Arithmetic only. Measures are pixels of a picture 1080 wide: three to a unit of a phone 360 units wide.
"""

from __future__ import annotations

import dataclasses
import datetime as dt

from bot.papers.chart_values import ChartSheet

WIDE = 1080
MARGIN = 40
LEFT = 158
"""Left edge of the plots; words of the levels stand left of it."""
RIGHT = 1010
"""Right edge of the plots: dinner, unless something comes later."""

TITLE, HEAD, BODY, SMALL = 58, 46, 40, 36
"""Sizes of letters; none is smaller than `chart_type.SMALLEST`, but for letters inside a dot."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Across:
    """The axis of time: from `begin_at` at the left edge of the plots to `end_at` at the right."""

    begin_at: dt.datetime
    end_at: dt.datetime

    def x(self, at: dt.datetime) -> float:
        """Return where an instant lies; what lies beyond an edge stands on it."""
        return min(float(RIGHT), max(float(LEFT), self.beyond(at)))

    def beyond(self, at: dt.datetime) -> float:
        """Return where an instant lies, or would lie beyond the edges."""
        return LEFT + (at - self.begin_at) / (self.end_at - self.begin_at) * (RIGHT - LEFT)


def across(sheet: ChartSheet) -> Across:
    """Return the axis of time of a chart."""
    return Across(begin_at=sheet.begin_at, end_at=sheet.end_at)


@dataclasses.dataclass(frozen=True, kw_only=True)
class Upward:
    """An axis of temperature: from `low_c` at `bottom` to `high_c` at `top`."""

    top: float
    bottom: float
    low_c: float
    high_c: float

    def y(self, temp_c: float) -> float:
        """Return where a temperature [°C] lies; what lies beyond an edge stands on it."""
        share = (temp_c - self.low_c) / (self.high_c - self.low_c)
        return self.bottom - min(1.0, max(0.0, share)) * (self.bottom - self.top)
