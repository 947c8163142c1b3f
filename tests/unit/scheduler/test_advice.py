"""What can be done about a late or early cook: what is open, from when and until when, what never is, in which order.

How much a lever brings is held against the trade in tests/published/test_levers.py.
"""

from __future__ import annotations

import datetime as dt

import pytest

from scheduler.errors import CatalogueError
from scheduler.facts import (
    CookerKind,
    CookerTold,
    Divided,
    Feel,
    LeverTaken,
    MovedToOven,
    PitMoved,
    RestPlace,
    RestTold,
    ServingMoved,
    Slot,
    Wrap,
    WrapPlanned,
)
from scheduler.planning.advice import Advice, Lean, advise, cost_of, moment, not_paused, option_of
from scheduler.planning.outlook import Verdict
from scheduler.planning.remedies import read_remedies
from tests.catalogue import TEXTS
from tests.unit.scheduler.logbook import CATALOGUE, WHEN_READY, Logbook, at, dinner, minutes_of, planned, resting

NOW = 480.0
"""When these cooks are looked at [min]."""

BRISKET = {"cut": "brisket_packer", "pit_low_c": 121.0, "pit_high_c": 121.0}


def brisket(dinner_at: float, *, wrap: Wrap | None = Wrap.NONE, core_c: float = 68.0) -> Logbook:
    """Return a brisket that went on at 60 and reads `core_c` at `NOW`."""
    log = Logbook(planned(**BRISKET, serving=dinner(dinner_at), wrap=wrap))
    log.done("light", 0)
    log.done("meat_on", 60)
    for minutes, share in ((180, 0.45), (300, 0.75), (400, 0.93), (NOW, 1.0)):
        log.read(core_c * share, minutes)
    return log


def advice(log: Logbook, now: float = NOW) -> Advice:
    """Return the advice for a log at an instant."""
    seen = log.situation
    return advise(seen.state, seen.cut, seen.outlook, CATALOGUE.remedies, at(now))


def ids(found: Advice) -> list[str]:
    """Return the levers of an advice in order."""
    return [option.lever.id for option in found.options]


# --- to which side ----------------------------------------------------------------------------------------------------
def test_late_close_early_and_fine_are_told_apart() -> None:
    """The lean follows the verdict; before any time is fixed nothing is late."""
    assert advice(brisket(840)).lean is Lean.LATE
    assert advice(brisket(1300)).lean is Lean.FINE
    assert advice(brisket(2000)).lean is Lean.EARLY
    open_end = brisket(840)
    open_end.tell(ServingMoved(serving=WHEN_READY), NOW)
    assert advice(open_end).lean is Lean.OPEN


def test_on_time_doing_nothing_is_right() -> None:
    """A brisket that will be on time and keeps needs nothing."""
    found = advice(brisket(1300))
    assert found.calm
    assert not advice(brisket(840)).calm


def test_early_is_only_what_does_not_keep_so_long() -> None:
    """Meat that waits less than a box holds is no early cook; told into a warm oven it may wait longer."""
    log = brisket(2000)
    assert log.situation.outlook.verdict is Verdict.EARLY
    log.tell(RestTold(place=RestPlace.OVEN, oven_c=71.0), NOW)
    assert (
        moment(log.state, log.situation.cut, log.situation.outlook, at(NOW)).excess_min
        < advice(brisket(2000)).at.excess_min
    )


def test_a_roast_is_early_much_sooner_than_a_brisket() -> None:
    """A loin cannot wait: ready an hour and a half before dinner it is early, a brisket is not."""
    loin = Logbook(planned(cut="pork_loin", serving=dinner(480)))
    loin.done("light", 0)
    loin.done("meat_on", 60)
    pull = minutes_of(loin.situation.outlook.pull.likely)
    assert pull is not None
    early = Logbook(planned(cut="pork_loin", serving=dinner(round(pull + 150))))
    early.done("light", 0)
    early.done("meat_on", 60)
    assert early.situation.outlook.verdict is Verdict.EARLY
    assert "early_dinner" in ids(advice(early, 61))


