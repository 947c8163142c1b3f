"""Words by which people would leave a lit cooker: to bed, to the shop, alone for the night.

Only while a fire may burn; who has the watch, and that nobody leaves it alone, is said elsewhere.
"""

from __future__ import annotations

from bot.commands import Ask, Topic
from bot.conversation.context import Context
from bot.conversation.parsing.words import phrases

_BURNS = frozenset({"fire", "cooking", "resting"})
_I = r"(?:(?:i|we|i'm|im|we're|i am|we are|i'll|we'll|everybody|everyone|we all|all|is|are|ok|so|now|just|will)[ ,]+)*"
_GO = r"(?:go|goes|going|gonna go|going to go|off|heading|headed|heading off)"
_PLACE = (
    r"(?:to )?(?:bed|sleep|the (?:shops?|store|pub|supermarket|pool|beach)|shopping|work|town|church"
    r"|for a (?:walk|nap|drive))"
)
_FIRE = r"(?:it|this|them|the (?:fire|cooker|smoker|grill|pit|meat|barbecue|bbq|coals|thing))"
_LEAVES = phrases(
    rf"^{_I}{_GO} {_PLACE}(?: now| soon| for .*| until .*| till .*| at .*)?(?:,.*)?$",
    rf"^{_I}(?:gonna|going to|need to|have to|will|must|want to|wanna) (?:go to )?(?:sleep|nap|bed)\b.*$",
    rf"^(?:can|could|may|should|is it (?:ok|okay|safe|fine) to) (?:i|we)? ?(?:just )?(?:go|leave)\b(?: off"
    rf"| out)? {_PLACE}.*$",
    rf"^(?:can|could|may|is it (?:ok|okay|safe|fine) to|i'll|we'll|i|we|i'm|we're|gonna|will|let's)? ?(?:i "
    rf"|we )?(?:just )?"
    rf"(?:leave|leaving|left) {_FIRE} (?:alone|unattended|by itself|on its own|unwatched|burning|running)\b.*$",
    r"^(?:nobody|no one) (?:is |will be )?(?:awake|up|here) (?:tonight|over ?night|at night|during the night).*$",
    r"^(?:good ?night|gn|nighty? night)(?: all| everyone| everybody| team)?$",
)
_HANDED_OVER = phrases(
    r"\b(?:has (?:it|the (?:watch|fire))|takes (?:it|over|the watch)|is (?:up|awake|watching|on watch))\b"
)


def leaves_the_fire(heard: str, context: Context) -> Ask | None:
    """Return the question who watches, for words by which somebody would leave the fire alone; None for others."""
    if context.stage not in _BURNS or context.setup_slot is not None or _HANDED_OVER.search(heard):
        return None
    return Ask(topic=Topic.LEAVES) if _LEAVES.match(heard.strip(" .!?")) else None
