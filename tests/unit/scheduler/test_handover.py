"""A handover: asked of the incoming, taken only by saying so, and passed on when nobody takes it."""

from __future__ import annotations

import pytest

from scheduler.cook import Already, Changes, StillOnWatch, WatchTaken
from scheduler.facts import Closed, HandoverAsked, HandoverDeclined, HandoverTaken, StepDone
from scheduler.planning.handover import coming_change
from scheduler.planning.prompts import Escalation
from scheduler.state import fold
from tests.unit.scheduler.logbook import Logbook, at, dinner, planned, steps_of
from tests.unit.scheduler.test_crew_facts import NIGHT, night_of

WREN_THEN_TOMAS = (("Wren", 0.0, 240.0), ("Tomas", 240.0, 540.0))


def overnight(*parts: tuple[str, float, float]) -> Logbook:
    """Return a pork butt on the fire since half past nine in the evening, for six the next day, with these watches."""
    log = Logbook(planned(cut="pork_butt", serving=dinner(36 * 60), pit_low_c=121.0, pit_high_c=121.0))
    log.tell(night_of(*parts), 5)
    log.done("light", NIGHT - 90)
    log.done("meat_on", NIGHT - 30)
    return log


def _asked(log: Logbook, minutes: float) -> Escalation:
    """Ring at so many minutes after ten, and return whom the handover calls."""
    trip = log.trip(NIGHT + minutes)
    assert trip is not None
    prompt = next(p for p in trip.prompts if p.step.id == "handover")
    assert prompt.escalation is not None
    return prompt.escalation


def _holder(log: Logbook, minutes: float) -> str | None:
    return fold(log.facts, at(NIGHT + minutes)).watch_holder(at(NIGHT + minutes))


def _said(changes: Changes, kind: type) -> list[object]:
    return [event for event in changes.events if isinstance(event, kind)]


def test_the_incoming_is_asked_and_then_the_next_name_and_the_outgoing_is_told_to_stay() -> None:
    """Ten minutes each: Tomas; Wren, who stays, and Ines, who is asked next; then everybody."""
    log = overnight(*WREN_THEN_TOMAS)
    first = _asked(log, 230)
    assert (first.level, first.names, first.minutes) == ("owner", ("Tomas",), 10)
    second = _asked(log, 240)
    assert (second.level, second.names, second.before, second.minutes) == ("next", ("Wren", "Ines"), ("Tomas",), None)
    assert _holder(log, 250) == "Wren"


def test_everybody_is_called_when_neither_takes_it() -> None:
    """Bashir has no watch, and looks after the cook as well."""
    log = overnight(*WREN_THEN_TOMAS)
    log.tell(StepDone(step="wood_add"), NIGHT, by="Bashir")
    _asked(log, 230)
    assert _asked(log, 240).minutes == 10
    third = _asked(log, 250)
    assert (third.level, third.names) == ("group", ("Bashir",))


def test_only_saying_so_moves_the_watch() -> None:
    """Taken by Tomas, the question is closed, and Wren may sleep."""
    log = overnight(*WREN_THEN_TOMAS)
    _asked(log, 230)
    taken = log.taken(HandoverTaken(), minutes=NIGHT + 235, by="Tomas")
    assert _said(taken, WatchTaken) == [WatchTaken(name="Tomas", before="Wren")]
    assert (_holder(log, 235), log.prompt("handover")) == ("Tomas", None)


@pytest.mark.parametrize("by", ["Wren", "Ines"])
def test_ticked_off_by_somebody_else_it_moves_nothing(by: str) -> None:
    """The outgoing, or whoever was not asked yet: it stays open, and says whose it still is."""
    log = overnight(*WREN_THEN_TOMAS)
    _asked(log, 230)
    said = log.taken(StepDone(step="handover"), minutes=NIGHT + 235, by=by)
    assert _said(said, StillOnWatch) == [StillOnWatch(watch="Wren", asked=("Tomas",), said_by=by)]
    assert _holder(log, 235) == "Wren"
    assert log.prompt("handover") is not None


