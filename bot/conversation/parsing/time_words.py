"""The ways people write times: spans, "ago", "in", clock times. Patterns only, for tidied text.

What a match means, `times` works out.
"""

from __future__ import annotations

import re

_UP_TO_TWENTY = (
    "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve", "thirteen",
    "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen", "twenty",
)  # fmt: skip
NUMBER_WORDS = {word: number for number, word in enumerate(_UP_TO_TWENTY, start=1)} | {
    "thirty": 30, "forty": 40, "forty-five": 45, "fifty": 50,
}  # fmt: skip

WORD = "|".join(sorted(NUMBER_WORDS, key=len, reverse=True))
_HOURS = r"(?:hours?|hrs?|h|stunden?|std|horas?|heures?)"
_MINUTES = r"(?:minutes?|mins?|minuten?|minutos?|m|mn)"
_ONE = "an?|eine|una|une|(?:a )?couple(?: of)?|(?:a )?few"
_SPAN = (
    r"(?:(?P<half>half an? (?:hour|hr|h)\b|half hour|(?:eine? )?halbe stunde|media hora|(?:une )?demi[- ]heure)"
    r"|(?P<hourhalf>(?:an? |1 |one )?hour and a half)"
    r"|(?P<threequarters>(?:3/4|(?:3|three) quarters)(?: of an)? hour|dreiviertelstunde|(?:tres|3) cuartos de hora"
    r"|(?:trois|3) quarts d'heure)"
    r"|(?P<quarter>(?:a )?quarter (?:of an )?hour|viertelstunde|(?:un )?cuarto de hora|(?:un )?quart d'heure)"
    rf"|(?P<h>[0-9]{{1,2}}(?:[.,][0-9]{{1,2}})?|{WORD}|{_ONE}) ?{_HOURS}"
    rf"(?: ?(?:and )?(?P<hm>[0-9]{{1,2}}) ?{_MINUTES}?| and (?P<ahalf>a half))?"
    rf"|(?P<m>[0-9]{{1,3}}(?:[.,][0-9])?|{WORD}|{_ONE}) ?{_MINUTES})(?![a-z0-9])"
)
_NOT_A_UNIT = r"(?! ?(?:f|c|kg|lbs?|deg|degrees|grad|am|pm|racks?)\b)"
_BARE = rf"(?P<m>[0-9]{{1,2}}|120|{WORD})(?![a-z0-9%°]|[.,:/][a-z0-9]){_NOT_A_UNIT}"
_ABOUT = r"(?:(?:about|around|like|maybe|roughly|ca\.?|etwa|another|at least) )*"
_AHEAD_LEAD = (
    r"(?:in|within|gimme|give (?:me|it|us)|giving it|needs?|wants?|wait|(?:for )?another|noch|encore|otros?|dans|snooze"
    r"|remind me in|ask (?:me )?(?:again )?in|(?:check |be |am |come )?back in)"
)
_ALONE_AFTER = r"(?:(?<!noch )(?<!encore )(?=[0-9a-z])|(?=[0-9a-z-]+ ?(?:$|[,.;!]|more\b|dann\b)))"
"""After "noch" a bare number is a wait only where nothing follows: "noch 2 bier" are none."""
_STATES = ("probe", "probes", "probe's", "slides", "sliding", "slid", "goes", "meat", "meat's", "it's", "is", "are")
_NOT_A_STATE = "".join(rf"(?<!{word} )" for word in _STATES)
"""After these, "in 38" is where the probe is and what it reads."""

AGO = (
    re.compile(rf"\b{_SPAN}(?: or so| or thereabouts)? ?(?:ago|back|earlier|since)\b"),
    re.compile(rf"\b(?:vor|hace|il y a) {_ABOUT}{_SPAN}"),
    re.compile(rf"(?<!front )\b{_BARE} (?:ago|back)\b(?!,? [0-9]+ front)"),
    re.compile(
        rf"\b(?:on|in|off|going|cooking|resting|boxed|wrapped|lit)(?: the \w+)? for (?:the last"
        rf" )?{_ABOUT}{_SPAN}(?: now| already| so far)?"
    ),
    re.compile(r"\b(?P<now>just now|right now|just this minute)\b"),
)
AHEAD = (
    re.compile(rf"\b(?:{_AHEAD_LEAD}|en) {_ABOUT}{_SPAN}(?: more\b)?"),
    re.compile(rf"{_NOT_A_STATE}\b{_AHEAD_LEAD} {_ABOUT}{_ALONE_AFTER}{_BARE}(?: more\b)?"),
    re.compile(rf"\b{_SPAN} (?:more|longer|later|to go|mas|de plus|langer|mehr)\b"),
    re.compile(
        rf"\b(?P<m>[0-9]{{1,3}}|{WORD}) more(?: {_MINUTES}| (?P<hours>{_HOURS}))?(?! ?(?!please\b|pls\b"
        rf"|mate\b|ok\b)[a-z0-9])"
    ),
)
ALONE = (re.compile(rf"\b{_SPAN}"),)

