"""From what was said of guests, meat and wishes to facts. It judges nothing and asks nothing."""

from __future__ import annotations

from bot.commands import UNNAMED, CareSaid, Doneness, Draft, PieceDraft
from scheduler.cuts import Cut
from scheduler.facts import CareTold, SafeByTold, TargetTold, TreatedTold

_WORDS_C: dict[Doneness, float] = {
    "rare": 52.0, "medium_rare": 54.4, "pink": 57.0, "medium": 60.0, "medium_well": 66.0, "well_done": 71.1,
}  # fmt: skip
"""Cores that kitchens mean by these words for beef and lamb (from memory, common practice) [°C]."""

_SAID_OF = frozenset({"beef", "lamb"})

OfPiece = TreatedTold | SafeByTold | TargetTold


def care_told(said: CareSaid, before: CareTold) -> CareTold:
    """Return who eats and where as a fact; allergies add up, and "none of these" takes back nothing that was told."""
    allergies = said.allergies
    if allergies:
        known = [one for one in before.allergies or () if one != UNNAMED]
        new = [one for one in allergies if one != UNNAMED]
        allergies = tuple(dict.fromkeys((*known, *new))) or (UNNAMED,)
    if not said.all_told:
        return CareTold(at_risk=said.at_risk, allergies=allergies, public=said.public)
    return CareTold(
        at_risk=False if before.at_risk is None else None,
        allergies=() if before.allergies is None else None,
        public=False if before.public is None else None,
    )


def core_of_word(word: Doneness, cut: Cut) -> float | None:
    """Return the core that a word means [°C]; None where it asks for no other than the usual: words of pink are said of
    beef and lamb, for other meat they are kept to be refused by its minimum.
    """
    if cut.species in _SAID_OF or word not in ("medium_well", "well_done"):
        return _WORDS_C[word]
    return None


def wishes_of(piece: Draft | PieceDraft, cut: Cut) -> tuple[OfPiece, ...]:
    """Return what was told of the meat of one piece and wished of it, as facts."""
    found: list[OfPiece] = []
    if piece.treated is not None:
        found.append(TreatedTold(treatments=piece.treated.treatments))
    elif piece.safe_by is not None and piece.safe_by.intact:
        found.append(TreatedTold())
    if piece.safe_by is not None:
        found.append(SafeByTold(by=piece.safe_by.by))
    wished_c = wished_core(piece, cut)
    if wished_c is not None:
        found.append(TargetTold(core_c=wished_c))
    return tuple(found)


def wished_core(piece: Draft | PieceDraft, cut: Cut) -> float | None:
    """Return the core at which a piece is wished to come off [°C], None where nobody wished one."""
    if piece.target is None:
        return None if piece.safe_by is None else piece.safe_by.core_c
    if piece.target.core_c is not None:
        return piece.target.core_c
    return None if piece.target.word is None else core_of_word(piece.target.word, cut)


def unwished(draft: Draft, piece: str | None) -> Draft:
    """Return a set-up without the core and the rule that were wished of a piece (None: the only one): refused once, the
    usual core counts unless another is said.
    """
    number = int((piece or "p1")[1:])
    gone: dict[str, object] = {"target": None, "safe_by": None}
    if number == 1:
        return draft.model_copy(update=gone)
    more = list(draft.more)
    more[number - 2] = more[number - 2].model_copy(update=gone)
    return draft.model_copy(update={"more": tuple(more)})
