"""Asks all designs and prints the tables: `python -m tests.comparison [--cooks N | --fresh SEED] [--dice N]`.

By default all committed cooks with five sets of dice, some three minutes of one core. `--fresh` first makes 20 cooks a
family with a seed of its own; `--variants` asks the engine with other members instead. It changes no file.
"""

from __future__ import annotations

import argparse

from tests.comparison.asking import ask
from tests.comparison.cases import fresh, kitchen, measured_cooks
from tests.comparison.designs import DESIGNS, VARIANTS
from tests.comparison.table import report

A_FAMILY = 20


def main() -> None:
    """Ask and print."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--cooks", type=int, help="so many committed cooks, spread over all families")
    parser.add_argument("--fresh", type=int, metavar="SEED", help="cooks made for the occasion instead")
    parser.add_argument("--dice", type=int, default=5, help="sets of dice, none of them the one that people get")
    parser.add_argument("--variants", action="store_true", help="the engine alone, with other numbers of members")
    asked = parser.parse_args()
    cases = kitchen(asked.cooks) if asked.fresh is None else fresh(asked.fresh, A_FAMILY)
    throws = [f", dice {number}" for number in range(1, asked.dice + 1)]
    outcomes = ask(VARIANTS if asked.variants else DESIGNS, (*cases, *measured_cooks()), throws)
    print(report(outcomes))  # noqa: T201 - tables for the terminal


if __name__ == "__main__":
    main()
