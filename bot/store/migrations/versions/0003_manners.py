"""How each room is spoken to: its language and its unit."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0003"
down_revision = "0002"
branch_labels = None
depends_on = None


def upgrade() -> None:
    with op.batch_alter_table("room") as table:
        table.add_column(sa.Column("language", sa.String(length=16), nullable=True))
        table.add_column(sa.Column("unit", sa.String(length=1), nullable=True))


def downgrade() -> None:
    with op.batch_alter_table("room") as table:
        table.drop_column("unit")
        table.drop_column("language")