_LEADS = r"at|since|by|um|until|till?|a las|desde|seit|ab|depuis"
_LEAD = rf"(?:\b(?:no later than|{_LEADS}|gegen|from|before|after|around|about|vers)\b|@) ?"
_STRICT_LEAD = rf"(?:\b(?:{_LEADS})\b|@) ?"
_HALF_OF_DAY = r"(?: ?(?P<half>a\.?m\b\.?|p\.?m\b\.?))"
_NOT_A_HOUR = (
    r"(?![0-9°%]|[.,:/][0-9]|-[0-9]| ?(?:[cf]|kg|lbs?|deg|min(?:ute[sn]?|utos?|s)?|hours?|hrs?|stunden?|ish"
    r"|to [0-9]|or [0-9]"
    r"|(?:to|past|after) (?:noon|midday|midnight))\b)"
)
CLOCKS = (
    re.compile(rf"(?:{_LEAD})?\b(?P<h>[0-9]{{1,2}})(?::|h)(?P<m>[0-9]{{2}})(?![0-9]){_HALF_OF_DAY}?(?: uhr)?"),
    re.compile(
        rf"(?:{_LEAD})?\b(?P<h>[0-9]{{1,2}})(?:[.](?P<m>[0-9]{{2}}))?(?:{_HALF_OF_DAY}| ?(?:uhr|o'?clock)\b)"
        r"(?: (?P<uhr>[0-9]{2})\b)?"
    ),
    re.compile(rf"{_LEAD}(?P<h>[0-9]{{1,2}})[.](?P<m>[0-9]{{2}})(?![0-9])"),
    re.compile(rf"{_LEAD}(?P<hhmm>[0-9]{{4}})(?![0-9]|[.,][0-9])"),
    re.compile(r"\b(?P<h>[0-9]{1,2})(?= (?:in the (?:morning|afternoon|evening)|this morning|tonight|at night)\b)"),
    re.compile(r"\b(?P<hhmm>[0-9]{4})(?= (?:at the )?latest\b| sharp\b| hrs\b)"),
    re.compile(rf"{_STRICT_LEAD}(?P<three>[0-9]{{3}})(?![0-9°]|[.,/][0-9]|-[0-9]| ?(?:[cf]|deg|kg)\b|ish)"),
    re.compile(rf"{_LEAD}(?P<h>(?:[01]?[0-9]|2[0-4])){_NOT_A_HOUR}(?P<plain>)"),
    re.compile(
        rf"(?:{_LEAD})?\b(?P<past>quarter|half|five|ten|twenty|[0-9]{{1,2}})(?: min(?:ute)?s?)? "
        rf"(?P<way>past|after|to|til)\b(?: (?:(?P<h>[0-9]{{1,2}}|{WORD})(?![0-9:]| ?(?:f|c|°))|(?P<name>noon|midday"
        r"|midnight)\b))?"
    ),
    re.compile(
        rf"\b(?:at|since|by|around|until|till|til) (?P<hw>{WORD})(?: (?P<mw>fifteen|thirty|forty-five))?\b(?!"
        rf" (?:min|hour|degrees))"
    ),
    re.compile(rf"(?:{_LEAD})?\b(?P<brit>half) (?P<h>[0-9]{{1,2}}|{WORD})(?![0-9:]| ?(?:hour|min|kg|lb))"),
    re.compile(rf"(?:{_LEAD})?\b(?P<halb>halb) (?P<h>[0-9]{{1,2}})\b"),
    re.compile(r"(?<![0-9:.,])\b(?P<hhmm>0[0-9][0-5][0-9])(?![0-9]|[.,:/][0-9]| ?[cf]\b)"),
    re.compile(r"(?:at |by )?\b(?P<name>noon|midday|mittags?|mediodia|midi|midnight|mitternacht|medianoche|minuit)\b"),
)
MIDNIGHT = ("midnight", "mitternacht", "medianoche", "minuit")
LATEST_AFTER = re.compile(r"^\W*(?:at the |the )?(?:latest|spatestens)\b")
LATEST_BEFORE = re.compile(r"(?:no later than|by|latest(?: at)?|spatestens)\W*$|^by\b")
MORNING = re.compile(r"\b(?:morning|morgens|fruh)\b")
EVENING = re.compile(r"\b(?:tonight|last night|evening|afternoon|abends?|nachmittags?)\b")