def test_ticked_off_by_who_was_asked_it_is_taken() -> None:
    """Tomas says that the handover is done: he has it."""
    log = overnight(*WREN_THEN_TOMAS)
    _asked(log, 230)
    said = log.taken(StepDone(step="handover"), minutes=NIGHT + 235, by="Tomas")
    assert _said(said, WatchTaken)
    assert _holder(log, 236) == "Tomas"


def test_who_has_it_already_is_thanked() -> None:
    """Taken twice it counts once."""
    log = overnight(*WREN_THEN_TOMAS)
    log.taken(HandoverTaken(), minutes=NIGHT + 235, by="Tomas")
    again = log.taken(HandoverTaken(), minutes=NIGHT + 237, by="Tomas")
    assert _said(again, Already) == [Already(step="handover", by="Tomas", at=at(NIGHT + 235), said_by="Tomas")]
    assert len(log.state.takings) == 1


def test_a_stated_end_sets_the_next_change() -> None:
    """Taken till half past three: ten minutes before, the lead is asked, whom nobody had planned."""
    log = overnight(("Wren", 0, 540))
    until = at(NIGHT + 330)
    log.taken(HandoverTaken(until=until), minutes=NIGHT + 100, by="Tomas")
    change = coming_change(log.state)
    assert change is not None
    assert (change.at, change.outgoing, change.incoming) == (until, "Tomas", "Wren")
    assert log.due("handover") == NIGHT + 320


def test_who_goes_to_bed_stays_until_the_other_one_has_it() -> None:
    """An offer is asked at once, of the one it was made to; after ten minutes the sender is told to stay."""
    log = overnight(("Wren", 0, 540))
    log.taken(HandoverAsked(to="Bashir"), minutes=NIGHT + 60, by="Wren")
    first = _asked(log, 60)
    assert (first.names, first.minutes) == (("Bashir",), 10)
    second = _asked(log, 70)
    assert (second.names, _holder(log, 70)) == (("Wren", "Ines"), "Wren")
    log.taken(HandoverTaken(), minutes=NIGHT + 75, by="Bashir")
    assert (_holder(log, 75), log.prompt("handover")) == ("Bashir", None)


def test_an_offer_that_is_declined_leaves_it_with_the_sender() -> None:
    """Bashir does not want it: Wren has it, and nobody is asked any more until somebody is named."""
    log = overnight(("Wren", 0, 540))
    log.taken(HandoverAsked(to="Bashir"), minutes=NIGHT + 60, by="Wren")
    log.ring(NIGHT + 60)
    log.taken(HandoverDeclined(), minutes=NIGHT + 62, by="Bashir")
    assert (_holder(log, 62), log.prompt("handover")) == ("Wren", None)


def test_a_planned_one_that_is_declined_goes_to_the_next_name_at_once() -> None:
    """Tomas cannot: Ines is called, not Tomas again."""
    log = overnight(*WREN_THEN_TOMAS)
    _asked(log, 230)
    log.taken(HandoverDeclined(), minutes=NIGHT + 232, by="Tomas")
    assert log.wakes("handover") == NIGHT + 232
    assert _asked(log, 232).names == ("Ines",)


def test_a_cook_that_is_called_off_asks_nobody_any_more() -> None:
    """The offer is withdrawn with the cook."""
    log = overnight(("Wren", 0, 540))
    log.taken(HandoverAsked(to="Bashir"), minutes=NIGHT + 60, by="Wren")
    log.taken(Closed(reason="called_off"), minutes=NIGHT + 61)
    assert (log.state.handover, log.prompt("handover")) == (None, None)


def test_by_day_a_change_is_handed_over_in_the_same_way() -> None:
    """At noon, too, the watch is the outgoing one's until the other has it."""
    log = overnight(("Wren", 480, 840), ("Tomas", 840, 1140))
    trip = None
    for minutes in range(800, 850, 5):
        trip = log.trip(NIGHT + minutes) or trip
        if "handover" in steps_of(trip):
            break
    assert "handover" in steps_of(trip)
    assert _holder(log, 845) == "Wren"
