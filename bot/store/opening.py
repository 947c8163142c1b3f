"""Opens the store of a data folder: makes the folder private, the file private, the schema current.

No setting is read here; the folder is an argument.
"""

from __future__ import annotations

import os
from pathlib import Path
from typing import Final

from sqlalchemy import Engine, delete, false

from bot.store import migrate
from bot.store.engine import sqlite_engine, writing
from bot.store.errors import FolderNotWritable, OlderInUse
from bot.store.lock import EngineLock, opening
from bot.store.store import SqlStore
from bot.store.tables import due

DATABASE_NAME: Final = "slowbell.db"


def open_store(data_dir: Path, *, lock: EngineLock | None = None) -> SqlStore:
    """Return the store of a data folder, made if it is not there, upgraded if it is older.

    Any process may open it, the engine or not, several at once. An older database is upgraded only while nobody else
    uses it: pass the `lock` when it is held. Raises the errors of `bot.store.errors`.
    """
    path = _private_file(data_dir)
    with opening(data_dir):
        engine = sqlite_engine(path)
        try:
            _bring_up_to_date(engine, data_dir, lock)
            with writing(engine) as connection:
                # A database that can only be read is of no use: say so now. SQLite lets BEGIN IMMEDIATE pass on one.
                connection.execute(delete(due).where(false()))
            return SqlStore(engine)
        except BaseException:
            engine.dispose()
            raise


def _private_file(data_dir: Path) -> Path:
    """Make the folder (0700) and an empty database file (0600); what is there already keeps its modes."""
    path = data_dir / DATABASE_NAME
    try:
        if not data_dir.is_dir():
            data_dir.mkdir(mode=0o700, parents=True, exist_ok=True)
        if not path.exists():
            os.close(os.open(path, os.O_RDWR | os.O_CREAT, 0o600))
    except OSError as error:
        raise FolderNotWritable(path=str(data_dir), why=error.strerror) from error
    return path


def _bring_up_to_date(engine: Engine, data_dir: Path, lock: EngineLock | None) -> None:
    found = migrate.revision(engine)
    if found is None or found == migrate.head() or (lock is not None and lock.held):
        migrate.migrate(engine)
        return
    mine = EngineLock(data_dir)
    if not mine.try_acquire():
        raise OlderInUse(path=str(data_dir), found=found, known=migrate.head())
    try:
        migrate.migrate(engine)
    finally:
        mine.release()
