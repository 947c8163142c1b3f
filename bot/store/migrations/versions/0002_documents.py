"""Files that go with messages."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.create_table(
        "document",
        sa.Column("outbox_key", sa.Text(), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("media_type", sa.Text(), nullable=False),
        sa.Column("data", sa.LargeBinary(), nullable=False),
        sa.ForeignKeyConstraint(["outbox_key"], ["outbox.key"], name=op.f("fk_document_outbox_key")),
        sa.PrimaryKeyConstraint("outbox_key", name=op.f("pk_document")),
    )


def downgrade() -> None:
    op.drop_table("document")
