"""Runs the migrations inside the transaction that `bot.store.migrate` has begun.

There is no offline mode and no configuration file: without a connection nothing is done.
"""

from __future__ import annotations

from alembic import context

from bot.store.tables import metadata

context.configure(
    connection=context.config.attributes["connection"],
    target_metadata=metadata,
    render_as_batch=True,  # SQLite alters a table by making it anew
)
context.run_migrations()
