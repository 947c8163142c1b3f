"""`slowbell record`: what it writes, what it refuses and what it says would work."""

from __future__ import annotations

import dataclasses
import datetime as dt
from pathlib import Path

import pytest

from bot.__main__ import main
from bot.ports import Apply, CookWrite
from bot.store import EngineLock, SqlStore, open_store
from scheduler.facts import Fact
from tests.unit.scheduler.logbook import START, resting


@pytest.fixture
def data(tmp_path: Path) -> Path:
    """Return a data folder with two cooks, the first of them without a reading."""
    folder = tmp_path / "data"
    store = open_store(folder)
    log = resting()
    _keep(store, log.facts[:1], "c1")
    _keep(store, log.facts, "c2")
    store.close()
    return folder


def _keep(store: SqlStore, facts: tuple[Fact, ...], cook: str) -> None:
    mine = tuple(dataclasses.replace(fact, id=f"{cook}.{fact.id}", cook=cook) for fact in facts)
    write = CookWrite(cook=cook, expected_version=0, facts=mine)
    assert store.apply(Apply(now=START + dt.timedelta(hours=9), cooks=(write,)))


def _run(data: Path, *args: str) -> int:
    return main(["record", *args, "--data", str(data), "--zone", "UTC"])


def test_both_files_are_written(data: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The newest cook, as a table and as pages; it says what it wrote."""
    table, paper = tmp_path / "log.csv", tmp_path / "log.pdf"
    assert _run(data, "--csv", str(table), "--pdf", str(paper)) == 0
    assert b"204.8,96.0" in table.read_bytes()
    assert paper.read_bytes().startswith(b"%PDF-")
    assert capsys.readouterr().out.count("temperature log of c2") == 2


def test_another_cook_is_named(data: Path, tmp_path: Path) -> None:
    """By its id, also one that is older."""
    table = tmp_path / "log.csv"
    assert _run(data, "c1", "--csv", str(table)) == 0
    assert b"NOT MEASURED" in table.read_bytes()


def test_it_works_while_the_bot_runs(data: Path, tmp_path: Path) -> None:
    """The engine may hold its lock: a record only reads."""
    lock = EngineLock(data)
    assert lock.try_acquire()
    try:
        assert _run(data, "--csv", str(tmp_path / "log.csv")) == 0
    finally:
        lock.release()


def test_without_a_file_it_says_how(data: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Nothing is printed into the terminal; an example is."""
    assert _run(data) == 2
    assert "slowbell record --pdf log.pdf --csv log.csv" in capsys.readouterr().err


def test_an_unknown_cook_brings_the_known_ones(data: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """It names the newest, and writes nothing."""
    table = tmp_path / "log.csv"
    assert _run(data, "c9", "--csv", str(table)) == 2
    assert "There is no cook c9. The newest are: c2, c1" in capsys.readouterr().err
    assert not table.exists()


def test_a_folder_without_data_is_left_alone(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """It says that nothing was planned there, and makes no database."""
    assert _run(tmp_path / "empty", "--csv", str(tmp_path / "log.csv")) == 1
    assert "No cook was ever planned" in capsys.readouterr().err
    assert not (tmp_path / "empty").exists()


def test_a_database_without_cooks_is_told(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A program that was started and never used has nothing to log."""
    open_store(tmp_path / "data").close()
    assert _run(tmp_path / "data", "--csv", str(tmp_path / "log.csv")) == 2
    assert "There is no cook yet" in capsys.readouterr().err


def test_a_file_that_cannot_be_written_is_one_sentence(
    data: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A folder that is not there: the name and the reason, no traceback."""
    assert _run(data, "--pdf", str(tmp_path / "nowhere" / "log.pdf")) == 1
    assert "log.pdf cannot be written: No such file or directory" in capsys.readouterr().err
