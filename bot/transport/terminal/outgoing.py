"""The terminal's way out: a message becomes a row on the screen of a named person, whose window prints it; a file that
goes with it is put into a folder.

Nothing is printed and nothing is worded here; a window that is not open finds its rows when it opens.
"""

from __future__ import annotations

import asyncio
import os
from collections.abc import Callable
from datetime import datetime
from pathlib import Path
from typing import Final

from bot.chat import Document, Outcome, OutgoingKind, Sent
from bot.messages.console import saved_as
from bot.ports import ClaimedRow, OutgoingTransport, Screen

NAME: Final = "terminal"


class TerminalOutgoing(OutgoingTransport):
    """Sends by `Screen.show`, once per outbox key, so that a repeated attempt shows nothing twice.

    Files go into `folder`, made at need, readable by its owner alone; the message says where.
    """

    def __init__(self, screen: Screen, *, now: Callable[[], datetime], folder: Path, name: str = NAME) -> None:
        self.name = name
        self._screen = screen
        self._now = now
        self._folder = folder

    async def send(self, row: ClaimedRow) -> Outcome:
        """Put the message on the screen; an edit is shown anew, for paper cannot be changed.

        Reactions and answers to taps without words show nothing. An error of the database or of the folder is
        raised: it is ours.
        """
        outgoing = row.outgoing
        text = outgoing.text
        if outgoing.document is not None:
            path = await asyncio.to_thread(put_away, outgoing.document, self._folder)
            text = saved_as(text, str(path))
        if outgoing.kind is OutgoingKind.REACTION or not text:
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


def put_away(document: Document, folder: Path) -> Path:
    """Write a file whole, readable by its owner alone, and return its path; the same name is replaced.

    Only the last part of the name counts, whatever it holds. Raises OSError.
    """
    folder.mkdir(mode=0o700, parents=True, exist_ok=True)
    path = folder / (Path(document.name.replace("\\", "/")).name.lstrip(".") or "paper")
    fresh = path.with_name(f".{path.name}.{os.getpid()}")
    with os.fdopen(os.open(fresh, os.O_WRONLY | os.O_CREAT | os.O_TRUNC, 0o600), "wb") as file:
        file.write(document.data)
        file.flush()
        os.fsync(file.fileno())
    fresh.replace(path)
    return path
