"""Setting up a cook: what is known so far, the next question, and the beginning."""

from __future__ import annotations

import dataclasses
import datetime as dt
import functools
import re

from bot import commands as say
from bot.application.among import entitle
from bot.application.announcements import answer
from bot.application.cookers import cooker_told
from bot.application.habits import usual_detail
from bot.application.handlers.begun import begun_words
from bot.application.left_over import about_the_last_cook
from bot.application.papers import give_out_last_record
from bot.application.pictures import show_last
from bot.application.turns import alone, turn
from bot.application.visit import Visit, Work
from bot.application.voices import DEFAULT_UNIT
from bot.chat import Address
from bot.conversation.flows.care import OfPiece, care_told, unwished, wishes_of
from bot.conversation.flows.setup import (
    DRAFTS,
    drafted,
    guests_told,
    is_warm,
    merge,
    missing,
    more_pieces,
    planned,
    settled,
    within_limits,
)
from bot.crew import Right, may
from bot.messages import care_asked, feeding, own_cuts, setup, talk
from bot.messages.certainty import out_of_limits
from bot.messages.figures import Voice
from bot.messages.message import Message
from bot.messages.problems import danger_card
from bot.messages.refusals import question, refusal_text
from bot.messages.setup_core import ask_core, cannot_be
from bot.ports import CookSnapshot, Json, SessionWrite
from scheduler.cook import Beginning, Changes, Refusal, begin
from scheduler.cuts import Cut
from scheduler.facts import AirTold, CareTold, Serving, ServingKind


@dataclasses.dataclass(frozen=True, kw_only=True)
class Setup:
    """A half-finished set-up as it is remembered: what was said, the open question, the unit people use."""

    draft: say.Draft = dataclasses.field(default_factory=say.Draft)
    slot: str | None = None
    unit: str | None = None
    asked_at: dt.datetime | None = None
    """When its question was asked, for one more cook beside another that runs."""

    def as_json(self) -> Json:
        """Return it as JSON."""
        asked = None if self.asked_at is None else self.asked_at.isoformat()
        return {"draft": self.draft.model_dump(mode="json"), "slot": self.slot, "unit": self.unit, "asked_at": asked}


_OF_THE_CORE = frozenset({"undercooked", "not_by_time", "done_by_feel"})
_SAME_C = 0.01
"""Two temperatures nearer than this are the same number [°C]."""


def remembered(data: Json | None) -> Setup | None:
    """Return the set-up from JSON, None when there is none."""
    if data is None or "draft" not in data:
        return None
    slot, unit, asked = data.get("slot"), data.get("unit"), data.get("asked_at")
    return Setup(
        draft=say.Draft.model_validate(data["draft"]),
        slot=slot if isinstance(slot, str) else None,
        unit=unit if isinstance(unit, str) else None,
        asked_at=dt.datetime.fromisoformat(asked) if isinstance(asked, str) else None,
    )