# --- what is open -----------------------------------------------------------------------------------------------------
def test_a_late_brisket_may_be_checked_wrapped_heated_and_more() -> None:
    """Checking comes first; wraps, a hotter pit and a later dinner are there, each with an end."""
    found = advice(brisket(840))
    assert ids(found)[0] == "late_verify"
    assert {"late_pit_up_14", "late_wrap_paper", "late_wrap_foil", "late_move_dinner_60"} <= set(ids(found))
    for one in ("late_pit_up_14", "late_wrap_foil", "late_move_dinner_60"):
        option = found.option(one)
        assert option is not None
        assert option.until is not None
        assert option.until > at(NOW)


def test_the_order_is_chance_for_its_cost_then_the_trade() -> None:
    """After the checks, what gains more for its cost comes first."""
    options = [
        o for o in advice(brisket(900)).options if o.lever.change not in {"verify", "fix_pit"} and o.value > 0.02
    ]
    gains = [round(50 * o.value / max(1, o.lever.cost)) for o in options]
    assert gains == sorted(gains, reverse=True)


def test_the_best_are_of_different_kinds() -> None:
    """Three wraps are one idea: of each kind only the best is among the best three."""
    kinds = [option.lever.change for option in advice(brisket(840)).best]
    assert 2 <= len(kinds) == len(set(kinds)) <= 3


def test_the_wrap_closes_with_the_window_of_the_cut() -> None:
    """Past the core at which a wrap pays no more, none is offered."""
    assert not [one for one in ids(advice(brisket(700, core_c=86.0))) if "wrap" in one or one == "late_boat"]


def test_a_wrap_waits_for_the_bark() -> None:
    """Below the bark look of the cut a wrap is a plan with a time; above it, it is for now."""
    young, old = advice(brisket(700, core_c=55.0)), advice(brisket(840, core_c=74.0))
    first, second = young.option("late_wrap_foil"), old.option("late_wrap_foil")
    assert first is not None
    assert second is not None
    assert first.from_at is not None
    assert first.from_at > at(NOW)
    assert second.from_at is None


def test_a_wrap_that_is_counted_on_is_no_lever() -> None:
    """What the forecast counts on already cannot be gained again."""
    assert "late_wrap_paper" not in ids(advice(brisket(700, wrap=Wrap.PAPER)))
    assert "late_wrap_foil" in ids(advice(brisket(700, wrap=Wrap.PAPER)))


@pytest.mark.parametrize(
    ("pit_c", "wrapped", "opened"), [(121, False, True), (149, False, False), (149, True, True), (163, True, False)]
)
def test_the_pit_is_never_advised_above_its_caps(pit_c: float, wrapped: bool, opened: bool) -> None:
    """149 C bare, 163 C wrapped; one step more is not offered."""
    log = brisket(700)
    log.tell(PitMoved(pit_low_c=pit_c, pit_high_c=pit_c), 62)
    if wrapped:
        log.wrapped(Wrap.FOIL, NOW - 5)
    seen = log.situation
    found = option_of(seen.state, seen.cut, seen.outlook, CATALOGUE.remedies, "late_pit_up_14", at(NOW))
    assert (found is not None) is opened


def test_the_pit_is_left_alone_after_a_move() -> None:
    """Within half an hour of a move no other is advised; after that it is again."""
    log = brisket(840)
    log.tell(PitMoved(pit_low_c=121, pit_high_c=121), NOW - 10)
    log.tell(PitMoved(pit_low_c=124, pit_high_c=124), NOW - 9)
    assert "late_pit_up_14" not in ids(advice(log))
    assert "late_pit_up_14" in ids(advice(log, NOW + 25))


@pytest.mark.parametrize(
    ("core_c", "pit_c", "opened"), [(74.0, 121.0, True), (50.0, 121.0, False), (74.0, 115.0, False)]
)
def test_the_pit_is_never_lowered_too_far_or_over_cold_meat(core_c: float, pit_c: float, opened: bool) -> None:
    """Never below 107 C, and never while the core is under 60 C."""
    log = Logbook(planned(**{**BRISKET, "pit_low_c": pit_c, "pit_high_c": pit_c}, serving=dinner(3000), wrap=Wrap.NONE))
    log.done("light", 0)
    log.done("meat_on", 60)
    log.read(core_c * 0.7, 300)
    log.read(core_c, NOW)
    assert ("early_pit_down_14" in ids(advice(log))) is opened


