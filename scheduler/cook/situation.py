"""Everything computed from one log: state, outlook, schedule, findings. Nothing here is stored as truth."""

from __future__ import annotations

import dataclasses
import datetime as dt

from scheduler.cuts import Cut
from scheduler.facts import Fact, Told
from scheduler.planning import replanning, sound
from scheduler.planning.catalogue import Catalogue
from scheduler.planning.outlook import Outlook
from scheduler.planning.prompts import Prompt
from scheduler.planning.shaping import hands_full_until
from scheduler.planning.stall import Stall
from scheduler.planning.steps import Step
from scheduler.planning.trips import next_at
from scheduler.planning.views import PieceView, stage_of, views_of, worst
from scheduler.planning.whole import next_wave, whole_itinerary, whole_outlook, whole_schedule, whole_state
from scheduler.safety import Finding, FindingLevel, SafeGate, Serving, findings, for_the_bin, serving, standing_stops
from scheduler.safety.looks import looks
from scheduler.safety.stops import again_at, tellings
from scheduler.state import CookState, Stage

ENGINE = "1"
"""Version of the engine: caches computed by another version are thrown away."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Situation:
    """One cook as of its newest fact.

    `state`, `cut`, `outlook`, `plateau` and `gate` are those of the piece that it is seen from: the leading one, unless
    `seen_from` was asked. `prompts` are those of all pieces.
    """

    state: CookState
    cut: Cut
    outlook: Outlook
    prompts: tuple[Prompt, ...]
    catalogue: Catalogue
    plateau: Stall
    """How it stands with its stall, whether it lies in it or not."""
    gate: SafeGate
    views: tuple[PieceView, ...]
    """Every piece that is still cooked, the leading one first."""
    focus: str | None = None
    """The piece that it is seen from, None: the whole cook."""

    @property
    def several(self) -> bool:
        """Return whether there is more than one piece, so that each has to be named."""
        return len(self.views) > 1

    def view(self, piece: str | None) -> PieceView:
        """Return the view of a piece; of one that is not cooked any more, or None, the leading one."""
        return next((view for view in self.views if view.piece == piece), self.views[0])

    def seen_from(self, piece: str | None) -> Situation:
        """Return the same cook as seen from a piece: its state, its outlook, and of the prompts its own and the shared.

        `views` stay those of all pieces.
        """
        if not self.several:
            return self
        view = self.view(piece)
        return dataclasses.replace(
            self,
            state=view.state,
            cut=view.cut,
            outlook=view.outlook,
            plateau=view.plateau,
            gate=view.gate,
            prompts=tuple(p for p in self.prompts if p.step.scope == "cook" or p.piece == view.piece),
            focus=view.piece,
        )

    @property
    def deciding(self) -> Situation:
        """Return the cook as seen from the piece that decides about dinner: the worst one of the next wave."""
        return self.seen_from(worst(self.views).piece) if self.several else self

    @property
    def next_dinner(self) -> Situation:
        """Return the cook as seen from the piece that is wanted first of those not served yet."""
        return self.seen_from(next_wave(self.views).piece) if self.several else self

    @property
    def at_the_fire(self) -> Situation:
        """Return the cook as seen from a piece that is on the fire, else from the leading one: its pit is the pit."""
        on = [view for view in self.views if view.state.stage is Stage.COOKING and view.state.oven is None]
        return self.seen_from(on[0].piece) if on else self

    @property
    def stage(self) -> Stage:
        """Return how far the whole cook is: what is on the fire counts before what rests or waits."""
        return stage_of(self.views)

    @property
    def ended(self) -> bool:
        """Return whether every piece has been served, or thrown away."""
        return all(view.state.stage in {Stage.AFTER, Stage.GONE} for view in self.views)

    @property
    def stall(self) -> Stall | None:
        """Return the stall that the meat lies in now, None when it lies in none."""
        return self.plateau if self.plateau.within else None

    @property
    def coming(self) -> tuple[dt.datetime, Prompt] | None:
        """Return when the next message comes by itself, and its prompt."""
        return next_at(self.prompts)

    @property
    def waiting(self) -> tuple[Prompt, ...]:
        """Return the prompts that were asked and are still open, the newest question first."""
        asked = [p for p in self.prompts if p.asked_at is not None]
        return tuple(sorted(asked, key=lambda p: (p.asked_at or p.due_at, p.is_question), reverse=True))

    @property
    def closed(self) -> frozenset[str]:
        """Return the keys of every prompt that was answered, skipped or withdrawn, of all pieces."""
        return frozenset(key for view in self.views for key in view.state.closed)

    @property
    def withdrawn(self) -> frozenset[str]:
        """Return the keys of every prompt that was given up, of all pieces."""
        return frozenset(key for view in self.views for key in view.state.withdrawn)

    def prompt(self, step_id: str) -> Prompt | None:
        """Return the open prompt of a step: of several pieces, the one asked first, else the one due first."""
        found = [p for p in self.prompts if p.step.id == step_id]
        return next((p for p in found if p.asked), found[0] if found else None)

    def findings(self, now: dt.datetime) -> tuple[Finding, ...]:
        """Return what is not safe at `now` about the piece it is seen from."""
        return findings(self.state, self.cut, self.catalogue.cuts, now)

    def eating(self, now: dt.datetime) -> Serving:
        """Return whether the piece it is seen from may be eaten at `now`: safe, not safe or unknown."""
        return serving(self.state, self.cut, self.catalogue.cuts, now)

    @property
    def left_standing(self) -> tuple[tuple[str, Finding], ...]:
        """Return the stops (piece, finding) that stood when the cook was over and that nothing has ended since: closing
        it made no food safe. None while it goes on.
        """
        return tuple(
            (view.piece, stop)
            for view in self.views
            if view.state.over_at is not None
            for stop in standing_stops(view.state, view.cut, self.catalogue.cuts, view.state.over_at)
        )

    def itinerary(self) -> tuple[tuple[dt.datetime, Step], ...]:
        """Return every step still to come once, at its expected time."""
        return tuple((at, step) for at, step, _piece in self.courses())

    def courses(self) -> tuple[tuple[dt.datetime, Step, str | None], ...]:
        """Return every step still to come once, at its expected time, with its piece (None: of the whole cook)."""
        return whole_itinerary(self.views, self.catalogue)

    def told(self, *, all_of_it: bool, plates: bool = False) -> Told:
        """Return the fact of what a message tells: all milestones, only when the plate is (`plates`), or none."""
        told = replanning.told(self.views, self.prompts, all_of_it=all_of_it)
        return replanning.with_plates(told, self.views, self.prompts) if plates else told

    @property
    def late_as_told(self) -> bool:
        """Return whether dinner is late, as people know already."""
        return replanning.late_as_told(self.views)

    def having_told(self, told: Told) -> Situation:
        """Return the situation once people were told so: the schedule is the same, what counts as news is not."""
        views = tuple(dataclasses.replace(view, state=_having_told(view.state, told)) for view in self.views)
        return dataclasses.replace(self, state=_having_told(self.state, told), views=views)

    def shift(self) -> replanning.Shift | None:
        """Return what moved enough to be announced."""
        return replanning.shift(self.views, self.prompts)

    def look_again_at(self) -> dt.datetime | None:
        """Return when the cook is to be looked at although nothing is due: time alone may turn the verdict."""
        if not self.several:
            return replanning.look_again_at(self.state, self.outlook)
        return replanning.look_again_at(whole_state(self.views), whole_outlook(self.views, self.views[0]))

    def next_look_at(self) -> dt.datetime | None:
        """Return when time alone may make something unsafe, or a stop that stands is to be told, or told again.

        What was looked at already and is less than a stop waits for the next message.
        """
        cuts = self.catalogue.cuts
        ahead = [at for view in self.views for at in looks(view.state, view.cut, cuts) if at > view.state.as_of]
        stops = [(view.state, one) for view in self.views for one in self.stops_of(view.piece, view.state.as_of)]
        told = [again_at(state, one) if tellings(state, one) else state.as_of for state, one in stops]
        return min((at for at in (*ahead, *told) if at is not None), default=None)

    def crew_look_at(self) -> dt.datetime | None:
        """Return when something of the crew has waited long enough: a lever nobody decides, a test nobody answers."""
        state = self.state
        if state.over:
            return None
        waiting = [wait.until for wait in state.levers_asked.values() if wait.silent_at is None]
        return self._hands_free(min((a for a in (*waiting, sound.answers_until(state)) if a is not None), default=None))

    def hands_full_until(self) -> dt.datetime | None:
        """Return until when, at most, only vents, smoke, meat on and safety come: from a probe going in to that meat
        being on. None: everything comes at its time.
        """
        found = [until for view in self.views if (until := hands_full_until(view.state)) is not None]
        return max((until for until in found if until > self.state.as_of), default=None)

    def _hands_free(self, at: dt.datetime | None) -> dt.datetime | None:
        """Return an instant at which people are to hear of the crew, put off while hands are full."""
        until = self.hands_full_until()
        return at if at is None or until is None else max(at, until)

    def night_courses(self) -> tuple[tuple[dt.datetime, Step], ...]:
        """Return every step still to come with its expected time, without its piece."""
        return tuple((at, step) for at, step, _piece in self.courses())

    def next_check_at(self) -> dt.datetime | None:
        """Return when somebody is to be tested for the night to come, None when nobody is."""
        return self._hands_free(sound.next_check_at(self.state, self.night_courses()))

    def not_wakeable(self, now: dt.datetime) -> tuple[str, ...]:
        """Return who was tested and cannot be woken."""
        return sound.not_wakeable(self.state, now)

    def alarm_times(self, name: str) -> tuple[dt.datetime, ...]:
        """Return when an ordinary alarm clock of somebody is to ring (UTC)."""
        return sound.alarm_times(self.state, self.night_courses(), name)

    def stops_of(self, piece: str, now: dt.datetime) -> tuple[Finding, ...]:
        """Return the stops that stand at `now` about a piece."""
        found = self.seen_from(piece).findings(now)
        return tuple(one for one in found if one.level is FindingLevel.STOP)


def _having_told(state: CookState, told: Told) -> CookState:
    return dataclasses.replace(state, told=told, told_milestones=told if told.milestones else state.told_milestones)


_TOWARDS_DINNER = frozenset({"fuel_load", "light", "t_minus", "sides"})
"""Steps of the whole cook that nobody is asked for while all of its meat is to be thrown away."""


_OF_FOOD_TO_EAT = frozenset({
    "come_up_check", "second_spot", "box_ready", "box_meat", "hold_check", "serve_reading", "reheat", "board_ready",
})  # fmt: skip
"""Steps of safety about food that is going to be eaten: of food for the bin no number and no box is asked."""


def _withheld(prompt: Prompt, binned: frozenset[str], *, every: bool) -> bool:
    """Return whether a prompt is not asked while a stop says to throw its meat away: nothing leads on to eating it.

    Steps of safety are asked all the same, but those about food that is eaten. What is asked again once the stop ends,
    by a correction, comes back.
    """
    step = prompt.step
    if step.safety and step.id not in _OF_FOOD_TO_EAT:
        return False
    if step.scope == "piece":
        return prompt.piece in binned
    return every and (step.id in _TOWARDS_DINNER or step.id in _OF_FOOD_TO_EAT)


def assess(facts: tuple[Fact, ...], catalogue: Catalogue, as_of: dt.datetime | None = None) -> Situation:
    """Return everything that follows from a log: the same log gives the same situation.

    `as_of` looks at it from a later instant than its newest fact: what has slipped since, with nobody saying anything.
    """
    views = views_of(facts, catalogue.cuts, as_of)
    lead = views[0]
    binned = frozenset(v.piece for v in views if for_the_bin(v.state, v.cut, catalogue.cuts, v.state.as_of))
    every = binned == {view.piece for view in views}
    return Situation(
        state=lead.state,
        cut=lead.cut,
        outlook=lead.outlook,
        prompts=tuple(p for p in whole_schedule(views, catalogue) if not _withheld(p, binned, every=every)),
        catalogue=catalogue,
        plateau=lead.plateau,
        gate=lead.gate,
        views=views,
    )
