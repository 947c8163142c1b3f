"""Opening a data folder: its modes, and everything that can be wrong with disk and file."""

from __future__ import annotations

import multiprocessing
import os
import shutil
import sqlite3
import tempfile
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
from sqlalchemy import Engine, event

from bot.ports import Apply
from bot.store import SqlStore, errors, open_store
from bot.store.opening import DATABASE_NAME
from tests.contract.written import NOON, message, put

NOBODY = 65_534
SPAWN = multiprocessing.get_context("spawn")


@contextmanager
def every_connection(pragma: str, target: Engine | type[Engine] = Engine) -> Iterator[None]:
    """Let every connection opened meanwhile (of one engine, or of all) begin with a pragma."""

    def begin(connection: sqlite3.Connection, _record: object) -> None:
        connection.execute(pragma).close()

    event.listen(target, "connect", begin)
    try:
        yield
    finally:
        event.remove(target, "connect", begin)


def test_folder_and_files_are_private(tmp_path: Path) -> None:
    """The folder is made with 0700, every file in it with 0600, whatever the umask."""
    before = os.umask(0)
    try:
        store = open_store(tmp_path / "made" / "data")
        put(store, message("m1"))
    finally:
        os.umask(before)
    data = tmp_path / "made" / "data"
    modes = {path.name: path.stat().st_mode & 0o777 for path in data.iterdir()}
    store.close()
    assert data.stat().st_mode & 0o777 == 0o700
    assert {DATABASE_NAME, f"{DATABASE_NAME}-wal"} <= set(modes)
    assert set(modes.values()) == {0o600}


def test_a_folder_that_is_there_keeps_its_modes(tmp_path: Path) -> None:
    """Somebody chose them."""
    tmp_path.chmod(0o750)
    open_store(tmp_path).close()
    assert tmp_path.stat().st_mode & 0o777 == 0o750


def test_every_commit_goes_to_the_disk(tmp_path: Path) -> None:
    """The settings that keep a commit through a power cut, and keys honest, are on."""
    seen: dict[str, object] = {}

    def ask(connection: sqlite3.Connection, _record: object) -> None:
        for name in ("journal_mode", "synchronous", "foreign_keys", "busy_timeout"):
            seen[name] = connection.execute(f"PRAGMA {name}").fetchone()[0]

    store = open_store(tmp_path)
    engine: Engine = store._engine  # noqa: SLF001 -- what the driver really does is the point
    engine.dispose()
    event.listen(engine, "connect", ask)
    store.inbox_waiting()
    store.close()
    assert seen == {"journal_mode": "wal", "synchronous": 2, "foreign_keys": 1, "busy_timeout": 10_000}


def test_a_file_that_is_no_database_is_refused_untouched(tmp_path: Path) -> None:
    """Whatever it is, it stays as it was."""
    path = tmp_path / DATABASE_NAME
    path.write_bytes(b"shopping list: ribs, paper, charcoal\n" * 100)
    before = path.read_bytes()
    with pytest.raises(errors.NotADatabase) as caught:
        open_store(tmp_path)
    assert caught.value.details["path"] == str(path)
    assert path.read_bytes() == before


def test_a_damaged_database_is_named(tmp_path: Path) -> None:
    """Pages overwritten in the middle are noticed as damage, not as a mystery."""
    store = open_store(tmp_path)
    for at in range(50):
        put(store, message(f"m{at}"))
    store.close()
    path = tmp_path / DATABASE_NAME
    content = bytearray(path.read_bytes())
    content[4096:] = b"\xff" * (len(content) - 4096)
    path.write_bytes(content)
    with pytest.raises(errors.NotADatabase):
        open_store(tmp_path).outbox_counts()


def test_a_folder_under_a_file_cannot_be_made(tmp_path: Path) -> None:
    """The error names the folder and the reason of the operating system."""
    (tmp_path / "file").write_text("")
    with pytest.raises(errors.FolderNotWritable) as caught:
        open_store(tmp_path / "file" / "data")
    assert caught.value.details["path"] == str(tmp_path / "file" / "data")
    assert caught.value.details["why"]


