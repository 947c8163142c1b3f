"""Wishes about the plan as people type them, beside near relatives that are something else.

What a wish does is tested with its answer.
"""

from __future__ import annotations

import pytest

from bot.commands import Ask, Topic
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


@pytest.mark.parametrize(
    ("text", "understood"),
    [
        ("no more spritz prompts", "mute spritz"),
        ("stop asking about fuel", "mute fuel_check"),
        ("stop asking about charcoal", "mute fuel_check"),
        ("don't remind me of sides", "mute sides"),
        ("mute the pit", "mute pit_check"),
        ("turn the wood prompts off", "mute wood_add"),
        ("don't spritz", "mute spritz"),
        ("never ask about the ash", "mute ash"),
        ("remind me of sides again", "tell sides"),
        ("I want spritz prompts", "tell spritz"),
        ("unmute fuel", "tell fuel_check"),
        ("what do you tell me?", "ask told"),
        ("what is switched off", "ask told"),
    ],
)
def test_prompts_of_a_kind_are_switched_off_and_on(text: str, understood: str) -> None:
    """A step named together with a word for its prompts or for asking is about those prompts."""
    assert meant(text) == understood
    assert meant(text, MUTED) == understood


def test_a_step_again_is_about_its_prompts_only_while_they_are_off() -> None:
    """Spritz again switches on what was switched off; else, and as a thing done, it stays a report."""
    assert meant("spritz again", MUTED) == "tell spritz"
    assert meant("spritz again") == "done spritz"
    assert meant("spritzed again", MUTED) == "done spritz"
    assert meant("pit 250 again", MUTED) == "reading pit 121.1"


@pytest.mark.parametrize(
    ("text", "understood"),
    [
        ("no more wood", "skip wood_add"),
        ("skip the spritz", "skip spritz"),
        ("stop the cook", "call off"),
        ("fuel low again", "done fuel_check, low"),
        ("no wrap", "wrap none"),
    ],
)
def test_a_step_left_out_once_is_no_kind_switched_off(text: str, understood: str) -> None:
    """Without a word for asking it is this one time, or something else."""
    assert meant(text) == understood


@pytest.mark.parametrize(
    ("text", "understood"),
    [
        ("the usual", "tell usual"),
        ("just the usual please", "tell usual"),
        ("every step", "tell every"),
        ("only decisions", "tell decisions"),
        ("tell me only decisions", "tell decisions"),
        ("tell me less", "tell decisions"),
        ("no more prompts", "tell decisions"),
        ("all steps", "ask plan_rest"),
        ("tell me everything", "ask plan_rest"),
    ],
)
def test_how_much_is_told_is_one_plain_word(text: str, understood: str) -> None:
    """Three levels, each by its name alone; asking for the whole plan is not one of them."""
    assert meant(text) == understood


@pytest.mark.parametrize(
    ("text", "understood"),
    [
        ("be 95 % sure", "sure 0.95"),
        ("be 95% sure", "sure 0.95"),
        ("I want to be 90% sure", "sure 0.9"),
        ("plan for 70 %", "sure 0.7"),
        ("make it 95 percent certain", "sure 0.95"),
        ("95 sure", "sure 0.95"),
        ("be 100 % sure", "sure 1"),
        ("safer", "sure safer"),
        ("play it safe", "sure safer"),
        ("be more sure", "sure safer"),
        ("less sure", "sure bolder"),
    ],
)
@pytest.mark.parametrize("here", [PLANNED, RUNNING])
def test_how_sure_dinner_is_to_be(text: str, understood: str, here: str) -> None:
    """A share of a hundred with a word of certainty, or a word for more or less of it."""
    assert meant(text, here) == understood


@pytest.mark.parametrize(
    ("text", "understood"),
    [
        ("is it safe?", "ask safe"),
        ("safe?", "ask safe"),
        ("95", "question slot [core: reading core 35.0 | pit: reading pit 35.0]"),
        ("humidity 70 %", "question not_understood"),
        ("I am not sure", "note"),
    ],
)
def test_other_shares_and_safety_are_no_certainty(text: str, understood: str) -> None:
    """Whether it is safe is a question, a bare figure a reading, and a share of something else is nothing."""
    assert meant(text) == understood


@pytest.mark.parametrize(
    ("text", "understood"),
    [
        (
            "brisket 6 kg, dinner 18:00 saturday, pit 250, be 95 % sure",
            "draft cut brisket_packer, mass 6.00 kg, pit 121, dinner 18:00, sure 0.95",
        ),
        (
            "brisket 6 kg, 90% sure, dinner 18:00 saturday, pit 250, only decisions",
            "draft cut brisket_packer, mass 6.00 kg, pit 121, dinner 18:00, sure 0.9, tell decisions",
        ),
        ("pork butt, every step", "draft cut pork_butt, tell every"),
        (
            "brisket 6 kg, dinner 18:00 saturday, pit 250",
            "draft cut brisket_packer, mass 6.00 kg, pit 121, dinner 18:00",
        ),
    ],
)
def test_certainty_and_level_in_the_sentence_that_sets_up(text: str, understood: str) -> None:
    """Both may stand anywhere in the sentence, and no figure of it is taken for a pit."""
    assert meant(text, "stage=none unit=F now=07:00") == understood


