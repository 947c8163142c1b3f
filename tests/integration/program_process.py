"""A window of the program as a process of its own, for tests: type into it, wait for what it prints, kill it.

It must not know what is printed.
"""

from __future__ import annotations

import os
import pty
import re
import signal
import subprocess
import sys
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
PATIENCE_S = 20.0
ECHO = "tests.integration.program_echo"


class Silent(AssertionError):
    """The words that were waited for did not come."""


class Process:
    """One process; `told` is everything it has printed so far."""

    def __init__(self, *words: str, module: str = ECHO, terminal: bool = False, **environ: str) -> None:
        here = {name: value for name, value in os.environ.items() if not name.startswith("SLOWBELL_")}
        self._news = threading.Condition()
        self._told = b""
        self._ours, theirs = pty.openpty() if terminal else os.pipe()
        self.process = subprocess.Popen(
            [sys.executable, "-m", module, *words],
            cwd=ROOT,
            env={**here, "PYTHONDEVMODE": "", "PROMPT_TOOLKIT_NO_CPR": "1", "TERM": "xterm", **environ},
            stdin=theirs if terminal else subprocess.PIPE,
            stdout=theirs,
            stderr=theirs,
            start_new_session=True,
        )
        os.close(theirs)
        self._reader = threading.Thread(target=self._read, daemon=True)
        self._reader.start()

    @property
    def told(self) -> str:
        """Everything printed so far."""
        with self._news:
            return self._told.decode("utf-8", "replace")

    def type(self, text: str) -> None:
        """Type text as it is; a line needs its line break."""
        if self.process.stdin is not None:
            self.process.stdin.write(text.encode())
            self.process.stdin.flush()
        else:
            os.write(self._ours, text.encode())

    def sees(self, words: str, *, times: int = 1) -> str:
        """Wait until these words were printed so often; return everything printed."""
        return self.matches(re.compile(re.escape(words)), times=times)

    def matches(self, pattern: re.Pattern[str], *, times: int = 1) -> str:
        """Wait until something like this was printed so often; return everything printed."""
        with self._news:  # `told` takes the lock again: it may be taken twice by one thread
            there = self._news.wait_for(lambda: len(pattern.findall(self.told)) >= times, PATIENCE_S)
        if not there:
            raise Silent(f"{pattern.pattern!r} did not come in:\n{self.told}")
        return self.told

    def kill(self) -> None:
        """End it with SIGKILL, in the middle of whatever it does."""
        self.process.kill()
        self.process.wait(PATIENCE_S)

    def ends(self, number: signal.Signals | None = None) -> int:
        """Send a signal, if one is given, and return the exit code; everything it printed is in `told` then."""
        if number is not None:
            self.process.send_signal(number)
        code = self.process.wait(PATIENCE_S)
        self._reader.join(PATIENCE_S)
        return code

    def close(self) -> None:
        """Kill it if it lives, and release what it held."""
        if self.process.poll() is None:
            self.kill()
        self._reader.join(PATIENCE_S)
        if self.process.stdin is not None:
            self.process.stdin.close()
        os.close(self._ours)

    def _read(self) -> None:
        while True:
            try:
                chunk = os.read(self._ours, 65536)
            except OSError:  # a terminal whose other end is gone
                chunk = b""
            with self._news:
                self._told += chunk
                self._news.notify_all()
            if not chunk:
                return


@contextmanager
def started(*words: str, module: str = ECHO, terminal: bool = False, **environ: str) -> Iterator[Process]:
    """Start a process for the length of a block."""
    process = Process(*words, module=module, terminal=terminal, **environ)
    try:
        yield process
    finally:
        process.close()
