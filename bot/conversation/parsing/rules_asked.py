"""Questions about published rules: "what is the rule", "why 145", "who says so". Whole texts only."""

from __future__ import annotations

import re

from bot.commands import Ask, Topic
from bot.conversation.context import Context

_NUMBER = re.compile(
    r"^(?:and |but )?(?:why|who says|says who|where does|where is|what about the) (?:is it |do you say |not )?"
    r"(?P<number>[0-9]{2,3}(?:[.][0-9])?) ?(?:°|degrees)? ?[cf]?(?: (?:degrees|then|come from|from|and not .*))*[ ?]*$"
)
_RULE = re.compile(
    r"^(?:and |but |so )?(?:(?:what(?:'s| is| are)?|which|says which|by what|by which|show me|tell me) )"
    r"(?:the |that |this |official |safety |food |published )*(?:rules?|limits?|safe minimum|minimum)"
    r"(?: (?:is (?:it|that|this)|for (?:it|this|that)|here|counts?|do you use|please|again|from|says so))*[ ?]*$"
)
_WHO = re.compile(r"^(?:who says(?: so| that)?|says who|according to whom?)[ ?]*$")


def rule_asked(heard: str, context: Context) -> Ask | None:
    """Return the question about a published rule, None when it is none; a fire ban is another matter."""
    if context.stage == "none":
        return None
    if (found := _NUMBER.match(heard)) is not None:
        return Ask(topic=Topic.RULE, number=float(found["number"]))
    return Ask(topic=Topic.RULE) if _RULE.match(heard) or _WHO.match(heard) else None
