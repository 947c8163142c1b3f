"""What is said, in one sentence, when the data cannot be used, at the start and while running."""

from __future__ import annotations

import re
import resource
import sqlite3
from collections.abc import Iterator
from pathlib import Path

import pytest

from bot.__main__ import main
from bot.bootstrap import running
from bot.messages import console
from bot.settings import Settings
from bot.store import errors, open_store
from bot.store.errors import StoreError
from tests.integration.program_process import Process, started

OURS = (errors.BrokenWrite, errors.UnknownFact)
"""Faults of the program, not of the data folder: the log says more."""


def every_kind(kind: type[StoreError] = StoreError) -> Iterator[type[StoreError]]:
    """Yield every class of the store's errors."""
    for below in kind.__subclasses__():
        yield below
        yield from every_kind(below)


def one_sentence(told: str) -> bool:
    """Return whether something is one line, with a full stop and without a traceback."""
    return told.count("\n") == 1 and told.endswith(".\n") and "Traceback" not in told


def opens(data: Path, capsys: pytest.CaptureFixture[str]) -> tuple[int, str]:
    """Open a chat on a data folder; return the exit code and what was said about it."""
    code = main(["chat", "--data", str(data), "--zone", "UTC", "--as", "Ines"])
    return code, capsys.readouterr().err


def test_every_error_of_the_store_has_a_sentence_of_its_own() -> None:
    """No two kinds of trouble with the data are told in the same words, and each names the path."""
    kinds = [kind for kind in every_kind() if kind not in OURS]
    told = [console.data_trouble(kind.__name__, {"path": "/data/slowbell.db"}, "/data") for kind in kinds]
    assert len(kinds) >= 9
    assert len(set(told)) == len(kinds)
    assert all(sentence.endswith(".") and "/data/slowbell.db" in sentence for sentence in told)
    assert not any(kind.__name__ in sentence for kind, sentence in zip(kinds, told, strict=True))


def test_a_folder_that_cannot_be_made(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A data folder below a file cannot be made: one sentence names it, exit code 1."""
    (tmp_path / "file").write_text("not a folder")
    code, told = opens(tmp_path / "file" / "data", capsys)
    assert code == 1
    assert one_sentence(told)
    assert "cannot be made or written" in told


def test_a_file_that_is_no_database(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Something else under the name of the database is refused and left as it is."""
    path = tmp_path / "slowbell.db"
    path.write_text("a shopping list, long enough to be read as the head of a database " * 20)
    before = path.read_bytes()
    code, told = opens(tmp_path, capsys)
    assert code == 1
    assert one_sentence(told)
    assert "not a database" in told
    assert path.read_bytes() == before


def test_a_newer_database(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A database of a later version is refused in one sentence that says so."""
    open_store(tmp_path).close()
    with sqlite3.connect(tmp_path / "slowbell.db") as database:
        database.execute("UPDATE alembic_version SET version_num = 'from the future'")
    database.close()
    code, told = opens(tmp_path, capsys)
    assert code == 1
    assert one_sentence(told)
    assert "newer" in told


@pytest.mark.parametrize("kind", [errors.ReadOnlyDatabase, errors.DiskFull, errors.OlderInUse])
def test_trouble_at_the_start(
    kind: type[StoreError], tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """Whatever the store says at the start becomes one sentence and exit code 1."""

    def refuse(_folder: Path) -> None:
        raise kind(path=str(tmp_path / "slowbell.db"))

    monkeypatch.setattr(running, "open_store", refuse)
    code, told = opens(tmp_path, capsys)
    assert code == 1
    assert one_sentence(told)
    assert str(tmp_path) in told


def test_a_fault_of_the_program_is_one_sentence(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """An error that nobody expected is named in one sentence; the log has the rest."""

    async def fail(_store: object) -> int:
        message = "secret details"
        raise LookupError(message)

    settings = Settings(data_dir=tmp_path, zone="UTC", name="Ines")
    assert running.run_on_data(settings, fail) == 1
    told = capsys.readouterr().err
    assert one_sentence(told)
    assert "LookupError" in told
    assert "secret details" not in told


def _fill(window: Process, data: Path) -> None:
    """Let the disk be full for a process: no file may grow beyond the size of the smallest that it writes to."""
    sizes = [(data / name).stat().st_size for name in ("slowbell.db-wal", "slowbell.db")]
    _, hard = resource.prlimit(window.process.pid, resource.RLIMIT_FSIZE)
    resource.prlimit(window.process.pid, resource.RLIMIT_FSIZE, (min(sizes), hard))


def _empty(window: Process) -> None:
    _, hard = resource.prlimit(window.process.pid, resource.RLIMIT_FSIZE)
    resource.prlimit(window.process.pid, resource.RLIMIT_FSIZE, (hard, hard))


def test_a_full_disk_while_running(tmp_path: Path) -> None:
    """The window goes on and says so; what was typed meanwhile is stored and answered when there is room again."""
    with started("chat", "--data", str(tmp_path), "--zone", "UTC", "--as", "Ines") as ines:
        ines.sees("welcome")
        _fill(ines, tmp_path)
        for number in range(40):
            ines.type(f"line {number} {'x' * 300}\n")
        ines.sees("could not be stored")
        _empty(ines)
        ines.sees("heard line 39")
        assert "Traceback" not in ines.told
        told = ines.told
    assert re.findall(r"heard line (\d+)", told) == [str(number) for number in range(40)]
