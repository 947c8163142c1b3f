"""Words about food that was thrown away, and words that would wave a stop off.

Whole texts only; whether somebody may record it, and whether a stop stands, is judged elsewhere.
"""

from __future__ import annotations

import re

from bot.commands import Discard, Intent, WaveOff
from bot.conversation.context import Context
from bot.conversation.parsing import times
from bot.conversation.parsing.numbers import SPOT_WORDS
from bot.conversation.parsing.words import cut_out, phrases, word_set

_PLACE = (
    r"(?:straight |right |all )?(?:in|into|to|for) (?:the |a |our |my )?(?:bin|bins|dustbin|trash(?: can)?"
    r"|garbage(?: can)?|rubbish|dumpster|compost|waste)\b"
)
_DID = r"(?:binned|tossed|chucked|dumped|trashed|discarded|ditched|scrapped)"
_HAD_TO = (
    r"(?:had to|ended up) (?:bin|binning|toss|tossing|chuck|chucking|dump|dumping|trash|trashing|discard|discarding"
    r"|ditch|ditching|scrap|scrapping)"
)
_THREW = r"(?:(?:had to throw|ended up throwing|threw|thrown))(?P<what>.*?) ?\b(?:out|away|in the bin)"
_DEEDS = (
    re.compile(_PLACE),
    re.compile(rf"\b{_HAD_TO}\b"),
    re.compile(rf"\b{_DID}\b"),
    re.compile(r"\b(?:got|gotten|get) rid of\b|\b(?:disposed|had to dispose) of\b"),
    re.compile(r"\bweg(?:geworfen|geschmissen)\b|\bin den mull\b|\bentsorgt\b"),
    re.compile(r"\b(?:tirado|tirada) a la basura\b|\ba la basura\b|\bjetee? a la poubelle\b|\ba la poubelle\b"),
)
"""Words that say by themselves that something was thrown away; "threw" needs "out" or "away" behind it."""
_THREW_AWAY = re.compile(rf"\b{_THREW}\b")
_BARE = re.compile(r"^(?:thrown|threw it|chucked)$")
_FILLERS = word_set(
    "i we i've we've have has had just so ok okay right done they it it's its is was were are been got all yes yep "
    "yeah sadly sorry unfortunately then now already out away the our my that those them this these and of everything "
    "lot rest whole thing stuff gone went put fed dropped landed left remaining what straight by today again "
    "threw thrown meat's"
)
_VAGUE = word_set("plate rack racks side round short half whole bone skin fat tip top back full end")
"""Words of the names of cuts that name other things as well: they tell nothing alone."""
_FOOD = word_set(
    "meat food leftovers leftover chicken chickens bird birds turkey pork beef lamb brisket briskets rib ribs butt "
    "butts shoulder shoulders sausage sausages burger burgers fish salmon roast roasts joint joints portions batch"
)
_NOT_YET = re.compile(
    r"\b(?:don't|do not|won't|will not|not|never|shall|should|will|going to|gonna|must|can|could|may|want|if|or|to be"
    r"|have to|need to|might|let's|lets|thermometer|probe|spatula|gloves?)\b|\?"
)
_EVERY = re.compile(r"\b(?:everything|all|the (?:whole )?lot|the whole thing)\b")
_ANSWERED = frozenset({"two_hour", "leftovers", "leftover_expire", "ash"})
_ANSWERS = frozenset({"thrown", "binned"})
"""Steps of which one of these words by itself is an answer, while they are asked."""

