"""What goes wrong, as people report it, and near relatives that are no problem.

The cards that answer it belong to `bot.messages`.
"""

from __future__ import annotations

import dataclasses

import pytest

from bot.commands import DANGERS
from bot.conversation.interpreter import read
from bot.messages.problems import CARDS
from scheduler.planning.catalogue import read_catalogue
from tests.catalogue import TEXTS
from tests.unit.bot.conversation.spoken import plain, setting

COOKING = "stage=cooking unit=F pit_target=250F last_core=150F@13:00 on=07:00"
RESTING = "stage=resting unit=F pit_target=250F on=07:00"
BEFORE = "stage=before unit=F pit_target=250F"
SETTING_UP = "stage=none unit=F"

TOLD: dict[str, tuple[str, ...]] = {
    "burn": (
        "burned my hand",
        "I got burned",
        "Wren burnt her fingers on the lid",
        "scalded my arm",
        "my hand is burnt",
    ),
    "co_symptom": (
        "headache",
        "I have a headache",
        "Bashir feels sick",
        "dizzy",
        "feeling light-headed",
        "she fainted",
    ),
    "grease_fire": (
        "grease fire",
        "the fat is burning",
        "the tray caught fire",
        "flames out of the lid",
    ),
    "cooker_indoors": ("we moved the grill into the garage", "the smoker is in the tent", "smoke alarm went off"),
    "allergic_reaction": ("Wren is having an allergic reaction", "anaphylactic shock"),
    "choking": ("choking", "somebody is choking"),
    "guest_ill": ("a guest is vomiting", "Bashir threw up"),
    "fluid_on_fire": ("added lighter fluid on the embers",),
    "fire_spreads": ("fence is on fire", "the deck is on fire"),
    "sparks": ("sparks flying", "its very windy sparks flying"),
    "hot_ash": ("ash into the plastic bin",),
    "cooker_fell": ("the chimney fell over", "smoker tipped over"),
    "building_fire": ("hut is on fire", "smoke in the house"),
    "burn_severe": ("kid fell in the coals",),
    "collapsed": ("someone collapsed",),
    "cut": ("cut my finger",),
    "gas_smell": ("I smell gas",),
    "cooker_moving": ("moving the grill into the garage",),
    "danger_unclear": ("fire!!", "call an ambulance"),
    "left_out": ("I think the meat has been out for 3 hours", "food has been sitting out since noon"),
    "children_near": ("kids are playing around it", "children are running around the grill"),
    "lightning": ("lightning", "I hear thunder", "thunderstorm right here", "storm is coming"),
    "fire_out": ("fire went out", "the fire died", "no fire"),
    "fuel_out": ("outta coal", "we are out of charcoal", "charcoal is gone"),
    "wont_light": ("it won't light", "can't get it to catch", "charcoal is damp"),
    "yo_yo": ("pit is up and down", "temp keeps swinging", "pit is all over the place", "it's a yo-yo"),
    "pit_hot": ("pit won't come down", "pit ran away", "pit is too hot"),
    "pit_cold": ("pit is too cold", "can't get it above 200", "won't hold temp"),
    "dirty_smoke": ("thick white smoke", "smoke is yellow", "smoke is really thick", "billowing"),
    "flare_up": ("flare up", "flaring", "the meat's on fire"),
    "wind": ("gusts are feeding the fire", "wind keeps blowing it out", "the wind is feeding it"),
    "rain": ("it's raining", "started to rain", "pouring", "downpour here"),
    "cold": ("snowing", "it's below freezing", "ice on the path"),
    "heat": ("heatwave", "scorching out here"),
    "fire_ban_now": ("burn ban just announced", "fire marshal says put it out", "they told us to stop"),
    "probe_bone": (
        "probe reads 210 already",
        "reads 210 already",
        "probe is on the bone",
        "hit the bone",
        "probes disagree",
    ),
    "probe_air_fat": ("probe is in fat", "probe slipped", "core dropped after the spritz", "it's in a fat seam"),
    "probe_dead": ("the probe is dead", "thermometer broke"),
    "pit_gauge_wrong": ("dial is off", "lid says 300 but the grate says 250", "the gauge is wrong"),
    "probe_wire_fire": ("the wire is melting", "probe wire burnt", "cable is in the hinge"),
    "stall_long": ("stuck for 3 hours", "hasn't moved for ages", "the stall is taking forever", "it won't budge"),
    "dropped": ("dropped it", "dropped the brisket", "meat fell on the floor"),
    "dropped_raw": ("it was raw when it fell",),
    "dropped_done": ("it was done when it fell",),
    "cross_contamination": ("used the same tray as the raw chicken", "brushed it with the raw marinade"),
    "reader_other": ("I have another thermometer now", "another thermometer"),
    "reader_wrong": ("the thermometer is off by 15", "my thermometer is wrong"),
    "frozen_middle": ("still frozen in the middle", "meat is icy", "it hasn't thawed"),
    "over_salted": ("salted twice", "it's way too salty", "salted it twice"),
    "no_salt": ("forgot to salt it", "forgot the dry brine", "we never salted it"),
    "dry_flat": ("flat is dry", "the chicken came out too dry", "it's a bit dry"),
    "bark_soft": ("bark is soggy", "the bark washed off", "bark is soft"),
    "lid_open": ("lid was open the whole time", "we left the lid open", "forgot to close the lid"),
    "pink_inside": ("it is pink inside", "meat is pink", "still red near the bone"),
    "skin_rubbery": ("skin is rubbery", "the skin came out soft"),
    "eaten": ("the dog ate one rack", "somebody stole a rack", "the dog got it"),
    "bark_dark": ("bark is burnt", "bark is black", "bark is getting too dark", "burnt bark"),
    "over_tender": ("it's mush", "the butt is overcooked", "it's overdone"),
    "phone_dead": ("phone is dying", "battery at 3%", "power is out", "no signal here"),
    "bot_silent": ("you were silent", "you didn't wake me", "no message from you", "are you there"),
    "guests_late": ("guests are late", "they're stuck in traffic", "waiting for people"),
    "guests_early": ("guests are early", "people are already here"),
    "helper_missing": ("Bashir isn't answering", "can't reach Tomas", "nobody is awake"),
    "two_bosses": ("Tomas says wrap but Wren says don't", "we can't agree on the wrap", "conflicting orders"),
    "hold_low": ("the box went cold", "cooler is cold", "box is below 140"),
    "too_tough_at_dinner": ("it's still tough", "chewy"),
}
"""Each problem of the catalogue in free words."""

