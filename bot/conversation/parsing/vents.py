"""Words about the vents in anybody's marks: "oben fast zu, unten 2cm offen". They are kept as they are."""

from __future__ import annotations

import re

from bot.commands import Note
from bot.conversation.context import Context

_WHERE = re.compile(
    r"\b(?:vents?|dampers?|intakes?|exhausts?|chimney|top|bottom|upper|lower|oben|unten|zuluft|abluft|luft|klappen?"
    r"|schieber"
    r"|arriba|abajo|tiro|haut|bas|events?|daisy ?wheel)\b"
)
_HOW = re.compile(
    r"\b(?:open(?:ed)?|closed?|shut|half|halb|quarter|third|cracked|zu|offen|auf|geschlossen|nearly|fast|abierto"
    r"|cerrado|ouvert"
    r"|ferme|wide|barely|[0-9]+ ?(?:cm|mm|%|in(?:ch(?:es)?)?)|1/[234]|[.][0-9]+)\b"
)


LID = re.compile(
    r"\blid(?:'s| is| was| has been| had been)?(?: left)? (?:open|off|up)\b"
    r"|\b(?:open(?:ed|ing)?|lift(?:ed|ing)?|took|taken|had|left|raised|popped) (?:up )?(?:the |my )?lid\b"
    r"|\b(?:peek(?:ed)?|looked) (?:in|under|inside)\b|\bdeckel (?:war |ist )?(?:auf|offen)\b"
)
"""The lid was open: its heat is gone for a while."""


_ASKS = re.compile(r"^(?:can|could|may|should|shall|do|does|is|are|why|when|how|what|who|which|where)\b")


def vent_marks(heard: str, text: str, context: Context) -> Note | None:
    """Return how the vents stand or that the lid was open, as a note in the words typed; None for other words."""
    if context.stage == "none" or heard.endswith("?") or _ASKS.match(heard):
        return None
    return Note(text=text) if (_WHERE.search(heard) and _HOW.search(heard)) or LID.search(heard) else None
