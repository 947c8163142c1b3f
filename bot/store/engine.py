"""Makes the SQLAlchemy engine: SQLite in WAL mode, flushed to disk at every commit, safe over threads and processes.

No tables and no queries live here.
"""

from __future__ import annotations

import json
import sqlite3
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Final

from sqlalchemy import Connection, Engine, create_engine, event
from sqlalchemy.engine import URL, ExceptionContext

from bot.store.errors import translate

BUSY_TIMEOUT_MS: Final = 10_000
"""How long a writer waits for another; a transaction here takes milliseconds, so this is never reached in health."""
_WRITES: Final = "slowbell_writes"
_PRAGMAS: Final = (
    f"PRAGMA busy_timeout = {BUSY_TIMEOUT_MS}",
    "PRAGMA journal_mode = WAL",
    "PRAGMA synchronous = FULL",  # home machines lose power; NORMAL may then lose the last commits
    "PRAGMA foreign_keys = ON",
)


def sqlite_engine(path: Path) -> Engine:
    """Return an engine on a SQLite file. Driver errors come out as `bot.store.errors`."""
    engine = create_engine(
        URL.create("sqlite", database=str(path)), json_serializer=_to_json, json_deserializer=json.loads
    )
    event.listen(engine, "connect", _prepare)
    event.listen(engine, "begin", _begin)
    event.listen(engine, "handle_error", _handle_error)
    return engine


@contextmanager
def reading(engine: Engine) -> Iterator[Connection]:
    """One transaction that sees one state of the database and locks nobody out."""
    with engine.connect() as connection, connection.begin():
        yield connection


@contextmanager
def writing(engine: Engine) -> Iterator[Connection]:
    """One transaction that holds the write lock from its first moment; an exception undoes all of it."""
    with engine.connect() as plain, plain.execution_options(**{_WRITES: True}) as connection, connection.begin():
        yield connection


class ChangeCounter:
    """Tells whether a database was written to, from a connection that does nothing else.

    SQLite compares with what the same connection saw before ("PRAGMA data_version"), so writes of this process through
    other connections count as well.
    """

    def __init__(self, engine: Engine) -> None:
        self._connection = engine.raw_connection()
        self._path = engine.url.database or ""
        self._one_reader = threading.Lock()

    def read(self) -> int:
        """Return a number that is another one after every commit of another connection."""
        with self._one_reader:
            cursor = self._connection.cursor()
            try:
                cursor.execute("PRAGMA data_version")
                ((counter,),) = cursor.fetchall()
            except sqlite3.Error as error:
                raise translate(error, path=self._path) or error from error
            finally:
                cursor.close()
        return int(counter)

    def close(self) -> None:
        """Give the connection back."""
        self._connection.close()


def _prepare(connection: sqlite3.Connection, _record: object) -> None:
    # The driver must not begin transactions by itself: it would begin deferred ones, which may fail half way.
    connection.isolation_level = None
    for pragma in _PRAGMAS:
        connection.execute(pragma).close()


def _begin(connection: Connection) -> None:
    writes = connection.get_execution_options().get(_WRITES, False)
    connection.exec_driver_sql("BEGIN IMMEDIATE" if writes else "BEGIN")


def _handle_error(context: ExceptionContext) -> None:
    database = context.engine.url.database if context.engine is not None else None
    error = translate(context.original_exception, path=database or "")
    if error is not None:
        raise error from context.original_exception


def _to_json(value: object) -> str:
    # ASCII only: a lone surrogate in what a chat sent must not make its row impossible to store.
    return json.dumps(value, ensure_ascii=True, allow_nan=False, separators=(",", ":"))
