"""What a test sees of a message in a chat.

It must not talk to the server.
"""

from __future__ import annotations

import dataclasses
from typing import Any


@dataclasses.dataclass(frozen=True, kw_only=True)
class Seen:
    """One message as a person in the chat sees it now."""

    chat: int
    message_id: int
    text: str
    sender: str
    """First name of the person, or of the bot."""
    by_bot: bool
    date: int
    """Unix time."""
    buttons: tuple[tuple[str, ...], ...] = ()
    """Labels, by row."""
    reactions: tuple[str, ...] = ()
    """What the bot put on it."""
    edits: int = 0
    pinned: bool = False
    silent: bool = False
    thread: int | None = None
    file: str | None = None
    """Name of the file that goes with it."""
    photo: bool = False
    force_reply: bool = False
    """It opens the reader's reply to it."""
    selective: bool = False
    """Only for whom it is a reply to, or whom it mentions."""
    reply_to: int | None = None

    @property
    def labels(self) -> tuple[str, ...]:
        """All labels of buttons, in reading order."""
        return tuple(label for row in self.buttons for label in row)


def seen(entry: dict[str, Any]) -> Seen:
    """Return a message from the server's own JSON of it."""
    rows = entry.pop("buttons")
    return Seen(
        **{**entry, "reactions": tuple(entry["reactions"])},
        buttons=tuple(tuple(row) for row in rows),
    )
