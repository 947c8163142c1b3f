"""The night of a cook: quiet hours and watches, whom a prompt wakes, what waits, rides along or stays silent."""

from __future__ import annotations

import dataclasses
import datetime as dt

import pytest

from scheduler.cook import assess
from scheduler.facts import Detail, Reading, Slot, StepDone, Watch, WatchesTold, Wrap, Wrapped
from scheduler.planning.nights import changes, is_quiet, on_duty, quiet_end, quiet_hours
from scheduler.planning.prompts import Prompt
from tests.unit.scheduler.logbook import CATALOGUE, Logbook, at, dinner, planned, steps_of

NIGHT = 16 * 60
"""Ten in the evening of these tests, which begin at six in the morning."""


def _wall(minutes: float) -> dt.datetime:
    return at(minutes).replace(tzinfo=None)


def _watches(*parts: tuple[str, float, float], quiet: tuple[dt.time, dt.time] | None = None) -> WatchesTold:
    return WatchesTold(
        watches=tuple(Watch(name=name, start=_wall(start), end=_wall(end)) for name, start, end in parts), quiet=quiet
    )


def _overnight(*, lit: float = NIGHT - 90, detail: Detail = Detail.USUAL, told: WatchesTold | None = None) -> Logbook:
    """Return a pork butt that is on the fire since an hour after lighting, for dinner at 18:00 the next day."""
    log = Logbook(planned(cut="pork_butt", serving=dinner(36 * 60), pit_low_c=121.0, pit_high_c=121.0, detail=detail))
    if told is not None:
        log.tell(told, 5)
    log.done("light", lit)
    log.done("meat_on", lit + 60)
    return log


def _prompt(log: Logbook, step: str) -> Prompt:
    found = log.prompt(step)
    assert found is not None
    return found


# --- hours and watches ----------------------------------------------------------------------


@pytest.mark.parametrize(("clock", "quiet"), [("21:59", False), ("22:00", True), ("06:59", True), ("07:00", False)])
def test_the_usual_quiet_hours_are_ten_to_seven(clock: str, quiet: bool) -> None:
    """On the cook's own clock, unless somebody told others."""
    hour, minute = map(int, clock.split(":"))
    instant = dt.datetime(2026, 9, 13, hour, minute, tzinfo=dt.UTC)
    assert is_quiet(Logbook().state, instant) is quiet


def test_quiet_hours_are_those_of_the_zone_of_the_cook() -> None:
    """At three in the afternoon of UTC it is midnight in Tokyo."""
    log = Logbook(planned(serving=dataclasses.replace(dinner(780), zone="Asia/Tokyo")))
    assert is_quiet(log.state, dt.datetime(2026, 9, 13, 15, 0, tzinfo=dt.UTC))
    assert quiet_end(log.state, dt.datetime(2026, 9, 13, 15, 0, tzinfo=dt.UTC)) == dt.datetime(
        2026, 9, 13, 22, 0, tzinfo=dt.UTC
    )


def test_quiet_hours_that_were_told_count() -> None:
    """Eleven to six, or none when both ends are the same."""
    log = Logbook()
    log.tell(_watches(quiet=(dt.time(23), dt.time(6))), 5)
    assert quiet_hours(log.state) == (dt.time(23), dt.time(6))
    assert not is_quiet(log.state, at(NIGHT + 30))
    log.tell(_watches(quiet=(dt.time(8), dt.time(8))), 6)
    assert not is_quiet(log.state, at(NIGHT + 120))


def test_the_watch_on_duty_and_its_changes() -> None:
    """Who is on from when to when, and who hands over to whom."""
    log = Logbook()
    log.tell(_watches(("Tomas", NIGHT + 240, NIGHT + 540), ("Wren", NIGHT, NIGHT + 240)), 5)
    assert [on_duty(log.state, at(NIGHT + m)) for m in (-1, 0, 239, 240, 540)] == [None, "Wren", "Wren", "Tomas", None]
    assert changes(log.state) == ((at(NIGHT + 240), "Wren", "Tomas"),)


# --- whom it wakes ----------------------------------------------------------------------


def test_by_day_a_prompt_wakes_nobody_in_particular() -> None:
    """Names are for the night: by day a message goes to all as usual."""
    log = _overnight(lit=0)
    assert {p.wakes for p in log.situation.prompts if p.wake_at is not None and p.wake_at < at(NIGHT)} == {()}


def test_at_night_the_pit_is_the_watch_s_and_the_wrap_the_lead_s() -> None:
    """Wren is on; the bark is the decision of Ines, who leads; nothing of it is silent."""
    log = _overnight(told=_watches(("Wren", NIGHT, NIGHT + 540)))
    assert (_prompt(log, "pit_check").wakes, _prompt(log, "pit_check").silent) == (("Wren",), False)
    bark = _prompt(log, "bark_check")
    assert is_quiet(log.state, bark.due_at)
    assert bark.wakes == ("Ines",)


