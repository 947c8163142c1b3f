"""Claims in the schedule: what somebody has is not asked meanwhile, is closed once for all, and comes back."""

from __future__ import annotations

import datetime as dt

from scheduler.cook import Already, NoLonger
from scheduler.facts import ClaimDropped, Claimed, Closed, CrewRole, CrewTold, StepDone
from tests.unit.scheduler.logbook import Logbook, at, cooking


def _fuel_low() -> Logbook:
    """Return a cook of two whose fire needs fuel, asked at 200."""
    log = cooking()
    log.tell(CrewTold(name="Tomas", role=CrewRole.HELPER), 1)
    log.taken(StepDone(step="fuel_check", outcome="low"), minutes=199)
    log.ring(200)
    asked = log.prompt("refuel")
    assert asked is not None
    assert asked.asked == 1
    return log


def test_what_is_claimed_is_asked_again_once_it_lapses() -> None:
    """Fifteen minutes after "mine", and it says whose it was; then its owner is asked anew, not the group."""
    log = _fuel_low()
    log.taken(Claimed(step="refuel"), minutes=205, by="Tomas")
    waiting = log.prompt("refuel")
    assert waiting is not None
    assert waiting.claim is not None
    assert (waiting.claim.name, waiting.wake_at, waiting.lapses_at) == ("Tomas", at(220), None)
    assert log.trip(215) is None or log.state.asked["p1/refuel/1"].times == 1
    trip = log.trip(220)
    assert trip is not None
    again = next(p for p in trip.prompts if p.step.id == "refuel")
    assert again.claim is not None
    assert again.escalation is not None
    assert (again.claim.name, again.escalation.level, again.escalation.names) == ("Tomas", "owner", ("Ines",))
    after = log.prompt("refuel")
    assert after is not None
    assert after.claim is None


def test_a_claim_that_is_dropped_gives_it_back_at_once() -> None:
    """Then it is asked again in its usual rhythm."""
    log = _fuel_low()
    log.taken(Claimed(step="refuel"), minutes=205, by="Tomas")
    log.taken(ClaimDropped(step="refuel"), minutes=206, by="Tomas")
    assert log.wakes("refuel") == 215


def test_the_first_done_closes_it_for_all_and_the_second_is_thanked() -> None:
    """Claimed by one, done by another: with name and time; told twice within ten minutes it counts once."""
    log = _fuel_low()
    log.taken(Claimed(step="refuel"), minutes=205, by="Tomas")
    log.taken(StepDone(step="refuel"), minutes=208, by="Ines")
    second = log.taken(StepDone(step="refuel"), minutes=212, by="Tomas")
    assert [(e.by, e.at, e.said_by) for e in second.events if isinstance(e, Already)] == [("Ines", at(208), "Tomas")]
    done = log.state.did("refuel")
    assert done is not None
    assert (done.by, done.at, len(log.state.done["refuel"]), log.state.claims) == ("Ines", at(208), 1, {})


def test_a_claim_beforehand_puts_off_the_first_asking_but_not_of_safety() -> None:
    """Who has said that they do it is not asked right away; safety is asked at its time."""
    log = cooking()
    due = log.prompt("pit_check")
    assert due is not None
    minutes = (due.due_at - at(0)) / dt.timedelta(minutes=1)
    log.taken(Claimed(step="pit_check"), minutes=minutes - 5, by="Ines")
    held = log.prompt("pit_check")
    assert held is not None
    assert held.wake_at == at(minutes + 10)
    safety = next(p for p in log.situation.prompts if p.step.safety and p.wake_at is not None and not p.asked)
    log.taken(Claimed(step=safety.step.id), minutes=minutes - 4)
    same = log.prompt(safety.step.id)
    assert same is not None
    assert same.wake_at == safety.wake_at


def test_a_claim_ends_with_the_cook() -> None:
    """Called off: whoever had it is told that it matters no more."""
    log = _fuel_low()
    log.taken(Claimed(step="refuel"), minutes=205, by="Tomas")
    changes = log.taken(Closed(reason="called_off"), minutes=206)
    ended = [e for e in changes.events if isinstance(e, NoLonger)]
    assert [(e.what, e.about, e.names) for e in ended] == [("claim", "refuel", ("Tomas",))]
