"""The command `chart`: finds the cook in the data folder, and draws it as a picture into the file asked for.

It words nothing and changes no data.
"""

from __future__ import annotations

import argparse
import datetime as dt
from pathlib import Path

from bot.catalogue import open_catalogue
from bot.messages import chart_command as words
from bot.messages import record_command
from bot.messages.figures import Voice
from bot.papers.chart import chart_png
from bot.papers.chart_sheet import chart_sheet_of
from bot.record.finding import DONE, FAILED, WRONGLY_CALLED, found_cook, said
from scheduler.cook import Situation, assess
from scheduler.errors import SlowbellError
from scheduler.facts import Fact
from scheduler.planning.catalogue import Catalogue
from scheduler.state import Stage


def main(given: argparse.Namespace, *, now: dt.datetime, data_dir: Path) -> int:
    """Draw the cook; return 0, 1 when data or the file cannot be used, 2 when called wrongly, having said why.

    A cook that is over, or was forgotten, is drawn as of the last that is known of it.
    """
    if given.png is None:
        return said(words.no_file(), WRONGLY_CALLED)
    found = found_cook(data_dir, given.cook)
    if isinstance(found, int):
        return found
    try:
        situation, now = _stands(found.facts, open_catalogue(data_dir).catalogue, now)
    except SlowbellError as error:
        return said(words.unreadable(found.id, str(error)), FAILED)
    unit = given.unit or situation.state.planned.unit
    voice = Voice(zone=situation.state.serving.zone, unit=unit, now=now)
    picture = chart_png(chart_sheet_of(situation, found.facts, voice, dark=given.dark))
    try:
        Path(given.png).write_bytes(picture)
    except OSError as error:
        return said(record_command.not_written(given.png, error.strerror or ""), FAILED)
    print(words.written(given.png, found.id))
    return DONE


def _stands(facts: tuple[Fact, ...], catalogue: Catalogue, now: dt.datetime) -> tuple[Situation, dt.datetime]:
    """Return how a cook stands, and as of when."""
    known = assess(facts, catalogue)
    wanted_at = known.state.serving.ends_at() or known.state.as_of
    if known.state.stage is Stage.CLOSED or now > wanted_at + _FORGOTTEN_AFTER:
        return known, known.state.as_of
    return assess(facts, catalogue, now), now


_FORGOTTEN_AFTER = dt.timedelta(hours=12)
"""So long after dinner a cook that nobody ended goes on no more: house rule."""
