"""Words by which meat that was off the heat went back on: "back on", "it's back on the fire", "put it back on".

Only of meat that is off the heat; with a problem of the fire standing a bare "back on" is about that fire.
"""

from __future__ import annotations

import re

from bot.commands import BackOn
from bot.conversation.context import Context
from bot.conversation.parsing import times

_MEAT = (
    r"(?:(?:the |my |our )?(?:meat|food|ribs?|racks?|briskets?|butts?|shoulders?|pork|beef|lamb|chickens?|birds?"
    r"|turkey|roast|fish)|it|its|them|they|everything)"
)
_HEAT = r"(?: (?:on |to |over |in )?(?:the )?(?:fire|heat|grill|smoker|pit|cooker|barbecue|bbq|coals))?"
_BARE = re.compile(r"^(?:ok |okay |right |and |now )*back on(?: now| again)?$")
_BACK_IN_THE_OVEN = re.compile(
    rf"^(?:ok |okay |right |and |now )*(?:(?:i |we )?(?:have |'ve )?(?:put|set|got) {_MEAT}"
    rf"|{_MEAT}(?:'s|'re| is| are| went| goes| has gone)?)?(?: gone| going)? ?back in(?:to)? (?:the |a |my "
    rf"|our )?(?:hot )?"
    r"oven(?: now| again)?$"
)
_BACK_ON = re.compile(
    rf"^(?:ok |okay |right |and |now )*(?:(?:i |we )?(?:have |'ve )?(?:put|set|got|threw|laid) {_MEAT}"
    rf"|{_MEAT}(?:'s|'re| is| are| went| goes| has gone)?)?(?: gone| going)? ?back(?: on)?{_HEAT}(?: now| again)?$"
)
_ON = re.compile(r"\bback on\b|\bback (?:to|over|in) the\b")


def back_on(heard: str, context: Context) -> BackOn | None:
    """Return that meat went back on the heat, and when; None where nothing of the kind is said, or it is not off."""
    if context.stage != "resting":
        return None
    told = [when for when in times.find(heard) if when.kind in (times.Kind.CLOCK, times.Kind.AGO) and not when.until]
    when = told[0] if len(told) == 1 else None
    words = heard if when is None else f"{heard[: when.start]}{heard[when.end :]}"
    words = words.strip(" .!,").removesuffix(" at").removesuffix(" since").strip(" ,")
    if _BARE.match(words) is not None:
        if context.troubles:
            return None
    elif _BACK_IN_THE_OVEN.match(words) is not None:
        if context.may_keep:
            return None  # safe already: it rests there
    elif _BACK_ON.match(words) is None or _ON.search(words) is None:
        return None
    return BackOn(at=None if when is None else times.past(when, context.now, context.zone))
