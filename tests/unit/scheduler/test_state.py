"""The state of a cook: what a log adds up to, with corrections in place and what was taken back gone."""

from __future__ import annotations

import dataclasses
import datetime as dt

import pytest

from scheduler.errors import BrokenLog
from scheduler.facts import (
    AirTold,
    Asked,
    Body,
    Closed,
    Corrected,
    Detail,
    DetailTold,
    Feel,
    KindTold,
    PitMoved,
    PutOff,
    Reading,
    ServingMoved,
    Slot,
    StepDone,
    StepSkipped,
    Told,
    Undone,
    Watch,
    WatchesTold,
    Withdrawn,
    Wrap,
)  # fmt: skip
from scheduler.state import OVERTAKEN, Stage, effective, fold, last_by, standing
from tests.unit.scheduler.logbook import Logbook, at, cooking, dinner, planned


def test_a_log_must_begin_with_a_plan_of_one_cook() -> None:
    """An empty log, one without a plan and one of two cooks are broken, not empty states."""
    log = Logbook()
    stranger = dataclasses.replace(log.facts[0], cook="c2", id="x")
    with pytest.raises(BrokenLog, match="empty"):
        fold(())
    with pytest.raises(BrokenLog, match="several cooks"):
        fold((*log.facts, stranger))
    log.tell(Undone(of="f0"), 1)
    with pytest.raises(BrokenLog, match="without a plan"):
        fold(log.facts)


def test_the_stage_is_what_happened_last() -> None:
    """Before, fire, cooking, resting, after, closed: each begins with its own fact."""
    log = Logbook()
    stages = [log.state.stage]
    for minutes, step in enumerate(("light", "meat_on", "pull", "serve"), start=1):
        log.done(step, minutes)
        stages.append(log.state.stage)
    log.tell(Closed(), 9)
    assert [*stages, log.state.stage] == [
        Stage.BEFORE, Stage.FIRE, Stage.COOKING, Stage.RESTING, Stage.AFTER, Stage.CLOSED,
    ]  # fmt: skip


def test_what_is_undone_never_happened() -> None:
    """An undone step leaves no trace in the state, and its answer no longer closes the prompt."""
    log = cooking()
    pulled = log.done("pull", 480, answers=("p1/pull/1",))
    log.tell(Undone(of=pulled), 481)
    assert log.state.did("pull") is None
    assert "p1/pull/1" not in log.state.closed
    assert log.state.stage is Stage.COOKING


def test_undo_of_an_undo_brings_the_fact_back() -> None:
    """A fact whose undo was undone stands again, a third undo takes it away again."""
    log = cooking()
    pulled = log.done("pull", 480)
    first = log.tell(Undone(of=pulled), 481)
    second = log.tell(Undone(of=first), 482)
    assert log.state.at("pull") == at(480)
    log.tell(Undone(of=second), 483)
    assert log.state.at("pull") is None


def test_a_correction_keeps_time_and_place() -> None:
    """A corrected reading has another value, and its old time, author, place in the log and answers."""
    log = cooking()
    first = log.tell(Reading(slot=Slot.CORE, value_c=56.0), 200, answers=("p1/core_read/1",))
    log.read(60.0, 230)
    log.tell(Corrected(of=first, body=Reading(slot=Slot.CORE, value_c=65.0)), 240, by="Tomas")
    readings = log.state.readings
    assert [(r.value_c, r.at, r.by) for r in readings] == [(65.0, at(200), "Ines"), (60.0, at(230), "Ines")]
    assert log.state.closed["p1/core_read/1"] == at(200)


def test_a_correction_may_bring_another_time() -> None:
    """When the correction names a time, the fact is dated by it; the newest correction counts."""
    log = cooking()
    pulled = log.done("pull", 480)
    log.tell(Corrected(of=pulled, body=StepDone(step="pull"), happened_at=at(470)), 490)
    assert log.state.at("pull") == at(470)
    log.tell(Corrected(of=pulled, body=StepDone(step="pull"), happened_at=at(475)), 491)
    assert log.state.at("pull") == at(475)


def test_undoing_a_correction_brings_the_old_value_back() -> None:
    """The fact itself stands, as it was first told or as an earlier correction left it."""
    log = cooking()
    read = log.read(56.0, 200)
    log.tell(Corrected(of=read, body=Reading(slot=Slot.CORE, value_c=57.0)), 201)
    second = log.tell(Corrected(of=read, body=Reading(slot=Slot.CORE, value_c=75.0)), 202)
    log.tell(Undone(of=second), 203)
    assert [r.value_c for r in log.state.readings] == [57.0]


def test_corrections_are_not_facts_of_their_own() -> None:
    """`effective` holds neither corrections nor undo; `standing` holds the corrections that stand."""
    log = cooking()
    read = log.read(56.0, 200)
    fixed = log.tell(Corrected(of=read, body=Reading(slot=Slot.CORE, value_c=57.0)), 201)
    assert [f.id for f in effective(log.facts)] == ["f0", "f1", "f2", read]
    assert [f.id for f in standing(log.facts)] == ["f0", "f1", "f2", read, fixed]


