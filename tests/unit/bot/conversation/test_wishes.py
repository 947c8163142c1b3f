"""Wishes about the plan as people type them, beside near relatives that are something else.

What a wish does is tested with its answer.
"""

from __future__ import annotations

import pytest

from bot.conversation.interpreter import read
from tests.unit.bot.conversation.spoken import plain, setting

PLANNED = "unit=F stage=before pit_target=250F serving=18:00"
RUNNING = "unit=F on=08:00 last_core=150F@13:10 pit_target=250F serving=18:00"
MUTED = f"{RUNNING} muted=spritz,sides"


def meant(text: str, here: str = RUNNING, asked: str = "") -> str:
    """Return what a text means while a cook runs."""
    return plain(read(text, setting(here, asked)))


@pytest.mark.parametrize(
    ("text", "understood"),
    [
        (
            "Tomas watches 22:00 to 03:00, Wren 03:00 to 07:00",
            "watches Tomas 22:00 to 03:00, Wren 03:00 to 07:00",
        ),
        ("watch: Tomas 10pm-3am", "watches Tomas 22:00 to 03:00"),
        ("watches: tomas 22-3, wren 3-7", "watches Tomas 22:00 to 03:00, Wren 03:00 to 07:00"),
        ("Wren 22-03, Bashir 03-08", "watches Wren 22:00 to 03:00, Bashir 03:00 to 08:00"),
        ("22:00-03:00 Bashir, 03:00-07:00 Wren", "watches Bashir 22:00 to 03:00, Wren 03:00 to 07:00"),
        ("Ines until 2, then Tomas", "watches Ines ? to 02:00, Tomas ? to ?"),
        ("Tomas 10 to 3", "watches Tomas 22:00 to 03:00"),
        ("I watch until 3, then Wren", "watches i ? to 03:00, Wren ? to ?"),
        ("Wren is awake until 4", "watches Wren ? to 04:00"),
        ("Wren has the first watch until midnight, Tomas after that", "watches Wren ? to 00:00, Tomas ? to ?"),
        ("quiet 23:00 to 06:30", "watches quiet 23:00 to 06:30"),
        ("quiet hours from 11pm to 6", "watches quiet 23:00 to 06:00"),
        ("nobody is woken between 11pm and 6", "watches quiet 23:00 to 06:00"),
        ("don't wake us between midnight and 6", "watches quiet 00:00 to 06:00"),
        ("no quiet hours", "watches quiet 00:00 to 00:00"),
        ("no watches", "watches none"),
        (
            "Tomas watches 22 to 3, Wren 3 to 7, quiet 23 to 6",
            "watches Tomas 22:00 to 03:00, Wren 03:00 to 07:00, quiet 23:00 to 06:00",
        ),
        ("who watches when?", "ask watches"),
        ("quiet hours?", "ask watches"),
    ],
)
@pytest.mark.parametrize("here", [PLANNED, RUNNING])
def test_watches_and_quiet_hours(text: str, understood: str, here: str) -> None:
    """Names with times of the clock are watches, and quiet hours are two times with a word of sleep."""
    assert meant(text, here) == understood


@pytest.mark.parametrize(
    ("text", "understood"),
    [
        ("dinner 18:00 to 19:00", "dinner from 18:00 to 19:00"),
        ("flat 165 to 170", "reading core 75.3 in the flat give or take 1.4"),
        ("left 160, right 165", "reading core 71.1 in the left, core 73.9 in the right"),
        ("pit 225-250", "reading pit 114.2 give or take 6.9"),
        ("spritzed 10 to 2", "done spritz at 13:50"),
        ("who is on watch", "ask crew"),
    ],
)
def test_ranges_and_names_of_other_things_are_no_watches(text: str, understood: str) -> None:
    """Dinner in a window, spots of the meat, a band of the pit, a time of the clock in words stay what they were."""
    assert meant(text) == understood


def test_watches_answer_the_question_about_them() -> None:
    """One name is enough where watches are asked for, and for somebody of this kitchen; no stranger's is."""
    assert meant("Bashir 22-03", PLANNED, "roles") == "watches Bashir 22:00 to 03:00"
    assert meant("Tomas 22-03", PLANNED) == "watches Tomas 22:00 to 03:00"
    assert not meant("Bashir 22-03", PLANNED).startswith("watches")
