"""Reads what is said of the cooker, of the charcoal in it, and of how the meat is read.

Which names there are, the context says. It computes nothing: a card is looked up by whoever decides.
"""

from __future__ import annotations

import dataclasses
import re

from bot.commands import CookerSaid, Done, FuelSaid, Intent, ReadBySaid, Report
from bot.conversation.context import Context, CookerName
from bot.conversation.parsing.words import clauses
from scheduler.facts import ReadBy, Slot
from scheduler.units import kg_from_lb

_LEAD = (
    r"(?:on|in|using|with|use|cooker(?: is|:)?|smoker(?: is|:)?|it's|it is|we(?:'re| are) on|cooking on|i use|we use)"
)
_ARTICLE = r"(?:(?:the|my|our|a|an) )?"
_AFTER = r"(?: (?:smoker|grill|cooker|bbq|again|now|today|this time|please))*"
_TIME_AFTER = re.compile(r"\s*(?:since|from|at|for)\b|\s*[0-9]")

_THERMOMETER = r"(?:thermometer|probe|reader|temp probe)s?"
_USE = (
    r"(?:(?:i|we|it|there|and|but|just|only|have|has|got|use|using|used|read|reads|reading|measure|with|by|it's|is|"
    r"there's|i've|we've|a|an|the|my|our|meat) )*"
)
_READ_BY: tuple[tuple[ReadBy, re.Pattern[str]], ...] = (
    (
        ReadBy.NONE,
        re.compile(
            rf"^{_USE}(?:no|without|without a|without any|don't have a|do not have a|haven't a|haven't got a"
            rf"|don't have any|not a) (?:meat )?{_THERMOMETER}(?: (?:here|at all|today|with us))?$"
        ),
    ),
    (
        ReadBy.WIRE,
        re.compile(
            rf"^{_USE}(?:wire|wired|wired {_THERMOMETER}|wire {_THERMOMETER}|leave-? ?in {_THERMOMETER}"
            rf"|remote {_THERMOMETER}|(?:wire|probe) (?:stays|is left|left) in)(?: (?:stays in|in|in the meat))*$"
        ),
    ),
    (
        ReadBy.HAND,
        re.compile(rf"^{_USE}(?:by hand|hand|hand ?held|hand-held|instant[- ]read)(?: {_THERMOMETER})?(?: only)?$"),
    ),
)

_FUEL = r"(?:charcoal|coals?|briquettes|briqs|lump(?: charcoal)?|fuel)"
_MASS = r"(?P<value>[0-9]{1,2}(?:[.,][0-9]{1,2})?|an?|half an?) ?(?P<unit>kgs?|kilos?|kilograms?|lbs?|pounds?)"
_NOT_IN = re.compile(
    r"\b(?:buy|bought|need|needs|bring|brought|shop|shopping|get|got more|order(?:ed)?|spare|bag of|left|remaining|used"
    r"|burn(?:t|ed))\b"
)
_ADDED = re.compile(rf"\b(?:add(?:ed|ing)?|topped up|another|more|refuel(?:l?ed)?|threw|tossed|put on)\b.*?{_MASS}")
_LOADED = (
    re.compile(rf"\b{_MASS}(?: of)? {_FUEL}\b"),
    re.compile(rf"\b{_FUEL}:? (?:is |in )?{_MASS}\b"),
    re.compile(rf"\b(?:loaded|filled(?: it)?(?: with)?|filled up with) {_MASS}\b"),
)
_BARE_MASS = re.compile(rf"^(?:about |around |~ ?)?{_MASS}$")
_ASKS_MASS = {"fuel_load": False, "light": False, "refuel": True}
"""Steps beside which a bare mass is charcoal, and whether it comes on top of what burns."""

_DIAL = re.compile(r"\b(?:dial|gauge|dome)\b|\blid (?:says|reads|shows|thermometer|at)\b|^lid:? [0-9]")

_DIAL_FIRST = re.compile(r"^(?:the )?dial(?:'s| is)?:? ?(?:at |about |~ ?)?[0-9]")


@dataclasses.dataclass(frozen=True, kw_only=True)
class CookerWords:
    """What was said, and the text without it."""

    rest: str
    cooker: CookerSaid | None = None
    read_by: ReadBy | None = None


def cooker_words(heard: str, context: Context) -> CookerWords:
    """Return the cooker and the reader that a tidied text names beside other things, while a cook is set up."""
    spans: list[tuple[int, int]] = []
    read_by: ReadBy | None = None
    cooker: CookerSaid | None = None
    for start, end in clauses(heard):
        clause = heard[start:end].strip(" .!,")
        found = _read_by(clause)
        if found is not None:
            read_by = found
            spans.append((start, end))
            continue
        named = _named(heard[start:end], context, whole=True)
        if named is not None and cooker is None:
            name, first, last = named
            cooker = CookerSaid(cooker=name.kind, card=name.card)
            spans.append((start + first, start + last))
    return CookerWords(rest=_without(heard, spans), cooker=cooker, read_by=read_by)


