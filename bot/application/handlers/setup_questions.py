"""The question that is open in a set-up, and the usual answers to it."""

from __future__ import annotations

import dataclasses
import datetime as dt
import functools
from zoneinfo import ZoneInfo

from bot import commands as say
from bot.application.handlers.setup_memory import Setup, setup_voice
from bot.application.handlers.setup_plan import begun_of, filled, on_one_fire
from bot.application.last_time import dinner_clock, offers, past_cuts
from bot.application.visit import Visit
from bot.conversation.flows.setup import BY_COUNT, missing, settled, shows_all
from bot.messages import own_cuts, setup, setup_taps
from bot.messages.figures import Voice
from bot.messages.message import Message
from bot.messages.setup_core import ask_core
from scheduler.cook import Changes
from scheduler.facts import Serving, ServingKind

EVENINGS = 4
"""How many dinners have a button (own choice)."""

TRIED = 2
"""So many days from today it is tried whether dinner can be: every cut is done by the day after."""


def broken(visit: Visit) -> Message:
    """Return what is wrong with the own cuts, for whoever may look for one of them; nothing when all are right."""
    cuts, cards = visit.house.complaints, visit.house.card_complaints
    told = Message(text=own_cuts.broken(cuts) if cuts else "")
    return told.then(Message(text=own_cuts.broken(cards, own_cuts.COOKERS_FILE) if cards else ""))


def next_question(visit: Visit, known: Setup) -> Message:
    """Return the question that is open in a set-up, below what was said so far and with the way back."""
    cuts, voice = visit.house.catalogue.cuts, setup_voice(visit, known.unit)
    slot = open_slot(known)
    if slot in (None, "core"):
        return ask_core(known.draft, cuts)
    if slot == "which":
        vague = known.draft.vague[0]
        return setup.ask_which(vague, cuts, functools.partial(settled, vague))
    said = setup_taps.so_far(known.draft, cuts, voice)
    if slot == "all":
        return setup_taps.show_all(said)
    asked = _asked(visit, known, slot, voice)
    if slot == "cut" and known.draft.unknown_cut:
        return broken(visit).then(asked)
    return setup_taps.with_way_back(asked, said, first=known.draft.cut is None)


def open_slot(known: Setup) -> str | None:
    """Return what is asked for now: a slot, "all" where the whole is shown, None where only a wished core is open."""
    if known.slot in {"wrap", "who"} and missing(known.draft) is None:
        return known.slot
    return missing(known.draft) or ("all" if shows_all(known.draft) and known.slot != "core" else None)


def _asked(visit: Visit, known: Setup, slot: str, voice: Voice) -> Message:
    cuts, draft = visit.house.catalogue.cuts, known.draft
    if draft.cut is None or slot == "cut":
        return setup.ask_cut(cuts, draft.unknown_cut, past_cuts(visit), offers(visit, voice))
    cut = cuts.get(draft.cut)
    match slot:
        case "mass":
            return setup_taps.ask_mass(cut, voice.unit, counted=cut.piece_word in BY_COUNT)
        case "serving":
            return setup_taps.ask_serving(evenings(visit, known), voice)
        case "wrap":
            return setup_taps.ask_wrap(cut)
        case "who":
            return setup_taps.ask_who()
        case _:
            return setup.ask_pit(on_one_fire(draft, visit), voice)


def evenings(visit: Visit, known: Setup) -> tuple[Serving, ...]:
    """Return the next dinners that can be had, at the hour at which this room ate last."""
    zone = visit.house.zone
    clock, today = dinner_clock(visit, known.like), visit.now.astimezone(ZoneInfo(zone)).date()
    found: list[Serving] = []
    for days in range(EVENINGS + TRIED):
        start = dt.datetime.combine(today + dt.timedelta(days=days), clock)
        one = Serving(kind=ServingKind.AT, zone=zone, start=start)
        if days > TRIED or _can_be(visit, known, one):
            found.append(one)
    return tuple(found[:EVENINGS])


def _can_be(visit: Visit, known: Setup, serving: Serving) -> bool:
    """Return whether dinner can be then."""
    at = serving.starts_at()
    if at is None or at <= visit.now or known.draft.cut is None:
        return at is not None and at > visit.now
    cut = visit.house.catalogue.cuts.get(known.draft.cut)
    draft = filled(known.draft.model_copy(update={"serving": serving}), cut, setup_voice(visit, known.unit))
    return isinstance(begun_of(visit, dataclasses.replace(known, draft=draft), "c0"), Changes)


def usual_answer(visit: Visit, known: Setup) -> list[say.Draft]:
    """Return the usual answer to the open question, where there is one: the pit of the cut."""
    if missing(known.draft) == "which":
        return [settled(known.draft.vague[0], None)]
    if missing(known.draft) == "mass":
        return [say.Draft(mass_usual=True)]
    if missing(known.draft) != "pit" or known.draft.cut is None:
        return []
    _, usual_c, _ = setup.usual_pits(on_one_fire(known.draft, visit), setup_voice(visit, known.unit))
    return [say.Draft(pit_low_c=usual_c, pit_high_c=usual_c)]


def each_cut(visit: Visit, known: Setup) -> Message:
    """Answer what each of the usual cuts would mean for a cook begun in the middle."""
    found = []
    for cut in (one for one in visit.house.catalogue.cuts.cuts if one.id in setup.USUAL):
        draft = filled(known.draft, cut, setup_voice(visit, known.unit))
        begun = begun_of(visit, dataclasses.replace(known, draft=draft), "c0")
        if isinstance(begun, Changes):
            found.append((cut, begun.after))
    return (
        setup.which_of(tuple(found), known.draft, setup_voice(visit, known.unit))
        if found
        else setup.ask_cut(visit.house.catalogue.cuts)
    )
