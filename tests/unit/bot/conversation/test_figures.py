"""Bare figures: which is the pit and which the meat, above all when the pit is cold or nobody has read the meat yet.

Words of the questions are not looked at here.
"""

from __future__ import annotations

import pytest

from bot.conversation.interpreter import read
from tests.unit.bot.conversation.spoken import plain, setting

EARLY = "unit=F pit_target=250F on=12:25"
"""An hour and a half after the meat went on, not read yet."""
LATE = "unit=F pit_target=250F on=06:00 last_core=172F@12:55"
BOTH = "core_read pit_check"


def meant(text: str, here: str, asked: str = "") -> str:
    """Return what a text means in a setting, in words."""
    return plain(read(text, setting(here, asked)))


@pytest.mark.parametrize("text", ["180 75", "180/75", "75/180", "180, 75", "180-75", "180 and 75", "meat 75 180"])
@pytest.mark.parametrize("asked", [BOTH, "core_read", "pit_check", ""])
def test_two_bare_figures_are_one_pit_and_one_meat_though_the_pit_is_cold(text: str, asked: str) -> None:
    """The larger is the pit, seventy degrees below its target or not, and never a second reading of the meat."""
    pit, core = "pit 82.2", "core 23.9"
    first, second = (core, pit) if text.startswith(("75", "meat")) else (pit, core)
    assert meant(text, EARLY, asked) == f"reading {first}, {second}"


@pytest.mark.parametrize(
    ("text", "understood"),
    [
        ("185/76", "reading pit 85.0, core 24.4"),
        ("180/90", "reading pit 82.2, core 32.2"),
        ("170/85", "reading pit 76.7, core 29.4"),
        ("165/88", "reading pit 73.9, core 31.1"),
        ("180 75 78", "reading pit 82.2, core 23.9, core 25.6"),
        ("1 80/75", "reading pit 82.2, core 23.9"),
        ("180/7 5", "reading pit 82.2, core 23.9"),
        ("180 180", "question slot [core: reading core 82.2 | pit: reading pit 82.2]"),
    ],
)
def test_a_cold_pit_stays_the_pit(text: str, understood: str) -> None:
    """What a stranger typed into "read pit and meat" gives one pit, whatever it is."""
    assert meant(text, EARLY, BOTH) == understood


def test_two_figures_that_look_like_the_meat_are_asked_about() -> None:
    """Where the smaller fell from the last core and the larger follows it, nothing is taken."""
    here = "unit=F pit_target=250F on=06:00 last_core=190F@13:10"
    question = "question slot [core: reading core 91.1, core 85.0 | pit: reading pit 91.1, core 85.0]"
    assert meant("196/185", here, "core_read") == meant("196/185", here, BOTH) == question
    assert meant("250/185", here, BOTH) == "reading pit 121.1, core 85.0"


def test_a_list_of_two_answers_a_question_about_the_meat_alone() -> None:
    """Two figures told one after the other are two spots only where the meat alone was asked for and both fit."""
    here = "unit=F pit_target=250F on=06:00 last_core=190F@12:55"
    assert meant("196, 192", here, "core_read") == "reading core 91.1, core 88.9"
    assert meant("196 and 192", here, BOTH) == "reading pit 91.1, core 88.9"
    assert meant("250, 192", here, "core_read") == "reading pit 121.1, core 88.9"
    assert meant("meat 192, 196", here, "") == (
        "reading core 88.9 + question slot [core: reading core 91.1 | pit: reading pit 91.1]"
    )


@pytest.mark.parametrize(
    ("text", "here", "understood"),
    [
        ("110", EARLY, "reading core 43.3"),
        ("196", LATE, "reading core 91.1"),
        ("235", LATE, "reading pit 112.8"),
        ("300", LATE, "reading pit 148.9"),
        ("100", LATE, "question slot [core: reading core 37.8 | pit: reading pit 37.8]"),
        ("200", EARLY, "question slot [core: reading core 93.3 | pit: reading pit 93.3]"),
        ("200", LATE.replace("250F", "225F"), "question slot [core: reading core 93.3 | pit: reading pit 93.3]"),
    ],
)
@pytest.mark.parametrize("asked", [BOTH, "pit_check core_read", "come_up_check", ""])
def test_a_bare_figure_is_weighed_when_both_are_asked(text: str, here: str, understood: str, asked: str) -> None:
    """The meat when it can have risen so far, the pit near its target or above any meat; neither or both is asked."""
    assert meant(text, here, asked) == understood


