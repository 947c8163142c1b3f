"""Spans that are typed without their unit: "lid was open for 15", "was away for 40", "been stalled for 90".

It writes the minutes out and changes nothing else; a figure that may be a temperature stays one.
"""

from __future__ import annotations

import re

from bot.conversation.parsing.time_words import WORD

_ABOUT = r"(?:(?:about|around|like|maybe|roughly|ca\.?|circa|at least|only|just|almost|nearly|some|a good|good|~) ?)*"
_NO_UNIT = (
    r"(?![0-9a-z°%]|[.,:/-][0-9])(?! ?(?:min|mins|minutes?|minuten|m|s|secs?|seconds?|h|hrs?|hours?|stunden?|std|days?"
    r"|f|c|deg\w*|grad|celsius|fahrenheit|kg|lbs?|am|pm|more|people|guests?|percent)\b)"
)
_UNIT = r"(?P<unit> ?(?:min|mins|minutes?|minuten|m|h|hrs?|hours?)\b)"
_LID = r"(?:lid|door|hood|cover)"
_OPEN = r"(?:wide |half |left |standing |still )*(?:open|opened|up|off|ajar)"
_BEEN = r"(?:(?:'s|'d|s| is| was| were| has| had| have| been| stood| stayed| left| got) ?)*"
_STATE = (
    rf"(?:\b(?:the )?{_LID}{_BEEN} ?{_OPEN}|\bopen(?:ed|ing)? (?:up )?(?:the )?{_LID}"
    rf"|\b(?:had|left|kept|have|leaving|keeping) (?:it|(?:the )?{_LID}) {_OPEN})"
)
_LID_FOR = re.compile(
    rf"{_STATE}(?: now| already| again)*(?P<lead>,? for|,?) {_ABOUT}"
    rf"(?P<n>[0-9]{{1,3}}|{WORD}|an?)(?:{_UNIT}|{_NO_UNIT})"
)
"""How long a lid stood open: after "for" any figure up to two hours, alone up to one."""
_OTHERS = re.compile(
    r"(?P<state>\b(?:away|gone|asleep|indoors|out of (?:it|action)|off it|stalled|stalling|stuck"
    r"|(?:in (?:a|the) )?stall|not mov(?:ed|ing)|hasn't moved|no change|flat|rained|raining|pour(?:ed|ing)"
    r"|windy|unplugged|dead|rested|resting"
    r"|unattended|alone|wrapped|boxed"
    r"|(?:probe|power|fan|reader|thermometer)(?:'s| is| was| has been)* (?:out|off)"
    r"|vents?(?:'s| is| are| was| were| has been| have been)* (?:all |wide |fully )*(?:shut|closed|open))"
    rf"(?: now| already| here)* for {_ABOUT})(?P<n>[0-9]{{1,3}}){_NO_UNIT}"
)
_LONGEST_MIN, _LONGEST_BARE_MIN = 120, 60
"""A span without its unit is not longer, with "for" before it and without: a house rule [min]."""


def with_minutes(heard: str) -> str:
    """Return a tidied text in which such spans have their unit: "lid was open for 15 min"."""
    return _OTHERS.sub(_minutes, _LID_FOR.sub(_lid, heard))


def _lid(found: re.Match[str]) -> str:
    typed = found["n"]
    if found["unit"]:
        return f"lid was open for {typed}{found['unit']}"
    most = _LONGEST_MIN if found["lead"].endswith("for") else _LONGEST_BARE_MIN
    if typed in ("a", "an") or (typed.isdigit() and not 0 < int(typed) <= most):
        return found.group()
    return f"lid was open for {typed} min"


def _minutes(found: re.Match[str]) -> str:
    long = not 0 < int(found["n"]) <= _LONGEST_MIN
    return found.group() if long else f"{found['state']}{found['n']} min"
