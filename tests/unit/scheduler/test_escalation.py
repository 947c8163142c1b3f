"""Who is called after whom when nobody answers: owner, next name, everybody, each after its minutes."""

from __future__ import annotations

from scheduler.facts import CrewRole, CrewTold, Reading, Slot, SoundHeard, SoundSent, StepDone
from scheduler.planning.escalation import SAFETY_STAGE_MIN, STAGE_MIN, stages
from scheduler.planning.prompts import Escalation, Prompt
from scheduler.planning.steps import Step
from scheduler.state import fold
from tests.unit.scheduler.logbook import CATALOGUE, Logbook, at, cooking, minutes_of
from tests.unit.scheduler.test_crew_facts import NIGHT
from tests.unit.scheduler.test_handover import overnight


def _step(name: str) -> Step:
    step = CATALOGUE.steps.get(name)
    assert step is not None
    return step


def _crew() -> Logbook:
    """Return a night with Wren on watch, Ines who leads, and Tomas who helps."""
    log = overnight(("Wren", 0, 540))
    log.tell(CrewTold(name="Tomas", role=CrewRole.HELPER), 6)
    return log


def _out(log: Logbook, step: str, minutes: float) -> Escalation:
    """Ring, and return whom the prompt of a step calls."""
    trip = log.trip(minutes)
    assert trip is not None
    prompt = next(p for p in trip.prompts if p.step.id == step)
    assert prompt.escalation is not None
    return prompt.escalation


def test_at_night_it_goes_from_the_owner_to_the_next_name_to_the_group() -> None:
    """The bark is the lead's: Ines, after ten minutes Wren who is up, after ten more the group; Tomas, who helps, is
    not called by name.
    """
    log = _crew()
    due = log.due("bark_check")
    assert due is not None
    first = _out(log, "bark_check", due)
    second = _out(log, "bark_check", due + STAGE_MIN)
    third = _out(log, "bark_check", due + 2 * STAGE_MIN)
    assert [(e.level, e.names, e.minutes) for e in (first, second, third)] == [
        ("owner", ("Ines",), STAGE_MIN), ("next", ("Wren",), STAGE_MIN), ("group", (), None),
    ]  # fmt: skip
    assert third.before == ("Ines", "Wren")


def test_a_step_of_safety_that_wakes_is_passed_on_in_the_same_minutes() -> None:
    """Nobody is called twice within ten minutes, and what only rides along or is the helper's is nobody's alarm."""
    state = _crew().state
    found = stages(_step("come_up_check"), state, at(NIGHT + 120))
    assert (found.names, found.minutes) == ((("Wren",), ("Ines",), ()), SAFETY_STAGE_MIN)
    clean = stages(_step("raw_cleanup"), state, at(NIGHT + 120))
    assert clean.names == (("Wren",),)


def test_raw_boards_are_asked_again_of_the_watch_and_wake_nobody() -> None:
    """Nobody answers the whole night: asked twice, of Wren, never dropped, and Ines sleeps."""
    log = overnight(("Wren", 0, 540))
    asked: list[tuple[str, ...]] = []
    for minutes in range(NIGHT, NIGHT + 240):
        trip = log.trip(minutes)
        asked += [p.wakes for p in (() if trip is None else trip.prompts) if p.step.id == "raw_cleanup"]
    assert set(asked) == {("Wren",)}
    assert "raw_cleanup" in {prompt.step.id for prompt in log.situation.waiting}


def test_what_only_the_watch_is_asked_goes_no_further() -> None:
    """Nobody else is called for a look at the pit."""
    assert stages(_step("pit_check"), _crew().state, at(NIGHT + 120)).names == (("Wren",),)


def test_who_cannot_be_woken_is_passed_over_and_named() -> None:
    """Ines did not answer the test: her decision goes to Wren, who is up; once she has answered it is hers again."""
    log = _crew()
    log.tell(SoundSent(name="Ines"), NIGHT - 120, by=None)
    state = fold(log.facts, at(NIGHT + 120))
    found = stages(_step("bark_check"), state, at(NIGHT + 120))
    assert (found.names, found.skipped) == ((("Wren",), ()), ("Ines",))
    log.tell(SoundHeard(name="Ines"), NIGHT + 100, by="Ines")
    again = stages(_step("bark_check"), fold(log.facts, at(NIGHT + 120)), at(NIGHT + 120))
    assert (again.names[0], again.skipped) == (("Ines",), ())


