"""The record on paper, read back by a library that did not write it."""

from __future__ import annotations

import io

import pypdf
import pytest

from bot.papers.record_page import HEIGHT, MARGIN, laid_out, record_pdf
from scheduler.facts import Corrected, Reading, Slot
from tests.unit.bot.papers.papers import A_LONG_NAME
from tests.unit.bot.papers.records import endless, pages, record, two_pieces
from tests.unit.scheduler.logbook import Logbook, cooking, planned, resting


def test_the_page_has_lines_to_fill_in_and_to_sign() -> None:
    """Event, place, permit and person in charge are blanks; at the end somebody signs and dates."""
    text = " ".join(pages(record(resting())))
    for blank in ("Event", "Place", "Permit no.", "Person in charge", "Food handler certificate no.", "Date"):
        assert blank in text
    assert "Local codes and the health authority decide" in text


def test_a_page_is_counted() -> None:
    """Each page says which of how many it is."""
    made = record(endless(150))
    read = pages(made)
    assert len(read) > 3
    assert all(f"page {number} of {len(read)}" in text for number, text in enumerate(read, start=1))


def test_the_head_of_the_table_is_on_every_page() -> None:
    """Three hundred readings: each page of the log begins with the columns and the day; no row is lost."""
    made = record(endless(150))
    read = pages(made)
    whole = " ".join(read)
    assert whole.count("pit air 275 F") == 150
    assert all("corrective action, remarks" in text and "Sat 12 Sep 2026, UTC+00:00" in text for text in read[:-1])


@pytest.mark.parametrize("readings", [0, 1, 20, 25, 30, 150])
def test_no_page_overflows(readings: int) -> None:
    """Blocks of a page are never higher than the page."""
    for blocks in laid_out(record(endless(readings))):
        assert sum(block.height for block in blocks) <= HEIGHT - 2 * MARGIN


def test_paper_is_a4_upright() -> None:
    """210 by 297 mm, black and white letters embedded."""
    box = pypdf.PdfReader(io.BytesIO(record_pdf(record(resting())))).pages[0].mediabox
    assert (round(float(box.width) / 72 * 25.4), round(float(box.height) / 72 * 25.4)) == (210, 297)


def test_a_failing_reading_shows_its_limit_and_what_came_of_it() -> None:
    """NO, the limit in both units, and the corrective action stand in one row."""
    log = resting()
    log.read(58.0, 600)
    log.read(75.0, 640)
    text = " ".join(pages(record(log)))
    assert "136.4 F (58 C) at least 140 F (60 C) NO Ines reheated, read 167 F (75 C)" in text


def test_a_correction_is_printed() -> None:
    """What stood before is on paper, too."""
    log = resting()
    slip = log.read(16.7, 600)
    log.tell(Corrected(of=slip, body=Reading(slot=Slot.CORE, value_c=70.0)), 606, by="Tomas")
    assert "corrected from 62.1 F (16.7 C) by Tomas" in " ".join(pages(record(log)))


def test_nothing_told_is_a_whole_page_all_the_same() -> None:
    """A cook in which nobody did anything says so, and lists what is missing."""
    text = " ".join(pages(record(Logbook(planned()))))
    assert "Nothing was read and nothing was done" in text
    assert "core while cooking: not measured" in text


def test_letters_the_font_lacks_are_owned_up_to() -> None:
    """Right-to-left letters and emoji are question marks with a line that says where they are right."""
    log = cooking()
    log.tell(Reading(slot=Slot.CORE, value_c=60.0, spot="מרכז"), 100, by="Wren 🔥")
    text = " ".join(pages(record(log)))
    assert "? = a letter that this printer font lacks" in text
    assert "? =" not in " ".join(pages(record(cooking())))


def test_long_names_stay_in_their_column() -> None:
    """Names without end break over lines and harm no page."""
    log = cooking()
    log.tell(Reading(slot=Slot.CORE, value_c=60.0, spot="x" * 2000), 100, by=A_LONG_NAME * 20)
    for blocks in laid_out(record(log)):
        assert sum(block.height for block in blocks) <= HEIGHT - 2 * MARGIN


def test_two_pieces_are_named_in_every_row() -> None:
    """Each piece has a row in the table of food, and rows say which piece they are about."""
    text = " ".join(pages(record(two_pieces())))
    assert "whole chicken, mass not told" in text
    assert "whole chicken: core while cooking: not measured" in text


def test_the_same_record_gives_the_same_bytes() -> None:
    """No clock and no chance goes into the file."""
    assert record_pdf(record(resting())) == record_pdf(record(resting()))
