"""The safety gate: measured at the lowest spot, or not open."""

from __future__ import annotations

import pytest

from scheduler.cook import GateOpened
from scheduler.facts import Corrected, Reading, Slot, Undone
from scheduler.safety import SafeGate, safe_gate
from scheduler.units import c_from_f
from tests.unit.scheduler.logbook import CATALOGUE, Logbook, at, cooking, cut


def _gate(log: Logbook) -> SafeGate:
    return safe_gate(log.state, cut(), CATALOGUE.cuts)


def _read(*values_c: float, spread_c: float = 0.0) -> SafeGate:
    log = cooking()
    for n, value_c in enumerate(values_c):
        log.read(value_c, 300 + 10 * n, spread_c=spread_c)
    return _gate(log)


@pytest.mark.parametrize(
    ("value_c", "opens"),
    [(62.7, False), (62.74, False), (62.78, True), (62.8, True), (c_from_f(145), True), (c_from_f(144.8), False)],
)
def test_145_f_opens_and_nothing_less(value_c: float, opens: bool) -> None:
    """145 F is 62.78 C: 62.7 is too little, 62.8 is enough, and so is 145 F typed in Fahrenheit."""
    assert (_read(value_c).open_at is not None) is opens


def test_a_missing_reading_is_not_safe() -> None:
    """Nothing measured, or only the pit: the gate is shut, whatever the forecast says, however long it cooks."""
    log = cooking()
    log.read(135.0, 600, slot=Slot.PIT)
    gate = _gate(log)
    assert (gate.lowest, gate.open_at) == (None, None)
    assert not gate.is_open(at(100_000))


def test_it_opens_three_minutes_after_the_reading() -> None:
    """The rest that belongs to the class."""
    gate = _read(63.0)
    assert gate.open_at == at(303)
    assert [gate.is_open(at(minutes)) for minutes in (300, 302.9, 303)] == [False, False, True]


@pytest.mark.parametrize(("value_c", "spread_c", "opens"), [(64.0, 1.5, False), (64.3, 1.5, True)])
def test_of_a_range_the_low_edge_counts(value_c: float, spread_c: float, opens: bool) -> None:
    """About 64, give or take 1.5, may be 62.5: shut."""
    assert (_read(value_c, spread_c=spread_c).open_at is not None) is opens


def test_the_lowest_of_several_spots_counts() -> None:
    """Flat 70 and point 60: shut at 60; the point at 63 opens it from then."""
    log = cooking()
    log.read(70.0, 300, spot="flat")
    log.read(60.0, 302, spot="Point")
    gate = _gate(log)
    assert gate.lowest is not None
    assert (gate.lowest.value_c, gate.open_at) == (60.0, None)
    log.read(63.0, 340, spot="point")
    assert _gate(log).open_at == at(343)


def test_the_spot_is_the_same_however_it_is_written() -> None:
    """Point and point are one spot."""
    log = cooking()
    log.read(60.0, 300, spot="Point")
    log.read(64.0, 320, spot="point")
    assert _gate(log).open_at == at(323)


def test_a_later_low_reading_of_another_spot_shuts_it_again() -> None:
    """Open by one spot, shut by the next one read."""
    log = cooking()
    log.read(70.0, 300)
    assert _gate(log).open_at is not None
    log.read(58.0, 310, spot="bone side")
    assert _gate(log).open_at is None


def test_a_reading_without_a_name_from_long_before_is_of_meat_that_has_heated() -> None:
    """40 early on without a name, then flat 70 and point 66: open, the meat was on for long since; point 60: shut."""
    for point_c, opens in ((66.0, True), (60.0, False)):
        log = cooking()
        log.read(40.0, 200)
        log.read(70.0, 300, spot="flat")
        log.read(point_c, 302, spot="point")
        assert (_gate(log).open_at is not None) is opens


@pytest.mark.parametrize("doubtful", [False, True])
@pytest.mark.parametrize(("low_at", "opens"), [(269, True), (270, False), (285, False), (320, False)])
def test_a_low_reading_without_a_name_stands_beside_a_named_one(low_at: float, opens: bool, doubtful: bool) -> None:
    """Point 75 at 300: 52 without a name may be of a colder spot unless the meat was on for half an hour since."""
    log = cooking()
    log.read(75.0, 300, spot="point")
    log.read(52.0, low_at, doubtful=doubtful)
    gate = _gate(log)
    assert (gate.open_at is not None) is opens
    assert gate.lowest is not None
    assert gate.lowest.value_c == (75.0 if opens else 52.0)


def test_named_spots_confirm_only_themselves() -> None:
    """52 without a name, then point 75 and point 76: 52 may be of the flat still."""
    log = cooking()
    for minutes, value_c, spot in ((285, 52.0, None), (300, 75.0, "point"), (302, 76.0, "point")):
        log.read(value_c, minutes, spot=spot)
    assert _gate(log).open_at is None