_WAVES = phrases(
    (
        r"^(?:(?:it's|its|it is|that's|thats|they're|we're|i'm|this is|all|well|oh|no|nah|ok|okay|come on)[ ,]+)*"
        r"(?:fine|ok|okay|good|alright|all right|no problem|not a problem|safe|good enough|close enough|near enough)"
        r"(?:[ ,.]+(?:just |really |please )?(?:ignore|forget|skip|drop|dismiss|silence|mute) (?:it|that"
        r"|this|the stop))?"
        r"(?: (?:to (?:eat|serve)|anyway|really|now|trust me|i think|for us))*$"
    ),
    (
        r"^(?:(?:please|just|you can|ok|okay|it's fine|its fine|no)[ ,]+)*(?:ignore|forget|skip|drop"
        r"|dismiss|silence|mute"
        r"|cancel|clear|remove|delete|stop|end|lift|override|acknowledge|disregard) (?:about )?(?:it"
        r"|that|this|the|all|your|these"
        r"|those)?(?: ?(?:stops?|warnings?|alarms?|alerts?|messages?|safety(?: (?:stop|warning|message|thing)s?)?))?"
        r"(?: (?:please|now|it's fine|its fine|we know|i know))*$"
    ),
    (
        r"^(?:please )?(?:stop|quit|enough|no more|don't|do not)(?: (?:with|of))?(?: (?:telling|asking"
        r"|nagging|warning|saying"
        r"|reminding|bugging|bothering|pestering|messaging|tell|ask|nag|warn|remind|bug|bother|repeat"
        r"|repeating|the))*"
        r"(?: (?:me|us|this|that|it|again|about (?:it|that|this|the stop|safety)|stops?|warnings?|alarms?))*$"
    ),
    (
        r"^(?:(?:please|ok|okay)[ ,]+)*(?:remind|tell|ask|warn|bug|ping) (?:me|us)(?: again)?"
        r"(?: (?:later|tomorrow|then|in (?:a|an|\d+) ?(?:while|bit|min|minutes?|h|hours?)?))+$"
    ),
    (
        r"^(?:(?:we|i|we'll|i'll|we will|i will|let's|lets|just|we're going to|we are going to)[ ,]+)*"
        r"(?:(?:take|taking) the"
        r" risk|risk(?:ing)? it|chance it|serve (?:it )?anyway|eat (?:it )?anyway|serving (?:it )?anyway"
        r"|eating (?:it )?anyway"
        r"|keep it|kept it|keeping it|didn't (?:bin|throw|toss) it.*)$"
    ),
    r"^(?:not now|later|whatever|never ?mind|nvm|got it|understood|i know|we know|noted|acknowledged"
    r"|shut up|snooze)$",
    r"^(?:smells|looks|tastes|it smells|it looks|it tastes|seems) (?:fine|ok|okay|good|alright|great"
    r"|done)(?: to me)?$",
)


def discarding(heard: str, context: Context) -> Intent | None:
    """Return that food was thrown away, None when a text says nothing of it, or asks, or only means to.

    Whatever else is named that is no food (ash, coals, trimmings, a thermometer), or a part of it, records nothing. A
    bare word that answers an open question about leftovers stays that answer, unless a stop stands.
    """
    plain = heard.strip(" .!")
    if context.stage == "none" or not plain or _NOT_YET.search(heard):
        return None
    whens = [when for when in times.find(plain) if when.kind in (times.Kind.CLOCK, times.Kind.AGO) and not when.until]
    words = cut_out(plain, [(when.start, when.end) for when in whens]).replace("|", " ")
    if not _thrown_away(words, context):
        return None
    asked = any(step.step in _ANSWERED for step in context.open_steps)
    if asked and not context.stop_stands and plain in _ANSWERS:
        return None
    at = times.past(whens[0], context.now, context.zone) if len(whens) == 1 else None
    return Discard(every=bool(_EVERY.search(plain)), at=at)


def _thrown_away(words: str, context: Context) -> bool:
    """Return whether words say that food was thrown away, and nothing else."""
    if _BARE.match(words.strip()):
        return True
    rest = _threw(words)
    found = rest != words
    for deed in _DEEDS:
        rest, count = deed.subn(" ", rest)
        found = found or bool(count)
    if not found or re.search("[0-9]", rest):
        return False
    left = [word for word in re.findall(r"[a-z]+(?:'[a-z]+)?", rest) if word not in _FILLERS]
    food = _FOOD | _cut_words(context)
    real = [word for word in left if word.removesuffix("'s") in food - _VAGUE]
    return len(real) == len(left) or (bool(real) and all(word in food or word in _VAGUE for word in left))


def _threw(words: str) -> str:
    """Return words without "threw out" or "threw ... away"; the same when they say nothing of it."""
    return _THREW_AWAY.sub(lambda found: f" {found['what']} ", words)


def _cut_words(context: Context) -> frozenset[str]:
    """Return the words by which the pieces of this cook are called."""
    cuts = [known.cut for known in context.pieces] or ([context.cut] if context.cut else [])
    names = [name for cut in cuts for name in (context.cuts.get(cut).name, *context.cuts.get(cut).also_called)]
    return frozenset(word for name in names for word in re.findall(r"[a-z]{3,}", name.casefold())) - set(SPOT_WORDS)


def waved_off(heard: str, context: Context) -> Intent | None:
    """Return that a stop is to be forgotten, None when none stands or a text says something else."""
    if not context.stop_stands:
        return None
    return WaveOff() if _WAVES.match(heard.strip(" .!")) else None
