"""From intents to reports of the engine: which step, which reading, which fact is meant.

What cannot be settled without asking comes back as a message instead.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
from collections.abc import Callable

from bot import commands as say
from bot.application import which
from bot.application.cookers import at_the_grate, cooker_told
from bot.application.handlers.amending import correction, guests_told, moved, planned_anew, unbelievable
from bot.application.handlers.putting_away import how_put_away, was_it_then
from bot.application.visit import Visit
from bot.conversation.flows.setup import piece_added
from bot.messages.asked_also import and_the_number, and_which
from bot.messages.bodies import amount_text, body_text
from bot.messages.figures import Voice
from bot.messages.message import Message
from bot.messages.naming import piece_name, which_piece
from bot.messages.refusals import question
from bot.messages.setup import call_off_check
from bot.messages.setup_taps import no_other_cut
from bot.messages.steps import step_words
from bot.messages.talk import nothing_open
from bot.messages.trip import outcome_row
from scheduler.cook import Report, Situation
from scheduler.facts import (
    AirTold,
    Body,
    DetailTold,
    Fact,
    Feel,
    Felt,
    FuelTold,
    GuestsTold,
    Noted,
    PieceDropped,
    PitMoved,
    PutBack,
    PutOff,
    ReadBy,
    Reading,
    ServingMoved,
    Slot,
    StepDone,
    StepSkipped,
    Undone,
    Wrap,
    Wrapped,
    WrapPlanned,
)  # fmt: skip
from scheduler.planning.prompts import Prompt, put_off_until
from scheduler.state import FIRST, last_by

CHOOSE = frozenset(
    {
        "rules_recheck",
        "smoke_clean",
        "fuel_check",
        "bark_check",
        "wrap_do",
        "tender_test",
        "two_hour",
        "leftover_expire",
        "reheat_away",
    }
)
"""Steps where "done" alone does not say enough: the choice is asked for."""

SOON = dt.timedelta(hours=1)
"""With nothing open, "done" or "skip" is about what comes next only when it comes this soon."""

NOT_YET = dt.timedelta(minutes=20)
"""When "not yet" is asked about again unless the step has a rhythm of its own; common practice, no source."""

SLIPS = {"slip_30": 30.0, "slip_60": 60.0}


_OF_A_PIECE = (say.Done, say.Skip, say.NotYet, say.PutOffFor, say.FeelSaid, say.WrapSaid)


@dataclasses.dataclass
class Settled:
    """Reports to be decided, or the one question that must be answered first."""

    reports: list[Report] = dataclasses.field(default_factory=list)
    ask: Message | None = None


class Settling:
    """Settles the intents of one message against the situation."""

    def __init__(self, visit: Visit, situation: Situation, log: tuple[Fact, ...], voice: Voice) -> None:
        self._visit = visit
        self._whole = situation
        self._situation = situation
        """The cook as seen from the piece that the intent in hand is about."""
        self._log = log
        self._voice = voice
        self._found = Settled()

    def settle(self, wanted: tuple[say.Intent, ...]) -> Settled:
        """Return reports for what was said, or a question."""
        for intent in how_put_away(wanted, self._whole):
            self._one(intent)
        return self._found

    def _add(self, body: Body, at: dt.datetime | None = None, *, sure: bool = False, piece: str | None = None) -> None:
        self._found.reports.append(
            Report(
                body=body,
                happened_at=at or self._visit.incoming.sent_at,
                by=self._visit.person.name,
                message=self._visit.incoming.message,
                dated=at is not None,
                sure=sure,
                piece=piece or (self._situation.state.piece if self._whole.several else None),
            )
        )

    def _one(self, intent: say.Intent) -> None:
        self._situation = self._whole
        if self._whole.several and isinstance(intent, _OF_A_PIECE) and not self._placed(intent):
            return
        match intent:
            case say.Report():
                for value in intent.values:
                    self._value(value, intent)
            case say.Done():
                self._done(intent)
            case say.Skip():
                self._about(intent.step, lambda p: self._add(StepSkipped(step=p.step.id)))
            case say.NotYet():
                self._about(intent.step, self._not_yet)
            case say.PutOffFor():
                until = self._visit.now + dt.timedelta(minutes=intent.minutes)
                self._about(intent.step, lambda p: self._put_off(p, until))
            case say.FeelSaid():
                self._add(Felt(feel=intent.feel, spot=intent.spot))
            case say.WrapSaid():
                self._wrap(intent)
            case say.Undo():
                self._undo()
            case say.Correct():
                self._correct(intent)
            case say.MoveDinner():
                self._move_dinner(intent)
            case say.MovePit():
                self._add(PitMoved(pit_low_c=intent.pit_low_c, pit_high_c=intent.pit_high_c))
            case say.AirSaid():
                self._add(AirTold(temp_c=intent.temp_c, word=intent.word, wind=intent.wind))
            case say.CookerSaid():
                self._add(cooker_told(intent, self._visit.house))
            case say.FuelSaid():
                self._add(FuelTold(kg=intent.kg, added=intent.added))
            case say.ReadBySaid():
                self._plan(read_by=intent.read_by)
            case say.ChangePlan():
                self._change_plan(intent)
            case say.TellMe():
                self._add(DetailTold(detail=intent.detail))
            case say.GuestsSaid() | say.AddPiece() | say.DropPiece() | say.BackOn():
                self._pieces(intent)
            case say.Note():
                self._add(Noted(text=intent.text))
            case say.Unclear():
                self._add(Noted(text=intent.text, understood=False))
                self._found.ask = question(self._dated(intent), self._voice)
            case _:
                self._add(Noted(text=self._visit.incoming.text, understood=False))

    def _dated(self, unclear: say.Unclear) -> say.Unclear:
        """Return the question with the time of its readings: the answer may come later than the number."""
        sent_at = self._visit.incoming.sent_at
        options = tuple(
            (key, meaning.model_copy(update={"at": sent_at}))
            if isinstance(meaning, say.Report) and meaning.at is None
            else (key, meaning)
            for key, meaning in unclear.options
        )
        return unclear.model_copy(update={"options": options})

    def _value(self, value: say.Value, report: say.Report) -> None:
        reading = Reading(slot=value.slot or Slot.CORE, value_c=value.value_c, spread_c=value.spread_c, spot=value.spot)
        reading = at_the_grate(reading, self._situation)
        piece = value.piece
        if self._whole.several and reading.slot is Slot.CORE and piece is None:
            at = report.at or self._visit.incoming.sent_at
            found = which.of_core(self._whole, reading, at, self._visit.person.name)
            if len(found) > 1:
                alone = report.model_copy(update={"values": (value,), "at": at})
                self._ask_which(found, lambda one: say.stamped(alone, one), self._voice.temp(value.value_c))
                return
            piece = found[0]
        self._add(reading, report.at, sure=report.spot_confirmed, piece=piece)

    # --- pieces -------------------------------------------------------------------------------------------------------

    def _placed(self, intent: say.Done | say.Skip | say.NotYet | say.PutOffFor | say.FeelSaid | say.WrapSaid) -> bool:
        """See the cook from the piece that is meant; return False when that has to be asked first."""
        if intent.piece is not None:
            self._situation = self._whole.seen_from(intent.piece)
            return True
        step_id = which.step_of(intent)
        if step_id is None:
            newest = self._whole.waiting[:1]
            if newest and newest[0].step.scope == "piece":
                self._situation = self._whole.seen_from(newest[0].piece)
            return True
        step = self._whole.catalogue.steps.get(step_id)
        if step is None or step.scope == "cook":
            return True
        found = which.of_step(self._whole, step_id, self._visit.incoming.sent_at)
        if len(found) > 1:
            self._ask_which(found, lambda one: say.stamped(intent, one), step_words(step_id).name)
            return False
        self._situation = self._whole.seen_from(found[0])
        return True

    def _ask_which(self, pieces: tuple[str, ...], meant: Callable[[str], say.Intent], what: str) -> None:
        """Ask which piece is meant: one tap."""
        options = tuple((piece_name(self._whole.view(piece)), meant(piece)) for piece in pieces)
        self._found.ask = which_piece(what, options)

    def _pieces(self, said: say.GuestsSaid | say.AddPiece | say.DropPiece | say.BackOn) -> None:
        """Add or drop pieces, put one back on the heat, or keep who eats."""
        match said:
            case say.GuestsSaid():
                self._add(guests_told(said, self._whole.state.guests or GuestsTold()))
            case say.BackOn():
                off = which.off_the_heat(self._whole)
                if said.piece is None and len(off) > 1:
                    self._ask_which(off, lambda one: say.stamped(said, one), body_text(PutBack(), self._voice))
                else:
                    self._add(PutBack(), said.at, piece=said.piece or next(iter(off), None))
            case say.AddPiece():
                self._more(said)
            case say.DropPiece():
                self._add(PieceDropped(), piece=said.piece)

    def _more(self, said: say.AddPiece) -> None:
        """Add pieces, each under a new id."""
        known = [int(f.piece[1:]) for f in self._log if f.piece and f.piece[1:].isdigit()]
        for number, piece in enumerate(said.more, max(known, default=1) + 1):
            self._add(piece_added(piece, self._whole.state.serving.zone), piece=f"p{number}")

    # --- steps --------------------------------------------------------------------------------------------------------

    def _done(self, done: say.Done) -> None:
        if done.every:
            self._all_ticks(done)
        elif done.step is None:
            self._about(None, lambda p: self._step(p.step.id, done))
        else:
            self._step(done.step, done)

    def _all_ticks(self, done: say.Done) -> None:
        ticks = [p for p in self._whole.waiting if not p.step.slots and not p.step.outcomes]
        if not ticks:
            self._found.ask = Message(text=nothing_open())
        for prompt in sorted(ticks, key=lambda p: p.order):
            self._situation = self._whole.seen_from(prompt.piece)
            self._step(prompt.step.id, done)

    def _step(self, step_id: str, done: say.Done) -> None:
        prompt = self._situation.prompt(step_id)
        if done.outcome is None and prompt is not None and prompt.step.slots and not prompt.step.outcomes:
            self._found.ask = Message(text=and_the_number())
            return
        if done.outcome is None and step_id in CHOOSE and prompt is not None:
            self._found.ask = Message(
                text=and_which(), choices=tuple((o,) for o in outcome_row(prompt, self._situation))
            )
            return
        step = self._situation.catalogue.steps.get(step_id)
        outcome = done.outcome or (
            step.outcomes[0] if step is not None and step.outcomes and step_id not in CHOOSE else None
        )
        if step_id == "t_minus" and outcome in SLIPS:
            self._move_dinner(say.MoveDinner(minutes=SLIPS[outcome]))
            return
        if (doubt := was_it_then(step_id, done, self._situation, self._visit, self._voice)) is not None:
            self._found.ask = question(doubt, self._voice)
            return
        self._add(StepDone(step=step_id, outcome=outcome), done.at)

    def _put_off(self, prompt: Prompt, until: dt.datetime) -> None:
        """Put off what is meant together with what was asked in the same message: it is one walk to the cooker."""
        together = [p for p in self._whole.waiting if p.asked_at == prompt.asked_at] or [prompt]
        for one in sorted(together, key=lambda p: p.order):
            later = PutOff(step=one.step.id, until=put_off_until(one.step.id, until, self._visit.now))
            self._add(later, piece=one.piece if self._whole.several else None)

    def _not_yet(self, prompt: Prompt) -> None:
        if prompt.step.id == "bark_check":
            self._add(StepDone(step="bark_check", outcome="not_yet"))
        elif prompt.step.id == "tender_test":
            self._add(Felt(feel=Feel.TIGHT))
        else:
            self._add(PutOff(step=prompt.step.id, until=self._visit.now + NOT_YET))

    def _about(self, step_id: str | None, act: object) -> None:
        """Act on the prompt that is meant: the named one, the newest open one, or the one that comes next."""
        prompt = self._meant(step_id)
        if prompt is None:
            self._found.ask = Message(text=nothing_open())
        elif callable(act):
            act(prompt)

    def _meant(self, step_id: str | None) -> Prompt | None:
        if step_id is not None:
            return self._situation.prompt(step_id)
        if self._situation.waiting:
            return self._situation.waiting[0]
        coming = self._situation.coming
        return None if coming is None or coming[0] - self._visit.now > SOON else coming[1]

    def _wrap(self, said: say.WrapSaid) -> None:
        if said.wrap is None:
            options = tuple(
                (wrap.value, say.WrapSaid(wrap=wrap, done=said.done, at=said.at, piece=self._situation.focus))
                for wrap in self._situation.cut.wraps
                if wrap is not Wrap.NONE
            )
            self._found.ask = question(say.Unclear(question="which_wrap", text="", options=options), self._voice)
        elif said.done:
            self._add(Wrapped(wrap=said.wrap), said.at)
        else:
            self._plan(wrap=said.wrap)
            bark = self._situation.prompt("bark_check")
            told = any(isinstance(r.body, StepDone) and r.body.step == "bark_check" for r in self._found.reports)
            if bark is not None and bark.asked and not told:
                self._add(StepDone(step="bark_check", outcome="set"))

    def _change_plan(self, said: say.ChangePlan) -> None:
        """Write the plan of a piece anew with another cut, count or mass, or the cook's with another unit."""
        if said.cut is not None and self._whole.views[0].state.did("meat_on"):
            self._found.ask = no_other_cut()
            return
        amount = said.count is not None or said.mass_kg is not None
        if self._whole.several and amount and said.piece is None:
            pieces = tuple(view.piece for view in self._whole.views)
            self._ask_which(pieces, lambda one: say.stamped(said, one), amount_text(said.count, said.mass_kg))
            return
        piece = said.piece if amount and said.piece else FIRST
        self._add(planned_anew(said, self._log, self._whole.view(piece).state), piece=piece)

    def _plan(self, *, wrap: Wrap | None = None, read_by: ReadBy | None = None) -> None:
        """Write the plan anew with something changed; dinner stays where it was moved to."""
        if self._whole.several and wrap is not None:
            self._add(WrapPlanned(wrap=wrap))
            return
        seen = self._whole.view(FIRST).state if self._whole.several else self._situation.state
        planned, serving = seen.planned, seen.serving
        self._add(
            dataclasses.replace(
                planned,
                serving=serving,
                wrap=wrap or planned.wrap,
                read_by=read_by or planned.read_by,
            )
        )

    # --- amending -----------------------------------------------------------------------------------------------------

    def _undo(self) -> None:
        last = last_by(self._log, self._visit.person.name)
        began = self._log[0]
        mine = began.by == self._visit.person.name
        if mine and (last is None or (last.message is not None and last.message == began.message)):
            self._found.ask = call_off_check()  # only the beginning is left to be taken back
            return
        self._add(Undone(of="" if last is None else last.id))

    def _correct(self, said: say.Correct) -> None:
        amended = correction(said, self._log, self._visit.person.name, self._visit.incoming.text)
        if (ask := unbelievable(amended, self._visit.incoming.text, self._voice)) is not None:
            self._found.ask = ask
            return
        self._add(amended)

    def _move_dinner(self, said: say.MoveDinner) -> None:
        seen = self._whole.next_dinner if said.piece is None else self._whole.seen_from(said.piece)
        serving = said.serving or moved(seen.state.serving, said.minutes or 0.0)
        self._add(ServingMoved(serving=serving), piece=seen.state.piece if self._whole.several else None)
