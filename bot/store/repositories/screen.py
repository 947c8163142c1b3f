"""What each named person's terminal window shows: rows that are added once and then marked as printed.

Nothing is printed here.
"""

from __future__ import annotations

import datetime as dt

from sqlalchemy import Connection, select, update

from bot.ports import ScreenRow
from bot.store.repositories.rows import insert_new
from bot.store.tables import screen


def show(
    connection: Connection,
    *,
    chat: str,
    outbox_key: str,
    text: str,
    choices: tuple[tuple[str, str], ...],
    at: dt.datetime,
) -> int:
    """Add a message once per outbox key; return its row id."""
    offered = [[label, token] for label, token in choices]
    columns = {"chat": chat, "outbox_key": outbox_key, "text": text, "choices": offered, "at": at}
    insert_new(connection, screen, columns, key=("chat", "outbox_key"))
    query = select(screen.c.id).where(screen.c.chat == chat, screen.c.outbox_key == outbox_key)
    row_id: int = connection.execute(query).scalar_one()
    return row_id


def after(connection: Connection, chat: str, row_id: int) -> tuple[ScreenRow, ...]:
    """Return the messages of a window after a row id, oldest first."""
    query = select(screen).where(screen.c.chat == chat, screen.c.id > row_id).order_by(screen.c.id)
    return tuple(
        ScreenRow(
            id=row.id,
            text=row.text,
            choices=tuple((label, token) for label, token in row.choices),
            at=row.at,
            shown=row.shown_at is not None,
        )
        for row in connection.execute(query)
    )


def mark_shown(connection: Connection, chat: str, up_to: int, at: dt.datetime) -> None:
    """Remember that rows up to this id were printed; the first time counts."""
    statement = update(screen).where(screen.c.chat == chat, screen.c.id <= up_to, screen.c.shown_at.is_(None))
    connection.execute(statement.values(shown_at=at))
