"""What the trade says that wraps, pit and evaporation do, and what of the prior lies outside: `python -m` prints it.

Common practice, no source; nothing is asserted here.
"""

from __future__ import annotations

import functools

from scheduler.cuts import Cut
from scheduler.facts import Wrap
from scheduler.forecast import fit
from tests.calibration.trade import Usual, cuts, usual

ALL = cuts().cuts
TOUGH = [cut for cut in ALL if cut.stall_h.typical > 0.0]
BIG = {"brisket_packer", "pork_butt", "pork_picnic", "whole_pork_shoulder"}

RANGES = {
    "paper, share of what is left": (0.08, 0.28),
    "foil, share of what is left": (0.15, 0.42),
    "paper on a big piece [min]": (40.0, 120.0),
    "foil on a big piece [min]": (60.0, 210.0),
    "14 C hotter saves": (0.08, 0.24),
    "14 C colder adds": (0.06, 0.30),
    "evaporated, share of the mass": (0.12, 0.30),
}
"""Common practice, no source. Wraps go on at the cut's first bark look; what is left is the rest of the bare cook."""


@functools.cache
def usual_of(name: str) -> Usual:
    """Return what the prior says of the usual cook of a cut."""
    cut = cuts().get(name)
    return usual(cut, fit.of_cut(cut).anchor)


def figures(cut: Cut) -> dict[str, float]:
    """Return the figures of a cut that the trade has ranges for."""
    seen = usual_of(cut.id)
    found = {"14 C hotter saves": -seen.hotter, "14 C colder adds": seen.cooler}
    for wrap, saved_h in ((Wrap.PAPER, seen.paper_h), (Wrap.FOIL, seen.foil_h)):
        if wrap in cut.wraps and wrap is not Wrap.NONE:
            found[f"{wrap.value}, share of what is left"] = saved_h / seen.left_h
            if cut.id in BIG:
                found[f"{wrap.value} on a big piece [min]"] = 60.0 * saved_h
    if cut in TOUGH:
        found["evaporated, share of the mass"] = seen.evaporated
    return found


def deviations(cut: Cut) -> dict[tuple[str, str], float]:
    """Return the figures of a cut that lie outside their ranges."""
    return {
        (cut.id, what): round(figure, 3 if figure < 3.0 else 0)
        for what, figure in figures(cut).items()
        if not RANGES[what][0] <= figure <= RANGES[what][1]
    }


def main() -> None:
    """Print the list of known deviations as `test_trade_table` has it."""
    for cut in ALL:
        for (name, what), figure in deviations(cut).items():
            print(f'    ("{name}", "{what}"): {figure},')  # noqa: T201 - a list for the terminal


if __name__ == "__main__":
    main()
