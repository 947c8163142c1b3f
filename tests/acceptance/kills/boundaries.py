"""Counts the boundaries that one life of the program passes, from outside, and ends or stops the process at one.

It must not need anything of the program but what is public: events of the database library, wrapped ways out.

A boundary lies before and after each statement (BEGIN among them), each commit, and each call to the messenger or a
screen. After one of these and before the next nothing happens that could be seen from outside, so the gap between two
is one boundary and not two. Statements that set up a connection (PRAGMA) go past the library's events: they change no
row and are not counted.
"""

from __future__ import annotations

import os
import signal
import threading
from collections.abc import Mapping
from typing import Any
from unittest import mock

from sqlalchemy import Engine, event
from sqlalchemy.dialects.sqlite.pysqlite import SQLiteDialect_pysqlite

from bot.chat import Outcome
from bot.ports import ClaimedRow, OutgoingTransport
from bot.transport.telegram.calls import Answer, BotApi


class Boundaries:
    """Notes each boundary in a file and does at one of them what was ordered."""

    def __init__(self, report: str, *, kill_at: int | None, stop_at: int | None) -> None:
        self._report = os.open(report, os.O_WRONLY | os.O_CREAT | os.O_TRUNC, 0o600)
        self._one_at_a_time = threading.Lock()
        self._passed = 0
        self._kill_at = kill_at
        self._stop_at = stop_at
        self._counting = False
        self._in_gap = False

    def begin(self) -> None:
        """Count from here on: the opening before is not part of the scene."""
        self._counting = True
        self._in_gap = False

    def before(self, what: str) -> None:
        """Something is about to be done."""
        with self._one_at_a_time:
            self._arrive(f"before {what}", new=not self._in_gap)
            self._in_gap = False

    def after(self, what: str) -> None:
        """Something was done, and nobody knows yet."""
        with self._one_at_a_time:
            self._arrive(f"after {what}", new=True)
            self._in_gap = True

    def _arrive(self, name: str, *, new: bool) -> None:
        """Write down where we are; at the ordered boundary die by SIGKILL or stop by SIGSTOP, as it begins."""
        if not self._counting:
            return
        self._passed += new
        os.write(self._report, f"{self._passed} {name}\n".encode())
        if new and self._passed == self._kill_at:
            os.kill(os.getpid(), signal.SIGKILL)
            signal.pause()  # the signal may be a moment on its way to this thread
        if new and self._passed == self._stop_at:
            os.kill(os.getpid(), signal.SIGSTOP)


def watch_database(boundaries: Boundaries) -> None:
    """Count every statement (BEGIN among them) and every commit of every engine of this process."""
    commit = SQLiteDialect_pysqlite.do_commit

    def before(_connection: object, _cursor: object, statement: str, *_more: object) -> None:
        boundaries.before(_short(statement))

    def after(_connection: object, _cursor: object, statement: str, *_more: object) -> None:
        boundaries.after(_short(statement))

    def counted_commit(dialect: SQLiteDialect_pysqlite, connection: Any) -> None:  # noqa: ANN401 - the library's own
        boundaries.before("COMMIT")
        commit(dialect, connection)  # type: ignore[no-untyped-call]  # the library gives it no types
        boundaries.after("COMMIT")

    event.listen(Engine, "before_cursor_execute", before)
    event.listen(Engine, "after_cursor_execute", after)
    mock.patch.object(SQLiteDialect_pysqlite, "do_commit", counted_commit).start()


def _short(statement: str) -> str:
    """Return the verb of a statement and its first table."""
    words = [word.strip("(),") for word in statement.split()]
    if words[0] == "SELECT" and "FROM" in words:
        return f"SELECT FROM {words[words.index('FROM') + 1]}"
    return " ".join(words[: {"INSERT": 3, "DELETE": 3}.get(words[0], 2)])


class CountedWayOut(OutgoingTransport):
    """A way out, with a boundary before each attempt and one after it was carried out but not yet used."""

    def __init__(self, way_out: OutgoingTransport, boundaries: Boundaries) -> None:
        self.name = way_out.name
        self._way_out = way_out
        self._boundaries = boundaries

    async def send(self, row: ClaimedRow) -> Outcome:
        what = f"{row.outgoing.kind} {row.outgoing.key}"
        self._boundaries.before(f"CALL {what}")
        outcome = await self._way_out.send(row)
        self._boundaries.after(f"CALL {what}")
        return outcome


class CountedApi(BotApi):
    """The client of the poller, with the same two boundaries around each call."""

    boundaries: Boundaries

    async def call(self, method: str, parameters: Mapping[str, object], *, read_s: float = 20.0) -> Answer:
        self.boundaries.before(f"CALL {method}")
        answer = await super().call(method, parameters, read_s=read_s)
        self.boundaries.after(f"CALL {method}")
        return answer
