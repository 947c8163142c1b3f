"""A set-up as the plan of a cook: what the engine makes of it, whether it was said whole or filled in as usual."""

from __future__ import annotations

from bot import commands as say
from bot.application.cookers import cooker_told
from bot.application.habits import usual_detail
from bot.application.handlers.setup_memory import Setup
from bot.application.last_time import crew_like
from bot.application.visit import Visit
from bot.application.voices import DEFAULT_UNIT
from bot.conversation.flows.care import OfPiece, care_told, wishes_of
from bot.conversation.flows.setup import guests_told, more_pieces, planned
from bot.messages import setup
from bot.messages.figures import Voice
from scheduler.cook import Beginning, Changes, Refusal, begin
from scheduler.cuts import Cut
from scheduler.facts import AirTold, CareTold, Serving, ServingKind


def begun_of(visit: Visit, known: Setup, cook: str, *, with_crew: bool = False) -> Changes | Refusal:
    """Return the first facts of the cook that was set up, or why it cannot be; `with_crew`: that of the cook that it is
    to be like.
    """
    draft = known.draft
    crew, watches = crew_like(visit, known.like, draft.serving) if with_crew else ((), None)
    return begin(
        Beginning(
            cook=cook,
            planned=planned(_as_usual(draft, visit), visit.house.zone, known.unit or visit.manner.unit or DEFAULT_UNIT),
            on_at=draft.on_at,
            core_c=draft.core_c,
            air=None if draft.air is None else AirTold(**draft.air.model_dump(exclude={"kind"})),
            cooker=None if draft.cooker is None else cooker_told(draft.cooker, visit.house),
            more=more_pieces(draft, visit.house.zone),
            guests=guests_told(draft.guests),
            care=None if draft.care is None else care_told(draft.care, CareTold()),
            edition=draft.edition or visit.house.edition,
            wishes=_wishes(draft, visit),
            crew=crew,
            watches=watches,
        ),
        by=visit.person.name,
        now=visit.now,
        seed=visit.seed,
        message=visit.incoming.message,
        catalogue=visit.house.catalogue,
    )


def _wishes(draft: say.Draft, visit: Visit) -> tuple[tuple[str, OfPiece], ...]:
    """Return what was told of the meat of each piece and wished of it."""
    pieces: tuple[say.Draft | say.PieceDraft, ...] = (draft, *draft.more)
    return tuple(
        (f"p{number}", body)
        for number, piece in enumerate(pieces, 1)
        if piece.cut is not None
        for body in wishes_of(piece, visit.house.catalogue.cuts.get(piece.cut))
    )


def _as_usual(draft: say.Draft, visit: Visit) -> say.Draft:
    """Return the draft with the level of detail of the last cook, where nobody said another."""
    return draft if draft.detail is not None else draft.model_copy(update={"detail": usual_detail(visit)})


def on_one_fire(draft: say.Draft, visit: Visit) -> tuple[Cut, ...]:
    """Return the cuts that share the pit: not those with a pit of their own."""
    sharing = [draft.cut, *(piece.cut for piece in draft.more if piece.pit_low_c is None)]
    return tuple(visit.house.catalogue.cuts.get(cut) for cut in sharing if cut is not None)


def filled(draft: say.Draft, cut: Cut, voice: Voice, others: tuple[Cut, ...] = ()) -> say.Draft:
    """Return the set-up with the usual pit, and dinner when it is ready, where nobody said another."""
    update: dict[str, object] = {"cut": cut.id}
    if draft.pit_low_c is None:
        _, usual_c, _ = setup.usual_pits((cut, *others), voice)
        update |= {"pit_low_c": usual_c, "pit_high_c": usual_c}
    if draft.serving is None:
        update["serving"] = Serving(kind=ServingKind.WHEN_READY, zone=voice.zone)
    return draft.model_copy(update=update)