def handle(visit: Visit, work: Work, known: Setup | None, wanted: tuple[say.Intent, ...]) -> None:
    """Work on what was said while no cook is running."""
    if isinstance(wanted[0], say.Trouble) and wanted[0].what in say.DANGERS:
        work.say(danger_card(wanted[0].what), to=visit.address, key=f"answer:{visit.row_id}", urgent=True)
        return
    if wanted[0] == say.Ask(topic=say.Topic.RECORD) and give_out_last_record(visit, work):
        return
    asked = wanted[0]
    if isinstance(asked, say.Ask) and asked.topic is say.Topic.CHART and show_last(visit, work, dark=asked.dark):
        return
    if about_the_last_cook(visit, work, wanted[0]):
        return
    if not may(visit.person.role, Right.START):
        _say(visit, work, Message(text=talk.no_cook()))
        return
    first = wanted[0]
    if isinstance(first, say.Ask):
        text = talk.help_text() if first.topic is say.Topic.HELP else talk.no_cook()
        _say(visit, work, Message(text=text).then(next_question(visit, known or Setup())))
        return
    if isinstance(first, say.HowMuch):
        found = feeding.how_much(first, visit.house.catalogue.cuts, None)
        _say(visit, work, found if known is None else found.then(next_question(visit, known)))
        return
    if isinstance(first, say.Undo) and known is not None:
        _remember(visit, work, Setup(unit=known.unit))
        _say(visit, work, setup.started_over().then(setup.ask_cut(visit.house.catalogue.cuts)))
        return
    if isinstance(first, say.CallOff | say.Undo):
        work.sessions.append(SessionWrite(address=visit.address, person=visit.person.id, data=None))
        _say(visit, work, Message(text=talk.no_cook()))
        return
    if isinstance(first, say.MoreCuts):
        _say(visit, work, setup.more_cuts(visit.house.catalogue.cuts, first.of))
        return
    if isinstance(first, say.Unclear):
        _unclear(visit, work, known or Setup(), first)
        return
    drafts = [drafted(intent) for intent in wanted if isinstance(intent, DRAFTS)]
    if isinstance(first, say.Skip) and known is not None:
        drafts = _usual(visit, known)
    if known is not None and known.slot == "which" and known.draft.vague:
        drafts = [settled(known.draft.vague[0], one) if one.cut and not one.settles else one for one in drafts]
    if isinstance(first, say.Note) and known is not None and missing(known.draft) is None:
        drafts = [say.Draft()]  # "none of these": nothing that counts was done to the meat, and all else is known
    if not drafts:
        lead = Message(text="" if known is not None else talk.no_cook())
        _say(visit, work, lead.then(next_question(visit, known or Setup())))
        return
    doubt = next((i for i in wanted[1:] if isinstance(i, say.Unclear) and i.options), None)
    _go_on(visit, work, known or Setup(), drafts, doubt)


def _broken(visit: Visit) -> Message:
    """Return what is wrong with the own cuts, for whoever may look for one of them; nothing when all are right."""
    cuts, cards = visit.house.complaints, visit.house.card_complaints
    told = Message(text=own_cuts.broken(cuts) if cuts else "")
    return told.then(Message(text=own_cuts.broken(cards, own_cuts.COOKERS_FILE) if cards else ""))


def _unclear(visit: Visit, work: Work, known: Setup, unclear: say.Unclear) -> None:
    """Ask again what was not understood; what stood where a cut was expected is named back."""
    if unclear.question != "not_understood":
        _say(visit, work, question(unclear, _voice(visit, known.unit)))
    elif missing(known.draft) == "cut":
        asked = setup.ask_cut(visit.house.catalogue.cuts, unclear.text.strip()[:60])
        _say(visit, work, _broken(visit).then(asked))
    else:
        _say(visit, work, setup.not_got(unclear.text.strip()[:60]).then(next_question(visit, known)))


def greet(visit: Visit, work: Work, known: Setup | None, welcome: Message | None = None) -> None:
    """Greet somebody who opened a window or came in by a code, or take up the set-up where it was left."""
    if welcome is not None:
        asks = next_question(visit, known or Setup()) if may(visit.person.role, Right.START) else Message(text="")
        _say(visit, work, welcome.then(asks))
    elif not may(visit.person.role, Right.START):
        _say(visit, work, Message(text=talk.welcome(visit.person.name, visit.person.role.value)))
    elif known is not None and known.draft != say.Draft():
        _say(visit, work, setup.still_open(next_question(visit, known)))
    else:
        _say(visit, work, setup.greeting(visit.person.name, visit.house.catalogue.cuts))


def next_question(visit: Visit, known: Setup) -> Message:
    """Return the question that is open in a set-up."""
    cuts = visit.house.catalogue.cuts
    match missing(known.draft):
        case "which":
            vague = known.draft.vague[0]
            return setup.ask_which(vague, cuts, functools.partial(settled, vague))
        case "serving":
            return setup.ask_serving(visit.house.zone)
        case "pit" if known.draft.cut is not None:
            return setup.ask_pit(_on_one_fire(known.draft, visit), _voice(visit, known.unit))
        case None:
            return ask_core(known.draft, visit.house.catalogue.cuts)
        case _:
            asked = setup.ask_cut(cuts, known.draft.unknown_cut)
            return _broken(visit).then(asked) if known.draft.unknown_cut else asked