def test_without_a_watch_it_is_the_lead_s() -> None:
    """Somebody is awake while it burns: whoever leads, when nobody else was named."""
    assert _prompt(_overnight(), "pit_check").wakes == ("Ines",)


def test_who_does_not_answer_is_followed_by_the_next_name() -> None:
    """First the owner, then whoever is on duty as well, then everybody."""
    log = _overnight(told=_watches(("Wren", NIGHT, NIGHT + 540)))
    log.tell(Reading(slot=Slot.PIT, value_c=121.0), NIGHT, by="Tomas")
    due = log.due("bark_check")
    assert due is not None
    log.ring(due)
    again = log.wakes("bark_check")
    assert again is not None
    assert _prompt(log, "bark_check").wakes == ("Ines", "Wren")
    log.ring(again)
    waiting = log.prompt("bark_check")
    assert waiting is None or waiting.wakes in {(), ("Ines", "Wren", "Tomas")}


# --- what waits, rides along, stays silent ----------------------------------------------------------------------


def test_a_night_rule_never_touches_a_step_of_safety() -> None:
    """In the night, whatever its rule: at its own time, aloud, and to a name."""
    for lit in range(NIGHT - 120, NIGHT + 480, 40):
        log = _overnight(lit=lit)
        for prompt in log.situation.prompts:
            if prompt.step.safety and prompt.wake_at is not None and is_quiet(log.state, prompt.wake_at):
                assert not prompt.silent, prompt.key
                assert prompt.wake_at == prompt.due_at, prompt.key
                assert prompt.wakes, prompt.key


def test_at_night_a_spritz_waits_for_somebody_who_goes_there_anyway() -> None:
    """It starts no message; it joins the next walk, and is given up for the night when its time has gone."""
    log = _overnight(detail=Detail.EVERY)
    spritz = _prompt(log, "spritz")
    assert (spritz.silent, spritz.wake_at, spritz.wakes) == (True, None, ())
    due = (spritz.due_at - at(0)) / dt.timedelta(minutes=1)
    assert "spritz" in steps_of(log.trip(due))


def test_a_silent_one_that_nobody_came_by_for_is_given_up_for_the_night() -> None:
    """Not as missed by the program: nobody was away."""
    log = _overnight(detail=Detail.EVERY)
    spritz = _prompt(log, "spritz")
    changes_of = log.ring((spritz.late_until - at(0)) / dt.timedelta(minutes=1) + 1)
    reasons = dict(log.state.withdrawn)
    assert reasons.get(spritz.key) == "night" or spritz.key in log.state.asked
    assert changes_of is not None


def test_notes_for_next_time_wait_for_the_morning() -> None:
    """Served at eleven at night: the three questions come at seven."""
    log = Logbook(planned(serving=dinner(NIGHT + 60), detail=Detail.EVERY))
    log.done("meat_on", 300)
    log.done("pull", 700)
    log.done("serve", NIGHT + 60)
    log.tell(planned(serving=dinner(NIGHT + 60), detail=Detail.EVERY), NIGHT + 61)
    prompt = _prompt(log, "quick_notes")
    assert prompt.wake_at == at(25 * 60)
    assert _prompt(log, "two_hour").due_at == at(NIGHT + 150)


def test_somebody_who_just_told_something_is_awake() -> None:
    """Planned at eleven at night: what is due is asked at once, not in the morning."""
    log = Logbook(planned(serving=dinner(42 * 60), pit_low_c=135.0, pit_high_c=135.0), planned_at=NIGHT + 60)
    due = [p for p in log.situation.prompts if p.due_at <= at(NIGHT + 60)]
    assert all(p.wake_at is not None and p.wake_at <= at(NIGHT + 60) for p in due)


def test_the_fuel_is_looked_at_before_the_night() -> None:
    """What would fall into the quiet hours comes a quarter of an hour before them."""
    log = _overnight(lit=NIGHT - 240)
    assert log.due("fuel_check") == NIGHT - 15 - 15 or log.due("fuel_check") == NIGHT - 15


def test_at_night_a_steady_pit_is_read_every_ninety_minutes() -> None:
    """By day every hour; off its band every half hour at night, too."""
    log = _overnight()
    log.ring(NIGHT + 30)
    log.taken(Reading(slot=Slot.PIT, value_c=121.0), minutes=NIGHT + 35)
    assert log.due("pit_check") == NIGHT + 35 + 90
    log.taken(Reading(slot=Slot.PIT, value_c=140.0), minutes=NIGHT + 125)
    assert log.due("pit_check") == NIGHT + 125 + 30


