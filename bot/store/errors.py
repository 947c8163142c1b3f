"""What can be wrong with the database, as one small tree with data; and the one place that translates driver errors.

No wording for people is made here: `bot.messages` does that from the class and its details.

    StoreError
    ├── FolderNotWritable     the data folder cannot be made or written in
    ├── NotADatabase          the file is something else, or damaged
    ├── ForeignDatabase       a database, but of another program
    ├── NewerDatabase         written by a newer Slowbell
    ├── OlderInUse            must be upgraded, but a running Slowbell still uses it
    ├── ReadOnlyDatabase      may be read, not written
    ├── DiskFull              no room for the write
    ├── DatabaseBusy          another process kept it locked for too long
    ├── DiskFailed            the operating system reported an input or output error
    ├── BrokenWrite           the caller broke a rule of the schema (a fact id twice, a cook that is not there)
    └── UnknownFact           a row of the log that this program cannot read
"""

from __future__ import annotations

import sqlite3
from typing import Final

from scheduler.errors import SlowbellError


class StoreError(SlowbellError):
    """The database cannot do what it was asked for. `details` holds `path` where it is known."""


class FolderNotWritable(StoreError):
    """The data folder cannot be made or written in."""


class NotADatabase(StoreError):
    """The file is not a database, or it is damaged."""


class ForeignDatabase(StoreError):
    """The file is a database of another program."""


class NewerDatabase(StoreError):
    """The database was written by a newer version of Slowbell. `details`: `found`, `known`."""


class OlderInUse(StoreError):
    """The database must be upgraded first, and another running Slowbell still uses it. `details`: `found`, `known`."""


class ReadOnlyDatabase(StoreError):
    """The database can be read but not written."""


class DiskFull(StoreError):
    """There is no room left for the database."""


class DatabaseBusy(StoreError):
    """Another process kept the database locked for too long."""


class DiskFailed(StoreError):
    """Reading or writing the database file failed."""


class BrokenWrite(StoreError):
    """A write broke a rule of the schema; nothing was written."""


class UnknownFact(StoreError):
    """The log holds a fact of a kind, version or shape that is not known. `details`: `kind`, `version`."""


_BY_CODE: Final[dict[int, type[StoreError]]] = {
    sqlite3.SQLITE_BUSY: DatabaseBusy,
    sqlite3.SQLITE_LOCKED: DatabaseBusy,
    sqlite3.SQLITE_READONLY: ReadOnlyDatabase,
    sqlite3.SQLITE_PERM: ReadOnlyDatabase,
    sqlite3.SQLITE_CANTOPEN: FolderNotWritable,
    sqlite3.SQLITE_FULL: DiskFull,
    sqlite3.SQLITE_IOERR: DiskFailed,
    sqlite3.SQLITE_CORRUPT: NotADatabase,
    sqlite3.SQLITE_NOTADB: NotADatabase,
    sqlite3.SQLITE_CONSTRAINT: BrokenWrite,
}
_PRIMARY_CODE = 0xFF
"""Extended result codes keep the primary one in their lowest byte (SQLite documentation, "Result and Error Codes")."""


def translate(error: BaseException, *, path: str) -> StoreError | None:
    """Return the store's own error for a driver error, or None when it is not about the database.

    Errors that are nobody's fault but ours (a statement that cannot be parsed) stay what they are.
    """
    code = getattr(error, "sqlite_errorcode", None)
    if not isinstance(error, sqlite3.Error) or code is None:
        return None
    kind = _BY_CODE.get(code & _PRIMARY_CODE)
    return None if kind is None else kind(f"{(kind.__doc__ or '').strip()} ({error})", path=path, code=code)
