"""Deciding what a report changes: plausible or not, which prompts it answers, what it implies, what moved.

Pure: a log and reports in, changes or a refusal out.
"""

from __future__ import annotations

import dataclasses
import datetime as dt

from scheduler.cook import answers, implied, plausible, wished
from scheduler.cook.begin import check_all
from scheduler.cook.believing import not_believed
from scheduler.cook.changes import (
    Already,
    Changes,
    Event,
    GateOpened,
    Implied,
    NotSkipped,
    Refusal,
    Report,
    Shifted,
    SpotAsked,
    Stalled,
    Taken,
    Undid,
)  # fmt: skip
from scheduler.cook.crew import taking, wound_up
from scheduler.cook.situation import Situation, assess
from scheduler.cook.told import as_told, seen_by, told_together
from scheduler.cook.writing import Pen
from scheduler.facts import (
    Closed,
    Corrected,
    Discarded,
    Fact,
    Felt,
    HandoverTaken,
    Noted,
    PieceAdded,
    PieceDropped,
    PutBack,
    PutOff,
    Reading,
    SafeByTold,
    ServingMoved,
    StepDone,
    StepSkipped,
    TargetTold,
    Undone,
    Wrapped,
)  # fmt: skip
from scheduler.planning.catalogue import Catalogue
from scheduler.planning.prompts import Prompt
from scheduler.planning.steps import Step
from scheduler.planning.views import PieceView
from scheduler.state import FIRST, DoneAt, Stage, effective, own, standing

CLOCK_SKEW = dt.timedelta(minutes=5)
"""A report may lie this far in the future (clocks differ); further is refused."""

THANKED = dt.timedelta(minutes=10)
"""A second "done" of a repeated step within this is thanked, not counted; common practice, no source."""

NOT_YET_MIN = {"smoke_clean": 10.0, "rules_recheck": 30.0, "fire_out": 60.0, "ash": 1440.0}
"""Minutes after which a step is asked again when its outcome was not the one hoped for; common practice, no source."""

UNSETTLED = {
    "smoke_clean": ("grey", "white"),
    "rules_recheck": ("stop",),
    "fire_out": ("still_hot",),
    "ash": ("still_warm",),
}
"""Outcomes that leave a step open."""


PUT_AWAY = frozenset({"leftovers", "two_hour"})
"""Steps by which food is cooled or thrown away after dinner: never done to meat that is not safe yet."""


AGAIN = frozenset({"raw_cleanup"})
"""Steps done once for each time that raw meat goes on: told again while they are asked for, they count again."""


def may_be_kept(view: PieceView, now: dt.datetime) -> bool:
    """Return whether meat may be cooled: it was served, or pulled and read safe; a missing reading is not safe."""
    return view.state.did("serve") is not None or (view.state.did("pull") is not None and view.gate.is_open(now))


def _may_be_put_away(situation: Situation, now: dt.datetime) -> bool:
    """Return whether there is anything to put away: the piece that is meant, else any of them."""
    views = situation.views if situation.focus is None else (situation.view(situation.focus),)
    return any(may_be_kept(view, now) for view in views)


def decide(
    facts: tuple[Fact, ...], reports: tuple[Report, ...], *, now: dt.datetime, seed: str, catalogue: Catalogue
) -> Changes | Refusal:
    """Return what reports (of one message, in order) change, or why they cannot be.

    Nothing is half taken: a refusal of one report refuses the message.
    """
    before = assess(facts, catalogue, now)
    decision = _Decision(before=before, catalogue=catalogue, now=now, pen=_pen(facts, before, seed, now))
    for report in reports:
        refusal = decision.take(report)
        if refusal is not None:
            return refusal
    return decision.changes()


def _pen(facts: tuple[Fact, ...], before: Situation, seed: str, now: dt.datetime) -> Pen:
    return Pen(log=facts, cook=before.state.cook, piece=before.state.piece, seed=seed, now=now)


