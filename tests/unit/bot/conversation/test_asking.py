"""Questions in one or two words: they are answered, and nothing is taken from them."""

from __future__ import annotations

import pytest

from bot.commands import Ask, Topic
from bot.conversation.interpreter import read
from scheduler.facts import Wrap
from tests.unit.bot.conversation.spoken import plain, setting

COOKING = "unit=F stage=cooking last_core=158F@11:00 now=11:10"


@pytest.mark.parametrize(
    ("text", "step"),
    [
        ("bark?", "bark_check"),
        ("wrapped?", "wrap_do"),
        ("pulled?", "pull"),
        ("bark set?", "bark_check"),
        ("not yet bark?", "bark_check"),
        ("tender?", "tender_test"),
    ],
)
@pytest.mark.parametrize("asked", ["", "bark_check", "tender_test"])
def test_a_step_with_a_question_mark_is_asked_about(text: str, step: str, asked: str) -> None:
    """Whatever is open: nothing is said to be done, or not yet."""
    assert read(text, setting(COOKING, asked)) == (Ask(topic=Topic.STEP, step=step),)


@pytest.mark.parametrize("asked", ["", "spritz", "bark_check"])
def test_done_with_a_question_mark_asks_how_it_stands(asked: str) -> None:
    """It closes nothing."""
    assert read("done?", setting(COOKING, asked)) == (Ask(topic=Topic.HOW_LONG),)


@pytest.mark.parametrize(
    ("text", "topic"),
    [
        ("rest?", Topic.REST),
        ("how long will it hold", Topic.REST),
        ("how long does the box keep it?", Topic.REST),
        ("rest", Topic.PLAN_REST),
        ("all steps", Topic.PLAN_REST),
        ("when?", Topic.WHEN),
        ("how long", Topic.HOW_LONG),
    ],
)
def test_short_questions_have_their_own_answers(text: str, topic: Topic) -> None:
    """The rest, the pull, the plan."""
    (intent,) = read(text, setting(COOKING))
    assert isinstance(intent, Ask)
    assert intent.topic is topic


@pytest.mark.parametrize(
    ("text", "wrap"),
    [
        ("what if foil", Wrap.FOIL),
        ("what if I foil it?", Wrap.FOIL),
        ("what about paper", Wrap.PAPER),
        ("what if we leave it bare?", Wrap.NONE),
        ("what if foil boat", Wrap.BOAT),
    ],
)
def test_another_wrap_may_be_asked_about(text: str, wrap: Wrap) -> None:
    """It is no decision and no wrap."""
    assert read(text, setting(COOKING)) == (Ask(topic=Topic.WHAT_IF, wrap=wrap),)


def test_a_number_with_a_question_mark_is_a_reading() -> None:
    """Somebody wonders, and has read it; what is asked beside it is not taken."""
    assert plain(read("meat 160, bark?", setting(COOKING))) == plain(read("meat 160", setting(COOKING)))
