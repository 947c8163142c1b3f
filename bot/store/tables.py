"""Every table of the database, as SQLAlchemy Core. Migrations must lead to exactly this (tests/migration).

No queries live here, and no class of the program is mapped onto a table.
"""

from __future__ import annotations

import datetime as dt
from enum import StrEnum
from typing import Any, Final

from sqlalchemy import (
    JSON,
    BigInteger,
    Boolean,
    CheckConstraint,
    Column,
    ColumnElement,
    Dialect,
    ForeignKey,
    FromClause,
    Index,
    Integer,
    LargeBinary,
    MetaData,
    String,
    Table,
    Text,
    UniqueConstraint,
    bindparam,
    text,
)
from sqlalchemy.types import TypeDecorator

_EPOCH: Final = dt.datetime(1970, 1, 1, tzinfo=dt.UTC)
_MICROSECOND: Final = dt.timedelta(microseconds=1)
NO_THREAD: Final = 0
"""Stands for "no topic" in the thread columns, so that they can be part of a unique key."""


class InboxState(StrEnum):
    """What became of an accepted update."""

    WAITING = "waiting"
    DONE = "done"
    """Worked on; the one-word result stands beside it."""


class OutboxState(StrEnum):
    """What became of a message."""

    WAITING = "waiting"
    SENDING = "sending"
    """Claimed by a courier until its lease runs out."""
    SENT = "sent"
    """Delivered, or sent twice without an answer (then `why` says so)."""
    PARKED = "parked"
    """Refused by the other side, or tried too often: kept for the operator."""
    DROPPED = "dropped"
    """No longer of use when it could have been sent."""
    WITHDRAWN = "withdrawn"
    """Taken back before it was sent."""
    SUPERSEDED = "superseded"
    """An edit overtaken by a newer edit of the same message."""


class Instant(TypeDecorator[dt.datetime]):
    """An aware instant, stored as whole microseconds since 1970 UTC: sortable and the same on every engine."""

    impl = BigInteger
    cache_ok = True

    def process_bind_param(self, value: dt.datetime | None, dialect: Dialect) -> int | None:  # noqa: ARG002 -- signature of the base class
        """Return microseconds; a naive instant is a broken assumption."""
        if value is None:
            return None
        if value.tzinfo is None:
            raise ValueError(f"naive instant {value!r}")
        return (value - _EPOCH) // _MICROSECOND

    def process_result_value(self, value: int | None, dialect: Dialect) -> dt.datetime | None:  # noqa: ARG002 -- signature of the base class
        """Return the instant in UTC."""
        return None if value is None else _EPOCH + value * _MICROSECOND


metadata = MetaData(
    naming_convention={
        "pk": "pk_%(table_name)s",
        "fk": "fk_%(table_name)s_%(column_0_name)s",
        "uq": "uq_%(table_name)s_%(column_0_N_name)s",
        "ix": "ix_%(table_name)s_%(column_0_N_name)s",
        "ck": "ck_%(table_name)s_%(constraint_name)s",
    }
)
_NUMBER = BigInteger().with_variant(Integer(), "sqlite")
_JSON = JSON(none_as_null=True)


def _numbered(name: str = "id") -> Column[int]:
    """Return a key that only ever grows and is never given out again."""
    return Column(name, _NUMBER, primary_key=True, autoincrement=True)


def _address(*, primary_key: bool = False) -> tuple[Column[Any], ...]:
    return (
        Column("transport", String(32), primary_key=primary_key, nullable=False),
        Column("chat", Text, primary_key=primary_key, nullable=False),
        Column("thread", BigInteger, primary_key=primary_key, autoincrement=False, nullable=False),
    )


def _states(kind: type[StrEnum]) -> CheckConstraint:
    return CheckConstraint(f"state IN ({', '.join(repr(str(s)) for s in kind)})", name="state")


def _partial(name: str, *columns: str, where: str) -> Index:
    return Index(name, *columns, sqlite_where=text(where), postgresql_where=text(where))


def in_state(table: FromClause, *states: StrEnum) -> ColumnElement[bool]:
    """Return the condition on the state of a row, with the states written into the statement.

    Only so does SQLite see that a partial index covers it; bound parameters keep it from looking.
    """
    column = table.c.state
    if len(states) == 1:
        return column == bindparam(None, str(states[0]), literal_execute=True)
    return column.in_(bindparam(None, [str(state) for state in states], expanding=True, literal_execute=True))


inbox = Table(
    "inbox",
    metadata,
    _numbered(),
    Column("source", String(64), nullable=False),
    Column("key", Text, nullable=False),
    Column("raw", _JSON, nullable=False),
    Column("received_at", Instant, nullable=False),
    Column("state", String(16), nullable=False),
    Column("result", Text, nullable=False),
    Column("done_at", Instant),
    UniqueConstraint("source", "key"),
    Index(None, "source", "received_at"),
    _partial("ix_inbox_waiting", "id", where="state = 'waiting'"),
    _states(InboxState),
    sqlite_autoincrement=True,
)

cook = Table(
    "cook",
    metadata,
    _numbered("seq"),
    Column("id", Text, nullable=False),
    Column("version", Integer, nullable=False),
    Column("open", Boolean, nullable=False),
    Column("log_length", Integer, nullable=False),
    UniqueConstraint("id"),
    sqlite_autoincrement=True,
)

