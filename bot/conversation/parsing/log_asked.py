"""What is asked of the log, and what was put into the wrong one: "who did the wood?", "wrong cook sorry".

It names the step; who did it stands in the log.
"""

from __future__ import annotations

import re

from bot.commands import Ask, Intent, Topic, WrongCook
from bot.conversation.context import Context
from bot.conversation.parsing import steps
from bot.conversation.parsing.kinds import step_called
from bot.conversation.parsing.words import bare, phrases

_WHO = phrases(
    r"^(?:(?:ok|so|and|hey|wait|um|guys|who|all|lol)[ ,]+)*who(?:'s|s| has| had| just| last| was it (?:that|who))? ?"
    r"(?:did|done|do|put|added|adding|threw|spritz\w*|sprayed|misted|wrapped|pulled|lit|refuel\w*|filled|topped|rotated"
    r"|turned|swapped|salted|boxed|sliced|read|checked|looked|took|touched|opened|washed|cleaned|moved|fed|stoked"
    r"|made)\b",
    r"^(?:(?:ok|so|and|hey|wait)[ ,]+)*(?:did|has|have) (?:any ?(?:body|one)|some ?(?:body|one)|you|u|they|he|she|we)\b"
    r".*\b(?:did|done|do|put|add(?:ed)?|spritz\w*|wrap(?:ped)?|pull(?:ed)?|refuel\w*|fill(?:ed)?|rotated?|read"
    r"|check(?:ed)?)\b",
    r"^who was (?:last|on)\b.*\b(?:wood|fire|fuel|spritz|wrap|pit|water|lid)\b",
)
_WRONG_COOK = phrases(
    r"\bwrong (?:cook|cooker|smoker|grill|bbq|barbecue|one of the cooks)\b",
    r"\bthat(?:'s|s| was| is)? (?:(?:for|from|of) )?(?:the |my )?other (?:brisket|butt|piece|one|meat|shoulder|rack"
    r"|ribs?"
    r"|bird|chicken|roast|chat|group)\b(?! (?:day|time|people))",
    r"\b(?:meant|was) (?:for )?the other (?:cook|cooker|smoker|grill|bbq|fire|barbecue|one)\b",
    r"\b(?:for|in|of|to) the other (?:cook|cooker|smoker|grill|bbq|fire|barbecue)\b",
    r"\b(?:other|another) (?:cook|cooker|smoker|grill)(?:,| )*(?:sorry|sry|my bad|oops)$",
)


def who_did(heard: str, _text: str, context: Context) -> Intent | None:
    """Return the question who did a step, None for other words."""
    if context.stage == "none" or not _WHO.search(heard):
        return None
    mentioned = steps.mentioned(heard, context.stage)
    step = mentioned[0] if mentioned else step_called(heard)
    return None if step is None else Ask(topic=Topic.WHO_DID, step=step)


def wrong_cook(heard: str, _text: str, context: Context) -> Intent | None:
    """Return that what was told last was for another cook, None for other words."""
    if context.stage == "none" or heard.endswith("?") or re.search(r"[0-9]", heard):
        return None
    return WrongCook() if _WRONG_COOK.search(bare(heard)) else None
