"""Steps that are reported: done, done already, implied, refused for their order, skipped."""

from __future__ import annotations

import pytest

from scheduler.cook import Already, Implied, NotSkipped, Taken
from scheduler.facts import Feel, Felt, Noted, PutOff, StepDone, StepSkipped, Wrap, Wrapped
from tests.unit.scheduler.logbook import Logbook, at, cooking, resting


def test_done_closes_its_prompt() -> None:
    """The prompt of the step is answered by the fact, by whoever did it."""
    log = Logbook()
    fact = log.taken(StepDone(step="trim"), minutes=10, by="Tomas").facts[0]
    assert (fact.answers, fact.by) == (("p1/trim/1",), "Tomas")


def test_done_without_having_been_asked_counts() -> None:
    """Told before the prompt existed: it is done, and never asked for."""
    log = Logbook()
    log.taken(StepDone(step="probe_in"), minutes=10)
    log.done("light", 20)
    assert log.prompt("probe_in") is None


def test_done_twice_is_thanked() -> None:
    """The second person hears who did it and when; nothing is written."""
    log = cooking()
    log.done("light", 5, by="Tomas")
    changes = log.taken(StepDone(step="light"), minutes=70)
    assert changes.facts == ()
    assert changes.events == (Already(step="light", by="Tomas", at=at(5), said_by="Ines"),)


def test_done_again_with_a_time_corrects_the_time() -> None:
    """The meat went on at 6:50, not at 7: a named time moves the fact, the word alone does not."""
    log = cooking()
    log.taken(StepDone(step="meat_on"), minutes=90, ago=40, dated=True)
    assert log.state.at("meat_on") == at(50)
    assert len(log.state.done["meat_on"]) == 1
    assert log.taken(StepDone(step="meat_on"), minutes=95, ago=0).facts == ()


def test_pulled_again_is_not_pulled_twice() -> None:
    """The pull is once, although it is asked for by feel."""
    log = resting(pulled=480)
    changes = log.taken(StepDone(step="pull"), minutes=485, by="Tomas")
    assert [type(event) for event in changes.events] == [Already]
    assert log.state.at("pull") == at(480)


@pytest.mark.parametrize("step", ["box_meat", "vent_meat", "slice", "serve"])
def test_what_needs_the_pull_implies_it(step: str) -> None:
    """Boxed, vented, sliced or served: then it was pulled, at that time, and that is said."""
    log = cooking()
    changes = log.taken(StepDone(step=step), minutes=480, ago=5)
    assert log.state.at("pull") == log.state.at(step) == at(475)
    assert Implied(step="pull", at=at(475)) in changes.events


def test_a_fast_clock_does_not_put_the_pull_after_the_box() -> None:
    """Sent from two minutes ahead: both happened now."""
    log = cooking()
    log.taken(StepDone(step="box_meat"), minutes=480, ago=-2)
    assert log.state.at("pull") == log.state.at("box_meat") == at(480)


@pytest.mark.parametrize("step", ["pull", "box_meat", "vent_meat", "slice", "serve", "bark_check"])
def test_nothing_comes_off_that_did_not_go_on(step: str) -> None:
    """Before meat on, what needs it is asked back, not written."""
    refusal = Logbook().refused(StepDone(step=step), minutes=10)
    assert (refusal.reason, refusal.step) == ("not_on_yet", step)


@pytest.mark.parametrize("body", [Wrapped(wrap=Wrap.FOIL), Felt(feel=Feel.TENDER)])
def test_only_meat_on_the_fire_is_wrapped_or_felt(body: Wrapped | Felt) -> None:
    """The same for a wrap and a feel."""
    assert Logbook().refused(body, minutes=10).reason == "not_on_yet"


@pytest.mark.parametrize(
    ("step", "minutes", "other"),
    [("meat_on", 500, "pull"), ("pull", 30, "meat_on"), ("serve", 400, "pull"), ("light", 100, "meat_on")],
)
def test_the_order_of_a_cook_holds(step: str, minutes: float, other: str) -> None:
    """What was told with a time that cannot be names the other step and its time, and changes nothing."""
    log = Logbook()
    for earlier, when in (("meat_on", 60.0), ("pull", 480.0)):
        if earlier != step:
            log.done(earlier, when)
    if step == "pull":
        log.facts = tuple(fact for fact in log.facts if fact.body != StepDone(step="pull"))
    refusal = log.refused(StepDone(step=step), minutes=600, ago=600 - minutes, dated=True)
    assert (refusal.reason, refusal.step, refusal.other) == ("out_of_order", step, other)
    assert refusal.at == log.state.at(other)


