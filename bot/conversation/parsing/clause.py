"""Reads one clause of a reply: a wrap, a feel, steps done, a put-off, a short answer.

Figures are left to `readings`; a clause here has its times cut out and at most one time beside it.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
import re

from bot.commands import Ask, Done, Intent, KindSaid, Note, NotYet, PutOffFor, Skip, Topic, WrapSaid
from bot.conversation.context import Context
from bot.conversation.parsing import prompts, steps, times
from bot.conversation.parsing.answers import BUSY_MIN, LATER_MIN, Answer, answer, finished, unsure
from bot.conversation.parsing.bark import bark_said
from bot.conversation.parsing.kept import kept
from bot.conversation.parsing.meat import WrapWords, feel_words, wrap_words
from bot.conversation.parsing.told import told
from scheduler.facts import Wrap

SOON_MIN = 1.0
"""A time ahead that is nearer than this is now [min]."""
_PLANNED = re.compile(
    r"\b(?:will|gonna|going (?:to|on)|about to|i'll|we'll|planning|plan to|should|want to|goes on|later)\b"
)
_ASK_ME = re.compile(
    r"\b(?:ask|remind|ping|nudge|poke|message|text|wake|try|check)(?: me| us)?(?: again| back| in)?(?: at| around|"
    r" ?[|]|"
    r" about|$)"
    r"|\b(?:ask|remind|ping|nudge|poke|message|text|wake) (?:me|us)\b"
)
"""Beside a time of the clock these ask for the prompt again then."""
_HOLD_OFF = re.compile(
    r"\b(?:give (?:me|it|us|them)|gimme|hold off|hold on|wait|leave (?:it|me)|snooze|busy|not|can't|need|out|away"
    r"|asleep"
    r"|driving|quiet)\b"
)
"""Beside "till 2:15" these ask for no prompts until then."""
_IMPLIED = {"smoke_clean": "thin"}
"""What the words of a step say of its choice: thin, blue, clean and clear smoke are one."""
_ONCE = re.compile(r"\bno more\b")
"""No more of it, where no prompts are named: this once."""
_EVERYTHING = re.compile(r"\b(?:everything|all|it all|the lot|you|yourself|every \w+|the bot|notifications?)\b")
_BARK_SET = re.compile(
    r"\bbark(?:'s| is| looks| has)?(?: all| now| really)? (?:set|good|great|fine|ready|done|hard|firm|there)\b"
)
_OTHER_MEANINGS = re.compile(
    r"\b(?:not quite|hard|close|soft|almost|done|soon|nearly|casi|presque|fast|firm|cracks?|fest|loose)\b"
)
"""Words of a feel that say other things when nobody asked for a feel."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Clause:
    """One clause: its words with times cut out, the time it holds, and the whole text as it was typed."""

    words: str
    when: times.When | None
    text: str

    def past(self, context: Context) -> dt.datetime | None:
        """Return when it was (UTC), as a thing that is done; a few minutes ahead are kept, and refused elsewhere."""
        if self.when is None or self.when.until or self.when.kind not in (times.Kind.CLOCK, times.Kind.AGO):
            return None
        return times.deed(self.when, context.now, context.zone)

    @property
    def ahead_min(self) -> float | None:
        """So many minutes to wait, or None."""
        return self.when.minutes if self.when is not None and self.when.kind is times.Kind.AHEAD else None


def read_clause(clause: Clause, context: Context) -> list[Intent]:
    """Return what one clause says; nothing when it says nothing."""
    kind = answer(re.sub(r"[0-9|]+", " ", clause.words))
    if kind is Answer.MUTE:
        return [_muted(clause, context)]
    return _about_meat(clause, kind, context) or _about_steps(clause, kind, context) or _short(clause, kind, context)


def _muted(clause: Clause, context: Context) -> Intent:
    """Return what "stop asking" does: the prompts of a step are switched off; of all of them, or of a step that counts,
    it is told what can be.
    """
    step = prompts.answered(clause.words, context)
    if step is None or _EVERYTHING.search(clause.words) or step in prompts.EXPLICIT_STEPS | steps.TIMED_STEPS:
        return Ask(topic=Topic.TOLD)
    return Skip(step=step) if _ONCE.search(clause.words) else KindSaid(step=step, wanted=False)


def _about_meat(clause: Clause, kind: Answer | None, context: Context) -> list[Intent]:
    chosen = prompts.outcome(clause.words, context)
    if chosen is not None and (
        kind is not Answer.NOT_YET or "_" in (chosen.outcome or "") or chosen.step == "fuel_check"
    ):
        return [chosen.model_copy(update={"at": clause.past(context)})]
    if kind not in (Answer.SKIP, Answer.MUTE) and (bark := bark_said(clause.words, clause.past(context), context)):
        return [bark]
    if context.stage == "cooking" and _BARK_SET.search(clause.words):
        return [Done(step="bark_check", outcome="set", at=clause.past(context))]
    if (fact := kept(clause.words, context) or told(clause.words, clause.text, context)) is not None:
        return [fact.model_copy(update={"at": clause.past(context) or fact.at})]
    said = wrap_words(clause.words)
    if said is not None and (wrap := _wrap(said, clause, context)) is not None:
        return [wrap]
    if kind is Answer.SKIP or not _may_feel(clause.words, context):
        return []
    return list(feel_words(clause.words))


