"""Draws the charts for docs/howto/chart.md: `python -m tests.pictures.chart docs/howto/chart`.

The club, the names and the readings are invented.
"""

from __future__ import annotations

import datetime as dt
import functools
import sys
from pathlib import Path

from bot.messages.figures import Voice
from bot.papers.chart import chart_png
from bot.papers.chart_sheet import chart_sheet_of
from bot.papers.chart_values import ChartSheet
from scheduler.cook import assess
from scheduler.facts import Body, PieceAdded, Planned, Reading, Serving, ServingKind, Slot, StepDone, Wrap, Wrapped
from scheduler.units import c_from_f
from tests.unit.bot.papers.records import tell
from tests.unit.scheduler.logbook import CATALOGUE, Logbook, at

ZONE = "Europe/London"
SUPPER = Serving(kind=ServingKind.AT, zone=ZONE, start=dt.datetime(2026, 9, 13, 18, 0))  # noqa: DTZ001 - wall time, as people say it
ON, DINNER = 1035, 2100
"""Meat on, a quarter past midnight on the clock of the club, and dinner: in minutes after the start of the log."""

CORE_F = (
    (150, "Tomas", 92), (270, "Tomas", 131), (355, "Wren", 149), (410, "Wren", 155), (470, "Wren", 158),
    (530, "Ines", 160), (600, "Ines", 168), (660, "Bashir", 180), (715, "Ines", 191), (765, "Ines", 199),
    (800, "Ines", 203),
)  # fmt: skip
PIT_F = (
    (40, "Tomas", 229), (148, "Tomas", 247), (268, "Tomas", 236), (352, "Wren", 221), (412, "Wren", 243),
    (527, "Ines", 251), (598, "Bashir", 246), (712, "Ines", 252), (764, "Ines", 249),
)  # fmt: skip
PORK_C = ((240, "Tomas", 34.0), (345, "Wren", 55.0), (440, "Wren", 66.0), (560, "Ines", 71.0), (650, "Ines", 75.0))
OPENED = ((200, "spritz", "Tomas"), (262, "spritz", "Tomas"), (356, "refuel", "Wren"), (414, "spritz", "Wren"))
WRAPPED, PULLED, BOXED, SLICED, SERVED = 532, 805, 830, DINNER - ON - 8, DINNER - ON + 2
_AHEAD = 6
_DECIDED_BY_HAND = frozenset({"wrap_decide", "wrap_do", "pull", "serve", "slice", "tender_test", "refuel", "spritz"})


def harrow_lane(until: float) -> Logbook:
    """Return the log of the harvest supper up to so many minutes after meat on: a brisket over night, read by four."""
    plan = Planned(cut="brisket_packer", serving=SUPPER, pit_low_c=107.0, pit_high_c=121.0, mass_kg=5.5, unit="F")
    log = Logbook(plan)
    log.done("light", ON - 50)
    done = (
        *OPENED,
        (0, "meat_on", "Tomas"),
        (PULLED, "pull", "Ines"),
        (BOXED, "box_meat", "Ines"),
        (SLICED, "slice", "Bashir"),
        (SERVED, "serve", "Bashir"),
    )
    told: list[tuple[float, str, Body]] = [
        *((minutes, who, StepDone(step=step)) for minutes, step, who in done),
        *((minutes, who, Reading(slot=Slot.CORE, value_c=c_from_f(value))) for minutes, who, value in CORE_F),
        *((minutes, who, Reading(slot=Slot.PIT, value_c=c_from_f(value))) for minutes, who, value in PIT_F),
        (WRAPPED, "Ines", Wrapped(wrap=Wrap.PAPER)),
    ]
    for minutes, who, body in sorted(told, key=lambda one: one[0]):
        if minutes <= until:
            log.tell(body, ON + minutes, by=who)
    return caught_up(log, ON + until)


def caught_up(log: Logbook, minutes: float) -> Logbook:
    """Return the log with everything done that was due and that no reading or hand decides."""
    for _round in range(12):
        due = {(p.step.id, p.piece) for p in log.situation.prompts if p.due_at <= at(minutes + _AHEAD)}
        left = sorted((step, piece) for step, piece in due if step not in _DECIDED_BY_HAND)
        if not left:
            break
        for step, piece in left:
            tell(log, StepDone(step=step), minutes, piece=piece)
    return log


def three_pieces() -> Logbook:
    """Return a cook of three pieces for one dinner, two of them on."""
    log = Logbook(Planned(cut="pork_butt", serving=SUPPER, pit_low_c=121.0, pit_high_c=121.0, mass_kg=3.0, unit="C"))
    tell(log, PieceAdded(cut="spareribs_stl"), 1, piece="p2")
    tell(log, PieceAdded(cut="whole_chicken"), 2, piece="p3")
    log.done("light", ON + 60)
    log.done("meat_on", ON + 105, by="Tomas")
    for minutes, who, value in PORK_C:
        log.tell(Reading(slot=Slot.CORE, value_c=value), ON + minutes, by=who)
        log.tell(Reading(slot=Slot.PIT, value_c=121.0 + (minutes % 7) - 3), ON + minutes + 2, by=who)
    tell(log, StepDone(step="meat_on"), ON + 610, piece="p2", by="Ines")
    return caught_up(log, ON + 655)


def sheet(log: Logbook, minutes: float, unit: str, *, dark: bool = False) -> ChartSheet:
    """Return the chart of a log so many minutes after meat on."""
    now = at(ON + minutes)
    situation = assess(log.facts, CATALOGUE, now)
    return chart_sheet_of(situation, log.facts, Voice(zone=ZONE, unit=unit, now=now), dark=dark)


@functools.cache
def pictures() -> dict[str, bytes]:
    """Return every picture of the page by its name."""
    return {
        "morning": chart_png(sheet(harrow_lane(535), 538, "F")),
        "night": chart_png(sheet(harrow_lane(285), 288, "C", dark=True)),
        "end": chart_png(sheet(harrow_lane(SERVED), SERVED + 5, "F")),
        "three": chart_png(sheet(three_pieces(), 656, "C")),
    }


def main(folder: Path) -> None:
    """Write the pictures into a folder."""
    folder.mkdir(parents=True, exist_ok=True)
    for name, data in pictures().items():
        (folder / f"{name}.png").write_bytes(data)


if __name__ == "__main__":
    main(Path(sys.argv[1]))
