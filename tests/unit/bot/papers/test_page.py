"""The printed page: one A5 page whatever happens, every safety limit on it, times first."""

from __future__ import annotations

import dataclasses
import datetime as dt
from typing import Any

import pytest

from bot.papers import page
from bot.papers.letters import fonts, printable
from bot.papers.page import HEIGHT, MARGIN, SIZES, laid_out
from bot.papers.rows import MUST
from bot.papers.times import Times
from tests.unit.bot.papers.papers import (
    A_LONG_NAME,
    EVENING,
    SIX,
    night_cook,
    pieces_of,
    read_page,
    sheet,
    text_of,
)
from tests.unit.scheduler.logbook import (
    CATALOGUE,
    START,
    WHEN_READY,
    Logbook,
    at,
    cooking,
    dinner,
    planned,
    resting,
)

A5_PT = (148 / 25.4 * 72, 210 / 25.4 * 72)
"""ISO 216, in points."""


@pytest.mark.parametrize("log", [Logbook(), cooking(), resting()], ids=["planned", "cooking", "resting"])
def test_it_is_one_a5_page(log: Logbook) -> None:
    """At every stage there is one page of the size of A5."""
    reader = read_page(sheet(log))
    assert len(reader.pages) == 1
    box = reader.pages[0].mediabox
    assert (float(box.width), float(box.height)) == pytest.approx(A5_PT, abs=0.5)


def test_every_safety_limit_stands_on_it() -> None:
    """Safe minimum, pit, holding floor, acting temperature and two hours, in both units; fire and fumes."""
    text = text_of(sheet())
    for limit in ("145 F (62.8 C)", "275 F (135 C)", "225 F (107 C)", "140 F (60 C)", "145 F (63 C)", "two hours"):
        assert limit in text
    for caution in ("carbon monoxide", "never left alone", "Never starter fluid", "48 hours"):
        assert caution in text


def test_limits_stay_when_there_is_far_too_much() -> None:
    """With forty more rows, long vent marks and many names there is still one page with every limit on it."""
    made = sheet()
    rows = tuple(
        dataclasses.replace(row, key=f"p1/{row.step}/{n}", weight=2, at=row.at + dt.timedelta(minutes=n))
        for n in range(1, 4)
        for row in made.rows
    )
    vents = tuple(f"{n}: top a thumb wide, bottom two fingers, lid turned to the left" for n in range(4))
    crowded = dataclasses.replace(made, rows=(*made.rows, *rows), vents=vents)
    text = text_of(crowded)
    assert len(read_page(crowded).pages) == 1
    for limit in (*made.limits, *made.fire, *made.silent):
        assert limit in text
    assert "smaller things" in text


def test_the_least_important_rows_go_first() -> None:
    """What is dropped matters no more than anything that stays."""
    made = sheet()
    extra = tuple(dataclasses.replace(row, key=f"p1/{row.step}/2", title="xyzzy", weight=3) for row in made.rows)
    text = text_of(dataclasses.replace(made, rows=(*made.rows, *extra)))
    for row in made.rows:
        if row.weight <= 1:
            assert row.title in text
    assert "xyzzy" not in text


def test_times_come_before_limits_and_limits_before_fire() -> None:
    """It is read from the top: dinner, the plan, limits, what to do alone, fire."""
    text = text_of(sheet())
    places = [text.index(part) for part in ("Dinner", "meat on", "Limits", "If the bot is silent", "Fire and fumes")]
    assert places == sorted(places)


def test_times_are_in_the_clock_of_the_cook() -> None:
    """Meat on stands with the wall time of the cook's zone, before its words."""
    made = sheet()
    local = made.pieces[0].on_at.astimezone(made.zone)
    assert f"{local:%H:%M} meat on" in text_of(made)


def test_its_number_and_time_stand_on_it() -> None:
    """The second issue says its number, when it was made, and which one to throw away."""
    assert "Plan no. 2, made Sat 06:00. Throw away no. 1." in text_of(sheet(sequence=1))


def test_what_to_do_when_the_bot_is_silent_stands_on_it() -> None:
    """Carry on, limits, whom to wake, write down and type later, never pause half-cooked meat."""
    text = text_of(sheet())
    for part in ("Carry on from this page", "wake Ines", "type them in later", "Never pause half-cooked meat"):
        assert part in text


