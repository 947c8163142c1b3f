"""Questions whether food may be eaten, how hot it has to be, and how long it keeps. Whole texts only.

Each is asked of the engine: nothing is judged here, and no looks or juices are a reading.
"""

from __future__ import annotations

import re

from bot.commands import Ask, Topic
from bot.conversation.context import Context
from bot.conversation.parsing.words import phrases

_SO = r"(?:(?:so|and|but|ok|okay|hey|then|well|please)[ ,]+)*"
_FOOD = (
    r"(?:it|this|that|them|these|the [a-z -]{2,20}?|my [a-z -]{2,20}?|our [a-z -]{2,20}?|meat|leftovers?|chicken|turkey"
    r"|pork|beef|ribs|brisket|sausages|food|some|any of it)"
)
_WHO = (
    r"(?:i|we|you|they|people|everyone|everybody|anybody|anyone|he|she|kids|(?:a |the |my |our )?(?:pregnant |old "
    r"|small "
    r"|little |young )*(?:wife|woman|women|people|husband|mum|mom|dad|gran(?:ny|dma|dpa)?|kids?|child(?:ren)?|baby"
    r"|toddlers?"
    r"|guests?|family|friends?|daughter|son))"
)
_MAY_EAT = phrases(
    rf"^{_SO}(?:can|could|may|should|shall|dare|is it (?:ok|okay|safe|fine) (?:for|if)) {_WHO}(?: to)? (?:still "
    rf"|now |safely "
    rf"|already |really )*(?:eat|have|serve|taste|try|keep eating) {_FOOD}(?: (?:now|still|yet|already|anyway"
    rf"|safely|cold"
    r"|today|tomorrow))*$",
    rf"^{_SO}(?:is|are) {_FOOD} (?:really |already |still )*(?:cooked(?: through)?|done inside|safe|raw|edible"
    rf"|ok to eat"
    r"|okay to eat|good to eat|still good|dangerous|spoiled|off)(?: (?:inside|now|yet|through|for .*|to eat.*|or not"
    r"|enough))*$",
    rf"^{_SO}(?:is|are) {_FOOD} (?:ok|okay|safe|fine|good) for {_WHO}$",
    rf"^{_SO}(?:is it )?(?:really |still |now )*(?:ok|okay|safe|fine|good|alright|edible)(?: (?:still|now))? to "
    rf"(?:eat|serve|have|taste|keep eating|give to {_WHO})(?: {_FOOD})?"
    r"(?: (?:now|still|yet|anyway|cold|today|tomorrow))*$",
    r"^(?:the )?juices? (?:run|runs|ran|are|is|running|come out|coming out) (?:all )?(?:clear|clean)(?: now)?$"
    r"|^clear juices$",
    r"^(?:the )?(?:leftovers?|rest) (?:is |are )?still in the fridge(?: .*)?$",
    rf"^(?:half|some|most|the rest|part|a lot|all)?(?: of)? ?{_FOOD}(?: is| are|'s)? still (?:on|sitting on|out on) the"
    r" (?:buffet|table|counter|side|board)(?: .*)?$",
)
_HOW_HOT = re.compile(
    rf"^{_SO}(?:what(?:'s| is|s)?|which|how hot|tell me)? ?(?:(?:is |are )?the |a )?(?:(?:safe|minimum|internal"
    rf"|core|right"
    r"|correct|lowest|final) )*(?:temp(?:erature)?|minimum|how hot)?(?: (?:is|should|must|does|do|has|needs?))*"
    r"(?: (?:it|they))?(?: (?:be|have|to be|reach|need|safe))*(?: (?:for|of|is|should|must|does))?"
    r" ?(?:the |my |a )?(?P<food>[a-z -]*?)(?: (?:be|need|have to be|reach|safe|done|have|at|to be))*$"
)
_ABOUT_HEAT = re.compile(r"\b(?:safe|minimum|internal|core|how hot)\b.*|\b(?:what|which) temp(?:erature)?\b.*")
_FRIDGE_BY = re.compile(
    rf"^{_SO}(?:when|how (?:soon|fast|quickly|long until|long before)|by when|until when)\b.*\b(?:in|into) the fridge$"
    rf"|^{_SO}how long (?:can|may|could) (?:it|this|they|the [a-z]+|food|meat|leftovers) (?:stay|be|stand|sit"
    rf"|lie) (?:out|on"
    r" the (?:table|counter|buffet)).*$"
)
_KEEP = re.compile(
    rf"^{_SO}how (?:long|many days)\b.*\b(?:leftovers?|in the fridge)\b(?: .*)?$|^{_SO}how long (?:do|does|will"
    rf"|can) (?:it|they)"
    r" keep$"
)
_THAW = re.compile(rf"^{_SO}(?:how (?:long|much time)|when|what time)\b.*\b(?:thaw\w*|defrost\w*)\b.*$")
_F_OF = {"chicken": 165.0, "turkey": 165.0, "poultry": 165.0, "duck": 165.0, "goose": 165.0, "bird": 165.0,
         "sausage": 160.0, "burger": 160.0, "ground": 160.0, "mince": 160.0, "minced": 160.0,
         "pork": 145.0, "beef": 145.0, "lamb": 145.0, "fish": 145.0, "salmon": 145.0, "steak": 145.0}  # fmt: skip
"""By which figure the rule of a food is looked up [F]: USDA FSIS safe minimum internal temperatures (read)."""


def safety_asked(heard: str, context: Context) -> Ask | None:
    """Return what is asked about safety, None when it is another question, or while no cook runs."""
    plain = re.sub(r",? (?:ok|okay|right|or)$", "", heard.strip(" .!?"))
    if context.stage == "none" or context.setup_slot is not None or not plain:
        return None
    if _MAY_EAT.match(plain):
        return Ask(topic=Topic.SAFE)
    if _THAW.match(plain) and context.stage in ("before", "fire"):
        return Ask(topic=Topic.STEP, step="thaw_start")
    if _FRIDGE_BY.match(plain):
        return Ask(topic=Topic.RULE)
    if _KEEP.match(plain):
        return Ask(topic=Topic.STEP, step="leftover_expire")
    if _ABOUT_HEAT.search(plain) and (hot := _HOW_HOT.match(plain)) is not None:
        return _of_food(hot["food"], context)
    return None


def _of_food(food: str, context: Context) -> Ask | None:
    """Return the question about the minimum of a food; None where the words name none that is known."""
    words = food.split()
    known = next((_F_OF[one] for word in words for one in (word, word.removesuffix("s")) if one in _F_OF), None)
    if known is None:
        return Ask(topic=Topic.RULE) if not words or words in (["it"], ["meat"]) else None
    return Ask(topic=Topic.RULE, number=known if context.unit != "C" else round((known - 32.0) / 1.8))
