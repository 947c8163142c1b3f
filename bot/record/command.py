"""The command `record`: finds the cook in the data folder, and writes its temperature log into the files asked for.

It words nothing and changes no data.
"""

from __future__ import annotations

import argparse
import datetime as dt
from pathlib import Path

from bot.catalogue import open_catalogue
from bot.messages import record_command as words
from bot.papers.record import EventRecord, record_of
from bot.papers.record_file import record_csv
from bot.papers.record_page import record_pdf
from bot.record.finding import DONE, FAILED, WRONGLY_CALLED, found_cook, said
from scheduler.errors import SlowbellError


def main(given: argparse.Namespace, *, now: dt.datetime, data_dir: Path) -> int:
    """Write the files; return 0, 1 when data or a file cannot be used, 2 when called wrongly, having said why."""
    if given.csv is None and given.pdf is None:
        return said(words.no_file(), WRONGLY_CALLED)
    found = found_cook(data_dir, given.cook)
    if isinstance(found, int):
        return found
    try:
        record = record_of(found.facts, open_catalogue(data_dir).catalogue, now)
    except SlowbellError as error:
        return said(words.unreadable(found.id, str(error)), FAILED)
    return _written(record, given)


def _written(record: EventRecord, given: argparse.Namespace) -> int:
    for name, make in ((given.csv, record_csv), (given.pdf, record_pdf)):
        if name is None:
            continue
        try:
            Path(name).write_bytes(make(record))
        except OSError as error:
            return said(words.not_written(name, error.strerror or ""), FAILED)
        print(words.written(name, record.cook))
    return DONE