def _go_on(visit: Visit, work: Work, known: Setup, drafts: list[say.Draft], doubt: say.Unclear | None) -> None:
    """Add what was said; begin when all is known, else ask for the next thing, what is in doubt first."""
    draft = known.draft
    for newer in drafts:
        draft = merge(draft, newer)
    unit = _unit_used(visit.incoming.text, drafts) or known.unit or visit.manner.unit
    pit_said = draft.pit_low_c is not None
    draft = _assumed(draft, visit, _voice(visit, unit))
    past = _past(draft, visit)
    if past is not None:
        known = dataclasses.replace(known, draft=draft.model_copy(update={"serving": None}), slot="serving", unit=unit)
        _remember(visit, work, known)
        _say(visit, work, past)
        return
    slot = missing(draft)
    known = Setup(draft=draft, slot=slot, unit=unit)
    if is_warm(draft.core_c) and draft.on_at is None:
        _remember(visit, work, known)
        _say(visit, work, setup.ask_on())  # warm meat is on the fire: without its time the plan would light it again
        return
    left_out = setup.left_out(tuple(word for newer in drafts for word in newer.ignored))
    if draft.pit_low_c is not None and not pit_said:
        left_out = left_out.then(setup.usual_pit(draft.pit_low_c, _voice(visit, unit)))
    if slot is None and (doubt is None or doubt.question != "treated_how"):
        _begin(visit, work, known, left_out)
        return
    if doubt is not None:
        message = question(doubt, _voice(visit, unit))
    elif slot == "cut" and draft.on_at is not None and draft.unknown_cut is None:
        message = _each_cut(visit, known)
    else:
        message = next_question(visit, known)
    _remember(visit, work, known)
    _say(visit, work, left_out.then(message))


def _assumed(draft: say.Draft, visit: Visit, voice: Voice) -> say.Draft:
    """For a cook begun in the middle take the usual pit and an open dinner, so that the answer comes in one message."""
    if draft.on_at is None or draft.cut is None:
        return draft
    cut = visit.house.catalogue.cuts.get(draft.cut)
    return _filled(draft, cut, voice, _on_one_fire(draft, visit)[1:])


def _usual(visit: Visit, known: Setup) -> list[say.Draft]:
    """Return the usual answer to the open question, where there is one: the pit of the cut."""
    if missing(known.draft) == "which":
        return [settled(known.draft.vague[0], None)]
    if missing(known.draft) != "pit" or known.draft.cut is None:
        return []
    _, usual_c, _ = setup.usual_pits(_on_one_fire(known.draft, visit), _voice(visit, known.unit))
    return [say.Draft(pit_low_c=usual_c, pit_high_c=usual_c)]


def _past(draft: say.Draft, visit: Visit) -> Message | None:
    """Say at once that a serving time has passed, with the earliest one when the cut is known; None when it has not."""
    ends_at = None if draft.serving is None else draft.serving.ends_at()
    if ends_at is None or ends_at > visit.now:
        return None
    if draft.cut is None:
        return setup.time_passed()
    whole = _filled(draft, visit.house.catalogue.cuts.get(draft.cut), _voice(visit, None))
    begun = _begun(visit, Setup(draft=whole), "c0")
    return Message(text=refusal_text(begun, _voice(visit, None))) if isinstance(begun, Refusal) else None


def _on_one_fire(draft: say.Draft, visit: Visit) -> tuple[Cut, ...]:
    """Return the cuts that share the pit: not those with a pit of their own."""
    sharing = [draft.cut, *(piece.cut for piece in draft.more if piece.pit_low_c is None)]
    return tuple(visit.house.catalogue.cuts.get(cut) for cut in sharing if cut is not None)


def _filled(draft: say.Draft, cut: Cut, voice: Voice, others: tuple[Cut, ...] = ()) -> say.Draft:
    update: dict[str, object] = {"cut": cut.id}
    if draft.pit_low_c is None:
        _, usual_c, _ = setup.usual_pits((cut, *others), voice)
        update |= {"pit_low_c": usual_c, "pit_high_c": usual_c}
    if draft.serving is None:
        update["serving"] = Serving(kind=ServingKind.WHEN_READY, zone=voice.zone)
    return draft.model_copy(update=update)


