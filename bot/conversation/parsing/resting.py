"""How the meat is to rest: where, at which set point of an oven, and how long. Finishing it in an oven is no rest.

What already lies in a box is a step done, and read elsewhere; whether a place keeps it hot is not judged here.
"""

from __future__ import annotations

import re

from bot.commands import Intent
from bot.commands.wishes import RestSaid
from bot.conversation.context import Context
from bot.conversation.parsing import times
from bot.conversation.parsing.words import phrases
from scheduler.facts import RestPlace
from scheduler.units import c_from_f

_PLACES: tuple[tuple[RestPlace, str], ...] = (
    (RestPlace.OVEN, r"ovens?"),
    (RestPlace.COOKER, r"(?:cooker|smoker|grill|drum|kettle|pit)(?: with (?:the )?vents (?:shut|closed))?"),
    (RestPlace.BOX, r"(?:cool ?box|cooler|ice chest|insulated box|box)"),
    (RestPlace.BOARD, r"(?:cutting )?(?:board|counter|table)"),
)
_WHERE = (
    r"(?:in|into|in to|on|onto|on to|inside|to) (?:the |a |an |my |our |that )?"
    r"(?:warm |low |cool |cold |hot |shut[- ]down )*"
    rf"(?P<place>{'|'.join(pattern for _place, pattern in _PLACES)})"
)
_AT = r"(?: ?(?:,|set to|at|@|=|on)? ?(?P<oven>[0-9]{2,3})(?: ?°| ?deg(?:rees?)?)? ?(?P<unit>[cf]\b)?)?"
_UNTIL = (
    r"(?P<until> (?:until|till?|for|to wait for)"
    r"(?: (?:the )?(?:dinner|supper|lunch|serving|guests?|plates?|we eat|[0-9].*))?)?"
)
_IT = r"(?:it|it'?ll|they|the meat|meat|the brisket|brisket|the butt|butt|the ribs|ribs)"
_WILL = (
    r"(?:(?:will|'ll|should|shall|to|can|must|is going to|i want to|i will|i'll|we'll|we will|let's|please|let|we|i"
    r"|going to) )*"
)
_RESTS = (
    rf"(?:{_WILL}(?:{_IT} )?(?:rest|resting|rests|hold|holding|holds|keep|keeping|be held|held|wait|waits)(?: {_IT})?"
    r"(?: (?:rest|hot|warm))?)"
)
_WISH = re.compile(rf"^(?:{_IT} )?{_RESTS} {_WHERE}{_AT}{_UNTIL}$")
_GOES = re.compile(
    rf"^(?:{_IT} )?(?:{_WILL}(?:goes|go|is going|put(?: {_IT})?|moves?(?: {_IT})?|stays?))"
    rf" {_WHERE}{_AT}{_UNTIL}$"
)
_LIES = re.compile(
    rf"^(?:(?:{_IT} ?)?(?:is|are|'s|went|now|moved|put|has gone|has been moved)(?: {_IT})?(?: now)? )?"
    rf"{_WHERE}{_AT}(?: now)?$"
)
_OVEN_SET = re.compile(rf"^(?:the |warm |holding )*oven(?: is| is set| set| stands| runs)?(?: to| at| on)?{_AT}$")
_SHORTER = phrases(
    r"^(?:please )?(?:shorten|cut|reduce|make|set|keep|lengthen|extend|limit|only|just|take|give it)?(?: the| a| only)*"
    r" ?rest(?:ing time)?(?: down)?(?: is| to| of| for| only| it| them|:)*$",
    r"^(?:please )?(?:only|just|with|make it|a)?(?: a)? ?(?:of )?rest$",
    r"^(?:let )?(?:it|them)? ?rests?(?: for| only)*$",
)
_HOLDS_C = (45.0, 130.0)
"""Set points between which a number without a unit may be an oven that holds meat [°C]; common practice, no source."""


def rest_said(heard: str, _text: str, context: Context) -> Intent | None:
    """Return how a whole text wants the meat to rest, None when it says nothing of it."""
    plain = heard.strip(" .!")
    if heard.endswith("?") or re.search(r"\b(?:finish|cook|done|until (?:it|they)(?:'s| is| are))\b", plain):
        return None
    if (minutes := _minutes(plain)) is not None:
        return RestSaid(minutes=minutes)
    resting = context.stage == "resting"
    if (found := _WISH.match(plain)) is not None:
        return _placed(found, context, there=False)
    if (found := _GOES.match(plain)) is not None and (resting or found["until"]):
        return _placed(found, context, there=resting and not found["until"])
    if resting and (found := _LIES.match(plain)) is not None:
        box = _place(found["place"]) is RestPlace.BOX
        moved = context.rest_place in {RestPlace.OVEN, RestPlace.COOKER}
        return None if box and not moved else _placed(found, context, there=True)
    found = _OVEN_SET.match(plain)
    oven_c = None if found is None or not found["oven"] else _oven_c(found["oven"], found["unit"], context)
    return RestSaid(place=RestPlace.OVEN, oven_c=oven_c) if oven_c is not None and oven_c <= _HOLDS_C[1] else None


def _minutes(plain: str) -> float | None:
    """Return the wanted length of the rest, None when the text names no span or something else."""
    spans = [when for when in times.find(plain) if when.kind is times.Kind.SPAN]
    if len(spans) != 1:
        return None
    around = f"{plain[: spans[0].start]} {plain[spans[0].end :]}"
    return spans[0].minutes if _SHORTER.match(" ".join(around.split())) else None


def _placed(found: re.Match[str], context: Context, *, there: bool) -> RestSaid | None:
    place = _place(found["place"])
    if place is None:
        return None
    oven = found["oven"]
    if oven is not None and place is not RestPlace.OVEN:
        return None if place is not RestPlace.COOKER else RestSaid(place=place, there=there)
    oven_c = None if oven is None else _oven_c(oven, found["unit"], context)
    return RestSaid(place=place, oven_c=oven_c, there=there)


def _place(words: str) -> RestPlace | None:
    return next((place for place, pattern in _PLACES if re.fullmatch(pattern, words)), None)


def _oven_c(figure: str, unit: str | None, context: Context) -> float:
    """Return a set point in °C: in the unit said, else in that of the chat if it can hold meat, else in the other."""
    value = float(figure)
    units = (unit.upper(),) if unit else (context.unit or "F", "C" if (context.unit or "F") == "F" else "F")
    found = [c_from_f(value) if one == "F" else value for one in units]
    return next((one for one in found if _HOLDS_C[0] <= one <= _HOLDS_C[1]), found[0])
