"""Watches on the night of the cook: which instants they are, the hours without a name, and the clock that changes."""

from __future__ import annotations

import datetime as dt

import pytest

from scheduler.facts import Planned, Serving, ServingKind, Watch, WatchesTold
from scheduler.planning.watching import Turn, alone, placed, wakes_whom
from tests.unit.scheduler.logbook import Logbook, at

BERLIN = "Europe/Berlin"
EVENING = at(14 * 60).replace(tzinfo=None)
"""Eight in the evening before dinner, wall time."""


def _night(zone: str = "Etc/UTC", day: dt.date = dt.date(2026, 9, 13), begun: float = 600) -> Logbook:
    """Return a brisket for 17:00 of a day, planned the evening before, with its fire over the night."""
    dinner = Serving(kind=ServingKind.AT, zone=zone, start=dt.datetime.combine(day, dt.time(17)))
    plan = Planned(cut="brisket_packer", serving=dinner, pit_low_c=121.0, pit_high_c=121.0, mass_kg=6.0)
    return Logbook(plan, planned_at=begun)


def _clock(hour: int, minute: int = 0) -> dt.time:
    return dt.time(hour, minute)


def _placed(log: Logbook, *turns: Turn) -> list[str]:
    found = placed(log.state, log.situation.outlook, turns)
    return [f"{one.name} {one.start:%d %H:%M} {one.end:%d %H:%M}" for one in found]


def test_watches_lie_on_the_night_of_the_cook() -> None:
    """Two times of the clock are the evening before dinner and the morning of it, in the order they were said."""
    log = _night()
    told = _placed(
        log,
        Turn(name="Tomas", start=_clock(22), end=_clock(3)),
        Turn(name="Wren", start=_clock(3), end=_clock(7)),
    )
    assert told == ["Tomas 12 22:00 13 03:00", "Wren 13 03:00 13 07:00"]


def test_a_watch_without_a_beginning_follows_and_one_without_an_end_lasts_the_night() -> None:
    """Ines until 2, then Tomas: she begins with the quiet hours, he goes on to their end."""
    log = _night()
    assert _placed(log, Turn(name="Ines", end=_clock(2)), Turn(name="Tomas")) == [
        "Ines 12 22:00 13 02:00",
        "Tomas 13 02:00 13 07:00",
    ]
    assert _placed(log, Turn(name="Ines"), Turn(name="Tomas", start=_clock(2))) == [
        "Ines 12 22:00 13 02:00",
        "Tomas 13 02:00 13 07:00",
    ]


def test_a_watch_of_the_early_morning_is_that_of_the_fire() -> None:
    """A single watch from three to seven lies on the morning of dinner, not on the one gone by."""
    assert _placed(_night(), Turn(name="Wren", start=_clock(3), end=_clock(7))) == ["Wren 13 03:00 13 07:00"]


def test_hours_that_nobody_has_are_named_while_the_fire_burns() -> None:
    """The whole night without watches, its end with a gap, nothing with none; and nothing once the meat is off."""
    log = _night()
    log.done("light", 700)
    log.done("meat_on", 760)
    free = alone(log.state, log.situation.outlook)
    assert free[0] == (at(16 * 60), at(25 * 60))
    watch = Watch(name="Tomas", start=EVENING, end=EVENING + dt.timedelta(hours=8))
    log.tell(WatchesTold(watches=(watch,)), 770)
    assert alone(log.state, log.situation.outlook) == ((at(22 * 60), at(25 * 60)),)
    log.tell(WatchesTold(watches=(watch, Watch(name="Wren", start=watch.end, end=watch.end.replace(hour=8)))), 780)
    assert alone(log.state, log.situation.outlook) == ()
    log.tell(WatchesTold(), 790)
    log.done("pull", 1300)
    assert alone(log.state, log.situation.outlook) == ()


def test_who_wants_no_quiet_hours_still_needs_somebody_at_night() -> None:
    """Equal quiet times wake anybody at any time, but the night is the usual one for the fire."""
    log = _night()
    log.done("light", 700)
    log.done("meat_on", 760)
    log.tell(WatchesTold(quiet=(_clock(0), _clock(0))), 770)
    assert alone(log.state, log.situation.outlook)[0] == (at(16 * 60), at(25 * 60))


def test_a_handover_of_minutes_is_no_gap() -> None:
    """Five minutes between two watches are not told as hours without a name."""
    log = _night()
    log.done("light", 700)
    log.done("meat_on", 760)
    first = Watch(name="Tomas", start=EVENING, end=EVENING + dt.timedelta(hours=6.9))
    second = Watch(name="Wren", start=EVENING + dt.timedelta(hours=7), end=EVENING + dt.timedelta(hours=13))
    log.tell(WatchesTold(watches=(first, second)), 770)
    assert alone(log.state, log.situation.outlook) == ()


@pytest.mark.parametrize(
    ("day", "hours"),
    [(dt.date(2026, 10, 25), 10), (dt.date(2027, 3, 28), 8), (dt.date(2026, 10, 18), 9)],
    ids=["back", "forward", "none"],
)
def test_a_night_in_which_the_clock_changes(day: dt.date, hours: int) -> None:
    """From 22:00 to 07:00 of the clock are ten hours when it goes back, eight when it goes forward: nobody is missed.

    The watches touch at three and cover the night whole.
    """
    begun = (dt.datetime.combine(day, dt.time(14), dt.UTC) - dt.timedelta(days=1) - at(0)) / dt.timedelta(minutes=1)
    log = _night(BERLIN, day, begun)
    log.done("light", begun + 10)
    log.done("meat_on", begun + 70)
    free = alone(log.state, log.situation.outlook)
    assert free[0][1] - free[0][0] == dt.timedelta(hours=hours)
    turns = (Turn(name="Tomas", start=_clock(22), end=_clock(3)), Turn(name="Wren", start=_clock(3), end=_clock(7)))
    log.tell(WatchesTold(watches=placed(log.state, log.situation.outlook, turns)), begun + 80)
    assert alone(log.state, log.situation.outlook) == ()


def test_the_prompts_of_the_night_name_whom_they_wake() -> None:
    """What wakes somebody in the quiet hours falls to the watch on duty; what waits for the morning is not named."""
    log = _night()
    log.done("light", 880)
    log.done("meat_on", 940)
    turns = (Turn(name="Tomas", start=_clock(22), end=_clock(3)), Turn(name="Wren", start=_clock(3), end=_clock(7)))
    log.tell(WatchesTold(watches=placed(log.state, log.situation.outlook, turns)), 950)
    found = wakes_whom(log.state, log.situation.itinerary())
    assert found
    assert all(16 * 60 <= (instant - at(0)) / dt.timedelta(minutes=1) < 25 * 60 for instant, _step, _who in found)
    of_the_watch = {who for _at, step, who in found if step.owner == "watch"}
    assert of_the_watch <= {"Tomas", "Wren"}
