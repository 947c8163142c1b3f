"""When the next prompt of a step is due: one function per kind of anchor.

Pure. `projected` times stand for steps that have not happened, for showing the plan; prompts themselves wait for facts.
"""

from __future__ import annotations

import dataclasses
import datetime as dt

from scheduler.cuts import Cut
from scheduler.facts import Feel, ReadBy, Slot
from scheduler.planning import series
from scheduler.planning.done import measured_at
from scheduler.planning.fuel import LIGHT_LEAD, light_lead
from scheduler.planning.gates import passes_at, pit_ready_at
from scheduler.planning.handover import coming_change
from scheduler.planning.outlook import Outlook
from scheduler.planning.prompts import Why, key_of, number_of, step_of
from scheduler.planning.quantities import THAW_EARLY
from scheduler.planning.rest import read_by
from scheduler.planning.steps import (
    AfterEvent,
    AfterOutcome,
    AtCore,
    BeforeServing,
    ByCut,
    Catalogue,
    Food,
    Gate,
    Held,
    Merged,
    Rising,
    Step,
    WatchChange,
)  # fmt: skip
from scheduler.planning.telling import wanted
from scheduler.planning.thawing import THAW_RESCUE, thaw, thaw_in_water
from scheduler.planning.worth import decides_at
from scheduler.safety import put_away, safe_gate
from scheduler.state import CookState

_PREP_H, _LEAST_SALT_H = 18.0, 6.0
"""The work of the day before begins so long before meat on, or with the salt where that takes longer than the second
figure [h]; common practice, no source."""


def _minutes(value: float) -> dt.timedelta:
    return dt.timedelta(minutes=value)


