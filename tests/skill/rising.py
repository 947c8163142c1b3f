"""How well the clock time of a rising pit is foretold: `python -m tests.skill.rising [--ahead MIN]`.

It reads the committed evenings of the virtual kitchen (`tests/data/kitchen/warming.csv`); it makes none.
"""

from __future__ import annotations

import argparse
import csv
import dataclasses
import datetime as dt
from pathlib import Path

from scheduler.facts import CookerKind
from scheduler.forecast import Observation, reaches
from scheduler.units import c_from_f
from tests.skill.scores import band, middle

TABLE = Path(__file__).resolve().parents[1] / "data" / "kitchen" / "warming.csv"
LIT_AT = dt.datetime(2026, 8, 1, 12, tzinfo=dt.UTC)
MINUTE = dt.timedelta(minutes=1)


@dataclasses.dataclass(frozen=True, kw_only=True)
class Foretold:
    """One forecast: error of the median [min], whether the truth lay in the middle 80 %, readings it was made from."""

    kind: str
    error_min: float
    in_80: bool
    width_min: float
    readings: int
    age_min: float
    """Minutes since the newest reading."""


def evenings() -> list[dict[str, str]]:
    """Return the rows of the table."""
    lines = [line for line in TABLE.read_text(encoding="utf-8").splitlines() if not line.startswith("#")]
    return list(csv.DictReader(lines))


def foretell(row: dict[str, str], *, ahead_min: float = 10.0, kind_known: bool = True) -> Foretold | None:
    """Return the forecast made so many minutes before the truth, None when fewer than two readings were there."""
    truth, now = float(row["crossing_min"]), float(row["crossing_min"]) - ahead_min
    read = [(float(m), float(f)) for m, f in (one.split(":") for one in row["readings"].split())]
    seen = [(minute, value) for minute, value in read if minute <= now]
    if len(seen) < 2:
        return None
    crossing = reaches(
        c_from_f(float(row["mark_f"])),
        lit_at=LIT_AT,
        readings=tuple(Observation(at=LIT_AT + m * MINUTE, value_c=c_from_f(f)) for m, f in seen),
        kind=CookerKind(row["kind"]) if kind_known else None,
        set_c=c_from_f(float(row["set_f"])),
    )
    early, likely, late = ((at - LIT_AT) / MINUTE if at else 300.0 for at in map(crossing.quantile, (0.1, 0.5, 0.9)))
    return Foretold(
        kind=row["kind"],
        error_min=likely - truth,
        in_80=early <= truth <= late,
        width_min=late - early,
        readings=len(seen),
        age_min=now - seen[-1][0],
    )


def line(name: str, some: list[Foretold]) -> str:
    """Return one line of the report."""
    covered = sum(one.in_80 for one in some) / len(some)
    low, high = band(0.8, len(some))
    return (
        f"{name:22s} {len(some):4d} {middle([abs(one.error_min) for one in some]):6.1f} "
        f"{middle([one.error_min for one in some]):+6.1f} {covered:5.2f} [{low:.2f}, {high:.2f}] "
        f"{middle([one.width_min for one in some]):6.1f} {middle([one.age_min for one in some]):6.1f}"
    )


def main() -> None:
    """Print the report."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--ahead", type=float, default=10.0)
    asked = parser.parse_args()
    print(f"{'':22s}    n  |err|   bias  80 %  band of 80 %  width  reading's age [min]")  # noqa: T201 - a table for the terminal
    rows = evenings()
    for known in (True, False):
        found = [one for row in rows if (one := foretell(row, ahead_min=asked.ahead, kind_known=known)) is not None]
        print(line("all kinds" if known else "kind not told", found))  # noqa: T201 - a table for the terminal
        for kind in dict.fromkeys(one.kind for one in found) if known else ():
            print(line(f"  {kind}", [one for one in found if one.kind == kind]))  # noqa: T201 - a table for the terminal
    print(f"{len(rows)} evenings; those with fewer than two readings by then are left out")  # noqa: T201 - a table for the terminal


if __name__ == "__main__":
    main()
