"""Which steps belong to a cook, and how much people are told: detail, kinds, crew, conditions."""

from __future__ import annotations

import datetime as dt

import pytest

from scheduler.facts import (
    AirTold,
    CookerKind,
    CookerTold,
    Detail,
    DetailTold,
    GuestsTold,
    KindTold,
    ReadBy,
    RestPlace,
    RestTold,
    StepDone,
    Watch,
    WatchesTold,
    Wrap,
)  # fmt: skip
from scheduler.planning.steps import Level
from scheduler.planning.telling import boxed, left_out
from tests.unit.scheduler.logbook import CATALOGUE, Logbook, at, cooking, dinner, planned

STEPS = {step.id: step for step in CATALOGUE.steps.steps}


def _why(log: Logbook, step: str) -> str | None:
    return left_out(STEPS[step], log.state, log.situation.cut)


# --- how much ----------------------------------------------------------------------


def test_no_more_of_one_kind() -> None:
    """No more spritz: not asked any more; asked again when somebody wants it again, whatever the detail."""
    log = cooking(planned(detail=Detail.EVERY))
    assert log.prompt("spritz") is not None
    log.taken(KindTold(step="spritz", wanted=False), minutes=70)
    assert (log.prompt("spritz"), _why(log, "spritz")) == (None, "kind")
    log.taken(DetailTold(detail=Detail.USUAL), minutes=71)
    log.taken(KindTold(step="spritz", wanted=True), minutes=72)
    assert log.prompt("spritz") is not None


@pytest.mark.parametrize("step", [step.id for step in CATALOGUE.steps.steps if step.safety])
def test_safety_is_told_whatever_people_want(step: str) -> None:
    """Neither a word on the kind nor the fewest messages leave a step of safety out."""
    log = cooking(planned(detail=Detail.DECISIONS))
    log.taken(KindTold(step=step, wanted=False), minutes=70)
    assert _why(log, step) not in {"kind", "detail"}


def test_detail_told_later_counts() -> None:
    """Only decisions, from now on: looks and readings fall away, what must be stays."""
    log = cooking()
    assert log.prompt("pit_check") is not None
    log.taken(DetailTold(detail=Detail.DECISIONS), minutes=70)
    assert (log.prompt("pit_check"), _why(log, "pit_check")) == (None, "detail")
    assert log.prompt("tender_test") is not None


def test_nice_steps_are_not_of_the_usual_detail() -> None:
    """What is only nice to have comes for those who want every step."""
    asked = {p.step.level for p in cooking().situation.prompts if not p.step.safety}
    assert asked == {Level.MUST, Level.SHOULD}


# --- conditions ----------------------------------------------------------------------


def test_steps_of_a_crew_need_more_than_one_person() -> None:
    """Alone nobody reads the plan to anybody; with watches told there is a crew."""
    log = Logbook(planned(serving=dinner(9 * 24 * 60)))
    assert (_why(log, "confirm_plan"), _why(log, "handover")) == ("crew", "crew")
    wall = [at(minutes).replace(tzinfo=None) for minutes in (0, 60, 120)]
    told = WatchesTold(
        watches=(Watch(name="Wren", start=wall[0], end=wall[1]), Watch(name="Ines", start=wall[1], end=wall[2]))
    )
    log.taken(told, minutes=10)
    assert _why(log, "confirm_plan") is None


def test_steps_far_ahead_are_asked_only_when_planned_by_then() -> None:
    """Ten days ahead: guests, meat, charcoal, in that order. Two days ahead: none of them."""
    early = Logbook(planned(serving=dinner(10 * 24 * 60)))
    named = {"headcount", "rules_site", "order_meat", "shop_fuel", "collect_meat", "fridge_check"}
    asked = {p.step.id: p.due_at for p in early.situation.prompts if p.step.id in named}
    assert set(asked) == named
    assert asked["headcount"] <= asked["order_meat"] < asked["shop_fuel"] < asked["collect_meat"]
    late = Logbook(planned(serving=dinner(2 * 24 * 60)))
    assert not named & {p.step.id for p in late.situation.prompts}


def test_what_was_told_anyway_is_not_asked() -> None:
    """Guests, watches and weather that somebody told answer their questions."""
    log = Logbook(planned(serving=dinner(10 * 24 * 60)))
    for body, step in ((GuestsTold(adults=8), "headcount"), (AirTold(temp_c=10.0, wind="windy"), "weather")):
        assert log.prompt(step) is not None
        log.taken(body, minutes=10)
        assert log.prompt(step) is None


@pytest.mark.parametrize(
    ("fields", "step", "why"),
    [
        ({"read_by": ReadBy.NONE}, "core_read", "read"), ({"read_by": ReadBy.HAND}, "probe_in", "wire"),
        ({"read_by": ReadBy.WIRE}, "probe_in", None), ({"frozen": False}, "thaw_start", "frozen"),
        ({"frozen": True}, "thaw_start", None), ({"cut": "sausages"}, "dry_brine", "salted"),
        ({"cut": "pork_loin"}, "bark_check", "wrap"), ({"cut": "pork_loin"}, "tender_test", "feel"),
        ({"cut": "pork_loin"}, "spritz", "spritzed"), ({"cut": "pork_loin"}, "hold_check", "boxed"),
        ({"cut": "pork_loin"}, "second_spot", None), ({"wrap": Wrap.NONE}, "bark_check", "wrap"),
        ({"count": 2, "detail": Detail.EVERY}, "rotate", None), ({"count": 1}, "rotate", "several"),
        ({}, "water_pan", "water_pan"), ({}, "cool_check", "event"), ({}, "pit_recover", "merged"),
        ({}, "wrap_decide", "merged"),
    ],
)  # fmt: skip
def test_a_step_needs_what_it_is_for(fields: dict[str, object], step: str, why: str | None) -> None:
    """Ice, a wire, salt, a bark, a feel, a box, several pieces: without it the step has no place in the cook."""
    assert _why(Logbook(planned(**fields)), step) == why


