"""Claim and fence: which messages a courier may send now, and what is recorded of each attempt.

One message per address is on its way at a time. `attempt` rises with every claim; a record with an older one is void.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from typing import Any

from sqlalchemy import ColumnElement, Connection, FromClause, Row, and_, delete, exists, func, or_, select, update

from bot.chat import EDIT_PACE, Declined, Lack, Locked, Moved, Outcome, OutgoingKind, Sent, TryAgain, Unreachable
from bot.ports import ClaimedRow
from bot.store.aftermath import Attempted, abandoned, after
from bot.store.mappers import address_of, document_of, outgoing_of
from bot.store.repositories import rooms
from bot.store.repositories.outbox import has_file
from bot.store.repositories.rows import insert_new, put
from bot.store.tables import OutboxState, document, in_state, outbox, room, transport_pause

_UNFINISHED = (OutboxState.WAITING, OutboxState.SENDING)
_AT_A_MESSAGE = (OutgoingKind.EDIT, OutgoingKind.PIN, OutgoingKind.UNPIN)
"""What is done to an earlier message of ours."""


# --- claiming -------------------------------------------------------------------------------------------------------


def claim(
    connection: Connection,
    *,
    owner: str,
    now: dt.datetime,
    transports: Sequence[str],
    limit: int,
    lease: dt.timedelta,
) -> tuple[ClaimedRow, ...]:
    """Move the next message of each free address to sending, urgent ones first, at most `limit`."""
    end_leases(connection, now, ended=outbox.c.lease_until <= now)
    _drop_useless(connection, now, transports)
    ids = connection.execute(
        select(outbox.c.id)
        .where(*_sendable(now, transports))
        .order_by(outbox.c.urgent.desc(), outbox.c.id)
        .limit(limit)
    ).scalars()
    claimed = connection.execute(
        update(outbox)
        .where(outbox.c.id.in_(ids.all()), in_state(outbox, OutboxState.WAITING))
        .values(state=OutboxState.SENDING, owner=owner, lease_until=now + lease, attempt=outbox.c.attempt + 1)
        .returning(*outbox.c)
    ).all()
    # The order of RETURNING is not promised by either engine.
    return tuple(_claimed(connection, row) for row in sorted(claimed, key=lambda row: (not row.urgent, row.id)))


def end_leases(connection: Connection, now: dt.datetime, *, ended: ColumnElement[bool]) -> None:
    """Give up attempts whose courier is gone. Whether they arrived is unknown."""
    # The wider condition comes along because the index covers that one: the history need not be read.
    sending = (in_state(outbox, *_UNFINISHED), in_state(outbox, OutboxState.SENDING))
    gone = connection.execute(select(outbox).where(*sending, ended)).all()
    for row in gone:
        _write(connection, row.id, abandoned(_attempted(row), now).columns())


def of(transports: Sequence[str]) -> ColumnElement[bool]:
    """Return the condition that a message goes out by one of these transports."""
    return outbox.c.transport.in_(transports)


def _drop_useless(connection: Connection, now: dt.datetime, transports: Sequence[str]) -> None:
    useless = update(outbox).where(in_state(outbox, OutboxState.WAITING), of(transports), outbox.c.useful_until < now)
    connection.execute(useless.values(state=OutboxState.DROPPED, why="no longer of use"))


def _sendable(now: dt.datetime, transports: Sequence[str]) -> tuple[ColumnElement[bool], ...]:
    """Conditions of the first message of an address on which nothing waits or is on its way."""
    other = outbox.alias("other")
    same_chat = and_(other.c.transport == outbox.c.transport, other.c.chat == outbox.c.chat)
    same_place = other.c.thread == outbox.c.thread
    before = or_(other.c.urgent > outbox.c.urgent, and_(other.c.urgent == outbox.c.urgent, other.c.id < outbox.c.id))
    blocks = and_(
        same_chat,
        in_state(other, *_UNFINISHED),
        ~_paced(other, now),
        or_(
            other.c.not_before > now,  # what the other side asked of a chat holds for all its topics
            and_(same_place, or_(in_state(other, OutboxState.SENDING), before)),
        ),
    )
    away = and_(room.c.transport == outbox.c.transport, room.c.chat == outbox.c.chat, ~room.c.active)
    return (
        in_state(outbox, OutboxState.WAITING),
        of(transports),
        outbox.c.transport.not_in(
            select(transport_pause.c.transport).where(
                or_(transport_pause.c.locked, transport_pause.c.paused_until > now)
            )
        ),
        or_(outbox.c.not_before.is_(None), outbox.c.not_before <= now),
        ~exists().where(blocks),
        ~exists().where(away),
    )


def _paced(table: FromClause, now: dt.datetime) -> ColumnElement[bool]:
    """Return the condition that an edit only waits for the pace of edits: nobody waits for it."""
    return and_(
        table.c.kind == OutgoingKind.EDIT, table.c.not_before > now, func.coalesce(table.c.why, "") == EDIT_PACE
    )


def _claimed(connection: Connection, row: Row[Any]) -> ClaimedRow:
    ref = None
    if row.kind in _AT_A_MESSAGE:
        ref = connection.execute(select(outbox.c.ref).where(outbox.c.key == row.target)).scalar_one_or_none()
    found = connection.execute(select(document).where(document.c.outbox_key == row.key)).one_or_none()
    outgoing = outgoing_of(row, None if found is None else document_of(found))
    captioned = row.kind == OutgoingKind.EDIT and has_file(connection, row.target)
    return ClaimedRow(id=row.id, attempt=row.attempt, outgoing=outgoing, target_ref=ref, target_file=captioned)


# --- recording ------------------------------------------------------------------------------------------------------


def record(connection: Connection, claimed: ClaimedRow, outcome: Outcome, now: dt.datetime) -> bool:
    """Record what became of an attempt; False when it is no longer the current one."""
    current = and_(
        outbox.c.id == claimed.id,
        outbox.c.attempt == claimed.attempt,
        in_state(outbox, OutboxState.SENDING),
    )
    row = connection.execute(select(outbox).where(current).with_for_update()).one_or_none()
    if row is None:
        return False
    _write(connection, row.id, after(_attempted(row), outcome, now).columns())
    match outcome:
        case Sent(at=at) if at is not None:
            rooms.move_topic(connection, address_of(row), at)
        case Moved(to=to):
            rooms.move_chat(connection, address_of(row), to)
        case Declined(lack=Lack.GONE) if row.kind in _AT_A_MESSAGE:
            connection.execute(update(outbox).where(outbox.c.key == row.target).values(lack=Lack.GONE))
        case Unreachable(why=why):
            rooms.pause(connection, address_of(row), why)
        case TryAgain(wait=wait, why=why, whole_transport=True):
            _pause(connection, row.transport, now + wait, why)
        case Locked(why=why):
            columns = {"transport": row.transport, "paused_until": None, "locked": True, "why": why}
            put(connection, transport_pause, columns, key=("transport",))
        case _:
            pass
    return True


def _attempted(row: Row[Any]) -> Attempted:
    return Attempted(
        kind=OutgoingKind(row.kind),
        failures=row.failures,
        unknown_count=row.unknown_count,
        possible_repeat=row.possible_repeat,
    )


def _write(connection: Connection, row_id: int, columns: dict[str, Any]) -> None:
    connection.execute(update(outbox).where(outbox.c.id == row_id).values(**columns))


# --- pauses ---------------------------------------------------------------------------------------------------------


def _pause(connection: Connection, transport: str, until: dt.datetime, why: str) -> None:
    """Pause a transport; of two pauses the later end holds, and a lock is not loosened."""
    columns = {"transport": transport, "paused_until": until, "locked": False, "why": why}
    if insert_new(connection, transport_pause, columns, key=("transport",)):
        return
    shorter = or_(transport_pause.c.paused_until.is_(None), transport_pause.c.paused_until < until)
    statement = update(transport_pause).where(transport_pause.c.transport == transport, shorter)
    connection.execute(statement.values(paused_until=until))


def clear_pause(connection: Connection, transport: str) -> None:
    """Let a transport that refused us try again (a new token, a new start); a rate limit runs on."""
    mine = (transport_pause.c.transport == transport, transport_pause.c.locked)
    connection.execute(delete(transport_pause).where(*mine))


def next_send_at(connection: Connection, transports: Sequence[str]) -> dt.datetime | None:
    """Return the earliest instant at which something may be sent, after pauses, back-offs and leases."""
    paced = and_(outbox.c.kind == OutgoingKind.EDIT, func.coalesce(outbox.c.why, "") == EDIT_PACE)
    address = (outbox.c.transport, outbox.c.chat, outbox.c.thread, paced)
    away = and_(room.c.transport == outbox.c.transport, room.c.chat == outbox.c.chat, ~room.c.active)
    query = (
        select(
            outbox.c.transport,
            func.min(outbox.c.created_at).label("created_at"),
            func.max(outbox.c.not_before).label("not_before"),
            func.max(outbox.c.lease_until).label("lease_until"),
        )
        .where(in_state(outbox, *_UNFINISHED), of(transports), ~exists().where(away))
        .group_by(*address)
    )
    pauses = {row.transport: row for row in connection.execute(select(transport_pause))}
    found: list[dt.datetime] = []
    for row in connection.execute(query):
        pause = pauses.get(row.transport)
        if pause is not None and pause.locked:
            continue
        paused_until = None if pause is None else pause.paused_until
        bounds = (row.created_at, row.not_before, row.lease_until, paused_until)
        found.append(max(at for at in bounds if at is not None))
    return min(found, default=None)
