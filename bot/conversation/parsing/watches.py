"""Watches and quiet hours: "Tomas watches 22:00 to 03:00", "Ines until 2, then Tomas", "quiet 23:00 to 06:30".

It reads times of the clock; on which night they lie is not decided here.
"""

from __future__ import annotations

import datetime as dt
import re

from bot.commands import Ask, Intent, Topic
from bot.commands.wishes import WatchesSaid, WatchSpan
from bot.conversation.context import Context
from bot.conversation.parsing.cut_names import find_cut
from bot.conversation.parsing.steps import named
from bot.conversation.parsing.words import phrases, word_set

_CLOCK = r"(?:midnight|noon|[0-9]{1,2}(?:[:.h][0-9]{2})?h?|[0-9]{4})(?: ?(?:[ap]\.?m\b\.?|o'?clock\b))?(?![0-9/°%])"
_TO = r" ?(?:-|\bto\b|\btill?\b|\buntil\b|\bthrough\b) ?"
_RANGE = rf"(?:from |between )?(?P<start>{_CLOCK}){_TO}(?P<end>{_CLOCK})"
_WATCHES = (
    r"(?:watch(?:es|ing)?|keeps? (?:the )?watch|(?:has|have|takes?|does|do|on) (?:the )?(?:\w+ )?(?:watch|shift)"
    r"|(?:is|are|am|stays?|sits?|'s|'m|will be|will stay) (?:up|awake|on (?:watch|duty))"
    r"|(?:will|'ll) (?:watch|stay up|be up))(?: (?:the )?(?:fire|pit))?"
)
_NAME = r"(?P<name>[a-z][a-z'-]{1,19}?|i)"
_FORMS = tuple(
    re.compile(form)
    for form in (
        rf"^{_NAME}(?P<verb>[: ]*{_WATCHES})?:? {_RANGE}$",
        rf"^{_RANGE}:?(?: is| =)? {_NAME}(?P<verb> {_WATCHES})?$",
        rf"^{_NAME}(?P<verb>[: ]*{_WATCHES})? (?:until|till|til|up to) (?P<end>{_CLOCK})$",
        rf"^{_NAME}(?P<verb>[: ]*{_WATCHES})? (?:from|after|since) (?P<start>{_CLOCK})(?: on(?:wards?)?)?$",
        (
            rf"^{_NAME}(?P<verb>[: ]*{_WATCHES})?(?: (?:after(?: that)?|the rest|for the rest|from then on"
            r"|until (?:the )?(?:end|morning|pull|dinner)|takes over))?$"
        ),
    )
)
_PREFIX = re.compile(r"^(?:(?:the |our |night )*(?:watch(?:es)?|shifts?|roster)(?: (?:is|are|plan|list))?[: ]+)")
_QUIET = re.compile(
    r"^(?:(?:the |our )?quiet(?: hours?| time)?|(?:nobody|no one|no-one) (?:is |gets |should be |is to be "
    r"|wants to be )?(?:woken|awoken|waked|disturbed|wakes up)(?: up)?|(?:please )?(?:don't|do not|never) "
    r"(?:wake|disturb) (?:anybody|anyone|us|me|people|everybody)(?: up)?|(?:we|i|everybody|let us) (?:want to )?sleep)"
    rf"(?: is| are|:)* (?:from |between )?(?P<start>{_CLOCK})(?:{_TO}| and )(?P<end>{_CLOCK})$"
)
_NO_QUIET = phrases(
    r"^no quiet (?:hours?|time)$",
    r"^(?:you (?:may|can) )?wake (?:us|me|anybody|anyone|everybody) (?:at )?any ?time$",
    r"^(?:you (?:may|can) )?wake (?:us|me|anybody|anyone) (?:at any hour|whenever)$",
)
_NO_WATCHES = phrases(
    r"^no (?:night )?(?:watch(?:es)?|shifts?)(?: (?:any ?more|at all|tonight|needed))?$",
    r"^(?:forget|drop|cancel|clear|delete|remove) (?:all )?(?:the )?(?:watches|watch list|shifts|roster)$",
    r"^(?:nobody|no one) (?:has |takes |keeps )?(?:the |a )?watch(?:es)?$",
)
_WHO = phrases(
    r"^(?:the |our )?(?:night )?(?:watches|watch (?:list|plan)|shifts|roster)$",
    r"^(?:the |our )?(?:quiet hours?|night(?: plan)?)$",
    r"^who(?:'s| is|s)? (?:watch(?:es|ing)|awake|up|on watch|on duty)(?: when| tonight| at night| and when|"
    r" in the night)+$",
    r"^who (?:watches|wakes|gets woken|has to get up|has (?:the )?(?:first |second |next )?watch)(?: (?:when|tonight|at"
    r" night|in the night))*$",
    r"^(?:when|what|who) (?:do|will|are) you wake(?: (?:me|us|who|whom|up))*(?: (?:for|at night|tonight|when))*$",
    r"^whom? (?:do|will) you wake(?: .*)?$",
    r"^when (?:are|is) (?:the )?(?:watches|quiet hours)$",
)
_NO_NAMES = word_set(
    "dinner supper lunch eat eating food serve serving guests people pit grill smoker cooker core meat temp quiet "
    "watch it on at from light lit fire done ready wrap wrapped spritz fuel probe rest hold oven box cooler lid "
    "vents pull off set the we they he she you nobody everybody everyone anyone somebody between about sleep wake "
    "bark tender next yes no ok not and then both left right point flat top bottom charcoal coal wood salt brine "
    "slice started start in plan until till after before today tomorrow tonight party held holding resting cooked "
    "cooks turn turned took take opened closed added checked put moved now still was is are"
)
_QUIET_USUALLY = range(22, 31)
"""Hours counted on from midnight in which people usually sleep: they decide which half of the day "10 to 3" is."""

