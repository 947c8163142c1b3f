"""A fire that was told to be out has a clock; a low reading that is only doubted counts on the unsafe side."""

from __future__ import annotations

from scheduler.facts import Corrected, MovedToOven, Reading, Slot, TreatedTold, Treatment, Troubled
from scheduler.safety import Finding, FindingLevel, findings, next_look, serving
from tests.unit.scheduler.logbook import CATALOGUE, Logbook, at, cooking, cut, minutes_of, planned


def _found(log: Logbook, minutes: float, name: str = "beef_chuck_ribs") -> dict[str, Finding]:
    return {f.rule: f for f in findings(log.state, cut(name), CATALOGUE.cuts, at(minutes))}


def _look(log: Logbook, name: str = "beef_chuck_ribs") -> float | None:
    return minutes_of(next_look(log.state, cut(name), CATALOGUE.cuts))


def _treated(treatment: Treatment) -> Logbook:
    log = cooking(planned(cut="pork_butt"))
    log.tell(TreatedTold(treatments=(treatment,)), 60)
    return log


# --- the fire told to be out ------------------------------------------------------------------------------------------


def _out(minutes: float = 100, *, recorded: float | None = None) -> Logbook:
    """Return a cook whose fire was told to be out, the meat unread."""
    log = cooking()
    log.tell(Troubled(problem="fire_out"), minutes, recorded=recorded)
    return log


def test_a_fire_that_is_out_begins_the_clock() -> None:
    """Nobody reads the pit for two hours: unknown, by the bell; read under 60 C it is a stop since it went out."""
    log = _out()
    assert _look(log) == 220
    assert not _found(log, 219)
    unknown = _found(log, 220)["pit_unread"]
    assert (unknown.level, unknown.found_c, unknown.since) == (FindingLevel.CAUTION, None, at(100))
    log.read(50.0, 230, slot=Slot.PIT)
    stop = _found(log, 231)["pit_dead"]
    assert (stop.level, stop.found_c, stop.since, stop.found_min) == (FindingLevel.STOP, 50.0, at(100), 131.0)
    assert "pit_unread" not in _found(log, 231)


def test_it_counts_from_when_the_fire_went_out_not_from_when_it_was_told() -> None:
    """Out since 100, told at 300, read at 40 C then: over at once."""
    log = _out(100, recorded=300)
    log.read(40.0, 301, slot=Slot.PIT)
    assert _found(log, 302)["pit_dead"].since == at(100)


def test_burning_again_ends_it_with_a_hot_pit_only() -> None:
    """Told to burn at 150: it goes on until the pit is read at 60 C; read so in time, nothing stands."""
    log = _out()
    log.tell(Troubled(problem="fire_out", over=True), 150)
    assert "pit_unread" in _found(log, 220)
    log.read(110.0, 200, slot=Slot.PIT)
    assert not set(_found(log, 500)) & {"pit_unread", "pit_dead"}
    late = _out()
    late.tell(Troubled(problem="fire_out", over=True), 150)
    late.read(120.0, 240, slot=Slot.PIT)
    late.read(75.0, 400)
    late.done("pull", 410)
    assert "pit_unread" in _found(late, 500), "nobody knows, and nothing later tells it"
    assert serving(late.state, cut(), CATALOGUE.cuts, at(415)).why == "cannot_say"
    late.tell(Reading(slot=Slot.PIT, value_c=90.0), 180, recorded=501)
    assert "pit_unread" not in _found(late, 502)


def test_a_pit_still_hot_without_a_fire_begins_the_clock_anew() -> None:
    """Read at 80 C an hour after the fire went out, then 55 C: two hours count from the last hot reading."""
    log = _out()
    log.read(80.0, 160, slot=Slot.PIT)
    log.read(55.0, 220, slot=Slot.PIT)
    assert "pit_dead" not in _found(log, 279)
    assert _found(log, 280)["pit_dead"].since == at(160)


def test_a_pit_that_rises_burns_again() -> None:
    """70 C, then 90 C, nobody says that it burns: it does."""
    log = _out()
    log.read(70.0, 130, slot=Slot.PIT)
    assert "pit_unread" in _found(log, 250)
    log.read(90.0, 150, slot=Slot.PIT)
    assert not set(_found(log, 600)) & {"pit_unread", "pit_dead"}


def test_a_fire_out_beside_a_warm_core_or_an_oven_or_before_the_meat() -> None:
    """A core at 75 C, meat in a hot oven, a fire that burned again before the meat went on: no clock yet."""
    warm = cooking()
    warm.read(75.0, 95)
    warm.tell(Troubled(problem="fire_out"), 100)
    warm.read(74.0, 200)
    warm.read(73.0, 300)
    assert not set(_found(warm, 301)) & {"pit_unread", "pit_dead"}
    oven = cooking()
    oven.tell(MovedToOven(oven_c=150.0), 90)
    oven.tell(Troubled(problem="fire_out"), 100)
    assert not set(_found(oven, 500)) & {"pit_unread", "pit_dead"}
    before = Logbook()
    before.tell(Troubled(problem="fire_out"), 10)
    before.tell(Troubled(problem="fire_out", over=True), 20)
    before.done("meat_on", 60)
    assert "pit_unread" not in _found(before, 500)


# --- doubted ----------------------------------------------------------------------------------------------------------


def test_a_doubted_low_reading_counts_on_the_unsafe_side() -> None:
    """43 C kept aside seven hours after meat on, then 75 C: too long, until it is corrected, or two others of that
    moment are hotter. Read hot in time, a doubted number says nothing.
    """
    log = _treated(Treatment.INJECTED)
    low = log.read(43.0, 480, doubtful=True)
    log.read(75.0, 560)
    assert _found(log, 561, "pork_butt")["come_up_over"].level is FindingLevel.STOP
    log.tell(Corrected(of=low, body=Reading(slot=Slot.CORE, value_c=75.0)), 562)
    assert "come_up_over" not in _found(log, 563, "pork_butt")
    settled = _treated(Treatment.INJECTED)
    settled.read(43.0, 480, doubtful=True)
    settled.read(75.0, 484)
    assert "come_up_over" in _found(settled, 485, "pork_butt")
    settled.read(76.0, 488)
    assert "come_up_over" not in _found(settled, 489, "pork_butt")
    assert "come_up_unknown" in _found(settled, 489, "pork_butt")
    known = _treated(Treatment.INJECTED)
    known.read(56.0, 400)
    known.read(43.0, 480, doubtful=True)
    assert "come_up_over" not in _found(known, 481, "pork_butt")


def test_a_doubted_low_core_is_cold_in_a_dead_pit() -> None:
    """Read at 70 C, then 40 C kept aside with the pit at 50 C: two hours count from there."""
    log = cooking()
    log.read(90.0, 90)
    log.read(50.0, 100, slot=Slot.PIT)
    log.read(40.0, 102, doubtful=True)
    assert _found(log, 222)["pit_dead"].since == at(102)