@dataclasses.dataclass
class _Decision:
    """Takes the reports of one message one after the other."""

    before: Situation
    catalogue: Catalogue
    now: dt.datetime
    pen: Pen
    events: tuple[Event, ...] = ()

    def take(self, report: Report) -> Refusal | None:
        """Write what a report says of its piece; return a refusal when it cannot be."""
        begun_at = self.pen.facts[0].recorded_at
        if not report.dated and report.happened_at < begun_at:  # typed on while the cook was being written down
            report = dataclasses.replace(report, happened_at=begun_at)
        current = seen_by(assess(self.pen.facts, self.catalogue, self.now), report)
        self.pen.piece = current.state.piece if own(report.body) or isinstance(report.body, ServingMoved) else FIRST
        if isinstance(report.body, PieceAdded) and report.piece is not None:
            self.pen.piece = report.piece
        if current.state.over and not isinstance(report.body, Undone | Noted | Discarded):
            return Refusal(reason="over")
        if report.happened_at > self.now + CLOCK_SKEW:
            return Refusal(reason="future", at=report.happened_at)
        match report.body:
            case Reading():
                return self._reading(report, report.body, current)
            case StepDone(step="handover") | HandoverTaken():
                return self._handed_over(report, current)
            case StepDone():
                return self._done(report, report.body, current)
            case StepSkipped():
                return self._skipped(report, report.body, current)
            case Wrapped() | Felt():
                return self._on_the_meat(report, current)
            case ServingMoved():
                return self._moved_dinner(report, current)
            case Undone():
                return self._undone(report, report.body)
            case Corrected():
                return self._corrected(report, report.body)
            case PutBack() | PieceDropped() | TargetTold() | SafeByTold() if refusal := wished.refused(
                report.body, current, self.now
            ):
                return refusal
            case _:
                self._write(report, answers=answers.of_body(report.body, current))
                return None

    def changes(self) -> Changes:
        """Return everything that came of the reports."""
        after = self.pen.settle(self.before, self.catalogue)
        if ended := wound_up(self.pen, after):
            self.events = (*self.events, *ended)
            after = assess(self.pen.facts, self.catalogue, self.now)
        return Changes(
            facts=self.pen.written, before=self.before, after=after, events=(*self.events, *self._consequences(after))
        )

    def _consequences(self, after: Situation) -> list[Event]:
        found: list[Event] = []
        earlier = {view.piece: view for view in self.before.views}
        for view in after.views:
            before = earlier.get(view.piece)
            if before is None:
                continue
            if (view.stall is None) != (before.stall is None) and view.state.stage is Stage.COOKING:
                found.append(Stalled(stall=view.stall, piece=view.piece if after.several else None))
            if view.gate.open_at is not None and before.gate.open_at is None:
                found.append(GateOpened(gate=view.gate, piece=view.piece if after.several else None))
        shift = after.shift()
        if shift is not None:
            found.append(Shifted(shift=shift))
        return found

    def _write(self, report: Report, *, answers: tuple[str, ...]) -> Fact:
        fact = self.pen.write(
            report.body, at=min(report.happened_at, self.now), by=report.by, answers=answers, message=report.message
        )
        self.events = (
            *self.events,
            Taken(body=report.body, at=fact.happened_at, by=report.by, piece=self._whose(fact)),
        )
        return fact

    def _whose(self, fact: Fact) -> str | None:
        """Return the piece that a fact is about, None when it is about the whole cook."""
        if isinstance(fact.body, ServingMoved):
            return fact.piece if self._in_waves() else None
        named = self.before.several or isinstance(fact.body, PieceAdded)
        return fact.piece if own(fact.body) and named else None

    def _in_waves(self) -> bool:
        """Return whether the pieces are not all wanted at one time, so that a dinner has to be named."""
        return len({view.state.serving for view in self.before.views}) > 1

    def _reading(self, report: Report, reading: Reading, current: Situation) -> Refusal | None:
        if plausible.not_on(reading, current):
            return Refusal(reason="not_on_yet", piece=current.state.piece if current.several else None)
        doubt = None if report.sure else plausible.doubt(reading, report.happened_at, current, report.by)
        confirmed = plausible.confirms(reading, report.happened_at, current.state)
        if doubt is not None and confirmed is None:
            doubtful = dataclasses.replace(reading, doubtful=True)
            self._write(dataclasses.replace(report, body=doubtful), answers=())
            before = doubt.before
            asked = SpotAsked(
                reading=doubtful,
                before_c=None if before is None else before.value_c,
                before_at=None if before is None else before.at,
                expected_c=doubt.expected_c,
                piece=current.state.piece if current.several else None,
            )
            self.events = (*self.events[:-1], asked)
            return None
        if confirmed is not None or report.sure:
            self._set_aside(report, reading, current)
        if confirmed is not None:
            body = dataclasses.replace(
                reading, value_c=confirmed.value_c, spread_c=confirmed.spread_c, spot=confirmed.spot
            )
            self.pen.write(Corrected(of=confirmed.fact, body=body), by=report.by, message=report.message)
        self._write(report, answers=answers.of_reading(report, current))
        return None

    def _set_aside(self, report: Report, reading: Reading, current: Situation) -> None:
        """Keep aside what a confirmed reading cannot have followed: two spots outweigh the one before."""
        for one in plausible.overruled(reading, report.happened_at, current.state):
            body = Reading(
                slot=one.slot, value_c=one.value_c, spread_c=one.spread_c, spot=one.spot, doubtful=True
            )  # fmt: skip
            self.pen.write(Corrected(of=one.fact, body=body), by=report.by, message=report.message)

    def _done(self, report: Report, done: StepDone, current: Situation) -> Refusal | None:
        step = self.catalogue.steps.get(done.step)
        if step is None:
            return Refusal(reason="no_such_step", step=done.step)
        if done.outcome in UNSETTLED.get(done.step, ()):
            self.pen.write(Noted(text=f"{step.id}: {done.outcome}"), by=report.by, message=report.message)
            until = self.now + dt.timedelta(minutes=NOT_YET_MIN[done.step])
            self._put_off(report, done.step, until)
            return None
        if step.safety and step.slots:  # a number is asked for: saying "done" measures nothing
            self._stays_open(report, step.id)
            return None
        earlier = current.state.did(done.step)
        anew = step.id in AGAIN and current.prompt(step.id) is not None
        if earlier is not None and not anew and (step.happens_once or step.id == "pull"):
            return self._again(report, earlier.fact, current)
        if earlier is not None and self._twice(report, done, earlier, current.prompt(step.id)):
            self.events = (
                *self.events,
                Already(step=step.id, by=earlier.by, at=earlier.at, said_by=report.by, piece=self._of(step)),
            )
            return None
        if step.id in PUT_AWAY and not _may_be_put_away(current, self.now):
            on = any(view.state.did("meat_on") for view in current.views)
            return Refusal(reason="half_cooked" if on else "not_on_yet", step=step.id, piece=current.focus)
        at = min(report.happened_at, self.now)
        implies = implied.before(done.step, current.state)
        refusals = [implied.refused(step_id, at, current.state) for step_id in (done.step, *implies)]
        if any(refusals):
            return next(refusal for refusal in refusals if refusal is not None)
        for before in implies:
            self.pen.write(StepDone(step=before), at=at, by=report.by, message=report.message)
            self.events = (
                *self.events,
                Implied(step=before, at=at, piece=self.pen.piece if self.before.several else None),
            )
        self._write(report, answers=answers.of_done(done.step, current))
        return None

    def _handed_over(self, report: Report, current: Situation) -> Refusal | None:
        """Only who takes the watch moves it."""
        taken, events = taking(report, current)
        if taken is not None:
            self._write(taken, answers=answers.of_body(taken.body, current))
        self.events = (*self.events, *events)
        return None

    def _twice(self, report: Report, done: StepDone, earlier: DoneAt, prompt: Prompt | None) -> bool:
        """Return whether this is the same thing told twice, as when two people answer one question of a series."""
        asked = prompt is not None and prompt.asked > 0
        return not asked and done.outcome == earlier.outcome and abs(report.happened_at - earlier.at) < THANKED

    def _again(self, report: Report, earlier: str, current: Situation) -> Refusal | None:
        """A step that happens once is reported again: thanked, or its time corrected when a time was named."""
        assert isinstance(report.body, StepDone)
        known = current.state.did(report.body.step)
        assert known is not None
        if report.dated and abs(report.happened_at - known.at) >= dt.timedelta(minutes=1):
            return self._corrected(
                report, Corrected(of=earlier, body=report.body, happened_at=min(report.happened_at, self.now))
            )
        self.events = (
            *self.events,
            Already(
                step=report.body.step, by=known.by, at=known.at, said_by=report.by,
                piece=self._of(self.catalogue.steps.get(report.body.step)),
            ),
        )  # fmt: skip
        return None

    def _of(self, step: Step | None) -> str | None:
        """Return the piece that a step is done to, None when it is done once for the cook."""
        return self.pen.piece if self.before.several and step is not None and step.scope == "piece" else None

    def _put_off(self, report: Report, step: str, until: dt.datetime) -> None:
        self._write(dataclasses.replace(report, body=PutOff(step=step, until=until)), answers=())

    def _skipped(self, report: Report, skipped: StepSkipped, current: Situation) -> Refusal | None:
        step = self.catalogue.steps.get(skipped.step)
        if step is None:
            return Refusal(reason="no_such_step", step=skipped.step)
        if step.safety:
            self._stays_open(report, step.id)
            return None
        self._write(report, answers=answers.of_step(step.id, current))
        return None

    def _stays_open(self, report: Report, step_id: str) -> None:
        """Keep what was said of a safety step, and close nothing."""
        self.pen.write(Noted(text=f"not closed: {step_id}"), by=report.by, message=report.message)
        self.events = (*self.events, NotSkipped(step=step_id, piece=self._of(self.catalogue.steps.get(step_id))))

    def _on_the_meat(self, report: Report, current: Situation) -> Refusal | None:
        """A wrap or a feel: only of meat that is on the fire."""
        step = "wrap_do" if isinstance(report.body, Wrapped) else "tender_test"
        refusal = implied.refused(step, report.happened_at, current.state)
        if refusal is not None:
            return refusal
        self._write(report, answers=answers.of_body(report.body, current))
        return None

    def _moved_dinner(self, report: Report, current: Situation) -> Refusal | None:
        assert isinstance(report.body, ServingMoved)
        self._write(report, answers=answers.of_step("t_minus", current))
        moved = assess(self.pen.facts, self.catalogue)  # before the meat is on, it would go on when this dinner wants
        return check_all(moved, self.now, moved_to=report.body.serving)

    def _undone(self, report: Report, undone: Undone) -> Refusal | None:
        """Take back a fact, and with it what the same message told; an edit of that message names each by itself."""
        log = standing(self.pen.facts)
        target = next((f for f in log if f.id == undone.of), None)
        edited = target is not None and report.message == target.message
        together = [
            f for f in log if target is not None and (f.id == target.id or (not edited and told_together(f, target)))
        ]
        taken_back = [f for f in together if not isinstance(f.body, Closed) and f.id != self.pen.facts[0].id]
        if not taken_back:
            return Refusal(reason="nothing_to_undo")
        if refusal := next(filter(None, (wished.was_off(fact, self.before) for fact in taken_back)), None):
            return refusal
        for fact in reversed(taken_back):
            self.pen.write(Undone(of=fact.id), by=report.by, message=report.message, piece=fact.piece)
            of = fact.body.of if isinstance(fact.body, Corrected) else None
            told = as_told(fact, log)
            self.events = (*self.events, Undid(fact=told, of=of, piece=self._whose(told)))
        return self._broken()

    def _broken(self) -> Refusal | None:
        """Return why the pieces cannot have gone through their steps in this order, None when all is well."""
        refusals = [implied.broken_order(view.state) for view in assess(self.pen.facts, self.catalogue).views]
        return next((refusal for refusal in refusals if refusal is not None), None)

    def _corrected(self, report: Report, corrected: Corrected) -> Refusal | None:
        target = next((f for f in effective(self.pen.facts) if f.id == corrected.of), None)
        if target is None:
            return Refusal(reason="nothing_to_correct")
        if corrected.happened_at is not None and corrected.happened_at > self.now:
            return Refusal(reason="future", at=corrected.happened_at)
        unlikely = None if report.sure else not_believed(corrected, target, self.before, self.pen.facts, self.catalogue)
        if unlikely is not None:
            return unlikely
        self.pen.write(corrected, by=report.by, message=report.message, piece=target.piece)
        self.events = (
            *self.events,
            Taken(
                body=corrected, at=corrected.happened_at or target.happened_at, by=report.by,
                piece=self._whose(target),
            ),
        )  # fmt: skip
        return self._broken()
