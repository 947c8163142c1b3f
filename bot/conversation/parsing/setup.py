"""Reads what is said of a cook that is being set up, from one sentence or one answer, into a draft.

It fills in nothing that was not said; what is missing, `bot.conversation.flows.setup` asks for.
"""

from __future__ import annotations

import dataclasses
import re
from typing import Any

from bot.commands import Draft, Intent, MovePit, Unclear
from bot.conversation.context import Context
from bot.conversation.parsing import times
from bot.conversation.parsing.cut_names import FOODS, find_cut
from bot.conversation.parsing.meat import wrap_words
from bot.conversation.parsing.moves import band
from bot.conversation.parsing.numbers import Figure, figures
from bot.conversation.parsing.readings import can_be, in_c, likely
from bot.conversation.parsing.serving import Said, serving_said
from bot.conversation.parsing.time_words import NUMBER_WORDS
from bot.conversation.parsing.words import cut_out, phrases, word_set
from scheduler.facts import Slot
from scheduler.units import kg_from_lb

MASS_KG = (0.2, 30.0)
"""Lightest and heaviest piece that is taken as said (common practice, no source)."""
MOST_PIECES = 60
HHMM_FROM = 1000
"""Four figures are a clock time where a time was asked for."""
LOWEST_PIT_FIGURE = 80
"""Lower figures without a word are hours, masses or counts."""
LONE_PIT_FIGURE = 200
"""Lower figures that are all of a text, unasked, are not taken for a pit."""
KG_UP_TO = 9.0
"""A mass without a unit is in kilograms up to here while the chat has no unit, else in pounds."""

_COUNT_WORDS = "|".join(NUMBER_WORDS)
_PIECES = r"racks?|slabs?|plates?|pieces?|pcs|briskets?|packers?|shoulders?|butts?|cuts?|of them"
_COUNT = phrases(
    (
        rf"(?<![0-9.,])(?P<n>[0-9]{{1,2}}|{_COUNT_WORDS}) ?(?:x ?)?(?:(?:big|small|large|whole|full"
        rf"|nice|beef|pork|boston) )*(?:{_PIECES})\b"
    ),
    r"\b(?P<n2>[0-9]{1,2}) ?x(?= |\b)",
    r"\bx ?(?P<n3>[0-9]{1,2})\b",
)
_MASS = re.compile(
    "(?P<low>[0-9]{1,5}(?:[.,][0-9]{1,2})?)(?: ?(?:-|to|or) ?(?P<high>[0-9]{1,3}"
    "(?:[.,][0-9]{1,2})?))? ?(?P<unit>kgs?|kilos?|kilograms?|lbs?|pounds?|pounders?|#|g"
    "|grams?|gr)(?![a-z])(?: ?(?P<oz>[0-9]{1,2}) ?(?:oz|ounces?))?"
)
_TOTAL = re.compile(r"\b(?:total|altogether|together|in all|combined|all in)\b")
_ON = re.compile(
    r"\b(?:(?:been |it's |its |meat(?:'s| is| went)? |went |put (?:it|them) |(?:it|they)(?:'s"
    "| is| are| went)? )*on(?: (?:the )?(?:smoker|grill|pit|fire))?(?: since| at| from)?"
    r"|started(?: it| cooking| at)?|since|cooking since|smoking since|in since|seit)\s*$"
)
_ON_FOR = re.compile(
    r"\b(?:on for|been on|been going|going for|cooking for|in for|smoking for|(?:it's "
    r"|its )?been)\s*(?:about |around |like )?$"
)
_HOURS_IN = re.compile(r"^\s*(?:in|already|so far|now|on)\b")
_CORE_AFTER = re.compile(
    r"^\s*(?:°? ?[cf]\b)?\s*(?:now|right now|currently|internal|inside|core|in the meat"
    r"|at the moment|already|so far)\b"
)
_CORE_BEFORE = re.compile(
    r"\b(?:now|currently|reads?|reading|it's at|its at|sitting at|is at|at|internal|core|meat)"
    r"(?: (?:is|at|now))*\s*$"
)
_PIT_BEFORE = phrases(
    (
        r"\b(?:pit|smoker|cooker|grill|hot|temp|temperature|run(?:s|ning)?|cook(?:ing)? (?:at"
        "|it at)|smok(?:e|ing) (?:at|it at)|oven|heat)(?: (?:at|is|to|around|about|it|the|temp"
        r"|runs?|running|set))*\s*[@:=]?\s*$"
    ),
    r"@\s*$",
)
_DINNER_WORDS = re.compile(
    r"\b(?:dinner|supper|lunch|eat(?:ing)?|serv(?:e|ing|ed)|meal|table|guests?|people|ready"
    r"|for|by|at|food|we|want|around|about|on|from|is|the|party|bbq)\b"
)
_FILLER = word_set(
    "a an the of and with for at on in to by is it its it's we i i'm im i've we're we'll i'll are be have "
    "has got my our some this that going gonna doing cooking cook smoking smoke making make want would "
    "like about around dinner lunch supper eat eating serve serving served ready meal people guests pit "
    "smoker grill cooker temp temperature degrees deg hot heat each total since now been started whole "
    "big small large nice one two kg lb lbs today tomorrow tonight please pls hi hey hello um so ok okay "
    "just maybe will do let's lets when time party bbq run running runs set f c x weighing weighs weight "
    "mass bone boneless bone-in trimmed untrimmed raw fresh all altogether together or as done tender fat "
    "paper foil boat wrap wrapped wrapping naked bare no in-bone pieces piece rack racks slab slabs"
)


