"""The program with a kitchen that says back what it hears; for tests of windows, locks and kills, started as a process.

It must not test anything itself. Usage: `python -m tests.integration.program_echo` and the words of `slowbell`.
"""

from __future__ import annotations

import datetime as dt
import sys
from collections.abc import Callable

from bot.__main__ import main
from bot.bootstrap import parts
from bot.bootstrap.parts import decode_telegram
from bot.chat import Choice, IncomingKind, Outgoing
from bot.ports import Apply, OutboxWrite
from bot.program import Kitchen
from bot.settings import Settings
from bot.store import SqlStore
from bot.transport.terminal.decode import SOURCE, decode_terminal


class Echo:
    """Answers each line with the same line, in the same chat."""

    def __init__(self, store: SqlStore) -> None:
        self._store = store

    def take_in(self, now: dt.datetime) -> int:
        """Write one answer for each row, in one transaction with the row."""
        rows = self._store.inbox_waiting()
        for row in rows:
            decode = decode_terminal if row.source == SOURCE else decode_telegram
            came = decode(row.raw, source=row.source, key=row.key, received_at=row.received_at)
            answers: tuple[OutboxWrite, ...] = ()
            if came is not None:
                text = "welcome" if came.kind is IncomingKind.ARRIVED else f"heard {came.text}"
                done = Choice(label="All done", token=f"t{row.id}")
                outgoing = Outgoing(key=f"echo:{row.key}", address=came.address, text=text, choices=((done,),))
                answers = (OutboxWrite(outgoing=outgoing, meanings=({},)),)
            self._store.apply(Apply(now=now, inbox_done=row.id, outbox=answers))
        return len(rows)

    def ring(self, now: dt.datetime) -> int:
        """Do nothing: nothing is ever due."""
        return 0 * now.microsecond

    def next_wake_at(self) -> dt.datetime | None:
        """Return None: nothing is ever due."""
        return None


def open_echo(settings: Settings, store: SqlStore, say: Callable[[str], None]) -> Kitchen:
    """Return the kitchen that says back what it hears."""
    return Echo(store)


if __name__ == "__main__":
    parts.open_kitchen = open_echo
    sys.exit(main())
