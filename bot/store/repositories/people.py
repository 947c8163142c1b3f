"""People, the invitations by which they come, and their half-finished conversations.

Rights are checked elsewhere (`bot.crew`); a code is never stored as it was given out.
"""

from __future__ import annotations

import datetime as dt
import hashlib

from sqlalchemy import Connection, delete, select, update

from bot.chat import Address
from bot.crew import Person, Role
from bot.ports import InviteWrite, Json, SessionWrite
from bot.store.mappers import address_columns
from bot.store.repositories.rows import put
from bot.store.tables import invite, person, session

_SESSION_KEY = ("transport", "chat", "thread", "person")


def known(connection: Connection, person_id: str) -> Person | None:
    """Return a known person."""
    row = connection.execute(select(person).where(person.c.id == person_id)).one_or_none()
    return None if row is None else Person(id=row.id, name=row.name, role=Role(row.role))


def everyone(connection: Connection) -> tuple[Person, ...]:
    """Return everyone known, in order of joining."""
    rows = connection.execute(select(person).order_by(person.c.seq))
    return tuple(Person(id=row.id, name=row.name, role=Role(row.role)) for row in rows)


def save(connection: Connection, one: Person) -> None:
    """Store a person, or their new name or role."""
    put(connection, person, {"id": one.id, "name": one.name, "role": str(one.role)}, key=("id",))


# --- invitations ----------------------------------------------------------------------------------------------------


def find_invite(connection: Connection, code: str, now: dt.datetime) -> InviteWrite | None:
    """Return an unspent, unexpired invitation for this code."""
    query = select(invite).where(invite.c.hash == _hash(code), invite.c.spent_at.is_(None), invite.c.expires_at > now)
    row = connection.execute(query).one_or_none()
    if row is None:
        return None
    return InviteWrite(code=code, role=row.role, expires_at=row.expires_at, cook=row.cook)


def save_invite(connection: Connection, one: InviteWrite) -> None:
    """Store an invitation under the hash of its code."""
    columns = {"hash": _hash(one.code), "role": one.role, "cook": one.cook, "expires_at": one.expires_at}
    put(connection, invite, columns, key=("hash",))


def spend(connection: Connection, code: str, now: dt.datetime) -> bool:
    """Use up an invitation; False when it is unknown, spent or expired."""
    statement = (
        update(invite)
        .where(invite.c.hash == _hash(code), invite.c.spent_at.is_(None), invite.c.expires_at > now)
        .values(spent_at=now)
    )
    return connection.execute(statement).rowcount == 1


def cancel_invites(connection: Connection, now: dt.datetime) -> None:
    """Make every code useless that nobody has used yet, but for that of an owner."""
    unused = invite.c.spent_at.is_(None), invite.c.expires_at > now, invite.c.role != Role.OWNER.value
    connection.execute(update(invite).where(*unused).values(expires_at=now))


def _hash(code: str) -> str:
    return hashlib.sha256(code.encode()).hexdigest()


# --- conversations --------------------------------------------------------------------------------------------------


def conversation(connection: Connection, address: Address, person_id: str) -> Json | None:
    """Return the half-finished conversation of a person in a room."""
    here = [session.c[name] == value for name, value in address_columns(address).items()]
    query = select(session.c.data).where(*here, session.c.person == person_id)
    return connection.execute(query).scalar_one_or_none()


def save_conversation(connection: Connection, one: SessionWrite, now: dt.datetime) -> None:
    """Store or forget a half-finished conversation."""
    key = {**address_columns(one.address), "person": one.person}
    if one.data is None:
        connection.execute(delete(session).where(*(session.c[name] == value for name, value in key.items())))
    else:
        put(connection, session, {**key, "data": dict(one.data), "written_at": now}, key=_SESSION_KEY)