def test_a_full_disk_loses_nothing(tmp_path: Path) -> None:
    """A write without room fails whole; what was there is there, and with room again writing goes on."""
    open_store(tmp_path).close()
    with sqlite3.connect(tmp_path / DATABASE_NAME) as connection:
        pages = connection.execute("PRAGMA page_count").fetchone()[0]
    connection.close()
    with every_connection(f"PRAGMA max_page_count = {pages + 2}"):
        store = open_store(tmp_path)
        put(store, message("m1"))
        big = tuple(message(f"big{at}", target="x" * 900) for at in range(100))
        with pytest.raises(errors.DiskFull):
            store.apply(Apply(now=NOON, outbox=big))
        assert store.outbox_counts()["waiting"] == 1
        store.close()
    store = open_store(tmp_path)
    assert store.apply(Apply(now=NOON, outbox=big))
    store.close()


def test_a_write_that_the_database_refuses_is_named(tmp_path: Path) -> None:
    """A database that turns read-only while the program runs is reported as that."""
    store = open_store(tmp_path)
    store._engine.dispose()  # noqa: SLF001 -- so that its next connections begin with the pragma
    with every_connection("PRAGMA query_only = ON"), pytest.raises(errors.ReadOnlyDatabase):
        put(store, message("m1"))
    store.close()


def test_a_database_kept_locked_is_named(tmp_path: Path) -> None:
    """Another program that never lets go is reported, after the wait (none here)."""
    store = open_store(tmp_path)
    engine: Engine = store._engine  # noqa: SLF001 -- its next connections are to begin with the pragma
    engine.dispose()
    with every_connection("PRAGMA busy_timeout = 0", engine), sqlite3.connect(tmp_path / DATABASE_NAME) as other:
        other.execute("BEGIN IMMEDIATE")
        with pytest.raises(errors.DatabaseBusy):
            put(store, message("m1"))
        other.rollback()
        put(store, message("m1"))
        assert store.outbox_counts()["waiting"] == 1
    other.close()
    store.close()


# --- as somebody who may not write (the tests may run as root, who may do everything) ---------------------------------


def _open_as_nobody(data: str, answers: multiprocessing.queues.Queue[str]) -> None:
    if os.geteuid() == 0:
        os.setuid(NOBODY)
    try:
        open_store(Path(data)).close()
    except errors.StoreError as error:
        answers.put(type(error).__name__)
    else:
        answers.put("opened")


@pytest.fixture
def reachable() -> Iterator[Path]:
    """Return a folder that anybody can reach (pytest's own can be entered by their owner alone)."""
    folder = Path(tempfile.mkdtemp())
    folder.chmod(0o755)
    yield folder
    shutil.rmtree(folder)


def as_nobody(data: Path) -> str:
    """Return what becomes of opening a folder without any right of the owner's."""
    answers: multiprocessing.queues.Queue[str] = SPAWN.Queue()
    process = SPAWN.Process(target=_open_as_nobody, args=(str(data), answers))
    process.start()
    answer = answers.get(timeout=30)
    process.join()
    return answer


def only_readable(data: Path, store: SqlStore) -> None:
    """Let everybody open the folder and its lock, and nobody write the database."""
    store.close()
    data.chmod(0o777)
    for path in data.iterdir():
        path.chmod(0o444 if path.name == DATABASE_NAME else 0o666)


def not_writable(data: Path, store: SqlStore) -> None:
    """Let nobody write in the folder."""
    store.close()
    data.chmod(0o555)


@pytest.mark.parametrize(
    ("take_away", "expected"), [(only_readable, "ReadOnlyDatabase"), (not_writable, "FolderNotWritable")]
)
def test_missing_rights_are_named_at_the_door(
    reachable: Path, take_away: Callable[[Path, SqlStore], None], expected: str
) -> None:
    """Without the right to write, opening fails at once and says what is missing."""
    data = reachable / "data"
    take_away(data, open_store(data))
    assert as_nobody(data) == expected
