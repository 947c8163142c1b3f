"""Papers of invented cooks, and their files read back by libraries that did not write them."""

from __future__ import annotations

import dataclasses
import datetime as dt
import io
from typing import Any

import pypdf
import vobject

from bot.papers import PlanSheet, calendar_file, page, sheet_of
from tests.unit.scheduler.logbook import START, Logbook, planned

A_LONG_NAME = "Wren Ångström-Łukasiewicz von der Längsten Straße am Fluß"


def sheet(log: Logbook | None = None, *, now: dt.datetime = START, sequence: int = 0, **more: Any) -> PlanSheet:  # noqa: ANN401 - any field of a sheet
    """Return the paper of a cook planned at the start, with some fields replaced."""
    made = sheet_of((log or Logbook(planned(mass_kg=2.0))).situation, now, sequence)
    return dataclasses.replace(made, **more)


def read_events(data: bytes) -> list[Any]:
    """Return the events of a calendar file as an independent reader sees them."""
    return list(vobject.readOne(data.decode("utf-8")).vevent_list)


def events(made: PlanSheet) -> list[Any]:
    """Return the events of a paper's calendar file as an independent reader sees them."""
    return read_events(calendar_file(made))


def unfolded(data: bytes) -> list[str]:
    """Return the content lines of a calendar file, unfolded by hand (RFC 5545 section 3.1)."""
    return data.decode("utf-8").replace("\r\n ", "").replace("\r\n\t", "").rstrip("\r\n").split("\r\n")


def read_page(made: PlanSheet) -> pypdf.PdfReader:
    """Return the printed page as an independent reader sees it."""
    return pypdf.PdfReader(io.BytesIO(page(made)))


def text_of(made: PlanSheet) -> str:
    """Return the words of the printed page in the order in which they stand in the file, lines joined."""
    return " ".join(read_page(made).pages[0].extract_text().split())
