"""Reads a reply clause by clause: steps done, wraps, feels, times, numbers and short answers, in one tuple of intents.

Which prompt an answer belongs to is decided here; words for people are not made here.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
import re

from bot.conversation.context import Context, OpenStep
from bot.conversation.intents import (
    Done,
    FeelSaid,
    Intent,
    NotYet,
    PutOffFor,
    Skip,
    Unclear,
    WrapSaid,
)
from bot.conversation.parsing import steps, times
from bot.conversation.parsing.amends import trouble
from bot.conversation.parsing.answers import BUSY_MIN, LATER_MIN, Answer, answer
from bot.conversation.parsing.meat import feel_words, wrap_words
from bot.conversation.parsing.numbers import Figure, figures
from bot.conversation.parsing.readings import asked, report
from bot.conversation.parsing.typos import rejoin, suspect
from bot.conversation.parsing.words import bare, clauses, cut_out
from scheduler.facts import Slot, Wrap

SOON_MIN = 1.0
"""A time ahead that is nearer than this is now [min]."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Clause:
    """One clause: its words with times cut out, and the time it holds."""

    words: str
    when: times.When | None
    text: str
    """The whole text, as it was typed."""


def replies(heard: str, text: str, context: Context) -> tuple[Intent, ...]:
    """Return the intents of a reply, readings first; nothing when it was not understood."""
    whens = tuple(when for when in times.find(heard) if not _is_figure(when, heard, context))
    masked = cut_out(heard, [(when.start, when.end) for when in whens])
    problem = trouble(heard, text)
    said: list[Intent] = []
    for start, end in clauses(masked):
        inside = [when for when in whens if start <= when.start < end]
        said.extend(
            _clause(Clause(words=masked[start:end].strip(), when=inside[0] if inside else None, text=text), context)
        )
    numbers = _numbers(masked, text, context, whens, problem[1] if problem else None, alone=not said and not problem)
    if problem:
        return (problem[0], *numbers)
    said = _deduplicated(said)
    if numbers:
        said = [item for item in said if not isinstance(item, NotYet)] or []
        said = [item for item in said if not (isinstance(item, Done) and item.step in steps.READING_STEPS)]
        if all(isinstance(item, Unclear) for item in numbers) and said and numbers[0].question == "impossible":  # type: ignore[union-attr]
            return tuple(said)
        said = _without_echo(said, context)
        return (*numbers, *said)
    if said:
        return tuple(said)
    return _only_time(whens, masked, text, context) or _offered_outcome(masked, context)


def _is_figure(when: times.When, heard: str, context: Context) -> bool:
    """Return True for "off at 205" and "pit at 20": three figures that a reading can be, or a probe just before."""
    typed = heard[when.start : when.end]
    digits = re.sub(r"[^0-9]", "", typed)
    if not (when.compact or when.plain) or not digits:
        return False
    before = heard[: when.start].rstrip()
    if re.search(
        r"\b(?:pit|smoker|grill|meat|core|internal|temp|temperature|sitting|steady|holding|reads?|reading|stuck|stalled)$",
        before,
    ):
        return True
    if when.plain:
        return False
    figure = (Figure(value=float(digits), start=when.start, end=when.end),)
    found = report(figure, context, heard, None)
    on_the_fire = bool(re.search(r"\bon$", before)) or any(step.step == "meat_on" for step in context.open_steps)
    if on_the_fire:
        return bool(context.pit_target_c) and isinstance(found[0], Unclear) is False and _is_pit(found[0], context)
    return not isinstance(found[0], Unclear)


def _is_pit(intent: Intent, context: Context) -> bool:
    values = getattr(intent, "values", ())
    return bool(values) and abs(values[0].value_c - (context.pit_target_c or 0.0)) <= 6.0  # noqa: PLR2004 (about 10 °F)


def _numbers(
    masked: str, text: str, context: Context, whens: tuple[times.When, ...], slot: Slot | None, *, alone: bool
) -> tuple[Intent, ...]:
    """Return the report that the figures left over make."""
    found = rejoin(figures(masked), masked, context)
    if slot is not None:
        found = tuple(figure if figure.slot else dataclasses.replace(figure, slot=slot) for figure in found)
    if not found:
        return ()
    if alone and (question := suspect(found, context, text)) is not None:
        return (question,)
    if alone and len(found) == 1 and not asked(context) and (hour := _plain_hour(found[0], context)) is not None:
        return (hour,)
    past = next((when for when in whens if when.kind in (times.Kind.CLOCK, times.Kind.AGO)), None)
    at = times.past(past, context.now, context.zone) if past else None
    return report(found, context, text, at)


def _plain_hour(figure: Figure, context: Context) -> Done | None:
    """Return the time that a bare "11" or "1415" is when the open question is about a time."""
    step = _question(context)
    if step is None or step.slots or step.step not in steps.TIMED_STEPS or figure.unit or not figure.value.is_integer():
        return None
    digits = str(int(figure.value))
    found = times.find(f"at {digits}")
    if not found or len(digits) == 3 and not found[0].compact:  # noqa: PLR2004 (H:MM)
        return None
    return Done(step=step.step, at=times.past(found[0], context.now, context.zone))


