"""Trips: what goes out together, what is said of lateness, what is given up."""

from __future__ import annotations

import dataclasses
import datetime as dt
import itertools

import pytest

from scheduler.facts import Asked, PutOff, ServingMoved, Told, Withdrawn
from scheduler.planning.prompts import Prompt, Why
from scheduler.planning.steps import AfterEvent, Level, Step, Unanswered
from scheduler.planning.trips import gather, next_at, wakes
from scheduler.state import CookState
from tests.unit.scheduler.logbook import at, cooking, dinner, resting, steps_of


def _step(name: str, **more: object) -> Step:
    fields: dict[str, object] = {
        "id": name, "phase": "cooking", "level": "should", "early_min": 20, "late_min": 45,
        "owner": "watch", "hands_on_min": 1,
        "anchor": AfterEvent(kind="after", event="meat_on", minutes=0),
    }  # fmt: skip
    return Step.model_validate(fields | more)


def _prompt(
    name: str, due: float, *, wake: float | None = -1, order: int = 0, asked_at: float | None = None, **more: object
) -> Prompt:
    """Return a prompt that is due so many minutes after the start; it wakes when due unless told otherwise."""
    return Prompt(
        key=f"p1/{name}/1",
        cook="c1",
        piece="p1",
        step=_step(name, **more),
        due_at=at(due),
        why=Why(kind="after"),
        order=order,
        asked=0 if asked_at is None else 1,
        asked_at=None if asked_at is None else at(asked_at),
        wake_at=None if wake is None else at(due if wake == -1 else wake),
    )


STATE: CookState = cooking().state


def _trip(*prompts: Prompt, minutes: float, state: CookState = STATE) -> tuple[str, ...]:
    return steps_of(gather(prompts, state, at(minutes)).trip)


# --- together ----------------------------------------------------------------------


def test_nothing_due_is_no_trip() -> None:
    """What comes in a minute starts no trip by itself."""
    assert gather((_prompt("a", 101),), STATE, at(100)).trip is None


def test_what_comes_within_twenty_minutes_joins() -> None:
    """Twenty minutes join, twenty-one do not."""
    prompts = (_prompt("a", 100, order=1), _prompt("b", 120, order=2), _prompt("c", 121, order=3))
    assert _trip(*prompts, minutes=100) == ("a", "b")


def test_what_may_not_come_early_does_not_join() -> None:
    """A step that may be asked ten minutes early joins ten minutes before, not eleven."""
    due, early = _prompt("a", 100), _prompt("b", 111, early_min=10)
    assert _trip(due, early, minutes=100) == ("a",)
    assert _trip(due, dataclasses.replace(early, due_at=at(110), wake_at=at(110)), minutes=100) == ("a", "b")


def test_a_trip_is_told_in_the_order_of_doing() -> None:
    """The order of an open lid, not of due times."""
    assert _trip(_prompt("wrap", 100, order=9), _prompt("look", 115, order=3), minutes=100) == ("look", "wrap")


def test_an_open_question_rides_along_once_it_has_had_a_breath() -> None:
    """Asked ten minutes ago it is asked again with the trip, asked nine minutes ago it is not."""
    due = _prompt("a", 100)
    assert _trip(due, _prompt("b", 80, wake=110, asked_at=90), minutes=100) == ("a", "b")
    assert _trip(due, _prompt("b", 80, wake=110, asked_at=91), minutes=100) == ("a",)


def test_what_was_put_off_to_a_time_waits_for_it() -> None:
    """Somebody said "in 20": it does not ride along after five."""
    put_off = dataclasses.replace(_prompt("b", 115), why=Why(kind="put_off"))
    assert _trip(_prompt("a", 100), put_off, minutes=100) == ("a",)
    assert _trip(_prompt("a", 100), put_off, minutes=115) == ("a", "b")


def test_a_question_that_only_waits_for_its_answer_starts_and_joins_nothing() -> None:
    """Asked as often as it may be, it is open and silent."""
    silent = _prompt("b", 80, wake=None, asked_at=90)
    assert gather((silent,), STATE, at(100)).trip is None
    assert _trip(_prompt("a", 100), silent, minutes=100) == ("a",)


