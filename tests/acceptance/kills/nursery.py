"""A process that has imported everything and forks a life for each order, so that hundreds of deaths take seconds.

It must not have threads (a fork copies only one), and its children must never come back into its own loop.

Orders and answers are lines of JSON on its standard input and output; it ends when its input does.
"""

from __future__ import annotations

import dataclasses
import json
import logging
import os
import signal
import subprocess
import sys
import traceback
from collections.abc import Callable
from functools import partial
from pathlib import Path
from types import TracebackType
from typing import Self

ROOT = Path(__file__).resolve().parents[3]


@dataclasses.dataclass(frozen=True, kw_only=True)
class End:
    """How a life ended, or that it stopped in the middle."""

    pid: int
    stopped: bool = False
    signal: int | None = None
    code: int | None = None


class Nursery:
    """The process, as seen by a test. A context manager."""

    def __init__(self) -> None:
        self._process: subprocess.Popen[str] | None = None

    def __enter__(self) -> Self:
        # One thread for arrays: a fork copies no others.
        environ = {**os.environ, "OPENBLAS_NUM_THREADS": "1", "OMP_NUM_THREADS": "1"}
        self._process = subprocess.Popen(
            [sys.executable, "-m", "tests.acceptance.kills.nursery"],
            cwd=ROOT,
            env=environ,
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            text=True,
        )
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        if self._process is not None:
            self._process.communicate()
            self._process = None

    def live(self, order: str) -> End:
        """Fork a life for an order (`life.Order` as JSON); return when it has ended or stopped."""
        return self._ask(f'{{"live": {order}}}')

    def live_here(self, order: str) -> End:
        """Let the process itself live: faster than a fork, and what its forecasts remember its children know."""
        return self._ask(f'{{"live_here": {order}}}')

    def go_on(self, pid: int) -> End:
        """Let a stopped life go on to its end."""
        return self._ask(json.dumps({"go_on": pid}))

    def _ask(self, line: str) -> End:
        assert self._process is not None
        assert self._process.stdin is not None
        assert self._process.stdout is not None
        self._process.stdin.write(f"{line}\n")
        self._process.stdin.flush()
        return End(**json.loads(self._process.stdout.readline()))


def main() -> None:
    """Serve orders until the input ends; whoever is still stopped then is killed."""
    from tests.acceptance.kills.life import Order, live_unwatched, live_watched  # noqa: PLC0415 - tests import the client without all this

    logging.disable(logging.WARNING)  # each paced message and late record is a warning: hundreds of them
    stopped: set[int] = set()
    for line in sys.stdin:
        asked = json.loads(line)
        if "live_here" in asked:
            end = End(pid=os.getpid(), code=_code_of(partial(live_unwatched, Order(**asked["live_here"]))))
        elif "live" in asked:
            end = _wait(_forked(partial(live_watched, Order(**asked["live"]))))
        else:
            os.kill(int(asked["go_on"]), signal.SIGCONT)
            end = _wait(int(asked["go_on"]))
        stopped = stopped | {end.pid} if end.stopped else stopped - {end.pid}
        sys.stdout.write(json.dumps(dataclasses.asdict(end)) + "\n")
        sys.stdout.flush()
    for pid in stopped:
        os.kill(pid, signal.SIGKILL)
        os.waitpid(pid, 0)


def _forked(life: Callable[[], None]) -> int:
    """Return the process that lives this life and ends, whatever happens in it."""
    pid = os.fork()
    if pid:
        return pid
    try:
        os._exit(_code_of(life))
    finally:
        os._exit(1)


def _code_of(life: Callable[[], None]) -> int:
    """Live, and return the exit code."""
    try:
        life()
    except Exception:  # noqa: BLE001 - told to whoever reads the output of the tests; the code says the rest
        traceback.print_exc()
        return 1
    return 0


def _wait(pid: int) -> End:
    """Wait until a child has ended or stopped."""
    _, status = os.waitpid(pid, os.WUNTRACED)
    if os.WIFSTOPPED(status):
        return End(pid=pid, stopped=True)
    if os.WIFSIGNALED(status):
        return End(pid=pid, signal=os.WTERMSIG(status))
    return End(pid=pid, code=os.WEXITSTATUS(status))


if __name__ == "__main__":
    main()
