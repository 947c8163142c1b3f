"""Findings about the gate: spots that differ, meat that is not intact, time as it counts; and time that opens it."""

from __future__ import annotations

import math

import pytest

from scheduler.cook import GateOpened
from scheduler.errors import ImpossibleTemperature
from scheduler.facts import (
    CareTold,
    Corrected,
    Edition,
    EditionTold,
    Reading,
    SafeBy,
    SafeByTold,
    Slot,
    TreatedTold,
    Treatment,
)
from scheduler.safety import Finding, FindingLevel, NotByTime, SafeGate, findings, safe_gate, under_least
from tests.unit.scheduler.logbook import CATALOGUE, Logbook, at, cooking, cut, minutes_of, planned

GATE_RULES = {"spots_differ", "not_intact", "time_counts"}


def _roast(*treated: Treatment, name: str = "prime_rib", at_risk: bool | None = False, told: bool = True) -> Logbook:
    """Return a roast by whose cook's choice time counts; intact unless treated, or nothing told of it."""
    log = cooking(planned(cut=name))
    log.tell(SafeByTold(by=SafeBy.EQUIVALENCE), 61)
    if told:
        log.tell(TreatedTold(treatments=treated), 61)
    log.tell(CareTold(at_risk=at_risk), 61)
    return log


def _hold(log: Logbook, core_c: float, minutes: float, every: float = 5, spot: str | None = None) -> Logbook:
    """Read a level core every few minutes from 300 on."""
    for n in range(int(minutes / every) + 1):
        log.read(core_c, 300 + every * n, spot=spot)
    return log


def _gate(log: Logbook) -> SafeGate:
    own = cut(log.state.planned.cut)
    return safe_gate(log.state, own, CATALOGUE.cuts)


def _found(log: Logbook, minutes: float = 400) -> dict[str, Finding]:
    own = cut(log.state.planned.cut)
    found = findings(log.state, own, CATALOGUE.cuts, at(minutes))
    return {one.rule: one for one in found if one.rule in GATE_RULES}


def test_time_opens_the_gate_of_an_intact_roast_by_choice() -> None:
    """60 C read every five minutes for half an hour: open by time, after more than 12 minutes."""
    gate = _gate(_hold(_roast(), 60.0, 30))
    assert (gate.by, gate.share) == (SafeBy.EQUIVALENCE, 1.0)
    opened = minutes_of(gate.open_at)
    assert opened is not None
    assert 312 < opened < 330


def test_time_is_not_the_default() -> None:
    """The same readings without the choice, or with the minimum chosen again: shut."""
    log = _hold(_roast(), 60.0, 30)
    log.tell(SafeByTold(by=SafeBy.MINIMUM), 331)
    gate = _gate(log)
    assert (gate.open_at, gate.share, gate.by) == (None, None, SafeBy.MINIMUM)


@pytest.mark.parametrize(
    ("log", "why"),
    [
        (_roast(told=False), NotByTime.UNTOLD),
        (_roast(at_risk=True), NotByTime.AT_RISK),
        (_roast(at_risk=None), NotByTime.RISK_UNTOLD),
        (_roast(name="whole_chicken"), NotByTime.POULTRY),
        (_roast(name="sausages"), NotByTime.GROUND),
        (_roast(name="salmon_side"), NotByTime.FISH),
        *((_roast(one), NotByTime.TREATED) for one in Treatment),
    ],
    ids=lambda value: value.value if isinstance(value, NotByTime) else "",
)
def test_time_never_opens_anything_else(log: Logbook, why: NotByTime) -> None:
    """Not told of meat or guests, treated, a bird, sausages, fish, guests at risk: two hours at 61 C are nothing."""
    gate = _gate(_hold(log, 61.0, 120))
    assert (gate.open_at, gate.share, gate.not_by_time) == (None, None, why)


@pytest.mark.parametrize("name", ["prime_rib", "pork_loin", "leg_of_lamb"])
def test_beef_pork_and_lamb_may_go_by_time(name: str) -> None:
    """Whole cuts of the three kinds of meat that the tables are of."""
    assert _gate(_hold(_roast(name=name), 61.0, 60)).by is SafeBy.EQUIVALENCE
    assert _gate(_hold(_roast(name=name), 61.0, 60)).open_at is not None


