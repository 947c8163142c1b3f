"""What only the typed words tell of a reply whose meaning is known: a nod or a yes, a range or a dial.

It asks the parts of the reader; it never says what a text means.
"""

from __future__ import annotations

import re

from bot.conversation.parsing import times
from bot.conversation.parsing.answers import Answer, answer
from bot.conversation.parsing.corrections import retracts
from bot.conversation.parsing.earlier import without_earlier
from bot.conversation.parsing.numbers import Figure, figures
from bot.conversation.parsing.troubles import was_but_is_over
from bot.conversation.parsing.vents import LID
from bot.conversation.parsing.words import bare, clauses, cut_out, tidy

_YES = re.compile(
    r"^(?:oh |ah |um |well )?(?:yes|yep|yup|yeah|yea|ya|yh|yess+|y|ja|si|oui|sure|aye|correct|affirmative)\b"
)
_ALREADY = re.compile(r"\b(?:already|did|told (?:u|you)|schon)\b")
_HOLD = re.compile(
    r"^(?:(?:ok|no|oh|please|pls|gimme|give me|just) )*(?:wait|waiting|hold|hang|hang on|hold on|hold up|hold it"
    r"|wait up|(?:a |one )?(?:moment|sec|second|min|minute)|momento|warte|moment mal|attends|espera)"
    r"(?: (?:a|one|up|on|there|please|pls|wait|sec|second|minute|min|moment|mal|bit|hang|hold))*$"
)
_ASKS_LATER = re.compile(
    r"\b(?:gimme|give me|ask|remind|later|needs?|snooze|again|back|more|wait|busy|can'?t|cannot|another|noch|encore)\b"
)
_LETTERS = re.compile(
    r"(?<![a-z0-9])(?=[0-9lio|]*[lio|])(?=[0-9lio|]*[0-9])[0-9lio|]{3,4}(?=[cf]?(?![a-z0-9]))|(?<![a-z0-9.])[1-9]o(?![a-z0-9])"
)
_STRAY = re.compile(r"(?<![0-9.,])(?:[0-9] [0-9]{2}|[0-9]{2} [0-9]|[0-9] [0-9] [0-9])(?![0-9.,])")
_PARCHMENT = re.compile(r"\b(?:parchment|baking paper|backpapier|greaseproof|newspaper|cloth|towel|leaves|leaf)\b")
_DONE_FIRST = re.compile(
    r"^(?:ok |yes |ja |si )?(?:done|finished|ready|fertig|erledigt|listo|hecho|fini|termine|terminado)\b"
)
_BOTH = re.compile(r"\b(?:both|two)\b|\bdone and done\b|\bdone done\b")
_UNDO = re.compile(
    r"^(?:(?:please|pls|oops|whoops|sorry|no|wait) )*(?:undo|take .*back|ruckgangig|deshacer|annuler|go back|revert)\b"
)
_NOT_YET = re.compile(r"\b(?:not (?:done )?yet|noch nicht|pas encore|todavia no|aun no)\b")
_PALE = re.compile(r"^(?:no|nope|nah|nein|non)\b")


def nods(heard: str) -> bool:
    """Return whether a text is a weak yes: seen, perhaps not done."""
    return answer(heard) is Answer.NOD


def thumb(text: str) -> bool:
    """Return whether a text is a sign alone, as a reaction is."""
    return "thumbsup" in tidy(text)


def says_yes(heard: str) -> bool:
    """Return whether a text begins with a yes."""
    return bool(_YES.match(bare(heard)))


def says_done(heard: str) -> bool:
    """Return whether a text says in a word that something is done, times and figures apart."""
    return bool(_DONE_FIRST.match(heard)) or any(
        answer(re.sub(r"[0-9|~.]+|\bcheck(?:ed)?\b", " ", heard[a:b])) in (Answer.DONE, Answer.EVERY)
        for a, b in clauses(heard)
    )


def both(heard: str) -> bool:
    """Return whether a text says that two things are done."""
    return bool(_BOTH.search(bare(heard)))


def not_yet(heard: str) -> bool:
    """Return whether a clause of a text says not yet."""
    return any(answer(heard[a:b]) is Answer.NOT_YET for a, b in clauses(heard))


def mutes(heard: str) -> bool:
    """Return whether a text wants no more of a kind of prompt."""
    return any(answer(heard[a:b]) is Answer.MUTE for a, b in clauses(heard))


def already(heard: str) -> bool:
    """Return whether a text says that something was done before."""
    return bool(_ALREADY.search(heard))


def holds(heard: str) -> bool:
    """Return whether a text asks to wait, without a time."""
    return bool(_HOLD.match(bare(heard)))


def refuses(heard: str) -> bool:
    """Return whether a text begins with a no, and gives a reason or none rather than saying not yet."""
    return bool(_PALE.match(bare(heard))) and not _NOT_YET.search(heard)


def asks_later(heard: str) -> bool:
    """Return whether a text asks for a pause, rather than saying when something will be done."""
    later = span_min(heard) is None and answer(re.sub(r"[0-9|]+", " ", heard)) in (Answer.LATER, Answer.BUSY)
    return later or bool(_ASKS_LATER.search(heard))


def retracted(heard: str) -> bool:
    """Return whether a text takes back what was said, rather than the last deed."""
    return retracts(heard) and not _UNDO.match(heard)


def lid_open(heard: str) -> bool:
    """Return whether a text says that the lid was open."""
    return bool(LID.search(heard))


def over(heard: str) -> bool:
    """Return whether a text tells of a problem that is over."""
    return was_but_is_over(heard)


def clock(heard: str) -> bool:
    """Return whether the time of a text is one of the clock."""
    return any(when.kind is times.Kind.CLOCK for when in times.find(heard))


def span_min(heard: str) -> float | None:
    """Return the span that a text names without saying where it lies [min], None when it names none."""
    found = [when.minutes for when in times.find(heard) if when.kind is not times.Kind.CLOCK]
    return found[0] if found else None


def ago_min(heard: str) -> float | None:
    """Return how long ago a text says that something was [min], None when it says no such thing."""
    return next((when.minutes for when in times.find(heard) if when.kind is times.Kind.AGO), None)


def approximate(heard: str) -> bool:
    """Return whether a figure is only about right."""
    return any(figure.approx for figure in _figures(heard))


def ranged(heard: str) -> bool:
    """Return whether a figure is a range of two."""
    heard = without_earlier(heard)
    spans = (heard[figure.start : figure.end] for figure in _figures(heard) if figure.half_width)
    return any(len(re.findall(r"[0-9]+(?:[.,][0-9]+)?", span)) > 1 for span in spans)


def mended(text: str) -> bool:
    """Return whether a figure had to be mended: letters for digits, a stray blank."""
    plain = " ".join(text.casefold().split())
    return bool(_LETTERS.search(plain) or _STRAY.search(plain))


def other_wrap(heard: str) -> bool:
    """Return whether the wrap is another stuff, taken for what it is like."""
    return bool(_PARCHMENT.search(heard))


def _figures(heard: str) -> tuple[Figure, ...]:
    return figures(cut_out(heard, [(when.start, when.end) for when in times.find(heard)]))
