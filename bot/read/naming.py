"""Names what the reader found by the intents of the trade's table of replies, and collects its readings and times.

It decides nothing that the reader has not found: where one meaning has several names, the moment and the words choose.
"""

from __future__ import annotations

import dataclasses
import datetime as dt

from bot import commands as say
from bot.application.handlers.reports import CHOOSE
from bot.commands import Intent
from bot.conversation.context import Context
from bot.conversation.parsing.answers import finished
from bot.conversation.parsing.commands import questions
from bot.conversation.parsing.steps import mentioned
from bot.conversation.parsing.words import tidy
from bot.messages.asked import which_probe
from bot.messages.asked_also import and_the_number, and_which, do_you_have_it, for_which_cook, takes_it
from bot.messages.figures import Voice
from bot.messages.read_told import ask_feel
from bot.messages.receipts import spot_text
from bot.messages.refusals import question
from bot.messages.talk import nothing_open
from bot.read import cues, judged
from bot.read.moment import Moment
from bot.read.troubles import name_of
from scheduler.facts import Feel, Slot, Wrap
from scheduler.planning.catalogue import Catalogue

BUTTER_FROM_C, TOUGH_TO_C = 90.0, 94.5
"""A tough cut feels tender under the first, or tight above the second, against its number [°C]; common practice."""
_FEEL_NUMBERS = ("tender_test",)
_TIMED = ("meat_on", "light", "pull", "serve", "box_meat")


@dataclasses.dataclass(frozen=True, kw_only=True)
class Named:
    """An intent of the table with what belongs to it [°C, min]."""

    intent: str
    core_c: tuple[float, ...] = ()
    pit_c: tuple[float, ...] = ()
    minutes_ago: float | None = None
    duration_min: float | None = None
    question: str | None = None


def name(text: str, found: tuple[Intent, ...], context: Context, moment: Moment, catalogue: Catalogue) -> Named:
    """Return what was found by its name in the table."""
    return _Naming(text, found, context, moment, catalogue).named()