def test_letters_that_the_font_lacks_are_said() -> None:
    """Other scripts become question marks with a word about it; letters with marks lose only the mark."""
    made = sheet()
    strange = dataclasses.replace(made, title="Свинина 豚肉", vents=("şömine düşük",))
    text = text_of(strange)
    assert "??" in text
    assert "lacks" in text
    assert "letter this" not in text_of(made)
    assert printable("Łódź \x00\u202e naïve") == "Łódz  naïve"


def test_every_letter_of_the_page_is_in_the_font() -> None:
    """What the page itself says can be printed."""
    known = fonts()
    assert all(ord(char) in known for char in text_of(sheet()))


def test_both_faces_are_embedded() -> None:
    """A printer without these fonts prints the same."""
    resources: Any = read_page(sheet()).pages[0]["/Resources"]
    found = resources["/Font"]
    faces = [entry.get_object() for entry in found.values()]
    real = [face for face in faces if "Vera" in str(face.get("/BaseFont"))]
    assert len(real) >= 2
    assert all("/FontFile2" in face["/FontDescriptor"] for face in real)


def test_the_same_sheet_gives_the_same_bytes() -> None:
    """A page made again is the same file."""
    assert page(sheet()) == page(sheet())
    assert page(sheet()) != page(sheet(now=START + dt.timedelta(minutes=30)))


@pytest.mark.parametrize("cut", [cut.id for cut in CATALOGUE.cuts.cuts])
def test_every_cut_fits(cut: str) -> None:
    """Whatever is cooked, the steps that decide and the limits stand on the page."""
    made = sheet(Logbook(planned(cut=cut)))
    text = text_of(made)
    assert len(read_page(made).pages) == 1
    assert all(row.title in text for row in made.rows if row.weight <= MUST)
    assert all(limit in text for limit in made.limits)


def test_a_night_cook_shows_vents_watches_and_the_dial() -> None:
    """Vent marks in the owner's words, what to add to the dial, who has the watch when, who is on at the bark."""
    made = sheet(night_cook(), now=EVENING)
    text = text_of(made)
    for part in ("225 to 250 F (107 to 121 C): bottom a pencil, top a thumb", "Dial in the lid: add 25 F (14 C)"):
        assert part in text
    for watch in ("Tomas: Sat 22:00 to 02:00", "Wren: Sun 02:00 to 06:00", "Ines: Sun 06:00 to 10:00"):
        assert watch in text
    assert "Four hours on" in text
    bark = next(row for row in made.rows if row.step == "bark_check")
    assert bark.who == "Wren"
    assert f"{bark.at.astimezone(made.zone):%H:%M} look at the bark 160 F · Wren" in text


def test_a_watch_that_is_over_is_not_printed_again() -> None:
    """Who is to be woken is who still comes."""
    made = sheet(night_cook(), now=dt.datetime(2026, 9, 13, 4, 0, tzinfo=dt.UTC))
    assert [wake.name for wake in made.wake] == ["Wren", "Ines"]


def test_three_pieces_have_a_table_and_named_rows() -> None:
    """Each with when it goes on and off, every limit of every kind of meat, rows that name their piece."""
    made = sheet(pieces_of("pork_butt", "spareribs_stl", "spatchcock_chicken"), now=EVENING)
    text = text_of(made)
    assert len(read_page(made).pages) == 1
    assert text.count("meat on off the fire done at wrap") == 1
    for name in ("pork shoulder", "spareribs", "spatchcock chicken"):
        ready = "read" if name == "spatchcock chicken" else "feel"
        for row in (f"on: {name}", f"{ready}: {name}", f"off: {name}"):
            assert row in text
    assert "Safe to eat, pork shoulder, spareribs: 145 F (62.8 C)" in text
    assert "Safe to eat, spatchcock chicken: 165 F (73.9 C)" in text
    assert text.count("food out") == 1


def test_six_pieces_fit_on_one_page() -> None:
    """On, feel or reading and off of all six, the fire, dinner, and every limit."""
    made = sheet(pieces_of(*SIX), now=EVENING)
    text = text_of(made)
    assert len(read_page(made).pages) == 1
    assert all(limit in text for limit in (*made.limits, *made.fire, *made.silent))
    for row in ("on", "off"):
        assert text.count(f"{row}: ") >= len(SIX)
    assert text.count("feel: ") + text.count("read: ") >= len(SIX)
    assert "light the fire" in text
    assert "food out" in text


