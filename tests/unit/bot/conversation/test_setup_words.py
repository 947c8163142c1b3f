"""Setting up in one sentence: what is taken, what is named as unusable, and what is asked.

The questions of the set-up, one after the other, are tested elsewhere.
"""

from __future__ import annotations

import pytest

from bot.commands import Draft
from bot.conversation.flows.setup import merge
from bot.conversation.interpreter import read
from tests.unit.bot.conversation.spoken import plain, setting


def meant(text: str, more: str = "") -> str:
    """Return what a text means while no cook runs, on a Saturday at 13:55."""
    return plain(read(text, setting(f"stage=none unit=- {more}")))


@pytest.mark.parametrize(
    ("text", "understood"),
    [
        (
            "brisket on since 5pm yesterday, 198f, dinner when ready",
            "draft cut brisket_packer, dinner when ready, on at 17:00 the day before, core 92.2",
        ),
        (
            "brisket on since yesterday 5pm, 198, dinner at 6",
            "draft cut brisket_packer, dinner 18:00, on at 17:00 the day before, core 92.2",
        ),
        ("brisket on since last night at 11, 150f", "draft cut brisket_packer, on at 23:00 the day before, core 65.6"),
        ("brisket on since 5am, 110c", "draft cut brisket_packer, pit 110, on at 05:00"),
        ("brisket on since 5am, 165, 250", "draft cut brisket_packer, pit 121, on at 05:00, core 73.9"),
    ],
)
def test_a_lone_figure_of_a_cook_in_the_middle_is_the_meat(text: str, understood: str) -> None:
    """With a time since when it is on, what a meat can have is the meat now; the day that is said counts."""
    assert meant(text) == understood


@pytest.mark.parametrize(
    ("text", "understood"),
    [
        ("short ribs, pulled at 14:00, 203", "draft cut beef_chuck_ribs, ignored pulled at 14:00 / 203"),
        (
            "brisket on since 5am, dinner 6, wrapped at 11",
            "draft cut brisket_packer, dinner 18:00, on at 05:00, ignored wrapped at 11",
        ),
        ("brisket salted yesterday, dinner 6pm", "draft cut brisket_packer, dinner 18:00, ignored salted yesterday"),
        ("pulled pork, dinner 6pm", "draft cut pork_butt, dinner 18:00"),
    ],
)
def test_what_was_done_already_is_no_dinner_and_no_pit(text: str, understood: str) -> None:
    """Times and figures of deeds are named as unusable; they become neither a serving nor a setting."""
    assert meant(text) == understood


@pytest.mark.parametrize(
    ("text", "understood"),
    [
        ("brisket and pork shoulder", "draft cut brisket_packer, and 1 pork_butt"),
        ("pork shoulder and brisket", "draft cut pork_butt, and 1 brisket_packer"),
        ("brisket and 2 pork shoulders", "draft cut brisket_packer, and 2 pork_butt"),
        (
            "brisket 6 kg and pork shoulder 8 kg, dinner 6pm",
            "draft cut brisket_packer, mass 6.00 kg, dinner 18:00, and 1 pork_butt of 8.00 kg",
        ),
        ("brisket and chicken, dinner 6pm", "draft cut brisket_packer, dinner 18:00, and 1 whole_chicken"),
        ("2 briskets of 6 and 4 kg", "draft cut brisket_packer, count 2, mass 6.00 kg, ignored 4 kg"),
        ("2 briskets, 4 kg and 6 kg", "draft cut brisket_packer, count 2, mass 6.00 kg, ignored 4 kg"),
        ("brisket 60 kg, dinner 6pm", "draft cut brisket_packer, dinner 18:00, ignored 60 kg"),
        ("10 racks of short ribs, 60 kg in total", "draft cut beef_chuck_ribs, count 10, mass 6.00 kg"),
        ("brisket, dinner 31/9 18:00", "draft cut brisket_packer, ignored 31/9 / 18:00"),
        ("brisket, dinner 31 feb", "draft cut brisket_packer, ignored 31 feb"),
        ("brisket dinner at 25:00", "draft cut brisket_packer, ignored 25:00"),
        ("brisket, pit 600, dinner 6pm", "draft cut brisket_packer, dinner 18:00, ignored pit 600"),
        ("pit 600", "question impossible"),
    ],
)
def test_what_cannot_be_used_is_named(text: str, understood: str) -> None:
    """A second mass, a mass, date, time or pit that cannot be: the rest is kept, and these words are told."""
    assert meant(text) == understood


def test_only_the_newest_words_stay_ignored() -> None:
    """What an earlier message had to leave out is told once."""
    first = Draft(cut="brisket_packer", ignored=("60 kg",))
    assert merge(first, Draft(mass_kg=6.0)).ignored == ()
    assert merge(first, Draft(ignored=("31/9",))).ignored == ("31/9",)


