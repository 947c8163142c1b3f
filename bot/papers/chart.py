"""The chart of one cook as a picture for a phone held upright: a `ChartSheet` in, bytes of a PNG file out.

Slow to import: the room that gives it out does so when the first one is asked for.
"""

from __future__ import annotations

import functools

from bot.papers.chart_layout import placed
from bot.papers.chart_paint import painted
from bot.papers.chart_values import ChartSheet


@functools.lru_cache(maxsize=4)
def chart_png(sheet: ChartSheet) -> bytes:
    """Return the picture of a chart, the same bytes for the same chart on one machine: rooms that are spoken to alike
    share one.
    """
    return painted(placed(sheet))
