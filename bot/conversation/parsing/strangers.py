"""Tells a reading with a few words around it from talk with a number in it ("we had 250 people here").

Only unasked figures without a unit or a probe beside them are doubted; an answer to a question is taken.
"""

from __future__ import annotations

import re

from bot.commands import Value
from bot.conversation.context import Context
from bot.conversation.parsing.answers import FILL
from bot.conversation.parsing.numbers import SLOT_WORDS, SPOT_WORDS, Figure
from bot.conversation.parsing.readings import asked, plausible_core, settle
from bot.conversation.parsing.words import word_set
from scheduler.facts import Slot

STRANGE_FOR_THE_UNLIKELY = 2
"""So many strange words beside what can be no next core make it talk ("uncle Bob turned 80")."""
MOST_STRANGE = 1
MOST_STRANGE_ASKED = 4
"""So many words that say nothing about a reading may stand beside one, unasked and asked."""
LEAST_READ, MOST_READ = 30.0, 999.0
"""Outside of these no figure beside a strange word is a temperature in either unit; common practice, no source."""
_KNOWN = (
    word_set(
        "a about actually number numbers here's reading says chef again ago ah ahora all almost and around as at"
        " bei bit boss by check checked checking "
        "chef climbing coming creeping currently deg degree degrees done down dropped dropping en es est esta "
        "exactly fell finally from getting going gone got grad guys hand handheld has hi hit hitting holding "
        "hovering i i'm im in is ist it it's its jetzt just last like lol looking looks ma maintenant man maybe "
        "min mins more moved my nearly new no noch not now of off oh ok okay on one only or over pretty probably "
        "probe pull pulled read reader readers reading readings reads right rising roughly same says see seeing "
        "showing shows since sitting slow slowly so sorry sry stall stalled steady still stuck temp temperature "
        "temps than thanks that the them then there thermometer they thick this to today try under up ups using "
        "was we went with yep yes yo box cooler der die das dem den zeigt steht liegt"
    )
    | FILL
    | frozenset(word for name in (*SLOT_WORDS, *SPOT_WORDS) for word in name.split())
)


def strangers(masked: str, found: tuple[Figure, ...], context: Context) -> bool:
    """Return True when the words around unasked figures say that these are no readings."""
    if any(figure.unit or figure.slot or figure.spot or figure.approx or figure.half_width for figure in found):
        return False
    rest = re.findall(r"[a-z]+(?:'[a-z]+)?", masked)
    strange = [word for word in rest if word not in _KNOWN and len(word) > 1]
    if strange and not any(LEAST_READ <= figure.value <= MOST_READ for figure in found):
        return True
    if len(strange) >= STRANGE_FOR_THE_UNLIKELY and Slot.CORE in asked(context) and context.last_core_c is not None:
        settled = [settle(figure, Slot.CORE, context) for figure in found]
        if not any(isinstance(one, Value) and plausible_core(one, context) for one in settled):
            return True
    return len(strange) > (MOST_STRANGE_ASKED if asked(context) else MOST_STRANGE)
