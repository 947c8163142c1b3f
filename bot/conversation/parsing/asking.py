"""Words with a question mark: "bark?", "wrapped?", "done?" ask about a step and never say that it was done.

Figures stay readings: "178?" is what a probe shows, told by somebody who wonders.
"""

from __future__ import annotations

import re

from bot.commands import Ask, Done, FeelSaid, Intent, NotYet, PutOffFor, Report, Skip, Topic, Trouble, Unclear, WrapSaid
from bot.conversation.parsing import steps

_WISH = re.compile(
    r"^(?:can|could|may) (?:you|u|i|we) (?:please |pls |just )?(?:give (?:me|us)|have|get)"
    r"(?= (?:another |like |about )?[0-9]{1,3} ?(?:more ?)?(?:min(?:ute)?s?|hours?)?(?: more)?(?: please| pls)? ?[?]?$)"
)
_OUTCOMES = (Done, FeelSaid, NotYet, PutOffFor, Skip, WrapSaid)


def as_wish(heard: str) -> str:
    """Return "gimme 10 more minutes" for "can you give me 10 more minutes": a wish, though it asks; else the text."""
    wish = _WISH.sub("gimme", heard)
    return heard if wish == heard else wish.rstrip(" ?")


def asked_about(found: tuple[Intent, ...], heard: str, stage: str) -> tuple[Intent, ...]:
    """Return what a text that ends in a question mark means: its readings, else the question about the step it names.

    Nothing when it is neither: whatever it is, it says no more than without the mark.
    """
    readings = tuple(intent for intent in found if isinstance(intent, Report))
    if readings:
        return tuple(intent for intent in found if not isinstance(intent, _OUTCOMES))
    if any(isinstance(intent, Trouble) for intent in found):
        return ()  # "fire out?" is a trouble until somebody knows better
    if any(isinstance(intent, Unclear) and intent.question in ("slot", "unit", "impossible") for intent in found):
        return ()
    mentioned = steps.mentioned(heard, stage)
    told = next((step for intent in found if (step := _step(intent)) is not None), None)
    step = told or (mentioned[0] if mentioned else steps.named(heard))
    if step is not None:
        return (Ask(topic=Topic.STEP, step=step),)
    said = any(isinstance(intent, _OUTCOMES) or _asks_which(intent) for intent in found)
    return (Ask(topic=Topic.HOW_LONG),) if said else ()


def _asks_which(intent: Intent) -> bool:
    """Return True for the question which of several open steps was meant."""
    return isinstance(intent, Unclear) and intent.question in ("which_step", "skip_which", "which_wrap")


def _step(intent: Intent) -> str | None:
    match intent:
        case Done(step=step, outcome=outcome) if outcome is not None:
            return step
        case WrapSaid():
            return "wrap_do"
        case FeelSaid():
            return "tender_test"
        case _:
            return None
