"""Short answers: done, yes, skip, not yet, later, wait. Whole phrases and the few words around them.

It says which sort of answer a clause is; which prompt it answers is for the interpreter.
"""

from __future__ import annotations

import re
from enum import StrEnum

from bot.conversation.parsing.words import any_of, bare, word_set

LATER_MIN = 30.0
"""What "later" means when nobody says when [min] (common practice, no source)."""
BUSY_MIN = 20.0
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
    "ya yh yess yessir yep yarp aye y don dome finito finitto donr dnoe doen doned donw dine handled nailed voila"
    " boom ferdig fertg ferig "
    "fertig erledigt gemacht ja hecho listo lista si terminado fini finie fait oui "
    "termine ready set tick ticked"
)
FILL = word_set(
    "delay late wait slow ish c'est ist es ok okay just now all already so and boss chef mate thanks thx ty cheers"
    " sry sorry lol haha that it "
    "this i we ive i've we've have told u you it's its that's thats is been well oh ah hey hi please pls "
    "jetzt gerade eben vorhin then here bro man buddy finally again schon ya deja da last right good great nice one"
    " the for a bit "
    "like about around at to go with by too also"
)
_PATTERNS: tuple[tuple[Answer, re.Pattern[str]], ...] = tuple(
    (answer, re.compile(pattern))
    for answer, pattern in (
        (
            Answer.MUTE,
            (
                r"\b(?:stop with|(?:stop|quit|enough) (?:asking|reminding|telling|bugging|nagging|pinging|pestering"
                r"|bothering"
                r"|messaging)|(?:don'?t|do not|never|no need to) (?:ask|remind|tell|bug|ping|nag)|no more(?!"
                r" (?:wood|coal"
                r"|charcoal|fuel|paper|foil|chunks|briquettes|water|time|smoke|news|progress))|mute|shut up|leave"
                r" me alone"
                r"|enough (?:with|of) (?:the|that|this|those)|done with (?:these|the|your|all these) (?:reminders"
                r"|messages|prompts|questions|pings)|(?:please|pls) stop$|^stop (?:it|that|this)(?: please| now)*$"
                r"|^stop(?: please| pls| now)+$|no longer needed)\b|^enough(?: already| now)?$"
            ),
        ),
        (
            Answer.EVERY,
            (
                "^(?:(?:yes|yep|ok|dun) )?(?:done and done|done done|all done|both done|done both"
                "|done all|all of (?:it|them)|everything(?:'s| is)? done"
                "|(?:(?:they're|those are|they are) )?both (?:of them )?(?:are )?(?:done|sorted|finished"
                "|complete)|both of (?:them|those)"
                "|(?:did|done|finished|got) (?:(?:both|all)(?: of (?:it|them|those|these))?|everything"
                "|(?:th)?em (?:all|both))|both|all|all three"
                "|every one|alles(?: fertig)?|todo(?: hecho)?|tout(?: fait)?|done everything"
                "|done with everything)$"
            ),
        ),
        (
            Answer.SKIP,
            any_of(
                r"\bskip(?:ping|ped|pin)?\b",
                r"^(?:i'?ll |we'?ll |gonna )?pass(?: on)?(?: (?:that|this|it|one|the \w+|on|please|thanks|for now))*$",
                r"\bnot (?:this time|today|needed|necessary|doing (?:that|it|this))\b",
                r"\bno need\b",
                r"\bdon'?t need\b",
                r"\bleave (?:it|that|this) out\b|^leave (?:it|that|this)(?: one| be| alone| for now)?$",
                r"\b(?:not|won'?t|can'?t be|couldn'?t be) (?:bothering|bothered|bother)\b|^cba\b|\bgive (?:it|that"
                r"|this) a miss\b",
                r"^no (?:more )?(?:spritz(?:ing)?|spray|water|top[- ]?up|wood|chunks?)(?: (?:this time|today|now"
                r"|thanks|tonight"
                r"|needed|please|for me))*$",
                r"^(?:nah|no|nope),? (?:thanks|ty|thx|not this (?:one|time)|leave it|i'?m good|we'?re good|all good"
                r"|it's fine"
                r"|its fine)$|^not this one$|\bsit this (?:one )?out\b|^(?:we'?re |i'?m )?good without(?: it)?$",
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
                r"\bbusy\b|\btied up\b|\bafk\b|\baway from (?:the|it|keyboard)\b|\belbow[- ]deep\b|\belbows\b|\bno"
                r" (?:free"
                r" )?hands?\b",
                r"\bhands? (?:are |is |all |still |too |so )*(?:full|greasy|dirty|covered|sticky|wet|messy|oily"
                r"|gross|slimy"
                r"|filthy|bloody|floury|tied|busy)\b|\bcovered in (?:grease|fat|rub|sauce|flour|meat|juice)\b",
                r"\bgloves? (?:are |is )?(?:still )?on\b|\b(?:with|wearing|got|in)(?: raw| my| the)* gloves\b|^gloves$",
                r"\bdriving\b|\bon the (?:road|phone|loo|toilet|motorway|bus|train|bike|throne|can|line|other line)\b",
                r"\bin (?:the|a) (?:car|shower|bath|bathroom|loo|toilet|middle of|meeting|call|pool|queue)\b",
                r"\b(?:at|in) (?:the )?(?:work|traffic|church|school|mass|shops?|store|pub|door|supermarket"
                r"|checkout|butcher'?s?|garage|till|traffic)\b",
                r"^(?:(?:i'?m|i am|still|was|sorry) )*(?:asleep|sleeping|in bed|not (?:here|home|awake|around"
                r"|nearby)|out"
                r"|away|indoors|upstairs)(?: (?:now|right now|sorry|atm))*$",
                r"\b(?:probe|thermometer|thermo|reader|it)(?:'s|s| is)? (?:still )?in the (?:sink|dishwasher|wash"
                r"|drawer|kitchen|house|car)\b",
                r"\bnot (?:right )?now\b|\bnot a good (?:time|moment)\b|\bbad (?:time|moment)\b",
                r"\bbrb\b",
                r"\bnot at (?:the|my)\b",
                "^(?:on it|doing it(?: now)?|on my way|omw|working on it|coming|almost done)$",
            ),
        ),
        (
            Answer.LATER,
            (
                r"^(?:ok |yeah |sorry |will do |i )*(?:i'?ll|i will|we'll|we will|will|gonna|let me)(?: just)?"
                r" (?:check|do|look|read|get"
                r"|grab|have a look|take a look|sort|see|try|pop out|go out|head out)(?: (?:it|that|one|to it|round"
                r"|out))*"
                r"(?: (?:when|once|after|as soon as|in a|later|soon|shortly|next|first)\b.*)?$|"
                "^(?:(?:maybe|ok|yeah|yes|no|nah|not now|sorry|will do|do it|i'?ll do it|gimme|give me|need|just"
                "|can i have) )*"
                "(?:later|in (?:a |1 )?(?:bit|while|minute|min|moment|mo|sec|second|few|tick|jiffy|little while)"
                "|remind me(?: later"
                "| again)?|ask (?:me )?(?:again|later)(?: later)?|snooze|spater|luego|mas tarde|plus tard"
                "|after(?:wards)?"
                "|a bit later|bit later|shortly|two ticks|a (?:tick|mo|bit|while)|will do|soon(?:ish)?|eventually"
                "|in the morning|(?:i'?ll |we'?ll |will |can )?(?:decide|see|look|think about it)(?: about (?:it"
                "|that))? (?:later|then|soon|in a bit)|when (?:i|we) (?:can|get back|get there|wake up|finish|am"
                " back|are back|get a chance"
                "|have time)|when i'?m (?:back|done|up|home|there|free|dressed)|once i'?m (?:back|done|up|home"
                "|there|free"
                "|dressed)|once (?:i|we) (?:can|get back|wake up|finish)"
                "|after (?:the|this|that|my|dinner|lunch|breakfast|work|church|school)(?: (?:game|match|film|movie"
                "|show|song"
                "|beer|drink|coffee|call|meeting|nap|shower|half|quarter|episode|news|run|walk|dinner|lunch"
                "|breakfast|kids"
                "|one|race|goal|bath|set|party|speech|toast))*(?: is over| ends| are (?:asleep|in bed))?)"
                "(?: (?:please|pls|thx|thanks|mate|ok|man|bro|promise|sorry|then|maybe|today|now))*$"
            ),
        ),
        (
            Answer.NOT_YET,
            any_of(
                (
                    r"\b(?:not|nope|nowhere|isn'?t|aren'?t|hasn'?t|haven'?t|didn'?t|still|needs? (?:more"
                    "|longer|a bit|some)|more time|too (?:wet|dry|dark|hot|late)\\b|too (?:pale|soft|early|light"
                    "|white|cold)|noch nicht|nicht"
                    "|todavia no|aun no"
                    r"|pas encore|no yet|noy yet|nit yet)\b"
                ),
                (
                    "^(?:no|nah|nope|nein|non|nee)[, ]+(?!(?:problem|worries|prob|issue|drama|flare|trouble|idea"
                    "|clue|more|one|way"
                    "|need|fuel|coal|charcoal|fire|smoke|change|wood|paper|foil|wrap|wrapping|spritz|rush|thanks|thx|reading"
                    "|display|signal"
                    "|resistance|grip|wind|rain)\\b)[a-z' ]+$|"
                    "^(?:no|nah|na|nein|non|nop|n|wait|waiting|hold|hang|hang on|hold on|moment|one sec|a sec"
                    "|sec|one moment|just a sec|one minute|momento|warte|attends|espera)$"
                ),
                (
                    "^(?:(?:ok|no|oh|please|pls|gimme|give me|just) )*(?:wait|waiting|hold|hang|hang on|hold on|hold up"
                    "|hold it|wait up|(?:a |one )?(?:moment|sec|second|min|minute)|momento|warte|moment mal)"
                    "(?: (?:a|one|up|on|there|please|pls|wait|sec|second|minute|min|moment|mal|bit|hang|hold))*$"
                ),
            ),
        ),
        (
            Answer.DONE,
            (
                r"^(?:(?:all|just|i|we|ive|i've|got|it|have) )*(?:(?:hosed|soaked|drenched|basted|mopped|doused)"
                r" (?:it|them|'?em|her)(?: down)?|topped (?:it |them |her )?(?:up|off)|gave (?:it"
                r"|them|'?em|her) a"
                r" (?:spray|spritz|mist"
                r"|spin|turn|poke|top up)|took care of (?:it|that)|dealt with(?: it| that)?|got it done|job done|it'?s"
                r" done|its done"
                r"|that'?s done|good to go|mission accomplished|ticked off|way ahead of you)(?: (?:now|already|boss"
                r"|mate|chef|too))*$"
            ),
        ),
        (
            Answer.NOD,
            (
                "^(?:(?:k|kk|ok|okay|okey|okie|oki|thumbsup|got it|roger|copy|copy that|that's"
                "|it's|all|sure|aye"
                "|seen|noted|duly|acknowledged|ack|understood|alright|all right|cool|coolio|fine|good|great"
                "|perfect|will do|vale|gut|bien"
                "|d'accord|np|all good|thanks|thx|thank you|cheers|ta|nice|nice one|sounds good|awesome"
                "|chef|mate|boss|man|bro|buddy|guys|then)(?: |$))+$"
            ),
        ),
    )
)


