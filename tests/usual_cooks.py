"""The itinerary of a usual cook of each family, as people can read it: made anew by `python -m tests.usual_cooks`.

It asserts nothing; a test compares what stands in the files with what is planned now.
"""

from __future__ import annotations

import datetime as dt
from pathlib import Path

from bot.messages.figures import Voice
from bot.messages.steps import step_words
from scheduler.planning.steps import Step
from tests.unit.scheduler.logbook import Logbook, at, cut, dinner, planned

FOLDER = Path(__file__).parent / "data" / "usual_cooks"
FAMILIES = {
    "brisket_packer": "holds well, over a night",
    "beef_chuck_ribs": "holds well, in a day",
    "spareribs_stl": "holds a little",
    "pork_loin": "does not hold: a roast",
    "whole_chicken": "does not hold: a bird",
    "salmon_side": "does not hold: a fish",
}
"""Cut -> what it stands for."""

DINNER_MIN = 36 * 60
"""Planned at six in the morning for six in the evening of the next day."""


def listed(name: str) -> str:
    """Return every step of a usual cook with its time, one a line, for one cut at its usual pit."""
    of = cut(name)
    log = Logbook(
        planned(cut=name, serving=dinner(DINNER_MIN), pit_low_c=of.pit_c.typical, pit_high_c=of.pit_c.typical)
    )
    voice = Voice(zone="Etc/UTC", unit="F", now=at(0))
    head = f"{of.name}, {FAMILIES[name]}; pit {voice.temp(of.pit_c.typical)}, dinner Sunday 18:00."
    rows = [f"{when:%a} {voice.about(when).split()[-1]}  {step_words(step.id).name}" for when, step in _steps(log)]
    return "\n".join((head, *rows)) + "\n"


def _steps(log: Logbook) -> list[tuple[dt.datetime, Step]]:
    return list(log.situation.itinerary())


def main() -> None:
    """Write the files anew."""
    FOLDER.mkdir(exist_ok=True)
    for name in FAMILIES:
        (FOLDER / f"{name}.txt").write_text(listed(name), encoding="utf-8")


if __name__ == "__main__":
    main()
