"""What stands in a database, read without the program: rows as they are, and whether the file is sound.

It must not judge.
"""

from __future__ import annotations

import dataclasses
import json
import shutil
import sqlite3
import tempfile
from collections.abc import Mapping
from pathlib import Path
from typing import Any

Row = Mapping[str, Any]

# How a message fared, not what it says: a kill may change these.
DELIVERY = frozenset(
    {
        "state", "owner", "lease_until", "attempt", "failures", "unknown_count", "not_before", "possible_repeat",
        "ref", "sent_at", "why",
    }
)  # fmt: skip
DIFFERS = {"outbox": DELIVERY, "inbox": frozenset({"received_at", "key", "raw"})}
"""Columns that may differ between an undisturbed run and one that was killed; everything else must be equal."""
COMPARED = (
    "fact", "cook", "cook_room", "due", "cache", "session", "person", "room", "invite", "choice", "outbox", "inbox",
)  # fmt: skip


@dataclasses.dataclass(frozen=True, kw_only=True)
class Written:
    """All rows of all tables, in order of writing."""

    tables: Mapping[str, tuple[Row, ...]]
    sound: bool
    """Whether SQLite finds the file and all its references whole."""

    def rows(self, table: str, **where: object) -> list[Row]:
        """Return the rows of a table whose columns have these values."""
        return [row for row in self.tables[table] if all(row[name] == value for name, value in where.items())]

    def decided(self, reply: str) -> dict[str, str]:
        """Return what was decided, table by table, as text; `reply`, the reference of what was said, is left out."""
        kept = {
            table: [{k: v for k, v in row.items() if k not in DIFFERS.get(table, ())} for row in self.tables[table]]
            for table in COMPARED
        }
        return {table: json.dumps(rows, indent=0).replace(f'"{reply}"', '"the reply"') for table, rows in kept.items()}


def read(data: Path) -> Written:
    """Read a data folder through a copy, so that looking at what a kill left behind does not repair it."""
    with tempfile.TemporaryDirectory() as folder:
        copy = Path(folder) / "copy"
        shutil.copytree(data, copy)
        database = sqlite3.connect(copy / "slowbell.db")
        try:
            database.row_factory = sqlite3.Row
            names = [name for (name,) in database.execute("SELECT name FROM sqlite_schema WHERE type = 'table'")]
            tables = {
                name: tuple(dict(row) for row in database.execute(f"SELECT * FROM {name} ORDER BY rowid"))  # noqa: S608 - names come from the schema itself
                for name in names
                if not name.startswith("sqlite_")
            }
            checked = [row[0] for row in database.execute("PRAGMA integrity_check")]
            broken = list(database.execute("PRAGMA foreign_key_check"))
        finally:
            database.close()
    return Written(tables=tables, sound=checked == ["ok"] and not broken)