def test_the_spot_with_least_time_counts() -> None:
    """Half an hour at 61 C in the one, at 57 C in the other: shut, and the share is that of the colder."""
    log = _hold(_hold(_roast(), 61.0, 30, spot="middle"), 57.0, 30, spot="bone side")
    gate = _gate(log)
    assert gate.open_at is None
    assert gate.share is not None
    assert 0 < gate.share < 0.6
    assert gate.slowest is not None
    assert gate.slowest.spot == "bone side"


def test_by_time_a_low_reading_without_a_name_stands_too() -> None:
    """50 without a name while the middle is held at 61 C: shut; from half an hour later on its time counts."""
    log = _hold(_roast(), 61.0, 30, spot="middle")
    log.read(50.0, 299)
    assert _gate(log).open_at is None
    gate = _gate(_hold(log, 61.0, 60, spot="middle"))
    assert gate.open_at is not None
    assert gate.open_at > at(329)


def test_the_minimum_opens_it_as_well() -> None:
    """63 C read once, and its rest: open, for nobody who chose time has to wait longer than without it."""
    log = _roast()
    log.read(63.0, 300)
    gate = _gate(log)
    assert (gate.open_at, gate.by) == (at(303), SafeBy.MINIMUM)


def test_the_edition_names_the_table() -> None:
    """The stricter one goes by 7 log, the Food Code by its roast table, which takes no longer."""
    strict = _gate(_hold(_roast(), 60.0, 60))
    by_code = _roast()
    by_code.tell(EditionTold(edition=Edition.FOOD_CODE), 61)
    code = _gate(_hold(by_code, 60.0, 60))
    assert strict.table is not None
    assert code.table is not None
    assert (strict.table.id, code.table.id) == ("fsis_meat_7_log", "food_code_roast")
    assert (strict.edition, code.edition) == (Edition.STRICTER, Edition.FOOD_CODE)
    assert strict.open_at is not None
    assert code.open_at is not None
    assert code.open_at <= strict.open_at


def test_of_two_readings_that_differ_the_lower_counts_for_time() -> None:
    """69 right after 58 would be all of it in a minute; while they differ 58 counts."""
    log = _roast()
    log.read(58.0, 300)
    log.read(69.0, 309)
    gate = _gate(log)
    assert gate.share is not None
    assert gate.share < 0.2
    assert gate.open_at is None


def test_time_that_counts_is_noted_so_much_of_so_much() -> None:
    """At 57 C the table asks for more than half an hour; what the readings are worth stands beside it."""
    log = _hold(_roast(), 57.2, 20)
    note = _found(log)["time_counts"]
    assert note.level is FindingLevel.NOTE
    assert note.limit_min == pytest.approx(37.0)
    assert note.found_min is not None
    assert 5 < note.found_min < 20
    assert (note.found_c, note.limit_c, note.edition) == (57.2, 62.8, Edition.STRICTER)


def test_time_is_noted_as_unmeasured_before_it_counts() -> None:
    """Nothing read, or too cold for the table: no minutes are named."""
    log = _roast()
    assert _found(log)["time_counts"].found_min is None
    log.read(45.0, 300)
    note = _found(log)["time_counts"]
    assert (note.found_min, note.limit_min, note.found_c) == (None, None, 45.0)


def test_the_note_ends_when_the_gate_opens_or_time_does_not_count() -> None:
    """Open, or somebody at risk after all: nothing about time any more."""
    assert "time_counts" not in _found(_hold(_roast(), 60.0, 60))
    assert "time_counts" not in _found(_hold(_roast(at_risk=True), 57.0, 20))


def test_off_the_fire_time_still_runs_while_it_is_hot_enough() -> None:
    """Pulled at 57.5 C by choice of time: no stop, the gate shut; at 54.3 C, or without the choice: a stop."""
    for chosen, held_c, stops in ((True, 57.5, False), (True, 54.3, True), (False, 57.5, True)):
        log = _roast() if chosen else cooking(planned(cut="prime_rib"))
        log.read(57.5, 300)
        log.done("pull", 302)
        log.read(held_c, 320)
        own = cut(log.state.planned.cut)
        rules = {one.rule for one in findings(log.state, own, CATALOGUE.cuts, at(321))}
        assert ("pulled_under_minimum" in rules) is stops
        assert _gate(log).open_at is None


