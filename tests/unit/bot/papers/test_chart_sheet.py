"""What stands on a chart, as values."""

from __future__ import annotations

import datetime as dt

import pytest

from bot.papers.chart_values import Deed, Tone
from scheduler.facts import Discarded, PieceAdded, Reading, Slot
from tests.unit.bot.papers.charts import brisket, chart, one_read, renamed, ribs
from tests.unit.bot.papers.records import tell
from tests.unit.scheduler.logbook import WHEN_READY, Logbook, at, dinner, planned


def test_the_title_is_the_sentence_about_dinner() -> None:
    """Whether dinner is on time, and by how much, stands first, in the words of the chat."""
    made = chart(ribs(335), 340)
    assert made.title.startswith("Dinner 19:00: ")
    assert made.notes[0].startswith("Next: ")


def test_dinner_is_the_right_edge_while_it_is_on_time() -> None:
    """Nothing lies after dinner, so that it is the edge, and the axis counts down to it."""
    made = chart(ribs(335), 340)
    assert made.end_at == made.dinner_at == at(780)
    assert made.ticks[-1].hours == "0"
    assert made.ticks[-1].at == at(780)
    assert made.axis == "hours before dinner"
    assert not made.runs_on


def test_the_axis_counts_whole_hours_before_dinner_with_the_time_of_day() -> None:
    """Each tick says how many hours before dinner it is, and when that is."""
    made = chart(ribs(335), 340)
    for tick in made.ticks[:-1]:
        count = int(tick.hours.removesuffix(" h"))
        assert tick.at == at(780) - dt.timedelta(hours=count)
        assert tick.clock == f"{tick.at:%H:%M}"


def test_a_late_dinner_has_room_after_it() -> None:
    """What comes after dinner is drawn after it, of what is only foretold at most six hours."""
    made = chart(brisket(600, hours_to_dinner=9), 610)
    assert made.tone is Tone.BAD
    assert made.runs_on
    assert at(600) == made.dinner_at < made.end_at <= made.dinner_at + dt.timedelta(hours=6)
    assert any(tick.hours.startswith("+") for tick in made.ticks)


def test_every_reading_is_a_dot_with_who_made_it() -> None:
    """All readings of the core are there, in order, each with its person and value."""
    made = chart(ribs(425), 430)
    (piece,) = made.pieces
    found = [(dot.at, dot.value_c, made.people[dot.person or 0].name) for dot in piece.readings]
    assert found == [
        (at(150), 45.0, "Ines"),
        (at(210), 62.0, "Tomas"),
        (at(270), 70.0, "Wren"),
        (at(330), 78.0, "Tomas"),
        (at(420), 90.0, "Ines"),
    ]


def test_a_doubted_reading_is_kept_and_marked() -> None:
    """A reading that a second spot was asked for is drawn as doubted."""
    log = ribs(275)
    log.tell(Reading(slot=Slot.CORE, value_c=99.0, doubtful=True), 280, by="Tomas")
    made = chart(log, 285)
    assert [dot.doubtful for dot in made.pieces[0].readings] == [False, False, False, True]
    assert "doubtful" in dict(made.legend)


def test_the_window_is_that_of_the_plan() -> None:
    """The shape on the dinner line is the window in which the meat will be ready, and its words say the same."""
    log = ribs(335)
    made = chart(log, 340)
    window = made.pieces[0].window
    assert window == log.situation.outlook.pull
    assert made.pieces[0].off.startswith("off the fire ")


def test_a_pulled_piece_has_no_window_any_more() -> None:
    """Once it came off, when it did stands there."""
    (piece,) = chart(ribs(500), 520).pieces
    assert piece.window is None
    assert piece.pulled_at == at(490)
    assert piece.off == "off the fire at 14:10"


def test_the_chart_of_the_end_shows_what_had_been_forecast() -> None:
    """The fan and the window are those of meat on, and beside them is what came of it."""
    log = ribs()
    made = chart(log, 790)
    then = Logbook.__new__(Logbook)
    then.facts = ribs(60).facts
    assert made.over
    assert made.now_at is None
    assert made.pieces[0].window == then.situation.outlook.pull
    assert made.notes[0].startswith("Caution: not measured since it left the fire")
    assert made.notes[1].startswith("Forecast at meat on: off ")
    assert made.notes[1].endswith("It came off at 14:10.")
    assert made.title == "Dinner was served at 19:02: on time."
    assert made.tone is Tone.UNSURE


@pytest.mark.parametrize(
    ("served", "words", "tone"),
    [(785, "on time", Tone.UNSURE), (840, "1 h late", Tone.BAD), (720, "1 h early", Tone.UNSURE)],
)
def test_the_end_says_whether_dinner_was_on_time(served: float, words: str, tone: Tone) -> None:
    """A served dinner is on time, early or late by so much; held and never read, it has no green tick."""
    log = ribs(500)
    log.done("serve", served)
    made = chart(log, served + 5)
    assert words in made.title
    assert made.tone is tone


def test_a_stop_stands_in_the_head_in_words() -> None:
    """Food that was out too long: the title says not to eat it, the note why, and there is no word of being on time."""
    log = ribs(500)
    log.done("serve", 785)
    made = chart(log, 785 + 150)
    assert "Stop: do not eat it, throw it away." in made.title
    assert "on time" not in made.title
    assert made.tone is Tone.BAD
    assert made.notes[0].startswith("Stop: ")
    assert chart(log, 790).title == "Dinner was served at 19:05: on time."


def test_a_stall_is_a_stretch_of_time_at_its_core() -> None:
    """A stall of six hours that readings show begins where they do, and lies at about their temperature."""
    made = chart(brisket(700), 705)
    stall = made.pieces[0].stall
    assert stall is not None
    assert at(300) <= stall.start <= at(420)
    assert stall.end > at(660)
    assert 60 < stall.core_c < 75


