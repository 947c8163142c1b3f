"""Lethality: how much of a published time at temperature a history of readings has reached, taken at its lowest.

It opens nothing and knows no cook: who may be safe by time stands in `scheduler.safety.least`, the gate in
`scheduler.safety.minimum`. Between readings the core is taken as low as it can have been; before the first and after
the last nothing counts, and an estimate never does.
"""

from __future__ import annotations

import dataclasses
import math
from collections.abc import Iterable, Sequence
from itertools import pairwise

from scheduler.errors import ImpossibleTemperature
from scheduler.safety.tables import Table
from scheduler.units import f_from_c

STEEPEST_C_PER_MIN = 1.4
"""How fast the core of a whole piece may change at most [°C/min]: the steepest step between two readings above 50 C of
any measured whole bird or roast (turkey breast, 9.4 C in 7 min). Cooked joints were measured to cool by 0.5 C/min at
most in air and 0.8 in ice water; only in a vacuum cooler faster."""

THIN_C_PER_MIN, THIN_M = 4.0, 0.026
"""A measured piece of beef of this thickness [m] rose this fast in a minute at most above 50 C [°C/min]; other pieces
change slower with the square of their thickness (Fourier number), thinner ones faster."""

ABSOLUTE_ZERO_C = -273.15
_WHOLE = 1.0 - 1e-9
"""Sums of parts of one come this near to it."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Point:
    """A reading of one spot, taken at its low edge: minutes after any fixed instant, and °C."""

    minutes: float
    low_c: float


@dataclasses.dataclass(frozen=True, kw_only=True)
class Exposure:
    """How much of the published time a spot has reached, 1 is all of it, and when it was reached [min]."""

    share: float
    reached_min: float | None


@dataclasses.dataclass(frozen=True, kw_only=True)
class Fit:
    """A straight line through the logarithms of a table's times.

    `z_f` is the rise that makes it ten times faster [°F], `d_140_min` the time of one decimal reduction at 140 F [min],
    `deviation` the largest difference of a row from it, as a share of the smaller of the two.
    """

    z_f: float
    d_140_min: float
    deviation: float

    @property
    def z_c(self) -> float:
        """Return z in kelvin."""
        return self.z_f / 1.8


def dwell_s(table: Table, temp_f: float) -> float:
    """Return how long food must stay at a temperature [°F] by a table [s]; 0 at once, infinite under its lowest row.

    A row gives its published time. Between two rows the logarithm of the time runs straight, and just under the first
    row that is at once the time of the row before it holds: never less than the published row above.

    Raises
    ------
    ImpossibleTemperature
        For what is no number, infinite, or below absolute zero.
    """
    checked_c((temp_f - 32.0) / 1.8)
    return _between(table.dwell_s, temp_f)


def dwell_at_s(table: Table, temp_c: float) -> float:
    """Return the same for a temperature in Celsius; rows are converted and rounded to 0.1, as limits are compared.

    So a row is met up to 0.05 C under or over its Fahrenheit figure, 2 % of a time.
    """
    return _between(table.by_c, checked_c(temp_c))


def dwell_by_fat_s(tables: Sequence[Table], temp_f: float, fat_pct: float) -> float:
    """Return how long poultry must stay at a temperature [°F] by the fat of the product [%], 1 to 12, [s].

    Between two published percents, or under the first, the longer time of the nearest two counts.
    """
    if not 0.0 <= fat_pct <= len(tables):
        raise ValueError(f"no table is of {fat_pct:g} % of fat: 0 to {len(tables)}")
    near = {max(1, math.floor(fat_pct)), max(1, math.ceil(fat_pct))}
    return max(dwell_s(tables[percent - 1], temp_f) for percent in near)


def fit(table: Table, low_f: float = -math.inf) -> Fit:
    """Return the line log10(dwell) = a - T / z fitted by least squares to the rows that ask for time."""
    rows = [(temp_f, math.log10(time_s)) for temp_f, time_s in table.dwell_s if time_s > 0 and temp_f >= low_f]
    middle_f = sum(temp_f for temp_f, _ in rows) / len(rows)
    middle = sum(log_s for _, log_s in rows) / len(rows)
    slope = sum((t - middle_f) * (log_s - middle) for t, log_s in rows) / sum((t - middle_f) ** 2 for t, _ in rows)
    line = [(middle + slope * (temp_f - middle_f), log_s) for temp_f, log_s in rows]
    at_140_s = 10.0 ** (middle + slope * (140.0 - middle_f))
    return Fit(
        z_f=-1.0 / slope,
        d_140_min=at_140_s / 60.0 / (table.log_reduction or 1.0),
        deviation=max(10.0 ** abs(fitted - log_s) - 1.0 for fitted, log_s in line),
    )


def steepest_c_per_min(thickness_m: float) -> float:
    """Return how fast the core of a piece of some thickness [m] may change at most [°C/min]."""
    return max(STEEPEST_C_PER_MIN, THIN_C_PER_MIN * (THIN_M / thickness_m) ** 2)


def exposure(table: Table, points: Iterable[Point], slope_c_per_min: float) -> Exposure:
    """Return how much of a table's time one spot has reached.

    Each reading counts no higher than the others permit (of two that contradict one another the lower stands, and how
    far the core can have come since); between two the core falls from the first and rises to the second as fast as it
    can. A higher reading, or one more that fits the others, never lowers the share; the order does not matter.

    Raises
    ------
    ImpossibleTemperature
        For a reading that is no number, infinite, or below absolute zero.
    """
    curve = _permitted(points, slope_c_per_min)
    share, reached = 0.0, None
    if curve and dwell_at_s(table, curve[0].low_c) == 0.0:
        return Exposure(share=math.inf, reached_min=curve[0].minutes)
    for start, end in pairwise(curve):
        for piece in _lowest_path(start, end, slope_c_per_min):
            more, at = _count(table, piece, share)
            share += more
            reached = at if reached is None else reached
        if dwell_at_s(table, end.low_c) == 0.0:
            share, reached = math.inf, end.minutes if reached is None else reached
    if reached is None and share >= _WHOLE:
        reached = curve[-1].minutes
    return Exposure(share=share, reached_min=reached)


def checked_c(temp_c: float) -> float:
    """Return a temperature [°C] that can be one; raise `ImpossibleTemperature` for any other."""
    if not math.isfinite(temp_c) or temp_c < ABSOLUTE_ZERO_C:
        raise ImpossibleTemperature(f"{temp_c} C ({f_from_c(temp_c)} F) is no temperature", temp_c=temp_c)
    return temp_c


def _between(rows: tuple[tuple[float, float], ...], temp: float) -> float:
    if temp < rows[0][0]:
        return math.inf
    for (low, low_s), (high, high_s) in pairwise(rows):
        if low <= temp < high:
            if low == temp or high_s == 0.0 or low_s == 0.0:
                return low_s
            return float(low_s * (high_s / low_s) ** ((temp - low) / (high - low)))
    return rows[-1][1]


def _permitted(points: Iterable[Point], slope: float) -> list[Point]:
    """Return the readings in order of time, each no higher than every other permits; one for each instant."""
    lowest: dict[float, float] = {}
    for point in points:
        lowest[point.minutes] = min(checked_c(point.low_c), lowest.get(point.minutes, math.inf))
    curve = [Point(minutes=minutes, low_c=lowest[minutes]) for minutes in sorted(lowest)]
    for order in (range(1, len(curve)), range(len(curve) - 2, -1, -1)):
        step = -1 if order.step > 0 else 1
        for i in order:
            near = curve[i + step]
            most_c = near.low_c + slope * abs(curve[i].minutes - near.minutes)
            curve[i] = dataclasses.replace(curve[i], low_c=min(curve[i].low_c, most_c))
    return curve


def _lowest_path(start: Point, end: Point, slope: float) -> list[tuple[Point, Point]]:
    """Return the two straight parts of the lowest way from one reading to the next."""
    if slope == 0.0:
        return [(start, end)]
    minutes = end.minutes - start.minutes
    down = min(max((minutes + (start.low_c - end.low_c) / slope) / 2.0, 0.0), minutes)
    turn = Point(minutes=start.minutes + down, low_c=start.low_c - slope * down)
    return [part for part in ((start, turn), (turn, end)) if part[1].minutes > part[0].minutes]


def _count(table: Table, part: tuple[Point, Point], before: float) -> tuple[float, float | None]:
    """Return what a straight part adds, and when it makes a whole of what came before it, None when it does not."""
    start, end = part
    total, reached = 0.0, None
    for low, high in pairwise(_corners(table, start, end)):
        minutes = high.minutes - low.minutes
        first, last = _rate(table, low, high), _rate(table, high, low)
        grows = math.log(last / first) if first > 0.0 and last > 0.0 else 0.0
        more = minutes * first * (math.expm1(grows) / grows if grows else 1.0)
        if reached is None and before + total < _WHOLE <= before + total + more:
            missing = (1.0 - before - total) / more
            inside = math.log1p(missing * math.expm1(grows)) / grows if grows else missing
            reached = low.minutes + minutes * min(inside, 1.0)
        total += more
    return total, reached


def _corners(table: Table, start: Point, end: Point) -> list[Point]:
    """Return a straight part with the points where it crosses rows of the table."""
    rise = end.low_c - start.low_c
    inside = [row for row, _ in table.by_c if min(start.low_c, end.low_c) < row < max(start.low_c, end.low_c)]
    crossed = [
        Point(minutes=start.minutes + (row - start.low_c) / rise * (end.minutes - start.minutes), low_c=row)
        for row in sorted(inside, reverse=rise < 0)
    ]
    return [start, *crossed, end]


def _rate(table: Table, at: Point, other: Point) -> float:
    """Return the share of the table's time that a minute is worth at one end of a part that crosses no row.

    Where rows meet, the side of the part counts: under the lowest row nothing does, whatever the row itself gives, and
    just under the row that is at once the time of the row before it. What is at once is counted at its reading.
    """
    middle_c = (at.low_c + other.low_c) / 2.0
    inside_s = _between(table.by_c, middle_c)
    if math.isinf(inside_s) or inside_s == 0.0:
        return 0.0
    own_s = _between(table.by_c, at.low_c)
    return 60.0 / (own_s if own_s > 0.0 else inside_s)
