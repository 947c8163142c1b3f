"""The schema that the migrations lead to, and databases that are older, newer or somebody else's."""

from __future__ import annotations

import shutil
import sqlite3
from collections.abc import Iterator
from pathlib import Path

import pytest
from alembic.autogenerate import compare_metadata
from alembic.migration import MigrationContext
from alembic.script import ScriptDirectory
from sqlalchemy import Engine, inspect

from bot.chat import Document
from bot.store import EngineLock, errors, migrate, open_store
from bot.store.engine import reading, sqlite_engine, writing
from bot.store.opening import DATABASE_NAME
from bot.store.tables import metadata
from tests.contract.written import LEASE, NOON, TOMAS, message, put

NEWEST = migrate.head()
ADDED = (
    ("room", "language"), ("room", "unit"), ("room", "hears_all"), ("outbox", "lack"), ("outbox", "wants_reply"),
)  # fmt: skip
"""Columns that the first version did not have."""

LATER = f'''"""A step of a later version."""

import sqlalchemy as sa
from alembic import op

revision = "9999"
down_revision = "{NEWEST}"


def upgrade():
    op.create_table("weather", sa.Column("id", sa.Integer, primary_key=True))


def downgrade():
    op.drop_table("weather")
'''


@pytest.fixture
def engine(tmp_path: Path) -> Iterator[Engine]:
    """Return an engine on an empty file."""
    made = sqlite_engine(tmp_path / DATABASE_NAME)
    yield made
    made.dispose()