def test_wrap_meat_on_and_pull_are_events() -> None:
    """What was done to the meat is there with its time; a wrap says which."""
    events = chart(ribs(500), 520).pieces[0].events
    assert [(event.at, event.deed, event.word) for event in events] == [
        (at(60), Deed.MEAT_ON, ""),
        (at(300), Deed.WRAP, "paper"),
        (at(490), Deed.PULL, ""),
    ]


def test_the_pit_has_its_band_readings_and_open_lids() -> None:
    """The pit as wanted up to when the meat comes off, what was read, and when the cooker was opened."""
    pit = chart(ribs(500), 520).pit
    assert [(band.low_c, band.high_c) for band in pit.bands] == [(135.0, 135.0)]
    assert pit.bands[-1].end == at(490)
    assert [dot.value_c for dot in pit.readings] == [133.0] * 5
    assert pit.openings == (at(180),)
    assert pit.words == "Pit 135 C"


def test_units_are_those_of_the_chat() -> None:
    """Every temperature on the chart is in the unit of the room."""
    for unit, other in (("C", " F"), ("F", " C")):
        made = chart(ribs(425), 430, unit=unit)
        (piece,) = made.pieces
        texts = [piece.newest, piece.target.words, piece.newest_words, made.pit.words, made.pit.newest]
        texts += [level.words for level in (*piece.levels, *made.pit.levels)]
        assert all(f" {unit}" in text and other not in text for text in texts)


def test_before_meat_is_on_the_plan_is_drawn() -> None:
    """Without a reading the chart shows the forecast of the plan, from meat on as planned."""
    log = Logbook(planned())
    made = chart(log, 10)
    assert made.pieces[0].readings == ()
    assert made.pieces[0].newest == "no reading yet"
    assert made.pieces[0].fan[0].at == log.situation.outlook.on_at
    assert made.people == ()


def test_without_a_time_of_dinner_the_plate_is_the_edge() -> None:
    """Dinner when ready: the axis counts down to the likely plate."""
    log = Logbook(planned(serving=WHEN_READY))
    log.done("light", 0)
    log.done("meat_on", 60)
    made = chart(log, 70)
    assert made.tone is Tone.PLAIN
    assert made.axis == "hours before the plate"
    assert made.dinner.startswith("Plate about ")


def test_pieces_have_a_panel_each_and_share_the_pit() -> None:
    """Up to five pieces are drawn, the one that decides about dinner whole; more are named."""
    log = Logbook(planned())
    for number, cut in enumerate(("whole_chicken", "spareribs_stl", "pork_butt", "salmon_side", "chuck_roast"), 2):
        tell(log, PieceAdded(cut=cut), 1, piece=f"p{number}")
    made = chart(log, 5)
    deciding = log.situation.view(log.situation.deciding.focus)
    assert len(made.pieces) == 5
    whole = [piece.name.lower() for piece in made.pieces if piece.whole]
    assert len(whole) == 2
    assert deciding.name.lower() in whole
    assert made.notes[-1].startswith("Not drawn: ")


def test_people_are_told_apart_by_their_letters() -> None:
    """Two people with one initial have a second letter, and nobody shares letters with anybody."""
    log = renamed(ribs(425), "Ida", "Ines", "Tomas")
    signs = [person.sign for person in chart(log, 430).people]
    assert signs == ["Id", "In", "T"]


@pytest.mark.parametrize(
    ("names", "signs"),
    [
        (("Wren", "wendy", "W"), ["Wr", "We", "W"]),
        (("شيماء", "Tomas", "Ines"), ["ش", "T", "I"]),
        (("中文", "🔥", "Ines"), ["1", "2", "I"]),
        (("A", "A1", "a"), ["A", "A1", "3"]),
    ],
)
def test_any_name_has_letters_of_its_own(names: tuple[str, ...], signs: list[str]) -> None:
    """Letters of any script that the font has; a number where it has none, or where no letter is left."""
    assert [person.sign for person in chart(renamed(ribs(425), *names), 430).people] == signs


def test_a_reading_of_nobody_is_a_dot_without_letters() -> None:
    """A reading whose author is not known is drawn all the same."""
    log = ribs(275)
    log.tell(Reading(slot=Slot.CORE, value_c=71.0), 280, by=None)
    assert chart(log, 285).pieces[0].readings[-1].person is None


def test_meat_that_was_thrown_away_has_no_forecast() -> None:
    """Nothing is foretold of it, and its words say so."""
    log = ribs(335)
    log.tell(Discarded(), 340)
    (piece,) = chart(log, 345).pieces
    assert piece.fan == ()
    assert piece.window is None
    assert piece.off == "thrown away"


def test_a_dinner_of_a_short_cook_is_marked_in_minutes() -> None:
    """A fish of an hour is counted in parts of an hour."""
    log = Logbook(planned(cut="salmon_side", serving=dinner(200)))
    log.done("light", 60)
    log.done("meat_on", 120)
    one_read(log, 140, 30.0, by="Ines")
    made = chart(log, 142)
    assert made.axis == "time before dinner"
    assert any(tick.hours.endswith(" min") for tick in made.ticks)


def test_each_wave_has_its_own_dinner_line() -> None:
    """A piece that is wanted earlier than the last has its own time, in words and on its line."""
    log = ribs(335)
    tell(log, PieceAdded(cut="whole_chicken", serving=dinner(600)), 1, piece="p2")
    made = chart(log, 340)
    chicken = next(piece for piece in made.pieces if piece.name == "Whole chicken")
    assert made.dinner_at == at(780)
    assert chicken.dinner_at == at(600)
    assert chicken.off.endswith(", for 16:00")
