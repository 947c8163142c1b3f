"""Messages as they are written: stored once per key, withdrawn, overtaken; and what their buttons mean.

Sending them is in `delivery`.
"""

from __future__ import annotations

import datetime as dt
from typing import Any

from sqlalchemy import Connection, Row, Select, exists, func, select, update

from bot.chat import Address, Lack, OutgoingKind
from bot.ports import Fate, OutboxWrite, ShownMessage, StoredChoice, WaitingRow
from bot.store.errors import BrokenWrite
from bot.store.mappers import address_columns, address_of, document_columns, outgoing_columns, outgoing_of
from bot.store.repositories.rows import insert_new
from bot.store.tables import OutboxState, choice, document, in_state, outbox

_FRESH = {"state": OutboxState.WAITING, "attempt": 0, "failures": 0, "unknown_count": 0}


def write(connection: Connection, one: OutboxWrite, now: dt.datetime) -> None:
    """Store a message and its choices; a key that is stored already is left as it is."""
    outgoing = one.outgoing
    offered = [button for line in outgoing.choices for button in line]
    if len(offered) != len(one.meanings):
        raise BrokenWrite("Every choice needs a meaning.", key=outgoing.key)
    columns = {
        **outgoing_columns(outgoing),
        **_FRESH,
        "cook": one.cook,
        "created_at": now,
        "not_before": one.held_until,
    }
    if not insert_new(connection, outbox, columns, key=("key",)):
        return
    if outgoing.document is not None:
        insert_new(connection, document, document_columns(outgoing.key, outgoing.document), key=("outbox_key",))
    if outgoing.kind is OutgoingKind.EDIT:
        _supersede(connection, outgoing.key, outgoing.target)
    for position, (button, meaning) in enumerate(zip(offered, one.meanings, strict=True)):
        row = {
            "token": button.token,
            "label": button.label,
            "outbox_key": outgoing.key,
            "position": position,
            **address_columns(outgoing.address),
            "cook": one.cook,
            "meaning": dict(meaning),
        }
        insert_new(connection, choice, row, key=("token",))


def withdraw(connection: Connection, key: str) -> None:
    """Take a waiting message back; one that is on its way or gone stays."""
    statement = update(outbox).where(outbox.c.key == key, in_state(outbox, OutboxState.WAITING))
    connection.execute(statement.values(state=OutboxState.WITHDRAWN, why="withdrawn"))


def _supersede(connection: Connection, key: str, target: str | None) -> None:
    """Give up waiting edits of the same message: only its newest text is worth sending."""
    statement = update(outbox).where(
        outbox.c.kind == OutgoingKind.EDIT,
        outbox.c.target == target,
        outbox.c.key != key,
        in_state(outbox, OutboxState.WAITING),
    )
    connection.execute(statement.values(state=OutboxState.SUPERSEDED, why=f"overtaken by {key}"))


def fate(connection: Connection, key: str) -> Fate | None:
    """Return what has become of a message; None when it was never written."""
    query = select(outbox.c.state, outbox.c.lack).where(outbox.c.key == key)
    row = connection.execute(query).one_or_none()
    if row is None:
        return None
    open_states = (OutboxState.WAITING, OutboxState.SENDING, OutboxState.SENT)
    return Fate(
        sent=row.state == OutboxState.SENT,
        over=row.state not in open_states,
        lack=None if row.lack is None else Lack(row.lack),
    )


def refuses_signs(connection: Connection, address: Address) -> bool:
    """Return whether a sign was refused in the chat of a room."""
    here = (outbox.c.transport == address.transport, outbox.c.chat == address.chat)
    refused = (outbox.c.kind == str(OutgoingKind.REACTION), outbox.c.lack == str(Lack.REACTION))
    return connection.execute(select(outbox.c.id).where(*here, *refused).limit(1)).first() is not None


def waiting(connection: Connection, address: Address | None) -> tuple[WaitingRow, ...]:
    """Return messages that wait (for a room), oldest first, without their files."""
    here = {} if address is None else address_columns(address)
    conditions = [outbox.c[name] == value for name, value in here.items()]
    # The wider condition comes along because an index covers that one: the history need not be read.
    states = (in_state(outbox, OutboxState.WAITING, OutboxState.SENDING), in_state(outbox, OutboxState.WAITING))
    file = exists().where(document.c.outbox_key == outbox.c.key).label("has_file")
    rows = connection.execute(select(outbox, file).where(*states, *conditions).order_by(outbox.c.id))
    return tuple(
        WaitingRow(outgoing=outgoing_of(row), cook=row.cook, created_at=row.created_at, has_file=bool(row.has_file))
        for row in rows
    )


def counts(connection: Connection) -> dict[str, int]:
    """Return how many messages are in each state, and how many may have arrived twice."""
    by_state = connection.execute(select(outbox.c.state, func.count()).group_by(outbox.c.state)).all()
    found = {str(state): 0 for state in OutboxState} | {row.state: row[1] for row in by_state}
    repeats = select(func.count()).select_from(outbox).where(outbox.c.possible_repeat)
    return {**found, "possible_repeat": connection.execute(repeats).scalar_one()}


# --- choices --------------------------------------------------------------------------------------------------------


def meaning(connection: Connection, token: str) -> StoredChoice | None:
    """Return what a button means."""
    row = connection.execute(select(choice).where(choice.c.token == token)).one_or_none()
    return None if row is None else _choice_of(row)


def open_choices(connection: Connection, address: Address) -> tuple[StoredChoice, ...]:
    """Return the choices of the newest message with choices in a room, in order.

    A message that has left (or is leaving) is preferred to one that nobody can have seen yet.
    """
    seen = (OutboxState.SENT, OutboxState.SENDING)
    for states in (seen, (OutboxState.WAITING,)):
        key = connection.execute(_newest(address, states)).scalar_one_or_none()
        if key is not None:
            rows = connection.execute(select(choice).where(choice.c.outbox_key == key).order_by(choice.c.position))
            return tuple(_choice_of(row) for row in rows)
    return ()


def shown(connection: Connection, key: str) -> ShownMessage | None:
    """Return a message as it is shown now: as it was written, or as its newest edit made it."""
    versions = select(outbox).where((outbox.c.key == key) | (outbox.c.target == key)).order_by(outbox.c.id.desc())
    kinds = (OutgoingKind.MESSAGE, OutgoingKind.EDIT)
    row = connection.execute(versions.where(outbox.c.kind.in_([str(kind) for kind in kinds]))).first()
    if row is None:
        return None
    outgoing = outgoing_of(row)
    return ShownMessage(text=outgoing.text, choices=outgoing.choices, captioned=has_file(connection, key))


def has_file(connection: Connection, key: str | None) -> bool:
    """Return whether a message was written with a file."""
    return bool(connection.execute(select(exists().where(document.c.outbox_key == key))).scalar_one())


def _newest(address: Address, states: tuple[OutboxState, ...]) -> Select[Any]:
    here = [choice.c[name] == value for name, value in address_columns(address).items()]
    return (
        select(outbox.c.key)
        .join(choice, choice.c.outbox_key == outbox.c.key)
        .where(*here, in_state(outbox, *states))
        .order_by(outbox.c.id.desc())
        .limit(1)
    )


def _choice_of(row: Row[Any]) -> StoredChoice:
    return StoredChoice(
        token=row.token,
        label=row.label,
        outbox_key=row.outbox_key,
        address=address_of(row),
        cook=row.cook,
        meaning=row.meaning,
    )
