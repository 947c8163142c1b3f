"""Short answers: done, yes, skip, not yet, later, wait. Whole phrases and the few words around them.

It says which sort of answer a clause is; which prompt it answers is for the interpreter.
"""

from __future__ import annotations

import re
from enum import StrEnum

from bot.conversation.parsing.words import any_of, bare, word_set

LATER_MIN = 30.0
"""What "later" means when nobody says when [min] (common practice, no source)."""
BUSY_MIN = 10.0
"""What "can't now" means [min] (common practice, no source)."""


class Answer(StrEnum):
    """A sort of answer."""

    DONE = "done"
    EVERY = "every"
    """Done, and all that is open."""
    NOD = "nod"
    """A weak yes: seen, perhaps not done."""
    SKIP = "skip"
    NOT_YET = "not_yet"
    LATER = "later"
    BUSY = "busy"
    MUTE = "mute"


_DONE_WORDS = word_set(
    "done dun doen doone donee did finished sorted check checked complete completed yes yep yup yeah yea "
    "ya yh yess y fertig erledigt gemacht ja hecho listo lista si terminado fini finie fait oui "
    "termine ready set tick ticked"
)
FILL = word_set(
    "c'est ist es ok okay just now all already so and boss chef mate thanks thx ty cheers sry sorry lol haha that it "
    "this i we ive i've we've have told u you it's its that's thats is been well oh ah hey hi please pls "
    "then here bro man buddy finally again schon ya deja da last right good great nice one the for a bit "
    "like about around at to go with by too also"
)
_PATTERNS: tuple[tuple[Answer, re.Pattern[str]], ...] = tuple(
    (answer, re.compile(pattern))
    for answer, pattern in (
        (Answer.MUTE, r"\b(?:stop (?:asking|reminding|telling)|don'?t ask|no more|mute|shut up|quit asking)\b"),
        (
            Answer.EVERY,
            (
                "^(?:(?:yes|yep|ok|dun) )?(?:done and done|done done|all done|both done|done both"
                "|done all|all of (?:it|them)|everything(?:'s| is)? done"
                "|did (?:both|all|everything|all of (?:it|them)|them all|em all)|both|all|all three"
                "|every one|alles(?: fertig)?|todo(?: hecho)?|tout(?: fait)?|done everything"
                "|done with everything)$"
            ),
        ),
        (
            Answer.SKIP,
            any_of(
                r"\bskip(?:ping|ped|pin)?\b",
                r"\bpass\b",
                r"\bnot (?:this time|today|needed|necessary|doing (?:that|it|this))\b",
                r"\bno need\b",
                r"\bdon'?t need\b",
                r"\bleave it out\b",
                r"\bomit\b",
                r"\bauslassen\b",
                r"\bsaltar\b",
                r"\bpasse\b",
                r"\bforget about it\b",
                r"\bnext time\b",
            ),
        ),
        (
            Answer.BUSY,
            any_of(
                r"\b(?:can'?t|cant|cannot|can not|unable|couldn'?t)\b",
                r"\bbusy\b",
                r"\bhands (?:are )?(?:full|greasy|dirty)\b",
                r"\bdriving\b",
                r"\bnot now\b",
                r"\bbrb\b",
                r"\bnot at (?:the|my)\b",
                "^(?:on it|doing it(?: now)?|on my way|omw|working on it|coming|almost done)$",
            ),
        ),
        (
            Answer.LATER,
            (
                "^(?:maybe )?(?:later|in a (?:bit|while|minute|moment|sec|second)|remind me(?: later"
                "| again)?|ask (?:me )?(?:again|later)|snooze|spater|luego|mas tarde|plus tard|after"
                "(?:wards)?"
                "|a bit later|do it later|will do|soon)$"
            ),
        ),
        (
            Answer.NOT_YET,
            any_of(
                (
                    r"\b(?:not|nope|nowhere|isn'?t|aren'?t|hasn'?t|haven'?t|didn'?t|still|needs? (?:more"
                    "|longer|a bit|some)|more time|too (?:pale|soft|early|light|white|cold)|noch nicht|nicht"
                    "|todavia no|aun no"
                    r"|pas encore|no yet|noy yet|nit yet)\b"
                ),
                (
                    "^(?:no|nah|na|nein|non|nop|n|wait|waiting|hold|hang|hang on|hold on|moment|one sec|a sec"
                    "|sec|one moment|just a sec|one minute|momento|warte|attends|espera)$"
                ),
            ),
        ),
        (
            Answer.NOD,
            (
                "^(?:(?:k|kk|ok|okay|okey|okie|oki|thumbsup|got it|roger|copy|copy that|that's"
                "|it's|all|sure|aye"
                "|seen|understood|alright|all right|cool|coolio|fine|good|great|perfect|will do|vale|gut|bien"
                "|d'accord|np|all good|thanks|thx|thank you|cheers|ta|nice|nice one|sounds good|awesome"
                "|chef|mate|boss|man|bro|buddy|guys|then)(?: |$))+$"
            ),
        ),
    )
)


_DONE_FIRST = re.compile(
    r"^(?:(?:already|just|we|i|i've|we've|have|ok|yes|yep|ja|ya) )*(?:did|done|finished)\b(?P<what>(?: \w+){0,6})$"
)
_TOLD_BY = re.compile(r" [a-z]+ (?:already )?told (?:u|you|us)\b")
_OF_IT = word_set("them both one job step thing part bit bits two three everything em these those off so yet too")
_UNSURE = word_set("usual default know idk idea whatever choose dunno sure unsure undecided")
_UNSURE_FILL = word_set("don't dont no the you not i any it really yet")
_FINISHED = word_set("done did dun finished added in checked sorted complete gemacht fertig hecho fait")


def unsure(heard: str) -> bool:
    """Return True when somebody leaves a set-up question to the program ("don't know", "the usual")."""
    words = bare(heard).split()
    known = all(word in _UNSURE or word in _UNSURE_FILL for word in words)
    return known and any(word in _UNSURE for word in words) and words != ["sure"]


def finished(words: str) -> bool:
    """Return True when a clause holds a word that says something was done ("wood done")."""
    return any(word in _FINISHED for word in bare(words).split())


NO_WORDS = word_set("no n nope nah na nein non nop")


def only_no(heard: str) -> bool:
    """Return True for a text that is nothing but a no."""
    words = [word for word in bare(heard).split() if word not in ("thanks", "thx", "ty", "sorry", "sry")]
    return bool(words) and all(word in NO_WORDS for word in words)


def answer(clause: str) -> Answer | None:
    """Return what sort of answer a clause of a tidied text is, or None.

    Times and figures must have been cut out before.
    """
    plain = bare(clause)
    if not plain:
        return None
    found = next((kind for kind, pattern in _PATTERNS if pattern.search(plain)), None)
    if found is None:
        first = _DONE_FIRST.match(_TOLD_BY.sub("", plain))
        if first is not None and all(word in FILL | _DONE_WORDS | _OF_IT for word in first["what"].split()):
            return Answer.DONE
        words = plain.split()
        if any(word in _DONE_WORDS for word in words) and all(word in _DONE_WORDS or word in FILL for word in words):
            return Answer.DONE
    return found
