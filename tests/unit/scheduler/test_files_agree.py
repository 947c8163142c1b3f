"""The data files do not contradict one another: cuts and steps, cuts and levers, and what code names of them."""

from __future__ import annotations

import tomllib

import pytest

from bot.backtest.kinds import _NEAREST
from bot.backtest.kinds import USUAL as STAND_IN
from bot.messages.setup import USUAL
from scheduler.cuts import Cut
from scheduler.cuts.cut import PAYS_UNTIL_C
from scheduler.facts import Wrap
from scheduler.planning.series import BARK_STEP_C
from scheduler.planning.steps import AtCore
from tests.catalogue import CUTS, TEXTS
from tests.unit.scheduler.logbook import CATALOGUE

STEPS = CATALOGUE.steps.steps
LEVERS = [
    lever
    for place, text in TEXTS.items()
    if place.startswith("levers/")
    for lever in tomllib.loads(text)["levers"]
]  # fmt: skip
ASKED = [cut for cut in CUTS.cuts if cut.asks_bark]


def test_the_bark_is_asked_about_as_often_as_the_rule_says() -> None:
    """At most three times; again after 40 minutes, or 6 C if that is sooner."""
    step = CATALOGUE.steps.get("bark_check")
    assert step is not None
    assert step.repeat is not None
    assert (step.repeat.most, step.repeat.every_min, BARK_STEP_C) == (3, 40, 6.0)
    assert isinstance(step.anchor, AtCore)
    assert step.anchor.at == "bark_look"


@pytest.mark.parametrize("cut", ASKED, ids=lambda cut: cut.id)
def test_every_wrap_of_a_cut_can_be_answered(cut: Cut) -> None:
    """The look at the bark offers each wrap that the cut may have, and bare, and not yet."""
    step = CATALOGUE.steps.get("bark_check")
    assert step is not None
    assert {wrap.value for wrap in cut.wraps if wrap is not Wrap.NONE} | {"bare", "not_yet"} <= set(step.outcomes)


def test_levers_stop_wrapping_where_wraps_stop_paying() -> None:
    """Paper and a boat until 85 C, foil until 88 C, in every file that speaks of it."""
    wraps = {lever["wrap"]: lever for lever in LEVERS if lever["change"] == "wrap"}
    assert {Wrap(wrap): lever["core_until_c"] for wrap, lever in wraps.items()} == PAYS_UNTIL_C


@pytest.mark.parametrize("cut", ASKED, ids=lambda cut: cut.id)
def test_the_wrap_window_of_a_cut_lies_within_what_the_levers_offer(cut: Cut) -> None:
    """Somebody who is asked about the bark may wrap at once, and nobody is asked once no wrap pays."""
    for lever in LEVERS:
        if lever["change"] == "wrap" and Wrap(lever["wrap"]) in cut.wraps:
            assert lever["core_from_c"] <= cut.bark_look_c < lever["core_until_c"]
    assert cut.wrap_until_c <= max(PAYS_UNTIL_C[wrap] for wrap in cut.wraps if wrap is not Wrap.NONE)


@pytest.mark.parametrize("cut", CUTS.cuts, ids=lambda cut: cut.id)
def test_how_a_cut_holds_fits_how_long_it_rests(cut: Cut) -> None:
    """Well: hours even in a cold box, more in a warm one. A little: an hour or two. Not: two hours warm at most."""
    cold, warm = cut.rest_max_unheated_min, cut.rest_max_heated_min
    match cut.holds:
        case "well":
            assert cold >= 120
            assert warm >= 300
            assert cut.doneness == "feel"
        case "a_little":
            assert 60 <= cold <= 120
            assert 120 < warm <= 240
        case "not":
            assert cold <= 90
            assert warm <= 120
            assert cut.doneness == "temperature"


@pytest.mark.parametrize("cut", CUTS.cuts, ids=lambda cut: cut.id)
def test_what_is_felt_for_is_spritzed_and_what_is_not_is_left_alone(cut: Cut) -> None:
    """Only tough cuts are spritzed; rib plates until they are nearly tender, others until the bark may be wrapped."""
    if cut.doneness == "temperature":
        assert cut.spritz_every_min is None
        return
    assert cut.spritz_until_c is not None
    assert cut.bark_look_c < cut.spritz_until_c < cut.start_testing_c
    assert cut.bone_plate or cut.wood_until_c < cut.bark_look_c + 10


def test_what_code_names_of_the_cuts_exists() -> None:
    """The usual buttons, and what stands in for cuts that a log names and nobody knows."""
    named = {*USUAL, STAND_IN, *(cut for _, _, ids in _NEAREST for cut in ids)}
    assert named <= {cut.id for cut in CUTS.cuts}


def test_no_two_files_of_cuts_hold_the_same_animal_differently() -> None:
    """Every cut stands in a file that is called after its animal."""
    for place, text in TEXTS.items():
        if place.startswith("cuts/") and place != "cuts/safety":
            called = place.removeprefix("cuts/").split("_")[0]
            for entry in tomllib.loads(text)["cuts"]:
                assert {"sausages": "mixed"}.get(called, called) == entry["species"], entry["id"]


def test_every_step_that_goes_by_a_figure_of_the_cut_names_one() -> None:
    """An anchor at a core temperature is a figure that every cut has."""
    for step in STEPS:
        if isinstance(step.anchor, AtCore):
            assert f"{step.anchor.at}_c" in Cut.model_fields, step.id