def test_a_pit_that_reads_low_is_brought_back_before_anything_is_raised() -> None:
    """With a fresh reading 20 C under the band the pit is fixed first, and raising it is no option."""
    log = brisket(840)
    log.read(101.0, NOW + 1, slot=Slot.PIT)
    found = ids(advice(log, NOW + 2))
    assert found[:2] == ["late_verify", "late_fix_pit"]
    assert "late_pit_up_14" not in found
    assert "late_fix_pit" not in ids(advice(log, NOW + 120))


def test_dinner_is_moved_once() -> None:
    """One move is forgiven: after it no other is offered."""
    log = brisket(840)
    assert "late_move_dinner_60" in ids(advice(log))
    log.tell(ServingMoved(serving=dinner(870)), NOW)
    assert "late_move_dinner_60" not in ids(advice(log))


def test_what_was_checked_is_not_advised_again() -> None:
    """A check that was just chosen is not offered for an hour."""
    log = brisket(840)
    log.tell(LeverTaken(lever="late_verify"), NOW)
    assert "late_verify" not in ids(advice(log))
    assert "late_verify" in ids(advice(log, NOW + 61))


def test_only_round_cuts_are_cut_up_and_only_briskets_parted() -> None:
    """A brisket has its seam, a butt is cut in pieces, ribs are neither."""
    assert "late_split_point_flat" in ids(advice(brisket(840, core_c=78.0)))
    assert "late_cut_butt" not in ids(advice(brisket(840, core_c=78.0)))
    ribs = Logbook(planned(serving=dinner(420)))
    ribs.done("light", 0)
    ribs.done("meat_on", 60)
    ribs.read(75.0, 270)
    assert not {"late_split_point_flat", "late_cut_butt"} & set(ids(advice(ribs, 271)))


def test_a_water_pan_is_emptied_only_where_there_is_one() -> None:
    """The lever about water needs a cooker that has a pan of it."""
    log = brisket(840)
    assert "late_drop_water" not in ids(advice(log))
    log.tell(CookerTold(cooker=CookerKind.KETTLE, water_pan=True), NOW)
    assert "late_drop_water" in ids(advice(log))


def test_tender_meat_is_pulled_not_heated() -> None:
    """Once the hand said tender, nothing about the fire is offered."""
    log = brisket(840)
    log.felt(Feel.TENDER, NOW)
    assert not {"late_pit_up_14", "late_wrap_foil", "late_oven"} & set(ids(advice(log)))


def test_an_oven_is_no_lever_before_the_bark_but_always_a_way_out() -> None:
    """Ranked only once the bark is set; as a choice by itself it is open while meat is on the fire."""
    log = brisket(700, core_c=50.0)
    seen = log.situation
    assert "late_oven" not in ids(advice(log))
    assert option_of(seen.state, seen.cut, seen.outlook, CATALOGUE.remedies, "late_oven", at(NOW)) is not None


def test_a_closed_or_unknown_lever_is_no_option() -> None:
    """Nothing that is closed can be chosen, nor what nobody knows, nor a pause by whatever name."""
    seen = resting(planned(serving=dinner(500))).situation
    for lever in ("late_wrap_foil", "early_never", "swan"):
        assert option_of(seen.state, seen.cut, seen.outlook, CATALOGUE.remedies, lever, at(485)) is None


def test_meat_that_is_done_hours_early_is_held_warm() -> None:
    """Pulled far too early: the warm oven comes first, a cold box is not among it."""
    found = ids(advice(resting(planned(**BRISKET, serving=dinner(480 + 480))), 485))
    assert found[0] == "early_oven_hold"
    assert "early_box" not in found


# --- never a pause ----------------------------------------------------------------------------------------------------
def test_a_pause_is_refused_with_the_oven_instead() -> None:
    """Half-cooked meat keeps climbing; the oven is the way out. Before and after the fire there is nothing to pause."""
    seen = brisket(840).situation
    found = not_paused(seen.state, seen.cut, seen.outlook, CATALOGUE.remedies, at(NOW))
    assert found is not None
    assert found.limit_c == 60.0
    assert found.oven is not None
    assert any(isinstance(body, MovedToOven) for body in found.oven.bodies)
    done = resting().situation
    assert not_paused(done.state, done.cut, done.outlook, CATALOGUE.remedies, at(485)) is None


def test_nothing_advised_ever_pauses_or_cools_meat_that_is_on() -> None:
    """The row of things that are no levers is in the catalogue, and never among the options."""
    assert CATALOGUE.remedies.lever("early_never") is not None
    for log in (brisket(700), brisket(840), brisket(2000), brisket(3000)):
        assert "early_never" not in ids(advice(log))