def about_the_cooker(heard: str, context: Context) -> tuple[tuple[Intent, ...], str]:
    """Return what a text says of the cooker, the charcoal or the reader while a cook runs, and the text without it.

    A clause counts when it is about nothing else: "meat on the kettle at 11" tells of the meat.
    """
    found: list[Intent] = []
    spans: list[tuple[int, int]] = []
    parts = clauses(heard)
    for start, end in parts:
        said = _clause(heard[start:end].strip(" .!,"), context, alone=len(parts) == 1)
        if said:
            found += said
            spans.append((start, end))
    return tuple(found), _without(heard, spans)


def _clause(text: str, context: Context, *, alone: bool) -> tuple[Intent, ...]:
    if (read_by := _read_by(text)) is not None:
        return (ReadBySaid(read_by=read_by),)
    named = _named(text, context, whole=alone)
    if named is not None and not (text[: named[1]] + text[named[2] :]).strip(" ,.!:"):
        return (CookerSaid(cooker=named[0].kind, card=named[0].card),)
    return _charcoal(text, context)


def on_the_dial(found: tuple[Intent, ...], heard: str) -> tuple[Intent, ...]:
    """Return the readings with the pit marked as read from the dial in the lid, when the text says so."""
    if not _DIAL.search(heard):
        return found
    return tuple(_from_dial(intent) if isinstance(intent, Report) else intent for intent in found)


def reads_the_dial(heard: str) -> bool:
    """Return whether a text begins with the dial and its number: "dial to 240" sets the pit, "dial 240" reads it."""
    return _DIAL_FIRST.match(heard) is not None


def _from_dial(report: Report) -> Report:
    values = tuple(
        value.model_copy(update={"spot": "dial"}) if value.slot is Slot.PIT and value.spot is None else value
        for value in report.values
    )
    return report.model_copy(update={"values": values})


def _read_by(clause: str) -> ReadBy | None:
    return next((read_by for read_by, pattern in _READ_BY if pattern.match(clause)), None)


def _named(clause: str, context: Context, *, whole: bool) -> tuple[CookerName, int, int] | None:
    """Return the cooker that a clause names, and where: after "on", "using" and the like, or alone."""
    for name in sorted(context.cooker_names, key=lambda one: -len(one.name)):
        pattern = rf"(?P<lead>\b{_LEAD} )?{_ARTICLE}(?<![a-z]){re.escape(name.name)}\b{_AFTER}"
        for match in re.finditer(pattern, clause):
            alone = clause[: match.start()].strip() == "" and clause[match.end() :].strip(" .!") == ""
            if match["lead"] is None and not (alone and (whole or name.card is not None)):
                continue
            since = match["lead"] is not None and match["lead"].strip() in {"on", "in"}
            start = match.end("lead") if since and _TIME_AFTER.match(clause[match.end() :]) else match.start()
            return name, start, match.end()
    return None


def _charcoal(text: str, context: Context) -> tuple[Intent, ...]:
    """Return charcoal put in or added, with the refuel that it answers."""
    if _NOT_IN.search(text) or text.endswith("?"):
        return ()
    open_steps = [step.step for step in context.open_steps if step.step in _ASKS_MASS]
    bare = _BARE_MASS.match(text)
    if bare and open_steps:
        return _told(_kg(bare), added=_ASKS_MASS[open_steps[0]])
    loaded = next((found for pattern in _LOADED if (found := pattern.search(text))), None)
    added = _ADDED.search(text)
    if added and (loaded or "refuel" in open_steps or re.search("refuel|topped up", text)):
        return _told(_kg(added), added=True)
    if loaded:
        return _told(_kg(loaded), added=context.stage == "cooking" and "refuel" in open_steps)
    return ()


def _told(kg: float, *, added: bool) -> tuple[Intent, ...]:
    fuel = FuelSaid(kg=kg, added=added)
    return (Done(step="refuel"), fuel) if added else (fuel,)


def _kg(found: re.Match[str]) -> float:
    said = found["value"]
    value = 0.5 if said.startswith("half") else 1.0 if said in {"a", "an"} else float(said.replace(",", "."))
    return kg_from_lb(value) if found["unit"][0] in "lp" else value


def _without(heard: str, spans: list[tuple[int, int]]) -> str:
    rest = heard
    for start, end in sorted(spans, reverse=True):
        rest = f"{rest[:start]} {rest[end:]}"
    rest = re.sub(r"(?:\s*,)+", ",", " ".join(rest.split()))
    return re.sub(r"^(?:[\s,;.!&+]|(?:and|but|then)\b)+|(?:[\s,;&+]|\b(?:and|but|then)\b)+$", "", rest)
