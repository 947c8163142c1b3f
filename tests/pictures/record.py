"""Draws the picture of the record for docs/howto/event-record.md: `python -m tests.pictures.record PNG`.

The club, the names and the readings are invented. It needs `pdftoppm` (poppler-utils), which nothing else here needs.
"""

from __future__ import annotations

import datetime as dt
import subprocess
import sys
import tempfile
from pathlib import Path

from PIL import Image

from bot.papers.record import EventRecord
from bot.papers.record_page import record_pdf
from scheduler.facts import (
    CareTold,
    Corrected,
    Planned,
    Reading,
    Serving,
    ServingKind,
    Slot,
    TreatedTold,
    Warned,
    Wrap,
    Wrapped,
)
from scheduler.units import c_from_f
from tests.unit.bot.papers.records import record
from tests.unit.scheduler.logbook import Logbook, at

DOTS_PER_INCH = 90
SHADES = 8
SUPPER = Serving(kind=ServingKind.AT, zone="Europe/London", start=dt.datetime(2026, 9, 12, 19, 0))  # noqa: DTZ001 - wall time, as people say it
READINGS = (
    (121, "Ines", Slot.PIT, 275),
    (241, "Tomas", Slot.PIT, 262),
    (242, "Tomas", Slot.CORE, 131),
    (330, "Wren", Slot.PIT, 271),
    (331, "Wren", Slot.CORE, 164),
    (480, "Tomas", Slot.CORE, 203),
)


def harvest_supper() -> Logbook:
    """Return the log of an invented harvest supper: seven racks, a slip of a finger, a box that cooled too far."""
    log = Logbook(
        Planned(cut="beef_chuck_ribs", serving=SUPPER, pit_low_c=135.0, pit_high_c=135.0, count=7, mass_kg=1.6)
    )
    log.tell(CareTold(public=True, at_risk=False, allergies=("mustard",)), 1)
    log.tell(TreatedTold(treatments=()), 2)
    log.tell(Reading(slot=Slot.FRIDGE, value_c=c_from_f(38)), 5, by="Bashir")
    log.done("raw_out", 40, by="Bashir")
    log.done("light", 20)
    log.done("meat_on", 80)
    log.done("raw_cleanup", 85, by="Bashir")
    for minutes, name, slot, value_f in READINGS:
        log.tell(Reading(slot=slot, value_c=c_from_f(value_f)), minutes, by=name)
    slip = log.tell(Reading(slot=Slot.CORE, value_c=c_from_f(87)), 400, by="Tomas")
    log.tell(Corrected(of=slip, body=Reading(slot=Slot.CORE, value_c=c_from_f(187))), 402, by="Tomas")
    log.tell(Wrapped(wrap=Wrap.PAPER), 335, by="Wren")
    log.done("pull", 485, by="Tomas")
    log.done("box_meat", 505, by="Tomas")
    log.tell(Reading(slot=Slot.CORE, value_c=c_from_f(149)), 640, by="Wren")
    log.tell(Reading(slot=Slot.CORE, value_c=c_from_f(138)), 690, by="Wren")
    log.tell(Warned(rule="held_under_floor", since=at(690)), 690, by=None)
    log.tell(Reading(slot=Slot.CORE, value_c=c_from_f(167), spread_c=1.0), 722, by="Ines")
    log.done("serve", 725)
    log.done("two_hour", 770, "away", by="Bashir")
    log.tell(Reading(slot=Slot.LEFTOVERS, value_c=c_from_f(66)), 835, by="Bashir")
    log.tell(Reading(slot=Slot.LEFTOVERS, value_c=c_from_f(40)), 1050, by="Bashir")
    return log


def the_record() -> EventRecord:
    """Return the record of the supper, made the evening after."""
    return record(harvest_supper(), 1060)


def draw(target: Path) -> None:
    """Write the first page as a grey PNG."""
    with tempfile.TemporaryDirectory() as folder:
        printed = Path(folder) / "record.pdf"
        printed.write_bytes(record_pdf(the_record()))
        dots = str(DOTS_PER_INCH)
        subprocess.run(
            ["pdftoppm", "-png", "-gray", "-singlefile", "-r", dots, printed, target.with_suffix("")], check=True
        )
    with Image.open(target) as drawn:
        drawn.quantize(colors=SHADES).save(target, optimize=True)


if __name__ == "__main__":
    draw(Path(sys.argv[1]))
