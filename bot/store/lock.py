"""Locks of the operating system on files in the data folder: who is the engine, and who may prepare the database.

A lock dies with its process, however that dies; nothing here ever looks at the age of a file.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Final

from bot.store.errors import FolderNotWritable

LOCK_NAME: Final = "slowbell.lock"
_OPENING_NAME: Final = "slowbell.opening"

if sys.platform == "win32":
    import msvcrt

    _FAR: Final = 1 << 30
    """The byte that is locked: far behind the text, which stays readable."""

    def _lock(handle: int, *, wait: bool) -> None:
        os.lseek(handle, _FAR, os.SEEK_SET)
        msvcrt.locking(handle, msvcrt.LK_LOCK if wait else msvcrt.LK_NBLCK, 1)

else:
    import fcntl

    def _lock(handle: int, *, wait: bool) -> None:
        fcntl.flock(handle, fcntl.LOCK_EX | (0 if wait else fcntl.LOCK_NB))


class EngineLock:
    """Held by the one process that takes in, decides and delivers for a data folder.

    Another `name` makes another lock of the same kind, on a file of its own.
    """

    def __init__(self, data_dir: Path, *, name: str = LOCK_NAME) -> None:
        self.path = data_dir / name
        self._handle: int | None = None

    @property
    def held(self) -> bool:
        """Whether this object holds the lock."""
        return self._handle is not None

    def try_acquire(self) -> bool:
        """Take the lock if it is free, at once; True when it is held afterwards.

        Raises `FolderNotWritable` when the file cannot be made.
        """
        if self._handle is not None:
            return True
        handle = _open(self.path)
        try:
            _lock(handle, wait=False)
        except OSError:  # held by another: BlockingIOError on POSIX, PermissionError on Windows
            os.close(handle)
            return False
        os.ftruncate(handle, 0)
        os.lseek(handle, 0, os.SEEK_SET)
        os.write(handle, f"{os.getpid()}\n".encode())
        self._handle = handle
        return True

    def holder(self) -> int | None:
        """Return the process id that took the lock last (for a message to people; it proves nothing)."""
        try:
            text = self.path.read_text("ascii", errors="replace").strip()
        except OSError:
            return None
        return int(text) if text.isdecimal() else None

    def release(self) -> None:
        """Give the lock up; the file stays."""
        if self._handle is not None:
            os.close(self._handle)
            self._handle = None


@contextmanager
def opening(data_dir: Path) -> Iterator[None]:
    """Let one process at a time create, switch and upgrade the database of a folder; others wait for it."""
    handle = _open(data_dir / _OPENING_NAME)
    try:
        _lock(handle, wait=True)
        yield
    finally:
        os.close(handle)


def _open(path: Path) -> int:
    try:
        return os.open(path, os.O_RDWR | os.O_CREAT, 0o600)
    except OSError as error:
        raise FolderNotWritable(path=str(path.parent), why=error.strerror) from error
