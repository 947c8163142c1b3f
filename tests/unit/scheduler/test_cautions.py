"""Cautions: which one rides in the message that goes out, when one comes back, and what becomes of those that wait."""

from __future__ import annotations

import dataclasses

import pytest

from scheduler.facts import (
    Asked,
    CareTold,
    Detail,
    KindTold,
    PieceAdded,
    Planned,
    StepDone,
    TreatedTold,
    Treatment,
    Troubled,
    Undone,
    Watch,
    WatchesTold,
    Withdrawn,
)  # fmt: skip
from scheduler.planning.cautions import MOST_BY_DAY, caution_for
from scheduler.planning.prompts import Prompt, Why
from scheduler.planning.steps import HAPPENINGS
from scheduler.planning.telling import left_out
from tests.unit.scheduler.logbook import CATALOGUE, START, Logbook, at, cooking, dinner, planned

ORDER = [caution.id for caution in CATALOGUE.steps.cautions]
OVERNIGHT = planned(cut="brisket_packer", serving=dinner(30 * 60), pit_low_c=104.0, pit_high_c=104.0, mass_kg=7.0)
"""Eaten at noon of the next day: the fire burns through a night."""


def going_out(
    log: Logbook, *steps: str, minutes: float, piece: str = "p1", number: int = 1, warned: bool = False
) -> str:
    """Return the caution that rides when these steps are asked now, empty for none; write what was asked."""
    prompts = tuple(_prompt(step, minutes, piece, number) for step in steps)
    found = caution_for(log.facts, log.situation.views, CATALOGUE.steps, prompts, at(minutes), warned=warned)
    assert len(found) <= 1
    log.tell(Asked(prompts=tuple(p.key for p in prompts), cautions=found), minutes, by=None)
    return "".join(found)


def _prompt(step_id: str, minutes: float, piece: str = "p1", number: int = 1) -> Prompt:
    step = CATALOGUE.steps.get(step_id)
    assert step is not None
    return Prompt(
        key=f"{piece}/{step_id}/{number}", cook="c1", piece=piece, step=step, due_at=at(minutes),
        why=Why(kind="after"), order=CATALOGUE.steps.order(step_id),
    )  # fmt: skip


def lit(plan: Planned = OVERNIGHT) -> Logbook:
    """Return a cook of which the fire burns and the meat is on, asked in order, with nothing waiting."""
    log = Logbook(plan)
    going_out(log, "rules_recheck", minutes=0)
    going_out(log, "light", minutes=5)
    log.done("light", 10, answers=("p1/light/1",))
    for minutes in range(11, 50):
        if not going_out(log, "probe_in", minutes=minutes):
            break
    going_out(log, "meat_on", minutes=55)
    log.done("meat_on", 60, answers=("p1/meat_on/1",))
    for minutes in range(61, 110):
        if not going_out(log, "pit_check", minutes=minutes):
            return log
    raise AssertionError("cautions without end")


def told(log: Logbook) -> list[str]:
    """Return the cautions that were told, in order."""
    return [name for fact in log.facts if isinstance(fact.body, Asked) for name in fact.body.cautions]


# --- one, the gravest, and the others wait ----------------------------------------------------------------------


def test_the_gravest_of_a_message_rides_and_the_other_in_the_next() -> None:
    """Lighting carries carbon monoxide and the site: the first rides, the second comes with whatever is asked next."""
    log = Logbook(OVERNIGHT)
    going_out(log, "rules_recheck", minutes=0)
    assert [going_out(log, "light", minutes=5), going_out(log, "smoke_clean", minutes=40)] == ["co", "site"]
    assert going_out(log, "smoke_clean", minutes=55, number=2) == ""


def test_nothing_takes_the_place_of_starter_fluid_where_coals_are_added() -> None:
    """A night began, so that carbon monoxide waits; at the refuel the fluid is said first, carbon monoxide next."""
    log = lit()
    assert going_out(log, "refuel", minutes=18 * 60) == "fluid"
    assert going_out(log, "pit_check", minutes=18 * 60 + 30, number=9) == "co"


def test_a_caution_comes_once() -> None:
    """Asked again and again, the tenderness brings its minimum once."""
    log = lit()
    assert going_out(log, "tender_test", minutes=600) == "minimum"
    assert [going_out(log, "tender_test", minutes=600 + 20 * n, number=1 + n) for n in (1, 2, 3)] == ["", "", ""]