# --- one clause ---------------------------------------------------------------------------------------------------
def _clause(clause: Clause, context: Context) -> list[Intent]:
    words = clause.words
    ahead = clause.when is not None and clause.when.kind is times.Kind.AHEAD
    kind = answer(re.sub(r"[0-9|]+", " ", words))
    if kind is Answer.MUTE:
        return [Skip(step=_step_named(words, context))]
    outcome = _outcome(words, context)
    if outcome is not None and kind is not Answer.NOT_YET:
        return [outcome]
    if (wrap := _wrap(clause, context)) is not None:
        return [wrap]
    if kind is Answer.SKIP:
        return _skip(clause, context)
    feels: list[Intent] = list(feel_words(words)) if _feels_asked(words, context) else []
    if feels:
        return feels
    mentioned = steps.mentioned(words, context.stage)
    if mentioned and kind is not Answer.NOT_YET and kind is not Answer.BUSY and not ahead and not _planned(words):
        at = _past(clause.when, context)
        return [Done(step=step, at=at) for step in mentioned]
    if ahead and clause.when is not None:
        return [PutOffFor(minutes=clause.when.minutes, step=mentioned[0] if mentioned else _answered(words, context))]
    if mentioned and _planned(words) and clause.when is not None:
        return [_put_off_until(clause.when, mentioned[0], context)]
    if kind is None:
        return []
    return _short(kind, clause, context)


_PLANNED = re.compile(
    r"\b(?:will|gonna|going (?:to|on|in)|about to|i'll|we'll|planning|plan to|should|want to|goes on|later)\b"
)


def _planned(words: str) -> bool:
    return bool(_PLANNED.search(words))


def _put_off_until(when: times.When, step: str | None, context: Context) -> PutOffFor:
    until = times.future(when, context.now, context.zone)
    return PutOffFor(minutes=max(SOON_MIN, (until - context.now) / dt.timedelta(minutes=1)), step=step)


def _past(when: times.When | None, context: Context) -> dt.datetime | None:
    if when is None or when.kind not in (times.Kind.CLOCK, times.Kind.AGO):
        return None
    return times.past(when, context.now, context.zone)


def _short(kind: Answer, clause: Clause, context: Context) -> list[Intent]:
    """Return what a short answer does to the prompt it answers."""
    step = _answered(clause.words, context)
    if kind is Answer.EVERY:
        return [Done(every=True, at=_past(clause.when, context))]
    if kind is Answer.LATER:
        return [PutOffFor(minutes=LATER_MIN, step=step)]
    if kind is Answer.BUSY:
        return [PutOffFor(minutes=BUSY_MIN, step=step)]
    if kind is Answer.NOT_YET:
        return [NotYet(step=step)]
    return [_done(kind, clause, context)]


def _done(kind: Answer, clause: Clause, context: Context) -> Intent:
    """Return what "done" or a thumb closes: the one thing that is open, or the question which.

    A step that is only a number stays open until the number comes; a weak yes closes only what wants no choice.
    """
    text, at = clause.text, _past(clause.when, context)
    closing = [step for step in context.open_steps if step.step not in steps.READING_STEPS]
    if kind is Answer.NOD:
        closing = [step for step in closing if not step.slots and not step.outcomes]
    if not context.open_steps:
        return Done(at=at)
    if not closing:
        return NotYet(step=context.open_steps[0].step)
    if len(closing) == 1:
        return Done(step=closing[0].step, at=at)
    options: list[tuple[str, Intent]] = [(step.step, Done(step=step.step, at=at)) for step in closing]
    return Unclear(question="which_step", text=text, options=(*options, ("every", Done(every=True, at=at))))


def _skip(clause: Clause, context: Context) -> list[Intent]:
    words, text = clause.words, clause.text
    named = _step_named(words, context)
    if named is not None:
        return [Skip(step=named)]
    if len(context.open_steps) <= 1:
        return [Skip(step=context.open_steps[0].step if context.open_steps else None)]
    if re.search(r"\b(?:all|both|everything|them)\b", words):
        return [Skip(step=step.step) for step in context.open_steps]
    question = _question(context)
    if question is not None and question is context.open_steps[0]:
        return [Skip(step=question.step)]
    options: tuple[tuple[str, Intent], ...] = tuple((step.step, Skip(step=step.step)) for step in context.open_steps)
    return [Unclear(question="which_step", text=text, options=options)]


def _question(context: Context) -> OpenStep | None:
    """Return the one open question, else the only open step."""
    asking = next((step for step in context.open_steps if step.is_question), None)
    return asking or (context.open_steps[0] if context.open_steps else None)


