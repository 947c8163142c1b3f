"""Plays cooks as a crew would: reports, waiting, the bell, time away. Every play is legal, few are wise.

It asserts only that the bell comes to rest; everything else is for the tests that look at what was played.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
import itertools
from zoneinfo import ZoneInfo

from scheduler.cook import Beginning, Changes, Refusal, Report, Situation, assess, begin, decide, ring
from scheduler.facts import (
    Body,
    Corrected,
    Fact,
    Feel,
    Felt,
    HandoverTaken,
    Noted,
    PitMoved,
    Planned,
    PutOff,
    Reading,
    Serving,
    ServingKind,
    ServingMoved,
    Slot,
    StepDone,
    StepSkipped,
    Undone,
    Wrap,
    Wrapped,
)  # fmt: skip
from scheduler.planning.catalogue import read_catalogue
from scheduler.planning.handover import coming_change
from scheduler.planning.prompts import Prompt
from scheduler.planning.replanning import look_again_at
from scheduler.planning.trips import wakes
from scheduler.state import last_by
from tests.catalogue import TEXTS
from tests.properties.actions import (
    Action,
    Amend,
    Answer,
    Away,
    Do,
    Later,
    MoveDinner,
    MovePit,
    PutOn,
    Read,
    Skip,
    Start,
    Touch,
    Undo,
    Wait,
    Work,
)  # fmt: skip

CATALOGUE = read_catalogue(dict(TEXTS))

CREW = ("Ines", "Tomas", "Wren")

AT_REST_WITHIN = 12
"""Times the bell may ring at one instant before it must be quiet."""

MOST_TURNS = 200
"""Times a good crew goes to the cooker before it gives up: a whole cook needs fewer."""

MINUTE = dt.timedelta(minutes=1)


# --- what came of it --------------------------------------------------------------------------------------------------


@dataclasses.dataclass(frozen=True, kw_only=True)
class Moment:
    """One decision: when, the situation before and after, what was written. `refused` says why nothing was."""

    now: dt.datetime
    rung: bool
    """True: time did it, False: a person."""
    before: Situation
    after: Situation
    facts: tuple[Fact, ...]
    length: int
    """Facts in the log right after it."""
    refused: Refusal | None = None


class Play:
    """One cook being played, with a clock of its own."""

    def __init__(self, start: Start) -> None:
        self.start = start
        self.now = start.at
        self.log: tuple[Fact, ...] = ()
        self.moments: list[Moment] = []
        self._turns = 0
        self.refused = self._begin()

    # --- beginning ----------------------------------------------------------------------------------------------------

    def _begin(self) -> Refusal | None:
        start = self.start
        on_at = None if start.on_ago_min is None else start.at - start.on_ago_min * MINUTE
        begun = begin(
            Beginning(
                cook="c1",
                planned=Planned(
                    cut=start.cut, serving=self.serving(start.dinner_min), pit_low_c=start.pit_c,
                    pit_high_c=start.pit_c, wrap=start.wrap, from_middle=on_at is not None, mass_kg=start.mass_kg,
                    detail=start.detail, read_by=start.read_by, frozen=start.frozen,
                ),
                on_at=on_at,
                core_c=None if on_at is None else start.core_c,
                more=start.others,
            ),
            by=CREW[0], now=self.now, seed="s", message="m0", catalogue=CATALOGUE,
        )  # fmt: skip
        if isinstance(begun, Refusal):
            return begun
        self.log = begun.facts
        self.situation = begun.after
        if start.watches is not None:
            self.say(start.watches)
        return None

    def serving(self, minutes: int | None) -> Serving:
        """Return dinner so many minutes from now, as wall time in the zone of the cook."""
        zone = self.start.zone
        if minutes is None:
            return Serving(kind=ServingKind.WHEN_READY, zone=zone)
        start = _wall(self.now + minutes * MINUTE, zone)
        if not self.start.window_min:
            return Serving(kind=ServingKind.AT, zone=zone, start=start)
        end = start + self.start.window_min * MINUTE
        return Serving(kind=ServingKind.WINDOW, zone=zone, start=start, end=end)

    # --- time ---------------------------------------------------------------------------------------------------------

    def wake_at(self) -> dt.datetime | None:
        """Return when the bell must ring next, as the store would."""
        if self.situation.state.over:
            return None
        situation = self.situation
        looks = (situation.next_look_at(), look_again_at(situation.state, situation.outlook))
        moments = [at for _, at in wakes(situation.prompts)] + [at for at in looks if at is not None]
        return min(moments, default=None)

    def wait(self, minutes: float) -> None:
        """Let time pass, ringing whenever the bell must."""
        until = self.now + minutes * MINUTE
        while (at := self.wake_at()) is not None and at <= until:
            self.now = max(self.now, at)
            self.settle()
        self.now = until

    def work(self, minutes: float) -> None:
        """Let time pass with a good crew: whatever is asked is answered well three minutes later."""
        until = self.now + minutes * MINUTE
        for _ in range(MOST_TURNS):
            at = self.wake_at()
            if at is None or at + 3 * MINUTE > until:
                break
            self.wait(max(0.0, (at - self.now) / MINUTE) + 3)
            for prompt in reversed(self.situation.waiting):
                if any(prompt.key == other.key for other in self.situation.waiting):
                    self.answer_well(prompt)
        self.wait(max(0.0, (until - self.now) / MINUTE))

    def settle(self) -> None:
        """Ring until the next wake lies ahead."""
        for _ in range(AT_REST_WITHIN):
            at = self.wake_at()
            if at is None or at > self.now:
                return
            self.ring()
        raise AssertionError(f"the bell does not come to rest at {self.now}: {self.situation.prompts}")

    def ring(self) -> Changes:
        """Ring once."""
        before = self.situation
        self._turns += 1
        changes = ring(self.log, now=self.now, seed=f"r{self._turns}", catalogue=CATALOGUE)
        self._keep(changes, before, rung=True)
        return changes

    # --- people -------------------------------------------------------------------------------------------------------

    def say(
        self, *bodies: Body, ago_min: float = 0, dated: bool = False, sure: bool = False, who: int = 0,
        piece: str | None = None,
    ) -> Changes | Refusal:  # fmt: skip
        """Report of a piece, or of the whole cook; the bell rings right after it, as in the kitchen."""
        self._turns += 1
        at = self.now - ago_min * MINUTE
        reports = tuple(
            Report(
                body=body, happened_at=at, by=CREW[who], message=f"m{self._turns}", dated=dated, sure=sure, piece=piece
            )
            for body in bodies
        )  # fmt: skip
        before = self.situation
        result = decide(self.log, reports, now=self.now, seed=f"i{self._turns}", catalogue=CATALOGUE)
        if isinstance(result, Refusal):
            self._note(before, before, (), rung=False, refused=result)
            self.settle()
            return result
        self._keep(result, before, rung=False)
        self.ring()
        self.settle()
        return result

    def _keep(self, changes: Changes, before: Situation, *, rung: bool) -> None:
        self.log = (*self.log, *changes.facts)
        self.situation = changes.after
        self._note(before, changes.after, changes.facts, rung=rung)

    def _note(
        self,
        before: Situation,
        after: Situation,
        facts: tuple[Fact, ...],
        *,
        rung: bool,
        refused: Refusal | None = None,
    ) -> None:
        self.moments.append(
            Moment(
                now=self.now, rung=rung, before=before, after=after, facts=facts, length=len(self.log), refused=refused
            )
        )

    def core_c(self, at: dt.datetime, piece: str | None = None) -> float:
        """Return what a piece of meat has at an instant [°C]."""
        on_at = self.situation.view(piece).state.at("meat_on")
        return rise_c(0.0 if on_at is None else max(0.0, (at - on_at) / dt.timedelta(hours=1)) * self.start.pace)

    def whose(self) -> str | None:
        """Return the piece that is next to be told of: each in its turn."""
        ids = sorted(view.piece for view in self.situation.views)
        return ids[self._turns % len(ids)] if len(ids) > 1 else None

    def act(self, action: Action) -> None:
        """Do one thing; of several pieces to one of them, in turn."""
        piece = self.whose()
        match action:
            case Wait():
                self.wait(action.minutes)
            case Work():
                self.work(action.minutes)
            case Away():
                self.now += action.minutes * MINUTE
                self.settle()
            case Answer():
                self._answer(action.choice)
            case Do():
                self.say(
                    self._done(action.step, action.choice), ago_min=action.ago_min, dated=action.dated, piece=piece
                )
            case Read():
                self.say(self._reading(action, piece), ago_min=action.ago_min, sure=action.sure, piece=piece)
            case Skip():
                self.say(StepSkipped(step=action.step), piece=piece)
            case Later():
                if self.situation.waiting:
                    until = self.now + action.minutes * MINUTE
                    put_off = self.situation.waiting[0]
                    self.say(PutOff(step=put_off.step.id, until=until), piece=put_off.piece)
            case PutOn():
                self.say(Wrapped(wrap=action.wrap), piece=piece)
            case Touch():
                self.say(Felt(feel=action.feel), piece=piece)
            case Undo():
                last = last_by(self.log, CREW[action.who])
                self.say(Undone(of="" if last is None else last.id), who=action.who)
            case Amend():
                self._amend(action)
            case MoveDinner():
                self.say(ServingMoved(serving=self.serving(action.minutes)))
            case MovePit():
                self.say(PitMoved(pit_low_c=action.pit_c, pit_high_c=action.pit_c))

    def _reading(self, read: Read, piece: str | None = None) -> Reading:
        at = self.now - read.ago_min * MINUTE
        value_c = self.situation.view(piece).state.pit_c if read.slot is Slot.PIT else self.core_c(at, piece)
        return Reading(slot=read.slot, value_c=value_c + read.off_c, spread_c=read.spread_c, spot=read.spot)

    def _answer(self, choice: int) -> None:
        waiting = self.situation.waiting
        if waiting:
            prompt = waiting[choice % len(waiting)]
            self.say(*self._answers_to(prompt, choice), piece=prompt.piece)

    def answer_well(self, prompt: Prompt) -> None:
        """Answer as a good crew would: bare to the end, tender when it is, the watch taken, everything else done."""
        if prompt.step.id == "handover":  # whoever is called first says that they have it
            change = coming_change(self.situation.state)
            incoming = CREW[0] if change is None else change.incoming
            self.say(HandoverTaken(), who=CREW.index(incoming) if incoming in CREW else 0)
            return
        core_c = self.core_c(self.now, prompt.piece)
        choice = {"tender_test": 2 if core_c > 94 else 1 if core_c > 92 else 0, "bark_check": 3}.get(prompt.step.id, 0)
        self.say(*self._answers_to(prompt, choice), piece=prompt.piece)

    def _answers_to(self, prompt: Prompt, choice: int) -> tuple[Body, ...]:
        readings = tuple(self._reading(Read(slot=slot), prompt.piece) for slot in prompt.step.slots)
        if readings and not prompt.step.outcomes:
            return readings
        return (*readings, self._done(prompt.step.id, choice))

    def _done(self, step_id: str, choice: int) -> Body:
        """Return what choosing an outcome of a step says, as the chat understands it."""
        step = CATALOGUE.steps.get(step_id)
        outcomes = () if step is None else step.outcomes
        outcome = outcomes[choice % len(outcomes)] if outcomes else None
        match step_id, outcome:
            case "tender_test", str():
                return Felt(feel=Feel(outcome))
            case "bark_check", "bare":
                return Wrapped(wrap=Wrap.NONE)
            case "bark_check", "paper" | "foil" | "boat":
                return Wrapped(wrap=Wrap(outcome))
            case "wrap_do", _:
                return Wrapped(wrap=Wrap.PAPER)
            case "t_minus", "slip_30" | "slip_60":
                return ServingMoved(serving=self.serving(120))
            case _:
                return StepDone(step=step_id, outcome=outcome)

    def _amend(self, amend: Amend) -> None:
        mine = [f for f in self.log if isinstance(f.body, Reading | StepDone)]
        if not mine:
            self.say(Noted(text="nothing to amend"))
            return
        fact = mine[amend.which % len(mine)]
        body = fact.body
        if isinstance(body, Reading):
            body = dataclasses.replace(body, value_c=body.value_c + amend.off_c, doubtful=False)
        at = None if amend.ago_min is None else self.now - amend.ago_min * MINUTE
        self.say(Corrected(of=fact.id, body=body, happened_at=at))


_RISE = ((0.0, 4.0), (2.5, 50.0), (3.5, 66.0), (5.0, 70.0), (7.5, 97.0), (9.0, 99.0))


def rise_c(hours: float) -> float:
    """Return the core of a made-up rack so many hours after meat on [°C]: a rise, a stall, a rise."""
    for (h0, c0), (h1, c1) in itertools.pairwise(_RISE):
        if hours <= h1:
            return c0 + (c1 - c0) * (hours - h0) / (h1 - h0)
    return _RISE[-1][1]


def _wall(at: dt.datetime, zone: str) -> dt.datetime:
    return at.astimezone(ZoneInfo(zone)).replace(tzinfo=None, microsecond=0, second=0)


def play(start: Start, actions: tuple[Action, ...]) -> Play:
    """Return a cook that was begun and acted on; a refused beginning stays empty."""
    played = Play(start)
    if played.refused is None:
        for action in actions:
            played.act(action)
    return played


def again(log: tuple[Fact, ...], as_of: dt.datetime | None = None) -> Situation:
    """Return the situation computed afresh from a log, as of its newest fact or of a later instant."""
    return assess(log, CATALOGUE, as_of)
