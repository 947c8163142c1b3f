"""What is said while a cook is running: reports, changes, questions."""

from __future__ import annotations

from collections.abc import Callable

from bot import commands as say
from bot.application import pictures
from bot.application.among import Running
from bot.application.announcements import answer, reply
from bot.application.handlers import (
    advice,
    caring,
    changing,
    choosing,
    crewing,
    crewing_levers,
    disputes,
    fire_alarms,
    stops,
    supposing,
    tapping,
    troubles,
    wishes,
)
from bot.application.handlers.reports import Settling
from bot.application.own import next_for
from bot.application.papers import TOPICS, give_out
from bot.application.rights import Lacking, lacking, roles
from bot.application.routing import AT_THE_FIRE
from bot.application.turns import turn
from bot.application.visit import Visit, Work
from bot.application.writing import cook_write, tell
from bot.chat import IncomingKind
from bot.messages import feeding, talk
from bot.messages.answers import how_long, plan, plan_rest, what_next
from bot.messages.asked import short_answer
from bot.messages.board import board
from bot.messages.courses import where_each_stands
from bot.messages.figures import Voice
from bot.messages.message import Message, lines
from bot.messages.naming import cook_title, named
from bot.messages.photos import photos
from bot.messages.plans import ways
from bot.messages.problems import does_it_burn, no_word_ends_it, none_stands, still_in_danger
from bot.messages.refusals import refusal_text
from bot.messages.safe import is_it_safe, what_rule
from bot.messages.setup import call_off_check
from bot.messages.stall import stall_answer
from bot.messages.stops import closing_line
from bot.messages.watches import nobody_leaves, who_watches
from bot.messages.wished_core import least_c
from bot.messages.wishes import what_i_tell
from bot.ports import CookSnapshot
from scheduler.cook import Changes, Refusal, Report, Situation, SpotAsked, assess, decide
from scheduler.facts import Closed, Noted
from scheduler.units import f_from_c

_ANSWERS: dict[say.Topic, Callable[[Situation, Voice], Message]] = {
    say.Topic.HOW_LONG: how_long,
    say.Topic.WHAT_NEXT: what_next,
    say.Topic.PLAN: plan,
    say.Topic.PLAN_REST: plan_rest,
    say.Topic.SAFE: is_it_safe,
    say.Topic.STALL: stall_answer,
    say.Topic.WATCHES: who_watches,
    say.Topic.LEAVES: nobody_leaves,
    say.Topic.WAYS: ways,
    say.Topic.BOARD: board,
    say.Topic.PHOTOS: photos,
}


_OF_THE_WHOLE = frozenset(
    {
        say.Topic.HOW_LONG,
        say.Topic.WHAT_NEXT,
        say.Topic.PLAN,
        say.Topic.PLAN_REST,
        say.Topic.SAFE,
        say.Topic.LEVERS,
        say.Topic.WATCHES,
        say.Topic.LEAVES,
        say.Topic.WAYS,
        say.Topic.BOARD,
        say.Topic.PHOTOS,
    }
)
"""Questions that are answered for all pieces at once unless one is named."""

_TELLS = frozenset({say.Topic.HOW_LONG, say.Topic.PLAN})
"""Answers that name the milestones: later moves are counted from them, so the log keeps that they were told (where
everybody who follows the cook has seen them)."""


