"""Inserting what may be there already: the two statements in which SQLite and PostgreSQL need their own dialect.

Nothing here knows what the tables mean.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from sqlalchemy import Connection, Table
from sqlalchemy.dialects import sqlite

from bot.store.mappers import Columns


def insert_new(connection: Connection, table: Table, columns: Columns, *, key: Sequence[str]) -> bool:
    """Insert a row; False (and nothing written) when one with the same key columns is there."""
    statement = _insert(connection, table).values(**columns).on_conflict_do_nothing(index_elements=list(key))
    return connection.execute(statement).rowcount == 1


def put(connection: Connection, table: Table, columns: Columns, *, key: Sequence[str]) -> None:
    """Insert a row, or overwrite the columns given here of the one that is there."""
    statement = _insert(connection, table).values(**columns)
    fresh = {name: statement.excluded[name] for name in columns if name not in key}
    connection.execute(statement.on_conflict_do_update(index_elements=list(key), set_=fresh))


def _insert(connection: Connection, table: Table) -> Any:  # noqa: ANN401 -- the two dialects share no class for this
    if connection.dialect.name == "postgresql":
        from sqlalchemy.dialects import postgresql  # noqa: PLC0415 - slow to import, and the other engine is usual

        return postgresql.insert(table)
    return sqlite.insert(table)