def _about_steps(clause: Clause, kind: Answer | None, context: Context) -> list[Intent]:
    if kind is Answer.SKIP:
        return prompts.skip(clause.words, clause.text, context)
    mentioned = steps.mentioned(clause.words, context.stage)
    asked = prompts.question(context)
    planned = bool(_PLANNED.search(clause.words))
    if clause.ahead_min is not None:
        step = mentioned[0] if mentioned else prompts.answered(clause.words, context)
        return [PutOffFor(minutes=clause.ahead_min, step=step)]
    asked_for = clause.when is not None and clause.when.kind is times.Kind.CLOCK and _ASK_ME.search(clause.words)
    if clause.when is not None and (
        asked_for
        or (planned and not clause.when.until and (mentioned or (asked and asked.step not in prompts.EXPLICIT_STEPS)))
    ):
        until = times.future(clause.when, context.now, context.zone)
        minutes = max(SOON_MIN, (until - context.now) / dt.timedelta(minutes=1))
        return [PutOffFor(minutes=minutes, step=mentioned[0] if mentioned else prompts.answered(clause.words, context))]
    if (
        clause.when is not None
        and clause.when.until
        and asked is not None
        and (kind is Answer.BUSY or _HOLD_OFF.search(clause.words))
    ):
        minutes = (times.future(clause.when, context.now, context.zone) - context.now) / dt.timedelta(minutes=1)
        return [PutOffFor(minutes=minutes, step=asked.step)]
    if planned or kind in (Answer.NOT_YET, Answer.BUSY):
        return []
    if not mentioned and finished(clause.words):
        step = prompts.named(clause.words, context)
        known = steps.SMALL_JOBS | {each.step for each in context.open_steps}
        mentioned = (step,) if step in known and step else ()
    return [Done(step=step, outcome=_IMPLIED.get(step), at=clause.past(context)) for step in mentioned]


def _short(clause: Clause, kind: Answer | None, context: Context) -> list[Intent]:
    """Return what a short answer does to the prompt it answers."""
    step = prompts.answered(clause.words, context)
    said: dict[Answer, Intent] = {
        Answer.EVERY: Done(every=True, at=clause.past(context)),
        Answer.LATER: PutOffFor(minutes=LATER_MIN, step=step),
        Answer.BUSY: PutOffFor(minutes=BUSY_MIN, step=step),
        Answer.NOT_YET: NotYet(step=step) if step else Note(text=clause.text),
    }
    if kind is Answer.NOT_YET and step and clause.when is not None and clause.when.kind is times.Kind.SPAN:
        return [PutOffFor(minutes=clause.when.minutes, step=step)]  # "not yet, 10 min"
    if kind in (Answer.DONE, Answer.NOD):
        return [prompts.done(clause.past(context), clause.text, context, weak=kind is Answer.NOD)]
    if kind is None and unsure(clause.words) and step is not None:
        return [NotYet(step=step)]
    return [said[kind]] if kind in said else []


def _wrap(said: WrapWords, clause: Clause, context: Context) -> Intent | None:
    """Return what was said about wrapping: on the fire it is the wrap, after the pull it is the rest."""
    asked = {step.step for step in context.open_steps}
    if said.not_yet:
        return NotYet(step="wrap_do" if "wrap_do" in asked else prompts.answered("", context))
    if context.stage in steps.LATE_STAGES:
        if said.done is False:
            return None
        step = "vent_meat" if said.wrap is Wrap.NONE else "box_meat"
        kind = said.wrap.value if said.wrap and said.wrap is not Wrap.NONE else None
        return Done(step=step, outcome=kind, at=clause.past(context))
    if clause.ahead_min is not None:
        return PutOffFor(minutes=clause.ahead_min, step="wrap_do")
    answers_doing = "wrap_do" in asked and not asked & {"wrap_decide", "bark_check"}
    done = answers_doing if said.done is None else said.done
    if context.stage not in steps.COOKING_STAGES:
        done = False  # nothing is on the fire yet: a plan, whatever the words
    return WrapSaid(wrap=said.wrap, done=done, at=clause.past(context))


def _may_feel(words: str, context: Context) -> bool:
    """Return True when a feel can be meant: always in a tenderness test, else only for words that say nothing else."""
    if any(step.step == "tender_test" for step in context.open_steps):
        return True
    return context.stage in ("cooking", "resting") and not _OTHER_MEANINGS.search(words)