# --- late ----------------------------------------------------------------------


def test_late_is_told_after_ten_minutes() -> None:
    """Ten minutes late is on time; eleven is late and named, though not when it was asked before."""
    assert gather((_prompt("a", 100),), STATE, at(110)).trip.late == ()  # type: ignore[union-attr]  # due, so a trip
    late = gather((_prompt("a", 100), _prompt("b", 60, wake=105, asked_at=80)), STATE, at(111)).trip
    assert late is not None
    assert [prompt.step.id for prompt in late.late] == ["a"]


@pytest.mark.parametrize(
    ("level", "safety", "arrives"), [("should", False, False), ("must", False, True), ("should", True, True)]
)
def test_too_late_is_given_up_unless_it_must_arrive(level: str, safety: bool, arrives: bool) -> None:
    """After its limit a first asking is withdrawn with a reason; a must or safety step arrives however late."""
    prompt = _prompt("a", 100, level=level, safety=safety, unanswered=Unanswered(then="open"))
    on_the_limit, over = (gather((prompt,), STATE, at(minutes)) for minutes in (145, 146))
    assert steps_of(on_the_limit.trip) == ("a",)
    assert steps_of(over.trip) == (("a",) if arrives else ())
    assert [(g.prompt.key, g.reason) for g in over.given_up] == ([] if arrives else [("p1/a/1", "too_late")])


def test_what_was_asked_in_time_is_not_too_late() -> None:
    """A question that is open is asked again whatever its limit for the first asking was."""
    again = _prompt("a", 100, wake=180, asked_at=100)
    assert _trip(again, minutes=180) == ("a",)


def test_a_question_nobody_answers_lapses() -> None:
    """At the end of its time it is given up silently, with the reason."""
    prompt = dataclasses.replace(_prompt("a", 100, wake=None, asked_at=100), lapses_at=at(145))
    assert gather((prompt,), STATE, at(144)).given_up == ()
    assert [given.reason for given in gather((prompt,), STATE, at(145)).given_up] == ["no_answer"]


def test_a_message_off_the_told_time_says_so() -> None:
    """More than ten minutes before or after what was told; ten minutes are no news."""
    log = cooking()
    log.tell(Told(next_at=at(100)), 90, by=None)
    told = {
        minutes: gather((_prompt("a", minutes),), log.state, at(minutes)).trip.told_at  # type: ignore[union-attr]  # due, so a trip
        for minutes in (89, 90, 110, 111)
    }
    assert told == {89: at(100), 90: None, 110: None, 111: at(100)}


def test_after_an_outage_there_is_one_message_and_no_storm() -> None:
    """Five hours away: one trip, the meat's number first of all; what has passed is withdrawn with its reason."""
    log = cooking()
    changes = log.ring(360)
    asked = [fact.body for fact in changes.facts if isinstance(fact.body, Asked)]
    gone = {fact.body.prompt: fact.body.reason for fact in changes.facts if isinstance(fact.body, Withdrawn)}
    assert len(asked) == 1
    assert {"p1/raw_cleanup/1", "p1/core_read/1"} <= set(asked[0].prompts)
    assert gone == dict.fromkeys(("p1/pit_check/1", "p1/fuel_check/1"), "too_late")
    assert all(at_ > at(360) for _, at_ in wakes(log.situation.prompts))


# --- again ----------------------------------------------------------------------


def test_an_unanswered_must_is_asked_again_in_growing_pauses() -> None:
    """The feel: asked, three times more every twenty minutes, then after one, two and four hours, and then it rests."""
    log = cooking()
    log.read(91.0, 400)
    for minutes in (400, 420, 440, 460):
        assert log.wakes("tender_test") == minutes
        log.ring(minutes)
    prompt = log.prompt("tender_test")
    assert prompt is not None
    assert (prompt.asked, prompt.lapses_at) == (4, None)
    for minutes in (460 + 60, 460 + 180, 460 + 420, 460 + 660, 460 + 900, 460 + 1140):
        assert log.wakes("tender_test") == minutes
        log.ring(minutes)
    assert log.wakes("tender_test") is None
    assert log.prompt("tender_test") is not None