_HALF_DAY_MIN, _DAY_MIN = 12 * 60, 24 * 60


def watches_said(heard: str, text: str, context: Context) -> Intent | None:
    """Return the watches or quiet hours that a whole text tells or asks for, None when it is about neither."""
    plain = heard.strip(" .!")
    asks = plain.rstrip(" ?")
    if _WHO.match(asks):
        return Ask(topic=Topic.WATCHES)
    if heard.endswith("?"):
        return None
    if _NO_WATCHES.match(plain):
        return WatchesSaid(watches=())
    if _NO_QUIET.match(plain):
        return WatchesSaid(quiet=(dt.time(0), dt.time(0)))
    quiet, rest = _quiet(plain)
    if not rest:
        return None if quiet is None else WatchesSaid(quiet=quiet)
    turns = _turns(", ".join(rest), text, context, told=quiet is not None)
    return None if turns is None else WatchesSaid(watches=turns, quiet=quiet)


def _quiet(plain: str) -> tuple[tuple[dt.time, dt.time] | None, list[str]]:
    """Return the quiet hours in a text, and its parts that tell of something else."""
    quiet, rest = None, []
    for part in re.split(r" ?[,;] ?", plain):
        found = _QUIET.match(part.removeprefix("and "))
        span = None if found is None else _span(found["start"], found["end"])
        if span is None:
            rest.append(part)
        else:
            quiet = span
    return quiet, rest


def _turns(words: str, text: str, context: Context, *, told: bool) -> tuple[WatchSpan, ...] | None:
    """Return the watches of a text of nothing else; None when one part is none, or nothing shows that it is meant."""
    headed = _PREFIX.match(words)
    body = words[headed.end() :] if headed else words
    parts = [part.strip(" .") for part in re.split(r"[,;&]|\b(?:and then|then|and)\b", body)]
    found: list[WatchSpan] = []
    people = {name.casefold() for name in context.people}
    certain = bool(headed) or told or any(step.step == "roles" for step in context.open_steps)
    for part in (part for part in parts if part):
        match = next((match for form in _FORMS if (match := form.match(part))), None)
        turn = None if match is None else _turn(match, text, context)
        if match is None or turn is None:
            return None
        certain = certain or bool(match["verb"]) or turn.name.casefold() in people
        found.append(turn)
    timed = [turn for turn in found if turn.start is not None or turn.end is not None]
    several = len(found) > 1 and len(timed) >= len(found) - 1
    return tuple(found) if timed and (certain or several) else None


