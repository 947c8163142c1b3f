"""Words about the weather: what is the air, what is the meat, the pit or a fire ban."""

from __future__ import annotations

import pytest

from bot.commands import AirSaid, Draft
from bot.conversation.flows.setup import merge
from bot.conversation.interpreter import read
from tests.unit.bot.conversation.spoken import plain, setting

HERE = "unit=F last_core=166F@13:10 pit_target=250F serving=18:00"


@pytest.mark.parametrize(
    ("text", "understood"),
    [
        ("cold out", "air cold"),
        ("it's too cold outside", "air cold"),
        ("chilly morning", "air cool"),
        ("mild day", "air warm"),
        ("really hot today", "air hot"),
        ("-3 C outside", "air -3.0"),
        ("minus 3 c outside", "air -3.0"),
        ("95 in the shade", "air 35.0"),
        ("ambient 41f", "air 5.0"),
        ("not windy", "air calm"),
        ("no wind", "air calm"),
        ("wind picked up", "air windy"),
        ("too windy", "air windy"),
        ("cold and windy", "air cold windy"),
        ("windy and 10c outside", "air 10.0 windy"),
    ],
)
def test_the_weather_is_noted(text: str, understood: str) -> None:
    """Warmth by a number or a word, the wind, or both."""
    assert plain(read(text, setting(HERE))) == understood


@pytest.mark.parametrize(
    ("text", "understood"),
    [
        ("178, cold out", "reading core 81.1 + air cold"),
        ("boxed, cold outside", "done box_meat + air cold"),
        ("pit dropped to 230, windy", "reading pit 110.0 + air windy"),
        ("air temp 40F, pit 250", "reading pit 121.1 + air 4.4"),
        ("dinner at 7, it's cold out", "dinner 19:00 + air cold"),
        ("sorry 171 not 117, windy", "correct to 77.2 instead of 47.2 + air windy"),
        ("windy, everyone is hungry", "note + air windy"),
    ],
)
def test_what_is_told_beside_the_weather_is_kept(text: str, understood: str) -> None:
    """Readings, deeds and changes in the same text are read as ever; what is not understood is a note."""
    assert plain(read(text, setting(HERE))) == understood


@pytest.mark.parametrize(
    "text",
    ["air 262", "meat is cold", "pit is cold", "it is cold", "ash is cold", "cool", "hot", "in the cooler",
     "cool box is ready", "leftovers in the fridge", "is it windy?", "off at 205", "30 out"],
)  # fmt: skip
def test_what_is_no_weather(text: str) -> None:
    """Warm or cold things, questions, and air as hot as a pit."""
    assert "air " not in plain(read(text, setting(HERE)))


@pytest.mark.parametrize("text", ["windy", "too windy", "cold and windy", "no ban but windy"])
@pytest.mark.parametrize("stage", ["stage=before", "stage=fire"])
def test_before_the_meat_is_on_wind_is_an_answer_about_the_fire(text: str, stage: str) -> None:
    """Too windy for a flame is never taken as a mere note of the weather."""
    assert plain(read(text, setting(stage, "rules_recheck"))) == "done rules_recheck, stop"


@pytest.mark.parametrize(
    ("text", "hours", "asked", "understood"),
    [
        ("windy", 72, "", "air windy"),
        ("very windy", 72, "", "air windy"),
        ("cold and windy", 72, "", "air cold windy"),
        ("windy", 72, "rules_recheck", "done rules_recheck, stop"),
        ("windy", 1, "", "done rules_recheck, stop"),
        ("too windy", 72, "", "done rules_recheck, stop"),
        ("fire ban", 72, "", "done rules_recheck, stop"),
    ],
)
def test_wind_long_before_the_fire_is_the_air(text: str, hours: float, asked: str, understood: str) -> None:
    """Days before the fire is lit wind is weather, unless ban and wind are asked for just now or are said to forbid it;
    near the lighting it stops the fire.
    """
    assert plain(read(text, setting(f"stage=before lights_in_h={hours}", asked))) == understood


def test_calm_alone_does_not_clear_a_fire() -> None:
    """That it is calm says nothing about a ban: the step of safety stays open."""
    assert plain(read("calm", setting("stage=before", "rules_recheck"))) == "air calm"


@pytest.mark.parametrize(
    ("text", "understood"),
    [
        ("brisket 6 kg dinner 18:00 pit 250 hot day", "pit 121, dinner 18:00, air hot"),
        ("brisket 6 kg, air 5 C, dinner 18:00, pit 250", "pit 121, dinner 18:00, air 5.0"),
        ("brisket 6 kg, dinner 18:00, pit 250, cold and windy", "pit 121, dinner 18:00, air cold windy"),
    ],
    ids=["word", "number", "both"],
)
def test_a_set_up_may_tell_of_the_air(text: str, understood: str) -> None:
    """In the one sentence, too."""
    said = plain(read(text, setting("stage=none unit=-")))
    assert said == f"draft cut brisket_packer, mass 6.00 kg, {understood}"


def test_air_of_nobody_knows_which_unit_is_left_out() -> None:
    """20 outside may be frost or summer: it is named as not used."""
    said = plain(read("brisket, air 20", setting("stage=none unit=-")))
    assert said == "draft cut brisket_packer, ignored 20"


def test_over_several_messages_warmth_and_wind_are_kept_apart() -> None:
    """The newer word replaces only what it is about."""
    draft = merge(Draft(air=AirSaid(word="cold", wind="windy")), Draft(air=AirSaid(wind="calm")))
    assert draft.air == AirSaid(word="cold", wind="calm")
    assert merge(draft, Draft(air=AirSaid(temp_c=4.0))).air == AirSaid(temp_c=4.0, wind="calm")
    assert merge(draft, Draft(count=2)).air == draft.air
