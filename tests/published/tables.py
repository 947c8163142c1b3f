"""Published tables of food safety as they were written down from their sources, read from CSV.

They are a second copy: the engine holds its own, and the tests compare the two row by row.
"""

from __future__ import annotations

import csv
from pathlib import Path

PUBLISHED = Path(__file__).parents[1] / "data" / "published"


def rows(name: str) -> list[dict[str, str]]:
    """Return the rows of a file; lines that begin with # say where it comes from."""
    with (PUBLISHED / f"{name}.csv").open(encoding="utf-8") as lines:
        return list(csv.DictReader(line for line in lines if not line.startswith("#")))


def header(name: str) -> str:
    """Return the lines of a file that say where it comes from."""
    with (PUBLISHED / f"{name}.csv").open(encoding="utf-8") as lines:
        return "".join(line for line in lines if line.startswith("#"))
