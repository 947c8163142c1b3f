"""A cook that runs: another count, mass or unit, and a whole plan told anew; readings keep their meaning.

Whether a change is possible is not judged by the reader.
"""

from __future__ import annotations

import pytest

from bot.commands import ChangePlan, needs
from bot.conversation.interpreter import read
from bot.crew import Right
from tests.unit.bot.conversation.spoken import plain, setting

RUNNING = "unit=F on=08:00 last_core=150F@13:10 pit_target=250F serving=18:00"


def meant(text: str, here: str = RUNNING) -> str:
    """Return what a text means while a cook runs."""
    return plain(read(text, setting(here)))


@pytest.mark.parametrize(
    ("text", "understood"),
    [
        ("4 racks", "change count 4"),
        ("it's four racks", "change count 4"),
        ("4 racks of short ribs", "change count 4"),
        ("two briskets", "change count 2"),
        ("5 kg", "change mass 5.00 kg"),
        ("it weighs twelve pounds", "change mass 5.44 kg"),
        ("7 racks, 2 kg each", "change count 7, mass 2.00 kg"),
    ],
)
@pytest.mark.parametrize("here", [RUNNING, "unit=F stage=before", "unit=F stage=resting"])
def test_count_and_mass_may_be_changed(text: str, understood: str, here: str) -> None:
    """A count or a mass by itself changes the cook that runs, at any stage."""
    assert meant(text, here) == understood


def test_a_change_needs_the_right_to_decide() -> None:
    """Somebody who may only report cannot change the plan."""
    assert needs(ChangePlan(count=4)) is Right.DECIDE


@pytest.mark.parametrize(
    ("text", "understood"),
    [
        ("4 racks on", "done meat_on"),
        ("added 2 kg of charcoal", "done refuel + charcoal added 2.00 kg"),
        ("3 pieces of wood", "question not_understood"),
        ("60 kg", "question not_understood"),
        ("81c", "reading core 81.0"),
    ],
)
def test_other_words_with_amounts_change_nothing(text: str, understood: str) -> None:
    """Wood, charcoal and readings are none of the plan, and a mass that no piece has is not taken."""
    assert meant(text) == understood


@pytest.mark.parametrize(
    ("text", "understood"),
    [
        (
            "brisket 6 kg, dinner Sunday 18:00, pit 250",
            "draft cut brisket_packer, mass 6.00 kg, pit 121, dinner 18:00 in 1 days",
        ),
        ("pork shoulder for sunday 6pm", "draft cut pork_butt, dinner 18:00 in 1 days"),
        ("brisket, dinner sunday 18:00", "draft cut brisket_packer, dinner 18:00 in 1 days"),
        ("2 briskets tomorrow 6pm pit 250", "draft cut brisket_packer, count 2, pit 121, dinner 18:00 in 1 days"),
        ("brisket on since 5am, dinner 6pm", "draft cut brisket_packer, dinner 18:00, on at 05:00"),
    ],
)
def test_a_whole_plan_is_no_move_of_dinner(text: str, understood: str) -> None:
    """A sentence that names a cut with its dinner or pit is the plan of another cook."""
    assert meant(text) == understood


@pytest.mark.parametrize(
    ("text", "understood"),
    [
        ("brisket 178, pit 250", "reading core 81.1, pit 121.1"),
        ("ribs at 165 pit 260", "reading core 73.9, pit 126.7"),
        ("brisket pit 250", "reading pit 121.1"),
        ("brisket's 165", "reading core 73.9"),
        ("short ribs 165, dinner at 7", "reading core 73.9 + dinner 19:00"),
        ("178/250, guests 20 min late", "reading core 81.1, pit 121.1 + dinner 20 min later"),
        ("short ribs tender, dinner at 7", "feel tender + dinner 19:00"),
        ("dinner at 7, not 6", "dinner 19:00"),
        ("brisket is ready for dinner at 7", "dinner 19:00"),
        ("push brisket dinner to 7", "dinner 19:00"),
        ("pork shoulder on at 6am", "done meat_on at 06:00"),
        ("brisket off at 1pm", "done pull at 13:00"),
    ],
)
def test_a_report_that_names_the_cut_stays_a_report(text: str, understood: str) -> None:
    """The cut's name beside a reading, a step or a new time makes no new plan."""
    assert meant(text) == understood
