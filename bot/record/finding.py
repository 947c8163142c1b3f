"""Finds a cook in the data folder for the commands that write files of it. It words nothing and changes no data."""

from __future__ import annotations

import sys
from pathlib import Path

from bot.messages import console
from bot.messages import record_command as words
from bot.ports import CookSnapshot
from bot.store import SqlStore, open_store
from bot.store.errors import StoreError
from bot.store.opening import DATABASE_NAME

DONE, FAILED, WRONGLY_CALLED = 0, 1, 2
_SHOWN = 8
"""Cooks that are named when the one asked for is not there."""


def found_cook(data_dir: Path, wanted: str | None) -> CookSnapshot | int:
    """Return the cook that was asked for, else the newest; or the exit code, having said why there is none."""
    if not (data_dir / DATABASE_NAME).is_file():
        return said(words.no_data(str(data_dir)), FAILED)
    try:
        store = open_store(data_dir)
    except StoreError as error:
        return said(console.data_trouble(type(error).__name__, error.details, str(data_dir)), FAILED)
    try:
        found = _cook(store, wanted)
    except StoreError as error:
        return said(console.data_trouble(type(error).__name__, error.details, str(data_dir)), FAILED)
    finally:
        store.close()
    return said(found, WRONGLY_CALLED) if isinstance(found, str) else found


def _cook(store: SqlStore, wanted: str | None) -> CookSnapshot | str:
    known = store.newest_cooks(_SHOWN)
    if not known:
        return words.no_cooks()
    snapshot = store.cook(wanted or known[0])
    return words.no_such_cook(wanted or "", known) if snapshot is None else snapshot


def said(text: str, code: int) -> int:
    """Say a sentence where errors go; return the exit code."""
    print(text, file=sys.stderr)
    return code
