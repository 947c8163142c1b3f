"""Which cut of the catalogue a log speaks of; a stand-in by rule when it speaks of none.

It reads the catalogue that lies beside the engine, all cuts of it; it must not plan or forecast anything.
"""

from __future__ import annotations

import dataclasses
import math

from bot import catalogue
from bot.backtest.log import Head
from scheduler.cut_names import ANIMALS, words_of
from scheduler.cuts import Cut, Cuts, read_cuts

USUAL = "pork_butt"
"""The stand-in of which nothing is known: the most forgiving big cut, and the one most often cooked (common practice,
no source)."""


_NEAREST = (
    (("country", "rib"), "pork", ("pork_butt",)),
    (("rib",), "pork", ("spareribs_stl", "baby_back_ribs", "beef_chuck_ribs", "beef_plate_ribs")),
    (("ribeye",), "beef", ("prime_rib",)),
    (("rump",), "beef", ("tri_tip", "prime_rib")),
    (("round",), "beef", ("tri_tip", "prime_rib")),
    (("sirloin",), "beef", ("tri_tip", "prime_rib")),
    (("picanha",), "beef", ("tri_tip", "prime_rib")),
    (("beef", "tenderloin"), "beef", ("tri_tip", "prime_rib")),
    (("pork", "tenderloin"), "pork", ("pork_loin",)),
    (("turkey", "spatchcock"), "poultry", ("whole_turkey",)),
    (("turkey", "spatchcocked"), "poultry", ("whole_turkey",)),
    (("goose",), "poultry", ("duck",)),
    (("trout",), "fish", ("salmon_side",)),
    (("roast",), "beef", ("chuck_roast",)),
)
"""Words of a piece that is no cut of the catalogue, or not clearly one, its species, and the cuts that come nearest:
the one nearest in mass and thickness, the first when neither is known (common practice, no source)."""
_UNCLEAR = frozenset({"rib", "roast"})
"""What is named by these words alone may be several cuts: taking it for one of them is an assumption."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Nearest:
    """The cut that comes nearest to what a log names; `assumed` when the name may mean several cuts."""

    cut: Cut
    assumed: bool


def all_cuts() -> Cuts:
    """Return every cut of the catalogue."""
    return read_cuts(*catalogue.texts_of("cuts"))


def nearest(head: Head, cuts: Cuts) -> Nearest | None:
    """Return the cut that comes nearest to a piece that is known by its name and is no cut here; None for others."""
    words = set(words_of(head.cut or ""))
    species = {ANIMALS[word] for word in words if word in ANIMALS}
    if {"rib", "eye"} <= words:
        words = words - {"rib", "eye"} | {"ribeye"}
    for wanted, of, ids in _NEAREST:
        if words.issuperset(wanted) and species <= {of}:
            cut = min((cuts.get(one) for one in ids), key=lambda cut: _distance(head, cut))
            return Nearest(cut=cut, assumed=_UNCLEAR.issuperset(wanted))
    return None


def stand_in(head: Head, cuts: Cuts) -> Cut:
    """Return the cut that stands in for one that is not known, by this rule.

    Of the cuts of the animal that is named (all when none is), those with a plate of bone when ribs are named, and of
    these the tough ones if there are any, the one nearest in mass and thickness, in shares; without both the usual one.
    """
    words = words_of(head.cut or "")
    left = list(cuts.cuts)
    tests = (
        lambda cut: cut.species in {ANIMALS[word] for word in words if word in ANIMALS},
        lambda cut: "rib" in words and cut.bone_plate,
        lambda cut: cut.doneness == "feel",
    )
    for test in tests:
        left = [cut for cut in left if test(cut)] or left
    return min(left, key=lambda cut: (_distance(head, cut), cut.id != USUAL))


def _distance(head: Head, cut: Cut) -> float:
    """Return how far the typical piece of a cut is from what is known of this one, 0 when nothing is."""
    mass = 0.0 if head.mass_kg is None else abs(math.log(head.mass_kg / cut.mass_kg.typical))
    thickness = 0.0 if head.thickness_m is None else abs(math.log(head.thickness_m / cut.thickness_m.typical))
    return mass + thickness
