"""The fold as seen from one piece of several: what is shared, what is its own."""

from __future__ import annotations

import dataclasses

import pytest

from scheduler.errors import BrokenLog
from scheduler.facts import (
    Asked,
    Body,
    CookerKind,
    CookerTold,
    Detail,
    DetailTold,
    Divided,
    FuelTold,
    GuestsTold,
    KindTold,
    MovedToOven,
    PieceAdded,
    PieceDropped,
    PitMoved,
    Planned,
    PutOff,
    ReadBy,
    Reading,
    RestPlace,
    RestTold,
    ServingMoved,
    Slot,
    StepDone,
    Troubled,
    Undone,
    Withdrawn,
    Wrap,
    Wrapped,
    WrapPlanned,
)  # fmt: skip
from scheduler.state import PIECE_STEPS, CookState, PitBand, Stage, fold, pieces_of
from tests.unit.scheduler.logbook import CATALOGUE, Logbook, at, dinner, planned

CHICKEN = PieceAdded(cut="chicken_whole", count=2, mass_kg=1.8, pit_low_c=163.0)


def test_the_steps_of_a_piece_are_those_of_the_catalogue() -> None:
    """The fold knows without the catalogue which steps are done to each piece: both lists say the same."""
    assert {step.id for step in CATALOGUE.steps.steps if step.scope == "piece"} == PIECE_STEPS


def _tell(log: Logbook, piece: str | None, body: Body, minutes: float, *, answers: tuple[str, ...] = ()) -> str:
    """Write a fact about a piece; return its id."""
    fact_id = log.tell(body, minutes, answers=answers)
    log.facts = (*log.facts[:-1], dataclasses.replace(log.facts[-1], piece=piece))
    return fact_id


def _two() -> Logbook:
    """Return ribs that went on at 60, with two chickens told of at 30."""
    log = Logbook()
    _tell(log, "p2", CHICKEN, 30)
    log.done("light", 20)
    log.done("meat_on", 60)
    return log


def _of(log: Logbook, piece: str) -> CookState:
    return fold(log.facts, piece=piece)


def test_a_piece_that_was_added_has_inputs_of_its_own() -> None:
    """Cut, count, mass and pit are its own; dinner, unit and detail are the cook's."""
    log = _two()
    log.tell(DetailTold(detail=Detail.EVERY), 70)
    one, two = _of(log, "p1"), _of(log, "p2")
    assert (two.planned.cut, two.planned.count, two.planned.mass_kg) == ("chicken_whole", 2, 1.8)
    assert (two.planned.pit_low_c, two.planned.pit_high_c) == (163.0, 163.0)
    assert two.serving == one.serving == dinner(780)
    assert (one.detail, two.detail) == (Detail.EVERY, Detail.EVERY)
    assert [piece.id for piece in one.pieces] == ["p1", "p2"]
    assert (one.planned_at, two.planned_at) == (at(0), at(30))


def test_steps_to_the_meat_are_its_own_and_those_of_the_fire_are_shared() -> None:
    """The ribs are on, the chickens are not; the fire burns under both."""
    log = _two()
    assert (_of(log, "p1").stage, _of(log, "p2").stage) == (Stage.COOKING, Stage.FIRE)
    _tell(log, "p2", StepDone(step="pull"), 400)
    assert (_of(log, "p1").stage, _of(log, "p2").stage) == (Stage.COOKING, Stage.RESTING)


def test_cores_and_wraps_are_its_own_and_the_pit_is_shared() -> None:
    """A core tells of one piece, a pit of both."""
    log = _two()
    log.read(70.0, 200)
    _tell(log, "p2", Reading(slot=Slot.CORE, value_c=30.0), 205)
    log.read(130.0, 210, slot=Slot.PIT)
    _tell(log, "p1", Wrapped(wrap=Wrap.PAPER), 220)
    one, two = _of(log, "p1"), _of(log, "p2")
    assert [r.value_c for r in one.read(Slot.CORE)] == [70.0]
    assert [r.value_c for r in two.read(Slot.CORE)] == [30.0]
    assert [r.value_c for r in one.read(Slot.PIT)] == [r.value_c for r in two.read(Slot.PIT)] == [130.0]
    assert (len(one.wraps), len(two.wraps)) == (1, 0)


def test_prompts_of_one_piece_are_not_seen_from_another() -> None:
    """Asked, answered, put off and withdrawn: each piece sees its own keys and those of the whole cook."""
    log = _two()
    log.tell(Asked(prompts=("p1/core_read/1", "p2/core_read/1", "p1/pit_check/1")), 150, by=None)
    _tell(log, "p2", Reading(slot=Slot.CORE, value_c=30.0), 155, answers=("p2/core_read/1",))
    log.read(130.0, 156, slot=Slot.PIT)
    log.tell(Withdrawn(prompt="p1/core_read/1", reason="too_late"), 160, by=None)
    _tell(log, "p2", PutOff(step="bark_check", until=at(300)), 161)
    one, two = _of(log, "p1"), _of(log, "p2")
    assert (set(one.asked), set(two.asked)) == (
        {"p1/core_read/1", "p1/pit_check/1"},
        {"p2/core_read/1", "p1/pit_check/1"},
    )
    assert (set(one.withdrawn), set(two.withdrawn)) == ({"p1/core_read/1"}, set())
    assert (set(one.closed), set(two.closed)) == ({"p1/core_read/1"}, {"p2/core_read/1"})
    assert (one.put_off, two.put_off) == ({}, {"bark_check": at(300)})