def test_a_wrap_belongs_between_on_and_pull() -> None:
    """Dated before meat on or after the pull it cannot be."""
    log = resting(pulled=480)
    assert log.refused(Wrapped(wrap=Wrap.PAPER), minutes=490, ago=460).other == "meat_on"
    assert log.refused(Wrapped(wrap=Wrap.PAPER), minutes=490).other == "pull"
    log.taken(Wrapped(wrap=Wrap.PAPER), minutes=490, ago=100)
    assert log.state.wraps[0][0] == at(390)


def test_a_corrected_time_keeps_the_order() -> None:
    """The pull cannot be moved to before meat on by naming another time."""
    log = resting(pulled=480)
    refusal = log.refused(StepDone(step="pull"), minutes=490, ago=450, dated=True)
    assert (refusal.reason, refusal.other) == ("out_of_order", "meat_on")


def test_an_unknown_step_is_refused() -> None:
    """Done and skipped alike."""
    assert cooking().refused(StepDone(step="dance"), minutes=70).reason == "no_such_step"
    assert cooking().refused(StepSkipped(step="dance"), minutes=70).reason == "no_such_step"


def test_the_pull_closes_the_feel() -> None:
    """Pulled without a word about the feel: the feel is answered by it."""
    log = cooking()
    log.read(91.0, 400)
    log.ring(400)
    fact = log.taken(StepDone(step="pull"), minutes=420).facts[0]
    assert "p1/tender_test/1" in fact.answers


def test_a_wrap_closes_the_look_at_the_bark() -> None:
    """Wrapped in paper: looked at and done."""
    log = cooking()
    log.read(80.0, 300)
    log.ring(300)
    assert log.taken(Wrapped(wrap=Wrap.PAPER), minutes=305).facts[0].answers == ("p1/bark_check/1",)


# --- not yet ----------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("step", "outcome", "minutes", "again"),
    [
        ("smoke_clean", "grey", 40, 10),
        ("smoke_clean", "white", 40, 10),
        ("fire_out", "still_hot", 700, 60),
        ("ash", "still_warm", 3400, 1440),
    ],
)
def test_an_outcome_that_settles_nothing_is_asked_again(step: str, outcome: str, minutes: float, again: float) -> None:
    """Grey smoke, a hot cooker, warm ash: the step stays open and comes back in its own time."""
    log = Logbook()
    log.done("light", 0)
    if step != "smoke_clean":
        log.done("meat_on", 60)
        log.done("pull", 480)
        log.done("shutdown", 500, "closed")
        log.done("serve", 550)
    log.ring(minutes)
    log.taken(StepDone(step=step, outcome=outcome), minutes=minutes)
    assert log.state.did(step) is None
    assert log.wakes(step) == minutes + again


def test_a_fire_ban_is_asked_about_again() -> None:
    """Ban or too windy: the question is not closed by it; it comes back in half an hour, and yes closes it."""
    log = Logbook()
    due = log.due("rules_recheck")
    assert due is not None
    log.ring(due)
    changes = log.taken(StepDone(step="rules_recheck", outcome="stop"), minutes=due + 2)
    assert [type(fact.body) for fact in changes.facts] == [Noted, PutOff]
    assert log.wakes("rules_recheck") == due + 32
    log.ring(due + 32)
    log.taken(StepDone(step="rules_recheck", outcome="ok"), minutes=due + 33)
    assert log.prompt("rules_recheck") is None
    assert log.state.did("rules_recheck") is not None


# --- skipping ---------------------------------------------------------------------------------------------------------


def test_a_skip_closes_an_ordinary_step() -> None:
    """Skipped is answered; a later "done" still counts as done."""
    log = Logbook()
    fact = log.taken(StepSkipped(step="trim"), minutes=10).facts[0]
    assert fact.answers == ("p1/trim/1",)
    assert log.prompt("trim") is None
    log.taken(StepDone(step="trim"), minutes=20)
    assert log.state.did("trim") is not None


def test_a_skip_of_a_safety_step_is_kept_as_a_note() -> None:
    """The word is in the log, the step is open, and the person is told."""
    log = cooking()
    log.ring(60)
    changes = log.taken(StepSkipped(step="raw_cleanup"), minutes=62)
    assert changes.events == (NotSkipped(step="raw_cleanup"),)
    assert [type(fact.body) for fact in changes.facts] == [Noted]
    assert log.prompt("raw_cleanup") is not None


def test_what_was_taken_is_told_with_its_time() -> None:
    """A report comes back as an event with value, instant and person."""
    changes = cooking().taken(StepDone(step="spritz"), minutes=200, ago=5, by="Wren")
    assert changes.events[0] == Taken(body=StepDone(step="spritz"), at=at(195), by="Wren")