@pytest.mark.parametrize("muted", [KindTold(step="pit_check", wanted=False), None])
def test_what_nobody_is_told_of_gives_its_caution_to_the_next_message(muted: KindTold | None) -> None:
    """With the pit checks muted, or at the fewest prompts, somebody awake and near is said with what comes after."""
    log = Logbook(planned(detail=Detail.USUAL if muted else Detail.DECISIONS))
    if muted:
        log.tell(muted, 0)
    going_out(log, "rules_recheck", minutes=0)
    going_out(log, "light", minutes=5)
    log.done("light", 10, answers=("p1/light/1",))
    heard = [going_out(log, "meat_on", minutes=55)]
    log.done("meat_on", 60, answers=("p1/meat_on/1",))
    heard += [going_out(log, "come_up_check", minutes=300 + 20 * n, number=1 + n) for n in range(5)]
    assert "unattended" in heard


@pytest.mark.parametrize("how", ["done", "withdrawn"])
def test_what_was_done_or_given_up_unasked_gives_its_caution_on(how: str) -> None:
    """Boxed before anybody was asked, or given up as too late: the floor of held meat comes with the next message."""
    log = lit()
    log.done("pull", 800)
    if how == "done":
        log.done("box_meat", 820)
    else:
        log.tell(Withdrawn(prompt="p1/box_meat/1", reason="too_late"), 820, by=None)
    heard = [going_out(log, "hold_check", minutes=840 + n, number=n) for n in (1, 2, 3)]
    assert "hold" in heard


def test_a_caution_that_has_become_pointless_lapses() -> None:
    """Charcoal was added unasked, then the vents were shut: nothing is said of starter fluid any more."""
    log = lit()
    log.done("refuel", 500)
    log.done("shutdown", 510, "closed")
    log.done("serve", 520)
    assert "fluid" not in [going_out(log, "fire_out", minutes=600 + n, number=n) for n in range(1, 6)]
    kept = lit()
    kept.done("refuel", 500)
    kept.done("shutdown", 510, "keep")
    assert "fluid" in [going_out(kept, "pit_check", minutes=600 + n, number=50 + n) for n in range(1, 6)]


def test_what_is_taken_back_brings_no_caution() -> None:
    """A refuel that was undone was none."""
    log = lit()
    wrong = log.done("refuel", 500)
    log.tell(Undone(of=wrong), 501)
    assert going_out(log, "pit_check", minutes=520, number=70) == ""


# --- beside other warnings ----------------------------------------------------------------------


def test_no_caution_beside_the_card_of_a_problem() -> None:
    """Told of rain at this instant the card speaks; what waited comes with the next message."""
    log = lit()
    log.tell(Troubled(problem="cold"), 600)
    assert going_out(log, "tender_test", minutes=600) == ""
    assert going_out(log, "tender_test", minutes=620, number=2) == "minimum"


def test_beside_a_finding_only_what_must_not_miss_its_place() -> None:
    """A warning in the message keeps cautions back, but not carbon monoxide at the lighting."""
    log = Logbook(OVERNIGHT)
    assert going_out(log, "light", minutes=5, warned=True) == "co"
    assert going_out(log, "probe_in", minutes=40, warned=True) == ""


# --- what brings one back ----------------------------------------------------------------------


def test_starter_fluid_comes_back_with_every_refuel() -> None:
    """Each time coals are added."""
    log = lit()
    assert [going_out(log, "refuel", minutes=300 + 120 * n, number=n) for n in (1, 2, 3)] == ["fluid"] * 3


@pytest.mark.parametrize("problem", ["fuel_out", "fire_out", "pit_cold"])
def test_the_danger_zone_comes_back_when_the_fire_fails(problem: str) -> None:
    """Fuel gone, fire out or a pit too cold: not in the card's message, but in the next one."""
    log = lit()
    log.tell(Troubled(problem=problem), 300)
    first = [going_out(log, "fuel_check", minutes=301 + n, number=n) for n in range(1, 4)]
    log.tell(Troubled(problem=problem), 400)
    again = [going_out(log, "fuel_check", minutes=401 + n, number=10 + n) for n in range(1, 4)]
    assert [found.count("danger") for found in (first, again)] == [1, 1]


def test_the_end_of_a_problem_brings_nothing_back() -> None:
    """Over is over."""
    log = lit()
    log.tell(Troubled(problem="pit_cold", over=True), 300)
    assert going_out(log, "pit_check", minutes=310, number=60) == ""


def test_hot_metal_comes_back_after_a_burn() -> None:
    """Somebody burned a hand: gloves are said with the next message once more."""
    log = lit()
    assert told(log).count("hot") == 1
    log.tell(Troubled(problem="burn"), 300)
    assert going_out(log, "pit_check", minutes=310, number=61) == "hot"


