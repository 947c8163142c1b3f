"""Talk about a number is never a reading, however it is framed; a plain report is one, however it is framed."""

from __future__ import annotations

import itertools

import pytest

from bot.commands import Correct, Done, FeelSaid, Intent, PutOffFor, Report, Unclear
from bot.conversation.interpreter import read
from tests.unit.bot.conversation.spoken import plain, setting

NUMBERS = ("140", "145", "150", "160", "165", "178", "203", "165 F", "74 C", "165.5")

FRAMES = (
    "isn't it supposed to be {n}", "it's supposed to be {n}", "supposed to be {n} by now", "it should read {n} by now",
    "should be {n}", "shouldn't it be {n}", "it ought to be {n}", "must be {n}", "it must reach {n}", "has to hit {n}",
    "does it have to hit {n}", "do we need {n}", "needs {n} right", "it needs to be {n}", "it needs {n}",
    "required {n}",
    "recipe says {n}", "the recipe says {n}", "book says {n}", "label says {n}", "my mum says {n}", "they say {n}",
    "the internet says {n} is enough", "according to the book {n}", "i heard {n} is fine", "usda says {n}",
    "{n}?", "meat {n}?", "thigh {n}?", "its {n}?", "is it done, meat {n}?", "{n} right?", "{n}, right?",
    "is {n} ok", "is {n} ok for chicken", "is {n} safe", "is {n} enough", "is {n} enough for sausages", "is it {n}",
    "is {n} too low", "isn't {n} enough", "would {n} be ok", "{n} is ok right", "{n} should be enough",
    "{n} is the rule",
    "{n} is the minimum", "so {n} is safe", "ok so is {n} safe", "what about at {n}", "why {n}", "what is {n} for",
    "can i pull it at {n}", "could we eat it at {n}", "shall i stop at {n}", "do i pull at {n}", "at {n} i pull it",
    "at {n} we eat", "at {n}, we take it off", "until {n}", "until it reads {n}", "when it hits {n} we eat",
    "when the meat reaches {n} i call you", "once it is {n} we serve", "if it reads {n} it is done",
    "as soon as it gets {n}",
    "aiming for {n}", "target {n}", "the goal is {n}", "we want {n}", "i want it at {n}", "waiting for {n}",
    "it will be {n} at 7", "it will be {n} soon", "it'll be {n} in an hour", "gonna be {n} soon", "hopefully {n} soon",
    "i hope it is {n}", "i expect {n}", "probably will be {n}", "it might be {n}", "it could be {n}", "usually {n}",
    "last time {n}", "normally it is {n} now", "i guess {n}", "minimum {n}", "the minimum is {n}", "the rule is {n}",
    "not {n} yet", "not at {n} yet", "it's not {n}", "it isn't {n} yet", "hasn't reached {n}", "never got to {n}",
    "still under {n}", "still below {n}", "less than {n}", "should be {n}, not less", "recipe says {n}, breast {n}",
)  # fmt: skip

REPORTS = (
    "{n}", "its {n}", "it's {n}", "it is {n}", "reads {n}", "it reads {n}", "{n} now", "now {n}", "now at {n}",
    "thigh {n}",
    "got {n} in the breast", "meat {n}", "core {n}", "meat is {n}", "meat at {n}", "the probe says {n}", "we're at {n}",
    "ok {n}", "{n} at 1:50", "at 1:50 it was {n}", "{n}, recipe says 205", "{n} in the thigh", "thermometer shows {n}",
    "it's {n}, is that ok?", "{n} but it should be 205",
)  # fmt: skip

MOMENTS = (
    ("unit=F last_core=171F@13:10 pit_target=250F", ""),
    ("unit=F last_core=171F@13:10 pit_target=250F", "core_read"),
    ("unit=F last_core=138F@13:30 stage=resting", ""),
    ("unit=F last_core=138F@13:30 stage=resting", "serve_reading"),
    ("unit=F stage=after", ""),
)


def _stores(intent: Intent) -> bool:
    """Return whether an intent would write a number or close a step."""
    return isinstance(intent, Report | Correct | Done | FeelSaid | PutOffFor)


@pytest.mark.parametrize("frame", FRAMES)
def test_no_talk_about_a_number_is_a_reading(frame: str) -> None:
    """Whatever the number, the moment and the open question: nothing is stored, closed or put off."""
    for (moment, asked), number in itertools.product(MOMENTS, NUMBERS):
        text = frame.format(n=number)
        found = read(text, setting(moment, asked))
        assert not any(_stores(intent) for intent in found), (moment, asked, text, plain(found))


@pytest.mark.parametrize("frame", REPORTS)
def test_every_plain_report_is_a_reading(frame: str) -> None:
    """Whatever the number, in an answer and unasked."""
    for asked, number in itertools.product(("", "core_read"), ("165", "178", "175.5", "178 F", "81 C")):
        text = frame.format(n=number)
        found = read(text, setting("unit=F last_core=171F@13:10 pit_target=250F", asked))
        assert any(isinstance(intent, Report) for intent in found), (asked, text, plain(found))
        assert sum(len(i.values) for i in found if isinstance(i, Report)) == 1, (asked, text, plain(found))


def test_a_figure_with_a_question_mark_is_asked_back() -> None:
    """165 with a question mark stores nothing; the meat or the pit is one tap."""
    (asked,) = read("165?", setting("unit=F last_core=160F@13:10 pit_target=250F"))
    assert isinstance(asked, Unclear)
    assert plain((asked,)) == "question slot [core: reading core 73.9 | pit: reading pit 73.9]"
