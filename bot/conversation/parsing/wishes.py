"""Whole texts that wish or ask something of the plan: read before everything that is told of the cook itself.

Each reader stands in a file of its own; this one only asks them in order.
"""

from __future__ import annotations

from typing import Any

from bot.commands import Intent
from bot.conversation.context import Context
from bot.conversation.parsing.certainty import certainty_in, certainty_said
from bot.conversation.parsing.kinds import kinds_said, level_in
from bot.conversation.parsing.resting import rest_said
from bot.conversation.parsing.supposing import supposed
from bot.conversation.parsing.watches import watches_said
from bot.conversation.parsing.words import LONGEST_READ, cut_out

_READERS = (watches_said, kinds_said, certainty_said, rest_said, supposed)


def wished(heard: str, text: str, context: Context) -> Intent | None:
    """Return what a whole text wishes or asks of the plan, None when it does not."""
    if not heard or len(heard) > LONGEST_READ:
        return None
    return next((intent for reader in _READERS if (intent := reader(heard, text, context)) is not None), None)


def wishes_in(heard: str) -> tuple[dict[str, Any], str]:
    """Return what a sentence about a cook to come wishes (fields of a draft), and what is left of it."""
    said: dict[str, Any] = {}
    if (certainty := certainty_in(heard)) is not None:
        said["confidence"], heard = certainty.confidence, certainty.rest
    if (level := level_in(heard)) is not None:
        said["detail"], heard = level[0], cut_out(heard, [level[1]])
    return said, heard
