"""What this room cooked before: its cuts, the hour of its dinner, and a cook as last time. Reads the store only."""

from __future__ import annotations

import dataclasses
import datetime as dt

from bot import commands as say
from bot.application.visit import Visit
from bot.messages.figures import Voice
from bot.messages.message import Option
from bot.messages.setup_taps import as_last_time, so_far
from scheduler.facts import CrewTold, Fact, PieceAdded, Serving, WatchesTold
from scheduler.state import effective, fold

USUAL_CLOCK = dt.time(18)
"""When people eat where nobody cooked before; common practice, no source."""

LOOKS_BACK = 5
"""How many cooks of a room are looked at."""

OFFERED = 2
"""How many different cooks are offered again."""


def _past(visit: Visit) -> list[tuple[str, tuple[Fact, ...]]]:
    """Return the last cooks of a room, newest first, with their facts."""
    store = visit.house.store
    found = ((cook, store.cook(cook)) for cook in store.recent_cooks(visit.address, LOOKS_BACK))
    return [(cook, snapshot.facts) for cook, snapshot in found if snapshot is not None and snapshot.facts]


def past_cuts(visit: Visit) -> tuple[str, ...]:
    """Return the cuts that this room cooked, the newest first."""
    return tuple(dict.fromkeys(fold(facts).planned.cut for _cook, facts in _past(visit)))


def dinner_clock(visit: Visit, like: str | None = None) -> dt.time:
    """Return the time of day at which this room ate last, or in the cook that another is to be like."""
    starts = [(cook, fold(facts).serving.start) for cook, facts in _past(visit)]
    known = [start for cook, start in starts if start is not None and like in (None, cook)]
    return known[0].time() if known else USUAL_CLOCK


def offers(visit: Visit, voice: Voice) -> tuple[Option, ...]:
    """Return buttons that set up a cook like one before, different ones only."""
    cuts = visit.house.catalogue.cuts
    found: dict[str, Option] = {}
    for cook, facts in _past(visit):
        draft = _draft_of(facts)
        if not set(_cuts_in(draft)) <= {cut.id for cut in cuts.cuts}:
            continue  # an own cut that is gone
        said = so_far(draft, cuts, voice)
        found.setdefault(said, as_last_time(said, fold(facts).serving, cook))
    return tuple(found.values())[:OFFERED]


def _cuts_in(draft: say.Draft) -> tuple[str, ...]:
    return (*([draft.cut] if draft.cut else []), *(piece.cut for piece in draft.more))


def like(visit: Visit, cook: str) -> say.Draft | None:
    """Return a set-up like an earlier cook of this room without its date, None when it is not one of them."""
    facts = next((facts for known, facts in _past(visit) if known == cook), None)
    return None if facts is None else _draft_of(facts)


def _draft_of(facts: tuple[Fact, ...]) -> say.Draft:
    """Return what was said of a cook, but for its date and who eats: that is asked every time."""
    state = fold(facts)
    planned, cooker = state.planned, state.cooker
    kept = {piece.id for piece in state.pieces}
    added = {f.piece: f.body for f in effective(facts) if isinstance(f.body, PieceAdded) and f.piece in kept}
    wrapped = state.wraps[-1][1].wrap if state.wraps else planned.wrap
    return say.Draft(
        cut=planned.cut,
        count=planned.count if planned.count > 1 else None,
        mass_kg=planned.mass_kg,
        pit_low_c=planned.pit_low_c,
        pit_high_c=planned.pit_high_c,
        wrap=wrapped,
        cooker=None if cooker is None else say.CookerSaid(cooker=cooker.cooker, card=cooker.name),
        read_by=planned.read_by,
        confidence=planned.confidence,
        more=tuple(_piece(body) for body in added.values()),
    )


def _piece(added: PieceAdded) -> say.PieceDraft:
    return say.PieceDraft(
        cut=added.cut,
        count=added.count if added.count > 1 else None,
        mass_kg=added.mass_kg,
        pit_low_c=added.pit_low_c,
        pit_high_c=added.pit_high_c,
        serving=added.serving,
        wrap=added.wrap,
    )


def with_waves(draft: say.Draft, visit: Visit, like_cook: str | None) -> say.Draft:
    """Return a set-up like an earlier one with the dinners of single pieces as far from the first as they were then."""
    facts = next((facts for known, facts in _past(visit) if known == like_cook), None)
    old = None if facts is None else fold(facts).serving.start
    new = None if draft.serving is None else draft.serving.start
    if old is None or new is None:
        return draft
    by = new - old
    more = tuple(
        piece.model_copy(update={"serving": _moved(piece.serving, by)}) if piece.serving is not None else piece
        for piece in draft.more
    )
    return draft.model_copy(update={"more": more})


def _moved(serving: Serving, by: dt.timedelta) -> Serving:
    start = None if serving.start is None else serving.start + by
    return dataclasses.replace(serving, start=start, end=None if serving.end is None else serving.end + by)


def crew_like(
    visit: Visit, cook: str | None, serving: Serving | None
) -> tuple[tuple[CrewTold, ...], WatchesTold | None]:
    """Return the roles of an earlier cook's crew and its watches, as far from dinner as they were then.

    Whoever is no longer known here has no role; watches need a dinner at a time of the clock, then and now.
    """
    facts = next((facts for known, facts in _past(visit) if known == cook), None) if cook is not None else None
    if facts is None:
        return (), None
    state = fold(facts)
    known = {person.name for person in visit.house.store.people()}
    crew = tuple(
        CrewTold(name=name, role=role)
        for name, roles in sorted(state.crew.items())
        if name in known
        for role in sorted(roles)
    )
    old, new = state.serving.start, None if serving is None else serving.start
    if state.watches is None or old is None or new is None:
        return crew, None
    by = new - old
    spans = (dataclasses.replace(one, start=one.start + by, end=one.end + by) for one in state.watches.watches)
    return crew, dataclasses.replace(state.watches, watches=tuple(spans))
