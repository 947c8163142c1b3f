"""Asks all designs and prints the tables: `python -m tests.comparison [--cooks N] [--variants]`, all cooks by default.

Eight designs on one core take two minutes for 240 cooks; `--variants` asks the engine with other numbers of members and
other dice instead. It changes no file.
"""

from __future__ import annotations

import argparse

from tests.comparison.asking import ask
from tests.comparison.cases import kitchen, measured_cooks
from tests.comparison.designs import DESIGNS, VARIANTS
from tests.comparison.table import report


def main() -> None:
    """Ask and print."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--cooks", type=int, help="so many virtual cooks, spread over all families")
    parser.add_argument("--variants", action="store_true", help="the engine alone, with other members and other dice")
    asked = parser.parse_args()
    outcomes = ask(VARIANTS if asked.variants else DESIGNS, (*kitchen(asked.cooks), *measured_cooks()))
    print(report(outcomes))  # noqa: T201 - tables for the terminal


if __name__ == "__main__":
    main()