def set_up(heard: str, text: str, context: Context) -> tuple[Intent, ...]:
    """Return what a tidied text says of the cook to come: a draft, questions about parts of it, or nothing."""
    said: dict[str, Any] = {}
    rest = _cut(heard, context, said)
    rest = _mass_and_count(rest, context, said)
    problems: list[Intent] = []
    if "mass_kg" in said and not MASS_KG[0] <= said["mass_kg"] <= MASS_KG[1]:
        problems.append(Unclear(question="impossible", text=text, values=(said.pop("mass_kg"),)))
    rest = _on(rest, context, said)
    rest = _temperatures(rest, text, context, said, problems)
    rest = _serving(rest, context, said)
    if context.setup_slot == "wrap" or said:
        _wrap(heard, said)
    _unknown_cut(rest, context, said)
    draft = Draft(**said)
    return ((draft,) if draft != Draft() else ()) + tuple(problems)


def _cut(heard: str, context: Context, said: dict[str, Any]) -> str:
    named = find_cut(heard, context.cuts)
    if named is None:
        return heard
    said["cut"] = named.cut.id
    before = heard[: named.start]
    count = re.search(
        (
            rf"(?<![0-9.,-])\b(?P<n>[0-9]{{1,2}}|{_COUNT_WORDS}) ?x? ?(?:(?:whole|big|small|nice|large"
            rf"|full|{_PIECES})(?: of)? ?)*$"
        ),
        before,
    )
    start = named.start
    if count and not re.search(r"\b(?:at|by|pit)\s*$", before[: count.start()]):
        said["count"] = _number(count["n"])
        start = count.start()
    return cut_out(heard, [(start, named.end)])


def _number(word: str) -> int:
    return NUMBER_WORDS.get(word) or min(MOST_PIECES, max(1, int(word)))


def _mass_and_count(rest: str, context: Context, said: dict[str, Any]) -> str:
    spans: list[tuple[int, int]] = []
    if mass := _MASS.search(rest):
        low = float(mass["low"].replace(",", "."))
        high = float(mass["high"].replace(",", ".")) if mass["high"] else low
        value = (low + high) / 2.0
        unit = mass["unit"]
        in_kg = (
            value
            if unit[0] == "k"
            else value / 1000.0
            if unit[0] == "g"
            else kg_from_lb(value + float(mass["oz"] or 0) / 16.0)
        )
        said["mass_kg"] = in_kg
        spans.append(mass.span())
    rest = cut_out(rest, spans)
    spans = []
    if count := _COUNT.search(rest):
        said.setdefault("count", _number(count["n"] or count["n2"] or count["n3"]))
        spans.append(count.span())
    if "mass_kg" in said and said.get("count") and _TOTAL.search(rest):
        said["mass_kg"] /= said["count"]
    if (
        context.setup_slot == "mass"
        and "mass_kg" not in said
        and (alone := re.fullmatch(r"\W*(?:about |around |~ ?)?([0-9]{1,2}(?:[.,][0-9]{1,2})?)\W*", rest))
    ):
        value = float(alone[1].replace(",", "."))
        pounds = context.unit == "F" if context.unit else value > KG_UP_TO
        said["mass_kg"] = kg_from_lb(value) if pounds else value
        return ""
    if (
        context.setup_slot == "count"
        and "count" not in said
        and (alone := re.fullmatch(rf"\W*([0-9]{{1,2}}|{_COUNT_WORDS})\W*", rest))
    ):
        said["count"] = _number(alone[1])
        return ""
    return cut_out(rest, spans)


def _on(rest: str, context: Context, said: dict[str, Any]) -> str:
    for when in times.find(rest):
        before, after = rest[: when.start], rest[when.end :]
        lead = rest[when.start : when.end]
        if (
            when.kind is times.Kind.CLOCK
            and (_ON.search(before) or re.match(r"(?:since|seit)\b", lead))
            and not when.compact
        ):
            on = re.search(
                r"(?:\b(?:been|it's|its|went|put it|put them|started)\s+)*\b(?:on|started)?\s*(?:since|at)?\s*$", before
            )
            said["on_at"] = times.past(when, context.now, context.zone)
            return cut_out(rest, [(on.start() if on else when.start, when.end)])
        if when.kind is times.Kind.AGO and not re.search(r"\beat", before):
            said["on_at"] = times.past(when, context.now, context.zone)
            return cut_out(rest, [(when.start, when.end)])
        if when.kind is times.Kind.SPAN and (_ON_FOR.search(before) or _HOURS_IN.match(after)):
            said["on_at"] = times.past(when, context.now, context.zone)
            return cut_out(rest, [(when.start, when.end)])
    return rest