def handle(
    visit: Visit, work: Work, snapshot: CookSnapshot, situation: Situation, wanted: tuple[say.Intent, ...]
) -> None:
    """Work on what was said about a running cook."""
    if isinstance(wanted[0], say.Trouble) and wanted[0].what in say.DANGERS:
        wanted = wanted[:1]  # people first: figures that came along do not matter now
    missing = lacking(visit, situation, wanted)
    if missing:
        _pass_on(visit, work, snapshot, situation, wanted, missing)
        return
    first = wanted[0]
    if any(isinstance(intent, caring.TOLD) for intent in wanted) and not isinstance(first, say.Trouble):
        caring.take(visit, work, snapshot, situation, wanted)
        return
    match first:
        case say.Ask():
            _ask(visit, work, snapshot, situation, first)
        case say.HowMuch():
            reply(visit, work, situation, feeding.how_much(first, visit.house.catalogue.cuts, situation))
        case say.CallOff():
            _call_off(visit, work, snapshot, situation, sure=first.sure)
        case say.SetUp():
            changing.handle(visit, work, situation, first)
        case say.Draft() | say.MoreCuts() | say.LastTime():
            old = visit.incoming.kind is IncomingKind.TAP and isinstance(first, say.Draft) and first.cut is None
            reply(visit, work, situation, Message(text=talk.old_button() if old else talk.one_at_a_time()))
        case say.ChoosePlan():
            choosing.handle(visit, work, snapshot, situation, first)
        case say.Trouble():
            _trouble(visit, work, snapshot, situation, first, wanted[1:])
        case say.TroubleOver():
            _trouble_over(visit, work, snapshot, situation, first)
        case say.TakeLever():
            advice.take(visit, work, snapshot, situation, first)
        case say.WatchesSaid() | say.KindSaid() | say.SureSaid() | say.RestSaid():
            wishes.take(visit, work, snapshot, situation, first)
        case say.Suppose():
            supposing.answer_to(visit, work, snapshot, situation, first)
        case say.Agreed():
            crewing_levers.agree(
                visit, work, snapshot, situation, first,
                lambda: handle(visit, work, snapshot, situation, (first.wanted,)),
            )  # fmt: skip
        case _ if isinstance(first, crewing.Said) or of_handover(first, situation):
            crewing.handle(visit, work, snapshot, situation, first)
        case say.TwoSpots():
            disputes.two_spots(visit, work, snapshot, situation, first)
        case say.Discard() | say.ReadAgain() | say.WaveOff():
            stops.handle(visit, work, snapshot, situation, first)
        case say.Report(tapped=True):
            tapping.take(visit, work, snapshot, situation, first)
        case say.OtherNumber():
            tapping.other(visit, work, situation, first)
        case say.Pause():
            advice.pause(visit, work, situation, first.piece)
        case _:
            _report(visit, work, snapshot, situation, wanted)


def _pass_on(
    visit: Visit, work: Work, snapshot: CookSnapshot, situation: Situation, wanted: tuple[say.Intent, ...],
    missing: tuple[Lacking, ...],
) -> None:  # fmt: skip
    """Take what may be said, and ask whoever decides about the rest."""
    rest = tuple(one for one in wanted if all(one is not lack.intent and one != lack.intent for lack in missing))
    if not any(isinstance(one, say.Report | say.FeelSaid | say.Done | say.AirSaid | say.FuelSaid) for one in rest):
        said = crewing_levers.pass_on(visit, work, snapshot, situation, missing[0])
        reply(visit, work, situation, said)
        return
    handle(visit, work, snapshot, situation, rest)
    work.append_to_answer(crewing_levers.pass_on(visit, work, snapshot, situation, missing[0]), visit.address)


def of_handover(done: say.Intent, situation: Situation) -> bool:
    """Return whether it is "done" about the watch: it takes nothing over."""
    if not isinstance(done, say.Done):
        return False
    if done.step is None and not done.every:
        return bool(situation.waiting) and situation.waiting[0].step.id == "handover"
    return done.step == "handover"


def _with_minimum(situation: Situation, number: float) -> Situation:
    """Return the cook as seen from the piece whose minimum is the number that was asked about, else from the fire."""
    for view in situation.views:
        least = least_c(view, situation)
        if min(abs(f_from_c(least) - number), abs(least - number)) <= _SAME_NUMBER:
            return situation.seen_from(view.piece)
    return situation.at_the_fire


_SAME_NUMBER = 0.6
"""A number that people ask about is a minimum this near to it [degrees of either scale]."""


def ask_of_all(visit: Visit, work: Work, cooks: list[Running], asked: say.Ask) -> None:
    """Answer a question about the program, or about every cook that runs here, each by its name."""
    if asked.topic is say.Topic.RECORD:
        for number, cook in enumerate(cooks):
            give_out(visit, work, cook.snapshot, cook.situation, "record", number=number)
        return
    if asked.topic is say.Topic.CHART:
        for number, cook in enumerate(cooks):
            pictures.show(visit, work, cook.snapshot, cook.situation, dark=asked.dark, number=number)
        return
    if asked.topic not in _ANSWERS:
        _ask(visit, work, cooks[0].snapshot, cooks[0].situation, asked)
        return
    said = Message(text="")
    for cook in cooks:
        found = _ANSWERS[asked.topic](cook.situation, visit.voice(cook.situation))
        said = said.then(Message(text=lines(f"{cook_title(cook.situation)}:", found.text)))
    reply(visit, work, None, said)