_DONE_FIRST = re.compile(
    r"^(?:(?:already|just|we|i|i've|we've|have|has|been|it's|its|ok|yes|yep|ja|ya|jetzt|grad|gerade|long) )*(?:did"
    r"|done|finished)\b(?P<what>(?: \w+){0,6})$"
)
_BY = re.compile(
    r"^(?!(?:nobody|none|no|who|whoever|not|never|nothing|what|if|when|should|anyone|anybody|someone|somebody|dog"
    r"|cat)\b)"
    r"[a-z]{2,15}(?:'s|s| has| have)? (?:just |already )?(?P<did>(?:did|done|finished)\b)"
)
"""Whoever it was that did it: a name before the deed."""
_TOLD_BY = re.compile(r" [a-z]+ (?:already )?told (?:u|you|us)\b| [a-z]+ (?:already )?knows?(?: (?:it|that))?$")
_OF_IT = word_set(
    "ages when asked before while ago side sides front back top bottom round around twice once ages others rest"
    " them both one job step"
    " thing part bit bits two three everything em these those off so yet too"
)
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
        first = _DONE_FIRST.match(_BY.sub(r"\g<did>", _TOLD_BY.sub("", plain), count=1))
        if first is not None and all(word in FILL | _DONE_WORDS | _OF_IT for word in first["what"].split()):
            return Answer.DONE
        words = plain.split()
        if any(word in _DONE_WORDS for word in words) and all(word in _DONE_WORDS or word in FILL for word in words):
            return Answer.DONE
    return found