def test_undo_reaches_the_last_thing_a_person_told() -> None:
    """Not the plan, not what others told, not what the program wrote; a correction counts as told."""
    log = cooking()
    read = log.read(56.0, 200)
    fixed = log.tell(Corrected(of=read, body=Reading(slot=Slot.CORE, value_c=57.0)), 201)
    log.done("spritz", 202, by="Tomas")
    log.tell(Asked(prompts=("p1/core_read/2",)), 260, by=None)
    last = last_by(log.facts, "Ines")
    assert last is not None
    assert last.id == fixed
    assert last_by(log.facts, "Wren") is None


def test_a_correction_of_what_was_undone_is_out_of_reach() -> None:
    """Undo after undo goes on to what was told before, not to a correction that no longer matters."""
    log = cooking()
    read = log.read(56.0, 200)
    log.tell(Corrected(of=read, body=Reading(slot=Slot.CORE, value_c=57.0)), 201)
    log.tell(Undone(of=read), 202)
    last = last_by(log.facts, "Ines")
    assert last is not None
    assert last.body == StepDone(step="meat_on")


def test_facts_told_late_are_counted_by_when_they_happened() -> None:
    """A reading of an hour ago lies before one of half an hour ago, whatever the order of telling."""
    log = cooking()
    log.read(60.0, 230)
    log.tell(Reading(slot=Slot.CORE, value_c=55.0), 200, recorded=240)
    assert [r.value_c for r in log.state.readings] == [55.0, 60.0]
    last = log.state.last(Slot.CORE)
    assert last is not None
    assert last.value_c == 60.0
    assert log.state.as_of == at(240)


def test_a_doubtful_reading_is_kept_and_not_used() -> None:
    """It is among the readings, but not the last one unless asked for."""
    log = cooking()
    log.read(60.0, 230)
    log.read(95.0, 240, doubtful=True)
    assert [r.value_c for r in log.state.read(Slot.CORE)] == [60.0]
    assert [r.value_c for r in log.state.read(Slot.CORE, doubtful=True)] == [60.0, 95.0]


def test_a_prompt_that_was_overtaken_can_come_back() -> None:
    """Overtaken stands only while what overtook it stands; given up for another reason is closed for good."""
    log = cooking()
    log.tell(Withdrawn(prompt="p1/core_read/1", reason=OVERTAKEN), 200, by=None)
    log.tell(Withdrawn(prompt="p1/pit_check/1", reason="no_answer"), 200, by=None)
    assert "p1/core_read/1" not in log.state.closed
    assert log.state.closed["p1/pit_check/1"] == at(200)
    assert log.state.withdrawn == {"p1/core_read/1": OVERTAKEN, "p1/pit_check/1": "no_answer"}


def test_a_prompt_is_closed_by_its_first_answer() -> None:
    """Two people answer one question: the first counts, and when that is taken back the second does."""
    log = cooking()
    first = log.tell(Reading(slot=Slot.CORE, value_c=50.0), 150, answers=("p1/core_read/1",))
    log.tell(Reading(slot=Slot.CORE, value_c=51.0), 152, by="Tomas", answers=("p1/core_read/1",))
    assert log.state.closed["p1/core_read/1"] == at(150)
    log.tell(Undone(of=first), 153)
    assert log.state.closed["p1/core_read/1"] == at(152)


def test_the_last_putting_off_counts() -> None:
    """A step put off twice is put off to the later word; undo brings the earlier one back."""
    log = cooking()
    log.tell(PutOff(step="core_read", until=at(200)), 150)
    second = log.tell(PutOff(step="core_read", until=at(170)), 151)
    assert log.state.put_off == {"core_read": at(170)}
    log.tell(Undone(of=second), 152)
    assert log.state.put_off == {"core_read": at(200)}


def test_dinner_moved_counts_until_the_plan_is_made_anew() -> None:
    """The newest word on dinner stands: a move after the plan, or a plan after the move."""
    log = Logbook()
    log.tell(ServingMoved(serving=dinner(900)), 10)
    assert log.state.serving.starts_at() == at(900)
    log.tell(planned(serving=dinner(840)), 20)
    assert log.state.serving.starts_at() == at(840)


def test_a_new_plan_with_the_same_pit_moves_no_pit() -> None:
    """A later plan (another wrap) keeps the pit as it was moved meanwhile; one with another pit moves it."""
    log = cooking()
    log.tell(PitMoved(pit_low_c=120.0, pit_high_c=124.0), 100)
    log.tell(planned(wrap=Wrap.FOIL), 110)
    assert log.state.pit_c == 122.0
    log.tell(planned(pit_low_c=107.0, pit_high_c=107.0), 120)
    assert log.state.pit_c == 107.0