def test_meat_that_is_not_intact_is_noted_with_its_minimum() -> None:
    """Injected or rolled: 68.3 C. Stuffed: 73.9 C. Intact, unknown, or a bird that needs it anyway: nothing."""
    for treatment, limit_c in ((Treatment.INJECTED, 68.3), (Treatment.ROLLED, 68.3), (Treatment.STUFFED, 73.9)):
        log = cooking(planned(cut="prime_rib"))
        log.tell(TreatedTold(treatments=(treatment,)), 61)
        note = _found(log)["not_intact"]
        assert (note.level, note.limit_c) == (FindingLevel.NOTE, limit_c)
    assert "not_intact" not in _found(_roast())
    assert "not_intact" not in _found(cooking())
    assert "not_intact" not in _found(_roast(Treatment.INJECTED, name="whole_chicken"))


def test_spots_that_differ_are_a_caution_until_a_third() -> None:
    """64 and 58: the lower stands, said with the minimum; a third at 63.5 opens the gate and ends it."""
    log = cooking()
    log.read(64.0, 300)
    log.read(58.0, 304)
    found = _found(log, 305)["spots_differ"]
    assert (found.level, found.found_c, found.limit_c) == (FindingLevel.CAUTION, 58.0, 62.8)
    assert found.since == at(304)
    assert _gate(log).open_at is None
    log.read(63.5, 307)
    assert "spots_differ" not in _found(log, 308)
    assert _gate(log).open_at == at(303)


@pytest.mark.parametrize(
    ("third_c", "minutes", "ends"),
    [(58.5, 307, True), (60.9, 307, True), (55.0, 307, True), (54.9, 307, False), (58.5, 335, False)],
)
def test_a_third_near_the_lower_ends_the_caution_and_never_opens_the_gate(
    third_c: float, minutes: float, ends: bool
) -> None:
    """64 and 58, then one within 3 C of 58 and half an hour: nothing is open any more, and 64 counts for nothing."""
    log = cooking()
    log.read(64.0, 300)
    log.read(58.0, 304)
    log.read(third_c, minutes)
    assert ("spots_differ" not in _found(log, minutes + 1)) is ends
    assert _gate(log).open_at is None


def test_a_high_reading_after_two_low_ones_is_a_question_again() -> None:
    """58, 58.5, and then 64: the last one is the odd one."""
    log = cooking()
    log.read(58.0, 300)
    log.read(58.5, 302)
    log.read(64.0, 304)
    assert "spots_differ" in _found(log, 305)


def test_readings_that_differ_on_one_side_of_the_minimum_say_nothing() -> None:
    """50 and 57 are both too cold, 70 and 80 both enough: nothing hangs on a third."""
    for low_c, high_c in ((50.0, 57.0), (70.0, 80.0)):
        log = cooking()
        log.read(high_c, 300)
        log.read(low_c, 304)
        assert "spots_differ" not in _found(log)


def test_a_doubted_low_reading_shuts_the_gate() -> None:
    """64 stood, 57 was doubted because of it: for safety the lower one counts, doubted or not."""
    log = cooking()
    log.read(64.0, 300)
    low = log.read(57.0, 303, doubtful=True)
    assert _gate(log).open_at is None
    assert "spots_differ" in _found(log)
    log.tell(Corrected(of=low, body=Reading(slot=Slot.CORE, value_c=64.7)), 305)
    assert _gate(log).open_at == at(303)


def test_held_meat_whose_readings_differ_around_the_floor_is_a_caution() -> None:
    """In the box 63 and 58 within five minutes: read it again, whatever was measured on the fire."""
    log = cooking()
    log.read(95.0, 400)
    log.done("pull", 405)
    log.read(63.0, 500)
    log.read(58.0, 505)
    found = _found(log, 506)["spots_differ"]
    assert (found.found_c, found.limit_c) == (58.0, 60.0)


@pytest.mark.parametrize("core_c", [math.nan, math.inf, -math.inf, -300.0])
def test_an_impossible_reading_is_an_error_not_a_gate(core_c: float) -> None:
    """What is no temperature never reaches a comparison."""
    log = cooking()
    log.read(core_c, 300)
    with pytest.raises(ImpossibleTemperature):
        _gate(log)


def test_a_core_hotter_than_wet_meat_can_be_counts_for_nothing() -> None:
    """145 in Celsius, or the pit's 121: no core. 100 C is one."""
    log = cooking()
    log.read(145.0, 300)
    assert _gate(log).lowest is None
    log.read(100.0, 320)
    assert _gate(log).open_at == at(323)


