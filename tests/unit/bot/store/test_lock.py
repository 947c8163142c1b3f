"""The engine lock: one holder, freed by letting go."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from bot.store import EngineLock, errors


def test_one_holder_at_a_time(tmp_path: Path) -> None:
    """The second is refused at once, and gets it when the first lets go."""
    first, second = EngineLock(tmp_path), EngineLock(tmp_path)
    assert first.try_acquire()
    assert not second.try_acquire()
    assert (first.held, second.held) == (True, False)
    first.release()
    assert second.try_acquire()
    assert not first.try_acquire()
    second.release()


def test_taking_it_twice_is_taking_it_once(tmp_path: Path) -> None:
    """The holder may ask again; one release frees it."""
    lock = EngineLock(tmp_path)
    assert lock.try_acquire()
    assert lock.try_acquire()
    lock.release()
    lock.release()
    other = EngineLock(tmp_path)
    assert other.try_acquire()
    other.release()


def test_two_folders_do_not_know_one_another(tmp_path: Path) -> None:
    """The lock is of a data folder, not of the machine."""
    folders = [tmp_path / name for name in ("a", "b")]
    locks = []
    for folder in folders:
        folder.mkdir()
        locks.append(EngineLock(folder))
    assert [lock.try_acquire() for lock in locks] == [True, True]
    for lock in locks:
        lock.release()


def test_two_names_do_not_know_one_another(tmp_path: Path) -> None:
    """A lock under another name is another lock."""
    engine, other = EngineLock(tmp_path), EngineLock(tmp_path, name="other.lock")
    assert engine.try_acquire()
    assert other.try_acquire()
    engine.release()
    other.release()


def test_the_file_names_its_holder_and_is_private(tmp_path: Path) -> None:
    """For a message to people: the process id. Nobody else may read it."""
    lock = EngineLock(tmp_path)
    assert lock.holder() is None
    lock.try_acquire()
    assert EngineLock(tmp_path).holder() == os.getpid()
    assert lock.path.stat().st_mode & 0o777 == 0o600
    lock.release()


def test_a_folder_that_is_not_there_is_an_error(tmp_path: Path) -> None:
    """The lock does not make folders."""
    with pytest.raises(errors.FolderNotWritable):
        EngineLock(tmp_path / "nowhere").try_acquire()
