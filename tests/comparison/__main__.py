"""Asks all designs and prints the tables: `python -m tests.comparison [--cooks N]`, all cooks without a number.

Eight designs on one core: about half a second a case. It changes no file.
"""

from __future__ import annotations

import argparse

from tests.comparison.asking import ask
from tests.comparison.cases import kitchen, measured_cooks
from tests.comparison.designs import DESIGNS
from tests.comparison.table import report


def main() -> None:
    """Ask and print."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--cooks", type=int, help="so many virtual cooks, spread over all families")
    asked = parser.parse_args()
    outcomes = ask(DESIGNS, (*kitchen(asked.cooks), *measured_cooks()))
    print(report(outcomes))  # noqa: T201 - tables for the terminal


if __name__ == "__main__":
    main()
