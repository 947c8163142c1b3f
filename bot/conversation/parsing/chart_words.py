"""Words that ask for the cook as a picture. Only whole texts: a picture that somebody sends is none."""

from __future__ import annotations

import re

from bot.commands import Ask, Intent, Topic
from bot.conversation.parsing.words import phrases

_WHAT = "(?:chart|graph|plot|diagram|curve|picture|pic|image|temperature curve)"
_LEAD = (
    "(?:(?:can i|may i|could i|can we|i want to|let me|lemme|can you|could you|please|pls|show|give|send|draw|make|get"
    "|see|have|look at|look|me|us|now|new|another|as|in)(?: |$))*"
)
_OF = "(?: (?:of|for|with) (?:it|that|this|everything|(?:the |this |my |our )?(?:\\w+)(?: cook)?))?"
_ENDS = "(?: (?:please|pls|now|again|thanks))*"
_GERMAN_LEAD = "(?:(?:bitte|zeig|zeige|schick|schicke|mal|mir|uns|ein|eine|das|die|den|dein|neues|als|im) )*"
_GERMAN = "(?:bild|diagramm|kurve|grafik|verlauf|temperaturverlauf|schaubild)"
_DARK = "(?:dark(?: mode)?|night|black|dunkel|dunkles|nacht)"
_LIGHT = "(?:light(?: mode)?|day|bright|white|hell|helles|tag)"


def _patterns(before: str, after: str) -> re.Pattern[str]:
    """Return what is matched by a wish for a picture with words about its colours, which may be nothing."""
    return phrases(
        f"^{_LEAD}(?:(?:the|a|an|my|our) )?{before}{_WHAT}{after}{_OF}{_ENDS}$",
        f"^{_GERMAN_LEAD}{before}{_GERMAN}{after}(?: bitte)?$",
    )


CHARTS: tuple[tuple[Intent, re.Pattern[str]], ...] = (
    (Ask(topic=Topic.CHART, dark=True), _patterns(f"{_DARK} ", "")),
    (Ask(topic=Topic.CHART, dark=True), _patterns("", f",? (?:in (?:the )?)?{_DARK}")),
    (Ask(topic=Topic.CHART, dark=False), _patterns(f"{_LIGHT} ", "")),
    (Ask(topic=Topic.CHART, dark=False), _patterns("", f",? (?:in (?:the )?)?{_LIGHT}")),
    (Ask(topic=Topic.CHART), _patterns("", "")),
    (
        Ask(topic=Topic.CHART),
        phrases(
            r"^(?:please |can you |could you )?show (?:me|us)(?: (?:it|how it(?:'s| is) going|where we are))?"
            r"(?: please| now)?$",
            r"^(?:bitte )?zeig(?:e)?(?: es)?(?: mir| uns)?(?: mal)?(?: bitte)?$",
        ),
    ),
)
"""The chart, dark or light where that was said."""