@pytest.mark.parametrize("text", ["brisket on since 18:00", "brisket on since 6pm"])
def test_a_time_of_today_that_has_not_come_is_asked_about(text: str) -> None:
    """Since 18:00, told at 13:55, may be yesterday, or a slip: both can be chosen, and neither is guessed."""
    yesterday, today = "draft cut brisket_packer, on at 18:00 the day before", "draft cut brisket_packer"
    assert meant(text) == f"question which_time [yesterday: {yesterday} | today: {today}]"
    assert meant(f"{text} yesterday") == yesterday
    assert meant("brisket on since 11pm", "now=09:00") == "draft cut brisket_packer, on at 23:00 the day before"


@pytest.mark.parametrize(
    ("text", "kg"),
    [
        ("brisket about twelve pounds", "5.44"),
        ("a twelve-pound brisket", "5.44"),
        ("brisket, nineteen lbs", "8.62"),
        ("brisket two and a half kilos", "2.50"),
        ("brisket six kg", "6.00"),
    ],
)
def test_a_mass_may_be_said_in_words(text: str, kg: str) -> None:
    """Number words up to twenty count as figures before a unit of mass."""
    assert meant(text) == f"draft cut brisket_packer, mass {kg} kg"


@pytest.mark.parametrize(
    ("text", "slot", "understood"),
    [
        ("sunday week", "serving", "draft dinner 18:00 in 8 days"),
        ("Sunday week at 1pm", "serving", "draft dinner 13:00 in 8 days"),
        ("saturday week", "serving", "draft dinner 18:00 in 7 days"),
        ("13/9 at 6", "serving", "draft dinner 18:00 in 1 days"),
        ("9/13 at 6", "serving", "draft dinner 18:00 in 1 days"),
        ("yesterday 6pm", "serving", "draft dinner 18:00 in -1 days"),
        ("yesterday 6pm", "pit", "draft dinner 18:00 in -1 days"),
        ("1pm", "pit", "draft dinner 13:00 in 1 days"),
        ("at 1pm", "pit", "draft dinner 13:00 in 1 days"),
        ("250 at 1pm", "pit", "draft pit 121, dinner 13:00 in 1 days"),
        ("at 121", "pit", "draft pit 121"),
        ("110 to 120 c", "pit", "draft pit 110-120"),
    ],
)
def test_days_and_times_of_the_meal(text: str, slot: str, understood: str) -> None:
    """A week after the coming Sunday, a day gone by as it was said, and a clock time where the pit was asked."""
    assert meant(text, f"setup={slot}") == understood


@pytest.mark.parametrize(
    ("text", "understood"),
    [
        (
            "brisket 6 kg, 3 racks, 2 chickens, dinner 6pm",
            "draft cut brisket_packer, mass 6.00 kg, dinner 18:00, and 2 whole_chicken, and 3 'ribs', asked which",
        ),
        (
            "brisket 6 kg and 2 kg of ribs, dinner 6pm",
            "draft cut brisket_packer, mass 6.00 kg, dinner 18:00, and 1 'ribs', asked which of 2.00 kg",
        ),
        (
            "brisket, pork 3 kg, dinner 6pm",
            "draft cut brisket_packer, dinner 18:00, and 1 'pork', asked which of 3.00 kg",
        ),
        ("brisket, pork chops, dinner 6pm", "draft cut brisket_packer, dinner 18:00, ignored pork chops"),
        ("brisket, beef, 6 kg, dinner 6pm", "draft cut brisket_packer, mass 6.00 kg, dinner 18:00"),
        (
            "brisket 6 kg with 2 chickens, dinner 6pm",
            "draft cut brisket_packer, mass 6.00 kg, dinner 18:00, and 2 whole_chicken",
        ),
        ("brisket, dinner September 19th (Saturday) 18:00", "draft cut brisket_packer, dinner 18:00 in 7 days"),
        (
            "1 brisket 5kg 2 racks ribs 1 chicken dinner 6pm pit 250",
            (
                "draft cut brisket_packer, count 1, mass 5.00 kg, pit 121, dinner 18:00, and 1 whole_chicken, "
                "and 2 'ribs', asked which"
            ),
        ),
        (
            "tri tip and prime rib 3 kg, new year's eve 8pm",
            "draft cut tri_tip, dinner 20:00 in 110 days, and 1 prime_rib of 3.00 kg",
        ),
        ("brisket, two dozen sausages, dinner 6pm", "draft cut brisket_packer, dinner 18:00, and 24 sausages"),
        ("half a dozen chicken thighs, dinner 6pm", "draft cut chicken_thighs, count 6, dinner 18:00"),
        ("brisket, thanksgiving 4pm", "draft cut brisket_packer, ignored thanksgiving / 4pm"),
        ("brisket, dinner Sat 19/9 18:00", "draft cut brisket_packer, dinner 18:00 in 7 days"),
        ("brisket, dinner Sunday 4/10 18:00", "draft cut brisket_packer, dinner 18:00 in 22 days"),
        ("brisket dinner Saturday 18:00 19 September", "draft cut brisket_packer, dinner 18:00 in 7 days"),
    ],
)
def test_what_is_said_of_a_piece_or_a_day_stays_with_it(text: str, understood: str) -> None:
    """A count never moves to another cut, what may be several cuts is kept to be asked, a date is that date."""
    assert meant(text) == understood
