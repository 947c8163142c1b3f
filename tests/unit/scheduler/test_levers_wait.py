"""Levers that wait for whoever decides: until when, what may be done then, and when it matters no more."""

from __future__ import annotations

import datetime as dt

import pytest

from scheduler.cook import LeverSilent, NoLonger
from scheduler.facts import CrewRole, CrewTold, LeverAsked, LeverTaken, StepDone
from scheduler.planning.advice.deciding import deciders, default_allowed, lever_asked, may_decide, safe_default
from scheduler.planning.advice.moment import moment
from scheduler.planning.remedies import Lever
from tests.unit.scheduler.logbook import CATALOGUE, Logbook, at, cooking, minutes_of


def _lever(name: str) -> Lever:
    return next(lever for lever in CATALOGUE.remedies.levers if lever.id == name)


def _crew() -> Logbook:
    """Return chuck ribs on the fire with Ines who leads, Tomas on watch, and Bashir who is the host."""
    log = cooking()
    log.tell(CrewTold(name="Tomas", role=CrewRole.WATCH), 61)
    log.tell(CrewTold(name="Bashir", role=CrewRole.HOST), 61)
    return log


def _asked(log: Logbook, lever: str, by: str, minutes: float) -> LeverAsked | None:
    seen = log.situation
    return lever_asked(_lever(lever), by, moment(seen.state, seen.cut, seen.outlook, at(minutes)))


@pytest.mark.parametrize(
    ("lever", "who"),
    [
        ("late_move_dinner", ("Bashir", "Ines")),
        ("late_wrap_foil", ("Ines",)),
        ("late_pit_up_14", ("Tomas", "Ines")),
    ],
)
def test_who_decides_about_a_lever(lever: str, who: tuple[str, ...]) -> None:
    """Dinner is the host's, the wrap the lead's, a small move of the pit the watch's; who leads may decide all."""
    log = _crew()
    assert deciders(_lever(lever), log.state, at(120)) == who
    assert [may_decide(_lever(lever), name, log.state, at(120)) for name in ("Ines", "Wren")] == [True, False]


def test_who_may_decide_is_not_asked() -> None:
    """Tomas may move the pit a little; for the wrap Ines is asked."""
    log = _crew()
    assert _asked(log, "late_pit_up_14", "Tomas", 200) is None
    asked = _asked(log, "late_wrap_foil", "Tomas", 200)
    assert asked is not None
    assert (asked.decider, asked.default) == ("Ines", "keep_pit")


def test_it_waits_until_it_stops_paying_five_to_twenty_minutes() -> None:
    """Twenty minutes early in the cook; never less than five."""
    log = _crew()
    waits = [
        asked.until - at(minutes)
        for minutes in range(70, 600, 30)
        if (asked := _asked(log, "late_pit_up_28", "Tomas", minutes)) is not None
    ]
    assert waits[0] == dt.timedelta(minutes=20)
    assert all(dt.timedelta(minutes=5) <= wait <= dt.timedelta(minutes=20) for wait in waits)


def test_the_safe_default_is_to_wrap_only_where_the_bark_is_set() -> None:
    """Else the pit is kept; what is off the fire is held."""
    log = _crew()
    assert safe_default(log.state, wraps=True) == "keep_pit"
    log.tell(StepDone(step="bark_check", outcome="set"), 300)
    assert safe_default(log.state, wraps=True) == "wrap"
    assert safe_default(log.state, wraps=False) == "keep_pit"
    log.tell(StepDone(step="pull"), 500)
    assert safe_default(log.state, wraps=True) == "hold"


def test_when_nobody_decides_the_watch_may_do_the_safe_default_and_is_told_once() -> None:
    """At the stated end, not before; who leads may still decide after it."""
    log = _crew()
    asked = LeverAsked(lever="late_wrap_foil", decider="Ines", default="keep_pit", until=at(220))
    log.taken(asked, minutes=200, by="Tomas")
    assert minutes_of(log.situation.crew_look_at()) == 220
    waiting = log.state.levers_asked["late_wrap_foil"]
    assert [default_allowed(waiting, "Tomas", log.state, at(m)) for m in (219, 220)] == [False, True]
    assert not default_allowed(waiting, "Bashir", log.state, at(220))
    told = [e for m in (219, 220, 221, 230) for e in log.ring(m).events if isinstance(e, LeverSilent)]
    assert [(e.wait.lever, e.wait.default, e.watch) for e in told] == [("late_wrap_foil", "keep_pit", "Tomas")]
    assert log.situation.crew_look_at() is None
    log.taken(LeverTaken(lever="late_wrap_foil"), minutes=240)
    assert log.state.levers_asked == {}


def test_it_matters_no_more_when_the_meat_is_off() -> None:
    """Both who asked and who was asked are told; nothing is told of it at its end."""
    log = _crew()
    log.taken(
        LeverAsked(lever="late_wrap_foil", decider="Ines", default="wrap", until=at(520)), minutes=500, by="Tomas"
    )
    pulled = log.taken(StepDone(step="pull"), minutes=505)
    ended = [e for e in pulled.events if isinstance(e, NoLonger)]
    assert [(e.what, e.about, e.reason, e.names) for e in ended] == [
        ("lever", "late_wrap_foil", "pulled", ("Tomas", "Ines"))
    ]
    assert not [e for e in log.ring(520).events if isinstance(e, LeverSilent)]
