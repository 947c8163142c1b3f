"""Finds figures in a tidied text, with what stands beside them: unit, "about", a range, the probe, the spot.

It does not know what a figure can be; `readings` decides that.
"""

from __future__ import annotations

import dataclasses
import re

from scheduler.facts import Slot
from scheduler.units import c_from_f

APPROX_SPREAD = {"F": 5.0, "C": 2.5}
"""Half width of a figure read off a dial ("~160"), in its own unit (common practice, no source)."""
SAME_C = 1.0
"""Two figures in two units this near are one, rounded by whoever read both [°C]."""
TENS_WORDS = {"low": 2.0, "mid": 5.0, "middle": 5.0, "high": 8.0, "upper": 8.0}
"""Where in the tens "low 180s" stands, and half width 2 (common practice, no source)."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Figure:
    """One number of a text, at `start:end`, in the unit typed (None: not said)."""

    value: float
    start: int
    end: int
    unit: str | None = None
    half_width: float = 0.0
    approx: bool = False
    slot: Slot | None = None
    spot: str | None = None


_NUMBER = r"[0-9]{1,5}(?:,[0-9](?![0-9])|\.[0-9]{1,2}(?![0-9]))?"
_UNIT = (
    r"(?: ?(?:°|deg(?:rees?|s)?\b|grad\b|grados?\b|degres?\b)? ?(?P<unit>celsius|fahrenheit"
    r"|[cf])\b| ?(?:°|deg(?:rees?|s)?\b|grad\b|grados?\b|degres?\b))?"
)
_ABOUT = (
    r"(?:about|around|approx\.?|approximately|roughly|ca\.?|circa|etwa|ungefahr|maybe|perhaps|probably|like|nearly"
    r"|almost|say|so um die|um die|autour de|alrededor de|fast|knapp|casi|presque|environ|unos|vers|not quite"
    r"|not far off"
    r"|(?:some(?:where|thing|place)?"
    r" )?(?:near|close to|like)"
    r"|somewhere (?:around|about|in the)|(?:(?:just|slightly|barely|only just|a (?:hair|touch|tad|bit|little"
    r"|smidge|shade|notch|whisker)|a degree or two|not far) )(?:under|over|below|above|off|shy of|north of|south of"
    r"|past|from)|under|below|over|above|less than|more than|lower than|higher than|north of|south of|shy of|unter|uber"
    r"|weniger als|mehr als|menos de|mas de|moins de|plus de)"
)
"""Words before a figure that was read off a dial, or is only near: a limit is never passed by one of them."""
_FIGURE = re.compile(
    rf"(?P<approx>~ ?|± ?|[+]/?- ?|\b{_ABOUT} )?"
    r"(?P<between>\b(?:(?:somewhere )?(?:in )?between|zwischen|entre) )?"
    rf"(?P<minus>(?<![0-9a-z°-])-)?(?<![0-9.])(?P<low>{_NUMBER})"
    r"(?: ?(?:-|~|\.\.+|\bto\b|\bbis\b|\bor\b|\boder\b|\ba\b|(?:\b(?:and|und|et|y)\b|&)(?(between)|(?!)))"
    rf"(?: ?)(?P<high>{_NUMBER}))?"
    rf"(?P<ish> ?-?ish\b)?{_UNIT}(?P<ish2>-?ish\b|,? (?:or so|almost|nearly|fast|knapp|casi|presque|or thereabouts"
    r"|give or take|more or less"
    r"|roughly|approx(?:imately)?|i (?:think|guess|reckon)|mas o menos|ungefahr|environ)\b|[+]/?-)?(?![0-9])"
)
_TENS = re.compile(r"\b(?:(?P<where>low|mid|middle|high|upper)[ -])?(?P<tens>[0-9]{1,2}0)'?s\b")
_NUMBERED = re.compile(
    r"\b(?:probe|number|nr|no\.?|#|channel|sensor|piece|rack|spot) ?#?[1-9](?![0-9])(?= ?:? ?[a-z ]{0,12}[0-9]{2})"
)
"""Which probe, where its number follows."""
_COUNT_OF = re.compile(
    r"(?<![0-9.,/-])[0-9]{1,4} (?:more |other |new |big |small )?(?!(?:degree|deg|grado|degre|celsiu|ye|yes|guy|thank"
    r"|cheer|lad|bos|folk|mate|alway|thi|i|wa|ha|a|plu|minu|acros|les|u|gros|perhap|that|it|read|say|show|hold|rise"
    r"|climb|drop|slow|stay|sit|look|probe|meat|rib|chef|bro|minute|min|hour|rack|place|spot|inside|outside"
    r"|reading|time|sometime|internal|core|pit|kern|afterward|ago|nevertheles|unles|ambient|grate|dome)s\b)[a-z]{3,}s\b"
)
"""A count of things, by a plural that is nothing said of a reading."""
_GLUED = re.compile(
    r"(?<![a-z0-9])(?!(?:pit|meat|core|grill|smoker|flat|point|grate|dome|temp|internal|at|is|its|ca|now|no|about"
    r"|around"
    r"|reads?|says?|kern|still|chamber|it|so|ok|around|like|maybe|say)[0-9])[a-z]{2,}[0-9][a-z0-9]*"
)
"""Figures that are part of a word ("smoke180")."""
_MANY = {"none": 0, "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "eight": 8, "ten": 10}
_HOW_MANY = rf"(?:[0-9]|1[0-2]|{'|'.join(_MANY)})"
SOME_OF = re.compile(
    rf"(?<![0-9a-z.,/-])(?P<some>{_HOW_MANY})(?: (?:out )?of (?:the |my )?| (?:von|sur) (?:den )?|(?<=[a-z] [0-9])/)"
    rf"(?P<all>{_HOW_MANY})(?![0-9a-z.,/])"
)
"""Of how many spots or pieces something is so ("2 of 3"): no temperatures."""
_RISEN_BY = re.compile(
    r"\b(?:up|down|risen|rose|gained|climbed|fell|fallen|dropped|plus) (?:by )?[0-9]{1,2}(?: ?°)?(?: ?degrees?| ?deg)?"
    r"(?: ?[cf])?,? (?:to|at|now at|and (?:is )?now(?: at)?|now)(?= [0-9]{2,3}(?![0-9:]))"
)
"""By how much it went up, before where it stands ("up 5 to 171")."""
_NOT_TEMPERATURES = re.compile(
    r"(?<![0-9.,/-])[1-9]/[2-9](?= (?:left|full|of|gone|to go|basket|bag|tank|remaining))|"
    r"(?<![0-9.,/-])(?:[1-9]|1[0-9]|2[0-4]) (?:racks?|slabs?|briskets?|butts?|shoulders?|ribs|bones?)\b|"
    r"\b(?:probe|sensor|channel|thermometer) #?[1-9](?![0-9.,:/])(?! ?[a-z ]{0,12}[0-9]{2})|"
    r"\b(?:room|page|bus|route|gate|channel|ticket|order|seat) (?:no\.? |number )?[0-9]+|"
    r"\boven(?:'s| is| set)*(?: at| to)? [0-9]+(?: ?[cf]\b)?|"
    r"[0-9]+(?:[.,/x-][0-9]+)*[-x]? ?(?:%|kgs?\b|kilos?\b|g\b|lbs?\b|pounds?\b|oz\b|cm\b|mm\b|inch(?:es)?\b"
    r"|in\. |l\b|ml\b|x\b|st\b|nd\b|rd\b|th\b"
    "|(?:more )?(?:coming|arriving|showing up|turning up|to feed|for dinner|for lunch|vegetarians?|veggies?|vegans?"
    "|chunks?|pieces?|logs?|bricks?|briquettes|splits?|handfuls?|spots?|places"
    "|probes?(?! tender)|boxes|tubs|containers|portions|trays|people|guests?|kids|adults|friends|beers?|times"
    "|layers?|sheets?"
    r"|towels?|vents?|bags?|hours?|days?|euros?|bucks)\b)"
)
SLOT_WORDS: dict[str, Slot] = {
    **dict.fromkeys(
        (
            "meat",
            "core",
            "internal",
            "inside",
            "brisket",
            "rib",
            "ribs",
            "butt",
            "shoulder",
            "pork",
            "beef",
            "innen",
            "kern",
            "kerntemperatur",
            "fleisch",
            "carne",
            "viande",
            "coeur",
            "kt",
            "meats",
            "bird",
            "birds",
        ),
        Slot.CORE,
    ),
    **dict.fromkeys(
        (
            "pit",
            "smoker",
            "grill",
            "cooker",
            "grate",
            "air",
            "ambient",
            "dome",
            "chamber",
            "garraum",
            "lid",
            "dial",
            "gauge",
            "parrilla",
            "fumoir",
            "ahumador",
            "pits",
        ),
        Slot.PIT,
    ),
    **dict.fromkeys(("fridge", "refrigerator", "kuhlschrank", "nevera", "frigo"), Slot.FRIDGE),
    **dict.fromkeys(("leftovers", "leftover", "reheated", "chilled food", "cooled food"), Slot.LEFTOVERS),
}
"""Words that say which probe was read."""
SPOT_WORDS = {
    "flat": "flat",
    "plano": "flat",
    "point": "point",
    "punta": "point",
    "thick end": "thick end",
    "thin end": "thin end",
    "thick corner": "thick corner",
    "thick part": "thick part",
    "thin part": "thin part",
    "thick bit": "thick part",
    "middle": "middle",
    "centre": "centre",
    "center": "centre",
    "edge": "edge",
    "corner": "corner",
    "breast": "breast",
    "thigh": "thigh",
    "leg": "leg",
    "drumstick": "drumstick",
    "loin": "loin",
    "neck": "neck",
    "wing": "wing",
    "bone": "bone",
    "money muscle": "money muscle",
    "left": "left",
    "right": "right",
    "front": "front",
    "back": "back",
    "top rack": "top rack",
    "bottom rack": "bottom rack",
    "other end": "other end",
}
"""Spots of a piece, as typed and as kept."""
_LABEL = re.compile(
    r"(?P<behind>\b(?:in|at|by|on|near|en|im) (?:the |el |der )?)?\b(?P<spot>"
    + "|".join(sorted(SPOT_WORDS, key=len, reverse=True))
    + r")\b(?!(?<=back) (?:up|down|to|at|on|in|over|under|above|below|around|near|again)\b)|\b(?P<slot>"
    + "|".join(sorted(SLOT_WORDS, key=len, reverse=True))
    + r")(?:'s)?\b"
)


def how_many(typed: str) -> int:
    """Return the count that a figure or a word of `SOME_OF` is."""
    return int(typed) if typed.isdigit() else _MANY[typed]


def figures(text: str) -> tuple[Figure, ...]:
    """Return the figures of a tidied text that may be temperatures, first to last, with their labels."""
    masked = text
    for pattern in (_NUMBERED, SOME_OF, _RISEN_BY, _NOT_TEMPERATURES, _COUNT_OF, _GLUED):
        masked = pattern.sub(lambda found: "|" * len(found.group()), masked)
    plain = [_tens(found) for found in _TENS.finditer(masked)]
    for figure in plain:
        masked = masked[: figure.start] + "|" * (figure.end - figure.start) + masked[figure.end :]
    plain += [figure for found in _FIGURE.finditer(masked) for figure in _read(found)]
    return _labelled(text, _each_once(sorted(plain, key=lambda figure: figure.start), text))


def _each_once(plain: list[Figure], text: str) -> list[Figure]:
    """Return the figures without one that tells the one before it again in the other unit ("170F/77C")."""
    kept: list[Figure] = []
    for figure in plain:
        last = kept[-1] if kept else None
        if (
            last is not None
            and {last.unit, figure.unit} == {"F", "C"}
            and abs(_celsius(last) - _celsius(figure)) <= SAME_C
            and not re.search(r"[a-z]", text[last.end : figure.start].replace("or", "").replace("so", ""))
        ):
            continue
        kept.append(figure)
    return kept


def _celsius(figure: Figure) -> float:
    return c_from_f(figure.value) if figure.unit == "F" else figure.value


def _tens(found: re.Match[str]) -> Figure:
    tens = float(found["tens"])
    where = found["where"]
    middle, half_width = (tens + TENS_WORDS[where], 2.0) if where else (tens + 5.0, 5.0)
    return Figure(value=middle, start=found.start(), end=found.end(), half_width=half_width)


def _read(found: re.Match[str]) -> list[Figure]:
    low = float(found["low"].replace(",", ".")) * (-1.0 if found["minus"] else 1.0)
    unit = found["unit"][0].upper() if found["unit"] else None
    approx = bool(found["approx"] or found["ish"] or found["ish2"])
    start, end = found.span()
    if not found["high"]:
        return [Figure(value=low, start=start, end=end, unit=unit, approx=approx)]
    high = float(found["high"].replace(",", "."))
    if low < high <= low + max(15.0, 0.2 * low):
        return [
            Figure(
                value=(low + high) / 2.0, start=start, end=end, unit=unit, half_width=(high - low) / 2.0, approx=approx
            )
        ]
    return [  # too far apart for a range: two figures
        Figure(value=low, start=start, end=found.end("low"), unit=unit, approx=approx),
        Figure(value=high, start=found.start("high"), end=end, unit=unit, approx=approx),
    ]


def _labelled(text: str, plain: list[Figure]) -> tuple[Figure, ...]:
    """Give every figure the words that belong to it.

    "In the flat" belongs to what stands before it; else words stand before their figures, unless the first figure
    comes first and a word last ("171 meat, 262 pit"). A word alone with one figure in its clause belongs to that one.
    """
    if not plain:
        return ()
    labels = [found for found in _LABEL.finditer(text) if not any(f.start <= found.start() < f.end for f in plain)]
    marked = list(plain)
    if (in_order := _header(labels, plain, text)) is not None:
        return in_order
    words_last = bool(labels) and plain[0].start < labels[0].start() and plain[-1].start < labels[-1].start()
    for label in labels:
        before = [i for i, figure in enumerate(plain) if figure.start < label.start()]
        after = [i for i, figure in enumerate(plain) if figure.start >= label.start()]
        backward = bool(before) and (not after or bool(label["behind"]) or words_last)
        if not backward and before and _clause_of(text, label.start()) == _clause_of(text, plain[before[-1]].start):
            backward = _clause_of(text, plain[after[0]].start) != _clause_of(text, label.start())
        index = before[-1] if backward else after[0]
        marked[index] = _mark(marked[index], label, nearer=not backward)
    return tuple(marked)


def _header(labels: list[re.Match[str]], plain: list[Figure], text: str) -> tuple[Figure, ...] | None:
    """Return the figures of "pit/meat 255/172", whose words all stand before them in the same order; else None."""
    if not 1 < len(labels) == len(plain) or labels[-1].end() > plain[0].start:
        return None
    between = text[labels[0].end() : labels[-1].start()]
    if not re.fullmatch(r" ?(?:/|,|&|\+|and|und|y|et) ?", between) or len({label.group() for label in labels}) == 1:
        return None
    return tuple(_mark(figure, label, nearer=True) for figure, label in zip(plain, labels, strict=True))


def _clause_of(text: str, place: int) -> int:
    return len(re.findall(r"[,;/](?=\s)|\band\b|\bund\b", text[:place]))


def _mark(figure: Figure, label: re.Match[str], *, nearer: bool) -> Figure:
    """Return the figure with its label; of two probes before it ("brisket pit 250") the nearer one counts."""
    if label["spot"]:
        return figure if figure.spot else dataclasses.replace(figure, spot=SPOT_WORDS[label["spot"]])
    return figure if figure.slot and not nearer else dataclasses.replace(figure, slot=SLOT_WORDS[label["slot"]])
