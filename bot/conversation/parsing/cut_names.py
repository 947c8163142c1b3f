"""Finds the name of a cut in a tidied text, kindly: case, plural and small typing errors do not matter.

It never guesses between animals: "lamb shoulder" is not pork shoulder.
"""

from __future__ import annotations

import dataclasses
import re

from bot.conversation.parsing.words import cut_out, word_set
from scheduler.cut_names import ALIKE, ANIMALS, FOODS, word_alike
from scheduler.cuts import Cut, Cuts

OTHER_FOODS = FOODS - word_set("beef cow ox pork pig hog rib ribs chuck roast back spare baby corned shank")
"""Foods that are none of the cuts, whatever stands beside them."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Named:
    """A cut that was named, at `start:end` of the text."""

    cut: Cut
    start: int
    end: int


def find_cut(heard: str, cuts: Cuts) -> Named | None:
    """Return the cut that a tidied text names, by the longest name that matches, or None."""
    words = [(found.group(), *found.span()) for found in re.finditer(r"[a-z]+|[0-9]+(?=[- ]bone)", heard)]
    best: tuple[tuple[int, float], Named] | None = None
    for cut in cuts.cuts:
        for name in (cut.name, *cut.also_called, cut.id):
            wanted = re.findall(r"[a-z]+|[0-9]+", name.casefold())
            for first in range(len(words) - len(wanted) + 1):
                window = words[first : first + len(wanted)]
                alike = _alike([word for word, _, _ in window], wanted)
                if alike and not _of_another_animal(words, first, len(wanted), cut):
                    named = Named(cut=cut, start=window[0][1], end=window[-1][2])
                    rank = (len(wanted), alike)
                    if best is None or rank > best[0]:
                        best = (rank, named)
    return best[1] if best else None


def find_cuts(heard: str, cuts: Cuts) -> tuple[Named, ...]:
    """Return every cut that a tidied text names, in the order of the text; a second name of one cut is no other cut."""
    found: list[Named] = []
    rest = heard
    while (named := find_cut(rest, cuts)) is not None:
        found.append(named)
        rest = cut_out(rest, [(named.start, named.end)])
    return tuple(sorted(found, key=lambda named: named.start))


def _alike(typed: list[str], wanted: list[str]) -> float:
    """Return how alike two lists of words are (0: not the same name)."""
    total = 0.0
    for word, other in zip(typed, wanted, strict=True):
        ratio = word_alike(word, other)
        if ratio < ALIKE:
            return 0.0
        total += ratio
    return total / len(wanted)


def _of_another_animal(words: list[tuple[str, int, int]], first: int, length: int, cut: Cut) -> bool:
    around = words[max(0, first - 1) : first + length + 1]
    return any(ANIMALS.get(word, cut.species) != cut.species for word, _, _ in around)