WISHES = [
    # cut, treatments (None: not told), wished °C, by time, at risk, least °C that it is under (None: may be planned)
    ("prime_rib", (), 54.4, True, False, None),
    ("prime_rib", (), 54.4, True, None, 62.8),
    ("prime_rib", (), 54.3, True, False, 54.4),
    ("prime_rib", (), 54.4, False, False, 62.8),
    ("prime_rib", (), 62.8, False, False, None),
    ("prime_rib", (), 62.7, False, False, 62.8),
    ("prime_rib", None, 57.0, True, False, 62.8),
    ("prime_rib", (), 57.0, True, True, 62.8),
    ("prime_rib", (Treatment.TENDERISED,), 57.0, True, False, 68.3),
    ("prime_rib", (Treatment.ROLLED,), 63.0, False, False, 68.3),
    ("pork_loin", (Treatment.INJECTED,), 63.0, True, False, 68.3),
    ("pork_loin", (Treatment.STUFFED,), 70.0, True, False, 73.9),
    ("whole_chicken", (), 72.0, True, False, 73.9),
    ("sausages", (), 69.0, True, False, 71.1),
    ("salmon_side", (), 52.0, True, False, 62.8),
]


@pytest.mark.parametrize(("name", "treated", "wished_c", "by_time", "at_risk", "under_c"), WISHES)
def test_what_may_not_be_planned_undercooked(
    name: str,
    treated: tuple[Treatment, ...] | None,
    wished_c: float,
    by_time: bool,
    at_risk: bool | None,
    under_c: float | None,
) -> None:
    """Whole cuts only by time, said to be intact and nobody at risk, from the lowest row on; nothing else ever."""
    found = under_least(
        cut(name),
        CATALOGUE.cuts,
        treated,
        wished_c,
        safe_by=SafeBy.EQUIVALENCE if by_time else SafeBy.MINIMUM,
        at_risk=at_risk,
    )
    assert (None if found is None else found.temp_c) == under_c


@pytest.mark.parametrize(("at_risk", "under_c"), [(False, None), (None, None), (True, 71.1)])
def test_a_wish_is_measured_by_the_stricter_edition_where_guests_are_at_risk(
    at_risk: bool | None, under_c: float | None
) -> None:
    """Sausages at 69 C pass by the Food Code that was chosen; not for guests at risk, whatever was chosen."""
    found = under_least(cut("sausages"), CATALOGUE.cuts, None, 69.0, Edition.FOOD_CODE, at_risk=at_risk)
    assert (None if found is None else found.temp_c) == under_c


def test_it_is_told_when_time_opens_the_gate() -> None:
    """The reading with which its time is over says so, once, and says that it was by time."""
    log = _roast()
    told = []
    for n in range(7):
        changes = log.taken(Reading(slot=Slot.CORE, value_c=61.0), minutes=300 + 5 * n, sure=True)
        told += [(n, event.gate.by) for event in changes.events if isinstance(event, GateOpened)]
    assert len(told) == 1
    assert told[0][1] is SafeBy.EQUIVALENCE


@pytest.mark.parametrize(
    ("treated", "core_c", "level"),
    [
        ((Treatment.ROLLED,), 62.7, FindingLevel.STOP),
        ((Treatment.ROLLED,), 62.8, FindingLevel.CAUTION),
        ((Treatment.ROLLED,), 68.2, FindingLevel.CAUTION),
        ((Treatment.ROLLED,), 68.3, None),
        ((Treatment.ROLLED, Treatment.INJECTED), 68.2, FindingLevel.STOP),
        ((Treatment.TENDERISED,), 68.2, FindingLevel.STOP),
    ],
)
def test_the_house_reading_of_rolled_meat_never_stops(
    treated: tuple[Treatment, ...], core_c: float, level: FindingLevel | None
) -> None:
    """Under the whole cut's 145 F a stop, up to 155 F a caution: pulled, and served. The gate stays shut either way."""
    log = _roast(*treated)
    log.read(core_c, 300)
    log.done("pull", 310)
    for minutes, rule in ((315, "pulled_under_minimum"), (330, "minimum_not_measured")):
        if minutes == 330:
            log.done("serve", 329)
        found = {f.rule: f.level for f in findings(log.state, cut("prime_rib"), CATALOGUE.cuts, at(minutes))}
        assert found.get(rule) is level
    assert _gate(log).is_open(at(340)) is (level is None)
