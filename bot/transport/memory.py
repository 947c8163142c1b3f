"""An outgoing transport that keeps what it is told in a list: for the rehearsal and for tests of what is sent.

It delivers nowhere; outcomes other than success are scripted by whoever made it.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Iterable
from typing import Final

from bot.chat import Outcome, Outgoing, Sent
from bot.ports import ClaimedRow, OutgoingTransport

NAME: Final = "memory"


class MemoryTransport(OutgoingTransport):
    """Appends every outgoing to `sent` and answers with the next scripted outcome, or with success.

    `attempts` holds every claimed row in order, also those whose outcome was not success; `sent` those that arrived.
    """

    def __init__(self, *, name: str = NAME, outcomes: Iterable[Outcome] = ()) -> None:
        self.name = name
        self.attempts: list[ClaimedRow] = []
        self.sent: list[Outgoing] = []
        self._script = deque(outcomes)

    def script(self, *outcomes: Outcome) -> None:
        """Answer the next attempts with these, in order."""
        self._script.extend(outcomes)

    async def send(self, row: ClaimedRow) -> Outcome:
        """Keep the row and answer; the reference of a message is its place in `attempts`, counted from 1."""
        self.attempts.append(row)
        outcome = self._script.popleft() if self._script else Sent(ref=f"{self.name}:{len(self.attempts)}")
        if isinstance(outcome, Sent):
            self.sent.append(row.outgoing)
        return outcome
