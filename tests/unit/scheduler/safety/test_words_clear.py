"""What the words of a rule say ends it, played: the act ends it, the same act a step weaker does not."""

from __future__ import annotations

import dataclasses
from collections.abc import Callable

import pytest

from bot.messages.findings import WORDS
from scheduler.facts import (
    CareTold,
    Corrected,
    Discarded,
    Fact,
    Reading,
    Slot,
    StepDone,
    TreatedTold,
    Treatment,
    Troubled,
)  # fmt: skip
from scheduler.safety import findings
from scheduler.safety.finding import FindingLevel
from scheduler.safety.register import REGISTER
from tests.unit.scheduler.logbook import CATALOGUE, Logbook, at, cooking, cut, planned, resting

DAY = 1440.0
Act = Callable[[Logbook], object]


@dataclasses.dataclass(frozen=True, kw_only=True)
class Row:
    """A rule, a log in which it stands at a minute, the act of its words, and a weaker one, looked at `later`."""

    rule: str
    log: Callable[[], Logbook]
    minute: float
    ends: Act
    weaker: Act
    later: float = 1.0


def _read(value_c: float, minutes: float, slot: Slot = Slot.CORE) -> Act:
    return lambda log: log.read(value_c, minutes, slot=slot)


def _last(log: Logbook, slot: Slot) -> Fact:
    return [f for f in log.facts if isinstance(f.body, Reading) and f.body.slot is slot][-1]


def _correct(value_c: float, slot: Slot = Slot.CORE) -> Act:
    """Return the correction of the last number of a slot."""
    return lambda log: log.tell(
        Corrected(of=_last(log, slot).id, body=Reading(slot=slot, value_c=value_c)),
        (log.facts[-1].recorded_at - at(0)).total_seconds() / 60,
    )


def _retime(step: str, minutes: float, *, told: float) -> Act:
    """Return the correction of when a step was done."""

    def act(log: Logbook) -> str:
        fact = next(f for f in log.facts if isinstance(f.body, StepDone) and f.body.step == step)
        return log.tell(Corrected(of=fact.id, body=fact.body, happened_at=at(minutes)), told)

    return act


def _done(step: str, minutes: float, outcome: str | None = None, *, told: float) -> Act:
    return lambda log: log.done(step, minutes, outcome, recorded=told)


def _out_raw() -> Logbook:
    log = Logbook()
    log.done("raw_out", 60)
    log.done("meat_on", 240)
    return log


def _warm_fridge() -> Logbook:
    log = Logbook()
    log.done("collect_meat", 10)
    log.read(8.0, 60, slot=Slot.FRIDGE)
    log.read(8.0, 200, slot=Slot.FRIDGE)
    return log


def _cold_all_the_time(log: Logbook) -> None:
    """Correct every warm reading of the fridge: with one of them right, nobody knows for how long it was warm."""
    for fact in log.facts:
        if isinstance(fact.body, Reading):
            log.tell(Corrected(of=fact.id, body=Reading(slot=Slot.FRIDGE, value_c=4.0)), 201)


def _dead(*, read: bool = False) -> Logbook:
    log = cooking()
    if read:
        log.read(70.0, 95)
    log.read(50.0, 100, slot=Slot.PIT)
    return log


def _injected() -> Logbook:
    log = cooking(planned(cut="pork_butt"))
    log.tell(TreatedTold(treatments=(Treatment.INJECTED,)), 60)
    log.read(50.0, 440)
    return log


def _pulled(core_c: float = 61.0) -> Logbook:
    log = cooking()
    log.read(core_c, 470)
    log.done("pull", 480)
    return log


def _served(core_c: float = 61.0) -> Logbook:
    log = _pulled(core_c)
    log.done("serve", 520)
    return log


def _differ() -> Logbook:
    log = cooking()
    log.read(64.0, 300)
    log.read(58.0, 304)
    return log


def _held(core_c: float, *, serve: bool = False) -> Logbook:
    log = resting()
    log.read(core_c, 560)
    if serve:
        log.done("serve", 570)
    return log


def _unread_when_served() -> Logbook:
    log = resting()
    log.done("serve", 780)
    return log


def _out() -> Logbook:
    log = resting()
    log.read(70.0, 500)
    log.done("serve", 510)
    return log


def _back_on_heat() -> Logbook:
    log = _out()
    log.done("two_hour", 600, "on_heat")
    return log


def _cooling(*reads: tuple[float, float]) -> Logbook:
    log = _out()
    log.tell(CareTold(public=True), 1)
    log.done("leftovers", 520)
    for value_c, minutes in reads:
        log.read(value_c, minutes, slot=Slot.LEFTOVERS)
    return log


def _reheating(core_c: float, minutes: float) -> Logbook:
    log = _out()
    log.done("leftovers", 520)
    log.done("reheat_on", 1500)
    log.read(core_c, minutes, slot=Slot.LEFTOVERS)
    return log


def _touched() -> Logbook:
    log = resting()
    log.tell(Troubled(problem="cross_contamination"), 490)
    return log


