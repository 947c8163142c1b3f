"""Food that was thrown away: nothing more is asked about it, the fire is still put out, and the cook can end."""

from __future__ import annotations

import dataclasses

import pytest

from scheduler.cook import Over, Shifted
from scheduler.cook.changes import Event
from scheduler.facts import Body, Discarded, PieceAdded, Reading, Slot, StepDone, Told, Undone
from scheduler.planning.outlook import Verdict
from scheduler.planning.replanning import late_as_told
from scheduler.planning.views import PieceView, worst
from scheduler.planning.whole import next_wave
from scheduler.state import DoneAt, Stage
from tests.unit.scheduler.logbook import Logbook, at, cooking, resting


def _asked(log: Logbook) -> set[str]:
    return {prompt.step.id for prompt in log.situation.prompts}


def _piece(log: Logbook, piece: str, body: Body, minutes: float) -> None:
    log.tell(body, minutes)
    log.facts = (*log.facts[:-1], dataclasses.replace(log.facts[-1], piece=piece))


def _two() -> Logbook:
    """Return chuck ribs and a pork butt on one fire."""
    log = cooking()
    _piece(log, "p2", PieceAdded(cut="pork_butt"), 61)
    _piece(log, "p2", StepDone(step="meat_on"), 62)
    return log


def test_meat_thrown_away_on_the_fire_leaves_only_the_fire() -> None:
    """Nobody is asked to read, feel, pull or serve it; the vents are to be closed."""
    log = cooking()
    assert {"core_read", "pit_check"} <= _asked(log)
    log.taken(Discarded(), minutes=200)
    assert log.state.stage is Stage.GONE
    assert _asked(log) == {"shutdown"}


def test_held_meat_thrown_away_is_not_read_any_more() -> None:
    """No reading in the box, none at the plate, no dinner to go or move, no sides."""
    log = resting()
    log.done("box_meat", 500)
    assert {"hold_check", "serve_reading"} <= _asked(log)
    log.taken(Discarded(), minutes=520)
    assert not _asked(log) & {"hold_check", "serve_reading", "slice", "serve", "t_minus", "sides", "board_ready"}


def test_leftovers_thrown_away_are_not_put_away() -> None:
    """After dinner: neither fridge nor reheating; the fire and the washing-up stay."""
    log = resting()
    log.read(75.0, 775)
    log.done("serve", 780)
    assert {"two_hour", "leftovers"} <= _asked(log)
    log.taken(Discarded(), minutes=900)
    assert not _asked(log) & {"two_hour", "leftovers", "cool_check", "reheat", "leftover_expire"}
    assert "shutdown" in _asked(log)


def test_the_cook_ends_once_the_fire_is_out() -> None:
    """Everything thrown away, vents, fire and ash told: over, with nothing said of a late dinner."""
    log = cooking()
    log.ring(100)
    log.taken(Discarded(), minutes=200)
    events: list[Event] = []
    for minutes, step, outcome in (
        (205, "raw_cleanup", None), (206, "shutdown", "closed"), (330, "fire_out", "cooling"),
        (3100, "ash", "cold_out"),
    ):  # fmt: skip
        log.taken(StepDone(step=step, outcome=outcome), minutes=minutes)
    for minutes in (3101, 4000, 6000, 9000):
        if not log.state.over:
            events += log.ring(minutes).events
    assert any(isinstance(event, Over) for event in events)
    assert not any(isinstance(event, Shifted) for event in events)
    assert log.state.over


def test_taking_the_word_back_brings_the_questions_back() -> None:
    """It was not thrown away after all: everything is asked as before."""
    log = cooking()
    before = _asked(log)
    gone = log.tell(Discarded(), 200)
    log.tell(Undone(of=gone), 201)
    assert (log.state.stage, _asked(log)) == (Stage.COOKING, before)


def test_of_two_pieces_only_the_other_goes_on() -> None:
    """One thrown away, the other is asked about as before, decides about dinner, and both stay in the views."""
    log = _two()
    _piece(log, "p1", Discarded(), 200)
    situation = log.situation
    assert {p.piece for p in situation.prompts if p.step.scope == "piece"} == {"p2"}
    assert [view.state.stage for view in situation.views] == [Stage.GONE, Stage.COOKING]
    assert situation.stage is Stage.COOKING
    assert (situation.deciding.state.piece, situation.next_dinner.state.piece) == ("p2", "p2")
    assert not situation.ended


@pytest.mark.parametrize("served_first", [True, False])
def test_a_cook_of_two_ends_when_the_one_is_served_and_the_other_gone(served_first: bool) -> None:
    """In either order; what is put away is what was served."""
    log = _two()
    _piece(log, "p2", Discarded(), 900 if served_first else 200)
    _piece(log, "p1", Reading(slot=Slot.CORE, value_c=96.0), 470)
    _piece(log, "p1", StepDone(step="pull"), 480)
    _piece(log, "p1", StepDone(step="serve"), 780)
    assert log.situation.ended
    assert {"two_hour", "leftovers", "shutdown"} <= _asked(log)


def test_thrown_away_before_the_fire_was_lit_ends_the_cook() -> None:
    """Raw meat in the bin: nothing is asked, nothing burns."""
    log = Logbook()
    log.taken(Discarded(), minutes=5)
    assert not _asked(log)
    assert any(isinstance(event, Over) for event in log.ring(6).events)
    assert log.facts[-1].happened_at == at(6)


def _late(view: PieceView) -> PieceView:
    outlook = dataclasses.replace(view.outlook, verdict=Verdict.LATE, chance=0.0, plate_at=at(2000))
    return dataclasses.replace(view, outlook=outlook)


def _gone(view: PieceView) -> PieceView:
    thrown = DoneAt(at=at(200), by="Ines", outcome=None, fact="thrown")
    return dataclasses.replace(view, state=dataclasses.replace(view.state, discarded=(thrown,)))


def test_a_piece_thrown_away_decides_nothing_about_dinner() -> None:
    """However late it would have been: the worst piece and the next wave are what is still to be eaten, or was."""
    ribs, butt = _two().situation.views
    butt = _late(butt)
    assert worst((ribs, butt)).piece == "p2"
    assert worst((ribs, _gone(butt))).piece == "p1"
    assert next_wave((_gone(ribs), butt)).piece == "p2"
    served = dataclasses.replace(ribs.state, done={**ribs.state.done, "serve": ribs.state.done["meat_on"]})
    assert worst((dataclasses.replace(ribs, state=served), _gone(butt))).piece == "p1"


def test_of_food_that_is_all_gone_nobody_is_told_that_it_is_late() -> None:
    """Thrown away while dinner was told as late: nothing is late any more."""
    log = cooking()
    log.tell(Told(milestones=(("plate", at(2000)),), verdict=Verdict.LATE.value), 100)
    late = tuple(_late(view) for view in log.situation.views)
    assert late_as_told(late)
    assert not late_as_told(tuple(_gone(view) for view in late))
