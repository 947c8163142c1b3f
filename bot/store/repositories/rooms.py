"""Rooms that may be written to, and what happens when a chat goes away, comes back or gets a new address.

A pause and a move hold for a whole chat with all its topics. Messages for a paused chat are held, not lost.
"""

from __future__ import annotations

from sqlalchemy import ColumnElement, Connection, FromClause, Table, and_, delete, exists, select, update

from bot.chat import Address
from bot.ports import RoomWrite
from bot.store.mappers import Columns, address_columns, address_of
from bot.store.repositories.rows import insert_new
from bot.store.tables import OutboxState, choice, cook_room, in_state, outbox, room, session

_KEY = ("transport", "chat", "thread")


def every(connection: Connection) -> tuple[RoomWrite, ...]:
    """Return every room ever registered, oldest first."""
    rows = connection.execute(select(room).order_by(room.c.seq))
    return tuple(
        RoomWrite(
            address=address_of(row),
            title=row.title,
            active=row.active,
            group=row.grouped,
            language=row.language,
            unit=row.unit,
            hears_all=row.hears_all,
        )
        for row in rows
    )


def save(connection: Connection, one: RoomWrite) -> None:
    """Register a room or its new state; an empty title, and what is None, leave what is known."""
    manner = {"language": one.language, "unit": one.unit, "hears_all": one.hears_all}
    columns = {**address_columns(one.address), "title": one.title, "active": one.active, "grouped": one.group, **manner}
    if not insert_new(connection, room, columns, key=_KEY):
        known = update(room).where(*_of_chat(room, one.address), room.c.thread == columns["thread"])
        said = {name: value for name, value in {"title": one.title, **manner}.items() if value not in {"", None}}
        connection.execute(known.values(grouped=one.group, **said))
    _set_active(connection, one.address, active=one.active, why=None)


def pause(connection: Connection, address: Address, why: str) -> None:
    """Stop writing to a chat until it is registered as active again."""
    fresh = {**address_columns(address), "title": "", "active": False, "grouped": False}
    insert_new(connection, room, fresh, key=_KEY)
    _set_active(connection, address, active=False, why=why)


def move_chat(connection: Connection, old: Address, new: Address) -> None:
    """Give a chat its new address everywhere it is still needed. Doing it twice changes nothing more."""
    if (old.transport, old.chat) == (new.transport, new.chat):
        return
    for table, key in ((cook_room, ("cook",)), (session, ("person",)), (room, ())):
        _drop_doubles(connection, table, key, old, new)
    for table in (cook_room, session, room, choice):
        _repoint(connection, table, old, new)
    unfinished = in_state(outbox, OutboxState.WAITING, OutboxState.SENDING)
    connection.execute(update(outbox).where(*_of_chat(outbox, old), unfinished).values(**_chat(new)))
    _set_active(connection, new, active=True, why=None)


def move_topic(connection: Connection, old: Address, new: Address) -> None:
    """Let what was in one topic go on in another place of the same chat: the topic is closed or gone."""
    gone, here = address_columns(old), address_columns(new)
    if gone == here:
        return
    for table, key in ((cook_room, ("cook",)), (session, ("person",)), (room, ())):
        own = table.alias()
        same = and_(*_at(own, here), *(own.c[name] == table.c[name] for name in key))
        connection.execute(delete(table).where(*_at(table, gone), exists().where(same)))
    for table in (cook_room, session, room, choice):
        connection.execute(update(table).where(*_at(table, gone)).values(**here))
    unfinished = in_state(outbox, OutboxState.WAITING, OutboxState.SENDING)
    connection.execute(update(outbox).where(*_at(outbox, gone), unfinished).values(**here))


def _at(table: FromClause, columns: Columns) -> tuple[ColumnElement[bool], ...]:
    return tuple(table.c[name] == value for name, value in columns.items())


def _repoint(connection: Connection, table: Table, old: Address, new: Address) -> None:
    connection.execute(update(table).where(*_of_chat(table, old)).values(**_chat(new)))


def _drop_doubles(connection: Connection, table: Table, key: tuple[str, ...], old: Address, new: Address) -> None:
    """Delete rows of the old chat for which the new one has its own already."""
    own = table.alias()
    same = and_(*_of_chat(own, new), *(own.c[name] == table.c[name] for name in (*key, "thread")))
    connection.execute(delete(table).where(*_of_chat(table, old), exists().where(same)))


def _set_active(connection: Connection, address: Address, *, active: bool, why: str | None) -> None:
    connection.execute(update(room).where(*_of_chat(room, address)).values(active=active, why=why))


def _chat(address: Address) -> dict[str, str]:
    return {"transport": address.transport, "chat": address.chat}


def _of_chat(table: FromClause, address: Address) -> tuple[ColumnElement[bool], ColumnElement[bool]]:
    return (table.c.transport == address.transport, table.c.chat == address.chat)