def test_what_people_typed_never_makes_a_second_page() -> None:
    """Endless vent marks and names are cut; limits, cautions and what to do alone stay whole."""
    made = sheet(night_cook(), now=EVENING)
    endless = dataclasses.replace(
        made,
        title="x" * 500,
        dinner="y" * 500,
        vents=tuple(f"{n}: " + "a thumb wide " * 100 for n in range(40)),
        wake=tuple(dataclasses.replace(made.wake[0], name=A_LONG_NAME * 3) for _ in range(40)),
    )
    assert sum(block.height for block in laid_out(endless, HEIGHT - 2 * MARGIN)) <= HEIGHT - 2 * MARGIN
    text = text_of(endless)
    assert len(read_page(endless).pages) == 1
    assert all(limit in text for limit in (*endless.limits, *endless.fire, *endless.silent))


def test_times_are_large_enough_to_be_read_from_a_metre() -> None:
    """No time is printed smaller than eleven points, and no limit smaller than seven and a half."""
    for log in (night_cook(), pieces_of(*SIX)):
        times = next(b for b in laid_out(sheet(log, now=EVENING), HEIGHT - 2 * MARGIN) if isinstance(b, Times))
        assert times.size >= 11.0
    assert min(small for _large, small in SIZES) == 7.5


def test_dinner_that_will_be_late_says_so_on_top() -> None:
    """A dinner that cannot be met stands with the likely plate beside it."""
    log = cooking(planned(serving=dinner(240)))
    assert "Dinner Sat 10:00, plate about" in text_of(sheet(log, now=at(70)))


def test_dinner_may_be_a_window_or_follow_the_meat() -> None:
    """A window shows both ends, an open dinner the likely time."""
    assert "Dinner Sat 19:00 to 20:00" in text_of(sheet(Logbook(planned(serving=dinner(780, window=60)))))
    assert "Dinner when ready, about Sat" in text_of(sheet(Logbook(planned(serving=WHEN_READY))))


def test_room_that_is_left_is_for_writing() -> None:
    """Where few rows are left there are lines for readings below; on a full page there are none."""
    made = sheet()
    assert "time pit meat what was done" in text_of(dataclasses.replace(made, rows=made.rows[-4:]))
    assert "time pit meat what was done" not in text_of(made)


@pytest.mark.parametrize("cut", ["salmon_side", "tri_tip", "prime_rib", "leg_of_lamb", "sausages", "whole_chicken"])
def test_nothing_is_done_below_its_safe_minimum(cut: str) -> None:
    """The table of pieces names no core under the published minimum: what hangs beside the cooker is read by all."""
    made = sheet(pieces_of("pork_butt", cut))
    piece = next(one for one in made.pieces if one.name == CATALOGUE.cuts.get(cut).name)
    minimum_f = round(CATALOGUE.cuts.minimum_c(CATALOGUE.cuts.get(cut)) * 1.8 + 32)
    assert int(piece.target.split()[0]) >= minimum_f
    assert "129" not in piece.target


def test_who_sleeps_is_not_woken_by_the_planned_pit() -> None:
    """A pit planned at 325 F wakes nobody at 325 F: the upper limit follows the hottest band of the plan."""
    assert "over 300 F (149 C)" in sheet().wake_if
    log = Logbook(dataclasses.replace(planned(), cut="whole_chicken", pit_low_c=162.8, pit_high_c=162.8))
    assert "over 350 F" in sheet(log).wake_if


def test_a_night_on_the_page_looks_at_the_fuel() -> None:
    """Over a night the fuel stands on it with how often it is looked at, and the room beside is used for more rows."""
    made = sheet(night_cook(), now=EVENING)
    assert "look at the fuel, every 2.5 h" in text_of(made)
    assert next(row for row in made.rows if row.step == "fuel_check").weight <= MUST
    times = next(block for block in laid_out(made, HEIGHT - 2 * MARGIN) if isinstance(block, Times))
    assert len(times.columns) == 2
    assert times.count >= 15


def test_nothing_on_the_page_lies_behind_its_making() -> None:
    """When ready: what should be done by now stands at the time the page was made."""
    made = sheet(Logbook(planned(serving=WHEN_READY)))
    assert all(row.at >= made.issued_at for row in made.rows)
    assert any(row.at - made.issued_at < dt.timedelta(minutes=5) for row in made.rows)
