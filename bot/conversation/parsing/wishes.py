"""Whole texts that wish or ask something of the plan: read before everything that is told of the cook itself.

Each reader stands in a file of its own; this one only asks them in order.
"""

from __future__ import annotations

from bot.commands import Intent
from bot.conversation.context import Context
from bot.conversation.parsing.watches import watches_said
from bot.conversation.parsing.words import LONGEST_READ

_READERS = (watches_said,)


def wished(heard: str, text: str, context: Context) -> Intent | None:
    """Return what a whole text wishes or asks of the plan, None when it does not."""
    if not heard or len(heard) > LONGEST_READ:
        return None
    return next((intent for reader in _READERS if (intent := reader(heard, text, context)) is not None), None)
