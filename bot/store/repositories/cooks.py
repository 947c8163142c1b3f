"""Cooks and their logs, the rooms that follow them, and the caches that can always be computed again.

Facts are only ever added. What they add up to is not computed here.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable

from sqlalchemy import Connection, delete, func, insert, or_, select, update

from bot.chat import Address
from bot.ports import CookSnapshot, CookWrite, Json
from bot.store.mappers import address_columns, address_of, fact_columns, fact_of
from bot.store.repositories.rows import insert_new, put
from bot.store.tables import cache, cook, cook_room, due, fact

_ROOM_KEY = ("cook", "transport", "chat", "thread")


# --- reading --------------------------------------------------------------------------------------------------------


def load(connection: Connection, cook_id: str) -> CookSnapshot | None:
    """Return a cook with its whole log, in order of writing."""
    head = connection.execute(select(cook).where(cook.c.id == cook_id)).one_or_none()
    if head is None:
        return None
    rooms = connection.execute(select(cook_room).where(cook_room.c.cook == cook_id).order_by(cook_room.c.seq))
    facts = connection.execute(select(fact).where(fact.c.cook == cook_id).order_by(fact.c.seq))
    return CookSnapshot(
        id=head.id,
        version=head.version,
        open=head.open,
        rooms=tuple(address_of(row) for row in rooms),
        facts=tuple(fact_of(row) for row in facts),
    )


def open_ids(connection: Connection, address: Address | None) -> tuple[str, ...]:
    """Return ids of open cooks, newest first, optionally only those that a room follows."""
    query = select(cook.c.id).where(cook.c.open).order_by(cook.c.seq.desc())
    if address is not None:
        here = [cook_room.c[name] == value for name, value in address_columns(address).items()]
        query = query.join(cook_room, cook_room.c.cook == cook.c.id).where(*here)
    return tuple(connection.execute(query).scalars())


def recent_ids(connection: Connection, address: Address, limit: int) -> tuple[str, ...]:
    """Return ids of cooks that a room follows or followed, open or over, newest first."""
    here = [cook_room.c[name] == value for name, value in address_columns(address).items()]
    query = select(cook.c.id).join(cook_room, cook_room.c.cook == cook.c.id).where(*here)
    return tuple(connection.execute(query.order_by(cook.c.seq.desc()).limit(limit)).scalars())


def newest_ids(connection: Connection, limit: int) -> tuple[str, ...]:
    """Return ids of cooks, open or over, newest first."""
    return tuple(connection.execute(select(cook.c.id).order_by(cook.c.seq.desc()).limit(limit)).scalars())


def due_ids(connection: Connection, now: dt.datetime) -> tuple[str, ...]:
    """Return ids of open cooks with something due, the longest due first."""
    earliest = func.min(due.c.due_at)
    query = (
        select(cook.c.id)
        .join(due, due.c.cook == cook.c.id)
        .where(cook.c.open, due.c.due_at <= now)
        .group_by(cook.c.id, cook.c.seq)
        .order_by(earliest, cook.c.seq)
    )
    return tuple(connection.execute(query).scalars())


def next_due_at(connection: Connection) -> dt.datetime | None:
    """Return the earliest due instant over all open cooks."""
    query = select(func.min(due.c.due_at)).join(cook, cook.c.id == due.c.cook).where(cook.c.open)
    earliest: dt.datetime | None = connection.execute(query).scalar_one()
    return earliest


def uncached_ids(connection: Connection, engine: str) -> tuple[str, ...]:
    """Return open cooks without caches, or with caches of another log length or engine version."""
    stale = or_(cache.c.cook.is_(None), cache.c.log_length != cook.c.log_length, cache.c.engine != engine)
    query = select(cook.c.id).outerjoin(cache, cache.c.cook == cook.c.id).where(cook.c.open, stale).order_by(cook.c.seq)
    return tuple(connection.execute(query).scalars())


def outlook(connection: Connection, cook_id: str) -> Json | None:
    """Return the cached forecast quantiles."""
    return connection.execute(select(cache.c.outlook).where(cache.c.cook == cook_id)).scalar_one_or_none()


# --- writing --------------------------------------------------------------------------------------------------------


def write(connection: Connection, change: CookWrite) -> bool:
    """Write one cook; False when it is no longer at the expected version."""
    if not _advance(connection, change):
        return False
    if change.facts:
        connection.execute(insert(fact), [fact_columns(one) for one in change.facts])
    follow(connection, change.cook, change.add_rooms)
    _write_caches(connection, change)
    return True


def follow(connection: Connection, cook_id: str, rooms: Iterable[Address]) -> None:
    """Let rooms follow a cook; those that do already stay where they are in the order."""
    for address in rooms:
        insert_new(connection, cook_room, {"cook": cook_id, **address_columns(address)}, key=_ROOM_KEY)


def drop_caches(connection: Connection) -> None:
    """Delete what can be computed again."""
    connection.execute(delete(due))
    connection.execute(delete(cache))


def _advance(connection: Connection, change: CookWrite) -> bool:
    if change.expected_version == 0:
        columns = {"id": change.cook, "version": 1, "open": change.open, "log_length": len(change.facts)}
        return insert_new(connection, cook, columns, key=("id",))
    statement = (
        update(cook)
        .where(cook.c.id == change.cook, cook.c.version == change.expected_version)
        .values(version=cook.c.version + 1, open=change.open, log_length=cook.c.log_length + len(change.facts))
    )
    return connection.execute(statement).rowcount == 1


def _write_caches(connection: Connection, change: CookWrite) -> None:
    if change.due is None and change.outlook is None:
        return
    length = connection.execute(select(cook.c.log_length).where(cook.c.id == change.cook)).scalar_one()
    columns = {"cook": change.cook, "log_length": length, "engine": change.engine}
    if change.outlook is not None:
        columns["outlook"] = dict(change.outlook)
    put(connection, cache, columns, key=("cook",))
    if change.due is not None:
        connection.execute(delete(due).where(due.c.cook == change.cook))
        rows = [{"cook": change.cook, "prompt": row.prompt, "due_at": row.due_at} for row in set(change.due)]
        if rows:
            connection.execute(insert(due), rows)
