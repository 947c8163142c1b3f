"""Reads what is said of a cook that is being set up, from one sentence or one answer, into a draft.

It fills in nothing that was not said; what is missing, `bot.conversation.flows.setup` asks for.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
import re
from typing import Any
from zoneinfo import ZoneInfo

from bot.commands import AirSaid, Draft, Intent, MovePit, Unclear
from bot.conversation.context import Context
from bot.conversation.parsing import setup_words as said_as
from bot.conversation.parsing import times
from bot.conversation.parsing.air import air_words
from bot.conversation.parsing.amounts import COUNT_WORDS, MOST_PIECES, amounts, in_figures, pieces
from bot.conversation.parsing.cut_names import find_cuts
from bot.conversation.parsing.guests import guests
from bot.conversation.parsing.meat import wrap_words
from bot.conversation.parsing.moves import band
from bot.conversation.parsing.numbers import Figure, figures
from bot.conversation.parsing.others import count_before, other_food, take_others
from bot.conversation.parsing.readings import can_be, in_c, likely
from bot.conversation.parsing.serving import Said, days_in, impossible, of_pieces, serving_said, which_day
from bot.conversation.parsing.setup_told import Telling
from bot.conversation.parsing.time_words import NUMBER_WORDS
from bot.conversation.parsing.told_of_care import take_care, take_meat, treated_how
from bot.conversation.parsing.treated import like_treated
from bot.conversation.parsing.wishes import wishes_in
from bot.conversation.parsing.words import clauses, cut_out
from scheduler.cut_names import FOODS
from scheduler.cuts import Cut
from scheduler.facts import Slot
from scheduler.units import kg_from_lb

_FIGURE = re.compile(r"(?<![a-z0-9])(?:(?:at|by|from) )?[0-9][0-9.,:/-]*(?: ?[a-z]+)?")
HHMM_FROM = 1000
"""Four figures are a clock time where a time was asked for."""
LOWEST_PIT_FIGURE = 80
"""Lower figures without a word are hours, masses or counts."""
LONE_PIT_FIGURE = 200
"""Lower figures that are all of a text, unasked, are not taken for a pit."""
KG_UP_TO = 9.0
"""A mass without a unit is in kilograms up to here while the chat has no unit, else in pounds."""
SMALL_KG = 0.7
"""Pieces up to here are bought by the kilogram: sausages, thighs, cheeks (common practice, no source)."""
MUCH_MORE = 1.5
"""A mass this many times the heaviest piece is that of all together."""
LONGEST_UNSAID = dt.timedelta(hours=16)
"""A cook that is on since "18:00" of a day not said began at most so long ago, or it is asked (common practice)."""

_FROZEN = re.compile(
    r"\b(?:it is |it's |still )?(?:deep[- ])?frozen(?: solid)?\b|\b(?:straight )?(?:from|out of|in) the freezer\b"
)
_NOT_FROZEN = re.compile(r"\b(?:not|isn't|never|no longer) (?:deep[- ])?frozen\b|\b(?:already )?(?:thawed|defrosted)\b")


def set_up(heard: str, text: str, context: Context) -> tuple[Intent, ...]:
    """Return what a tidied text says of the cook to come: a draft, questions about parts of it, or nothing."""
    told = tell(heard, text, context)
    problems = told.problems
    if told.said:
        told.ignored += told.no_pits
        problems = [problem for problem in problems if problem.options]
    if "cut" in told.said and "treated" not in told.said and "more" not in told.said and like_treated(heard):
        problems = [*problems, treated_how(text)]
    days = [told.said.pop("serving"), told.other_day] if told.other_day is not None else []
    draft = Draft(**told.said, ignored=tuple(dict.fromkeys(told.ignored)))
    if days:
        problems = [*problems, which_day(text, tuple(days), lambda serving: Draft(serving=serving))]
    if told.doubtful_on:
        without = draft.model_copy(update={"on_at": None, "core_c": None})
        options: tuple[tuple[str, Intent], ...] = (("yesterday", draft), ("today", without))
        return (Unclear(question="which_time", text=text, options=options),)
    return ((draft,) if draft != Draft() else ()) + tuple(problems)


def tell(heard: str, text: str, context: Context) -> Telling:
    """Return all that a tidied text tells of a cook, and what is left of it."""
    air = air_words(heard, context.unit)
    told = Telling(rest=in_figures(air.rest))
    if air.said:
        told.said["air"] = AirSaid(temp_c=air.temp_c, word=air.word, wind=air.wind)
    of_wishes, told.rest = wishes_in(told.rest)
    told.said |= of_wishes
    _guests(told)
    _frozen(told)
    take_care(told, context)
    take_others(told, text, context, tell)
    take_meat(told, context)
    cuts = _cut(told, context)
    _mass_and_count(told, context, cuts)
    _deeds(told)
    _on(told, context)
    dated = impossible(told.rest, context)
    for start, end in dated:
        told.ignore(start, end)
    _temperatures(told, text, context)
    if not dated:
        _serving(told, context)
        if "more" in told.said:
            told.said["more"] = of_pieces(told.said["more"], told.said.get("serving"), heard)
    if context.setup_slot == "wrap" or told.said:
        _wrap(heard, told.said)
    other_food(told)
    _unknown_cut(told.rest, context, told.said)
    if "cut" in told.said and context.setup_slot is None:
        _left_over(told, context)
    return told


def _guests(told: Telling) -> None:
    """Take who eats."""
    found = guests(told.rest)
    if found is not None:
        told.said["guests"] = found.intent
        told.rest = found.rest


def _frozen(told: Telling) -> None:
    """Take that the meat is frozen, or that it is not."""
    if (thawed := _NOT_FROZEN.search(told.rest)) is not None:
        told.said["frozen"] = False
        told.cut(thawed.span())
    elif (frozen := _FROZEN.search(told.rest)) is not None:
        told.said["frozen"] = True
        told.cut(frozen.span())


def _cut(told: Telling, context: Context) -> int:
    """Take the first cut with its count; return how many cuts were named. The others cannot be used yet."""
    found = find_cuts(told.rest, context.cuts)
    if not found:
        return 0
    told.said["cut"] = found[0].cut.id
    others = [named for named in found if named.cut.id != found[0].cut.id]
    for named in others:
        count = count_before(told.rest[: named.start])
        told.ignore(count.start() if count else named.start, named.end)
    for named in found:
        if named.cut.id == found[0].cut.id:
            start = named.start
            count = count_before(told.rest[:start])
            if count and not re.search(r"\b(?:at|by|pit)\s*$", told.rest[: count.start()]):
                told.said.setdefault("count", pieces(count["n"]))
                start = count.start()
            told.cut((start, named.end))
    return 1 + len(others)


def _of_all(told: Telling, cut: Cut, mass_kg: float) -> None:
    """Take the mass of small pieces as said of all of them: "3 kg of sausages" are 25 of the usual size."""
    if "count" in told.said or cut.mass_kg.high > SMALL_KG or mass_kg <= MUCH_MORE * cut.mass_kg.high:
        return
    count = max(1, min(MOST_PIECES, round(mass_kg / cut.mass_kg.typical)))
    told.said |= {"count": count, "mass_kg": mass_kg / count}


def _mass_and_count(told: Telling, context: Context, cuts: int) -> None:
    found = amounts(told.rest, count=told.said.get("count"), first_only=cuts > 1)
    told.rest = found.rest
    told.ignored += found.ignored
    if found.count is not None:
        told.said["count"] = found.count
    if found.mass_kg is not None:
        told.said["mass_kg"] = found.mass_kg
        if "cut" in told.said:
            _of_all(told, context.cuts.get(told.said["cut"]), found.mass_kg)
    alone = re.fullmatch(rf"\W*(?:about |around |~ ?)?([0-9]{{1,2}}(?:[.,][0-9]{{1,2}})?|{COUNT_WORDS})\W*", told.rest)
    if alone and context.setup_slot == "mass" and "mass_kg" not in told.said:
        value = float(NUMBER_WORDS[alone[1]] if alone[1] in NUMBER_WORDS else alone[1].replace(",", "."))
        pounds = context.unit == "F" if context.unit else value > KG_UP_TO
        told.said["mass_kg"] = kg_from_lb(value) if pounds else value
        told.rest = ""
    elif alone and context.setup_slot == "count" and "count" not in told.said and not re.search("[.,]", alone[1]):
        told.said["count"] = pieces(alone[1])
        told.rest = ""


def _deeds(told: Telling) -> None:
    """Take out what was done and when ("wrapped at 11", "pulled at 14:00"): it is no dinner and no pit."""
    for start, end in clauses(told.rest):
        clause = told.rest[start:end]
        deed = said_as.DEED.search(clause)
        if deed is None:
            continue
        told.off = told.off or bool(said_as.OFF.search(clause))
        stop = said_as.NOT_OF_THE_DEED.search(clause, deed.end())
        until = stop.start() if stop else len(clause)
        if re.search(r"[0-9]|yesterday|last night|this morning", clause[deed.start() : until]):
            told.ignore(start + deed.start(), start + until)


def _on(told: Telling, context: Context) -> None:
    """Take since when the meat is on; the day is yesterday when that is said, else it is the nearest past."""
    for when in times.find(told.rest):
        before, after = told.rest[: when.start], told.rest[when.end :]
        day_before, day_after = said_as.YESTERDAY_BEFORE.search(before), said_as.YESTERDAY_AFTER.match(after)
        stem = before[: day_before.start()] if day_before else before
        lead = told.rest[when.start : when.end]
        since = said_as.ON.search(stem) or (re.match(r"(?:since|seit)\b", lead) and not when.compact)
        if when.kind is times.Kind.CLOCK and since and not when.compact:
            on = said_as.ON_WORDS.search(stem)
            end = when.end + (day_after.end() if day_after else 0)
            told.said["on_at"] = _went_on(when, told, context, yesterday=bool(day_before or day_after))
            told.cut((on.start() if on else when.start, end))
            return
        if (when.kind is times.Kind.AGO and not re.search(r"\beat", before)) or (
            when.kind is times.Kind.SPAN and (said_as.ON_FOR.search(before) or said_as.HOURS_IN.match(after))
        ):
            told.said["on_at"] = times.past(when, context.now, context.zone)
            told.cut((when.start, when.end))
            return


def _went_on(when: times.When, told: Telling, context: Context, *, yesterday: bool) -> dt.datetime:
    if yesterday:
        place = ZoneInfo(context.zone)
        day = context.now.astimezone(place).date() - dt.timedelta(days=1)
        return times.walls(when, day)[-1].replace(tzinfo=place).astimezone(dt.UTC)
    on_at = times.past(when, context.now, context.zone)
    told.doubtful_on = context.now - on_at > LONGEST_UNSAID and not said_as.DAY_SAID.search(told.rest)
    return on_at


def _temperatures(told: Telling, text: str, context: Context) -> None:
    """Take the core and the pit out of what is left: the pit is what is called so, or the only figure that can be."""
    said = told.said
    masked = cut_out(told.rest, [*_clock_spans(told.rest, context), *days_in(told.rest, context)])
    found = figures(masked)
    lone = len([figure for figure in found if not called_pit(figure, masked)]) == 1
    taken: list[tuple[int, int]] = []
    for figure in found:
        span = (figure.start, figure.end)
        before, after = masked[: figure.start], masked[figure.end :]
        is_pit = called_pit(figure, masked)
        from_middle = "on_at" in said and not is_pit
        is_core = not is_pit and (
            figure.slot is Slot.CORE
            or bool(said_as.CORE_AFTER.match(after))
            or bool(from_middle and said_as.CORE_BEFORE.search(before))
            or bool(from_middle and _likely_core(figure, context, said, lone=lone))
        )
        if is_core and "core_c" not in said and (core_c := _core(figure, context, said)) is not None:
            said["core_c"] = core_c
            taken.append(span)
        elif told.off and not is_pit:
            told.ignore(*span)
        elif "pit_low_c" not in said and _may_be_pit(figure, context, named=is_pit, more_said=bool(said)):
            moved = band(dataclasses.replace(figure, approx=False), text, context)
            if isinstance(moved, MovePit):
                said["pit_low_c"], said["pit_high_c"] = moved.pit_low_c, moved.pit_high_c
            else:
                told.problems.append(_as_draft(moved))
                if not moved.options:
                    named = said_as.PIT_BEFORE.search(before)
                    told.no_pits.append(masked[named.start() if named else figure.start : figure.end].strip(" ,@"))
            taken.append(span)
    told.cut(*taken)


def called_pit(figure: Figure, masked: str) -> bool:
    """Return True when a figure is called the pit ("pit 250", "smoker at 120", "@ 250")."""
    return figure.slot is Slot.PIT or bool(said_as.PIT_BEFORE.search(masked[: figure.start]))


def _clock_spans(rest: str, context: Context) -> list[tuple[int, int]]:
    """Return the times among the figures; where the pit is asked only those that are plainly times ("1pm")."""
    whens = [when for when in times.find(rest) if not when.compact]
    if context.setup_slot == "pit":
        whens = [when for when in whens if said_as.PLAIN_TIME.search(rest[when.start : when.end])]
    return [(when.start, when.end) for when in whens]


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


def _likely_core(figure: Figure, context: Context, said: dict[str, Any], *, lone: bool) -> bool:
    """Return True when a figure beside "on since" is where the meat may be; a lone one need only be possible."""
    known = _with_meat_on(context, said)
    unit = figure.unit or context.unit
    values = [in_c(figure, one, Slot.CORE) for one in ((unit,) if unit else ("F", "C"))]
    return any(can_be(value) and (likely(value, known) or (lone and unit is not None)) for value in values)


def _with_meat_on(context: Context, said: dict[str, Any]) -> Context:
    return dataclasses.replace(context, meat_on_at=said["on_at"])


def _serving(told: Telling, context: Context) -> None:
    wanted = context.setup_slot == "serving" or bool(said_as.DINNER_WORDS.search(told.rest))
    found: Said | None = serving_said(told.rest, context, bare_hours=wanted)
    if found is not None:
        told.said["serving"], told.other_day = found.serving, found.other
        told.cut(*found.spans)


def _left_over(told: Telling, context: Context) -> None:
    """Name days and figures that nothing was made of, so that nobody takes them for understood."""
    for start, end in days_in(told.rest, context):
        told.ignore(start, end)
    for found in list(_FIGURE.finditer(told.rest)):
        told.ignore(*found.span())


def _wrap(heard: str, said: dict[str, Any]) -> None:
    words = wrap_words(heard)
    if words is not None and words.wrap is not None and not words.not_yet:
        said["wrap"] = words.wrap


def _unknown_cut(rest: str, context: Context, said: dict[str, Any]) -> None:
    """Keep the words that stand where a cut is expected, when none of the catalogue's is among them."""
    if "cut" in said:
        return
    words = [word for word in re.findall(r"[a-z][a-z'-]*", rest) if word not in said_as.FILLER and len(word) > 1]
    if words and context.setup_slot in (None, "cut") and (named := context.cuts.named(" ".join(words))) is not None:
        said["cut"] = named.id  # a saying ("dino ribs"), words run together, or in another order
        if (count := count_before(rest[: rest.find(words[0])])) is not None:
            said.setdefault("count", pieces(count["n"]))
        return
    wanted = context.setup_slot == "cut"
    food = any(word in FOODS for word in words)
    if words and (wanted or food or _stands_first(words[0], rest, said)) and context.setup_slot in (None, "cut"):
        said["unknown_cut"] = " ".join(words[:4])


def _stands_first(word: str, rest: str, said: dict[str, Any]) -> bool:
    """Return True when other things were said of a cook and this word stands before them all, where a cut would."""
    return bool(said) and "|" not in rest[: rest.find(word)]
