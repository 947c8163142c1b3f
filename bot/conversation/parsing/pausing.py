"""Words that would cool or park meat that is not safe yet: into the fridge, indoors for the night, a fire left to die.

Nothing is judged but words and stage: what was served, or pulled after its safe minimum was read, may go anywhere.
"""

from __future__ import annotations

import re

from bot.commands import Pause
from bot.conversation.context import Context
from bot.conversation.parsing.words import phrases

_COLD = r"(?:fridge|refrigerator|freezer|ice ?box|cold (?:room|store)|larder|ice bath)"
_INDOORS = r"(?:inside|indoors|(?:in|into) (?:the |our |my )?(?:house|kitchen|garage|shed|hall|cellar))"
_LATER = r"(?:over ?night|night|tomorrow|(?:in the |till |until )?morning|next day|bed|sleep|later)"
_MOVES = r"(?:bring|brought|bringing|take|took|taking|put|putting|carry|carried|get|move[ds]?|moving|leave|keep|park)"
_PAUSES = phrases(
    rf"\b(?:in|into|to|inside) (?:the |our |my |a )?{_COLD}\b",
    r"\b(?:fridge[ds]?|refrigerate[ds]?|chill(?:ed)?|freeze|froze) (?:it|this|them|that|the (?:meat|rest|lot))\b",
    rf"\b{_MOVES}\b.*\b{_INDOORS}\b",
    rf"\b(?:leave|leaving|keep|hold|store|save|stand|park)\b(?!.*\b(?:on|box|boxed|oven|cooler|hot"
    rf"|warm)\b).*\b{_LATER}$",
    (
        r"\b(?:let|leave|letting|leaving|left) (?:the |it |this |our )?(?:fire |coals? |charcoal |smoker |cooker )?"
        r"(?:to )?(?:die|go|burn)(?: out| off| away)?\b(?! down)"
    ),
    rf"\b(?:let|leave|letting|leaving)\b.*\b(?:die|go|burn) (?:out|down)\b.*\b{_LATER}\b",
    rf"\b(?:close|closing|shut|shutting|turn off|turning off|put out|kill|snuff|douse)\b.*\b{_LATER}\b",
)
_OTHER_FOOD = re.compile(
    r"\b(?:beers?|drinks?|wine|salads?|slaw|sides?|sauces?|desserts?|buns?|butter|cake|milk|dough|potato(?:es)?"
    r"|marinade"
    r"|spritz)\b"
)
_OTHER_THINGS = re.compile(
    r"\b(?:oven|grill|smoker|barbecue|bbq|kettle|charcoal|ash|probe|dog|kids?|children|tray|kit|tools?|stuff"
    r"|leftovers?|trimmings?|fat|tallow|(?:a )?(?:bit|little)|some)\b"
)
_FIRE = re.compile(r"\b(?:fire|coals?|charcoal|smoker|cooker)\b(?= (?:to )?(?:die|go|burn))")
_OFF_FIRST = re.compile(r"\b(?:pulled|took it off|taken off|it(?:'s| is) off)\b")
_AFTER_SERVING = frozenset({"two_hour", "leftovers"})


def parks_the_meat(heard: str, context: Context) -> Pause | None:
    """Return the pause that a text wants while meat is half cooked, None when it wants none or no meat is.

    Food that somebody is asked to put away has been served; what was pulled in the same breath is judged by its log.
    """
    if context.stage not in ("cooking", "resting") or context.may_keep or _OFF_FIRST.search(heard):
        return None
    if any(step.step in _AFTER_SERVING for step in context.open_steps):
        return None
    meant = _PAUSES.search(heard) and not _OTHER_THINGS.search(_FIRE.sub("it", heard)) and not is_other_food(heard)
    return Pause() if meant else None


def is_other_food(words: str) -> bool:
    """Return whether words are about drinks and dishes beside the meat, which may go into any fridge."""
    return bool(_OTHER_FOOD.search(words))
