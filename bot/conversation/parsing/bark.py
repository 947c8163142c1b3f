"""What people say of the bark while they are asked about it: pale or soft, dark or set.

The same words at another time say nothing of it; what it is wrapped in stands elsewhere.
"""

from __future__ import annotations

import datetime as dt
import re

from bot.commands import Done, Intent, NotYet
from bot.conversation.context import Context
from bot.conversation.parsing.meat import wrap_words
from bot.conversation.parsing.prompts import question
from bot.conversation.parsing.words import bare

_PALE = re.compile(
    r"\b(?:scratch(?:es|ed|ing)? (?:right )?off|(?:comes?|coming|rubs?|wipes?|flakes?|smears?|washes) (?:right "
    r"|straight )?"
    r"off|smears?|pale|blond|soft|mushy|wet|tacky|gooey|sticky|mush|runny|slimy|light|grey|gray|not (?:set|dark|there"
    r"|firm|hard)|needs? (?:more )?(?:colou?r|time)|more colou?r|raw looking|pasty|no bark|no colou?r|hardly any)\b"
)
_BEFORE = (
    r"(?:(?:it'?s|its|is|looks?|looking|nice|and|very|good|really|bark|the|all|now|pretty|super|a|deep|quite|ok|yes|yep"
    r"|yeah|well|fully|so|gorgeous|lovely|beautiful|great) )*"
)
_SET = r"(?:set|dark|mahogany|black|brown|crusty|crisp|hard|solid|firm|rock|red|amber|bronze|coal|tight)"
_BEHIND = (
    r"(?: (?:and|set|dark|now|hard|brown|red|mahogany|as|night|solid|crust|all|over|nice|firm|crusty|like|a|the|meteor"
    r"|bark|mate|already|enough))*"
)
_DARK = re.compile(
    rf"^{_BEFORE}{_SET}{_BEHIND}$|\b(?:doesn't|does not|won't|not|didn't|isn't) (?:scratch|com|rub|flak|wip)\w* off\b"
    r"|\bstays (?:on|put)\b|\bcan't scratch\b"
)


def bark_said(words: str, at: dt.datetime | None, context: Context) -> Intent | None:
    """Return what the looks of the bark say while they are asked about: set, or not yet; None for other words."""
    step = question(context)
    if step is None or step.step not in ("bark_check", "wrap_decide") or wrap_words(words) is not None:
        return None
    plain = bare(words.replace("|", " "))
    if _DARK.search(plain):
        return Done(step="bark_check", outcome="set", at=at)
    return NotYet(step=step.step) if _PALE.search(plain) else None