def test_when_nobody_can_be_woken_those_are_called_all_the_same_whose_it_is() -> None:
    """A message that nobody may hear is better than none."""
    log = _crew()
    for name in ("Ines", "Wren", "Tomas"):
        log.tell(SoundSent(name=name, private=False), NIGHT - 120, by=None)
    found = stages(_step("bark_check"), fold(log.facts, at(NIGHT + 120)), at(NIGHT + 120))
    assert found.names[0] == ("Ines",)


def test_by_day_a_must_that_nobody_answers_goes_to_everybody() -> None:
    """First whose it is, then all; in the rhythm of the step itself, and nobody is woken."""
    log = cooking()
    log.tell(CrewTold(name="Tomas", role=CrewRole.HELPER), 1)
    log.taken(StepDone(step="fuel_check", outcome="low"), minutes=199)
    first = _out(log, "refuel", 200)
    second = _out(log, "refuel", 215)
    assert [(e.level, e.names, e.minutes) for e in (first, second)] == [
        ("owner", ("Ines",), 15), ("group", (), None),
    ]  # fmt: skip


def test_nobody_is_called_for_the_fire_who_only_carves_hosts_helps_or_eats() -> None:
    """Of four who came for something else none is in the chain, unless a watch is theirs."""
    log = overnight(("Wren", 0, 540))
    roles = {"Kim": CrewRole.CARVER, "Sam": CrewRole.HELPER, "Hal": CrewRole.HOST, "Zoe": CrewRole.GUEST}
    for name, role in roles.items():
        log.tell(CrewTold(name=name, role=role), 6)
    state = log.state
    for name in ("bark_check", "come_up_check", "light", "vents_early"):
        called = {one for names in stages(_step(name), state, at(NIGHT + 120)).names for one in names}
        assert called <= {"Wren", "Ines"}, name
    log.tell(CrewTold(name="Kim", role=CrewRole.WATCH), 7)
    assert stages(_step("come_up_check"), log.state, at(NIGHT + 120)).names[-1] == ("Kim",)


def test_who_is_alone_is_asked_in_the_rhythm_of_the_step() -> None:
    """Nobody else is there to be called: the lead of a cook alone is not woken every ten minutes."""
    log = overnight()
    due = log.due("bark_check")
    assert due is not None
    log.ring(due)
    assert log.wakes("bark_check") == due + _step("bark_check").unanswered.again_min


def test_an_answer_ends_it() -> None:
    """Somebody answers at the second stage: nobody of the third is called."""
    log = _crew()
    due = log.due("bark_check")
    assert due is not None
    log.ring(due)
    log.taken(StepDone(step="bark_check", outcome="set"), minutes=due + 8, by="Ines")
    later: list[Prompt] = []
    for minutes in range(int(due) + 9, int(due) + 40):
        trip = log.trip(minutes)
        later += [] if trip is None else trip.prompts
    assert "bark_check" not in {p.step.id for p in later}


# --- hands full -----------------------------------------------------------------------------------------------------


def test_from_the_probe_to_meat_on_only_vents_smoke_and_safety_are_sent() -> None:
    """Everything else waits until the meat is on; an hour and a half at most."""
    log = Logbook()
    log.done("light", 200)
    log.taken(StepDone(step="probe_in"), minutes=240)
    sent: set[str] = set()
    for minutes in range(240, 320, 5):
        trip = log.trip(minutes)
        sent |= set() if trip is None else {p.step.id for p in trip.prompts if not p.step.safety}
    assert sent <= {"vents_early", "smoke_clean", "meat_on"}
    assert "meat_on" in sent


def test_what_waited_for_the_meat_comes_when_it_is_on() -> None:
    """It was not given up for having waited."""
    log = Logbook()
    log.done("light", 200)
    log.taken(StepDone(step="probe_in"), minutes=240)
    waits = [p.key for p in log.situation.prompts if p.wake_at == at(240 + 90) and not p.asked]
    log.ring(260)
    assert not set(waits) & log.state.withdrawn.keys()
    log.taken(Reading(slot=Slot.PIT, value_c=135.0), StepDone(step="meat_on"), minutes=262)
    held = [p.wake_at for p in log.situation.prompts if p.wake_at is not None and p.step.phase == "cooking"]
    assert minutes_of(min(held)) != 330
