"""Mends words that a greasy thumb broke ("sprtized", "wraped", "butrer"), when a text means nothing as it was typed.

Only words of the trade, one slip each, and only where every other word of the text is known: talk is left alone.
"""

from __future__ import annotations

import re

from bot.conversation.parsing.answers import FILL
from bot.conversation.parsing.numbers import SLOT_WORDS, SPOT_WORDS
from bot.conversation.parsing.words import word_set

MOST_WORDS = 6
"""Longer texts are talk."""
_SHORT = 4
"""Shorter words are too near to one another to be mended [letters]."""
_MENDED = word_set(
    "done finished sorted skip later tomorrow spritz spritzed sprayed wrapped wrapping foil foiled paper butter"
    " buttery "
    "tender tight tough almost nearly probe thermometer display error broken fire charcoal coals fuel plenty half"
    " quarter "
    "empty wood chunks added pulled resting rested cooler boxed sliced served flare smoke raining windy open minutes "
    "minute hour hours remind undo delete ignore scratch correction celsius fahrenheit degrees already checked nothing "
    "hands driving busy gloves still about around maybe naked parchment butcher jiggly rubbery slides bends cracks "
    "mahogany scratches reading number changed steady climbing stalled topped filled refuelled lighting started "
    "dropped rotated turned flipped watch handed safe dinner guests when what long brisket internal ambient between "
    "sorry meant typo wrong asleep shower snooze listo hecho fertig erledigt noch nicht kern grad"
)
_COMMON = word_set(
    "a i the to of in it is on at by up so no go be we me my he she they you your our us an or and but if as for with "
    "not yet now then than that this these those there here just too very much more less most some any all both"
    " each one "
    "two three four five six ten good bad big small new old well will would could should can may might must have"
    " has had "
    "was were are been being do does did get got give gave take took put make made come came went going gone see"
    " saw look "
    "looks looking feel feels felt think know say says said tell told ask asked need needs want wants like likes"
    " let lets "
    "time day night morning evening today tonight soon late early first last next same other another again back off"
    " out "
    "over under down through into from near far hot cold warm cool high low fast slow hard soft easy wet dry dark"
    " light "
    "red black brown white pale blue green meat beef pork lamb fish bird chicken turkey rib ribs rack racks butt"
    " shoulder "
    "fat bark skin bone bones end ends side sides top bottom left right middle pan water spray oil salt rub sauce mop "
    "grill smoker cooker kettle vents vent lid ash coal box bag bed shop car game beer beers bread roll rolls song"
    " songs "
    "better batter bitter matter letter butler tighter pages pager taper caper wiper papers wool hood mood food"
    " word wide "
    "woods hoods lather latter dater rather water layer bone gone none dine dune dome tone zone cone lone hole hope"
    " horse "
    "house four hire fine file five wire tire tired fired dire bake cake lake wake shake skin skip ship slip snip"
    " soup sofa "
    "face pace race place space spice slide bride broke brake proper prone prove fuel feel foul fool full file fail"
    " foal "
    "coil soil boil toil oil smile stroke spoke open oven pen ten paint point pint print mint hint half calf hall"
    " halt hats "
    "hand sand band land bands hats hits hot hut hurt hunt nice mice rice ice dice thanks thank please pls okay ok"
    " yes yeah "
    "fun sun run gun son ton won guy guys man men kid kids dad mum mom wife dog cat music wind window windows rain"
    " train "
    "brain drain grain weather nothing something anything everything someone anyone nobody everyone name named"
    " phone photo "
    "pic picture video money price cost order bought buy sell sold eat ate eating drink drunk drinking hungry"
    " hunger angry "
    "love loved live lived life like home work worked week weekend month year birthday party friend friends family"
    " kidding"
)
_KNOWN = _MENDED | _COMMON | FILL | {word for name in (*SLOT_WORDS, *SPOT_WORDS) for word in name.split()}
_LETTERS = "abcdefghijklmnopqrstuvwxyz"


def respelled(heard: str) -> str | None:
    """Return a tidied text with its slips mended, None when it has none that is plain or holds words nobody knows."""
    words = re.findall(r"[a-z]+(?:'[a-z]+)?", heard)
    if not words or len(words) > MOST_WORDS:
        return None
    unknown = [word for word in dict.fromkeys(words) if word not in _KNOWN]
    mended = {word: _nearest(word) for word in unknown}
    if not unknown or any(right is None for right in mended.values()):
        return None
    return re.sub(r"[a-z]+(?:'[a-z]+)?", lambda found: mended.get(found.group()) or found.group(), heard)


def _nearest(word: str) -> str | None:
    """Return the one word of the trade that is one slip away and begins alike, None where there is none or several."""
    if len(word) < _SHORT or "'" in word:
        return None
    near = {slip for slip in _slips(word) if slip in _MENDED and (slip[0] == word[0] or slip[:2] == word[1::-1])}
    if len(near) > 1:  # "spritzd" ends like "spritzed"
        near = {slip for slip in near if slip[-1] == word[-1]}
    return next(iter(near)) if len(near) == 1 else None


def _slips(word: str) -> set[str]:
    """Return every spelling that one key too many, too few, wrong, or two swapped ones can have come from."""
    parts = [(word[:at], word[at:]) for at in range(len(word) + 1)]
    return {
        *(left + right[1:] for left, right in parts if right),
        *(left + right[1] + right[0] + right[2:] for left, right in parts if len(right) > 1),
        *(left + letter + right[1:] for left, right in parts if right for letter in _LETTERS),
        *(left + letter + right for left, right in parts for letter in _LETTERS),
    }