LEFT = Slot.LEFTOVERS
ROWS = (
    Row(rule="raw_left_out", log=_out_raw, minute=241, ends=_retime("raw_out", 121, told=242),
        weaker=_retime("raw_out", 119, told=242)),
    Row(rule="fridge_warm", log=_warm_fridge, minute=201, ends=_cold_all_the_time,
        weaker=_correct(4.5, Slot.FRIDGE)),
    Row(rule="pit_cold", log=lambda: _with(cooking(), _read(90.0, 100, Slot.PIT)), minute=101,
        ends=_read(107.0, 102, Slot.PIT), weaker=_read(106.0, 102, Slot.PIT)),
    Row(rule="pit_dead", log=_dead, minute=221, ends=_correct(60.0, Slot.PIT), weaker=_read(120.0, 222, Slot.PIT)),
    Row(rule="pit_dead", log=lambda: _dead(read=True), minute=300, ends=_read(70.0, 300), weaker=_read(70.1, 300)),
    Row(rule="pit_dead_unread", log=lambda: _dead(read=True), minute=104, ends=_read(60.0, 110, Slot.PIT),
        weaker=_read(59.0, 110, Slot.PIT), later=10),
    Row(rule="come_up_over", log=_injected, minute=441, ends=_correct(54.4), weaker=_read(90.0, 600), later=200),
    Row(rule="minimum_not_measured", log=_served, minute=521, ends=_read(62.8, 530), weaker=_read(62.7, 530),
        later=13),
    Row(rule="pulled_under_minimum", log=_pulled, minute=481, ends=_read(62.8, 482), weaker=_read(62.7, 482)),
    Row(rule="spots_differ", log=_differ, minute=305, ends=_read(58.5, 307), weaker=_read(61.0, 307), later=3),
    Row(rule="held_act_now", log=lambda: _held(61.0), minute=561, ends=_read(63.1, 575), weaker=_read(63.0, 575),
        later=15),
    Row(rule="held_under_floor", log=lambda: _held(58.0), minute=561, ends=_read(73.9, 575), weaker=_read(73.8, 575),
        later=15),
    Row(rule="served_under_floor", log=lambda: _held(58.0, serve=True), minute=571, ends=_read(73.9, 580),
        weaker=_read(73.8, 580), later=15),
    Row(rule="held_not_read", log=_unread_when_served, minute=781, ends=_read(60.0, 782),
        weaker=_done("bring_out", 782, told=782)),
    Row(rule="two_hours_out", log=_out, minute=631, ends=_done("leftovers", 630, told=632),
        weaker=_done("leftovers", 631, told=632)),
    Row(rule="two_hours_out", log=_back_on_heat, minute=720, ends=_read(60.0, 721), weaker=_read(59.9, 721)),
    Row(rule="cool_slow", log=lambda: _cooling((30.0, 640)), minute=641, ends=_correct(21.1, LEFT),
        weaker=_read(5.0, 642, LEFT)),
    Row(rule="cool_too_long", log=lambda: _cooling((20.0, 610), (12.0, 900)), minute=901, ends=_correct(5.0, LEFT),
        weaker=_read(5.0, 902, LEFT)),
    Row(rule="reheat_under", log=lambda: _reheating(60.0, 1520), minute=1521, ends=_read(73.9, 1540, LEFT),
        weaker=_read(73.8, 1540, LEFT), later=20),
    Row(rule="reheat_slow", log=lambda: _reheating(60.0, 1610), minute=1622, ends=_correct(73.9, LEFT),
        weaker=_read(80.0, 1622, LEFT)),
    Row(rule="leftovers_old", log=_cooling, minute=520 + 4 * DAY + 1,
        ends=_done("leftover_expire", 520 + 4 * DAY - 1, "eaten", told=520 + 4 * DAY + 2),
        weaker=_done("leftover_expire", 520 + 4 * DAY + 1, "frozen", told=520 + 4 * DAY + 2), later=2),
    Row(rule="raw_touched", log=_touched, minute=491, ends=_read(73.9, 505), weaker=_read(73.8, 505), later=15),
)  # fmt: skip
"""One row for each act that the words of a rule name."""

LEAVES_CAUTION = frozenset({"fridge_warm"})
"""A fridge that was read cold in place of warm was still warm for a time that nobody read."""

ONLY_THROWN = frozenset({"food_spoiled"})
"""Stops that nothing but throwing away, or taking the word back, ends."""


def _with(log: Logbook, act: Act) -> Logbook:
    act(log)
    return log


def _levels(log: Logbook, minutes: float) -> dict[str, FindingLevel]:
    own = cut(log.state.planned.cut)
    return {one.rule: one.level for one in findings(log.state, own, CATALOGUE.cuts, at(minutes))}


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row.rule)
def test_the_act_that_the_words_name_ends_it(row: Row) -> None:
    """It stands, the act is told, and it is over; what was a stop may leave a caution of what nobody read."""
    log = row.log()
    level = _levels(log, row.minute)[row.rule]
    row.ends(log)
    left = _levels(log, row.minute + row.later).get(row.rule)
    assert left is None or (level is FindingLevel.STOP and left is FindingLevel.CAUTION)
    assert left is None or row.rule in LEAVES_CAUTION


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row.rule)
def test_a_step_weaker_does_not(row: Row) -> None:
    """A tenth lower, a minute later, or another reading where only a correction counts: it stands as it was."""
    log = row.log()
    level = _levels(log, row.minute)[row.rule]
    row.weaker(log)
    assert _levels(log, row.minute + row.later).get(row.rule) is level


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row.rule)
def test_throwing_it_away_ends_every_stop(row: Row) -> None:
    """What nobody eats stops nobody."""
    log = row.log()
    log.tell(Discarded(), row.minute)
    own = cut(log.state.planned.cut)
    found = findings(log.state, own, CATALOGUE.cuts, at(row.minute + 1))
    assert not [one.rule for one in found if one.level is FindingLevel.STOP]


def test_every_stop_has_a_row() -> None:
    """A new stop is played here before it is told to anybody."""
    stops = {rule.id for rule in REGISTER if rule.worst is FindingLevel.STOP and rule.id in WORDS}
    assert stops - ONLY_THROWN == {row.rule for row in ROWS} & stops