def _ask(visit: Visit, work: Work, snapshot: CookSnapshot, situation: Situation, asked: say.Ask) -> None:
    if asked.topic is say.Topic.CHART:
        pictures.show(visit, work, snapshot, situation, dark=asked.dark)
        return
    voice = visit.voice(situation)
    if asked.piece is not None:
        situation = situation.seen_from(asked.piece)
    elif situation.several and asked.topic is say.Topic.RULE and asked.number is not None:
        situation = _with_minimum(situation, asked.number)
    elif situation.several and asked.topic not in _OF_THE_WHOLE:
        situation = situation.at_the_fire
    if asked.topic in TOPICS:
        give_out(visit, work, snapshot, situation, TOPICS[asked.topic])
        return
    if asked.topic is say.Topic.LEVERS:
        advice.ask(visit, work, situation)
        return
    if asked.topic is say.Topic.WHAT_NEXT and not visit.incoming.group:
        held = roles(visit.person, situation)
        said = next_for(held, situation, voice)
        if held & AT_THE_FIRE:
            reply(visit, work, situation, said)
        else:  # what comes next at the fire is none of theirs
            work.say(said, to=visit.address, key=f"answer:{visit.row_id}", cook=snapshot.id)
        return
    if asked.topic in _ANSWERS:
        reply(visit, work, situation, _ANSWERS[asked.topic](situation, voice))
        alone = snapshot.rooms == (visit.address,)
        overdue = situation.coming is not None and situation.coming[0] <= visit.now
        if asked.topic in _TELLS and alone and not overdue:
            told = tell(situation, seed=visit.seed, now=visit.now, all_of_it=True)
            after = assess((*snapshot.facts, told), visit.house.catalogue)
            work.cooks.append(cook_write(after, (told,), version=snapshot.version))
        return
    if asked.topic is say.Topic.RULE:
        reply(visit, work, situation, what_rule(asked.number, situation, voice))
        return
    if asked.topic is say.Topic.TOLD:
        reply(visit, work, situation, what_i_tell(situation))
        return
    if (short := short_answer(asked, situation, voice)) is not None:
        reply(visit, work, situation, short)
        return
    text = crewing.who_is_here(visit, situation) if asked.topic is say.Topic.CREW else talk.help_text()
    reply(visit, work, situation, Message(text=text))


def _report(
    visit: Visit, work: Work, snapshot: CookSnapshot, situation: Situation, wanted: tuple[say.Intent, ...],
    trouble: troubles.Answer | None = None, corrected: tuple[Report, ...] = (),
) -> None:  # fmt: skip
    """Decide on reports and answer; a question that must come first rides below what was taken."""
    if visit.incoming.group and trouble is None and say.chatter(wanted):
        keep_quietly(visit, work, snapshot)
        return
    settled = Settling(visit, situation, snapshot.facts, visit.voice(situation)).settle(wanted)
    also = (*corrected, *(() if trouble is None else trouble.reports))
    if settled.ask is not None and not (settled.reports or also):
        reply(visit, work, situation, settled.ask)
        return
    result = _decide(visit, snapshot, (*settled.reports, *also))
    if isinstance(result, Refusal):
        _refuse(visit, work, snapshot, situation, result)
        return
    done = turn(snapshot.facts, result, visit=visit)
    asks = _with_pieces(done.after, wanted, settled.ask or tapping.after_feel(visit, situation, done, wanted), visit)
    alarm = fire_alarms.far_too_hot(visit, done)
    if trouble is None or (trouble.only_if_doubted and not any(isinstance(e, SpotAsked) for e in result.events)):
        answer(visit, work, snapshot, done, asks=asks, lead=alarm, alarm=alarm)
        return
    alarm = alarm or fire_alarms.of_trouble(visit, trouble)
    answer(visit, work, snapshot, done, asks=asks, lead=trouble.card, danger=trouble.danger, alarm=alarm)


def _with_pieces(
    after: Situation, wanted: tuple[say.Intent, ...], asks: Message | None, visit: Visit
) -> Message | None:
    """Return a question, and the pieces as they are planned now when one was added or dropped, or whom they feed."""
    changed = after.several and any(isinstance(intent, say.AddPiece | say.DropPiece) for intent in wanted)
    counted = changed or any(isinstance(intent, say.GuestsSaid) for intent in wanted)
    stand = where_each_stands(after, visit.voice(after)) if changed else []
    each = Message(text=lines(*stand, feeding.plan_note(after) if counted else ""))
    if not each.text:
        return asks
    return each if asks is None else each.then(asks)


