"""How the meat is read shapes what is asked: no lid is opened for a number that changes nothing."""

from __future__ import annotations

import pytest

from scheduler.facts import CookerKind, Detail, ReadBy, Slot
from tests.unit.scheduler.logbook import CATALOGUE, WHEN_READY, Logbook, dinner, planned


def on_fire(read_by: ReadBy | None, **more: object) -> Logbook:
    """Return a cook with meat on at the start, every step told."""
    log = Logbook(planned(read_by=read_by, detail=Detail.EVERY, **more))
    log.done("meat_on", 0)
    log.read(135.0, 5, slot=Slot.PIT)
    return log


def test_a_wire_is_read_in_the_usual_rhythm() -> None:
    """Nobody opens the lid for it: the number is asked for as when nobody said how the meat is read."""
    assert on_fire(ReadBy.WIRE).due("core_read") == on_fire(None).due("core_read") == 90


def test_by_hand_an_early_number_is_not_asked_for_when_dinner_is_far() -> None:
    """With hours to spare no number turns the verdict; with dinner near the likely plate one may, and is asked for."""
    assert on_fire(ReadBy.HAND, serving=dinner(1100)).due("core_read") is None
    near = on_fire(ReadBy.HAND, serving=dinner(455)).due("core_read")
    assert near is not None
    assert near >= 90


def test_by_hand_with_dinner_open_no_number_is_asked_for_until_the_feel() -> None:
    """A dinner that follows the meat has no verdict to turn; the feel for tenderness still asks."""
    log = on_fire(ReadBy.HAND, serving=WHEN_READY)
    assert log.due("core_read") is None
    assert log.due("tender_test") is not None
    assert log.due("bark_check") is not None


def test_without_a_thermometer_only_safety_asks_for_numbers() -> None:
    """No core is asked for on the way; the safe minimum before serving is, and cannot be muted."""
    log = on_fire(ReadBy.NONE, serving=dinner(500))
    assert log.due("core_read") is None
    assert log.due("tender_test") is not None
    log.done("pull", 400)
    assert log.due("serve_reading") is not None


@pytest.mark.parametrize(("kind", "asked"), [(CookerKind.KETTLE, True), (CookerKind.CERAMIC, False)])
def test_wood_is_asked_for_where_it_can_be_added(kind: CookerKind, asked: bool) -> None:
    """Under a deflector all wood lies in the charcoal from the start: nobody is asked to add any."""
    log = on_fire(ReadBy.WIRE)
    log.tell(CATALOGUE.cookers.of_kind(kind), 1)
    assert (log.due("wood_add") is not None) is asked
