"""The narrator: prints what happens, each message as each person saw it, and between them a sentence of why.

It may look into the log, as no person does; it must not change anything. All its words come from `bot.messages`.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable
from zoneinfo import ZoneInfo

from bot.messages import narration
from bot.messages.figures import Voice
from bot.rehearsal.record import Outage, Seen, Typed
from bot.transport.terminal.layout import set_row, wrap
from scheduler.cook import Situation, assess
from scheduler.facts import (
    Asked,
    Corrected,
    Fact,
    PutOff,
    Reading,
    Slot,
    StepDone,
    StepSkipped,
    Told,
    Withdrawn,
)  # fmt: skip
from scheduler.planning.catalogue import Catalogue
from scheduler.planning.prompts import step_of

WIDTH = 96
MARGIN = 14
LATE_REPLY = dt.timedelta(minutes=10)
TOLD = dt.timedelta(minutes=30)

Log = Callable[[], tuple[Fact, ...]]


class Narrator:
    """Tells one performance. `log` returns the facts of the cook as they are now."""

    def __init__(self, put: Callable[[str], None], *, zone: str, catalogue: Catalogue) -> None:
        self._put = put
        self._zone = zone
        self._catalogue = catalogue
        self.log: Log = tuple
        self._told = 0
        self._before: Situation | None = None
        self._pull_at: dt.datetime | None = None
        self._day: dt.date | None = None

    def open(self) -> None:
        """Say what this is."""
        for sentence in narration.opening().split("\n"):
            self._sentence(sentence, margin=0)

    # --- what the play reports --------------------------------------------------------------------------------------

    def typed(self, typed: Typed) -> None:
        """Print a typed line."""
        self._new_day(typed.at)
        self._put("")
        if typed.line:
            self._put(f"{narration.types(typed.who):<{MARGIN}}> {self._clock(typed.at)}  {typed.line}")
            if not typed.heard:
                self._why(narration.unheard())
        else:
            self._why(narration.opens(typed.who))

    def shown(self, seen: list[Seen]) -> None:
        """Print messages, each text once with the names of those who saw it, and why they came."""
        self._new_day(seen[0].at)
        if seen[0].caused_by is None:
            self._put("")
        told: list[str] = []
        for one in seen:
            if one.row.text in told:
                continue
            told.append(one.row.text)
            names = " + ".join(other.who for other in seen if other.row.text == one.row.text)
            self._message(names, one)
        for comment in self._comments():
            self._why(comment)

    def killed(self, at: dt.datetime, code: int) -> None:
        """Tell the kill."""
        self._put("")
        self._sentence(narration.killed(self._clock(at), code, len(self.log())), margin=0, mark="*** ")

    def restarted(self, outage: Outage) -> None:
        """Tell the new start."""
        length = outage.restarted_at - outage.killed_at
        self._put("")
        self._sentence(
            narration.restarted(self._clock(outage.restarted_at), length, len(outage.facts_before)),
            margin=0,
            mark="*** ",
        )

    def summary(self, sentences: list[str]) -> None:
        """Tell what came of it."""
        self._put("")
        self._put(narration.summary_heading())
        for sentence in sentences:
            self._sentence(sentence, margin=0, mark="- ")

    # --- why --------------------------------------------------------------------------------------------------------

    def _comments(self) -> list[str]:
        """Return what is worth a sentence among the facts that are new."""
        facts = self.log()
        new = facts[self._told :]
        self._told = len(facts)
        if not new:
            return []
        after = assess(facts, self._catalogue)
        voice = Voice(zone=self._zone, unit=after.state.planned.unit, now=new[-1].recorded_at)
        found = [
            *_about_people(new, self._before),
            *self._about_the_plan(new, after),
            *_about_prompts(new, self._before, after, voice),
        ]
        self._before = after
        return found

    def _about_the_plan(self, new: tuple[Fact, ...], after: Situation) -> list[str]:
        """Return why the forecast moved, and what the stall and the safe minimum mean."""
        found = []
        before = self._before
        for milestones in [dict(f.body.milestones) for f in new if isinstance(f.body, Told) and f.body.milestones]:
            pull_at = milestones.get("pull")
            if pull_at and self._pull_at and abs(pull_at - self._pull_at) >= TOLD:
                fixed = any(isinstance(f.body, Corrected) for f in new)
                found.append(narration.moved(self._pull_at, pull_at, corrected=fixed))
            self._pull_at = pull_at or self._pull_at
        if before is None or after.state.did("pull"):
            return found
        if before.stall is None and after.stall is not None:
            found.append(narration.stall_began())
        if before.stall is not None and after.stall is None:
            found.append(narration.stall_over())
        if before.gate.open_at is None and after.gate.open_at is not None:
            found.append(narration.gate_opened())
        return found

    # --- layout -----------------------------------------------------------------------------------------------------

    def _message(self, names: str, seen: Seen) -> None:
        today = seen.at.astimezone(ZoneInfo(self._zone)).date()
        text = set_row(seen.row, zone=self._zone, today=today, width=WIDTH - MARGIN)
        for number, line in enumerate(text.split("\n")):
            self._put(f"{names if number == 0 else '':<{MARGIN}}| {line}")

    def _why(self, sentence: str) -> None:
        self._sentence(sentence, margin=MARGIN, mark="~ ")

    def _sentence(self, sentence: str, *, margin: int, mark: str = "") -> None:
        for number, line in enumerate(wrap(sentence, WIDTH - margin - len(mark))):
            self._put(" " * margin + (mark if number == 0 else " " * len(mark)) + line)

    def _clock(self, at: dt.datetime) -> str:
        return f"{at.astimezone(ZoneInfo(self._zone)):%H:%M}"

    def _new_day(self, at: dt.datetime) -> None:
        date = at.astimezone(ZoneInfo(self._zone)).date()
        if date != self._day:
            self._day = date
            self._put("")
            self._put(f"== {narration.day(date)} ==")


def _about_people(new: tuple[Fact, ...], before: Situation | None) -> list[str]:
    """Return what somebody's report shows about the rules."""
    on = before is not None and before.state.did("meat_on") is not None and not before.state.did("pull")
    asked = before is not None and any(Slot.CORE in prompt.step.slots for prompt in before.waiting)
    found = []
    for fact in new:
        match fact.body:
            case Reading(slot=Slot.CORE) if fact.recorded_at - fact.happened_at > LATE_REPLY:
                found.append(narration.late_reply(fact.recorded_at - fact.happened_at))
            case Reading(slot=Slot.CORE) if on and not asked:
                found.append(narration.unasked())
            case Corrected():
                found.append(narration.corrected())
            case StepSkipped():
                found.append(narration.skipped())
            case PutOff() | StepDone(outcome="not_yet"):
                found.append(narration.put_off())
            case _:
                pass
    return found


def _about_prompts(new: tuple[Fact, ...], before: Situation | None, after: Situation, voice: Voice) -> list[str]:
    """Return why a trip came now, and what was given up."""
    found = []
    gone = [step_of(f.body.prompt) for f in new if isinstance(f.body, Withdrawn) and f.body.reason == "too_late"]
    if gone:
        found.append(narration.given_up(gone))
    known = {p.key: p for situation in (before, after) if situation is not None for p in situation.prompts}
    for fact in new:
        if isinstance(fact.body, Asked):
            whys = [(known[key].step.id, known[key].why) for key in fact.body.prompts if key in known]
            if whys and fact.body.revision == 1:
                found.append(narration.why_now(whys, voice))
    return found
