"""Runs a command on the data: opens it, logs to a file, stops at signals, and turns errors into one sentence.

It must not know what the command does.
"""

from __future__ import annotations

import asyncio
import contextlib
import logging
import logging.handlers
import os
import signal
from collections.abc import Callable, Coroutine, Iterator
from pathlib import Path

from bot.messages import console
from bot.settings import Settings
from bot.store import SqlStore, open_store
from bot.store.errors import StoreError
from bot.transport.terminal.paper import complain

log = logging.getLogger(__name__)

FAILED = 1
INTERRUPTED = 130
LOG = "slowbell.log"
LOG_BYTES = 1_000_000
CHATTY = ("alembic", "apscheduler", "httpcore", "httpx")

Command = Callable[[SqlStore], Coroutine[None, None, int]]


def run_on_data(settings: Settings, command: Command) -> int:
    """Open the data and run a command on it; return its exit code, or 1 with one sentence about what went wrong."""
    os.umask(0o077)  # whatever is made from here on is its owner's alone
    try:
        store = open_store(settings.data_dir)
    except StoreError as error:
        complain(data_trouble(error, settings.data_dir))
        return FAILED
    try:
        _log_to(settings.data_dir / LOG)
        return asyncio.run(command(store))
    except KeyboardInterrupt:  # a second Ctrl-C: at once
        return INTERRUPTED
    except Exception as error:  # people get one sentence, the log gets the rest
        log.exception("stopped")
        complain(data_trouble(error, settings.data_dir))
    finally:
        store.close()
    return FAILED


def data_trouble(error: Exception, data_dir: Path) -> str:
    """Return a sentence about an error of the store, or about one that nobody expected."""
    if isinstance(error, StoreError):
        return console.data_trouble(type(error).__name__, error.details, str(data_dir))
    return console.fault(type(error).__name__, str(data_dir / LOG))


class Troubles:
    """Tells people when the program begins to fail, and when all is well again; not each step and each attempt."""

    def __init__(self, data_dir: Path, say: Callable[[str], None]) -> None:
        """`say` prints a sentence."""
        self._data_dir = data_dir
        self._say = say
        self._failing: set[str] = set()

    def began(self, step: str, error: Exception) -> None:
        """Note that a step fails."""
        if not self._failing:
            self._say(console.goes_on(data_trouble(error, self._data_dir)))
        self._failing.add(step)

    def ended(self, step: str) -> None:
        """Note that a step works again."""
        self._failing.discard(step)
        if not self._failing:
            self._say(console.recovered())


@contextlib.contextmanager
def stopped_by_signals(stop: Callable[[], None]) -> Iterator[None]:
    """Stop in order at the first signal; a second one ends the process at once."""
    loop = asyncio.get_running_loop()
    numbers = (signal.SIGINT, signal.SIGTERM, signal.SIGHUP)

    def forget() -> None:
        for number in numbers:
            loop.remove_signal_handler(number)

    def first() -> None:
        forget()
        stop()

    for number in numbers:
        loop.add_signal_handler(number, first)
    try:
        yield
    finally:
        forget()


def _log_to(path: Path) -> None:
    """Log to a file of the data folder: the console is for people."""
    logging.raiseExceptions = False  # a full disk must not print tracebacks into the chat
    handler = logging.handlers.RotatingFileHandler(
        path, maxBytes=LOG_BYTES, backupCount=1, encoding="utf-8", delay=True
    )
    handler.setFormatter(logging.Formatter("%(asctime)s %(process)d %(levelname)s %(name)s: %(message)s"))
    logging.basicConfig(level=logging.INFO, handlers=[handler])
    for chatty in CHATTY:
        logging.getLogger(chatty).setLevel(logging.WARNING)