@pytest.mark.parametrize("before_the_plan_min", [0.0, 0.001, 1.0])
def test_a_setting_written_after_the_plan_counts_whatever_the_milliseconds(before_the_plan_min: float) -> None:
    """Typed in one breath with the plan, dated a moment before it or at the same instant: the pit is as said last."""
    log = Logbook(planned(pit_low_c=121.0, pit_high_c=121.0))
    log.tell(PitMoved(pit_low_c=135.0, pit_high_c=135.0), -before_the_plan_min, recorded=0.01)
    assert [(band.low_c, band.high_c) for band in log.state.pit][-1] == (135.0, 135.0)
    assert (log.state.pit[-1].at, log.state.pit[0].low_c) == (at(0), 121.0)


def test_what_was_typed_while_the_plan_was_written_down_belongs_to_it() -> None:
    """A word about the air dated a moment before the plan is newer than the air that the plan brought."""
    log = Logbook()
    log.tell(AirTold(wind="calm"), 0)
    log.taken(AirTold(wind="windy"), minutes=0.02, ago=0.03)
    assert log.state.air.wind == "windy"


def test_asking_and_telling_are_counted() -> None:
    """How often and when a prompt was asked, which cautions were told, and what was told last."""
    log = cooking()
    log.tell(Asked(prompts=("p1/core_read/1", "p1/pit_check/2"), cautions=("burp",)), 150, by=None)
    log.tell(Asked(prompts=("p1/core_read/1",), revision=2), 180, by=None)
    log.tell(Told(next_at=at(240), milestones=(("pull", at(480)),)), 180, by=None)
    log.tell(Told(next_at=at(210)), 190, by=None)
    state = log.state
    assert (state.asked["p1/core_read/1"].first_at, state.asked["p1/core_read/1"].last_at) == (at(150), at(180))
    assert (state.asked["p1/core_read/1"].times, state.asked["p1/pit_check/2"].times) == (2, 1)
    assert state.cautions == {"burp"}
    assert state.told is not None
    assert state.told.next_at == at(210)
    assert state.told_milestones is not None
    assert state.told_milestones.milestones == (("pull", at(480)),)


def test_feels_wraps_and_skips_are_counted_in_order_of_time() -> None:
    """What the hand felt, what lies around the meat, and how often a step was skipped."""
    log = cooking()
    log.felt(Feel.ALMOST, 450)
    log.felt(Feel.TIGHT, 420, recorded=455)
    log.wrapped(Wrap.PAPER, 300)
    log.tell(StepSkipped(step="spritz"), 200)
    log.tell(StepSkipped(step="spritz"), 260)
    assert [felt.feel for _, felt in log.state.feels] == [Feel.TIGHT, Feel.ALMOST]
    assert [wrapped.wrap for _, wrapped in log.state.wraps] == [Wrap.PAPER]
    assert log.state.skipped == {"spritz": 2}


def test_dinner_is_kept_as_wall_time() -> None:
    """Five in the afternoon in London is 16:00 UTC in summer time and 17:00 after the clocks go back."""
    walls = [dt.datetime(2026, 10, day, 17, 0) for day in (24, 25)]  # noqa: DTZ001 - wall time of the cook's own zone
    servings = [dataclasses.replace(dinner(0), zone="Europe/London", start=wall) for wall in walls]
    instants = [serving.starts_at() for serving in servings]
    assert [instant.hour for instant in instants if instant is not None] == [16, 17]
    assert [serving.ends_at() for serving in servings] == instants


@pytest.mark.parametrize(
    ("later", "detail"), [([], "usual"), ([DetailTold(detail=Detail.DECISIONS)], "decisions"),
                          ([DetailTold(detail=Detail.DECISIONS), planned(detail=Detail.EVERY)], "every")],
)  # fmt: skip
def test_the_newest_word_on_detail_counts(later: list[Body], detail: str) -> None:
    """As planned, until somebody says otherwise; a later plan begins anew."""
    log = Logbook(planned(detail=Detail.USUAL))
    for minutes, body in enumerate(later, 10):
        log.tell(body, minutes)
    assert log.state.detail.value == detail


def test_people_watches_and_unwanted_kinds_are_known() -> None:
    """Who told anything, the newest watches, and for each step the newest word on whether it is wanted."""
    log = Logbook()
    start, end = (at(minutes).replace(tzinfo=None) for minutes in (960, 1260))
    log.tell(WatchesTold(watches=(Watch(name="Wren", start=start, end=end),)), 5, by="Tomas")
    log.tell(KindTold(step="spritz", wanted=False), 6)
    log.tell(KindTold(step="spritz", wanted=True), 7)
    assert log.state.people == {"Ines", "Tomas"}
    assert log.state.watches is not None
    assert [watch.name for watch in log.state.watches.watches] == ["Wren"]
    assert dict(log.state.kinds) == {"spritz": True}
