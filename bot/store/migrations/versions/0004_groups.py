"""What a group lets the program hear, what a chat does not let it do, and questions that want a reply."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0004"
down_revision = "0003"
branch_labels = None
depends_on = None


def upgrade() -> None:
    with op.batch_alter_table("room") as table:
        table.add_column(sa.Column("hears_all", sa.Boolean(), nullable=True))
    with op.batch_alter_table("outbox") as table:
        table.add_column(sa.Column("lack", sa.String(length=16), nullable=True))
        table.add_column(sa.Column("wants_reply", sa.JSON(none_as_null=True), nullable=True))


def downgrade() -> None:
    with op.batch_alter_table("outbox") as table:
        table.drop_column("wants_reply")
        table.drop_column("lack")
    with op.batch_alter_table("room") as table:
        table.drop_column("hears_all")
