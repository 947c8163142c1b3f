"""Setting up a cook over several messages: what is known, what to ask next, and the plan's inputs once all is said.

It asks nothing itself; words for the questions are made in `bot.messages`.
"""

from __future__ import annotations

import dataclasses

from bot.commands import AddPiece, AirSaid, CareSaid, Draft, GuestsSaid, PieceDraft, TreatedSaid, VaguePiece
from scheduler.facts import Appetite, Detail, GuestsTold, PieceAdded, Planned
from scheduler.planning.backward import LEAST_CONFIDENCE, MOST_CONFIDENCE

ORDER = ("cut", "serving", "pit")
"""The slots that must be known, in the order they are asked. Mass and count have usual figures."""

WALK = ("cut", "mass", "serving", "pit")
"""The slots that are asked of somebody who taps, in that order."""

_SLOT: dict[str, tuple[str, ...]] = {
    "cut": (
        "cut",
        "unknown_cut",
        "count",
        "mass_kg",
        "mass_usual",
        "wrap",
        "more",
        "vague",
        "treated",
        "target",
        "safe_by",
    ),
    "mass": ("mass_kg", "mass_usual", "count"),
    "serving": ("serving",),
    "pit": ("pit_low_c", "pit_high_c"),
}
"""What is forgotten when a slot is asked anew: another cut is another piece of meat."""

BY_COUNT = frozenset({"rack", "cheek", "thigh", "link"})
"""Pieces of these words are counted, not weighed: a rib cook takes as long with one rack as with six."""


WARM_C = 25.0
"""A core above this has been on the fire: a fridge holds 4 C, and nobody plans with warm raw meat [°C]."""


def merge(draft: Draft, newer: Draft) -> Draft:
    """Return the draft with what was said since; a newer word replaces an older one.

    A known cut clears unknown words before it, and unknown words never take a known cut away. `ignored` is what the
    newer text had to leave out.
    """
    said = {name: value for name, value in newer if value is not None and name != "kind" and value != ()}
    said["ignored"] = newer.ignored
    merged = draft.model_copy(update=said)
    if draft.more and newer.more:
        merged = merged.model_copy(update={"more": (*draft.more, *newer.more)})
    if draft.vague and newer.vague:
        merged = merged.model_copy(update={"vague": (*draft.vague, *newer.vague)})
    if newer.settles is not None:
        left = tuple(piece for piece in merged.vague if piece.words != newer.settles)
        merged = merged.model_copy(update={"vague": left, "settles": None})
    if merged.cut is None and merged.more:
        merged = _leading(merged)
    if draft.air is not None and newer.air is not None:
        merged = merged.model_copy(update={"air": _air(draft.air, newer.air)})
    if draft.care is not None and newer.care is not None:
        merged = merged.model_copy(update={"care": _care(draft.care, newer.care)})
    if merged.cut is not None and merged.unknown_cut is not None:
        merged = merged.model_copy(update={"unknown_cut": None})
    return merged


def settled(piece: VaguePiece, said: Draft | None) -> Draft:
    """Return what settles a piece whose cut was asked: the cut that was said, or none, when it is left out."""
    if said is None or said.cut is None:
        return Draft(settles=piece.words, ignored=(piece.words,))
    named = PieceDraft(
        cut=said.cut,
        count=said.count or piece.count,
        mass_kg=piece.mass_kg if said.mass_kg is None else said.mass_kg,
        wrap=said.wrap or piece.wrap,
        treated=said.treated,
        target=said.target,
        safe_by=said.safe_by,
    )
    apart = ("cut", "count", "mass_kg", "wrap", "treated", "target", "safe_by")
    update: dict[str, object] = dict.fromkeys(apart) | {"more": (named, *said.more)}
    return said.model_copy(update=update | {"settles": piece.words, "walked": None})


def _leading(draft: Draft) -> Draft:
    """Return the draft of a cook of which only further pieces were named: the first of them leads it."""
    first, rest = draft.more[0], draft.more[1:]
    update = {
        "cut": first.cut, "count": draft.count or first.count, "mass_kg": draft.mass_kg or first.mass_kg, "more": rest,
        "treated": draft.treated or first.treated, "target": draft.target or first.target,
        "safe_by": draft.safe_by or first.safe_by,
    }  # fmt: skip
    return draft.model_copy(update=update)


def _air(air: AirSaid, newer: AirSaid) -> AirSaid:
    """Return the air with what was said since: warmth and wind each by itself."""
    warmth = air if newer.temp_c is None and newer.word is None else newer
    return AirSaid(temp_c=warmth.temp_c, word=warmth.word, wind=newer.wind or air.wind)


def _care(care: CareSaid, newer: CareSaid) -> CareSaid:
    """Return who eats and where with what was said since; allergies of several messages add up."""
    allergies = newer.allergies
    if allergies and care.allergies:
        allergies = tuple(dict.fromkeys((*care.allergies, *allergies)))
    return CareSaid(
        at_risk=care.at_risk if newer.at_risk is None else newer.at_risk,
        allergies=care.allergies if allergies is None else allergies,
        public=care.public if newer.public is None else newer.public,
    )


