"""Puts a reply together from its clauses, its times and its figures, as one tuple of intents.

Words for people are not made here, and nothing is judged that needs the log.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
import re
from typing import TypeGuard

from bot.commands import Done, FeelSaid, Intent, MoveDinner, Note, NotYet, PutOffFor, Report, Trouble, Unclear, WrapSaid
from bot.conversation.context import Context
from bot.conversation.parsing import prompts, steps, times
from bot.conversation.parsing.answers import BUSY_MIN, LATER_MIN, Answer, answer, only_no
from bot.conversation.parsing.clause import Clause, read_clause
from bot.conversation.parsing.earlier import without_earlier
from bot.conversation.parsing.meat import spot_behind
from bot.conversation.parsing.numbers import Figure, figures
from bot.conversation.parsing.pieces import names_the_meat
from bot.conversation.parsing.readings import asked, near_pit, of_the_meat
from bot.conversation.parsing.relative import relative
from bot.conversation.parsing.reports import report
from bot.conversation.parsing.serving import day_ahead, serving_said
from bot.conversation.parsing.strangers import strangers
from bot.conversation.parsing.troubles import trouble
from bot.conversation.parsing.typos import rejoin, suspect
from bot.conversation.parsing.words import bare, clauses, cut_out, tidy, word_set
from scheduler.facts import Feel, Slot

_BESIDE_A_TIME = word_set(
    "at it it's its was that that's since about around roughly just exactly yes yeah yep ya ok okay done did we i then "
    "the on off already from by say like started went ago in min mins minutes hour hours um a "
    "like sry sorry lol thx thanks pls please mate ish bout approx circa ca just more or less think this morning"
    " tonight last night today "
    "yesterday bout forgot oh ooh ups must have been probably to say tell mention log you report sooner earlier"
)
"""Words that may stand beside a time that answers a question; any other makes it talk ("back at 6")."""
AFTER_THE_MEAT_IS_ON = steps.TIMED_STEPS - {"dry_brine", "light", "meat_on"}
"""Steps at which three figures by themselves are a temperature, not a time."""
_TODAY = dt.timedelta(hours=12)
FAR_AHEAD_MIN = 180.0
"""A clock time this far ahead is not when somebody wants to be asked for a number again [min]."""
_TAKEN = word_set("took take taken read checked looked measured it that was is at the one on had got i we did probed")
"""Words that only say that a number was read, beside the time when it was."""
_MOST_FIGURES = 999.0
"""Two numbers of which one has more figures than a temperature are a telephone, or a score."""
_SWINGS = re.compile(
    r"^(?:it|meat|core|probe|number|reading)(?:'s| is| keeps?)? (?:bounc(?:es|ing)|jump(?:s|ing)(?: around)?"
    r"|swing(?:s|ing)"
    r"|flick(?:ers?|ering)|hover(?:s|ing)) (?:around )?(?:between|from) [0-9]"
)
_PLEASE = re.compile(r"\b(?:please|pls|plz)\b")
"""Beside a bare span this asks for so much time."""
_A_DEED = 2
"""Beside so many deeds a clause of so many words that was not taken is named as a note."""
_LIT_WITHIN = dt.timedelta(hours=12)
"""Before the meat is on nothing was read earlier than this: the fire was lit for it."""
_PROBE_BEFORE = re.compile(
    r"\b(?:pit|smoker|grill|meat|core|internal|temp|temperature|sitting|steady|holding|reads?|reading|stuck|stalled)$"
    r"|^(?:(?:the|my|our) )?(?:fridge|leftovers)(?:'s| is| are)?$"
)


def replies(heard: str, text: str, context: Context) -> tuple[Intent, ...]:
    """Return the intents of a reply, readings first; nothing when it was not understood."""
    if only_no(heard):
        return (prompts.refused(text, context),)
    if (told := relative(heard, context)) is not None:
        return (told,)
    whens = tuple(
        when for when in times.find(heard) if not _is_figure(when, heard, context) and not _counts(when, heard)
    )
    masked = cut_out(heard, [(when.start, when.end) for when in whens])
    problem = None if _swings_of_the_meat(heard, context) else trouble(heard, text, context)
    said = [] if problem else _read_clauses(masked, whens, text, context)
    slot = problem[1] if problem else Slot.CORE if any(_tells_of_the_meat(item) for item in said) else None
    numbers = _numbers(without_earlier(masked), text, context, whens, slot, alone=not said and problem is None)
    if problem:
        reports = tuple(item for item in numbers if isinstance(item, Report))
        return (problem[0], *reports, *_deeds_beside(heard, masked, whens, text, context))
    if numbers:
        return _with_numbers(numbers, said)
    return tuple(said) or _only_time(whens, masked, text, context)


def _swings_of_the_meat(heard: str, context: Context) -> bool:
    """Return whether "it's bouncing between 77 and 79" answers a question about the meat alone: a range, no pit."""
    found = _SWINGS.match(heard)
    return found is not None and asked(context) == (Slot.CORE,)


def _read_clauses(masked: str, whens: tuple[times.When, ...], text: str, context: Context) -> list[Intent]:
    if answer(masked.replace("|", " ")) is Answer.EVERY:
        return read_clause(Clause(words=masked, when=whens[0] if whens else None, text=text), context)
    said: list[Intent] = []
    named: set[str] = set()
    untaken: list[Intent] = []
    for start, end in clauses(masked):
        inside = [when for when in whens if start <= when.start < end] or _alone_beside(whens, masked, context)
        clause = Clause(words=masked[start:end].strip(), when=inside[0] if inside else None, text=text)
        here = read_clause(clause, context)
        said.extend(here)
        if not here and len(re.findall(r"[a-z]{3,}", clause.words)) >= _A_DEED and not inside:
            untaken.append(Note(text=clause.words.strip(" |,.")))
        named.update(steps.mentioned(clause.words, context.stage))
        if answer(clause.words.replace("|", " ")) not in (Answer.DONE, Answer.NOD):
            named.update(item.step for item in here if isinstance(item, Done) and item.step is not None)
    said = _with_span(said, masked, whens)
    if any(isinstance(item, PutOffFor) and item.minutes in {when.minutes for when in whens} for item in said):
        said = [item for item in said if not isinstance(item, NotYet)]  # "not yet, in 20 min"
    found = _deduplicated(_with_spots_behind(said, masked, whens), named)
    several = sum(isinstance(one, Done) and one.step is not None for one in found) >= _A_DEED
    return [*found, *untaken] if several and not figures(masked) else found


def _alone_beside(whens: tuple[times.When, ...], masked: str, context: Context) -> list[times.When]:
    """Return the one time of a text that stands in a clause of its own behind a deed: "did it, 20 min ago"."""
    if len(whens) != 1 or whens[0].until or whens[0].kind not in (times.Kind.AGO, times.Kind.CLOCK):
        return []
    own = next((masked[a:b] for a, b in clauses(masked) if a <= whens[0].start < b), "")
    return list(whens) if _only_of_time(own) and not steps.mentioned(own.strip(), context.stage) else []


def _with_spots_behind(said: list[Intent], masked: str, whens: tuple[times.When, ...]) -> list[Intent]:
    """Return a feel as almost where another clause says that a spot is not ("butter, thick end not yet")."""
    if not any(isinstance(one, FeelSaid) and one.feel in (Feel.TENDER, Feel.ALMOST) for one in said):
        return said
    told = {one.spot for one in said if isinstance(one, FeelSaid)}
    waits = [when.start for when in whens if when.kind is times.Kind.AHEAD]
    spots = (
        spot_behind(masked[start:end], waits=any(start <= at < end for at in waits)) for start, end in clauses(masked)
    )
    behind = [spot for spot in spots if spot is not None and spot not in told]
    if not behind:
        return said
    tender = FeelSaid(feel=Feel.TENDER)
    almost = [FeelSaid(feel=Feel.ALMOST) if one == tender else one for one in said]
    return [*almost, *(FeelSaid(feel=Feel.TIGHT, spot=spot) for spot in behind)]


def _with_span(said: list[Intent], masked: str, whens: tuple[times.When, ...]) -> list[Intent]:
    """Return what was said with the minutes that stand alone beside "not yet": "not quite, 20 min" waits for 20."""
    alone = [
        when
        for start, end in clauses(masked)
        for when in whens
        if when.kind is times.Kind.SPAN and start <= when.start < end and not bare(masked[start:end].replace("|", " "))
    ]
    if len(alone) != 1 or any(isinstance(item, PutOffFor) for item in said):
        return said
    return [
        PutOffFor(minutes=alone[0].minutes, step=item.step, piece=item.piece) if isinstance(item, NotYet) else item
        for item in said
    ]


def _deeds_beside(
    heard: str, masked: str, whens: tuple[times.When, ...], text: str, context: Context
) -> tuple[Intent, ...]:
    """Return the deeds that other clauses tell beside an open lid ("spritzed, lid was open 8 min")."""
    problem = trouble(heard, text, context)
    if problem is None or not isinstance(problem[0], Trouble) or problem[0].what != "lid_open":
        return ()
    others = [(start, end) for start, end in clauses(heard) if trouble(heard[start:end], text, context) is None]
    kept = cut_out(masked, [span for span in clauses(heard) if span not in others])
    return tuple(
        item for item in _read_clauses(kept, whens, text, context) if isinstance(item, Done) and item.step is not None
    )


def _deduplicated(said: list[Intent], named: set[str]) -> list[Intent]:
    """Drop repeats, and short answers that only echo a fuller one ("hecho, puse foil"); steps `named` stay."""
    unique = list(dict.fromkeys(said))
    if any(isinstance(item, WrapSaid) and item.wrap is not None for item in unique):
        unique = [item for item in unique if not (isinstance(item, WrapSaid) and item.wrap is None)]
    closed = {item.step for item in unique if isinstance(item, Done)}
    if any(isinstance(item, PutOffFor) and not _is_busy(item) for item in unique):
        unique = [item for item in unique if not isinstance(item, NotYet)]  # "not yet, at ten"
    unique = [item for item in unique if not (_is_busy(item) and item.step in closed)]
    full = [item for item in unique if _is_full(item) or (isinstance(item, Done) and item.step in named)]
    if any(_is_full(item) for item in unique):
        return [item for item in unique if item in full or not isinstance(item, Done | NotYet | Unclear)]
    return unique


def _is_busy(item: Intent) -> TypeGuard[PutOffFor]:
    """Return True for a put-off that nobody set a time for: "asleep, did it now" is done."""
    return isinstance(item, PutOffFor) and item.minutes in (BUSY_MIN, LATER_MIN)


def _tells_of_the_meat(item: Intent) -> bool:
    """Return True for a pull, a wrap or a feel: a figure beside it is the meat."""
    return isinstance(item, WrapSaid | FeelSaid) or (isinstance(item, Done) and item.step in ("pull", "box_meat"))


def _is_full(item: Intent) -> bool:
    return isinstance(item, WrapSaid | FeelSaid) or (isinstance(item, Done) and item.outcome is not None)


def _with_numbers(numbers: tuple[Intent, ...], said: list[Intent]) -> tuple[Intent, ...]:
    """Join figures and words: a figure answers better than "done", and words better than a figure nothing can have."""
    words = [
        item
        for item in said
        if not isinstance(item, Unclear)
        and not (_is_busy(item) and isinstance(numbers[0], Report))
        and not (isinstance(item, Done | NotYet) and (item.step is None or item.step in steps.READING_STEPS))
    ]
    first = numbers[0]
    if any(isinstance(item, Done) and item.outcome and re.search("[0-9]", item.outcome) for item in words):
        return tuple(words)  # "slip 30": the figure belongs to the choice
    if said and isinstance(first, Unclear) and first.question == "impossible":
        return tuple(words or said)
    return (*numbers, *words)


# --- figures ------------------------------------------------------------------------------------------------------
def _counts(when: times.When, heard: str) -> bool:
    """Return whether "in 2" goes on as a count ("in 2 of 3")."""
    return re.match(r" ?(?:out )?of (?:the |my )?[0-9a-z]", heard[when.end :]) is not None


def _is_figure(when: times.When, heard: str, context: Context) -> bool:
    """Return True when "at 205" or "pit at 20" is a reading: three figures a probe can show, or a probe before it."""
    if not (when.compact or when.plain):
        return False
    before = heard[: when.start].rstrip()
    if _PROBE_BEFORE.search(before):
        return True
    if when.plain:
        return False
    digits = re.sub(r"[^0-9]", "", heard[when.start : when.end])
    first = report((Figure(value=float(digits), start=when.start, end=when.end),), context, heard, None)[0]
    if isinstance(first, Unclear) and (first.question == "impossible" or (context.open_steps and not asked(context))):
        return False
    goes_on = bool(re.search(r"\bon$", before)) or any(step.step == "meat_on" for step in context.open_steps)
    values = first.values if isinstance(first, Report) else ()
    return not goes_on or any(context.pit_target_c is not None and near_pit(value.value_c, context) for value in values)


def _numbers(
    masked: str,
    text: str,
    context: Context,
    whens: tuple[times.When, ...],
    slot: Slot | None,
    *,
    alone: bool,
) -> tuple[Intent, ...]:
    """Return the report that the figures left over make, or the question about them."""
    found = rejoin(figures(masked), masked, context)
    if slot is Slot.PIT or (slot and len(found) == 1):
        found = tuple(figure if figure.slot else dataclasses.replace(figure, slot=slot) for figure in found)
    if not found:
        return ()
    if (
        alone
        and len(found) == 1
        and not asked(context)
        and (hour := _plain_hour(found[0], masked, context)) is not None
    ):
        return (hour,)
    if len(found) > 1 and any(figure.value > _MOST_FIGURES for figure in found):
        return ()
    if alone and (question := suspect(found, context, text)) is not None:
        return (question,)
    if alone and strangers(masked, found, context):
        return ()
    found = _of_the_named(found, masked, context)
    past = _time_of(found[0], masked, whens)
    read_at = times.past(past, context.now, context.zone) if past else None
    begun_at = context.meat_on_at
    if past is not None and begun_at is None and context.stage == "fire":
        begun_at = context.now - _LIT_WITHIN
    if past is not None and read_at is not None and begun_at is not None and read_at < begun_at:
        to_come = times.to_come(past, context.now, context.zone)
        if to_come is not None:
            return (Unclear(question="not_come", text=text, values=(found[0].value, *to_come)),)
        return (Unclear(question="which_time", text=text),) if context.meat_on_at is not None else ()
    return report(found, context, text, read_at, masked)


def _of_the_named(found: tuple[Figure, ...], masked: str, context: Context) -> tuple[Figure, ...]:
    """Return the figures with one that stands beside the name of a piece on the fire, or off it, as its core."""
    free = [figure for figure in found if figure.slot is None]
    cores = any(figure.slot is Slot.CORE for figure in found)
    there = context.stage in ("cooking", "resting", "serving") and not context.chilling
    if len(free) != 1 or cores or not there or not names_the_meat(masked, context):
        return found
    return tuple(of_the_meat(figure, context) if figure is free[0] else figure for figure in found)


def _time_of(figure: Figure, masked: str, whens: tuple[times.When, ...]) -> times.When | None:
    """Return the past time that dates a figure: one in its own clause, or one that stands by itself."""
    for start, end in clauses(masked):
        inside = [w for w in whens if start <= w.start < end and w.kind in (times.Kind.CLOCK, times.Kind.AGO)]
        alone = all(word in _TAKEN for word in bare(masked[start:end].replace("|", " ")).split())
        if inside and (start <= figure.start < end or alone):
            return inside[0]
    return None


def _plain_hour(figure: Figure, heard: str, context: Context) -> Done | None:
    """Return the time that a bare "11" or "1415" is when the open question is about a time; "2.45" and "1415" are
    one wherever no number is asked for.
    """
    step = prompts.question(context)
    if figure.slot is not None or figure.unit:
        return None
    if step is None:
        return _clock_alone(heard[figure.start : figure.end].strip(), context) if figure.value.is_integer() else None
    clock = re.fullmatch(r"(?:[0-9]{4}|[0-9]{1,2}[.][0-9]{2})", heard.strip(" .!"))
    if step.slots or (not clock and (step.step not in steps.TIMED_STEPS or not figure.value.is_integer())):
        return None
    found = times.find(f"at {clock.group() if clock else int(figure.value)}")
    if not found or (found[0].compact and step.step in AFTER_THE_MEAT_IS_ON):
        return None
    return Done(step=step.step, at=times.deed(found[0], context.now, context.zone))


def _clock_alone(typed: str, context: Context) -> Done | None:
    """Return the time that "0340" is, where nothing is open and no probe shows such a figure."""
    if not re.fullmatch(r"0[0-9]{3}", typed) or context.stage not in steps.BEFORE_THE_PULL:
        return None
    found = times.find(f"at {typed}")
    return Done(at=times.deed(found[0], context.now, context.zone)) if found else None


# --- a time by itself ---------------------------------------------------------------------------------------------
def _only_time(whens: tuple[times.When, ...], masked: str, text: str, context: Context) -> tuple[Intent, ...]:
    """Return what a time by itself says of the open question; one on a day to come is no deed: is it the dinner?"""
    step = prompts.question(context)
    if (ahead := day_ahead(masked, context)) is not None:
        rest = bare(cut_out(masked, [ahead]).replace("|", " "))
        said = serving_said(tidy(text), context) if len(whens) == 1 and not rest else None
        meanings = (("yes", MoveDinner(serving=said.serving)), ("no", Note(text=text))) if said else ()
        return (Unclear(question="is_dinner", text=text, options=meanings),) if meanings else ()
    if len(whens) != 1 or whens[0].until or not _only_of_time(masked):
        return ()
    when, meant = whens[0], None if step is None else step.step
    if step is None and context.stage not in steps.BEFORE_THE_PULL:
        return ()
    if when.kind is times.Kind.SPAN and step is not None and _PLEASE.search(masked):
        return (PutOffFor(minutes=when.minutes, step=meant),)
    if when.kind is times.Kind.SPAN:
        ago = context.now - dt.timedelta(minutes=when.minutes)
        options: tuple[tuple[str, Intent], ...] = (
            ("was", Done(step=meant, at=ago)),
            ("in", PutOffFor(minutes=when.minutes, step=meant)),
        )
        return (Unclear(question="was_or_in", text=text, values=(when.minutes,), options=options),)
    if meant not in steps.READING_STEPS and times.to_come(when, context.now, context.zone) is not None:
        wait = times.future(when, context.now, context.zone) - context.now
        return (PutOffFor(minutes=wait / dt.timedelta(minutes=1), step=meant),) if wait < _TODAY else ()
    if meant in steps.READING_STEPS and _is_behind(when, meant, context):
        rests = context.stage == "resting" and meant == "hold_check"
        at = times.deed(when, context.now, context.zone)
        return (Done(step="box_meat", at=at) if rests else Note(text=text),)
    if meant in steps.READING_STEPS:
        minutes = (times.future(when, context.now, context.zone) - context.now) / dt.timedelta(minutes=1)
        return (PutOffFor(minutes=minutes, step=meant),) if minutes <= FAR_AHEAD_MIN else ()
    return (Done(step=meant, at=times.deed(when, context.now, context.zone)),)


def _is_behind(when: times.When, step: str | None, context: Context) -> bool:
    """Return whether a time beside a question for a number tells of what was: so long ago, or since when it rests."""
    if when.kind is times.Kind.AGO:
        return True
    if when.kind is not times.Kind.CLOCK or step != "hold_check":
        return False
    ahead = times.future(when, context.now, context.zone) - context.now
    return ahead > dt.timedelta(minutes=FAR_AHEAD_MIN)


def _only_of_time(masked: str) -> bool:
    """Return whether the words beside a time say nothing else: "back at 6" is talk, "it was at 6" an answer."""
    return all(word in _BESIDE_A_TIME for word in bare(masked.replace("|", " ")).split())
