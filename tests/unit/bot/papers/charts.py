"""Charts of invented cooks: as values, as placed, and as pictures read back."""

from __future__ import annotations

import dataclasses
import datetime as dt
import io

from PIL import Image

from bot.messages.figures import Voice
from bot.papers.chart import chart_png
from bot.papers.chart_drawing import Drawing
from bot.papers.chart_layout import placed
from bot.papers.chart_sheet import chart_sheet_of
from bot.papers.chart_values import ChartSheet
from scheduler.cook import assess
from scheduler.facts import Planned, Reading, Slot, Wrap, Wrapped
from tests.unit.scheduler.logbook import CATALOGUE, Logbook, at, dinner, planned


def chart(log: Logbook, minutes: float, *, unit: str = "C", dark: bool = False) -> ChartSheet:
    """Return the chart of a log so many minutes after its start."""
    now = at(minutes)
    situation = assess(log.facts, CATALOGUE, now)
    return chart_sheet_of(situation, log.facts, Voice(zone="Etc/UTC", unit=unit, now=now), dark=dark)


def drawn(log: Logbook, minutes: float, *, unit: str = "C", dark: bool = False) -> Drawing:
    """Return the same, placed."""
    return placed(chart(log, minutes, unit=unit, dark=dark))


def picture(sheet: ChartSheet) -> Image.Image:
    """Return the picture as an independent reader sees it."""
    return Image.open(io.BytesIO(chart_png(sheet))).convert("RGB")


def one_read(log: Logbook, minutes: float, value_c: float, *, by: str, slot: Slot = Slot.CORE) -> None:
    """Write a reading of somebody."""
    log.tell(Reading(slot=slot, value_c=value_c), minutes, by=by)


def ribs(until: float = 1e9) -> Logbook:
    """Return ribs for 19:00 that went on at 7:00, read by three, wrapped at 11:00, off at 14:10, served at 19:02."""
    log = Logbook(planned(mass_kg=2.0))
    log.done("light", 0)
    log.done("meat_on", 60)
    values = (
        (150, "Ines", 45.0),
        (210, "Tomas", 62.0),
        (270, "Wren", 70.0),
        (330, "Tomas", 78.0),
        (420, "Ines", 90.0),
    )
    for minutes, name, value_c in values:
        one_read(log, minutes, value_c, by=name)
        one_read(log, minutes + 1, 133.0, by=name, slot=Slot.PIT)
    log.tell(Wrapped(wrap=Wrap.PAPER), 300, by="Wren")
    log.done("spritz", 180, by="Tomas")
    log.done("pull", 490, by="Ines")
    log.done("serve", 782, by="Ines")
    log.facts = tuple(sorted((f for f in log.facts if f.recorded_at <= at(until)), key=lambda f: f.recorded_at))
    return log


def brisket(until: float = 1e9, *, hours_to_dinner: float = 17) -> Logbook:
    """Return a brisket that went on an hour after the start, stalls for six hours and is read every 40 minutes."""
    plan = Planned(cut="brisket_packer", serving=dinner(60 + 60 * hours_to_dinner), pit_low_c=107.0, pit_high_c=121.0,
                   mass_kg=6.0)  # fmt: skip
    log = Logbook(plan)
    log.done("light", 0)
    log.done("meat_on", 60)
    cores = (9, 19, 30, 41, 51, 58, 63, 66, 67, 67.5, 68, 68.2, 68.5, 69, 69.3, 69.6, 70, 71.5, 74, 77)
    for number, value_c in enumerate(cores, start=1):
        one_read(log, 60 + 40 * number, value_c, by=("Ines", "Tomas", "Wren", "Bashir")[number % 4])
    log.facts = tuple(fact for fact in log.facts if fact.recorded_at <= at(until))
    return log


def renamed(log: Logbook, *names: str) -> Logbook:
    """Return a log in which its readers have other names, in turn."""
    known = list(dict.fromkeys(fact.by for fact in log.facts if isinstance(fact.body, Reading)))
    other = dict(zip(known, names, strict=False))
    log.facts = tuple(dataclasses.replace(fact, by=other.get(fact.by, fact.by)) for fact in log.facts)
    return log


def hours(count: float) -> dt.timedelta:
    """Return so many hours."""
    return dt.timedelta(hours=count)
