"""Whom a step falls to: a claim, a role, the watch as taken over, who leads; and what slips goes to the watch."""

from __future__ import annotations

import pytest

from scheduler.facts import Claimed, CrewRole, CrewTold, HandoverTaken
from scheduler.planning.nights import everybody, lead_of, owner_of
from scheduler.planning.steps import Step
from scheduler.state import fold
from tests.unit.scheduler.logbook import CATALOGUE, Logbook, at
from tests.unit.scheduler.test_crew_facts import NIGHT, watched

OWNERS = {
    "host": "headcount rules_site order_meat collect_meat eta_note t_minus sides wash_up leftover_expire",
    "fire_lead": "roles shop_fuel thaw_start trim dry_brine weather confirm_plan rules_recheck stall_notice bark_check "
    "wrap_decide tender_test pull vent_meat quick_notes restock",
    "watch": "wake light heat_parts_in pit_rising vents_early smoke_clean pit_stable probe_in pit_change meat_on "
    "pit_recover pit_check fuel_check refuel first_look spritz wood_add water_pan core_read come_up_check rotate "
    "wrap_do handover second_spot shutdown box_meat hold_check",
    "helper": "clean_cooker stage_kit raw_cleanup box_ready two_hour leftovers grease_clean",
    "carver": "board_ready serve_reading slice",
    "food_handler": "cool_check",
    "anyone": "fridge_check thaw_check thaw_rescue raw_out marinade probe_test fuel_load rub_binder serve fire_out "
    "reheat reheat_on reheat_away ash",
}
"""Whose a step is, as the trade page has who does it and who decides; common practice, no source."""


def _step(name: str) -> Step:
    step = CATALOGUE.steps.get(name)
    assert step is not None, name
    return step


def _crew(log: Logbook, **roles: CrewRole) -> Logbook:
    for name, role in roles.items():
        log.tell(CrewTold(name=name.capitalize(), role=role), 1)
    return log


def test_every_step_knows_its_owner() -> None:
    """One of seven kinds each, and none is left out."""
    listed = {step: kind for kind, steps in OWNERS.items() for step in steps.split()}
    assert {step.id: step.owner for step in CATALOGUE.steps.steps} == listed


def test_a_step_falls_to_whoever_holds_its_role() -> None:
    """By day: the carver carves, the handler looks after the food; without one it is the watch's, or the lead's."""
    log = _crew(Logbook(), wren=CrewRole.CARVER, bashir=CrewRole.FOOD_HANDLER, tomas=CrewRole.HOST)
    named = {
        name: owner_of(_step(name), log.state, at(60)) for name in ("slice", "cool_check", "headcount", "box_ready")
    }
    assert named == {"slice": "Wren", "cool_check": "Bashir", "headcount": "Tomas", "box_ready": "Ines"}


def test_who_leads_is_who_was_told_to() -> None:
    """Whoever began the cook, until somebody else is the fire lead."""
    log = Logbook()
    assert lead_of(log.state) == "Ines"
    log.tell(CrewTold(name="Tomas", role=CrewRole.FIRE_LEAD), 1)
    assert (lead_of(log.state), owner_of(_step("pull"), log.state, at(60))) == ("Tomas", "Tomas")
    log.tell(CrewTold(name="Ines", role=CrewRole.FIRE_LEAD), 2)
    assert lead_of(log.state) == "Ines"


def test_a_claim_that_holds_goes_first() -> None:
    """For a quarter of an hour; then it is the owner's again."""
    log = _crew(Logbook(), wren=CrewRole.HELPER)
    log.tell(Claimed(step="box_ready"), 100, by="Tomas")
    state = fold(log.facts, at(130))
    assert [owner_of(_step("box_ready"), state, at(m)) for m in (100, 114, 115)] == ["Tomas", "Tomas", "Wren"]


def test_the_watch_is_as_taken_over_and_not_as_planned() -> None:
    """Wren keeps what is the watch's until Tomas says that he has it."""
    log = watched(("Wren", 0, 240), ("Tomas", 240, 540))
    late = fold(log.facts, at(NIGHT + 300))
    assert owner_of(_step("pit_check"), late, at(NIGHT + 300)) == "Wren"
    log.tell(HandoverTaken(), NIGHT + 301, by="Tomas")
    assert owner_of(_step("pit_check"), log.state, at(NIGHT + 301)) == "Tomas"


def test_by_night_the_watch_does_the_work_of_those_who_sleep() -> None:
    """Nobody wakes a helper for the box while somebody is up; by day it is the helper's."""
    log = _crew(watched(("Wren", 0, 540)), bashir=CrewRole.HELPER)
    box = _step("box_ready")
    assert [owner_of(box, log.state, at(NIGHT + m)) for m in (-60, 60)] == ["Bashir", "Wren"]


@pytest.mark.parametrize(("late_min", "whose"), [(0, "Bashir"), (20, "Bashir"), (21, "Wren")])
def test_what_slips_goes_to_the_watch(late_min: float, whose: str) -> None:
    """The box twenty minutes after it was due, unclaimed; what is for the lead to decide stays with the lead."""
    log = _crew(Logbook(), bashir=CrewRole.HELPER, wren=CrewRole.WATCH)
    due_at = at(100)
    assert owner_of(_step("box_ready"), log.state, at(100 + late_min), due_at) == whose
    assert owner_of(_step("tender_test"), log.state, at(100 + late_min), due_at) == "Ines"


def test_guests_look_after_nothing() -> None:
    """Whoever is only a guest is not called, whatever they have told; a guest who also carves is."""
    log = _crew(Logbook(), wren=CrewRole.GUEST, tomas=CrewRole.GUEST)
    log.tell(CrewTold(name="Tomas", role=CrewRole.CARVER), 2, by="Wren")
    assert everybody(log.state) == ("Ines", "Tomas")
