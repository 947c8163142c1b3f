"""The command `record`: finds the cook in the data folder, and writes its temperature log into the files asked for.

It words nothing and changes no data.
"""

from __future__ import annotations

import argparse
import datetime as dt
import sys
from pathlib import Path

from bot.catalogue import open_catalogue
from bot.messages import console
from bot.messages import record_command as words
from bot.papers.record import EventRecord, record_of
from bot.papers.record_file import record_csv
from bot.papers.record_page import record_pdf
from bot.ports import CookSnapshot
from bot.store import SqlStore, open_store
from bot.store.errors import StoreError
from bot.store.opening import DATABASE_NAME
from scheduler.errors import SlowbellError

DONE, FAILED, WRONGLY_CALLED = 0, 1, 2
_SHOWN = 8
"""Cooks that are named when the one asked for is not there."""


def main(given: argparse.Namespace, *, now: dt.datetime, data_dir: Path) -> int:
    """Write the files; return 0, 1 when data or a file cannot be used, 2 when called wrongly, having said why."""
    if given.csv is None and given.pdf is None:
        return _say(words.no_file(), WRONGLY_CALLED)
    if not (data_dir / DATABASE_NAME).is_file():
        return _say(words.no_data(str(data_dir)), FAILED)
    try:
        store = open_store(data_dir)
    except StoreError as error:
        return _say(console.data_trouble(type(error).__name__, error.details, str(data_dir)), FAILED)
    try:
        found = _cook(store, given.cook)
    except StoreError as error:
        return _say(console.data_trouble(type(error).__name__, error.details, str(data_dir)), FAILED)
    finally:
        store.close()
    if isinstance(found, str):
        return _say(found, WRONGLY_CALLED)
    try:
        record = record_of(found.facts, open_catalogue(data_dir).catalogue, now)
    except SlowbellError as error:
        return _say(words.unreadable(found.id, str(error)), FAILED)
    return _written(record, given)


def _cook(store: SqlStore, wanted: str | None) -> CookSnapshot | str:
    """Return the cook that was asked for, else the newest; or a sentence why there is none."""
    known = store.newest_cooks(_SHOWN)
    if not known:
        return words.no_cooks()
    snapshot = store.cook(wanted or known[0])
    return words.no_such_cook(wanted or "", known) if snapshot is None else snapshot


def _written(record: EventRecord, given: argparse.Namespace) -> int:
    for name, make in ((given.csv, record_csv), (given.pdf, record_pdf)):
        if name is None:
            continue
        try:
            Path(name).write_bytes(make(record))
        except OSError as error:
            return _say(words.not_written(name, error.strerror or ""), FAILED)
        print(words.written(name, record.cook))
    return DONE


def _say(text: str, code: int) -> int:
    print(text, file=sys.stderr)
    return code