_AFTER_PULL = frozenset({"serve_reading", "slice"})
"""Done to meat that is off the fire, so many minutes before the plate."""


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
        by_event = step.anchor.kind == "food"  # its series counts from one moment, not from one answer to the next
        if step.repeat is not None and number > 1 and not self.projected and not by_event:
            found = series.next_at(self, step, number)
            due = None if found is None else Due(at=found[0], why=Why(kind="repeat", minutes=found[1]))
        else:
            due = self._first(step, number)
        if step.id == "core_read" and self.state.read_by is ReadBy.HAND and due is not None:
            due = self._by_hand(step, number, due)
        return None if due is None or series.over(self, step, due.at) else due

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
            "prep": self._prep_at(),
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
                plate_at = self.outlook.serve_at if "fixed_time" in step.only else self.outlook.plate_at
                if plate_at is None:
                    return None
                minutes = anchor.minutes
                if step.id == "collect_meat" and not self.state.planned.frozen:  # no longer than it keeps raw
                    minutes = min(minutes, self.cut.fridge_days[1] * 24 * 60)
                if step.id in _AFTER_PULL:  # a short rest leaves less than that between the fire and the plate
                    cut = self.cut
                    minutes = min(minutes, cut.vent_min + cut.rest_min_min + cut.slice_min)
                return Due(at=plate_at - _minutes(minutes), why=Why(kind="before_serving", minutes=minutes))
            case AfterEvent():
                return self._after(step, anchor if step.phase != "fire" else self._at_this_cooker(anchor))
            case AfterOutcome():
                return self._outcome(step, anchor, number)
            case AtCore():
                return self._at_core(anchor)
            case Held():
                at = self._held_at()
                return None if at is None else Due(at=at, why=Why(kind="held"))
            case Food():
                return self._food(step, anchor)
            case Gate():
                return self._gate(anchor)
            case ByCut():
                return self._by_cut(anchor)
            case Rising():
                return self._rising(anchor)
            case WatchChange():
                return self._watch(anchor)
            case Merged():
                return None

    def _held_at(self) -> dt.datetime | None:
        """Return when held meat is read: by the careful estimate; as it is boxed when its gate is still shut."""
        at, pulled_at = read_by(self.state, self.cut), self.state.at("pull")
        if at is None or pulled_at is None or self.projected:
            return at
        shut = safe_gate(self.state, self.cut, self.catalogue.cuts).open_at is None
        return min(at, pulled_at + _minutes(self.cut.vent_min)) if shut else at

    def _at_this_cooker(self, anchor: AfterEvent) -> AfterEvent:
        """Return the anchor with the minutes between lighting and meat on as this cooker takes them, not the usual
        hour.
        """
        if (anchor.event, anchor.minutes > 0) not in {("light", True), ("meat_on", False)}:
            return anchor
        share = light_lead(self.state.cooker) / LIGHT_LEAD
        minutes = anchor.minutes * share if anchor.event == "meat_on" else 5.0 * round(anchor.minutes * share / 5.0)
        return anchor.model_copy(update={"minutes": minutes})

    def _prep_at(self) -> dt.datetime:
        lead_h = self.cut.salt_lead_h.typical
        return self.outlook.on_at - dt.timedelta(hours=lead_h if lead_h >= _LEAST_SALT_H else _PREP_H)

    def _by_cut(self, anchor: ByCut) -> Due | None:
        if anchor.by == "first_look" and self.state.at("meat_on") is None and not self.projected:
            return None
        on_at, cut = self.outlook.on_at, self.cut
        at = {
            "salt": on_at - dt.timedelta(hours=cut.salt_lead_h.typical),
            "thaw": self._prep_at() - thaw(self.state, cut) - THAW_EARLY,
            "first_look": on_at + dt.timedelta(hours=cut.first_look_h),
        }[anchor.by]
        return Due(at=at, why=Why(kind="cut", event="meat_on", minutes=(at - on_at) / _minutes(1)))

    def _rising(self, anchor: Rising) -> Due | None:
        lit_at = self.state.at("light") or (self.outlook.light_at if self.projected else None)
        if lit_at is None:
            return None
        pit_c = self.state.pit_c - anchor.below_c
        at = passes_at(self.state, pit_c)
        if at is not None:
            return Due(at=at, why=Why(kind="rising", pit_c=pit_c))
        minutes = anchor.minutes * (light_lead(self.state.cooker) / LIGHT_LEAD)
        return Due(at=lit_at + _minutes(minutes), why=Why(kind="rising", event="light", minutes=minutes))

    def _watch(self, anchor: WatchChange) -> Due | None:
        """Return when the next change of the watch is asked about: an offer at once, a planned one before its time."""
        change, end = coming_change(self.state), self.outlook.plate_at
        if change is None:
            return None
        if change.offered:
            return Due(at=change.at, why=Why(kind="watch", event="offer", minutes=0))
        if change.at <= (self.state.at("light") or self.outlook.light_at) or (end is not None and change.at >= end):
            return None
        return Due(at=change.at - _minutes(anchor.minutes), why=Why(kind="watch", minutes=-anchor.minutes))

    def _after(self, step: Step, anchor: AfterEvent) -> Due | None:
        if anchor.known and not self.projected and self.state.at(anchor.event) is None:
            return None
        at = self.event_at(anchor.event)
        if at is None:
            return None
        due_at = at + _minutes(self._minutes_after(step, anchor))
        if step.id == "fuel_check":
            due_at = series.before_night(self, at, due_at)
        return Due(at=due_at, why=Why(kind="after", event=anchor.event, minutes=(due_at - at) / _minutes(1)))

    def _minutes_after(self, step: Step, anchor: AfterEvent) -> float:
        """Return the minutes after an event, by the cut where it names them: boxed after its vent, and read first when
        half of a short cook is over.
        """
        if step.id == "box_meat":
            return self.cut.vent_min
        return min(anchor.minutes, 30 * self.cut.duration_h.typical) if step.id == "core_read" else anchor.minutes

    def _outcome(self, step: Step, anchor: AfterOutcome, number: int) -> Due | None:
        """Return when the outcome was first told that no prompt was closed for and that the step has not answered."""
        if step.id == "pull" and self.cut.doneness == "temperature":
            return self._read_done(number)
        times = [done.at for done in self.state.done.get(anchor.event, ()) if done.outcome == anchor.outcome]
        if step.id == "thaw_rescue":
            latest = self.outlook.on_at - thaw_in_water(self.state, self.cut) - _minutes(60)
            times = [max(at, latest) for at in times if self.outlook.on_at - at <= THAW_RESCUE]
        if anchor.event == "tender_test":
            times += [at for at, felt in self.state.feels if felt.feel is Feel(anchor.outcome)]
        done_at = max(filter(None, (self.state.at(step.id), self._felt_otherwise_at(anchor))), default=None)
        open_times = [at for at in sorted(times)[number - 1 :] if done_at is None or at > done_at]
        if open_times:
            return Due(at=open_times[0], why=Why(kind="after", event=anchor.event))
        if self.projected and anchor.event == "tender_test" and self.outlook.pull.likely is not None:
            return Due(at=self.outlook.pull.likely, why=Why(kind="after", event=anchor.event))
        return None

    def _read_done(self, number: int) -> Due | None:
        """Return when a cut that goes by its temperature comes off: once its lowest spot was read there."""
        at = measured_at(self.state, self.cut)
        if at is None and self.projected:
            at = self.outlook.pull.likely
        return None if at is None or number > 1 else Due(at=at, why=Why(kind="after", event="second_spot"))

    def _felt_otherwise_at(self, anchor: AfterOutcome) -> dt.datetime | None:
        """Return when the hand last felt something else than the outcome."""
        if anchor.event != "tender_test":
            return None
        return max((at for at, felt in self.state.feels if felt.feel is not Feel(anchor.outcome)), default=None)

    def core_of(self, anchor: AtCore) -> float:
        """Return the core temperature an anchor stands for [°C]."""
        match anchor.at:
            case "bark_look":
                return self.cut.bark_look_c
            case "start_testing":
                return self.cut.start_testing_c
            case "target":
                return self.cut.off_c

    def _at_core(self, anchor: AtCore) -> Due | None:
        if self.state.at("meat_on") is None and not self.projected:
            return None
        core_c = self.core_of(anchor)
        at = self.outlook.crossing(core_c).quantile(0.5)
        last = self.state.last(Slot.CORE)
        on_at = self.state.at("meat_on")
        if anchor.at == "target" and self.projected and at is not None:
            at = min(at, self.outlook.pull.likely or at)
        if last is not None and on_at is not None and last.at >= on_at:
            if last.value_c >= core_c:
                reached = [r.at for r in self.state.read(Slot.CORE) if r.at >= on_at and r.value_c >= core_c]
                at = reached[0]
            elif at is not None:
                at = max(at, last.at)
        return None if at is None else Due(at=at, why=Why(kind="core", core_c=core_c))

    def _food(self, step: Step, anchor: Food) -> Due | None:
        """Return when food that cools, or was reheated, is asked about; of a series the first that was not asked about
        since that moment.
        """
        told = put_away(self.state)
        if anchor.event == "cooling":
            at = None if told.chilling is None else told.chilling.began_at
            after = None if told.chilling is None else told.chilling.away_at
        else:
            at = after = max((r.done_at for r in told.reheats if r.done_at is not None), default=None)
        if at is None and self.projected and anchor.event == "cooling":
            at = after = self.outlook.plate_at
        if at is None or after is None:
            return None
        every, most = (0.0, 1) if step.repeat is None else (step.repeat.every_min, step.repeat.most or 1)
        closed = sum(step_of(key) == step.id and when >= after for key, when in self.state.closed.items())
        if closed >= most:
            return None
        minutes = anchor.minutes + closed * every
        return Due(at=at + _minutes(minutes), why=Why(kind="food", minutes=minutes))

    def _gate(self, anchor: Gate) -> Due | None:
        if self.state.at(anchor.event) is None and not self.projected:
            return None  # nobody is asked to put meat on a fire that is not lit
        steps = [self.catalogue.steps.get(name) for name in anchor.conditions]
        asked = [step.id for step in steps if step is not None and self._holds_up(step)]
        met = {name: self._met_at(name) for name in asked}
        unmet = tuple(name for name, at in met.items() if at is None)
        due_at = self.outlook.on_at
        if met and not unmet and self.state.at(anchor.event) is not None:
            due_at = min(due_at, max(at for at in met.values() if at is not None))
        why = Why(kind="gate", event=anchor.event, minutes=anchor.minutes, open_conditions=unmet)
        return Due(at=due_at, why=why)

    def _holds_up(self, step: Step) -> bool:
        """Return whether a condition belongs to this gate: it is asked about in this cook, or was met."""
        return wanted(step, self.state, self.cut) or self._met_at(step.id) is not None

    def _met_at(self, condition: str) -> dt.datetime | None:
        """Return when a condition of a gate was met, asked for or not; None while it is open."""
        if condition == "pit_stable":
            return pit_ready_at(self.state)
        times = [at for key, at in self.state.closed.items() if step_of(key) == condition]
        done_at = self.state.at(condition)
        return max([*times, *(() if done_at is None else (done_at,))], default=None)
