"""When the next prompt of a step is due: one function per kind of anchor.

Pure. `projected` times stand for steps that have not happened, for showing the plan; prompts themselves wait for facts.
"""

from __future__ import annotations

import dataclasses
import datetime as dt

from scheduler.cuts import Cut
from scheduler.facts import Feel, ReadBy, Slot
from scheduler.planning.fuel import LIGHT_LEAD, light_lead
from scheduler.planning.outlook import Outlook, decided_bare
from scheduler.planning.prompts import Why, key_of, number_of, step_of
from scheduler.planning.rest import read_by
from scheduler.planning.steps import (
    AfterEvent,
    AfterOutcome,
    AtCore,
    BeforeServing,
    Catalogue,
    Gate,
    Held,
    Step,
)  # fmt: skip
from scheduler.planning.worth import decides_at, worth_reading_at
from scheduler.state import OVERTAKEN, CookState

PIT_OFF_C = 8.0
"""A pit this far out of its band is looked at again sooner [°C]; common practice, no source."""

NEAR_C = 8.0
"""Within this of a decision the core is read more often [°C]; common practice, no source."""

BARK_STEP_C = 6.0
"""After "not yet" the bark is looked at again when the core has risen by this [°C]; common practice, no source."""


WARM_C = 66.0
"""Held meat above this is not read again before the careful estimate says so [°C]: 150 F, common practice, no
source."""

_TWO = 2
"""A rise needs two readings."""


def _minutes(value: float) -> dt.timedelta:
    return dt.timedelta(minutes=value)


@dataclasses.dataclass(frozen=True, kw_only=True)
class Due:
    """When and why a prompt is due."""

    at: dt.datetime
    why: Why