def more_pieces(draft: Draft, zone: str) -> tuple[PieceAdded, ...]:
    """Return the other pieces of the cook as fact bodies."""
    return tuple(piece_added(piece, zone) for piece in draft.more)


def piece_added(piece: PieceDraft, zone: str) -> PieceAdded:
    """Return one piece as a fact body, a serving time of its own in the cook's zone."""
    return PieceAdded(
        cut=piece.cut,
        count=piece.count or 1,
        mass_kg=piece.mass_kg,
        wrap=piece.wrap,
        pit_low_c=piece.pit_low_c,
        pit_high_c=piece.pit_high_c if piece.pit_high_c is not None else piece.pit_low_c,
        serving=None if piece.serving is None else dataclasses.replace(piece.serving, zone=zone),
    )


def guests_told(said: GuestsSaid | None) -> GuestsTold | None:
    """Return who eats as a fact body, None when nobody said."""
    if said is None:
        return None
    return GuestsTold(
        adults=said.adults,
        children=said.children,
        appetite=said.appetite or Appetite.NORMAL,
        buns=bool(said.buns),
    )


def missing(draft: Draft) -> str | None:
    """Return the slot to ask for next (cut, which, mass, serving, pit), or None when a plan can be made."""
    if draft.cut is not None and draft.vague:
        return "which"
    weighed = draft.mass_kg or draft.count or draft.mass_usual or None
    known = {"cut": draft.cut, "serving": draft.serving, "pit": draft.pit_low_c, "mass": weighed}
    walks = draft.walked and draft.on_at is None
    return next((slot for slot in (WALK if walks else ORDER) if known[slot] is None), None)


def only_names_a_cut(newer: Draft, draft: Draft) -> bool:
    """Return whether a cut was named and nothing else so far: such a set-up is walked through as if it were tapped."""
    said = {name for name, value in newer if value not in (None, ()) and name not in ("kind", "walked")}
    known = (draft.serving, draft.pit_low_c, draft.on_at, draft.core_c, draft.guests, draft.more, draft.vague)
    return said == {"cut"} and not any(known)


def shows_all(draft: Draft) -> bool:
    """Return whether a set-up of which all is known is shown once more before it begins: one that was tapped."""
    return bool(draft.walked) and draft.on_at is None and missing(draft) is None


def without(draft: Draft, slot: str) -> Draft:
    """Return a set-up that is to be asked for a slot anew; all else stays."""
    empty = Draft()
    return draft.model_copy(update={name: getattr(empty, name) for name in _SLOT.get(slot, ())} | {"walked": True})


def before(slot: str | None) -> str | None:
    """Return the slot that was asked before another (None: before the whole was shown); None: it is the first."""
    if slot not in WALK:
        return WALK[-1]
    at = WALK.index(slot)
    return WALK[at - 1] if at else None


def within_limits(confidence: float | None) -> float | None:
    """Return a wanted probability within what a plan can be made for, None when nobody said one."""
    return None if confidence is None else min(max(confidence, LEAST_CONFIDENCE), MOST_CONFIDENCE)


def is_warm(core_c: float | None) -> bool:
    """Return whether a core [°C] shows that the meat is on the fire: raw meat is cold, its fire is still to be lit."""
    return core_c is not None and core_c > WARM_C


def planned(draft: Draft, zone: str, unit: str) -> Planned:
    """Return the inputs of the cook as a fact body, in the cook's own zone.

    Raises
    ------
    ValueError
        When something is still missing: ask `missing` first.
    """
    if draft.cut is None or draft.serving is None or draft.pit_low_c is None:
        raise ValueError(f"the draft has no {missing(draft)} yet")
    high_c = draft.pit_high_c if draft.pit_high_c is not None else draft.pit_low_c
    return Planned(
        cut=draft.cut,
        serving=dataclasses.replace(draft.serving, zone=zone),
        pit_low_c=draft.pit_low_c,
        pit_high_c=high_c,
        count=draft.count or 1,
        mass_kg=draft.mass_kg,
        wrap=draft.wrap,
        frozen=bool(draft.frozen),
        read_by=draft.read_by,
        confidence=within_limits(draft.confidence),
        detail=draft.detail or Detail.USUAL,
        unit=unit,
        from_middle=draft.on_at is not None or is_warm(draft.core_c),
    )


DRAFTS = (Draft, AddPiece, GuestsSaid, TreatedSaid)
"""What is a part of a set-up."""


def drafted(intent: Draft | AddPiece | GuestsSaid | TreatedSaid) -> Draft:
    """Return what was said as a part of the set-up."""
    match intent:
        case TreatedSaid():
            return Draft(treated=intent)
        case AddPiece():
            return Draft(more=intent.more, ignored=intent.ignored)
        case GuestsSaid():
            return Draft(guests=intent)
        case _:
            return intent
