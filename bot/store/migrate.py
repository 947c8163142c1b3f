"""Brings a database to the schema of this program, and refuses those that are not ours or newer.

The steps themselves are in `migrations/versions`; tables are described in `tables`.
"""

from __future__ import annotations

import threading
from pathlib import Path
from typing import TYPE_CHECKING, Final

from sqlalchemy import Connection, Engine, inspect, text

from bot.store.engine import reading, writing
from bot.store.errors import ForeignDatabase, NewerDatabase
from bot.store.tables import metadata

if TYPE_CHECKING:
    from alembic.config import Config

SCRIPTS: Final = Path(__file__).with_name("migrations")
_alembic_is_global = threading.Lock()
"""Alembic keeps the migration being run in module variables: one at a time in a process."""


def revision(engine: Engine) -> str | None:
    """Return the revision of a database, None when it is empty.

    Raises `ForeignDatabase` for one of another program, `NewerDatabase` for one of a newer Slowbell.
    """
    with reading(engine) as connection:
        return _revision(connection)


def head() -> str:
    """Return the revision that this program writes."""
    return max(known())


def known() -> frozenset[str]:
    """Return every revision that this program can read: the numbers that the files of the migrations begin with.

    Alembic would say the same, and take a tenth of a second at every start to do so.
    """
    return frozenset(path.name.partition("_")[0] for path in (SCRIPTS / "versions").glob("[0-9]*.py"))


def migrate(engine: Engine) -> None:
    """Bring a database to the newest revision in one transaction; one that is there already is not written to.

    An empty one gets the tables as they are today, without the tenth of a second that Alembic takes to load; the tests
    hold that its steps lead to the same tables.
    """
    if revision(engine) == head():
        return
    with writing(engine) as connection:
        found = _revision(connection)
        if found == head():  # another process was faster
            return
        if found is None:
            metadata.create_all(connection)
            connection.execute(text("CREATE TABLE alembic_version (version_num VARCHAR(32) NOT NULL PRIMARY KEY)"))
            connection.execute(text("INSERT INTO alembic_version (version_num) VALUES (:head)"), {"head": head()})
            return
        _step_by_step(connection)


def step_by_step(engine: Engine) -> None:
    """Bring a database to the newest revision through every step, an empty one too."""
    with writing(engine) as connection:
        _step_by_step(connection)


def _step_by_step(connection: Connection) -> None:
    from alembic import command  # noqa: PLC0415 -- takes a tenth of a second, and is needed once per database

    with _alembic_is_global:
        config = configuration()
        config.attributes["connection"] = connection
        command.upgrade(config, "head")


def configuration() -> Config:
    """Return Alembic's configuration, without a file: everything it needs is in the package."""
    from alembic.config import Config  # noqa: PLC0415 -- the same as in `migrate`

    config = Config()
    config.set_main_option("script_location", str(SCRIPTS).replace("%", "%%"))
    config.set_main_option("path_separator", "os")
    return config


def _revision(connection: Connection) -> str | None:
    names = inspect(connection).get_table_names()
    if "alembic_version" not in names:
        if names:
            raise ForeignDatabase(path=connection.engine.url.database, tables=sorted(names))
        return None
    found = connection.execute(text("SELECT version_num FROM alembic_version")).scalar_one_or_none()
    if found is not None and found not in known():
        raise NewerDatabase(path=connection.engine.url.database, found=found, known=head())
    return found
