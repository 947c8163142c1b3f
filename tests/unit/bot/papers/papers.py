"""Papers of invented cooks, and their files read back by libraries that did not write them."""

from __future__ import annotations

import dataclasses
import datetime as dt
import io
from typing import Any

import pypdf
import vobject

from bot.papers import PlanSheet, calendar_file, page, sheet_of
from scheduler.facts import (
    CookerKind,
    CookerTold,
    PieceAdded,
    Planned,
    Serving,
    ServingKind,
    VentMark,
    Watch,
    WatchesTold,
)
from tests.unit.scheduler.logbook import START, Logbook, planned

A_LONG_NAME = "Wren Ångström-Łukasiewicz von der Längsten Straße am Fluß"


def sheet(log: Logbook | None = None, *, now: dt.datetime = START, sequence: int = 0, **more: Any) -> PlanSheet:  # noqa: ANN401 - any field of a sheet
    """Return the paper of a cook planned at the start, with some fields replaced."""
    made = sheet_of((log or Logbook(planned(mass_kg=2.0))).situation, now, sequence)
    return dataclasses.replace(made, **more)


ZONE = "Europe/London"
VENTS = (
    VentMark(low_c=107.0, high_c=121.0, words="bottom a pencil, top a thumb"),
    VentMark(low_c=135.0, high_c=149.0, words="bottom two fingers, top half open"),
)
SUNDAY = Serving(kind=ServingKind.AT, zone=ZONE, start=dt.datetime(2026, 9, 13, 18, 0))  # noqa: DTZ001 - wall time, as people say it
EVENING = dt.datetime(2026, 9, 12, 16, 0, tzinfo=dt.UTC)
SIX = ("pork_butt", "spareribs_stl", "spatchcock_chicken", "whole_chicken", "chuck_roast", "salmon_side")


def wall(day: int, hour: int) -> dt.datetime:
    """Return an hour of a day in September on the clock of the cook."""
    return dt.datetime(2026, 9, day, hour, 0)  # noqa: DTZ001 - wall time, as people say it


def night_cook() -> Logbook:
    """Return a brisket of six kilograms over night, with vent marks, a dial that reads low and three watches."""
    log = Logbook(Planned(cut="brisket_packer", serving=SUNDAY, pit_low_c=107.0, pit_high_c=121.0, mass_kg=6.0))
    log.tell(CookerTold(cooker=CookerKind.KETTLE, vents=VENTS, dial_offset_c=14.0), 1)
    hours = (
        ("Tomas", wall(12, 22), wall(13, 2)),
        ("Wren", wall(13, 2), wall(13, 6)),
        ("Ines", wall(13, 6), wall(13, 10)),
    )
    log.tell(WatchesTold(watches=tuple(Watch(name=n, start=a, end=b) for n, a, b in hours)), 2)
    return log


def pieces_of(*cuts: str) -> Logbook:
    """Return one cook with a piece of each cut for one dinner, with vent marks."""
    log = Logbook(Planned(cut=cuts[0], serving=SUNDAY, pit_low_c=121.0, pit_high_c=121.0))
    for number, cut in enumerate(cuts[1:], start=2):
        log.tell(PieceAdded(cut=cut), 0)
        log.facts = (*log.facts[:-1], dataclasses.replace(log.facts[-1], piece=f"p{number}"))
    log.tell(CookerTold(cooker=CookerKind.KETTLE, vents=VENTS), 1)
    return log


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
