"""Tells talk about a number ("should be 165", "is 150 ok", "recipe says 165", "165?") from a report of one.

It finds the talk and what is left beside it; a number in talk is never a reading, whatever else the text says.
"""

from __future__ import annotations

import dataclasses
import re

from bot.conversation.context import Context
from bot.conversation.parsing import times
from bot.conversation.parsing.numbers import Figure, figures
from bot.conversation.parsing.words import cut_out, phrases
from scheduler.facts import Slot
from scheduler.units import f_from_c

_FIG = r"#[#]*"
"""A figure that may be a temperature, blanked."""
_SOURCE = (
    r"(?:recipes?|books?|cookbooks?|labels?|packet|package|packaging|wrapper|web ?site|site|blog|internet|online"
    r"|videos?|guide|chart|table|rules?|law|code|inspector|officer|government|butcher|shop|mum|mom|dad|mother|father"
    r"|grandma|grandpa|wife|husband|neighbou?rs?|friend|uncle|aunt|chef|they|people|everyone|everybody|someone|somebody"
    r"|some|others|most|usda|fsis|fda|tv|manual|instructions?|poster|magazine|article)"
)
_MODAL = (
    r"(?:should(?:n't|nt| not)?|supposed|meant to|ought|must(?:n't)?|needs?|needed|need|requir(?:e|es|ed|ing)"
    r"|ha(?:s|ve|d) to|got to|gotta|want(?:s|ed|ing)?|wanna|wish(?:es|ed)?|aim(?:s|ed|ing)?|targets?|goal"
    r"|shoot(?:ing)? for"
    r"|go(?:ing)? for|wait(?:ing|s)? (?:for|on|to)|look(?:ing)? for|hop(?:e|es|ing|ed)|hopefully|expect(?:s|ed|ing)?"
    r"|plan(?:s|ned|ning)?|will|won't|'ll|would(?:n't)?|'d|gonna|going to|about to|shall|might|may|could(?:n't)?"
    r"|can(?!')"
    r"|let'?s|let us|ideal(?:ly)?|theor(?:y|etically)|usual(?:ly)?|normal(?:ly)?|always|general(?:ly)?|typical(?:ly)?"
    r"|last (?:time|year|week|month|cook)|guess(?:ing)?|imagine|suppose|assum(?:e|ing)|pretend|minimum|maximum"
    r"|limit|rule|danger zone|keep (?:it|them|the)|hold (?:it|them|the)|get (?:it|them) to|bring (?:it|them)"
    r"|cook (?:it|them)"
    r"|heat (?:it|them)|wrong to|worried|afraid|why|how|what|whats|what's|which|where|who)"
)
_UNTIL = (
    r"(?:until|till?|unless|if|as soon as|by the time|whenever"
    r"|(?:when|once|before|after) (?:it|they|that|the \w+|meat|core|breast|thigh|temp)(?:'s|s)?"
    r"(?: is| are| at| hits?| reads?| reaches| gets?| comes?| shows?| says)*)"
)
_NOT = (
    r"(?:not|isn't|isnt|ain't|aint|hasn't|hasnt|haven't|havent|never|wasn't|wasnt|didn't|didnt|doesn't|doesnt|don't"
    r"|dont"
    r"|nowhere near|still (?:under|below)|less than|lower than|short of|away from|shy of)(?: (?:at|yet|even|quite|reach"
    r"|reached|reaching|hit|to|read|reading|reads|show|shows|showing|get|got|gotten|been|be|above|over|up|past|the"
    r"|really"
    r"|near|nearly|close|made|it))*"
)
_VERDICT = (
    r"(?:ok|okay|safe|enough|fine|good|alright|all right|done|cooked|too|right|correct|high|low|hot|cold|the|what"
    r"|required"
    r"|needed|necessary|a|allowed|acceptable|undercooked|raw|dangerous|bad|my|our|where|when|how|it|for|really|still)"
)
_DOES = (
    r"pull|take|wrap|stop|eat|serve|remove|rest|slice|box|go|goes|start|can|will|should|would|comes?|is (?:done"
    r"|safe|ready)"
    r"|done|safe|ready"
)
_ASKS = (
    r"(?:(?:so|and|but|hey|hm+|ok|okay|well|oh|then|wait|sorry|guys|um+|er+),? )*"
    r"(?:isn't|isnt|aren't|arent|wasn't|weren't|does|do|did|doesn't|doesnt|don't|dont|didn't|am i|are we|is it|is that"
    r"|is this|is the|is my|is our|are they|are the|was it|was that|has it|have we|have i|should|shall|can|could|may"
    r"|will|would|must|any|why|how|what|whats|what's|which|who|where|whose)\b"
)
_TALK = phrases(
    rf"^{_ASKS}.*{_FIG}",
    rf"^(?:(?:so|and|but|hey|hm+|ok|well),? )*(?:is|are|was|were) (?:a |an |the |only |just )?{_FIG}[a-z°]* ?[a-z]*"
    rf" ?\b{_VERDICT}\b",
    rf"\b{_SOURCE}(?: \w+)? (?:says?|said|tells?|told|wants?|calls? for|gives|claims?|asks?(?: for)?|recommends?"
    rf"|advises?"
    rf"|suggests?|states?)\b.*{_FIG}",
    rf"\b(?:according to|says here|heard|read (?:that|somewhere|online)|it says (?:in|on)|as per|by the (?:book"
    rf"|rules?))\b.*"
    rf"{_FIG}|{_FIG}.*\b(?:according to|says (?:here|the)|i (?:have )?heard|i think it says)\b",
    rf"(?:\b|(?=')){_MODAL}\b[^#]*{_FIG}",
    rf"\b{_UNTIL}\b[^#]*{_FIG}",
    rf"\b(?!not quite)(?!nearly){_NOT} {_FIG}",
    rf"^(?:at |only |just |a |an |the |so |and |ok )*{_FIG}[a-z°]*(?: degrees?)?(?: (?:inside|internal|for"
    rf"|in) (?:\w+ )?\w+)? "
    rf"(?:is|are|isn't|should|would|will|must|'ll|might|may|can|could|was) (?:not |n't )?(?:\w+ )?{_VERDICT}\b",
    rf"^(?:at |only |just |a |an |the |so |and |ok )*{_FIG}[a-z°]*(?: degrees?)?(?: (?:is|was|are))? "
    r"(?:it should|it must|required|needed|needs?\b|is what|would|minimum|or (?:more|higher|above|over|hotter)|right$"
    r"|correct$|safe|enough|ok for|okay for|fine for|you said|you say|before (?:i|we|you))",
    rf"\bat {_FIG}[a-z°]*,? +(?:then )?(?:i|we|you|they|people|everyone|it|that|it's|its|she|he)(?:'ll|'d|'s)? "
    rf"(?:usually |always |then |normally |just )?(?:{_DOES})\b",
    rf"{_FIG}.*\b(?:i hope|hopefully|i (?:would|'d) (?:say|think)|if (?:all|i|we|it)|right\?$"
    rf"|is the (?:rule|target"
    r"|goal|minimum|limit|aim)|are the (?:rules?|minimum))",
    rf"{_FIG}[a-z°]* (?:by then|in the end|at the end|tomorrow|in theory)\b",
)
_AS_A_REPORT = re.compile(
    r"^(?:ok |so |and |now |but )*(?:it'?s|it is|its|i (?:got|have|see|read)|we (?:got|have|are at|see)|we're at|reads?"
    r"|reading|now|got|showing|shows|it (?:reads|shows|was|says)|(?:the )?(?:probe|thermometer) (?:reads|says|shows))\b"
)
"""Words that begin a report of their own after talk."""
_SEGMENT = re.compile(
    r"[,;!?]+(?=\s|$)|\.+(?=\s|$)|\s-\s|\b(?:but|aber|pero|mais|because|cos|cause|since it|although)\b"
)
_THEN = re.compile(rf"(?<=#),(?= (?:then )?(?:i|we|you|they) (?:{_DOES}))")
_JOINS = re.compile(r"\s*\b(?:but|because|cos|cause|although|and)$")
_TAG = re.compile(r"(?<=#),(?= (?:right|correct|yes|no|ok|okay|yeah|huh|or|isn't it|is it|eh) ?[?])")
_CORE_F, _CORE_C = (32.0, 212.0), (0.0, 100.0)
_TEMPERATURE = 20.0
"""Smaller figures without a unit are no temperature that anybody talks about."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Talk:
    """Talk about numbers: the first of them, in the unit of the chat; `rest` is what was told beside it."""

    number: float
    rest: str
    wonders: bool
    """True for bare figures with a question mark: nothing but those was said."""
    enough: bool
    """True for talk of whether a number is safe, enough or needed."""
    of_a_core: bool
    """True when meat can have it."""


def talk_in(heard: str, context: Context) -> Talk | None:
    """Return the talk about numbers in a tidied text, None when every number in it is plainly reported."""
    found = _temperatures(heard)
    if not found:
        return None
    blanked = _blanked(heard, found)
    parts = _segments(blanked)
    talks: list[tuple[int, int]] = []
    wonders = False
    after_talk = False
    for start, end, closed_by in parts:
        words = blanked[start:end].strip()
        asks = "?" in closed_by and "#" in words
        talk = "#" in words and (asks or bool(_TALK.search(words)))
        carried = after_talk and "#" in words and not _AS_A_REPORT.match(words)
        if talk or carried:
            talks.append((start, end))
            wonders = wonders or (asks and not _TALK.search(words))
        after_talk = talk or carried or (after_talk and "#" not in words)
    if not talks:
        return None
    if wonders and len(talks) < len(parts):
        talks = _with_bare_ones(talks, parts, blanked)
    inside = [f for f in found if any(start <= f.start < end for start, end in talks)]
    rest = cut_out(heard, talks).replace("|", " ")
    return Talk(
        number=_in_unit(inside[0], context),
        rest=_JOINS.sub("", " ".join(rest.split()).strip(" ,;.?!")),
        wonders=wonders,
        enough=bool(_ENOUGH.search(heard)),
        of_a_core=_of_a_core(inside[0]),
    )


_ENOUGH = re.compile(
    r"\b(?:ok|okay|safe|enough|fine|alright|supposed|should|must|needs?|needed|have to|has to|required|minimum|rule|eat"
    r"|too (?:low|cold|raw|little)|undercooked|why|recipe|(?:can|could|may|shall) (?:i|we|you) (?:\w+ )?(?:pull"
    r"|take|serve"
    r"|stop))\b"
)


def _temperatures(heard: str) -> tuple[Figure, ...]:
    """Return the figures of a text that can be temperatures: no times, no counts; "at 145" may be one."""
    clock = [(when.start, when.end) for when in times.find(heard) if not (when.compact or when.plain)]
    masked = cut_out(heard, clock)
    return tuple(f for f in figures(masked) if f.unit or f.slot or f.value >= _TEMPERATURE)


def _blanked(heard: str, found: tuple[Figure, ...]) -> str:
    """Return the text with its temperatures blanked; "at 165, we pull" is one part, and a tag joins what it asks."""
    letters = list(heard)
    for figure in found:
        start = next(at for at in range(figure.start, figure.end) if heard[at].isdigit())
        letters[start : figure.end] = "#" * (figure.end - start)
    return _TAG.sub(" ", _THEN.sub(" ", "".join(letters)))


def _segments(text: str) -> list[tuple[int, int, str]]:
    """Return (start, end, what closes it) of each part of a text."""
    parts, start = [], 0
    for edge in _SEGMENT.finditer(text):
        parts.append((start, edge.start(), edge.group()))
        start = edge.end()
    parts.append((start, len(text), ""))
    return [part for part in parts if text[part[0] : part[1]].strip()]


def _with_bare_ones(
    talks: list[tuple[int, int]], parts: list[tuple[int, int, str]], blanked: str
) -> list[tuple[int, int]]:
    """Return the parts that are asked about with the bare figures right before them ("68, 71?")."""
    spans = [(start, end) for start, end, _ in parts]
    first = spans.index(talks[0])
    bare = [span for span in spans[:first] if not re.search(r"[a-z]", blanked[span[0] : span[1]])]
    return sorted({*talks, *bare})


def _in_unit(figure: Figure, context: Context) -> float:
    """Return a figure in the unit of the chat, as somebody asking about it would type it."""
    if figure.unit == "C" and context.unit != "C":
        return round(f_from_c(figure.value), 1)
    return figure.value


def _of_a_core(figure: Figure) -> bool:
    low, high = _CORE_C if figure.unit == "C" else _CORE_F
    return figure.slot is not Slot.PIT and low <= figure.value <= high