def test_a_handover_comes_ten_minutes_before_each_change() -> None:
    """One for each change of the watch while the fire burns, to those two by name."""
    told = _watches(
        ("Wren", NIGHT, NIGHT + 180), ("Tomas", NIGHT + 180, NIGHT + 360), ("Ines", NIGHT + 360, NIGHT + 540)
    )
    log = _overnight(told=told)
    first = _prompt(log, "handover")
    assert (log.due("handover"), first.wakes[0]) == (NIGHT + 170, "Tomas")
    log.taken(StepDone(step="handover"), minutes=NIGHT + 178, by="Tomas")
    assert log.due("handover") == NIGHT + 350
    log.taken(StepDone(step="handover"), minutes=NIGHT + 355, by="Ines")
    assert log.prompt("handover") is None


def test_getting_up_is_asked_only_of_those_who_sleep() -> None:
    """Lit at four in the morning: yes. Lit at noon, or by somebody who wrote an hour ago: no."""
    early = Logbook(planned(serving=dinner(33 * 60)))
    light = early.due("light")
    assert light is not None
    assert early.due("wake") == light - 25
    assert Logbook().prompt("wake") is None
    late = Logbook(planned(serving=dinner(33 * 60)), planned_at=light - 60)
    assert late.prompt("wake") is None


# --- the budget of a night ----------------------------------------------------------------------


def _night_of(log: Logbook, *, until: float) -> list[tuple[float, tuple[str, ...], tuple[str, ...]]]:
    """Play the night with a steady pit, everything answered after five minutes by who is woken; return (when, steps,
    woken).
    """
    heard: list[tuple[float, tuple[str, ...], tuple[str, ...]]] = []
    now: float = NIGHT
    while True:
        coming = log.situation.coming
        if coming is None:
            return heard
        now = max(now, (coming[0] - at(0)) / dt.timedelta(minutes=1))
        if now >= until:
            return heard
        trip = log.trip(now)
        if trip is None:
            continue
        heard.append((now, steps_of(trip), trip.wakes))
        core_c = min(80.0, 22 + 0.12 * (now - NIGHT + 30))
        for prompt in trip.prompts:
            step, slots, by = prompt.step.id, prompt.step.slots, next(iter(prompt.wakes), "Ines")
            for slot in slots:
                log.say(
                    Reading(slot=slot, value_c=121.0 if slot is Slot.PIT else core_c), minutes=now + 5, by=by, sure=True
                )
            if step == "bark_check":
                log.say(Wrapped(wrap=Wrap.PAPER), minutes=now + 5, by=by)
            elif not slots:
                log.say(StepDone(step=step, outcome={"fuel_check": "plenty"}.get(step)), minutes=now + 5, by=by)


def test_a_good_night_is_a_quiet_one() -> None:
    """Nine hours with a steady pit: about one message to the watch in an hour, and the lead is left to sleep."""
    told = _watches(("Wren", NIGHT, NIGHT + 270), ("Tomas", NIGHT + 270, NIGHT + 540))
    log = _overnight(told=told)
    log.taken(Reading(slot=Slot.PIT, value_c=121.0), minutes=NIGHT - 5)
    heard = _night_of(log, until=NIGHT + 540)
    assert 4 <= len(heard) <= 9, heard
    to_the_lead = [entry for entry in heard if "Ines" in entry[2]]
    assert len(to_the_lead) <= 2, to_the_lead


def test_a_wrap_that_is_planned_bare_wakes_nobody() -> None:
    """Bare by plan: nobody is woken for a look at the bark."""
    log = Logbook(planned(cut="pork_butt", serving=dinner(36 * 60), pit_low_c=121, pit_high_c=121, wrap=Wrap.NONE))
    log.done("light", NIGHT - 90)
    log.done("meat_on", NIGHT - 30)
    assert log.prompt("bark_check") is None


def test_a_bell_in_between_does_not_pull_a_look_of_the_night_out_of_its_walk() -> None:
    """The schedule follows from the log: looked at a little later, what waits for the next walk still waits for it."""
    log = _overnight()
    log.taken(Reading(slot=Slot.PIT, value_c=121.0), minutes=NIGHT + 3)
    planned_at = {p.key: p.wake_at for p in log.situation.prompts if p.wake_at is not None}
    waits = {p.key for p in log.situation.prompts if p.late_from is not None and p.due_at > p.late_from}
    first = min(at for key, at in planned_at.items() if key in waits)
    for minutes in range(5, int((first - log.state.as_of) / dt.timedelta(minutes=1)), 5):
        between = assess(tuple(log.facts), CATALOGUE, log.state.as_of + dt.timedelta(minutes=minutes)).prompts
        assert {p.key: p.wake_at for p in between if p.key in waits} == {key: planned_at[key] for key in waits}
