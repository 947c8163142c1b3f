"""The printed page: one A5 page whatever happens, every safety limit on it, times first."""

from __future__ import annotations

import dataclasses
import datetime as dt
from typing import Any

import pytest

from bot.papers import page
from bot.papers.letters import fonts, printable
from tests.unit.bot.papers.papers import read_page, sheet, text_of
from tests.unit.scheduler.logbook import START, Logbook, cooking, planned, resting

A5_PT = (148 / 25.4 * 72, 210 / 25.4 * 72)
"""ISO 216, in points."""

CUTS = ("beef_chuck_ribs", "beef_plate_ribs")


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
    for part in ("Carry on from this page", "wake Ines", "type them later", "Never pause half-cooked meat"):
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


@pytest.mark.parametrize("cut", CUTS)
def test_every_cut_fits(cut: str) -> None:
    """Whatever is cooked, the steps that decide stand on the page."""
    made = sheet(Logbook(planned(cut=cut)))
    text = text_of(made)
    assert len(read_page(made).pages) == 1
    assert all(row.title in text for row in made.rows if row.weight == 0)
