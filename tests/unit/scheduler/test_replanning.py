"""What moved, and when it is worth a word: thirty minutes, or another verdict on dinner."""

from __future__ import annotations

import dataclasses
import datetime as dt

import pytest

from scheduler.cook import Shifted, assess
from scheduler.facts import StepSkipped, Told
from scheduler.planning.outlook import Verdict, Window
from scheduler.planning.replanning import WORTH_TELLING, Move, Shift, look_again_at, milestones, shift, told
from tests.unit.scheduler.logbook import CATALOGUE, WHEN_READY, Logbook, at, cooking, dinner, planned, resting


def _moved(log: Logbook, minutes: float, verdict: Verdict | None = None) -> Shift | None:
    """Return the shift after the pull has moved by so many minutes since it was told."""
    situation = log.situation
    outlook, by = situation.outlook, dt.timedelta(minutes=minutes)
    changed = dataclasses.replace(outlook, pull=outlook.pull.plus(by), verdict=verdict or outlook.verdict)
    view = dataclasses.replace(situation.views[0], outlook=changed)
    return shift((view,), situation.prompts)


def _told_all(log: Logbook) -> Logbook:
    log.tell(log.situation.told(all_of_it=True), 61, by=None)
    return log


def test_milestones_are_what_people_plan_by() -> None:
    """Before the fire: meat on, pull, plate; on the fire: bark, first feel, pull, plate; what happened is none."""
    names = [
        [name for name, _ in milestones(s.views, s.prompts)]
        for s in (Logbook().situation, cooking().situation, resting().situation)
    ]
    assert names == [["meat_on", "pull", "plate"], ["bark_check", "tender_test", "pull", "plate"], ["plate"]]


@pytest.mark.parametrize(("minutes", "announced"), [(29, False), (30, True), (-29, False), (-30, True)])
def test_thirty_minutes_are_announced_and_less_is_not(minutes: float, announced: bool) -> None:
    """Earlier or later, half an hour is the limit."""
    found = _moved(_told_all(cooking()), minutes)
    assert (found is not None) is announced


def test_a_move_names_both_times() -> None:
    """What was told and what is expected now."""
    log = _told_all(cooking())
    before = log.situation.outlook.pull.likely
    assert before is not None
    found = _moved(log, 45)
    assert found is not None
    assert found.moves == (Move(name="pull", before=before, after=before + dt.timedelta(minutes=45)),)


def test_another_verdict_is_announced_however_little_moved() -> None:
    """On time becoming close is worth a word without any milestone."""
    found = _moved(_told_all(cooking(planned(serving=dinner(660)))), 0, Verdict.CLOSE)
    assert found is not None
    assert (found.moves, found.verdict_before, found.verdict_after) == ((), Verdict.ON_TIME, Verdict.CLOSE)


def test_nothing_was_told_so_nothing_has_moved() -> None:
    """Before the plan has been told there is nothing to compare with, and after serving nothing to plan."""
    assert _moved(cooking(), 200) is None
    log = _told_all(resting())
    log.done("serve", 780)
    assert _moved(log, 200, Verdict.LATE) is None


def test_moves_are_counted_from_what_was_last_told() -> None:
    """Three moves of fifteen minutes are one of forty-five; once told, the count begins anew."""
    log = _told_all(cooking())
    log.tell(Told(next_at=log.situation.outlook.on_at), 100, by=None)  # the next time alone tells no milestone
    assert _moved(log, 45) is not None
    moved = log.situation
    outlook = dataclasses.replace(moved.outlook, pull=moved.outlook.pull.plus(dt.timedelta(minutes=45)))
    log.tell(told((dataclasses.replace(moved.views[0], outlook=outlook),), moved.prompts, all_of_it=True), 101, by=None)
    assert _moved(log, 45) is None


def test_a_milestone_beyond_sight_is_not_told() -> None:
    """When the forecast does not reach so far, there is no instant to name."""
    situation = cooking().situation
    blind = dataclasses.replace(situation.outlook, pull=Window(early=None, likely=None, late=None), plate_at=None)
    names = [
        name for name, _ in milestones((dataclasses.replace(situation.views[0], outlook=blind),), situation.prompts)
    ]
    assert names == ["bark_check", "tender_test"]


