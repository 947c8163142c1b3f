"""Whatever arrives, however mangled, at every stage and beside every question: nothing raises, nothing impossible is
read, nothing is lost, and no text takes long.
"""

from __future__ import annotations

import datetime as dt
import json
import time

from hypothesis import example, given
from hypothesis import strategies as st

from bot.conversation.interpreter import read
from bot.messages.figures import Voice
from bot.messages.read_told import told
from bot.read.meaning import understand
from bot.read.moment import SLOTS, STAGES, Moment, Told
from scheduler.facts import Slot
from tests.properties.mangled import mangled
from tests.properties.test_reading import every, within
from tests.unit.bot.read.moments import CATALOGUE

MOST_CPU_S = 2.0
"""Processor time that one text may take: so that no text can stop the others [s]. A usual one takes some ms."""

instants = st.integers(0, 366 * 24 * 60).map(
    lambda minutes: dt.datetime(2026, 1, 1, tzinfo=dt.UTC) + dt.timedelta(minutes=minutes)
)


@st.composite
def moments(draw: st.DrawFn) -> Moment:
    """Any moment that options of `slowbell read` can describe."""
    now = draw(instants)
    last = st.builds(
        Told,
        value_c=st.floats(-20, 130),
        at=st.integers(0, 900).map(lambda minutes: now - dt.timedelta(minutes=minutes)),
    )
    return Moment(
        now=now,
        zone=draw(st.sampled_from(["Europe/London", "America/St_Johns", "Asia/Kathmandu", "UTC"])),
        unit=draw(st.sampled_from(["F", "C", None])),
        stage=draw(st.sampled_from(STAGES)),
        steps=draw(
            st.sampled_from([*SLOTS.values(), ("spritz", "wood_add", "pit_check"), ("handover",), ("meat_on",)])
        ),
        core=draw(st.none() | last),
        pit=draw(st.none() | last),
        pit_target_c=draw(st.none() | st.floats(80, 250)),
    )


@given(mangled(), moments())
@example("171" * 2000, Moment(now=dt.datetime(2026, 1, 1, tzinfo=dt.UTC), zone="UTC"))
def test_nothing_raises_and_no_text_takes_long(text: str, moment: Moment) -> None:
    """Every text is understood as something that can be written as JSON and told in words, in little time."""
    began = time.process_time()
    found = understand(text, moment, CATALOGUE)
    assert time.process_time() - began < MOST_CPU_S
    assert json.loads(json.dumps(found.as_values(), allow_nan=False))["intent"] == found.intent
    voice = Voice(zone=moment.zone, unit=moment.unit or "F", now=moment.now)
    assert told(found, text, voice)


@given(mangled(), moments())
def test_no_reading_that_no_probe_can_show(text: str, moment: Moment) -> None:
    """Cores lie in -5 to 100 °C, pits in -20 to 400 °C, times are not negative, and nothing said is never zero."""
    found = understand(text, moment, CATALOGUE)
    told_before = {one.value_c for one in (moment.core, moment.pit) if one is not None}
    cores = [value for value in found.core_c if value not in told_before]
    assert all(-5.0 - 1e-6 <= value <= 100.0 + 1e-6 for value in cores)
    assert all(-20.0 - 1e-6 <= value <= 400.0 + 1e-6 for value in found.pit_c)
    assert found.minutes_ago is None or found.minutes_ago >= 0
    assert found.question is None or found.question.strip()


@given(mangled(), moments())
def test_every_text_is_kept_as_something(text: str, moment: Moment) -> None:
    """There is always an intent; a note, a question or a trouble holds the text as it was typed."""
    intents = read(text, moment.context(CATALOGUE))
    assert intents
    for intent in every(intents):
        kept = getattr(intent, "text", None)
        assert kept is None or kept == text or intent.kind in ("new_cook", "for_cook")
        for value in getattr(intent, "values", ()):
            assert isinstance(value, float) or (value.slot in Slot and within(value))
