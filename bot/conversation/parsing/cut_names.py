"""Finds the name of a cut in a tidied text, kindly: case, plural and small typing errors do not matter.

It never guesses between animals ("lamb shoulder" is not pork shoulder) nor between pieces ("turkey legs" is no turkey).
"""

from __future__ import annotations

import dataclasses
import itertools
import re

from bot.conversation.parsing.words import cut_out, word_set
from scheduler.cut_names import ALIKE, ANIMALS, FOODS, another_piece, word_alike
from scheduler.cuts import Cut, Cuts

OTHER_FOODS = FOODS - word_set("beef cow ox pork pig hog rib ribs chuck roast back spare baby corned shank")
"""Foods that are none of the cuts, whatever stands beside them."""
ALSO_OF = {"mixed": frozenset({"beef", "pork", "lamb"})}
"""Animals that a cut of no one animal may be of."""
_CHANGES = word_set("spatchcock spatchcocked butterflied cured corned ground minced")
"""Right before a name they mean another thing, unless the name says them itself."""

BIRDS = word_set("chicken turkey duck goose")
"""Animals of one species in the catalogue that are not one another."""

_BRISKET = re.compile(r"\bbriskets?\b")
_WHOLE, _PARTS = "brisket_packer", ("brisket_flat", "brisket_point")


@dataclasses.dataclass(frozen=True, kw_only=True)
class Named:
    """A cut that was named, at `start:end` of the text."""

    cut: Cut
    start: int
    end: int


@dataclasses.dataclass(frozen=True, kw_only=True)
class _Word:
    text: str
    start: int
    end: int


def find_cut(heard: str, cuts: Cuts) -> Named | None:
    """Return the cut that a tidied text names, by the longest name that matches, or None."""
    words = [
        _Word(text=found.group(), start=found.start(), end=found.end())
        for found in re.finditer(r"[a-z]+|[0-9]+(?=[- ]bone)", heard)
    ]
    best: tuple[tuple[int, float], Named] | None = None
    for cut in cuts.cuts:
        for name in (cut.name, *cut.also_called, cut.id):
            wanted = re.findall(r"[a-z]+|[0-9]+", name.casefold())
            for first in range(len(words) - len(wanted) + 1):
                window = words[first : first + len(wanted)]
                alike = _alike([word.text for word in window], wanted)
                if wanted and alike and not _means_another(heard, words, first, len(wanted), cut):
                    named = Named(cut=cut, start=window[0].start, end=window[-1].end)
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
    return _one_brisket(heard, sorted(found, key=lambda named: named.start), cuts)


def _one_brisket(heard: str, found: list[Named], cuts: Cuts) -> tuple[Named, ...]:
    """Return what was named with a brisket told in several words as one: "the flat of the brisket" is a flat, "brisket
    (point and flat)" a whole one.
    """
    spans = [named for named in found if named.cut.id in (_WHOLE, *_PARTS)]
    parts = {named.cut.id: named.cut for named in spans if named.cut.id in _PARTS}
    if len(spans) == 1 or not parts or not _close(heard, spans) or len(_BRISKET.findall(heard)) > 1:
        return tuple(found)
    cut = next(iter(parts.values())) if len(parts) == 1 else cuts.get(_WHOLE)
    one = Named(cut=cut, start=min(n.start for n in spans), end=max(n.end for n in spans))
    return tuple(sorted((*(n for n in found if n not in spans), one), key=lambda named: named.start))


def _close(heard: str, spans: list[Named]) -> bool:
    """Return whether only small words stand between the names, so that they tell of one piece."""
    ordered = sorted(spans, key=lambda named: named.start)
    between = [heard[a.end : b.start] for a, b in itertools.pairwise(ordered)]
    return all(re.fullmatch(r"[\s,(+&-]*(?:(?:of|the|cut|end|and|with|from|a|my)[\s,(+&-]*)*", gap) for gap in between)


def _alike(typed: list[str], wanted: list[str]) -> float:
    """Return how alike two lists of words are (0: not the same name)."""
    total = 0.0
    for word, other in zip(typed, wanted, strict=True):
        ratio = word_alike(word, other)
        if ratio < ALIKE:
            return 0.0
        total += ratio
    return total / len(wanted) if wanted else 0.0


def _means_another(heard: str, words: list[_Word], first: int, length: int, cut: Cut) -> bool:
    """Return whether the words right beside a name say that another animal or another piece is meant."""
    before = words[first - 1] if first else None
    after = words[first + length] if first + length < len(words) else None
    if before is not None and _apart(heard, before.end, words[first].start):
        before = None
    if after is not None and _apart(heard, words[first + length - 1].end, after.start):
        after = None
    allowed = ALSO_OF.get(cut.species, frozenset()) | {cut.species}
    beside = [word.text for word in (before, after) if word is not None]
    if any(ANIMALS.get(word, cut.species) not in allowed for word in beside):
        return True
    if before is not None and before.text in BIRDS and before.text not in _words_of(cut):
        return True
    if before is not None and before.text in _CHANGES and _touch(heard, before.end, words[first].start):
        return True
    return after is not None and another_piece(after.text) and _touch(heard, words[first + length - 1].end, after.start)


def _words_of(cut: Cut) -> set[str]:
    return set(re.findall("[a-z]+", " ".join((cut.name, *cut.also_called)).casefold()))


def _touch(heard: str, end: int, start: int) -> bool:
    """Return whether only a space or a hyphen stands between two words."""
    return re.fullmatch(r"[ -]*", heard[end:start]) is not None


def _apart(heard: str, end: int, start: int) -> bool:
    """Return whether a comma or the like stands between two words: they are said of two things."""
    return re.search(r"[,;+/|]", heard[end:start]) is not None
