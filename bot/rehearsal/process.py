"""The life and death of the program under rehearsal: a child process that is started, told the time, and killed.

It must not say goodbye: `kill` is SIGKILL, so nothing in the child can tidy up.
"""

from __future__ import annotations

import datetime as dt
import subprocess
import sys
from pathlib import Path

from bot.rehearsal.engine import NOTHING_ARMED

LOG = "rehearsal.log"


class ProgramDied(RuntimeError):
    """The program under rehearsal ended by itself; `log` is where it may have said why."""

    def __init__(self, log: Path) -> None:
        super().__init__(f"the program under rehearsal ended by itself; see {log}")
        self.log = log


class Process:
    """One life of the program."""

    def __init__(self, data_dir: Path, zone: str, now: dt.datetime) -> None:
        """Start it and wait until it has looked at everything that waits."""
        self._log = data_dir / LOG
        with self._log.open("ab") as errors:
            self._child = subprocess.Popen(  # noqa: S603 - our own module, with arguments made here
                [sys.executable, "-m", "bot.rehearsal.engine", str(data_dir), zone, now.isoformat()],
                stdin=subprocess.PIPE,
                stdout=subprocess.PIPE,
                stderr=errors,
                text=True,
                start_new_session=True,  # Ctrl-C is for the narrator, who then ends this one
            )
        self.armed_at = self._answer()

    def go_on(self, to: dt.datetime) -> None:
        """Move its clock and wait until it has done what there is to do; `armed_at` says when it wants to wake."""
        assert self._child.stdin is not None
        try:
            self._child.stdin.write(f"{to.isoformat()}\n")
            self._child.stdin.flush()
        except OSError as error:
            raise ProgramDied(self._log) from error
        self.armed_at = self._answer()

    def kill(self) -> int:
        """Kill it with SIGKILL; return its exit code (negative: the signal)."""
        self._child.kill()
        code = self._child.wait()
        for pipe in (self._child.stdin, self._child.stdout):
            if pipe is not None:
                pipe.close()
        return code

    def _answer(self) -> dt.datetime | None:
        assert self._child.stdout is not None
        line = self._child.stdout.readline().strip()
        if not line:
            raise ProgramDied(self._log)
        return None if line == NOTHING_ARMED else dt.datetime.fromisoformat(line)
