"""Whatever is typed: the reader never raises, never makes a value that no probe can show, and keeps every text.

Texts are made of words that people use in a cook, of figures, and of anything at all.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
from collections.abc import Iterator

from hypothesis import given
from hypothesis import strategies as st

from bot.commands import (
    INTENT,
    Correct,
    Done,
    Draft,
    Intent,
    MovePit,
    Note,
    PutOffFor,
    Report,
    Skip,
    Trouble,
    Unclear,
    Value,
    WrapSaid,
)
from bot.conversation.context import Context, OfferedChoice, OpenStep
from bot.conversation.interpreter import read
from bot.conversation.parsing.times import AHEAD_SLACK
from scheduler.facts import Slot
from tests.catalogue import CUTS
from tests.unit.bot.conversation.spoken import STEPS

CORE_C = (-5.0, 100.0)
PIT_C = (-20.0, 400.0)
SETTING_C = (80.0, 250.0)
WORDS = (
    "meat pit core flat point in the at on since ago min minutes half an hour quarter past to not yet "
    "done skip later wait gimme needs wrapped foil paper boat bare off pulled boxed served lit dinner eat "
    "guests late latest between and or tender butter tough sorry no ignore that was fire out coal ran "
    "away probe dead brisket ribs racks kg lb f c am pm tomorrow saturday when ready hot ~ / - , . ? ! * "
    "x half 7 noon tonight ish 👍 🔥 ½ ° l74 O 24:00 0:60 99:99 -1 00 1e9 2026-02-30 31 feb "
)

instants = st.integers(0, 5 * 366 * 24 * 60).map(
    lambda minutes: dt.datetime(2024, 1, 1, tzinfo=dt.UTC) + dt.timedelta(minutes=minutes)
)
figures = st.one_of(
    st.integers(-50, 2500).map(str),
    st.floats(-50, 600, allow_nan=False).map(lambda value: f"{value:.1f}"),
    st.integers(0, 99999999999).map(str),
)
repeated = st.tuples(st.sampled_from(WORDS.split()), st.sampled_from(WORDS.split()), st.integers(1, 60)).map(
    lambda parts: f"{parts[0]} {parts[1]} " * parts[2]
)
texts = st.one_of(
    repeated,
    st.text(max_size=60),
    st.lists(st.one_of(st.sampled_from(WORDS.split()), figures), max_size=9).map(" ".join),
    st.lists(st.one_of(st.sampled_from(WORDS.split()), figures), max_size=6).map("".join),
)


@st.composite
def contexts(draw: st.DrawFn) -> Context:
    """Any moment of any cook, and the moments before one."""
    now = draw(instants)
    asked = draw(st.lists(st.sampled_from(sorted(STEPS)), max_size=3, unique=True))
    core = draw(st.none() | st.floats(-5, 100))
    return Context(
        now=now,
        zone=draw(
            st.sampled_from(["Europe/London", "Asia/Kathmandu", "America/St_Johns", "Australia/Lord_Howe", "UTC"])
        ),
        unit=draw(st.sampled_from(["F", "C", None])),
        stage=draw(st.sampled_from(["none", "before", "fire", "cooking", "resting", "serving", "after"])),
        cuts=CUTS,
        open_steps=tuple(
            OpenStep(
                step=step,
                title=step.replace("_", " "),
                slots=tuple(Slot(slot) for slot in STEPS[step].get("slots", ())),
                outcomes=tuple(STEPS[step].get("outcomes", ())),
                is_question=index == 0 and draw(st.booleans()),
            )
            for index, step in enumerate(asked)
        ),
        choices=draw(st.sampled_from([(), (OfferedChoice(letter="a", label="Skip it", meaning=Skip(step="spritz")),)])),
        pit_target_c=draw(st.none() | st.floats(80, 250)),
        last_core_c=core,
        last_core_at=None if core is None else now - dt.timedelta(minutes=draw(st.integers(0, 600))),
        meat_on_at=draw(st.none() | st.just(now - dt.timedelta(hours=4))),
        setup_slot=draw(st.sampled_from([None, "cut", "serving", "pit", "mass", "wrap"])),
    )


def every(intents: tuple[Intent, ...]) -> Iterator[Intent]:
    """Yield the intents, and those that the options of questions stand for."""
    for intent in intents:
        yield intent
        if isinstance(intent, Unclear):
            yield from every(tuple(meaning for _, meaning in intent.options))


def within(value: Value) -> bool:
    """Return True when a probe in this slot can show the value."""
    low, high = CORE_C if value.slot is Slot.CORE else PIT_C
    return low - 1e-6 <= value.value_c <= high + 1e-6


@given(texts, contexts())
def test_reading_never_fails_and_always_says_something(text: str, context: Context) -> None:
    """Every text gives at least one intent, and every intent can be written as JSON and read back."""
    intents = read(text, context)
    assert intents
    for intent in every(intents):
        assert INTENT.validate_json(INTENT.dump_json(intent)) == intent


@given(texts, contexts())
def test_no_value_that_no_reading_could_have(text: str, context: Context) -> None:
    """A core lies in -5 to 100 °C, a pit in -20 to 400 °C, a set point in 80 to 250 °C, whatever was typed."""
    for intent in every(read(text, context)):
        if isinstance(intent, Report):
            assert intent.values
            assert all(value.slot is not None and within(value) for value in intent.values)
        if isinstance(intent, Correct) and intent.value_c is not None:
            assert PIT_C[0] - 1e-6 <= intent.value_c <= PIT_C[1] + 1e-6
        if isinstance(intent, Draft) and intent.core_c is not None:
            assert CORE_C[0] - 1e-6 <= intent.core_c <= CORE_C[1] + 1e-6
        if isinstance(intent, MovePit | Draft) and intent.pit_low_c is not None and intent.pit_high_c is not None:
            assert SETTING_C[0] - 1e-6 <= intent.pit_low_c <= intent.pit_high_c <= SETTING_C[1] + 1e-6


@given(texts, contexts())
def test_every_text_is_kept(text: str, context: Context) -> None:
    """A question, a note and a trouble carry the text exactly as it was typed."""
    for intent in every(read(text, context)):
        if isinstance(intent, Unclear | Note | Trouble):
            assert intent.text == text


@given(texts, contexts())
def test_what_was_lies_in_the_past_and_what_is_put_off_lies_ahead(text: str, context: Context) -> None:
    """Nothing is read after it was sent, nor done more than minutes ahead; nothing is put off into the past."""
    for intent in every(read(text, context)):
        if isinstance(intent, Done | WrapSaid | Report | Correct) and intent.at is not None:
            slack = AHEAD_SLACK if isinstance(intent, Done | WrapSaid) else dt.timedelta(0)
            assert context.now - dt.timedelta(hours=49) <= intent.at <= context.now + slack
        if isinstance(intent, PutOffFor):
            assert 0.0 <= intent.minutes <= 49 * 60


@given(st.integers(100, 212), st.sampled_from(["fire", "cooking", "resting", "serving"]), contexts())
def test_a_reading_with_its_unit_is_taken_as_it_is(value_f: int, stage: str, context: Context) -> None:
    """A figure with its unit, typed into a question about the core, is that reading, whatever else is known."""
    asked = OpenStep(step="core_read", title="Core", slots=(Slot.CORE,), is_question=True)
    cook = dataclasses.replace(context, stage=stage, setup_slot=None, open_steps=(asked,), choices=())
    (report,) = read(f"{value_f} F", cook)
    assert isinstance(report, Report)
    assert [(value.slot, round(value.value_c, 6)) for value in report.values] == [
        (Slot.CORE, round((value_f - 32) / 1.8, 6))
    ]