class _Naming:
    def __init__(
        self, text: str, found: tuple[Intent, ...], context: Context, moment: Moment, catalogue: Catalogue
    ) -> None:
        self.text, self.heard = text, tidy(text)
        self.found, self.context, self.moment, self.catalogue = found, context, moment, catalogue
        self.voice = Voice(zone=context.zone, unit=context.unit or "F", now=context.now)
        self.open = tuple(step.step for step in context.open_steps)
        self.values = tuple(v for one in found if isinstance(one, say.Report) for v in one.values)
        self.read_at = next((one.at for one in found if isinstance(one, say.Report)), None)

    def named(self) -> Named:
        """Return the name of what was found, with its readings, times and question."""
        unclear = next((one for one in self.found if isinstance(one, say.Unclear)), None)
        if unclear is not None:
            return self._unclear(unclear)
        doubted = next((v for v in self.values if judged.leaps(v, self.read_at, self.context)), None)
        if doubted is not None:
            return self._doubted(doubted)
        first = self.found[0]
        others: list[Intent] = [one for one in self.found if not isinstance(one, say.Report)]
        named = self._readings(others) if self.values else self._without(first, others)
        return (
            dataclasses.replace(named, core_c=self._of(Slot.CORE), pit_c=self._of(Slot.PIT)) if self.values else named
        )

    def _of(self, slot: Slot, *, without: say.Value | None = None) -> tuple[float, ...]:
        return tuple(v.value_c for v in self.values if v.slot is slot and v is not without)

    def _ago(self, at: dt.datetime | None) -> float | None:
        if at is None or at > self.context.now:
            return None
        minutes = round((self.context.now - at) / dt.timedelta(minutes=1), 1)
        return minutes or None  # just now is now

    # --- what is asked ------------------------------------------------------------------------------------------------
    def _unclear(self, unclear: say.Unclear) -> Named:
        asked = question(unclear, self.voice).text
        options = tuple(meaning for _, meaning in unclear.options)
        read = dataclasses.replace(
            Named(intent="", core_c=self._of(Slot.CORE), pit_c=self._of(Slot.PIT)), question=asked
        )
        match unclear.question:
            case "not_understood":
                return Named(intent="question" if questions(self.heard) or self.heard.endswith("?") else "note")
            case "out_of_range":
                return dataclasses.replace(read, intent="reading_none")
            case "guests_or_time":
                return dataclasses.replace(read, intent="ambiguous_number")
            case "typo":
                return dataclasses.replace(read, intent="reading_typo")
            case "slot":
                return dataclasses.replace(read, intent=self._wrong_slot())
            case "unit":
                doubted = self.context.unit is not None or self.context.stage in ("resting", "serving")
                return dataclasses.replace(read, intent="implausible" if doubted else "reading")
            case "impossible":
                return dataclasses.replace(read, intent="implausible")
            case "which_step":
                return dataclasses.replace(read, intent="done_ambiguous")
            case "skip_which":
                return dataclasses.replace(read, intent="skip")
            case "was_or_in":
                return dataclasses.replace(read, intent="time_relative")
            case "which_time" if any(isinstance(one, say.Report) for one in options):
                return dataclasses.replace(read, intent="reading")
            case "which_time" | "not_come" if not options:
                return dataclasses.replace(read, intent="reading")
            case "which_time":
                return dataclasses.replace(read, intent="time")
            case "is_dinner" | "which_day":
                return dataclasses.replace(read, intent="move_dinner")
            case "which_wrap":
                return dataclasses.replace(read, intent="done_unprompted")
            case _:
                return dataclasses.replace(read, intent="reading" if self.values else "note")

    def _wrong_slot(self) -> str:
        """Return whether a reading seems to answer another question than the one that is open."""
        asked = any(step.slots for step in self.context.open_steps)
        return "reading_wrong_slot" if asked and not self.heard.endswith("?") else "reading"

    def _doubted(self, value: say.Value) -> Named:
        last_c, last_at = self.context.last_core_c, self.context.last_core_at
        assert last_c is not None
        assert last_at is not None
        return Named(
            intent="implausible",
            core_c=self._of(Slot.CORE, without=value),
            pit_c=self._of(Slot.PIT),
            question=spot_text(value.value_c, last_c, last_at, self.voice),
        )

    # --- readings -----------------------------------------------------------------------------------------------------
    def _readings(self, others: list[Intent]) -> Named:
        ago = self._ago(self.read_at)
        limit = judged.limit(self.values[0], self.heard, self.context) if len(self.values) == 1 else None
        if limit is not None and not any(isinstance(one, say.FeelSaid) for one in others):
            return Named(intent=limit.value, minutes_ago=ago)
        for one in others:
            match one:
                case say.Trouble():
                    kind = name_of(one.what)
                    kept = kind in ("alarm", "move_dinner", "chat_event")
                    span = cues.span_min(self.heard) if one.what == "lid_open" else None
                    return Named(intent=kind if kept else "event_plus_reading", minutes_ago=ago, duration_min=span)
                case say.FeelSaid():
                    return self._felt([f for f in others if isinstance(f, say.FeelSaid)], ago)
                case say.WrapSaid(wrap=None):
                    named = self._wrapped(one)
                    return dataclasses.replace(named, intent="choice_plus_reading")
                case say.WrapSaid():
                    return Named(
                        intent="choice_plus_reading", minutes_ago=ago if ago is not None else self._ago(one.at)
                    )
                case say.MoveDinner():
                    return Named(intent=self._plain(), minutes_ago=ago, duration_min=one.minutes)
                case say.PutOffFor():
                    return Named(intent=self._plain(), minutes_ago=ago, duration_min=one.minutes)
                case say.Done() if one.outcome is None:
                    return Named(intent="done_plus_reading", minutes_ago=ago if ago is not None else self._ago(one.at))
                case _:
                    continue
        if cues.lid_open(self.heard):
            return Named(intent="event_plus_reading", minutes_ago=ago, duration_min=cues.span_min(self.heard))
        said_done = not others and cues.says_done(self.heard)
        return Named(
            intent="done_plus_reading" if said_done else self._plain(),
            minutes_ago=ago,
            question=self._feel_asked(),
        )

    def _feel_asked(self) -> str | None:
        """Return the question for the feel, when the tenderness test got its number alone."""
        cores = [v for v in self.values if v.slot is Slot.CORE]
        return ask_feel() if cores and any(step in self.open for step in _FEEL_NUMBERS) else None

    def _plain(self) -> str:
        """Return the name of readings alone."""
        if any(judged.runs_away(value, self.context) for value in self.values):
            return "alarm"
        if len(self.values) > 2:  # noqa: PLR2004 - three or more are one name in the table
            return "three_readings"
        if len(self.values) > 1:
            return "two_readings"
        if cues.ranged(self.heard):
            return "reading_range"
        if self.values[0].spread_c:
            return "reading_approx"
        return "reading_typo" if cues.mended(self.text) else "reading"

    def _felt(self, feels: list[say.FeelSaid], ago: float | None) -> Named:
        if len({one.feel for one in feels}) > 1:
            return Named(intent="feel_partial", minutes_ago=ago)
        cores = self._of(Slot.CORE)
        if not cores:
            return Named(intent="feel", minutes_ago=ago)
        against = (feels[0].feel is Feel.TENDER and max(cores) < BUTTER_FROM_C) or (
            feels[0].feel is Feel.TIGHT and min(cores) > TOUGH_TO_C
        )
        return Named(intent="feel_vs_number" if against else "feel_plus_reading", minutes_ago=ago)

    # --- no reading ---------------------------------------------------------------------------------------------------
    def _without(self, first: Intent, others: list[Intent]) -> Named:
        feels = [one for one in others if isinstance(one, say.FeelSaid)]
        waits = next((one for one in others if isinstance(one, say.PutOffFor)), None)
        if feels and waits is not None:
            return Named(intent="not_yet", duration_min=waits.minutes)
        if feels:
            return self._felt(feels, None)
        match first:
            case say.Undo():
                return Named(intent="retract" if cues.retracted(self.heard) else "undo")
            case say.Correct():
                return self._corrected(first)
            case say.Trouble():
                return self._trouble(first)
            case say.WrapSaid():
                return self._wrapped(first)
            case say.Done():
                return self._done(first)
            case say.NotYet():
                return Named(intent=self._not_yet())
            case say.PutOffFor():
                return self._put_off(first)
            case say.Skip():
                return Named(intent="mute_step" if cues.mutes(self.heard) else "skip")
            case say.MoveDinner():
                return Named(intent="move_dinner", duration_min=first.minutes)
            case say.GuestsSaid():
                return Named(intent="count" if first.fewest is None else "count_range")
            case say.HandOver() | say.CannotWatch():
                return Named(intent="handover", question=None if first.to is None else takes_it(first.to))
            case say.TakeWatch():
                return Named(intent="handover_ack")
            case say.WrongCook():
                return Named(intent="retract_move", question=for_which_cook(self.moment.cooks))
            case say.Ask(topic=say.Topic.PROBES):
                return Named(intent="question", question=which_probe())
            case say.Note():
                return self._noted()
            case say.Ask(topic=say.Topic.SAFE | say.Topic.RULE):
                return Named(intent="question_safety")
            case say.Ask(topic=say.Topic.TOLD) if cues.mutes(self.heard):
                return Named(intent="mute_step")
            case say.KindSaid(wanted=False):
                return Named(intent="mute_step")
            case say.KindSaid() | say.TellMe():
                return Named(
                    intent="mute_step" if cues.mutes(self.heard) or isinstance(first, say.TellMe) else "choice"
                )
            case say.Ask() | say.HowMuch() | say.Pause() | say.Suppose():
                return Named(intent="question")
            case say.TroubleOver() | say.AirSaid() | say.BackOn() | say.Discard():
                return Named(intent="event")
            case say.Claim():
                return Named(intent="time_future" if self.open else "handover_ack")
            case say.ClaimBack() | say.DeclineWatch():
                return Named(intent="decline")
            case say.HeardIt():
                return Named(intent="ack")
            case say.Nod():
                return Named(intent="ack_weak", question=do_you_have_it())
            case say.RoleSaid() | say.LeftSaid() | say.CallName():
                return Named(intent="chat_event")
            case say.MannerSaid():
                return Named(intent="choice")
            case say.WatchesSaid():
                return Named(intent="handover")
            case say.MovePit() | say.ChoosePlan() | say.CookerSaid() | say.ReadBySaid() | say.TakeLever():
                return Named(intent="choice")
            case _:
                return Named(intent="note")

    def _corrected(self, said: say.Correct) -> Named:
        if said.at is not None:
            return Named(intent="correction_time", minutes_ago=self._ago(said.at))
        if said.value_c is None:
            moved = self.context.last_core_c if said.slot is Slot.PIT else self.context.last_pit_c
            values = () if moved is None else (moved,)
            pit = said.slot is Slot.PIT
            return Named(intent="correction_slot", core_c=() if pit else values, pit_c=values if pit else ())
        pit = said.value_c > 100.0 or said.slot is Slot.PIT  # noqa: PLR2004 - no core boils
        return Named(
            intent="correction",
            core_c=() if pit else (said.value_c,),
            pit_c=(said.value_c,) if pit else (),
        )

    def _trouble(self, said: say.Trouble) -> Named:
        span = cues.span_min(self.heard)
        return Named(intent=name_of(said.what), duration_min=span)

    def _wrapped(self, said: say.WrapSaid) -> Named:
        ago = self._ago(said.at)
        asked = any(step in self.open for step in ("bark_check", "wrap_decide", "wrap_do"))
        if said.wrap is None:
            options: tuple[tuple[str, Intent], ...] = tuple(
                (wrap.value, say.WrapSaid(wrap=wrap, at=said.at)) for wrap in Wrap if wrap is not Wrap.NONE
            )
            asks = question(say.Unclear(question="which_wrap", text="", options=options), self.voice).text
            return Named(intent="done" if asked else "done_unprompted", minutes_ago=ago, question=asks)
        if cues.other_wrap(self.heard):
            return Named(intent="choice_other", minutes_ago=ago)
        if cues.says_done(self.heard):
            return Named(intent="done_choice", minutes_ago=ago)
        return Named(intent="choice" if asked or not said.done else "done_unprompted", minutes_ago=ago)

    def _done(self, said: say.Done) -> Named:
        ago = self._ago(said.at)
        asks = self._also_asked(said)
        if said.every:
            two = len(self.open) > 1 or (not self.open and cues.both(self.heard))
            return Named(intent="done_two" if two else "done", minutes_ago=ago)
        if said == say.Done() and not self.open:
            if not any(letter.isalnum() for letter in self.text):
                return Named(intent="ack")  # a sign alone, as a reaction is
            return Named(intent="done_ambiguous", question=nothing_open())
        if said.step == "handover":
            return Named(intent="handover_ack", minutes_ago=ago)
        if said.outcome is not None and cues.says_yes(self.heard):
            return Named(intent="confirm", minutes_ago=ago)
        if said.outcome is not None:
            return Named(intent=self._chosen(said), minutes_ago=ago)
        if said.at is not None:
            bare_time = cues.clock(self.heard)
            told = cues.already(self.heard) or finished(self.heard) or mentioned(self.heard, self.context.stage)
            if said.step not in _TIMED and told:
                return Named(intent="done_past", minutes_ago=ago, question=asks)
            return Named(intent="time" if bare_time else "time_relative", minutes_ago=ago, question=asks)
        if cues.nods(self.heard):
            return Named(intent="ack", question=asks)
        if "already" in self.heard.split() or "schon" in self.heard.split():
            return Named(intent="done_past", question=asks)
        if cues.says_yes(self.heard) and said.step in self.open:
            return Named(intent="confirm" if asks is None else "ack_not_answer", question=asks)
        if said.step in self.open or (said.step is None and self.open):
            return Named(intent="done", question=asks)
        return Named(intent="done" if said.step is None else "done_unprompted", question=asks)

    def _chosen(self, said: say.Done) -> str:
        if said.step == "fuel_check" and said.outcome == "low":
            return "alarm" if said.step not in self.open else "choice"
        return "choice"

    def _also_asked(self, said: say.Done) -> str | None:
        """Return what the chat asks when a bare "done" says too little: the number, or which."""
        step = None if said.step is None else self.catalogue.steps.get(said.step)
        if step is None or said.step not in self.open or said.outcome is not None:
            return None
        if step.slots and not step.outcomes:
            return and_the_number()
        return and_which() if said.step in CHOOSE else None

    def _not_yet(self) -> str:
        if cues.holds(self.heard):
            return "hold"
        return "decline" if cues.refuses(self.heard) else "not_yet"

    def _put_off(self, said: say.PutOffFor) -> Named:
        step = next((one for one in self.context.open_steps if one.step == said.step), None)
        deed = step is None or not (step.slots or step.outcomes)
        if cues.not_yet(self.heard):
            return Named(intent="not_yet", duration_min=said.minutes)
        if deed and not cues.asks_later(self.heard):
            return Named(intent="time_future", duration_min=said.minutes)
        return Named(intent="snooze", duration_min=said.minutes)

    def _noted(self) -> Named:
        if cues.holds(self.heard):
            return Named(intent="hold")
        if cues.nods(self.heard) or cues.says_yes(self.heard):
            step = self.context.open_steps[0] if self.context.open_steps else None
            if step is None:
                return Named(intent="ack" if cues.thumb(self.text) else "ack_weak")
            takes = step.step == "handover"
            kind = "ack_not_answer" if step.slots or step.outcomes else "ack_weak"
            return Named(intent=kind, question=do_you_have_it() if takes else None)
        if cues.refuses(self.heard) or cues.not_yet(self.heard):
            return Named(intent="decline" if cues.refuses(self.heard) else "not_yet")
        if (ago := cues.ago_min(self.heard)) is not None and not cues.lid_open(self.heard):
            return Named(intent="time_relative", minutes_ago=ago)
        span = cues.span_min(self.heard)
        told = span is not None or cues.lid_open(self.heard) or cues.over(self.heard)
        return Named(intent="event" if told else "note", duration_min=span)