def test_a_piece_brings_its_own_pit_when_it_goes_on() -> None:
    """Until then it is planned with it, and the others keep theirs; from then on all of them have it."""
    log = _two()
    assert _of(log, "p1").pit == (PitBand(at=at(0), low_c=135.0, high_c=135.0),)
    assert _of(log, "p2").pit[-1].low_c == 163.0
    _tell(log, "p2", StepDone(step="meat_on"), 300)
    assert _of(log, "p1").pit == _of(log, "p2").pit
    assert _of(log, "p1").pit[-1] == PitBand(at=at(300), low_c=163.0, high_c=163.0)
    log.tell(PitMoved(pit_low_c=121.0, pit_high_c=121.0), 330)
    assert _of(log, "p2").pit_c == 121.0


def test_meat_in_an_oven_has_the_pit_of_the_oven() -> None:
    """From then on its band is the oven; what becomes of the cooker does not reach it."""
    log = _two()
    _tell(log, "p1", MovedToOven(oven_c=140.0), 300)
    log.tell(PitMoved(pit_low_c=163.0, pit_high_c=163.0), 330)
    assert (_of(log, "p1").pit_c, _of(log, "p1").oven) == (140.0, (at(300), MovedToOven(oven_c=140.0)))
    assert _of(log, "p2").oven is None


def test_a_serving_time_of_its_own_is_a_wave() -> None:
    """Dinner moved for the cook leaves it where it is; moved for the piece, only the piece moves."""
    log = Logbook()
    _tell(log, "p2", dataclasses.replace(CHICKEN, serving=dinner(900)), 30)
    log.tell(ServingMoved(serving=dinner(800)), 40)
    assert (_of(log, "p1").serving, _of(log, "p2").serving) == (dinner(800), dinner(900))
    _tell(log, "p2", ServingMoved(serving=dinner(930)), 50)
    assert (_of(log, "p1").serving, _of(log, "p2").serving) == (dinner(800), dinner(930))


def test_a_dropped_piece_is_not_cooked_and_undo_brings_it_back() -> None:
    """Without the first piece the cook is seen from the second; nobody asks for one that is not there."""
    log = _two()
    dropped = _tell(log, "p1", PieceDropped(), 100)
    assert (log.state.piece, [piece.id for piece in log.state.pieces]) == ("p2", ["p2"])
    with pytest.raises(BrokenLog):
        _of(log, "p1")
    log.tell(Undone(of=dropped), 110)
    assert [piece.id for piece in log.state.pieces] == ["p1", "p2"]


def test_one_piece_sees_everything_that_it_saw_before() -> None:
    """A log of one piece is counted without any sieve, whatever names its facts carry."""
    log = Logbook()
    log.done("light", 0)
    log.done("meat_on", 60)
    log.read(50.0, 150)
    assert fold(log.facts) == fold(log.facts, piece="p1")
    assert len(pieces_of(log.facts)) == 1


def test_what_is_told_of_guests_cooker_fuel_rest_and_plan_is_known() -> None:
    """Each as told last; problems stand until they are over."""
    log = Logbook(planned(wrap=Wrap.PAPER, read_by=ReadBy.WIRE, confidence=0.9))
    log.tell(GuestsTold(adults=24, children=6), 1)
    log.tell(CookerTold(cooker=CookerKind.KETTLE), 2)
    log.tell(FuelTold(kg=3.0), 3)
    log.tell(KindTold(step="spritz", wanted=False), 4)
    log.tell(RestTold(minutes=60.0), 5)
    log.tell(RestTold(place=RestPlace.OVEN, oven_c=70.0), 6)
    log.tell(WrapPlanned(wrap=Wrap.FOIL), 7)
    log.tell(Divided(parts=2), 8)
    log.tell(Troubled(problem="fire_out"), 9)
    log.tell(Troubled(problem="probe_dead"), 10)
    log.tell(Troubled(problem="fire_out", over=True), 11)
    state = log.state
    assert state.guests == GuestsTold(adults=24, children=6)
    assert state.cooker == CookerTold(cooker=CookerKind.KETTLE)
    assert [(fuel.kg, fuel.added) for fuel in state.fuel] == [(3.0, False)]
    assert state.muted == {"spritz"}
    assert state.rest == RestTold(minutes=60.0, place=RestPlace.OVEN, oven_c=70.0)
    assert (state.wrap_plan, state.read_by, state.confidence) == (Wrap.FOIL, ReadBy.WIRE, 0.9)
    assert (state.divided, state.troubles) == (((at(8), 2),), {"probe_dead": at(10)})


def test_a_later_plan_begins_anew_with_wrap_and_detail() -> None:
    """A plan told after them replaces what was said of wrap and detail before."""
    log = Logbook(planned(wrap=Wrap.PAPER))
    log.tell(WrapPlanned(wrap=Wrap.FOIL), 5)
    log.tell(planned(wrap=Wrap.NONE), 10)
    plan = log.state.planned
    assert (plan.wrap, isinstance(plan, Planned)) == (Wrap.NONE, True)