def test_what_the_card_of_the_cooker_says() -> None:
    """With a water pan it is topped up; where all wood lies in the charcoal none is added."""
    log = cooking(planned(detail=Detail.EVERY))
    log.tell(CookerTold(cooker=CookerKind.DRUM, water_pan=True, wood_by="before"), 61)
    assert (_why(log, "water_pan"), _why(log, "wood_add")) == (None, "wood_later")


@pytest.mark.parametrize(("place", "box"), [(RestPlace.BOARD, False), (RestPlace.OVEN, True), (None, True)])
def test_where_it_rests_decides_about_the_box(place: RestPlace | None, box: bool) -> None:
    """Ribs rest in a box unless somebody said on the board."""
    log = cooking()
    if place is not None:
        log.tell(RestTold(place=place), 61)
    assert boxed(log.state, log.situation.cut) is box


def test_above_its_window_nobody_is_asked_about_the_bark() -> None:
    """A wrap pays no more: the look comes at 80 C for chuck ribs, and not at 86."""
    log = cooking()
    log.read(82.0, 240)
    assert log.prompt("bark_check") is not None
    log.read(86.0, 270)
    assert (log.prompt("bark_check"), _why(log, "bark_check")) == (None, "wrap")


def test_the_bark_is_asked_about_three_times_at_most() -> None:
    """Counting those that nobody answered: asked, asked again, not yet, asked, and then no more."""
    log = cooking(planned(cut="brisket_packer", pit_low_c=121, pit_high_c=121, serving=dinner(30 * 60)))
    log.read(72.0, 420)
    asked = 0
    for minutes in range(425, 900, 5):
        trip = log.trip(minutes)
        asked += 0 if trip is None else sum(p.step.id == "bark_check" for p in trip.prompts)
        if trip is not None and asked == 2 and any(p.step.id == "bark_check" for p in trip.prompts):
            log.say(StepDone(step="bark_check", outcome="not_yet"), minutes=minutes + 1)
    assert 1 <= asked <= 3


def test_not_yet_comes_back_with_a_reading_that_shows_the_rise() -> None:
    """Six degrees more are read after twenty minutes: the bark is looked at then, not after forty."""
    log = cooking(planned(cut="brisket_packer", pit_low_c=121, pit_high_c=121, serving=dinner(30 * 60)))
    log.read(72.0, 420)
    log.ring(421)
    log.taken(StepDone(step="bark_check", outcome="not_yet"), minutes=425)
    first = log.due("bark_check")
    assert first is not None
    assert first <= 425 + 40
    log.read(78.5, 440)
    assert log.due("bark_check") == 440


# --- every row of the trade ----------------------------------------------------------------------

ROWS = (
    "headcount", "rules_site", "roles", "order_meat", "shop_fuel", "collect_meat", "fridge_check", "thaw_start",
    "thaw_check", "thaw_rescue", "weather", "clean_cooker", "probe_test", "trim", "dry_brine", "stage_kit",
    "confirm_plan", "wake", "rules_recheck", "fuel_load", "light", "heat_parts_in", "vents_early", "smoke_clean",
    "pit_stable", "rub_binder", "probe_in", "meat_on", "raw_cleanup", "pit_recover", "pit_check", "fuel_check",
    "refuel", "first_look", "spritz", "wood_add", "water_pan", "core_read", "come_up_check", "rotate",
    "stall_notice", "bark_check", "wrap_decide", "wrap_do", "handover", "eta_note", "box_ready", "tender_test",
    "second_spot", "pull", "shutdown", "vent_meat", "box_meat", "hold_check", "sides", "t_minus", "board_ready",
    "slice", "serve", "two_hour", "leftovers", "cool_check", "fire_out", "wash_up", "quick_notes", "grease_clean",
    "reheat", "ash", "restock", "leftover_expire",
)  # fmt: skip


def test_all_seventy_steps_are_there() -> None:
    """Each step of a long cook has its entry, with an owner and a night rule; seven more are the program's own."""
    assert len(ROWS) == 70
    own = {"pit_rising", "pit_change", "serve_reading", "raw_out", "marinade", "reheat_on", "reheat_away"}
    assert {step.id for step in CATALOGUE.steps.steps} == {*ROWS, *own}


def test_the_thaw_begins_by_the_mass() -> None:
    """A heavier frozen piece goes into the fridge earlier."""
    due = [
        Logbook(planned(cut="pork_butt", frozen=True, mass_kg=mass_kg, serving=dinner(12 * 24 * 60))).due("thaw_start")
        for mass_kg in (2.0, 4.0, 6.0)
    ]
    assert all(at is not None for at in due)
    assert due == sorted(due, key=lambda at: -(at or 0))
    assert due[0] is not None
    assert due[2] is not None
    assert due[0] - due[2] >= dt.timedelta(days=1.5) / dt.timedelta(minutes=1)
