"""Laws: what holds in every cook that can be played, whatever the crew does and whenever the bell rings.

Each law looks at one play and asserts; nothing is played here. That the bell comes to rest the play asserts itself.
"""

from __future__ import annotations

import dataclasses
import itertools

from scheduler.cook import Situation
from scheduler.facts import Asked, Corrected, Fact, Reading, StepDone, StepSkipped, Undone, Withdrawn
from scheduler.planning.nights import is_quiet
from scheduler.planning.prompts import step_of
from scheduler.planning.trips import wakes
from scheduler.planning.views import PieceView
from scheduler.state import PIECE_STEPS, CookState
from tests.properties.play import CATALOGUE, Moment, Play, again

_ONCE_FOR_EACH = frozenset({"raw_cleanup", "two_hour", "leftovers"})
"""Of several pieces done once for each that goes on, or each wave that is served."""


def _all_but_the_forecast(situation: Situation) -> tuple[object, ...]:
    """Return everything that is computed from a log, as values that can be compared."""
    found: list[object] = [situation.prompts]
    for view in situation.views:
        outlook = {f.name: getattr(view.outlook, f.name) for f in dataclasses.fields(view.outlook)}
        outlook.pop("forecast")
        found += [view.state, view.stall, view.gate, outlook]
    return tuple(found)


def _asked(facts: tuple[Fact, ...]) -> tuple[str, ...]:
    return tuple(key for fact in facts if isinstance(fact.body, Asked) for key in fact.body.prompts)


def _withdrawn(facts: tuple[Fact, ...]) -> set[str]:
    return {fact.body.prompt for fact in facts if isinstance(fact.body, Withdrawn)}


def _amends(moment: Moment) -> bool:
    """Return whether something was taken back or corrected."""
    return any(isinstance(fact.body, Undone | Corrected) for fact in moment.facts)


