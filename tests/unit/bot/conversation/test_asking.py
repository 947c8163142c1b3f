"""Questions in one or two words: they are answered, and nothing is taken from them."""

from __future__ import annotations

import dataclasses

import pytest

from bot.commands import Ask, Topic, Trouble
from bot.conversation.interpreter import read
from scheduler.facts import Wrap
from tests.unit.bot.conversation.spoken import at, plain, setting

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
        ("page", Topic.PAGE),
        ("the page", Topic.PAGE),
        ("print the plan", Topic.PAGE),
        ("print it out please", Topic.PAGE),
        ("print", Topic.PAGE),
        ("/page", Topic.PAGE),
        ("give me a page to tape up", Topic.PAGE),
        ("plan on paper", Topic.PAGE),
        ("new page", Topic.PAGE),
        ("calendar", Topic.CALENDAR),
        ("/calendar@slowbell_bot", Topic.CALENDAR),
        ("calendar file", Topic.CALENDAR),
        ("put it in my calendar", Topic.CALENDAR),
        ("add the plan to the calendar", Topic.CALENDAR),
        ("send me the calendar file please", Topic.CALENDAR),
        ("new calendar", Topic.CALENDAR),
        ("record", Topic.RECORD),
        ("/record", Topic.RECORD),
        ("temperature log", Topic.RECORD),
        ("the temperature log please", Topic.RECORD),
        ("log for the inspector", Topic.RECORD),
        ("safety record", Topic.RECORD),
        ("food safety log for the health officer", Topic.RECORD),
        ("health officer", Topic.RECORD),
        ("the health inspector is here", Topic.RECORD),
        ("send me the record as csv", Topic.RECORD),
        ("something to show the inspector", Topic.RECORD),
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


@pytest.mark.parametrize(("text", "last"), [("185", "177F@10:40"), ("160", "158F@10:20")])
@pytest.mark.parametrize("asked", ["", "pit_check", "core_read", "pit_check core_read"])
def test_a_number_near_the_meat_is_the_meat_while_the_pit_holds(text: str, last: str, asked: str) -> None:
    """The pit was 270 F when it was read last: a hundred degrees below it, just above the last core, is the core."""
    here = f"unit=F pit_target=260F last_core={last} now=11:10"
    context = dataclasses.replace(setting(here, asked), last_pit_c=132.0, last_pit_at=at("10:00"))
    assert plain(read(text, context)) == plain(read(f"meat {text}", context))


def test_it_is_asked_where_nobody_knows_the_pit() -> None:
    """Never read, long ago, or seen falling: asked for the pit the number may be either."""
    here = setting("unit=F pit_target=260F last_core=177F@10:40 now=11:10", "pit_check")
    long_ago = dataclasses.replace(here, last_pit_c=132.0, last_pit_at=at("07:00"))
    falling = dataclasses.replace(here, last_pit_c=100.0, last_pit_at=at("10:40"))
    for context in (here, long_ago, falling):
        assert plain(read("185", context)).startswith("question slot")


@pytest.mark.parametrize("asked", ["", "bark_check"])
def test_a_bark_that_is_set_is_told_asked_or_not(asked: str) -> None:
    """The words by themselves, and with the wrap that is meant; a bark that is not set says so."""
    here = setting(COOKING, asked)
    assert plain(read("bark set", here)) == plain(read("the bark is good", here)) == "done bark_check, set"
    assert plain(read("bark set, foil", here)) == "done bark_check, set + wrap foil, planned"
    assert "set" not in plain(read("bark not set", here))


@pytest.mark.parametrize("text", ["fire out?", "fire's out?", "out of charcoal?", "probe dead?"])
def test_a_trouble_with_a_question_mark_is_still_a_trouble(text: str) -> None:
    """Doubt about the fire is answered as the fire being out."""
    here = setting(COOKING)
    assert read(text, here) == tuple(
        intent.model_copy(update={"text": text}) if isinstance(intent, Trouble) else intent
        for intent in read(text.removesuffix("?"), here)
    )
    assert any(isinstance(intent, Trouble) for intent in read(text, here))


@pytest.mark.parametrize("text", ["added a log", "one more log", "log", "2 logs on", "record 203 F"])
def test_a_log_of_wood_is_no_record(text: str) -> None:
    """What burns, and a reading, ask for no paper."""
    assert all(getattr(intent, "topic", None) is not Topic.RECORD for intent in read(text, setting(COOKING)))


@pytest.mark.parametrize("text", ["paper", "wrapped in paper", "in butcher paper now", "paper?"])
def test_paper_is_a_wrap_and_never_a_page(text: str) -> None:
    """The word for what lies round the meat prints nothing."""
    assert all(getattr(intent, "topic", None) is not Topic.PAGE for intent in read(text, setting(COOKING)))