def keep_quietly(visit: Visit, work: Work, snapshot: CookSnapshot) -> None:
    """Keep what was said as a note, without an answer."""
    result = _decide(visit, snapshot, (_note(visit),))
    if isinstance(result, Changes):
        work.cooks.append(cook_write(result.after, result.facts, version=snapshot.version))


def _note(visit: Visit) -> Report:
    return Report(
        body=Noted(text=visit.incoming.text, understood=False),
        happened_at=visit.incoming.sent_at,
        by=visit.person.name,
        message=visit.incoming.message,
    )


def _decide(visit: Visit, snapshot: CookSnapshot, reports: tuple[Report, ...]) -> Changes | Refusal:
    return decide(snapshot.facts, reports, now=visit.now, seed=visit.seed, catalogue=visit.house.catalogue)


def _refuse(visit: Visit, work: Work, snapshot: CookSnapshot, situation: Situation, refusal: Refusal) -> None:
    """Say why not; what was typed is kept as a note."""
    if refusal.reason == "half_cooked":
        advice.pause(visit, work, situation, refusal.piece)
        return
    voice = visit.voice(situation)
    text = Message(text=named(situation, refusal.piece, refusal_text(refusal, voice)))
    result = _decide(visit, snapshot, (_note(visit),))
    if isinstance(result, Refusal):
        reply(visit, work, situation, text)
        return
    answer(visit, work, snapshot, turn(snapshot.facts, result, visit=visit), asks=text)


def _trouble(
    visit: Visit, work: Work, snapshot: CookSnapshot, situation: Situation, said: say.Trouble,
    rest: tuple[say.Intent, ...], corrected: tuple[Report, ...] = (),
) -> None:  # fmt: skip
    """Keep the problem, say what to do, and take readings that came with it."""
    found = troubles.answer_to(visit, situation, said, with_number=any(isinstance(i, say.Report) for i in rest))
    _report(visit, work, snapshot, situation, rest, found, corrected)


def with_corrections(
    visit: Visit, work: Work, snapshot: CookSnapshot, situation: Situation, wanted: tuple[say.Intent, ...],
    corrected: tuple[Report, ...],
) -> None:  # fmt: skip
    """Take what an edited message adds, together with what it corrects."""
    first = wanted[0]
    if isinstance(first, say.Trouble):
        rest = () if first.what in say.DANGERS else wanted[1:]
        _trouble(visit, work, snapshot, situation, first, rest, corrected)
    else:
        _report(visit, work, snapshot, situation, wanted, None, corrected)


def _trouble_over(
    visit: Visit, work: Work, snapshot: CookSnapshot, situation: Situation, said: say.TroubleOver
) -> None:
    reports = troubles.over(visit, situation, said)
    if not reports:
        hurt = troubles.somebody(situation)
        reply(visit, work, situation, Message(text=_not_over(situation)) if hurt is None else still_in_danger(hurt))
        return
    result = _decide(visit, snapshot, reports)
    if isinstance(result, Refusal):
        _refuse(visit, work, snapshot, situation, result)
        return
    answer(visit, work, snapshot, turn(snapshot.facts, result, visit=visit))


def _not_over(situation: Situation) -> str:
    """Return why nothing ended: what ends it is asked for, or nothing stands."""
    if troubles.held(situation):
        return no_word_ends_it()
    return does_it_burn() if troubles.no_fire(situation) else none_stands()


def _call_off(visit: Visit, work: Work, snapshot: CookSnapshot, situation: Situation, *, sure: bool) -> None:
    if not sure:
        reply(visit, work, situation, call_off_check())
        return
    closing = Report(
        body=Closed(reason="called off"),
        happened_at=visit.incoming.sent_at,
        by=visit.person.name,
        message=visit.incoming.message,
    )
    result = _decide(visit, snapshot, (closing,))
    if isinstance(result, Changes):
        done = turn(snapshot.facts, result, visit=visit)
        answer(
            visit,
            work,
            snapshot,
            done,
            body=lambda voice: Message(text=lines(closing_line(situation, voice), talk.called_off())),
        )
