"""From what was typed to a plan: the facts that a chat would write, and the situation that follows from them.

It reads no file and no clock.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from bot.plan.wanted import (
    PieceWanted,
    PlanTyped,
    Unusable,
    in_a_gap,
    read_care,
    read_confidence,
    read_guests,
    read_instant,
    read_piece,
    read_pit,
    read_serving,
)  # fmt: skip
from scheduler.cook import Beginning, Changes, Refusal, Situation, begin
from scheduler.cookers import Cards
from scheduler.facts import (
    CookerTold,
    Edition,
    Fact,
    PieceAdded,
    Planned,
    SafeByTold,
    Serving,
    TargetTold,
    TreatedTold,
)  # fmt: skip
from scheduler.planning.alternatives import Alternative
from scheduler.planning.bounds import PitSense, pit_sense
from scheduler.planning.catalogue import Catalogue
from scheduler.planning.shared_fire import alternatives_of

COOK = "plan"
"""The cook of a plan that nobody keeps; forecasts depend on it, so that the same words give the same plan."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Made:
    """A plan: the situation of its log, as of `now` (UTC), and the plans beside it."""

    facts: tuple[Fact, ...]
    """The log that a chat would begin with."""
    situation: Situation
    offered: tuple[Alternative, ...]
    now: dt.datetime
    assumed: tuple[str, ...]
    """What nobody said and was taken as usual, "mass" and "pit"; "gap": dinner is at a time the clocks leave out."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Refused:
    """A dinner that cannot be."""

    refusal: Refusal
    zone: str
    unit: str
    now: dt.datetime


def make(
    typed: PlanTyped,
    *,
    zone: str,
    now: dt.datetime,
    catalogue: Catalogue,
    cards: Cards | None = None,
    edition: Edition = Edition.STRICTER,
) -> Made | Refused | list[Unusable]:
    """Return the plan of what was typed, why its dinner cannot be, or everything that cannot be used.

    `zone` counts where nothing typed names one; `now` (aware, UTC) where no other present was given.
    """
    here = _zone(typed.zone or zone)
    if here is None:
        return [Unusable(trouble="zone", given=typed.zone or zone)]
    told = None if typed.now is None else read_instant(typed.now, here)
    pieces, wrong = _pieces(typed, here, catalogue)
    cooker = None if typed.cooker is None else _cooker(typed.cooker, catalogue, cards)
    guests = None if typed.guests is None else read_guests(typed.guests)
    confidence = None if typed.confidence is None else read_confidence(typed.confidence)
    for trouble, given, found in (
        ("now", typed.now, told), ("cooker", typed.cooker, cooker), ("confidence", typed.confidence, confidence),
        ("guests", typed.guests, guests),
    ):  # fmt: skip
        if given is not None and found is None:
            wrong.append(Unusable(trouble=trouble, given=str(given)))
    if wrong:
        return wrong
    at = told or now
    first = pieces[0]
    assert first.serving is not None
    planned = dataclasses.replace(_planned(first, first.serving, typed), confidence=confidence)
    beginning = Beginning(
        cook=COOK,
        planned=planned,
        more=tuple(_added(piece, first) for piece in pieces[1:]),
        cooker=cooker,
        guests=guests,
        care=read_care(typed),
        edition=edition,
        wishes=tuple((f"p{number}", body) for number, piece in enumerate(pieces, 1) for body in _wishes(piece)),
    )
    begun = begin(beginning, by="", now=at, seed=COOK, message=None, catalogue=catalogue)
    if isinstance(begun, Refusal):
        return Refused(refusal=begun, zone=here.key, unit=planned.unit, now=at)
    return _made(begun, at, pieces, catalogue)


def _made(begun: Changes, now: dt.datetime, pieces: list[PieceWanted], catalogue: Catalogue) -> Made:
    views = begun.after.views
    assumed = [name for name, missing in (
        ("mass", any(piece.mass_kg is None for piece in pieces)), ("pit", pieces[0].pit_c is None),
        ("gap", any(piece.serving is not None and in_a_gap(piece.serving) for piece in pieces)),
    ) if missing]  # fmt: skip
    return Made(
        facts=begun.facts,
        situation=begun.after,
        offered=alternatives_of([(view.state, view.cut) for view in views], catalogue.cookers),
        now=now,
        assumed=tuple(assumed),
    )


def _wishes(piece: PieceWanted) -> list[TreatedTold | SafeByTold | TargetTold]:
    """Return what was told of the meat of a piece, and the core that is wished of it."""
    treated = [] if piece.treated is None else [TreatedTold(treatments=piece.treated)]
    by = [] if piece.safe_by is None else [SafeByTold(by=piece.safe_by)]
    return [*treated, *by, *([] if piece.done_c is None else [TargetTold(core_c=piece.done_c)])]


def _zone(name: str) -> ZoneInfo | None:
    try:
        return ZoneInfo(name)
    except (ZoneInfoNotFoundError, ValueError, OSError):
        return None


def _pieces(typed: PlanTyped, zone: ZoneInfo, catalogue: Catalogue) -> tuple[list[PieceWanted], list[Unusable]]:
    """Return the pieces in figures, each with the dinner and the pit of the whole plan or of the first one."""
    wrong: list[Unusable] = []
    found: list[PieceWanted] = []
    several = len(typed.pieces) > 1
    serving = None if typed.serve is None else read_serving(typed.serve, zone)
    pit = None if typed.pit is None else read_pit(typed.pit)
    if typed.serve is not None and serving is None:
        wrong.append(Unusable(trouble="serve", given=str(typed.serve)))
    if typed.pit is not None and pit is None:
        wrong.append(Unusable(trouble="pit", given=typed.pit))
    for number, one in enumerate(typed.pieces, 1):
        read = read_piece(one, catalogue.cuts, zone, number if several else None)
        if isinstance(read, list):
            wrong += read
            continue
        found.append(dataclasses.replace(read, serving=read.serving or serving, pit_c=read.pit_c or pit))
    # What only one piece says counts for those that say nothing: people write it at the end, or at the beginning.
    serving = next((one.serving for one in found if one.serving is not None), None)
    pit = next((one.pit_c for one in found if one.pit_c is not None), None)
    found = [dataclasses.replace(one, serving=one.serving or serving, pit_c=one.pit_c or pit) for one in found]
    if not wrong and found[0].serving is None:
        wrong.append(Unusable(trouble="no_serve"))
    if not wrong:
        numbered = enumerate(found, 1)
        wrong += [hot for number, piece in numbered if (hot := _too_hot(piece, number if several else None))]
    return found, wrong


def _too_hot(piece: PieceWanted, number: int | None) -> Unusable | None:
    """Return a pit that no plan of this cut bears."""
    low_c, high_c = _pit(piece)
    if pit_sense(piece.cut, piece.wrap, low_c, high_c) is not PitSense.IMPOSSIBLE:
        return None
    return Unusable(trouble="pit_of_cut", piece=number, cut=piece.cut)


def _planned(piece: PieceWanted, serving: Serving, typed: PlanTyped) -> Planned:
    low_c, high_c = _pit(piece)
    texts = [text for text in (typed.pit, *(one.pit for one in typed.pieces)) if text]
    celsius = bool(texts) and texts[0].strip().casefold().endswith("c")
    return Planned(
        cut=piece.cut.id,
        serving=serving,
        pit_low_c=low_c,
        pit_high_c=high_c,
        count=piece.count,
        mass_kg=piece.mass_kg,
        thickness_m=piece.thickness_m,
        wrap=piece.wrap,
        unit="C" if celsius else "F",
    )


def _added(piece: PieceWanted, first: PieceWanted) -> PieceAdded:
    own_pit = piece.pit_c is not None and piece.pit_c != _pit(first)
    low_c, high_c = _pit(piece) if own_pit else (None, None)
    return PieceAdded(
        cut=piece.cut.id,
        count=piece.count,
        mass_kg=piece.mass_kg,
        thickness_m=piece.thickness_m,
        wrap=piece.wrap,
        pit_low_c=low_c,
        pit_high_c=high_c,
        serving=None if piece.serving == first.serving else piece.serving,
    )


def _pit(piece: PieceWanted) -> tuple[float, float]:
    return piece.pit_c or (piece.cut.pit_c.typical, piece.cut.pit_c.typical)


def _cooker(text: str, catalogue: Catalogue, cards: Cards | None) -> CookerTold | None:
    """Return a cooker: a card of the person's own by its name, or a kind."""
    card = None if cards is None else cards.named(text)
    if card is not None:
        return card.told(catalogue.cookers)
    kind = catalogue.cookers.named(text)
    return None if kind is None else catalogue.cookers.of_kind(kind)