def test_what_is_told_names_the_next_message() -> None:
    """The instant and step of the next message always, verdict and milestones with the whole of it."""
    situation = cooking(planned(serving=dinner(900))).situation
    short, whole = situation.told(all_of_it=False), situation.told(all_of_it=True)
    coming = situation.coming
    assert coming is not None
    assert (short.next_at, short.next_step) == (coming[0], coming[1].step.id)
    assert (short.verdict, short.milestones) == (None, ())
    assert whole.verdict == Verdict.EARLY
    assert dict(whole.milestones)["pull"] == situation.outlook.pull.likely


def test_half_an_hour_is_the_measure() -> None:
    """The limit that the promise names."""
    assert dt.timedelta(minutes=30) == WORTH_TELLING


def test_a_cook_nobody_speaks_of_is_looked_at_every_half_hour_of_the_clock() -> None:
    """From lighting time to dinner, so that a verdict that turns by time alone is told; not once it is off the fire,
    called late, or follows the meat.
    """
    waiting = Logbook(planned(serving=dinner(780))).situation
    look_at = look_again_at(waiting.state, waiting.outlook)
    assert look_at is not None
    assert _time_of_day(look_at) % dt.timedelta(minutes=30) == dt.timedelta()
    assert dt.timedelta() < look_at - waiting.outlook.light_at <= dt.timedelta(minutes=30)
    for quiet in (resting(), cooking(planned(serving=WHEN_READY))):
        assert look_again_at(quiet.state, quiet.situation.outlook) is None
    late = Logbook(planned(serving=dinner(780)))
    late.tell(Told(verdict="late", milestones=(("pull", late.situation.outlook.on_at),)), 1, by=None)
    assert look_again_at(late.state, late.situation.outlook) is None


def test_a_verdict_that_turns_by_time_alone_is_told_by_itself() -> None:
    """Planned on time, the fire never lit: some half hour later the bell says that dinner will be late."""
    log = Logbook(planned(serving=dinner(780)))
    log.tell(log.situation.told(all_of_it=True), 1, by=None)
    rung = [event for minutes in range(30, 700, 30) for event in log.ring(minutes).events]
    turned = [event.shift for event in rung if isinstance(event, Shifted) and event.shift.turned]
    assert turned
    assert turned[0].verdict_before is Verdict.ON_TIME


def test_a_bell_between_two_half_hours_tells_no_turn() -> None:
    """The verdict turns between 30 and 60: a bell at 59 keeps it for the look at 60, when it would be told anyway."""
    turned_at = next(minutes for minutes in range(30, 700) if _turns(minutes))
    look_at = -(-turned_at // 30) * 30
    for minutes in (turned_at, look_at - 1):
        assert not _turns(minutes, ring=True) or minutes % 30 == 0
    assert _turns(look_at, ring=True)


def _turns(minutes: float, *, ring: bool = False) -> bool:
    """Return whether the verdict has turned by then, or is told to have when the bell rings then."""
    log = Logbook(planned(serving=dinner(780)))
    log.tell(log.situation.told(all_of_it=True), 1, by=None)
    for prompt in log.situation.prompts:  # nothing else to ring for
        log.tell(StepSkipped(step=prompt.step.id), 2, answers=(prompt.key,))
    if ring:
        return any(isinstance(event, Shifted) and event.shift.turned for event in log.ring(minutes).events)
    found = assess(log.facts, CATALOGUE, at(minutes)).shift()
    return found is not None and found.turned


def _time_of_day(instant: dt.datetime) -> dt.timedelta:
    """Return the time of day of an instant."""
    return instant - instant.replace(hour=0, minute=0, second=0, microsecond=0)


def test_that_a_cut_planned_on_its_usual_time_goes_on_is_no_news() -> None:
    """From planned on its usual time to on time or close nothing has turned; to late it has, and back from late too."""
    quiet = [(Verdict.USUAL, Verdict.ON_TIME), (Verdict.USUAL, Verdict.CLOSE), (Verdict.USUAL, Verdict.USUAL)]
    told = [(Verdict.USUAL, Verdict.LATE), (Verdict.LATE, Verdict.USUAL), (Verdict.ON_TIME, Verdict.CLOSE)]
    for before, after in quiet:
        assert not Shift(moves=(), verdict_before=before, verdict_after=after).turned
    for before, after in told:
        assert Shift(moves=(), verdict_before=before, verdict_after=after).turned