def _each_cut(visit: Visit, known: Setup) -> Message:
    """Answer what each of the usual cuts would mean for a cook begun in the middle."""
    found = []
    for cut in (one for one in visit.house.catalogue.cuts.cuts if one.id in setup.USUAL):
        draft = _filled(known.draft, cut, _voice(visit, known.unit))
        begun = _begun(visit, dataclasses.replace(known, draft=draft), "c0")
        if isinstance(begun, Changes):
            found.append((cut, begun.after))
    return (
        setup.which_of(tuple(found), known.draft, _voice(visit, known.unit))
        if found
        else setup.ask_cut(visit.house.catalogue.cuts)
    )


def _begun(visit: Visit, known: Setup, cook: str) -> Changes | Refusal:
    draft = known.draft
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


def _begin(visit: Visit, work: Work, known: Setup, left_out: Message) -> None:
    """Begin the cook, or say why dinner cannot be then and ask for another time."""
    begun = _begun(visit, known, f"c{visit.row_id}")
    if isinstance(begun, Refusal) and begun.reason in _OF_THE_CORE:
        asked = cannot_be(begun, known.draft, visit.house.catalogue.cuts)
        _remember(visit, work, dataclasses.replace(known, draft=unwished(known.draft, begun.piece), slot="core"))
        _say(visit, work, left_out.then(asked))
        return
    if isinstance(begun, Refusal):
        keep = {"on_at": None, "core_c": None} if begun.step == "meat_on" else {"serving": None}
        again = dataclasses.replace(known, draft=known.draft.model_copy(update=keep), slot="serving")
        _remember(visit, work, again)
        _say(visit, work, Message(text=refusal_text(begun, _voice(visit, known.unit))))
        return
    rooms = (visit.address, *other_rooms(visit))
    empty = CookSnapshot(id=begun.after.state.cook, version=0, open=True, rooms=rooms, facts=())
    # Meat that is on already may need something now; a plan stands alone, and what is due comes after it.
    done = alone(begun) if known.draft.on_at is None else turn((), begun, visit=visit)
    sure = known.draft.confidence
    if sure is not None and sure != within_limits(sure):
        left_out = left_out.then(Message(text=out_of_limits()))
    asks = care_asked.ask(begun.after.state.care, begun=known.draft.on_at is not None)
    entitle(work, visit.house.store, empty.id, rooms, done.after)
    answer(
        visit,
        work,
        empty,
        done,
        body=lambda voice: _broken(visit).then(left_out).then(begun_words(visit, known.draft, begun.after, voice)),
        last=None if known.draft.on_at is None else asks,
    )
    work.sessions.append(SessionWrite(address=visit.address, person=visit.person.id, data=None))


def other_rooms(visit: Visit) -> tuple[Address, ...]:
    """Return the private rooms of the others on the same transport: they follow a cook begun in a private room."""
    if visit.incoming.group:
        return ()
    return tuple(
        room.address
        for room in visit.house.store.rooms()
        if room.active and not room.group and room.address != visit.address
        and room.address.transport == visit.address.transport
    )  # fmt: skip


def _unit_used(text: str, drafts: list[say.Draft]) -> str | None:
    """Return the unit that a person used for a temperature, None when the text shows none.

    A letter decides; without one a number that stands in the text as it was understood in Celsius is Celsius.
    """
    letters = re.findall(r"\d\s*(?:°|º|deg(?:rees)?)?\s*([cf])\b", text.casefold())
    if letters:
        return str(letters[-1]).upper()
    temps = [t for d in drafts for t in (d.pit_low_c, d.pit_high_c, d.core_c) if t is not None]
    numbers = {float(n) for n in re.findall(r"\d+(?:\.\d+)?", text.replace(",", "."))}
    if not temps or not numbers:
        return None
    return "C" if any(abs(n - t) < _SAME_C for n in numbers for t in temps) else "F"


def _voice(visit: Visit, unit: str | None) -> Voice:
    manner = visit.manner
    spoken = manner.unit or unit or DEFAULT_UNIT
    return Voice(zone=visit.house.zone, unit=spoken, now=visit.now, language=manner.language)


def _remember(visit: Visit, work: Work, known: Setup) -> None:
    kept = dataclasses.replace(known, asked_at=visit.now if visit.beside else None)
    work.sessions.append(SessionWrite(address=visit.address, person=visit.person.id, data=kept.as_json()))


def _say(visit: Visit, work: Work, message: Message) -> None:
    work.say(message, to=visit.address, key=f"answer:{visit.row_id}")
