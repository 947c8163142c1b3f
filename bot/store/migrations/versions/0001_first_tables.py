"""First tables."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None
branch_labels = None
depends_on = None

_NUMBER = sa.BigInteger().with_variant(sa.Integer(), "sqlite")
_JSON = sa.JSON(none_as_null=True)
_TABLES = (
    "fact", "due", "cook_room", "choice", "cache", "transport_pause", "session", "screen", "room", "person",
    "outbox", "invite", "inbox", "cook",
)  # fmt: skip


def upgrade() -> None:
    op.create_table(
        "cook",
        sa.Column("seq", _NUMBER, nullable=False),
        sa.Column("id", sa.Text(), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("open", sa.Boolean(), nullable=False),
        sa.Column("log_length", sa.Integer(), nullable=False),
        sa.PrimaryKeyConstraint("seq", name=op.f("pk_cook")),
        sa.UniqueConstraint("id", name=op.f("uq_cook_id")),
        sqlite_autoincrement=True,
    )
    op.create_table(
        "inbox",
        sa.Column("id", _NUMBER, nullable=False),
        sa.Column("source", sa.String(length=64), nullable=False),
        sa.Column("key", sa.Text(), nullable=False),
        sa.Column("raw", _JSON, nullable=False),
        sa.Column("received_at", sa.BigInteger(), nullable=False),
        sa.Column("state", sa.String(length=16), nullable=False),
        sa.Column("result", sa.Text(), nullable=False),
        sa.Column("done_at", sa.BigInteger()),
        sa.CheckConstraint("state IN ('waiting', 'done')", name=op.f("ck_inbox_state")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_inbox")),
        sa.UniqueConstraint("source", "key", name=op.f("uq_inbox_source_key")),
        sqlite_autoincrement=True,
    )
    op.create_index(op.f("ix_inbox_source_received_at"), "inbox", ["source", "received_at"])
    op.create_index(
        "ix_inbox_waiting",
        "inbox",
        ["id"],
        sqlite_where=sa.text("state = 'waiting'"),
        postgresql_where=sa.text("state = 'waiting'"),
    )
    op.create_table(
        "invite",
        sa.Column("hash", sa.String(length=64), nullable=False),
        sa.Column("role", sa.String(length=32), nullable=False),
        sa.Column("cook", sa.Text()),
        sa.Column("expires_at", sa.BigInteger(), nullable=False),
        sa.Column("spent_at", sa.BigInteger()),
        sa.PrimaryKeyConstraint("hash", name=op.f("pk_invite")),
    )
    op.create_table(
        "outbox",
        sa.Column("id", _NUMBER, nullable=False),
        sa.Column("key", sa.Text(), nullable=False),
        sa.Column("transport", sa.String(length=32), nullable=False),
        sa.Column("chat", sa.Text(), nullable=False),
        sa.Column("thread", sa.BigInteger(), nullable=False),
        sa.Column("kind", sa.String(length=16), nullable=False),
        sa.Column("text", sa.Text(), nullable=False),
        sa.Column("choices", _JSON, nullable=False),
        sa.Column("silent", sa.Boolean(), nullable=False),
        sa.Column("urgent", sa.Boolean(), nullable=False),
        sa.Column("target", sa.Text()),
        sa.Column("useful_until", sa.BigInteger()),
        sa.Column("cook", sa.Text()),
        sa.Column("created_at", sa.BigInteger(), nullable=False),
        sa.Column("state", sa.String(length=16), nullable=False),
        sa.Column("owner", sa.Text()),
        sa.Column("lease_until", sa.BigInteger()),
        sa.Column("attempt", sa.Integer(), nullable=False),
        sa.Column("failures", sa.Integer(), nullable=False),
        sa.Column("unknown_count", sa.Integer(), nullable=False),
        sa.Column("not_before", sa.BigInteger()),
        sa.Column("possible_repeat", sa.Boolean(), nullable=False),
        sa.Column("ref", sa.Text()),
        sa.Column("sent_at", sa.BigInteger()),
        sa.Column("why", sa.Text()),
        sa.CheckConstraint(
            "state IN ('waiting', 'sending', 'sent', 'parked', 'dropped', 'withdrawn', 'superseded')",
            name=op.f("ck_outbox_state"),
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_outbox")),
        sa.UniqueConstraint("key", name=op.f("uq_outbox_key")),
        sqlite_autoincrement=True,
    )
    op.create_index(
        "ix_outbox_unfinished",
        "outbox",
        ["transport", "chat", "thread", "id"],
        sqlite_where=sa.text("state IN ('waiting', 'sending')"),
        postgresql_where=sa.text("state IN ('waiting', 'sending')"),
    )
    op.create_index(
        "ix_outbox_waiting",
        "outbox",
        ["urgent", "id"],
        sqlite_where=sa.text("state = 'waiting'"),
        postgresql_where=sa.text("state = 'waiting'"),
    )
    op.create_table(
        "person",
        sa.Column("seq", _NUMBER, nullable=False),
        sa.Column("id", sa.Text(), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("role", sa.String(length=32), nullable=False),
        sa.PrimaryKeyConstraint("seq", name=op.f("pk_person")),
        sa.UniqueConstraint("id", name=op.f("uq_person_id")),
        sqlite_autoincrement=True,
    )
    op.create_table(
        "room",
        sa.Column("seq", _NUMBER, nullable=False),
        sa.Column("transport", sa.String(length=32), nullable=False),
        sa.Column("chat", sa.Text(), nullable=False),
        sa.Column("thread", sa.BigInteger(), nullable=False),
        sa.Column("title", sa.Text(), nullable=False),
        sa.Column("active", sa.Boolean(), nullable=False),
        sa.Column("grouped", sa.Boolean(), nullable=False),
        sa.Column("why", sa.Text()),
        sa.PrimaryKeyConstraint("seq", name=op.f("pk_room")),
        sa.UniqueConstraint("transport", "chat", "thread", name=op.f("uq_room_transport_chat_thread")),
        sqlite_autoincrement=True,
    )
    op.create_table(
        "screen",
        sa.Column("id", _NUMBER, nullable=False),
        sa.Column("chat", sa.Text(), nullable=False),
        sa.Column("outbox_key", sa.Text(), nullable=False),
        sa.Column("text", sa.Text(), nullable=False),
        sa.Column("choices", _JSON, nullable=False),
        sa.Column("at", sa.BigInteger(), nullable=False),
        sa.Column("shown_at", sa.BigInteger()),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_screen")),
        sa.UniqueConstraint("chat", "outbox_key", name=op.f("uq_screen_chat_outbox_key")),
        sqlite_autoincrement=True,
    )
    op.create_index(op.f("ix_screen_chat_id"), "screen", ["chat", "id"])
    op.create_table(
        "session",
        sa.Column("transport", sa.String(length=32), nullable=False),
        sa.Column("chat", sa.Text(), nullable=False),
        sa.Column("thread", sa.BigInteger(), nullable=False),
        sa.Column("person", sa.Text(), nullable=False),
        sa.Column("data", _JSON, nullable=False),
        sa.Column("written_at", sa.BigInteger(), nullable=False),
        sa.PrimaryKeyConstraint("transport", "chat", "thread", "person", name=op.f("pk_session")),
    )
    op.create_table(
        "transport_pause",
        sa.Column("transport", sa.String(length=32), nullable=False),
        sa.Column("paused_until", sa.BigInteger()),
        sa.Column("locked", sa.Boolean(), nullable=False),
        sa.Column("why", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("transport", name=op.f("pk_transport_pause")),
    )
    op.create_table(
        "cache",
        sa.Column("cook", sa.Text(), nullable=False),
        sa.Column("log_length", sa.Integer(), nullable=False),
        sa.Column("engine", sa.Text(), nullable=False),
        sa.Column("outlook", _JSON),
        sa.ForeignKeyConstraint(["cook"], ["cook.id"], name=op.f("fk_cache_cook")),
        sa.PrimaryKeyConstraint("cook", name=op.f("pk_cache")),
    )
    op.create_table(
        "choice",
        sa.Column("token", sa.Text(), nullable=False),
        sa.Column("outbox_key", sa.Text(), nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.Column("label", sa.Text(), nullable=False),
        sa.Column("transport", sa.String(length=32), nullable=False),
        sa.Column("chat", sa.Text(), nullable=False),
        sa.Column("thread", sa.BigInteger(), nullable=False),
        sa.Column("cook", sa.Text()),
        sa.Column("meaning", _JSON, nullable=False),
        sa.ForeignKeyConstraint(["outbox_key"], ["outbox.key"], name=op.f("fk_choice_outbox_key")),
        sa.PrimaryKeyConstraint("token", name=op.f("pk_choice")),
    )
    op.create_index(op.f("ix_choice_outbox_key"), "choice", ["outbox_key"])
    op.create_index(op.f("ix_choice_transport_chat_thread"), "choice", ["transport", "chat", "thread"])
    op.create_table(
        "cook_room",
        sa.Column("seq", _NUMBER, nullable=False),
        sa.Column("cook", sa.Text(), nullable=False),
        sa.Column("transport", sa.String(length=32), nullable=False),
        sa.Column("chat", sa.Text(), nullable=False),
        sa.Column("thread", sa.BigInteger(), nullable=False),
        sa.ForeignKeyConstraint(["cook"], ["cook.id"], name=op.f("fk_cook_room_cook")),
        sa.PrimaryKeyConstraint("seq", name=op.f("pk_cook_room")),
        sa.UniqueConstraint(
            "cook", "transport", "chat", "thread", name=op.f("uq_cook_room_cook_transport_chat_thread")
        ),
        sqlite_autoincrement=True,
    )
    op.create_index(op.f("ix_cook_room_transport_chat_thread"), "cook_room", ["transport", "chat", "thread"])
    op.create_table(
        "due",
        sa.Column("cook", sa.Text(), nullable=False),
        sa.Column("prompt", sa.Text(), nullable=False),
        sa.Column("due_at", sa.BigInteger(), nullable=False),
        sa.ForeignKeyConstraint(["cook"], ["cook.id"], name=op.f("fk_due_cook")),
        sa.PrimaryKeyConstraint("cook", "prompt", "due_at", name=op.f("pk_due")),
    )
    op.create_index(op.f("ix_due_due_at"), "due", ["due_at"])
    op.create_table(
        "fact",
        sa.Column("seq", _NUMBER, nullable=False),
        sa.Column("id", sa.Text(), nullable=False),
        sa.Column("cook", sa.Text(), nullable=False),
        sa.Column("piece", sa.Text()),
        sa.Column("kind", sa.String(length=32), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("happened_at", sa.BigInteger(), nullable=False),
        sa.Column("recorded_at", sa.BigInteger(), nullable=False),
        sa.Column("by", sa.Text()),
        sa.Column("body", _JSON, nullable=False),
        sa.Column("answers", _JSON, nullable=False),
        sa.Column("message", sa.Text()),
        sa.ForeignKeyConstraint(["cook"], ["cook.id"], name=op.f("fk_fact_cook")),
        sa.PrimaryKeyConstraint("seq", name=op.f("pk_fact")),
        sa.UniqueConstraint("id", name=op.f("uq_fact_id")),
        sqlite_autoincrement=True,
    )
    op.create_index(op.f("ix_fact_cook_seq"), "fact", ["cook", "seq"])
    op.create_index(op.f("ix_fact_message"), "fact", ["message"])


def downgrade() -> None:
    for table in _TABLES:
        op.drop_table(table)