@pytest.fixture
def later_program(tmp_path_factory: pytest.TempPathFactory, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Turn this program into one with a further migration; return its folder of migrations."""
    scripts = tmp_path_factory.mktemp("later") / "migrations"
    shutil.copytree(migrate.SCRIPTS, scripts)
    (scripts / "versions" / "9999_weather.py").write_text(LATER)
    monkeypatch.setattr(migrate, "SCRIPTS", scripts)
    return scripts


def test_migrations_lead_to_the_tables(engine: Engine) -> None:
    """A database built step by step holds exactly what `tables` describes: columns, types, keys, indexes."""
    migrate.step_by_step(engine)
    with reading(engine) as connection:
        context = MigrationContext.configure(connection, opts={"compare_type": True})
        assert compare_metadata(context, metadata) == []


def test_the_comparison_would_notice(engine: Engine) -> None:
    """A column or an index too few shows (so that the test above can fail)."""
    migrate.step_by_step(engine)
    with writing(engine) as connection:
        connection.exec_driver_sql("DROP INDEX ix_outbox_waiting")
        connection.exec_driver_sql("ALTER TABLE person DROP COLUMN role")
    with reading(engine) as connection:
        found = compare_metadata(MigrationContext.configure(connection), metadata)
    assert len(found) == 2


def test_checks_and_counters_are_those_of_the_tables(tmp_path: Path) -> None:
    """What the comparison does not look at, SQLite's own text of each table, is the same step by step and at once.

    (But for the order in which the constraints of a table are listed.)
    """

    def texts(path: Path) -> dict[str, list[str]]:
        with sqlite3.connect(path) as connection:
            rows = connection.execute("SELECT name, sql FROM sqlite_master WHERE sql IS NOT NULL").fetchall()
        connection.close()
        ours = {name: " ".join(sql.split()) for name, sql in rows if not name.startswith(("alembic", "sqlite"))}
        return {name: sorted(sql.removesuffix(" )").split(", ")) for name, sql in ours.items()}

    migrated, created = sqlite_engine(tmp_path / "migrated.db"), sqlite_engine(tmp_path / "created.db")
    migrate.step_by_step(migrated)
    migrate.migrate(created)
    assert migrate.revision(migrated) == migrate.revision(created) == migrate.head()
    migrated.dispose()
    created.dispose()
    assert texts(tmp_path / "migrated.db") == texts(tmp_path / "created.db")


def test_the_files_are_named_by_their_revisions() -> None:
    """What the names say is what Alembic reads: the same revisions, one line of them, the highest last."""
    scripts = ScriptDirectory.from_config(migrate.configuration())
    assert {script.revision for script in scripts.walk_revisions()} == migrate.known()
    assert scripts.get_heads() == [migrate.head()]


def test_migrating_twice_changes_nothing(engine: Engine) -> None:
    """A database that is up to date is not written to."""
    migrate.migrate(engine)
    with reading(engine) as connection:
        before = connection.exec_driver_sql("PRAGMA schema_version").scalar_one()
    migrate.migrate(engine)
    with reading(engine) as connection:
        assert connection.exec_driver_sql("PRAGMA schema_version").scalar_one() == before


def test_an_older_database_is_upgraded_with_what_it_holds(tmp_path: Path, later_program: Path) -> None:
    """The new tables are there, and so are the rows."""
    scripts = later_program / "versions" / "9999_weather.py"
    scripts.rename(scripts.with_suffix(".off"))
    old = open_store(tmp_path)
    old.accept(source="terminal", key="1", raw={}, received_at=NOON)
    old.close()
    scripts.with_suffix(".off").rename(scripts)
    new = open_store(tmp_path)
    assert [row.key for row in new.inbox_waiting()] == ["1"]
    new.close()
    engine = sqlite_engine(tmp_path / DATABASE_NAME)
    assert (migrate.revision(engine), inspect(engine).has_table("weather")) == ("9999", True)
    engine.dispose()


def test_messages_of_the_first_version_are_sent_by_this_one(tmp_path: Path) -> None:
    """A database of the first version keeps what waits in it, and from then on takes files."""
    old = open_store(tmp_path)
    put(old, message("m1"))
    old.close()
    with sqlite3.connect(tmp_path / DATABASE_NAME) as connection:
        connection.execute("DROP TABLE document")
        for table, column in ADDED:
            connection.execute(f"ALTER TABLE {table} DROP COLUMN {column}")
        connection.execute("UPDATE alembic_version SET version_num = '0001'")
    connection.close()
    new = open_store(tmp_path)
    put(new, message("m2", TOMAS, document=Document(name="plan.pdf", media_type="application/pdf", data=b"%PDF")))
    claimed = new.claim(owner="me", now=NOON, transports=["memory"], limit=5, lease=LEASE)
    new.close()
    assert [row.outgoing.document is None for row in claimed] == [True, False]


def test_an_older_database_in_use_is_left_alone(tmp_path: Path, request: pytest.FixtureRequest) -> None:
    """While another process is the engine on it, it is not upgraded; whoever holds the lock may."""
    open_store(tmp_path).close()
    request.getfixturevalue("later_program")
    lock = EngineLock(tmp_path)
    lock.try_acquire()
    with pytest.raises(errors.OlderInUse) as caught:
        open_store(tmp_path)
    assert (caught.value.details["found"], caught.value.details["known"]) == (NEWEST, "9999")
    open_store(tmp_path, lock=lock).close()
    lock.release()
    open_store(tmp_path).close()


def test_a_newer_database_is_refused_untouched(
    tmp_path: Path, later_program: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """An old program says what it found and what it knows, and writes nothing."""
    open_store(tmp_path).close()
    monkeypatch.setattr(migrate, "SCRIPTS", Path(migrate.__file__).with_name("migrations"))
    before = (tmp_path / DATABASE_NAME).read_bytes()
    with pytest.raises(errors.NewerDatabase) as caught:
        open_store(tmp_path)
    assert caught.value.details == {"path": str(tmp_path / DATABASE_NAME), "found": "9999", "known": NEWEST}
    assert (tmp_path / DATABASE_NAME).read_bytes() == before


def test_a_failed_migration_leaves_nothing_behind(tmp_path: Path, request: pytest.FixtureRequest) -> None:
    """All steps are one transaction: a database is at one version or at the other."""
    open_store(tmp_path).close()
    broken = request.getfixturevalue("later_program") / "versions" / "9999_weather.py"
    broken.write_text(LATER.replace("def downgrade", "    raise ValueError('storm')\n\n\ndef downgrade"))
    with pytest.raises(ValueError, match="storm"):
        open_store(tmp_path)
    engine = sqlite_engine(tmp_path / DATABASE_NAME)
    assert not inspect(engine).has_table("weather")
    with reading(engine) as connection:
        assert connection.exec_driver_sql("SELECT version_num FROM alembic_version").scalar_one() == NEWEST
    engine.dispose()


def test_failed_first_steps_leave_an_empty_file(engine: Engine, later_program: Path) -> None:
    """Step by step from nothing, a failure in the last step takes the first ones back as well."""
    broken = later_program / "versions" / "9999_weather.py"
    broken.write_text(LATER.replace("def downgrade", "    raise ValueError('storm')\n\n\ndef downgrade"))
    with pytest.raises(ValueError, match="storm"):
        migrate.step_by_step(engine)
    assert inspect(engine).get_table_names() == []


def test_a_database_of_another_program_is_refused(tmp_path: Path) -> None:
    """Tables that are not ours stay as they are."""
    with sqlite3.connect(tmp_path / DATABASE_NAME) as connection:
        connection.execute("CREATE TABLE recipes (id INTEGER)")
    connection.close()
    with pytest.raises(errors.ForeignDatabase) as caught:
        open_store(tmp_path)
    assert caught.value.details["tables"] == ["recipes"]