@pytest.mark.parametrize(("minutes", "spot"), [(312, None), (316, "point")])
def test_one_more_reading_clears_a_low_one_without_a_name(minutes: float, spot: str | None) -> None:
    """One without a name that passes, or every named spot after more than half an hour on the heat."""
    log = cooking()
    log.read(52.0, 285)
    log.read(75.0, 300, spot="point")
    assert _gate(log).open_at is None
    log.read(76.0, minutes, spot=spot)
    assert _gate(log).open_at == at(minutes + 3)


def test_off_the_heat_time_clears_no_low_reading() -> None:
    """52 without a name, pulled ten minutes later, point 75 after an hour: it has not been on the heat since."""
    log = cooking()
    log.read(52.0, 290)
    log.done("pull", 300)
    log.read(75.0, 360, spot="point")
    assert _gate(log).open_at is None
    log.read(64.0, 362)
    assert _gate(log).open_at is not None


@pytest.mark.parametrize(("value_c", "opens"), [(58.0, True), (52.0, False)])
def test_meat_that_may_only_have_cooled_shuts_nothing(value_c: float, opens: bool) -> None:
    """Point 75 as it is pulled; twelve minutes later 58 may be the cooled flat, 52 was never at the minimum."""
    log = cooking()
    log.read(75.0, 300, spot="point")
    log.done("pull", 300)
    log.read(value_c, 312)
    assert (_gate(log).open_at is not None) is opens


def test_a_spot_of_which_only_a_doubted_low_reading_is_known_shuts_it() -> None:
    """Flat 70; of the point 55 was doubted and never read again: shut at 55. A doubted high one says nothing of it."""
    for doubted_c, opens in ((55.0, False), (66.0, True)):
        log = cooking()
        log.read(70.0, 300, spot="flat")
        log.read(doubted_c, 302, spot="point", doubtful=True)
        assert (_gate(log).open_at is not None) is opens


def test_what_was_reached_stays_reached() -> None:
    """Meat that cools while it rests has had its minimum: the hottest reading of a spot counts."""
    log = cooking()
    log.read(63.0, 300)
    log.read(50.0, 345)
    assert _gate(log).open_at == at(303)


@pytest.mark.parametrize("minutes", [30, 59])
def test_a_reading_from_before_the_meat_was_on_does_not_count(minutes: float) -> None:
    """A probe tested in hot water opens nothing."""
    log = Logbook()
    log.read(95.0, minutes)
    log.done("meat_on", 60)
    assert _gate(log).lowest is None


def test_a_doubtful_reading_opens_nothing() -> None:
    """While a second spot is asked for, the first one does not count."""
    log = cooking()
    log.read(95.0, 300, doubtful=True)
    assert _gate(log).open_at is None


def test_a_correction_shuts_it_again() -> None:
    """Typed 165, meant 156 in Celsius terms: what is now below the minimum never opened it; undo neither."""
    log = cooking()
    read = log.read(74.0, 300)
    assert _gate(log).open_at is not None
    log.tell(Corrected(of=read, body=Reading(slot=Slot.CORE, value_c=58.0)), 301)
    assert _gate(log).open_at is None
    log = cooking()
    log.tell(Undone(of=log.read(74.0, 300)), 301)
    assert _gate(log).lowest is None


def test_a_correction_to_the_pit_takes_it_out_of_the_meat() -> None:
    """It was the pit's number: the meat has none."""
    log = cooking()
    read = log.read(110.0, 300)
    log.tell(Corrected(of=read, body=Reading(slot=Slot.PIT, value_c=110.0)), 301)
    assert _gate(log).lowest is None


def test_it_is_told_when_it_opens() -> None:
    """The reading that reaches the minimum says so, once."""
    log = cooking()
    told = []
    for minutes, value_c in ((300, 60.0), (310, 63.0), (320, 64.0)):
        changes = log.taken(Reading(slot=Slot.CORE, value_c=value_c), minutes=minutes)
        told.append((minutes, sum(isinstance(event, GateOpened) for event in changes.events)))
    assert told == [(300, 0), (310, 1), (320, 0)]


@pytest.mark.parametrize("name", [one.id for one in CATALOGUE.cuts.cuts])
def test_every_cut_has_its_minimum(name: str) -> None:
    """The gate holds the minimum and the rest of the cut's class: intact meat 62.8 C and three minutes, and so on.

    Of fish the Food Code asks for 15 seconds at 145 F and the chart for none: the stricter one counts.
    """
    gate = safe_gate(cooking().state, cut(name), CATALOGUE.cuts)
    minimum = {"poultry": (73.9, 0), "ground": (71.1, 0), "fish": (62.8, 0.25)}.get(cut(name).safety_class, (62.8, 3))
    assert (gate.minimum_c, gate.rest_min) == minimum