def _temperatures(rest: str, text: str, context: Context, said: dict[str, Any], problems: list[Intent]) -> str:
    """Take the core and the pit out of what is left: the pit is what is called so, or the only figure that can be."""
    whens = [(w.start, w.end) for w in times.find(rest) if not (w.compact or (w.plain and context.setup_slot == "pit"))]
    blocked = whens if context.setup_slot != "pit" else []
    masked = cut_out(rest, blocked)
    taken: list[tuple[int, int]] = []
    for figure in figures(masked):
        before, after = masked[: figure.start], masked[figure.end :]
        is_pit = figure.slot is Slot.PIT or bool(_PIT_BEFORE.search(before))
        is_core = not is_pit and (
            figure.slot is Slot.CORE
            or bool(_CORE_AFTER.match(after))
            or bool(_CORE_BEFORE.search(before) and "on_at" in said)
        )
        from_middle = "on_at" in said and not is_pit and not figure.unit and "core_c" not in said
        is_core = is_core or (from_middle and _likely_core(figure, context, said))
        if is_core and "core_c" not in said and (core_c := _core(figure, context, said)) is not None:
            said["core_c"] = core_c
            taken.append((figure.start, figure.end))
        elif "pit_low_c" not in said and _may_be_pit(figure, context, named=is_pit, more_said=bool(said)):
            moved = band(dataclasses.replace(figure, approx=False), text, context)
            if isinstance(moved, MovePit):
                said["pit_low_c"], said["pit_high_c"] = moved.pit_low_c, moved.pit_high_c
            else:
                problems.append(_as_draft(moved))
            taken.append((figure.start, figure.end))
    return cut_out(rest, taken)


def _may_be_pit(figure: Figure, context: Context, *, named: bool, more_said: bool) -> bool:
    if named or context.setup_slot == "pit" or figure.unit:
        return True
    if context.setup_slot == "serving" and figure.value >= HHMM_FROM:
        return False
    if context.setup_slot is None and not more_said:
        return figure.value >= LONE_PIT_FIGURE
    return figure.value >= LOWEST_PIT_FIGURE


def _as_draft(question: Unclear) -> Unclear:
    options = tuple(
        (label, Draft(pit_low_c=moved.pit_low_c, pit_high_c=moved.pit_high_c))
        for label, moved in question.options
        if isinstance(moved, MovePit)
    )
    return question.model_copy(update={"options": options})


def _core(figure: Figure, context: Context, said: dict[str, Any]) -> float | None:
    units = (figure.unit,) if figure.unit else (context.unit, *(unit for unit in ("F", "C") if unit != context.unit))
    known = context if "on_at" not in said else _with_meat_on(context, said)
    fits = [value for unit in units if unit and can_be(value := in_c(figure, unit, Slot.CORE))]
    better = [value for value in fits if likely(value, known)]
    best = (better or fits)[:1] if not context.unit else fits[:1]
    return best[0].value_c if best else None


def _likely_core(figure: Figure, context: Context, said: dict[str, Any]) -> bool:
    known = _with_meat_on(context, said)
    units = (context.unit,) if context.unit else ("F", "C")
    values = [in_c(figure, unit, Slot.CORE) for unit in units]
    return any(can_be(value) and likely(value, known) for value in values)


def _with_meat_on(context: Context, said: dict[str, Any]) -> Context:
    return dataclasses.replace(context, meat_on_at=said["on_at"])


def _serving(rest: str, context: Context, said: dict[str, Any]) -> str:
    wanted = context.setup_slot == "serving" or bool(_DINNER_WORDS.search(rest))
    found: Said | None = serving_said(rest, context, bare_hours=wanted)
    if found is None:
        return rest
    said["serving"] = found.serving
    return cut_out(rest, list(found.spans))


def _wrap(heard: str, said: dict[str, Any]) -> None:
    words = wrap_words(heard)
    if words is not None and words.wrap is not None and not words.not_yet:
        said["wrap"] = words.wrap


def _unknown_cut(rest: str, context: Context, said: dict[str, Any]) -> None:
    """Keep the words that stand where a cut is expected, when none of the catalogue's is among them."""
    if "cut" in said:
        return
    words = [word for word in re.findall(r"[a-z][a-z'-]*", rest) if word not in _FILLER and len(word) > 1]
    wanted = context.setup_slot == "cut"
    food = any(word in FOODS for word in words)
    if words and (wanted or food or _stands_first(words[0], rest, said)) and context.setup_slot in (None, "cut"):
        said["unknown_cut"] = " ".join(words[:4])


def _stands_first(word: str, rest: str, said: dict[str, Any]) -> bool:
    """Return True when other things were said of a cook and this word stands before them all, where a cut would."""
    return bool(said) and "|" not in rest[: rest.find(word)]
