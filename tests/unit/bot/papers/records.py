"""Records of invented cooks, and their files read back by libraries that did not write them."""

from __future__ import annotations

import csv
import dataclasses
import io

import pypdf

from bot.papers.record import EventRecord, record_of
from bot.papers.record_file import record_csv
from bot.papers.record_page import record_pdf
from scheduler.facts import Body, PieceAdded, Reading, Slot
from tests.unit.scheduler.logbook import CATALOGUE, Logbook, at, planned


def record(log: Logbook, minutes: float = 1000) -> EventRecord:
    """Return the record of a log so many minutes after its start."""
    return record_of(log.facts, CATALOGUE, at(minutes))


def table(made: EventRecord) -> list[dict[str, str]]:
    """Return the rows of the file as an independent reader sees them."""
    return list(csv.DictReader(io.StringIO(record_csv(made).decode("utf-8-sig"), newline="")))


def entries(made: EventRecord) -> list[dict[str, str]]:
    """Return the rows of readings and times."""
    return [row for row in table(made) if row["row"] == "entry"]


def pages(made: EventRecord) -> list[str]:
    """Return the words of each printed page, lines joined."""
    read = pypdf.PdfReader(io.BytesIO(record_pdf(made)))
    return [" ".join(page.extract_text().split()) for page in read.pages]


def tell(log: Logbook, body: Body, minutes: float, *, piece: str, by: str = "Ines") -> str:
    """Write a fact of one of several pieces; return its id."""
    name = log.tell(body, minutes, by=by)
    log.facts = (*log.facts[:-1], dataclasses.replace(log.facts[-1], piece=piece))
    return name


def two_pieces() -> Logbook:
    """Return a cook of ribs and a chicken, planned at the start."""
    log = Logbook(planned())
    tell(log, PieceAdded(cut="whole_chicken"), 1, piece="p2")
    return log


def endless(readings: int) -> Logbook:
    """Return a cook with so many readings of the core and as many of the pit, one a minute."""
    log = Logbook(planned())
    log.done("light", 0)
    log.done("meat_on", 60)
    for number in range(readings):
        log.read(20.0 + number * 0.2, 61 + number)
        log.tell(Reading(slot=Slot.PIT, value_c=135.0), 61 + number)
    return log