def _answered(words: str, context: Context) -> str | None:
    """Return the id of the step that a short answer is about: the one it names, else the question that is open."""
    named = _step_named(words, context)
    if named is not None:
        return named
    question = _question(context)
    return question.step if question else None


def _step_named(words: str, context: Context) -> str | None:
    """Return the open step whose id or title the words name, else a step they name at all."""
    said = set(bare(words).split())
    for step in context.open_steps:
        if step.step.replace("_", " ") in bare(words):
            return step.step
    named = steps.named(words)
    if named is None:
        titled = [
            step
            for step in context.open_steps
            if said & {word for word in bare(step.title.casefold()).split() if len(word) > 4}
        ]  # noqa: PLR2004 (short words say nothing)
        return titled[0].step if len(titled) == 1 else None
    return named


def _outcome(words: str, context: Context) -> Done | None:
    """Return the choice that a clause makes among the outcomes of an open step."""
    said = set(bare(words).split())
    for step in context.open_steps:
        chosen = [outcome for outcome in step.outcomes if set(bare(outcome.casefold()).split()) <= said]
        if len(chosen) == 1 and chosen[0] not in _OWN_WORDS and not said & {"not", "no", "isn't", "nor"}:
            return Done(step=step.step, outcome=chosen[0])
    return None


_OWN_WORDS = frozenset(
    {"tight", "almost", "tender", "butter", "paper", "foil", "boat", "bare", "none", "wrapped", "done", "skip"}
)
"""Outcomes that are feels or wraps: they have intents of their own."""


def _offered_outcome(masked: str, context: Context) -> tuple[Intent, ...]:
    outcome = _outcome(masked, context)
    return (outcome,) if outcome else ()


# --- wraps and feels ----------------------------------------------------------------------------------------------
def _wrap(clause: Clause, context: Context) -> Intent | None:
    """Return what was said about wrapping: on the fire it is the wrap, after the pull it is the rest."""
    said = wrap_words(clause.words)
    if said is None:
        return None
    open_ids = [step.step for step in context.open_steps]
    if said.not_yet:
        return NotYet(step="wrap_do" if "wrap_do" in open_ids else _answered("", context))
    if context.stage in steps.LATE_STAGES:
        if said.wrap is Wrap.NONE:
            return Done(step="vent_meat", at=_past(clause.when, context))
        if said.done is False:
            return None
        return Done(step="box_meat", outcome=said.wrap.value if said.wrap else None, at=_past(clause.when, context))
    if clause.when is not None and clause.when.kind is times.Kind.AHEAD:
        return PutOffFor(minutes=clause.when.minutes, step="wrap_do")
    done = said.done if said.done is not None else "wrap_do" in open_ids and "wrap_decide" not in open_ids
    return WrapSaid(wrap=said.wrap, done=done, at=_past(clause.when, context))


def _feels_asked(words: str, context: Context) -> bool:
    """Return True when a feel can be meant: always in a tenderness test, else only for words that say nothing else."""
    if any(step.step == "tender_test" for step in context.open_steps):
        return True
    if context.stage not in ("cooking", "resting"):
        return False
    return not re.search(r"\b(?:hard|close|soft|almost|soon|nearly|casi|presque|fast|firm|cracks?|fest|loose)\b", words)


# --- what is left -------------------------------------------------------------------------------------------------
def _only_time(whens: tuple[times.When, ...], masked: str, text: str, context: Context) -> tuple[Intent, ...]:
    """Return what a time by itself says of the open question."""
    step = _question(context)
    if len(whens) != 1 or step is None or len(bare(masked.replace("|", " ")).split()) > 3:  # noqa: PLR2004 (a few words)
        return ()
    when = whens[0]
    if when.kind is times.Kind.SPAN:
        ago = context.now - dt.timedelta(minutes=when.minutes)
        options: tuple[tuple[str, Intent], ...] = (
            ("was_ago", Done(step=step.step, at=ago)),
            ("in_future", PutOffFor(minutes=when.minutes, step=step.step)),
        )
        return (Unclear(question="was_or_in", text=text, values=(when.minutes,), options=options),)
    if when.kind is times.Kind.AHEAD:
        return (PutOffFor(minutes=when.minutes, step=step.step),)
    if step.step in steps.READING_STEPS:
        return ()
    return (Done(step=step.step, at=times.past(when, context.now, context.zone)),)


def _deduplicated(said: list[Intent]) -> list[Intent]:
    """Drop repeats, and short answers that only echo a fuller one ("hecho, puse foil")."""
    unique = list(dict.fromkeys(said))
    full = [
        item for item in unique if isinstance(item, WrapSaid | FeelSaid) or (isinstance(item, Done) and item.outcome)
    ]
    if full:
        unique = [item for item in unique if item in full or not isinstance(item, Done | NotYet | Unclear)]
    return unique


def _without_echo(said: list[Intent], context: Context) -> list[Intent]:
    return [item for item in said if not (isinstance(item, Unclear) and item.question == "which_step")]