@pytest.mark.parametrize(
    ("text", "here", "asked"),
    [("196", LATE, "pit_check"), ("110", EARLY, "pit_check"), ("225", EARLY.replace("250F", "205F"), "pit_check")],
)
def test_an_answer_about_the_pit_is_doubted_only_when_it_may_be_the_meat(text: str, here: str, asked: str) -> None:
    """A figure far from the pit's target, where the meat may be by now, is not taken for the pit."""
    assert meant(text, here, asked).startswith("question slot" if text != "225" else "reading pit")


def test_an_answer_about_the_meat_that_looks_like_the_pit_is_asked_about() -> None:
    """Near the pit's target, and further than meat can have come: not taken for the meat."""
    here = "unit=F pit_target=225F on=10:00 last_core=120F@13:25"
    assert meant("208", here, "core_read") == "question slot [core: reading core 97.8 | pit: reading pit 97.8]"
    assert meant("140", here, "core_read") == "reading core 60.0"


@pytest.mark.parametrize(
    ("text", "unit", "understood"),
    [
        ("121/82", "F", "reading pit 121.0, core 82.0"),
        ("pit 121 meat 82", "F", "reading pit 121.0, core 82.0"),
        ("250/180", "C", "reading pit 121.1, core 82.2"),
        ("250/180", "F", "reading pit 121.1, core 82.2"),
        ("121/82", "C", "reading pit 121.0, core 82.0"),
        ("160/75", "F", "reading pit 71.1, core 23.9"),
    ],
)
def test_a_pair_is_read_in_one_unit(text: str, unit: str, understood: str) -> None:
    """Where pit and meat fit only in the unit that the chat is not set to, both are read in that unit."""
    assert meant(text, LATE.replace("unit=F", f"unit={unit}"), BOTH) == understood


@pytest.mark.parametrize(
    ("text", "understood"),
    [
        ("pit 270, probe in", "reading pit 132.2 + done probe_in"),
        ("178, ribs look good", "reading core 81.1"),
        ("178, 2 chunks of wood added", "reading core 81.1 + done wood_add"),
        ("178 and 4 racks", "reading core 81.1"),
    ],
)
def test_a_comma_keeps_a_figure_from_the_things_after_it(text: str, understood: str) -> None:
    """A comma ends a figure: "270, probe" is no number of probes."""
    assert meant(text, "unit=F pit_target=275F") == understood


@pytest.mark.parametrize("stage", ["before", "fire"])
@pytest.mark.parametrize(
    ("text", "understood"),
    [
        ("178", "question slot [core: reading core 81.1 | pit: reading pit 81.1]"),
        ("100 200 300", "question not_understood"),
        ("250 178", "question not_understood"),
        ("250/40", "reading pit 121.1, core 4.4"),
        ("pit 178", "reading pit 81.1"),
        ("meat 41", "reading core 5.0"),
    ],
)
def test_a_bare_figure_before_the_meat_is_on_is_asked_about(text: str, understood: str, stage: str) -> None:
    """With no meat on the fire, and nothing asked, a number by itself is no reading yet."""
    assert meant(text, f"unit=F pit_target=250F stage={stage}") == understood


def test_a_pit_at_its_target_needs_no_question_once_the_fire_is_lit() -> None:
    """Above any meat, or near the target, it can be nothing but the pit."""
    assert meant("250", "unit=F pit_target=250F stage=fire") == "reading pit 121.1"
    assert meant("250", "unit=F pit_target=250F stage=before") == "question slot [pit: reading pit 121.1]"


@pytest.mark.parametrize(
    ("text", "question"),
    [("pit 260 at 23:00", "not_come"), ("150 at 23:00", "not_come"), ("meat 90 at 7:30", "which_time")],
)
def test_no_reading_is_dated_before_the_meat_went_on(text: str, question: str) -> None:
    """A time before the cook cannot be when it was read: said to be still to come, or asked which time it was."""
    assert meant(text, "unit=F pit_target=250F on=08:00 now=09:11") == f"question {question}"


@pytest.mark.parametrize(
    "text", ["under 165", "nearly 165", "165 almost", "just under 165", "not quite 165", "below 165"]
)
def test_what_is_only_near_a_limit_does_not_reach_it(text: str) -> None:
    """A word like almost makes a figure five degrees wide each way: its low edge passes no limit of food safety."""
    assert meant(text, "unit=F pit_target=250F on=06:00 last_core=158F@13:40", "core_read") == (
        "reading core 73.9 give or take 2.8"
    )
