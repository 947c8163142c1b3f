"""What a published table of dwell times is: rows in the units of their publisher. A value."""

from __future__ import annotations

import dataclasses

from scheduler.units import c_from_f


@dataclasses.dataclass(frozen=True, kw_only=True)
class Table:
    """One published table: how long food must stay at a temperature, hotter rows last."""

    id: str
    source: str
    log_reduction: float | None
    """Decimal reductions of Salmonella that it is for, None where the publisher names none."""
    dwell_s: tuple[tuple[float, float], ...]
    """(temperature [°F], least time [s]), 0 where it is reached at once."""

    def __post_init__(self) -> None:
        """Raise `ValueError` for rows out of order, or a time that grows with temperature."""
        temps = [temp_f for temp_f, _ in self.dwell_s]
        times = [dwell_s for _, dwell_s in self.dwell_s]
        if temps != sorted(set(temps)) or times != sorted(times, reverse=True) or times[-1] != 0:
            raise ValueError(f"{self.id}: rows are not in order")

    @property
    def lowest_f(self) -> float:
        """Return the temperature of the lowest row [°F]: below it nothing counts."""
        return self.dwell_s[0][0]

    @property
    def at_once_f(self) -> float:
        """Return the first temperature at which no time is asked for [°F]."""
        return next(temp_f for temp_f, dwell_s in self.dwell_s if dwell_s == 0)

    @property
    def by_c(self) -> tuple[tuple[float, float], ...]:
        """Return the rows, temperatures converted and rounded to 0.1, as every limit is compared [(°C, s)]."""
        return tuple((round(c_from_f(temp_f), 1), dwell_s) for temp_f, dwell_s in self.dwell_s)
