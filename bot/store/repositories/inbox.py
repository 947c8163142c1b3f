"""Raw updates: accepted once per source and key, worked on in order of acceptance, kept.

What an update means is none of this module's business.
"""

from __future__ import annotations

import datetime as dt

from sqlalchemy import Connection, func, select, update

from bot.ports import InboxRow, Json
from bot.store.repositories.rows import insert_new
from bot.store.tables import InboxState, in_state, inbox


def accept(connection: Connection, *, source: str, key: str, raw: Json, received_at: dt.datetime) -> bool:
    """Store a raw update; False when this source and key were stored before."""
    columns = {
        "source": source,
        "key": key,
        "raw": dict(raw),
        "received_at": received_at,
        "state": InboxState.WAITING,
        "result": "",
    }
    return insert_new(connection, inbox, columns, key=("source", "key"))


def waiting(connection: Connection, limit: int) -> tuple[InboxRow, ...]:
    """Return rows not yet worked on, oldest first."""
    query = select(inbox).where(in_state(inbox, InboxState.WAITING)).order_by(inbox.c.id).limit(limit)
    return tuple(
        InboxRow(id=row.id, source=row.source, key=row.key, raw=row.raw, received_at=row.received_at)
        for row in connection.execute(query)
    )


def last_received_at(connection: Connection, source: str) -> dt.datetime | None:
    """Return the newest instant of acceptance of a source."""
    query = select(func.max(inbox.c.received_at)).where(inbox.c.source == source)
    newest: dt.datetime | None = connection.execute(query).scalar_one()
    return newest


def finish(connection: Connection, row_id: int, *, result: str, now: dt.datetime) -> bool:
    """Mark a row as worked on; False when it was already."""
    statement = (
        update(inbox)
        .where(inbox.c.id == row_id, in_state(inbox, InboxState.WAITING))
        .values(state=InboxState.DONE, result=result, done_at=now)
    )
    return connection.execute(statement).rowcount == 1
