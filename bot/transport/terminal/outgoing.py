"""The terminal's way out: a message becomes a row on the screen of a named person, whose window prints it.

Nothing is printed and nothing is worded here; a window that is not open finds its rows when it opens.
"""

from __future__ import annotations

import asyncio
from collections.abc import Callable
from datetime import datetime
from typing import Final

from bot.chat import Outcome, OutgoingKind, Sent
from bot.ports import ClaimedRow, OutgoingTransport, Screen

NAME: Final = "terminal"


class TerminalOutgoing(OutgoingTransport):
    """Sends by `Screen.show`, once per outbox key, so that a repeated attempt shows nothing twice."""

    def __init__(self, screen: Screen, *, now: Callable[[], datetime], name: str = NAME) -> None:
        self.name = name
        self._screen = screen
        self._now = now

    async def send(self, row: ClaimedRow) -> Outcome:
        """Put the message on the screen; an edit is shown anew, for paper cannot be changed.

        Reactions and answers to taps without words show nothing. An error of the database is raised: it is
        ours.
        """
        outgoing = row.outgoing
        if outgoing.kind is OutgoingKind.REACTION or not outgoing.text:
            return Sent()
        shown = await asyncio.to_thread(
            self._screen.show,
            chat=outgoing.address.chat,
            outbox_key=outgoing.key,
            text=outgoing.text,
            choices=tuple((choice.label, choice.token) for line in outgoing.choices for choice in line),
            at=self._now(),
        )
        return Sent(ref=f"{outgoing.address.chat}:{shown}")
