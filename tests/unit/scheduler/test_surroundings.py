"""What the forecast hears of the lid, of the air, and of how cold the meat was."""

from __future__ import annotations

import datetime as dt

import pytest

from scheduler.facts import AirTold
from scheduler.forecast import Air, AirWord, Opening, Question, Wind
from scheduler.planning.outlook import cooking_span, question_of
from tests.unit.scheduler.logbook import Logbook, at, cooking, cut, minutes_of


def _question(log: Logbook) -> Question:
    return question_of(log.state, cut(), log.situation.outlook.on_at)


def _openings(log: Logbook) -> list[tuple[float | None, Opening]]:
    return [(minutes_of(event.at), event.kind) for event in _question(log).openings]


def test_what_opens_the_cooker_is_told_to_the_forecast() -> None:
    """A look, wood, a spritz and charcoal, each with its reason; what needs no open lid is none."""
    log = cooking()
    for step, minutes in (
        ("first_look", 180),
        ("spritz", 240),
        ("wood_add", 300),
        ("refuel", 330),
        ("bark_check", 400),
    ):
        log.done(step, minutes)
    log.done("fuel_check", 320, "plenty")
    log.done("raw_cleanup", 70)
    assert _openings(log) == [
        (180, Opening.LID), (240, Opening.SPRITZ), (300, Opening.LID), (330, Opening.REFUEL), (400, Opening.LID),
    ]  # fmt: skip


def test_one_walk_is_one_open_lid() -> None:
    """Spritzed and wood in at once: one opening, by what does most; the same thing told twice is one, too."""
    log = cooking()
    log.done("wood_add", 240)
    log.done("spritz", 242)
    log.done("spritz", 244)
    assert _openings(log) == [(242, Opening.SPRITZ)]


def test_only_openings_with_the_meat_on_the_fire_count() -> None:
    """Charcoal added before the meat went on, or after the pull, did not touch it."""
    log = cooking()
    log.done("refuel", 30)
    log.done("refuel", 300)
    log.done("pull", 480)
    log.done("refuel", 500)
    assert _openings(log) == [(300, Opening.REFUEL)]


def test_an_open_lid_makes_it_later() -> None:
    """Six looks under the lid cost time, as long as no reading has shown what they cost."""
    shut, opened = cooking(), cooking()
    for number in range(6):
        opened.done("first_look", 150 + 30 * number)
    likely = [minutes_of(log.situation.outlook.forecast.ready().quantile(0.5)) for log in (shut, opened)]
    assert likely[0] is not None
    assert likely[1] is not None
    assert likely[1] > likely[0]


def test_nobody_who_told_leaves_the_air_unknown() -> None:
    """House rule: unknown stays None."""
    assert _question(cooking()).air == Air(temp=None, wind=None)


def test_warmth_and_wind_are_told_each_by_itself() -> None:
    """A later word replaces only what it is about; a number replaces a word."""
    log = cooking()
    log.tell(AirTold(word="cold", wind="windy"), 10)
    assert _question(log).air == Air(temp=AirWord.COLD, wind=Wind.WINDY)
    log.tell(AirTold(wind="calm"), 20)
    assert _question(log).air == Air(temp=AirWord.COLD, wind=Wind.CALM)
    log.tell(AirTold(temp_c=12.0), 30)
    assert _question(log).air == Air(temp=12.0, wind=Wind.CALM)


def test_cold_air_makes_a_plan_longer() -> None:
    """The plan before anything is lit counts on the air as well."""
    mild, cold = Logbook(), Logbook()
    cold.tell(AirTold(temp_c=-10.0), 0)
    assert cooking_span(cut(), cold.state, 0.5) > cooking_span(cut(), mild.state, 0.5)


@pytest.mark.parametrize(
    ("minutes", "value_c", "doubtful", "start_c"),
    [
        (50, 4.0, False, 4.0),
        (60, 7.0, False, 7.0),
        (-10, 4.0, False, None),
        (50, 4.0, True, None),
        (60, 55.0, False, None),
        (61, 8.0, False, None),
    ],
    ids=["before", "at meat on", "too long before", "doubtful", "warm already", "after"],
)
def test_a_core_read_as_it_went_on_is_where_it_starts(
    minutes: float, value_c: float, doubtful: bool, start_c: float | None
) -> None:
    """Read at or up to an hour before meat on, undoubted and raw: the start; else it is a reading or nothing."""
    log = Logbook(planned_at=-30)
    log.done("light", 0)
    log.read(value_c, minutes, doubtful=doubtful)
    log.done("meat_on", 60)
    question = _question(log)
    assert question.start_c == start_c
    as_reading = minutes >= 60 and start_c is None and not doubtful
    assert [reading.value_c for reading in question.readings] == ([value_c] if as_reading else [])


def test_readings_of_the_fire_are_no_start() -> None:
    """Of several readings before meat on the last one counts, and those after it stay readings."""
    log = Logbook()
    log.read(9.0, 20)
    log.read(3.0, 40)
    log.done("meat_on", 60)
    log.read(20.0, 100)
    question = _question(log)
    assert question.start_c == 3.0
    assert [(r.at, r.value_c) for r in question.readings] == [(at(60) + dt.timedelta(minutes=40), 20.0)]