def the_same_log_gives_the_same_situation(played: Play) -> None:
    """Computed afresh from the log, state, prompts, outlook and gate are equal to the last bit, now and at any moment
    before; the log only grows, and nothing in it is dated after it was written down.
    """
    decided = [moment for moment in played.moments if moment.refused is None]
    for moment in decided[:: max(1, len(decided) // 3)]:
        assert _all_but_the_forecast(again(played.log[: moment.length], moment.now)) == _all_but_the_forecast(
            moment.after
        )
    recorded = [fact.recorded_at for fact in played.log]
    assert recorded == sorted(recorded)
    assert all(fact.happened_at <= fact.recorded_at for fact in played.log)
    assert len({fact.id for fact in played.log}) == len(played.log)


def the_order_of_a_cook_holds(played: Play) -> None:
    """On before wrap before pull before rest before slice before the plate: in what happened and in what is planned."""
    for moment in played.moments:
        for view in moment.after.views:
            _happened_in_order(view.state)
        planned_in_order(moment.after)


def _happened_in_order(state: CookState) -> None:
    wrapped_at = state.wraps[0][0] if state.wraps else None
    times = {"light": state.at("light"), "meat_on": state.at("meat_on"), "wrap": wrapped_at}
    times |= {step: state.at(step) for step in ("pull", "box_meat", "slice", "serve")}
    known = [(name, at) for name, at in times.items() if at is not None]
    for (first, first_at), (second, second_at) in itertools.pairwise(known):
        assert first_at <= second_at, (first, second)
    if wrapped_at is not None or state.did("pull"):
        assert state.did("meat_on")
    if any(state.did(step) for step in ("vent_meat", "box_meat", "slice", "serve")):
        assert state.did("pull")


def planned_in_order(situation: Situation) -> None:
    """Salt before fire before meat before bark before the pull before rest before slice before the plate."""
    order = ("dry_brine", "light", "meat_on", "bark_check", "second_spot", "pull", "box_meat", "slice", "serve")
    for view in situation.views:
        expected = {step.id: at for at, step, piece in situation.courses() if piece in {None, view.piece}}
        if situation.several and expected.get("light", view.outlook.on_at) > view.outlook.on_at:
            raise AssertionError(("light", view.piece))
        own = [step for step in order if step in expected and not (situation.several and step == "light")]
        for first, second in itertools.pairwise(own):
            assert expected[first] <= expected[second], (view.piece, first, second)


def no_prompt_that_came_due_vanishes(played: Play) -> None:
    """What was open before a decision is open, closed by an answer or withdrawn with a reason after it, unless it was
    never due; and when the bell has come to rest, everything that was due has been asked.
    """
    for moment in played.moments:
        ended = _withdrawn(played.log[: moment.length]) | moment.after.closed
        still_open = {prompt.key for prompt in moment.after.prompts}
        for prompt in moment.before.prompts:
            if prompt.asked or prompt.due_at <= moment.now:
                assert prompt.key in still_open | ended or moment.after.state.over, prompt.key
    for moment, following in itertools.pairwise(played.moments):
        if following.now > moment.now:
            waiting = [p for p in moment.after.prompts if p.due_at <= moment.now and not p.silent]
            assert all(prompt.asked for prompt in waiting), [prompt.key for prompt in waiting if not prompt.asked]


def done_stays_done_unless_it_is_taken_back(played: Play) -> None:
    """No step that was done is undone by anything else, and what is done once is not asked for again."""
    for moment in played.moments:
        for view in moment.before.views:
            before, after = view.state.done, moment.after.view(view.piece).state.done
            if not _amends(moment):
                assert all({d.fact for d in times} <= {d.fact for d in after[step]} for step, times in before.items())
        for prompt in moment.after.prompts:
            again = moment.after.several and prompt.step.id in _ONCE_FOR_EACH
            if prompt.step.happens_once and not again:
                assert not moment.after.view(prompt.piece).state.did(prompt.step.id), prompt.key


def nothing_is_asked_twice_at_once_or_out_of_place(played: Play) -> None:
    """One message at most for each ring, no prompt twice at one instant, one caution at most in a message, none twice
    in a cook but those whose condition returns; nothing of the cooking after the pull, nothing of the fire once the
    meat is on, nothing of the past in a cook from the middle.
    """
    asked_at = [(key, fact.recorded_at) for fact in played.log for key in _asked((fact,))]
    assert len(set(asked_at)) == len(asked_at)
    told = [fact.body.cautions for fact in played.log if isinstance(fact.body, Asked)]
    assert all(len(cautions) <= 1 for cautions in told)
    cautions = [caution for cautions in told for caution in cautions]
    once = {caution.id for caution in CATALOGUE.steps.cautions if not caution.returns}
    assert [caution for caution in once if cautions.count(caution) > 1] == []
    for moment in played.moments:
        assert sum(isinstance(fact.body, Asked) for fact in moment.facts) <= (1 if moment.rung else 0)
        for key in _asked(moment.facts):
            if not moment.before.several or step_of(key) in PIECE_STEPS:
                _in_place(key, moment)


def _in_place(key: str, moment: Moment) -> None:
    """Assert that a prompt fits what has happened when it is asked."""
    state = moment.before.view(key.split("/", maxsplit=1)[0]).state
    step = CATALOGUE.steps.get(step_of(key))
    assert step is not None
    match step.phase:
        case "before" | "fire":
            assert not state.did("meat_on"), key
            assert not state.planned.from_middle, key
        case "cooking":
            assert state.did("meat_on"), key
            assert not state.did("serve"), key
            assert not state.did("pull") or step.id == "box_ready", key
        case "resting":
            assert step.id == "pull" or state.did("pull"), key
            assert step.id != "pull" or not state.did("pull"), key
            assert not state.did("serve") or step.id == "shutdown", key
        case "serving":
            assert not state.did("serve"), key
        case "after":
            assert state.did("serve") or state.did("shutdown"), key


def after_every_ring_the_next_lies_ahead(played: Play) -> None:
    """Whenever the bell has come to rest, whatever wakes next wakes later, and no moment of waking is lost."""
    played.settle()
    assert all(at > played.now for _, at in wakes(played.situation.prompts))
    for prompt in played.situation.prompts:
        assert prompt.asked or prompt.wake_at is not None, prompt.key


def safety_is_closed_by_answers_alone(played: Play) -> None:
    """A safety prompt is closed by a reading or a deed, never by a skip, a delay or silence; the gate opens by an
    undoubted reading at the minimum since the meat went on.
    """
    for moment in played.moments:
        for prompt in moment.before.prompts:
            state = moment.after.view(prompt.piece).state
            if prompt.step.safety and prompt.key in state.closed and prompt.key not in moment.before.closed:
                closing = [fact.body for fact in moment.facts if prompt.key in fact.answers]
                assert closing or _amends(moment), prompt.key
                assert all(isinstance(body, Reading | StepDone) for body in closing), prompt.key
                assert not prompt.step.slots or all(isinstance(body, Reading) for body in closing), prompt.key
        assert not any(
            isinstance(fact.body, StepSkipped) and CATALOGUE.steps.get(fact.body.step).safety  # type: ignore[union-attr]  # only known steps are written
            for fact in moment.facts
        )
        for view in moment.after.views:
            if view.gate.open_at is not None:
                _measured(view)


def _measured(view: PieceView) -> None:
    """Assert that an open gate rests on readings of this very piece: of poultry at the minimum of poultry."""
    on_at = view.state.at("meat_on")
    least_c = 73.9 if view.cut.species == "poultry" else 62.8
    assert any(
        not r.doubtful and round(r.value_c - r.spread_c, 1) >= least_c and on_at is not None and r.at >= on_at
        for r in view.state.readings
        if r.slot == "core"
    )


def times_make_sense(played: Play) -> None:
    """Windows run forward, chances lie between none and certain, nothing of the day before is planned for the night,
    and meat that has been pulled, felt tender or served is not expected again.
    """
    for moment in played.moments:
        for view in moment.after.views:
            _windows_make_sense(view)
        for prompt in moment.after.prompts:
            if prompt.step.phase == "before" and prompt.why.kind != "put_off":
                assert not is_quiet(moment.after.state, prompt.due_at), prompt.key


def _windows_make_sense(view: PieceView) -> None:
    outlook, state = view.outlook, view.state
    for window in (outlook.pull, outlook.plate):
        times = [at for at in (window.early, window.likely, window.late) if at is not None]
        assert times == sorted(times)
    assert outlook.chance is None or 0.0 <= outlook.chance <= 1.0
    if state.stage == "cooking" and outlook.pull.early is not None:
        assert outlook.pull.early >= state.as_of


LAWS = (
    the_same_log_gives_the_same_situation,
    the_order_of_a_cook_holds,
    no_prompt_that_came_due_vanishes,
    done_stays_done_unless_it_is_taken_back,
    nothing_is_asked_twice_at_once_or_out_of_place,
    after_every_ring_the_next_lies_ahead,
    safety_is_closed_by_answers_alone,
    times_make_sense,
)