def test_a_starved_fire_comes_back_with_each_opening_after_the_vents_were_nearly_shut() -> None:
    """The vents close, the lid opens: said; once more when the pit ran away and was shut down; at no other opening."""
    log = lit()
    log.done("vents_early", 200)
    assert going_out(log, "pit_check", minutes=210, number=62) == ""
    assert going_out(log, "first_look", minutes=220) == "burp"
    assert going_out(log, "bark_check", minutes=260) == ""
    log.tell(Troubled(problem="pit_hot"), 300)
    assert going_out(log, "bark_check", minutes=310, number=2) == "burp"


def test_another_piece_of_raw_meat_brings_raw_and_cooked_back() -> None:
    """A second piece goes on beside meat that cooks already; the first one going on again is no news."""
    log = lit()
    assert told(log).count("raw") == 1
    log.tell(PieceAdded(cut="pork_butt"), 300)
    log.facts = (*log.facts[:-1], dataclasses.replace(log.facts[-1], piece="p2"))
    assert going_out(log, "meat_on", minutes=320, piece="p2") == "raw"


def test_another_piece_boxed_brings_the_floor_back() -> None:
    """Each box is told its floor."""
    log = lit()
    going_out(log, "tender_test", minutes=690)
    log.done("pull", 700)
    assert going_out(log, "box_meat", minutes=720) == "hold"
    assert going_out(log, "box_meat", minutes=735) == ""
    assert going_out(log, "box_meat", minutes=760, piece="p2") == "hold"


def test_a_night_brings_back_who_is_awake_and_carbon_monoxide() -> None:
    """Quiet hours begin and the fire burns: both are said once more, the graver one first, and tiredness: one watch of
    nine hours is long.
    """
    log = lit()
    before = 16 * 60 - 10
    assert going_out(log, "pit_check", minutes=before, number=80) == ""
    heard = [going_out(log, "pit_check", minutes=16 * 60 + 10 + n, number=81 + n) for n in range(5)]
    assert heard == ["co", "unattended", "drink_sleep", "", ""]


def test_each_night_watch_brings_back_who_is_awake() -> None:
    """With the handover of every watch of the night; a long one also says that who is tired hands over."""
    log = lit()
    walls = [at(minutes).replace(tzinfo=None) for minutes in (16 * 60, 19 * 60, 26 * 60)]
    log.tell(
        WatchesTold(
            watches=(
                Watch(name="Wren", start=walls[0], end=walls[1]),
                Watch(name="Tomas", start=walls[1], end=walls[2]),
            )
        ),
        200,
    )
    evening = [going_out(log, "handover", minutes=16 * 60 - 10)]
    evening += [going_out(log, "pit_check", minutes=16 * 60 + 5 + n, number=90 + n) for n in range(4)]
    assert (evening[0], sorted(filter(None, evening))) == ("unattended", ["co", "unattended", "unattended"])
    later = [going_out(log, "handover", minutes=19 * 60 - 10, number=2)]
    later += [going_out(log, "pit_check", minutes=19 * 60 + n, number=100 + n) for n in range(4)]
    assert list(filter(None, later)) == ["unattended", "drink_sleep"]


def test_nothing_of_the_night_is_said_of_a_fire_that_is_out() -> None:
    """Shut down in the afternoon: the night brings nothing back."""
    log = lit()
    log.done("pull", 700)
    log.done("shutdown", 710, "closed")
    heard = [going_out(log, "hold_check", minutes=17 * 60 + n, number=n) for n in range(1, 8)]
    assert "unattended" not in heard
    assert heard.count("co") <= 1


def test_a_fire_ban_is_named_at_planning_in_the_morning_and_before_the_flame() -> None:
    """With the first message of the plan, once more in the morning of the fire, and by the prompt before lighting
    itself, beside which it is not said again.
    """
    log = Logbook(planned(serving=dinner(24 * 60 + 780)))
    assert going_out(log, "clean_cooker", minutes=10) == "ban"
    assert [going_out(log, "trim", minutes=300 + n, number=n) for n in (1, 2, 3)].count("ban") == 0
    morning = (log.situation.outlook.light_at - START).total_seconds() / 60 - 20
    early = going_out(log, "fuel_load", minutes=24 * 60 + 61)
    assert (early == "ban") == (morning > 24 * 60 + 180)
    assert going_out(log, "rules_recheck", minutes=morning) != "ban"


@pytest.mark.parametrize(
    ("fact", "caution", "step"),
    [
        (CareTold(at_risk=True), "at_risk", "core_read"),
        (CareTold(public=True), "permit", "core_read"),
        (TreatedTold(treatments=(Treatment.ROLLED,)), "intact", "core_read"),
    ],
)
def test_what_is_told_of_guests_and_meat_brings_its_caution(
    fact: CareTold | TreatedTold, caution: str, step: str
) -> None:
    """Guests at risk, a public meal, allergies, meat that is not intact: said in the next message, once."""
    log = lit()
    log.tell(fact, 200)
    assert [going_out(log, step, minutes=210 + n, number=n) for n in (1, 2, 3)] == [caution, "", ""]