cook_room = Table(
    "cook_room",
    metadata,
    _numbered("seq"),
    Column("cook", Text, ForeignKey("cook.id"), nullable=False),
    *_address(),
    UniqueConstraint("cook", "transport", "chat", "thread"),
    Index(None, "transport", "chat", "thread"),
    sqlite_autoincrement=True,
)

fact = Table(
    "fact",
    metadata,
    _numbered("seq"),
    Column("id", Text, nullable=False),
    Column("cook", Text, ForeignKey("cook.id"), nullable=False),
    Column("piece", Text),
    Column("kind", String(32), nullable=False),
    Column("version", Integer, nullable=False),
    Column("happened_at", Instant, nullable=False),
    Column("recorded_at", Instant, nullable=False),
    Column("by", Text),
    Column("body", _JSON, nullable=False),
    Column("answers", _JSON, nullable=False),
    Column("message", Text, index=True),
    UniqueConstraint("id"),
    Index(None, "cook", "seq"),
    sqlite_autoincrement=True,
)

due = Table(
    "due",
    metadata,
    Column("cook", Text, ForeignKey("cook.id"), primary_key=True),
    Column("prompt", Text, primary_key=True),
    Column("due_at", Instant, primary_key=True, index=True),
)

cache = Table(
    "cache",
    metadata,
    Column("cook", Text, ForeignKey("cook.id"), primary_key=True),
    Column("log_length", Integer, nullable=False),
    Column("engine", Text, nullable=False),
    Column("outlook", _JSON),
)

session = Table(
    "session",
    metadata,
    *_address(primary_key=True),
    Column("person", Text, primary_key=True),
    Column("data", _JSON, nullable=False),
    Column("written_at", Instant, nullable=False),
)

person = Table(
    "person",
    metadata,
    _numbered("seq"),
    Column("id", Text, nullable=False),
    Column("name", Text, nullable=False),
    Column("role", String(32), nullable=False),
    UniqueConstraint("id"),
    sqlite_autoincrement=True,
)

room = Table(
    "room",
    metadata,
    _numbered("seq"),
    *_address(),
    Column("title", Text, nullable=False),
    Column("active", Boolean, nullable=False),
    Column("grouped", Boolean, nullable=False),
    Column("why", Text),
    Column("language", String(16)),
    Column("unit", String(1)),
    Column("hears_all", Boolean),
    UniqueConstraint("transport", "chat", "thread"),
    sqlite_autoincrement=True,
)

invite = Table(
    "invite",
    metadata,
    Column("hash", String(64), primary_key=True),
    Column("role", String(32), nullable=False),
    Column("cook", Text),
    Column("expires_at", Instant, nullable=False),
    Column("spent_at", Instant),
)

outbox = Table(
    "outbox",
    metadata,
    _numbered(),
    Column("key", Text, nullable=False),
    *_address(),
    Column("kind", String(16), nullable=False),
    Column("text", Text, nullable=False),
    Column("choices", _JSON, nullable=False),
    Column("silent", Boolean, nullable=False),
    Column("urgent", Boolean, nullable=False),
    Column("target", Text),
    Column("useful_until", Instant),
    Column("cook", Text),
    Column("created_at", Instant, nullable=False),
    Column("state", String(16), nullable=False),
    Column("owner", Text),
    Column("lease_until", Instant),
    Column("attempt", Integer, nullable=False),
    Column("failures", Integer, nullable=False),
    Column("unknown_count", Integer, nullable=False),
    Column("not_before", Instant),
    Column("possible_repeat", Boolean, nullable=False),
    Column("ref", Text),
    Column("sent_at", Instant),
    Column("why", Text),
    Column("lack", String(16)),
    Column("wants_reply", _JSON),
    UniqueConstraint("key"),
    _partial("ix_outbox_unfinished", "transport", "chat", "thread", "id", where="state IN ('waiting', 'sending')"),
    _partial("ix_outbox_waiting", "urgent", "id", where="state = 'waiting'"),
    _states(OutboxState),
    sqlite_autoincrement=True,
)

choice = Table(
    "choice",
    metadata,
    Column("token", Text, primary_key=True),
    Column("outbox_key", Text, ForeignKey("outbox.key"), nullable=False, index=True),
    Column("position", Integer, nullable=False),
    Column("label", Text, nullable=False),
    *_address(),
    Column("cook", Text),
    Column("meaning", _JSON, nullable=False),
    Index(None, "transport", "chat", "thread"),
)

document = Table(
    "document",
    metadata,
    Column("outbox_key", Text, ForeignKey("outbox.key"), primary_key=True),
    Column("name", Text, nullable=False),
    Column("media_type", Text, nullable=False),
    Column("data", LargeBinary, nullable=False),
)

transport_pause = Table(
    "transport_pause",
    metadata,
    Column("transport", String(32), primary_key=True),
    Column("paused_until", Instant),
    Column("locked", Boolean, nullable=False),
    Column("why", Text, nullable=False),
)

screen = Table(
    "screen",
    metadata,
    _numbered(),
    Column("chat", Text, nullable=False),
    Column("outbox_key", Text, nullable=False),
    Column("text", Text, nullable=False),
    Column("choices", _JSON, nullable=False),
    Column("at", Instant, nullable=False),
    Column("shown_at", Instant),
    UniqueConstraint("chat", "outbox_key"),
    Index(None, "chat", "id"),
    sqlite_autoincrement=True,
)