@dataclasses.dataclass(frozen=True, kw_only=True)
class Anchors:
    """Computes due times for one cook as of its newest fact."""

    state: CookState
    outlook: Outlook
    cut: Cut
    catalogue: Catalogue
    projected: bool = False
    """True: use planned times for steps that have not happened."""

    def number(self, step: Step) -> int:
        """Return the number of the next prompt of a step: the one after the last that was closed.

        Undoing the answer to an earlier one of a series does not bring that one back: a later one has overtaken it.
        """
        return 1 + max((number_of(key) for key in self.state.closed if step_of(key) == step.id), default=0)

    def due(self, step: Step) -> Due | None:
        """Return when the next prompt of a step is due, None while that cannot be known or is not wanted."""
        number = self.number(step)
        again = step.repeat is not None and number > 1 and not self.projected
        due = self._repeat(step, number) if again else self._first(step, number)
        if step.id == "core_read" and self.state.read_by is ReadBy.HAND and due is not None:
            return self._by_hand(step, number, due)
        return due

    def _by_hand(self, step: Step, number: int, due: Due) -> Due | None:
        """Return when a reading that costs an open lid decides something, None while it would not; one that was asked
        for or put off stays where it is.
        """
        if key_of(self.state.piece, step.id, number) in self.state.asked or step.id in self.state.put_off:
            return due
        at = decides_at(due.at, self.state, self.outlook, self.cut)
        return None if at is None else Due(at=at, why=due.why)

    def event_at(self, event: str) -> dt.datetime | None:
        """Return when an event was, or when it is expected; None when neither is known."""
        actual = self.state.at(event)
        if actual is not None:
            return actual
        planned = {
            "light": self.outlook.light_at,
            "meat_on": self.outlook.on_at,
            "pull": self.outlook.pull.likely,
            "shutdown": self.outlook.pull.likely,
            "serve": self.outlook.plate_at,
        }
        if event in planned:
            return planned[event]
        step = self.catalogue.steps.get(event)
        due = None if step is None else self._first(step, 1)
        return None if due is None else due.at

    def _first(self, step: Step, number: int) -> Due | None:
        anchor = step.anchor
        match anchor:
            case BeforeServing():
                # Go or move is asked by the clock of dinner; what is done to the food, by when the plate can be.
                plate_at = self.outlook.serve_at if step.only == "fixed_time" else self.outlook.plate_at
                if plate_at is None:
                    return None
                return Due(
                    at=plate_at - _minutes(anchor.minutes), why=Why(kind="before_serving", minutes=anchor.minutes)
                )
            case AfterEvent():
                return self._after(anchor if step.phase != "fire" else self._at_this_cooker(anchor))
            case AfterOutcome():
                return self._outcome(step, anchor, number)
            case AtCore():
                return self._at_core(anchor)
            case Held():
                at = read_by(self.state, self.cut)
                return None if at is None else Due(at=at, why=Why(kind="held"))
            case Gate():
                return self._gate(anchor)

    def _at_this_cooker(self, anchor: AfterEvent) -> AfterEvent:
        """Return the anchor with the minutes between lighting and meat on as this cooker takes them, not the usual
        hour.
        """
        if (anchor.event, anchor.minutes > 0) not in {("light", True), ("meat_on", False)}:
            return anchor
        share = light_lead(self.state.cooker) / LIGHT_LEAD
        minutes = anchor.minutes * share if anchor.event == "meat_on" else 5.0 * round(anchor.minutes * share / 5.0)
        return anchor.model_copy(update={"minutes": minutes})

    def _after(self, anchor: AfterEvent) -> Due | None:
        if anchor.known and not self.projected and self.state.at(anchor.event) is None:
            return None
        at = self.event_at(anchor.event)
        if at is None:
            return None
        return Due(at=at + _minutes(anchor.minutes), why=Why(kind="after", event=anchor.event, minutes=anchor.minutes))

    def _outcome(self, step: Step, anchor: AfterOutcome, number: int) -> Due | None:
        """Return when the outcome was first told that no prompt was closed for and that the step has not answered."""
        times = [done.at for done in self.state.done.get(anchor.event, ()) if done.outcome == anchor.outcome]
        if anchor.event == "tender_test":
            times += [at for at, felt in self.state.feels if felt.feel is Feel(anchor.outcome)]
        done_at = max(filter(None, (self.state.at(step.id), self._felt_otherwise_at(anchor))), default=None)
        open_times = [at for at in sorted(times)[number - 1 :] if done_at is None or at > done_at]
        if open_times:
            return Due(at=open_times[0], why=Why(kind="after", event=anchor.event))
        if self.projected and anchor.event == "tender_test" and self.outlook.pull.likely is not None:
            return Due(at=self.outlook.pull.likely, why=Why(kind="after", event=anchor.event))
        return None

    def _felt_otherwise_at(self, anchor: AfterOutcome) -> dt.datetime | None:
        """Return when the hand last felt something else than the outcome."""
        if anchor.event != "tender_test":
            return None
        return max((at for at, felt in self.state.feels if felt.feel is not Feel(anchor.outcome)), default=None)

    def core_of(self, anchor: AtCore) -> float:
        """Return the core temperature an anchor stands for [°C]."""
        return self.cut.bark_look_c if anchor.at == "bark_look" else self.cut.start_testing_c

    def _at_core(self, anchor: AtCore) -> Due | None:
        if self.state.at("meat_on") is None and not self.projected:
            return None
        core_c = self.core_of(anchor)
        at = self.outlook.crossing(core_c).quantile(0.5)
        last = self.state.last(Slot.CORE)
        on_at = self.state.at("meat_on")
        if last is not None and on_at is not None and last.at >= on_at:
            if last.value_c >= core_c:
                reached = [r.at for r in self.state.read(Slot.CORE) if r.at >= on_at and r.value_c >= core_c]
                at = reached[0]
            elif at is not None:
                at = max(at, last.at)
        return None if at is None else Due(at=at, why=Why(kind="core", core_c=core_c))

    def _gate(self, anchor: Gate) -> Due | None:
        if self.state.at(anchor.event) is None and not self.projected:
            return None  # nobody is asked to put meat on a fire that is not lit
        met = {name: self._met_at(name) for name in anchor.conditions}
        unmet = tuple(name for name, at in met.items() if at is None)
        due_at = self.outlook.on_at
        if not unmet and self.state.at(anchor.event) is not None:
            due_at = min(due_at, max(at for at in met.values() if at is not None))
        why = Why(kind="gate", event=anchor.event, minutes=anchor.minutes, open_conditions=unmet)
        return Due(at=due_at, why=why)

    def _met_at(self, condition: str) -> dt.datetime | None:
        """Return when a condition of a gate was met, asked for or not; None while it is open."""
        times = [at for key, at in self.state.closed.items() if step_of(key) == condition]
        done_at = self.state.at(condition)
        return max([*times, *(() if done_at is None else (done_at,))], default=None)

    def _repeat(self, step: Step, number: int) -> Due | None:
        """Return when the next of a series is due, counted from the one before."""
        repeat = step.repeat
        if repeat is None or (repeat.most is not None and number > repeat.most):
            return None
        if step.phase == "resting" and self.state.at("pull") is None:
            return None  # the pull was taken back
        before = key_of(self.state.piece, step.id, number - 1)
        base = self.state.closed.get(before)
        asked = self.state.asked.get(before)
        if self.state.withdrawn.get(before, OVERTAKEN) != OVERTAKEN and asked is not None:
            base = asked.last_at
        if base is None:
            return None
        every = self.rhythm(step)
        at = base + _minutes(every)
        if step.id == "core_read" and every == repeat.every_min and not self._wanted(step, number, at):
            at = worth_reading_at(at, self.state, self.outlook, self.cut)
            every = (at - base) / _minutes(1)
        if step.id == "bark_check":
            at = self._risen(base, at)
        if step.id == "hold_check":
            at = max(at, read_by(self.state, self.cut) or at) if self._warm() else at
        return Due(at=at, why=Why(kind="repeat", minutes=every))

    def rhythm(self, step: Step, *, one_more: bool = False) -> float:
        """Return the minutes to the next of a series: closer near a decision, or while the pit is off.

        Each time in a row that nobody answered makes the pause longer by one; `one_more` counts the one now open.
        """
        repeat = step.repeat
        assert repeat is not None
        silent = self._unanswered(step) + (1 if one_more else 0)
        if silent:
            return repeat.every_min * (1 + silent)
        if repeat.closer_min is None:
            return repeat.every_min
        closer = {"pit_check": self._pit_off, "core_read": self._near_decision, "tender_test": self._almost}.get(
            step.id
        )
        return repeat.closer_min if closer is not None and closer() else repeat.every_min

    def _wanted(self, step: Step, number: int, at: dt.datetime) -> bool:
        """Return whether a reading is wanted whatever it would tell: there are not yet two that show a rise, it was
        asked for already or put off by somebody, or the bark is to be looked at within the hour.
        """
        on_at = self.state.at("meat_on")
        read = [r for r in self.state.read(Slot.CORE) if on_at is not None and r.at > on_at]
        put_off = self.state.put_off.get(step.id)
        asked = key_of(self.state.piece, step.id, number) in self.state.asked
        if asked or len(read) < _TWO or (put_off is not None and put_off > read[-1].at):
            return True
        if (
            read[-1].value_c >= self.cut.bark_look_c
            or not self.cut.asks_bark
            or self.state.wraps
            or decided_bare(self.state)
        ):
            return False
        look_at = self.outlook.crossing(self.cut.bark_look_c).quantile(0.5)
        return look_at is not None and look_at <= at + _minutes(60)

    def _unanswered(self, step: Step) -> int:
        """Return how many of the newest prompts of a series were given up without an answer."""
        count = 0
        for number in range(self.number(step) - 1, 0, -1):
            if self.state.withdrawn.get(key_of(self.state.piece, step.id, number)) != "no_answer":
                break
            count += 1
        return count

    def _pit_off(self) -> bool:
        last, band = self.state.last(Slot.PIT), self.state.pit[-1]
        return last is not None and not band.low_c - PIT_OFF_C <= last.value_c <= band.high_c + PIT_OFF_C

    def _near_decision(self) -> bool:
        last = self.state.last(Slot.CORE)
        return last is not None and 0 <= self.cut.start_testing_c - last.value_c <= NEAR_C

    def _almost(self) -> bool:
        return bool(self.state.feels) and self.state.feels[-1][1].feel is Feel.ALMOST

    def _risen(self, base: dt.datetime, at: dt.datetime) -> dt.datetime:
        readings = [r for r in self.state.read(Slot.CORE) if r.at <= base]
        if not readings:
            return at
        risen_at = self.outlook.crossing(readings[-1].value_c + BARK_STEP_C).quantile(0.5)
        return at if risen_at is None else min(at, max(risen_at, base + _minutes(5)))

    def _warm(self) -> bool:
        last, pulled_at = self.state.last(Slot.CORE), self.state.at("pull")
        return last is not None and pulled_at is not None and last.at > pulled_at and last.value_c > WARM_C