def _turn(match: re.Match[str], text: str, context: Context) -> WatchSpan | None:
    name = match["name"]
    own = name == "i" and bool(match["verb"])
    if (name in _NO_NAMES or find_cut(name, context.cuts) is not None or named(name) is not None) and not own:
        return None
    if name == "i" and not own:
        return None
    said = match.groupdict()
    start, end = said.get("start"), said.get("end")
    if start is not None and end is not None:
        span = _span(start, end)
        return None if span is None else WatchSpan(name=_typed(name, text), start=span[0], end=span[1])
    only = _clocks(start or end or "")
    if (start or end) and not only:
        return None
    clock = _by_night(only) if only else None
    return WatchSpan(name=_typed(name, text), start=clock if start else None, end=clock if end else None)


def _typed(name: str, text: str) -> str:
    """Return a name as it was typed, with a capital."""
    if name == "i":
        return name
    found = re.search(rf"\b{re.escape(name)}\b", text, re.IGNORECASE)
    typed = found.group() if found else name
    return typed if typed[:1].isupper() else typed.capitalize()


def _span(start: str, end: str) -> tuple[dt.time, dt.time] | None:
    """Return two times of the clock; where the half of the day was not said, the pair with most of the night in it."""
    pairs = [(one, other) for one in _clocks(start) for other in _clocks(end) if one != other]
    short = [pair for pair in pairs if _length(*pair) <= _HALF_DAY_MIN] or pairs
    return max(short, key=lambda pair: (_asleep(*pair), -_length(*pair)), default=None)


def _length(start: dt.time, end: dt.time) -> int:
    return (_minutes(end) - _minutes(start)) % _DAY_MIN


def _minutes(clock: dt.time) -> int:
    return clock.hour * 60 + clock.minute


def _asleep(start: dt.time, end: dt.time) -> int:
    """Return how many minutes between two times of the clock people usually sleep."""
    begin = _minutes(start)
    span = range(begin, begin + _length(start, end), 15)
    return sum(15 for minute in span if minute // 60 % 24 in {hour % 24 for hour in _QUIET_USUALLY})


def _by_night(clocks: list[dt.time]) -> dt.time:
    """Return which of the times is one of the night: those between eleven in the morning and six are not."""
    return next((clock for clock in clocks if not 9 <= clock.hour < 18), clocks[0])  # noqa: PLR2004 - hours of the clock


def _clocks(said: str) -> list[dt.time]:
    """Return the times of the clock that words can mean: both halves of the day where none was said."""
    said = said.strip()
    if said in {"midnight", "noon"}:
        return [dt.time(0 if said == "midnight" else 12)]
    found = re.match(r"^([0-9]{1,2})(?:[:.h]?([0-9]{2}))?h? ?(?:([ap])\.?m\.?|o'?clock)?$", said)
    if found is None:
        return []
    hour, minute, half = int(found[1]), int(found[2] or 0), found[3]
    if hour > 24 or minute > 59 or (half and not 1 <= hour <= 12):  # noqa: PLR2004 - limits of the clock
        return []
    if half:
        return [dt.time(hour % 12 + (12 if half == "p" else 0), minute)]
    plainly = hour == 0 or hour > 12 or found[1].startswith("0")  # noqa: PLR2004 - the hour of noon
    if plainly:
        return [dt.time(hour % 24, minute)]
    return [dt.time(hour % 12, minute), dt.time(hour % 12 + 12, minute)]