@pytest.mark.parametrize(
    ("text", "understood"),
    [
        ("why?", "ask why"),
        ("why salt?", "ask why"),
        ("why now?", "ask why"),
        ("but why do you ask that?", "ask why"),
        ("why do I have to spritz", "ask why"),
        ("what if I skip it?", "ask if_skipped"),
        ("what if we skip the spritz", "ask if_skipped"),
        ("can I skip the trim?", "ask if_skipped"),
        ("is this necessary?", "ask if_skipped"),
        ("other plans", "ask ways"),
        ("other ways", "ask ways"),
        ("alternatives", "ask ways"),
        ("show me the other plans", "ask ways"),
        ("what if pit 275", "suppose pit 135"),
        ("what if the pit was at 275?", "suppose pit 135"),
        ("how about 275?", "suppose pit 135"),
        ("what if dinner is at 19:00", "suppose dinner 19:00"),
        ("what if we eat at 7?", "suppose dinner 19:00"),
        ("what if we start at 23:00", "suppose light at 23:00"),
        ("what if the meat goes on at 9", "suppose on at 21:00"),
        ("what if we start an hour later", "suppose 60 min later"),
        ("what if we light 30 minutes earlier", "suppose 30 min earlier"),
        ("what if dinner is at 19:00 and pit 275", "suppose dinner 19:00, pit 135"),
    ],
)
@pytest.mark.parametrize("here", [PLANNED, RUNNING])
def test_questions_about_the_plan(text: str, understood: str, here: str) -> None:
    """Why, what without it, which other ways, and what if: asked at any stage, and nothing is told by them."""
    assert meant(text, here) == understood


@pytest.mark.parametrize(
    ("text", "understood"),
    [
        ("why is it stuck?", "ask stall"),
        ("why did it stall?", "ask stall"),
        ("what if foil", "ask what_if"),
        ("what if we wrap in paper", "ask what_if"),
        ("what if I don't wrap", "ask what_if"),
        ("options", "ask levers"),
        ("dinner at 19:00", "dinner 19:00"),
        ("pit to 275", "pit to 135"),
        ("skip it", "skip ?"),
        ("can we eat at 7?", "ask how_long"),
        ("what if it reads 210", "question not_understood"),
        ("what about the fire going out", "question not_understood"),
    ],
)
def test_near_relatives_of_questions_about_the_plan(text: str, understood: str) -> None:
    """A stall, a wrap, the levers, a change and a report stay what they were; what nobody can suppose is asked back."""
    assert meant(text) == understood


RESTING = "unit=F stage=resting on=07:00 serving=18:00"


@pytest.mark.parametrize(
    ("text", "understood"),
    [
        ("rest in the oven at 170", "rest oven at 77"),
        ("hold it in a warm oven, 75 c", "rest oven at 75"),
        ("it goes into the oven until dinner", "rest oven"),
        ("holding in the cooker", "rest cooker"),
        ("it will be held in the smoker", "rest cooker"),
        ("rest in the cooler", "rest box"),
        ("let it rest on the board", "rest board"),
        ("oven at 170", "rest oven at 77"),
        ("shorten the rest to 30 min", "rest 30 min"),
        ("rest 45 min", "rest 45 min"),
        ("only 30 min of rest", "rest 30 min"),
        ("let it rest an hour", "rest 60 min"),
    ],
)
@pytest.mark.parametrize("here", [PLANNED, RUNNING, RESTING])
def test_how_the_meat_is_to_rest(text: str, understood: str, here: str) -> None:
    """A place with a word for resting, an oven with its set point, a length of the rest: wished at any stage."""
    assert meant(text, here) == understood


@pytest.mark.parametrize(
    ("text", "cooking", "resting"),
    [
        ("it's in the oven at 170", "question not_understood", "rest oven at 77 now"),
        ("into the oven", "question not_understood", "rest oven now"),
        ("in the cooler", "done box_meat", "done box_meat"),
        ("boxed", "done box_meat", "done box_meat"),
        ("resting", "done box_meat", "done box_meat"),
        ("rest", "ask plan_rest", "ask plan_rest"),
        ("rest?", "ask rest", "ask rest"),
        ("how long will it rest", "ask rest", "ask rest"),
        ("rest in 20 min", "ask ? again in 20 min", "ask ? again in 20 min"),
        ("pit holding 250", "reading pit 121.1", "reading pit 121.1"),
        ("finish it in the oven", "question not_understood", "done box_meat"),
        ("oven at 350", "question not_understood", "question not_understood"),
    ],
)
def test_where_it_lies_is_told_once_it_is_off(text: str, cooking: str, resting: str) -> None:
    """What lies in an oven is told of meat that rests; a box is a step done, and a pit that holds is a reading."""
    assert (meant(text), meant(text, RESTING)) == (cooking, resting)


@pytest.mark.parametrize(
    ("text", "step"),
    [("why salt the meat?", "dry_brine"), ("why read the meat?", "core_read"), ("why trim the meat?", "trim")],
)
def test_why_is_about_the_step_and_not_about_the_meat(text: str, step: str) -> None:
    """Words about the meat stand in many sentences: the verb says which step is meant."""
    (asked,) = read(text, setting(PLANNED))
    assert isinstance(asked, Ask)
    assert (asked.topic, asked.step) == (Topic.WHY, step)