def test_asked_early_in_a_trip_it_is_asked_again_by_that_asking() -> None:
    """A reading that joined ten minutes early is asked again half an hour after it was asked."""
    log = cooking()
    log.tell(Asked(prompts=("p1/core_read/1",)), 140, by=None)
    assert log.wakes("core_read") == 140 + 30


def test_asked_and_then_moved_to_later_it_waits_for_the_new_time() -> None:
    """Dinner moves an hour after the knife was asked for: it is asked for again at its new time."""
    log = resting(pulled=480)
    before = log.due("serve_reading")
    assert before == 765
    log.ring(765)
    log.taken(ServingMoved(serving=dinner(900)), minutes=768)
    assert (log.wakes("serve_reading"), log.wakes("slice"), log.wakes("serve")) == (885, 885, 900)


def test_put_off_is_asked_again_at_the_named_time() -> None:
    """In twenty minutes means then; asked then, it is asked again in its own rhythm."""
    log = cooking()
    log.read(91.0, 400)
    log.ring(400)
    log.taken(PutOff(step="tender_test", until=at(422)), minutes=402)
    prompt = log.prompt("tender_test")
    assert prompt is not None
    assert (prompt.due_at, prompt.wake_at, prompt.why.kind) == (at(422), at(422), "put_off")
    log.ring(422)
    assert log.wakes("tender_test") == 422 + 20


def test_put_off_to_before_its_time_changes_nothing() -> None:
    """A question that comes later anyway comes when it comes."""
    log = cooking()
    log.taken(PutOff(step="core_read", until=at(100)), minutes=80)
    assert log.due("core_read") == 150


# --- the next one ----------------------------------------------------------------------


def test_the_next_message_is_the_earliest_that_wakes() -> None:
    """By waking, not by due time; silent ones bring no message."""
    first, second = _prompt("a", 100, wake=130, asked_at=100), _prompt("b", 120)
    coming = next_at((first, second, _prompt("c", 90, wake=None)))
    assert coming is not None
    assert (coming[0], coming[1].step.id) == (at(120), "b")
    assert next_at((_prompt("c", 90, wake=None),)) is None


def test_a_cook_is_looked_at_when_something_wakes_or_lapses() -> None:
    """Every such moment has a row: what wakes, and what is given up."""
    lapsing = dataclasses.replace(_prompt("b", 80, wake=None, asked_at=80), lapses_at=at(125))
    assert wakes((_prompt("a", 100), lapsing, _prompt("c", 90, wake=None))) == (
        ("p1/a/1", at(100)), ("p1/b/1", at(125)),
    )  # fmt: skip


def test_levels_are_known() -> None:
    """Must and safety arrive; the rest may be given up."""
    assert [_prompt("a", 1, level=level).must_arrive for level in Level] == [True, False, False]
    assert _prompt("a", 1).late_until - _prompt("a", 1).due_at == dt.timedelta(minutes=45)


def test_nothing_buries_the_pull() -> None:
    """With other things due it goes out alone; they follow with the next ring."""
    pull, other = _prompt("pull", 100, order=5), _prompt("a", 95)
    assert _trip(pull, other, minutes=100) == ("pull",)


def test_an_open_step_that_nobody_answers_is_asked_in_growing_pauses() -> None:
    """The feel: four times in an hour, then after 1, 2, 4, 4, 4 and 4 hours; then it rests."""
    log = cooking()
    log.read(91.0, 400)
    asked: list[float] = []
    while (minutes := log.wakes("tender_test")) is not None:
        log.ring(minutes)
        asked.append(minutes)
        assert len(asked) < 20
    pauses = [later - earlier for earlier, later in itertools.pairwise(asked)]
    assert pauses == [20, 20, 20, 60, 120, 240, 240, 240, 240]
    assert log.prompt("tender_test") is not None