AFTER_THE_PULL = {"hold_low", "too_tough_at_dinner"}
BEFORE_THE_MEAT = {"wont_light", "frozen_middle", "no_salt"}

NEAR = (
    ("burnt ends on Sunday", "burn"),
    ("the bark got burnt", "burn"),
    ("coals burned down", "burn"),
    ("this cook is a headache", "co_symptom"),
    ("no rain", "rain"),
    ("it might rain later", "rain"),
    ("stopped raining", "rain"),
    ("pouring the juice back", "rain"),
    ("rain expected tonight", "rain"),
    ("lightning fast", "lightning"),
    ("no gusts", "wind"),
    ("temp dropped to 230", "dropped"),
    ("pit dropped 10", "dropped"),
    ("not dry at all", "dry_flat"),
    ("patted it dry", "dry_flat"),
    ("dry rub is on", "dry_flat"),
    ("smoke is not thick any more", "dirty_smoke"),
    ("thin blue smoke", "dirty_smoke"),
    ("bones show", "probe_bone"),
    ("bone pulls out clean", "probe_bone"),
    ("not pink inside", "pink_inside"),
    ("the kids ate at six", "eaten"),
    ("the dog ate one rack", "dropped"),
    ("no ban", "fire_ban_now"),
    ("ban was lifted", "fire_ban_now"),
    ("not frozen", "frozen_middle"),
    ("not too salty", "over_salted"),
    ("guests aren't late", "guests_late"),
    ("the lid isn't coming off", "helper_missing"),
    ("probe says 170 but the second says 168", "two_bosses"),
    ("tough night", "too_tough_at_dinner"),
    ("had a flare up, under control", "flare_up"),
)
"""Words that look like a problem and are none."""


def _said(text: str, where: str) -> str:
    return plain(read(text, setting(where)))


