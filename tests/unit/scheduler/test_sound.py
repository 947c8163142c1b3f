"""The sound check: tested on the eve, named when not wakeable, with the times for an ordinary alarm clock."""

from __future__ import annotations

import pytest

from scheduler.cook import Changes, ChecksDue, NotWakeable, ring
from scheduler.facts import Closed, SoundHeard, SoundSent, StepDone
from scheduler.planning.sound import checks_due, needed, not_wakeable
from tests.unit.scheduler.logbook import CATALOGUE, Logbook, at, dinner, minutes_of, planned
from tests.unit.scheduler.test_crew_facts import NIGHT, night_of

EVE = NIGHT - 120
"""Eight in the evening."""


def _planned(*parts: tuple[str, float, float], told: float = 5) -> Logbook:
    """Return a pork butt planned in the morning for six the next day, with these watches told."""
    log = Logbook(planned(cut="pork_butt", serving=dinner(36 * 60), pit_low_c=121.0, pit_high_c=121.0))
    log.tell(night_of(*parts), told)
    return log


def _ring(log: Logbook, minutes: float, *reachable: str) -> Changes:
    changes = ring(log.facts, now=at(minutes), seed=f"s{minutes}", catalogue=CATALOGUE, reachable=frozenset(reachable))
    log.facts = (*log.facts, *changes.facts)
    return changes


def _due(log: Logbook, minutes: float) -> tuple[str, ...]:
    return checks_due(log.state, log.situation.night_courses(), at(minutes))


WREN_THEN_TOMAS = (("Wren", 0.0, 240.0), ("Tomas", 240.0, 540.0))


def test_everybody_with_a_watch_and_who_leads_is_tested_on_the_eve() -> None:
    """At eight in the evening, two hours before the quiet hours; not before, and each once."""
    log = _planned(*WREN_THEN_TOMAS)
    assert set(needed(log.state, log.situation.night_courses())) == {"Ines", "Tomas", "Wren"}
    assert minutes_of(log.situation.next_check_at()) == EVE
    assert (_due(log, EVE - 1), _due(log, EVE)) == ((), ("Ines", "Tomas", "Wren"))
    sent = _ring(log, EVE, "Ines", "Wren", "Tomas")
    assert [e.names for e in sent.events if isinstance(e, ChecksDue)] == [("Ines", "Tomas", "Wren")]
    assert log.situation.next_check_at() is None
    assert not [e for e in _ring(log, EVE + 1, "Ines", "Wren", "Tomas").events if isinstance(e, ChecksDue)]


def test_planned_later_it_comes_at_once_but_nobody_is_tested_in_the_night() -> None:
    """Watches told at nine in the evening: now; told at eleven, nobody is woken for a test."""
    late = _planned(*WREN_THEN_TOMAS, told=NIGHT - 60)
    assert _due(late, NIGHT - 60) == ("Ines", "Tomas", "Wren")
    night = _planned(*WREN_THEN_TOMAS, told=NIGHT + 60)
    assert (_due(night, NIGHT + 60), night.situation.next_check_at()) == ((), None)


def test_without_watches_nobody_is_tested() -> None:
    """A cook alone knows the own telephone; and nothing is sent unless it is said who has a private chat."""
    assert _due(_planned(), EVE) == ()
    log = _planned(*WREN_THEN_TOMAS)
    log.ring(EVE)
    assert log.state.sound == {}


def test_who_does_not_answer_is_not_wakeable_after_a_quarter_of_an_hour() -> None:
    """Told once, with the times for an alarm clock: a quarter of an hour before the watch."""
    log = _planned(*WREN_THEN_TOMAS)
    _ring(log, EVE, "Ines", "Wren", "Tomas")
    for name in ("Ines", "Wren"):
        log.taken(SoundHeard(name=name), minutes=EVE + 3, by=name)
    assert minutes_of(log.situation.crew_look_at()) == EVE + 15
    assert not_wakeable(log.state, at(EVE + 14)) == ()
    found = [e for e in _ring(log, EVE + 15, "Ines", "Wren", "Tomas").events if isinstance(e, NotWakeable)]
    assert [(e.name, e.private) for e in found] == [("Tomas", True)]
    assert at(NIGHT + 225) in found[0].alarms
    assert log.situation.not_wakeable(at(EVE + 15)) == ("Tomas",)
    assert (log.situation.crew_look_at(), _ring(log, EVE + 30, "Tomas").events) == (None, ())


def test_without_a_private_chat_it_is_known_at_once() -> None:
    """There is nothing to wait for; answering later, from a private chat, makes it good."""
    log = _planned(*WREN_THEN_TOMAS)
    sent = _ring(log, EVE, "Ines", "Wren")
    assert [e.without for e in sent.events if isinstance(e, ChecksDue)] == [("Tomas",)]
    assert [(e.name, e.private) for e in sent.events if isinstance(e, NotWakeable)] == [("Tomas", False)]
    log.taken(SoundHeard(name="Tomas"), minutes=EVE + 200, by="Tomas")
    assert not_wakeable(log.state, at(EVE + 201)) == ("Ines", "Wren")


@pytest.mark.parametrize("how", ["called_off", "pulled"])
def test_a_test_matters_no_more_when_the_cook_is_over_or_the_meat_off(how: str) -> None:
    """Nobody is named as not wakeable then."""
    log = _planned(*WREN_THEN_TOMAS)
    log.done("light", 300)
    log.done("meat_on", 360)
    _ring(log, EVE, "Ines", "Wren", "Tomas")
    if how == "called_off":
        log.taken(Closed(reason=how), minutes=EVE + 5)
    else:
        log.taken(StepDone(step="pull"), minutes=EVE + 5)
    told = [e for e in _ring(log, EVE + 16, "Ines").events if isinstance(e, NotWakeable)]
    assert (told, log.situation.crew_look_at()) == ([], None)


def test_alarms_of_a_watch_and_of_what_wakes_the_lead() -> None:
    """Ines has no watch: her alarm rings half an hour before the bark is expected; Wren's before the watch."""
    log = _planned(("Wren", 0, 540))
    log.done("light", NIGHT - 90)
    log.done("meat_on", NIGHT - 30)
    bark = log.due("bark_check")
    assert bark is not None
    alarms = [minutes_of(when) for when in log.situation.alarm_times("Ines")]
    assert any(when is not None and bark - 61 <= when <= bark - 30 for when in alarms)
    assert [minutes_of(when) for when in log.situation.alarm_times("Wren")] == [NIGHT - 15]


def test_who_answered_today_is_not_tested_again() -> None:
    """One test a night, and an answer unasked counts as one."""
    log = _planned(*WREN_THEN_TOMAS)
    log.tell(SoundHeard(name="Wren"), EVE - 60, by="Wren")
    log.tell(SoundSent(name="Ines"), EVE - 60, by=None)
    assert _due(log, EVE) == ("Tomas",)