# --- the plan follows -------------------------------------------------------------------------------------------------
def test_the_plan_follows_what_was_chosen() -> None:
    """Planned foil, an oven and parts each bring the pull forward; the shared facts alone say so."""
    bare = brisket(840).situation.outlook.pull.likely
    assert bare is not None
    for body in (WrapPlanned(wrap=Wrap.FOIL), MovedToOven(oven_c=149.0), Divided(parts=2)):
        log = brisket(840)
        log.tell(body, NOW)
        pull = log.situation.outlook.pull.likely
        assert pull is not None
        assert pull < bare - dt.timedelta(minutes=30), body


def test_in_an_oven_there_is_no_weather() -> None:
    """Cold wind slows a cooker, not an oven."""
    log = brisket(840)
    log.tell(MovedToOven(oven_c=135.0), NOW)
    calm = log.situation.outlook.pull.likely
    seen = log.situation
    at_ = moment(seen.state, seen.cut, seen.outlook, at(NOW))
    assert calm == at_.outlook.pull.likely
    problem = CATALOGUE.remedies.problem("wind")
    assert problem is not None
    assert not {"late_pit_up_14", "late_stop_opening"} & set(ids(advice(log)))


# --- problems ---------------------------------------------------------------------------------------------------------
@pytest.mark.parametrize(
    ("problem", "later"),
    [("fire_out", True), ("pit_cold", True), ("rain", True), ("cold", True), ("wind", True), ("pit_hot", False)],
)
def test_what_a_problem_costs_lies_in_the_range_of_the_trade(problem: str, later: bool) -> None:
    """The engine's cost has the right sign and, as a share of what is left or in minutes, the trade's size.

    A pit 14 C colder costs 36 % here, where the trade says 6 to 30, and one 14 C hotter brings 21, where it says 5 to
    20 for a pit that is fought: named in tests/published/test_trade_table.py.
    """
    seen = brisket(900).situation
    at_ = moment(seen.state, seen.cut, seen.outlook, at(NOW))
    entry = CATALOGUE.remedies.problem(problem)
    assert entry is not None
    assert entry.effect is not None
    assert at_.left_min is not None
    cost = cost_of(entry, at_)
    assert cost is not None
    minutes = cost.shift.total_seconds() / 60
    assert (minutes > 0) is later
    value = minutes / at_.left_min if entry.unit == "share_left" else minutes
    high = {"pit_cold": 0.45, "pit_hot": 0.24}.get(problem) or max(abs(entry.effect.low), abs(entry.effect.high))
    assert abs(value) <= high
    assert abs(value) >= 0.01


def test_a_problem_that_the_engine_does_not_know_has_no_number() -> None:
    """Salt and dropped meat move no clock, and nothing does before the meat is on."""
    seen = brisket(900).situation
    at_ = moment(seen.state, seen.cut, seen.outlook, at(NOW))
    for name in ("over_salted", "dropped", "burn"):
        problem = CATALOGUE.remedies.problem(name)
        assert problem is not None
        assert cost_of(problem, at_) is None


# --- the catalogue ----------------------------------------------------------------------------------------------------
def test_the_catalogue_holds_every_lever_of_the_trade() -> None:
    """19 for a late cook, two of them in two sizes, 12 for an early one; each with an order and who decides."""
    late = [lever for lever in CATALOGUE.remedies.levers if lever.when == "late"]
    early = [lever for lever in CATALOGUE.remedies.levers if lever.when == "early"]
    assert (len(late), len(early)) == (19 + 2, 12)
    assert all(lever.basis for lever in CATALOGUE.remedies.levers)


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        ('id = "late_boat"', 'id = "late_oven"', "stands twice: late_oven"),
        ('unit = "none"', 'unit = "minutes"', "an effect needs its unit"),
        ('wrap = "paper"\n', "", "a wrap needs its kind"),
        ("cost = 1\n", "cost = 9\n", "cost"),
    ],
)
def test_a_lever_that_breaks_a_rule_is_refused(old: str, new: str, says: str) -> None:
    """The message names what is wrong."""
    text = TEXTS["levers/late"]
    assert old in text
    with pytest.raises(CatalogueError, match=says):
        read_remedies(text.replace(old, new, 1))