def test_every_problem_of_the_catalogue_is_told_here_and_has_a_card() -> None:
    """The catalogue, the cards and these words name the same problems: the 38 of the trade, the flame by itself, and
    what people tell besides: danger, dirt, a wrong thermometer.
    """
    problems = read_catalogue(dict(TEXTS)).remedies.problems
    assert {problem.id for problem in problems} == set(CARDS) == set(TOLD)
    assert len(problems) == 66
    assert {problem.id for problem in problems if problem.danger} == DANGERS


@pytest.mark.parametrize(("what", "text"), [(what, text) for what, texts in TOLD.items() for text in texts])
def test_a_problem_is_understood_in_free_words(what: str, text: str) -> None:
    """Each way of telling it names the problem; figures beside it stay readings."""
    where = RESTING if what in AFTER_THE_PULL else BEFORE if what in BEFORE_THE_MEAT else COOKING
    assert _said(text, where).split(" + ")[0] == f"trouble {what}"


@pytest.mark.parametrize(("text", "what"), NEAR)
def test_a_near_relative_is_no_problem(text: str, what: str) -> None:
    """Words that only look like a problem report none."""
    for where in (COOKING, RESTING):
        assert f"trouble {what}" not in _said(text, where)


@pytest.mark.parametrize("what", sorted(DANGERS))
@pytest.mark.parametrize("where", [SETTING_UP, BEFORE, COOKING, RESTING])
def test_danger_is_heard_at_any_stage(what: str, where: str) -> None:
    """People in danger are understood with or without a cook, whatever is asked at the moment."""
    for text in TOLD[what]:
        assert _said(text, where) == f"trouble {what}"


def test_a_number_that_comes_along_is_a_reading_of_the_meat() -> None:
    """A probe that reads 210 already tells a number and doubts it."""
    assert _said("probe reads 210 already", COOKING) == "trouble probe_bone + reading core 98.9"
    assert _said("stuck at 163 for 3 hours", COOKING) == "trouble stall_long + reading core 72.8"


@pytest.mark.parametrize(
    ("asked", "text"),
    [
        ("smoke_clean", "white smoke"),
        ("bark_check", "bark is soft"),
        ("tender_test", "still tough"),
        ("rules_recheck", "burn ban"),
    ],
)
def test_the_answer_to_a_question_is_no_problem(asked: str, text: str) -> None:
    """What was asked for is an answer, even in the words of a problem."""
    where = {"rules_recheck": BEFORE, "smoke_clean": "stage=fire unit=F pit_target=250F"}.get(asked, COOKING)
    assert not plain(read(text, setting(where, asked))).startswith("trouble")


@pytest.mark.parametrize("text", ["fixed", "all good now", "it stopped", "relit", "it's over", "everybody is out"])
def test_the_end_of_a_problem_needs_one_that_stands(text: str) -> None:
    """The same words end a problem that stands, and say nothing of one where none does."""
    context = setting(COOKING)
    standing = dataclasses.replace(context, troubles=("rain",))
    assert plain(read(text, standing)) == "trouble over"
    assert plain(read(text, context)) != "trouble over"


@pytest.mark.parametrize(
    "text",
    [
        "what can I do?",
        "running late",
        "we're running late",
        "too early",
        "it's too slow",
        "options?",
        "speed it up",
        "/late",
    ],
)
def test_what_can_be_done_can_be_asked_at_any_time(text: str) -> None:
    """Asked in these words, nothing is stored."""
    for where in (BEFORE, COOKING, RESTING):
        assert _said(text, where) == "ask levers"


@pytest.mark.parametrize(
    "text",
    [
        "can we pause it",
        "pause the cook",
        "can I let the fire go out",
        "let the fire die out overnight and finish tomorrow",
        "take it off and finish it tomorrow",
        "finish it in the morning",
    ],
)
def test_a_pause_is_understood_as_one(text: str) -> None:
    """Wishes to interrupt half-cooked meat are heard as such, to be refused."""
    assert _said(text, COOKING) == "pause"


@pytest.mark.parametrize("text", ["finished trimming", "fire is out", "ash in the morning", "pull it", "cook"])
def test_near_relatives_of_a_pause_are_none(text: str) -> None:
    """Ordinary reports are no wish to pause."""
    assert _said(text, COOKING) != "pause"
