"""The terminal's way out: a message becomes a row on the screen of a named person, whose window prints it; a file that
goes with it is put into a folder.

Nothing is printed and nothing is worded here; a window that is not open finds its rows when it opens.
"""

from __future__ import annotations

import asyncio
from collections.abc import Callable
from datetime import datetime
from pathlib import Path
from typing import Final

from bot.chat import Declined, Lack, Outcome, Outgoing, OutgoingKind, Sent
from bot.messages.console import saved_as
from bot.ports import Album, ClaimedRow, OutgoingTransport, Screen
from bot.transport.folder import put_away

NAME: Final = "terminal"
MOST_FILE_BYTES: Final = 20_000_000
"""Of a photo that somebody attaches; as much as the messenger lets the program fetch."""
_UNSEEN: Final = frozenset({OutgoingKind.PIN, OutgoingKind.UNPIN, OutgoingKind.REACTION})


class TerminalOutgoing(OutgoingTransport):
    """Sends by `Screen.show`, once per outbox key, so that a repeated attempt shows nothing twice.

    Files go into `folder`, made at need, readable by its owner alone; the message says where.
    """

    def __init__(
        self,
        screen: Screen,
        *,
        now: Callable[[], datetime],
        folder: Path,
        album: Album | None = None,
        name: str = NAME,
    ) -> None:
        self.name = name
        self._screen = screen
        self._now = now
        self._folder = folder
        self._album = album

    async def send(self, row: ClaimedRow) -> Outcome:
        """Put the message on the screen; an edit is shown anew, for paper cannot be changed.

        Pins, reactions and answers to taps without words show nothing. An error of the database or of the folder is
        raised: it is ours.
        """
        outgoing = row.outgoing
        text = outgoing.text
        if outgoing.kind is OutgoingKind.FETCH:
            return await asyncio.to_thread(self._fetch, outgoing)
        if outgoing.document is not None:
            path = await asyncio.to_thread(put_away, outgoing.document.name, outgoing.document.data, self._folder)
            text = saved_as(text, str(path))
        if outgoing.kind in _UNSEEN or not text:
            return Sent()
        shown = await asyncio.to_thread(
            self._screen.show,
            chat=outgoing.address.chat,
            outbox_key=outgoing.key,
            text=text,
            choices=tuple((choice.label, choice.token) for line in outgoing.choices for choice in line),
            at=self._now(),
        )
        return Sent(ref=f"{outgoing.address.chat}:{shown}")

    def _fetch(self, outgoing: Outgoing) -> Outcome:
        """Copy a file that was attached in a window; one that has gone since, or is too large, is declined."""
        try:
            path = Path(outgoing.target or "")
            if path.stat().st_size > MOST_FILE_BYTES:
                return Declined(lack=Lack.FILE, why="too large")
            data = path.read_bytes()
        except OSError as error:
            return Declined(lack=Lack.FILE, why=type(error).__name__)
        if self._album is not None:
            self._album(outgoing.text, data)
        return Sent()