def test_nobody_asks_for_allergies_that_were_told() -> None:
    """Once told they are named in the prompts before serving; "ask for allergies" is said no more, nor without any."""
    log = lit()
    log.tell(CareTold(allergies=("mustard",)), 200)
    log.done("pull", 700)
    assert "allergy" not in [going_out(log, "board_ready", minutes=750 + n, number=n) for n in (1, 2, 3)]
    none = lit()
    none.tell(CareTold(allergies=()), 200)
    assert "allergy" not in [going_out(none, "board_ready", minutes=750 + n, number=n) for n in (1, 2, 3)]


# --- how many ----------------------------------------------------------------------


def test_a_cook_by_day_carries_ten_at_most_and_the_gravest_of_them() -> None:
    """Asked for everything from cleaning to ash, ten cautions ride; the ash, graver than brushes and knives, is one."""
    log = Logbook()
    minutes, late = 0.0, {"refuel", "thaw_start", "thaw_check", "thaw_rescue", "pit_change", "cool_check"}
    for step in CATALOGUE.steps.steps:
        if step.anchor.kind == "merged" or step.id in late or "early" in step.only:
            continue
        minutes += 12
        going_out(log, step.id, minutes=minutes)
        log.tell(StepDone(step=step.id), minutes + 1, answers=(f"p1/{step.id}/1",))
    assert len(told(log)) <= MOST_BY_DAY
    assert {"co", "hot", "minimum", "raw", "ash", "unattended"} <= set(told(log))
    assert not {"bristle", "marinade", "knife"} & set(told(log))


def test_a_cook_through_the_night_has_room_for_all() -> None:
    """A long cook is not cut short: what a cook by day leaves out is told."""
    log = Logbook(OVERNIGHT)
    for number, step in enumerate(
        ("clean_cooker", "trim", "dry_brine", "weather", "stage_kit", "stage_kit", "stage_kit")
    ):
        going_out(log, step, minutes=10 * number, number=1 + number)
    assert {"ban", "raw", "knife", "marinade", "bristle", "storm"} <= set(told(log))


# --- the file ----------------------------------------------------------------------


def test_every_happening_brings_some_caution_back() -> None:
    """What the code can tell apart is used by the file."""
    named = {what for caution in CATALOGUE.steps.cautions for what in caution.returns}
    assert set(HAPPENINGS) <= named


def test_the_status_of_a_source_is_what_the_source_says() -> None:
    """What was remembered says so, what has no source says so, and nothing else is called either."""
    for caution in CATALOGUE.steps.cautions:
        assert (caution.status == "from memory") == caution.source.startswith("from memory"), caution.id
        assert (caution.status == "common practice") == (caution.source == "common practice, no source"), caution.id


def test_the_gravest_stand_first() -> None:
    """Carbon monoxide before all; what kills or poisons before what hurts, and that before what only spoils."""
    assert ORDER[0] == "co"
    for graver, lighter in (("fluid", "unattended"), ("minimum", "knife"), ("ash", "bristle"), ("hold", "chill")):
        assert ORDER.index(graver) < ORDER.index(lighter)


# --- steps of safety ----------------------------------------------------------------------

TRADE_SAFETY = frozenset(
    ("rules_site", "collect_meat", "fridge_check", "thaw_start", "thaw_check", "thaw_rescue", "rules_recheck",
     "raw_cleanup", "come_up_check", "box_ready", "second_spot", "shutdown", "box_meat", "hold_check", "board_ready",
     "two_hour", "leftovers", "cool_check", "fire_out", "reheat", "ash", "leftover_expire")
)  # fmt: skip
"""Steps that the trade's table of the seventy steps of a long cook calls "safety" (column criticality), copied from it;
common practice, no source."""


def test_what_the_trade_calls_safety_is_never_skipped_dropped_or_delayed() -> None:
    """Every such step is one of safety here, stays open when nobody answers, and is told at every level of detail."""
    steps = {step.id: step for step in CATALOGUE.steps.steps}
    assert [name for name in TRADE_SAFETY if not steps[name].safety] == []
    assert [name for name in TRADE_SAFETY if steps[name].unanswered.then != "open"] == []
    log = cooking(planned(detail=Detail.DECISIONS))
    for name in TRADE_SAFETY:
        log.tell(KindTold(step=name, wanted=False), 61)
    view = log.situation.views[0]
    assert [name for name in TRADE_SAFETY if left_out(steps[name], view.state, view.cut) in {"kind", "detail"}] == []
