"""How a room wishes to be spoken to. Values only."""

from __future__ import annotations

from typing import Literal

from bot.commands.intent import Said


class MannerSaid(Said):
    """The language and the unit of the room it is said in, from now on. None: as before; both None asks which there
    are. A language that is no two-letter code is one that nobody here knows.
    """

    kind: Literal["manner"] = "manner"
    language: str | None = None
    unit: Literal["C", "F"] | None = None
