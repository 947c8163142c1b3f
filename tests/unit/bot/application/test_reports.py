"""What is said after a report: a receipt for each kind, an echo for the others, doubt, the stall, and the pit."""

from __future__ import annotations

import re

import pytest

from tests.fakes.kitchen import PlayedKitchen, on

# --- receipts -------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("pit 272", "Pit 272 F, 10:00."),
        ("meat 110", "Meat 110 F, 10:00."),
        ("272/110", "Pit 272 F, meat 110 F, 10:00."),
        ("43c", "Meat 109 F, 10:00."),
        ("meat about 110", "Meat about 110 F, 10:00."),
        ("meat 110 at 9:50", "Meat 110 F, 09:50."),
        ("fuel half", "Fuel: half, 10:00."),
        ("wrapped in paper", "Wrapped in paper, 10:00."),
        ("wrapped in foil at 9:55", "Wrapped in foil, 09:55."),
        ("still tight", "Still tight, 10:00."),
        ("dinner at 7", "Dinner moved to 19:00."),
        ("pit to 250", "Pit to 250 F from now."),
        ("will wrap in foil", "Plan: 7 pieces, wrap: foil. I tell the usual steps."),
        (
            "only decisions",
            "I tell only decisions, and whatever is about safety.",
        ),
    ],
)  # fmt: skip
def test_every_kind_of_report_has_a_receipt(ribs: PlayedKitchen, typed: str, said: str) -> None:
    """What was taken is said back in the first line, in the unit of the room, with the time it counts from."""
    ribs.until(on("10:00"))
    answer = ribs.say("Ines", typed)
    assert answer.lines[0] == said
    assert answer.last.startswith("Next: ")


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("skip", "Skipped: read the pit."),
        ("in 25", "To be asked again at 09:35: read the pit."),
        ("not yet", "To be asked again at 09:30: read the pit."),
    ],
)
def test_an_open_question_may_be_put_off_or_skipped(ribs: PlayedKitchen, typed: str, said: str) -> None:
    """Skip, in so many minutes, not yet: each is about the open question, and says which one that is."""
    ribs.until(on("09:10"))
    assert ribs.say("Ines", typed).lines[0] == said


def test_several_reports_in_one_text(planned: PlayedKitchen) -> None:
    """Each thing in one message is taken, and all of them are said back in one line."""
    planned.until(on("08:30"))
    planned.say("Ines", "no ban")
    planned.say("Ines", "lit at 7:40")
    answer = planned.say("Ines", "thin, pit 270, probe in")
    assert answer.lines[0] == "Pit 270 F, smoke: thin, probe is in, 08:30."


def test_reports_of_different_times_each_have_their_own(ribs: PlayedKitchen) -> None:
    """Two things of one message that happened at different times are said back with a time each."""
    ribs.until(on("10:40"))
    answer = ribs.say("Ines", "meat 128, fuel half at 10:15")
    assert answer.lines[0] in {"Meat 128 F, 10:40; fuel: half, 10:15.", "Meat 128 F, fuel: half, 10:15."}


def test_a_reply_is_dated_by_when_it_was_sent(ribs: PlayedKitchen) -> None:
    """A message that arrives late counts from when it was sent."""
    ribs.until(on("10:20"))
    assert ribs.say("Ines", "meat 110", at=on("10:02")).lines[0] == "Meat 110 F, 10:02."


def test_a_bare_number_answers_the_open_question(ribs: PlayedKitchen) -> None:
    """With the pit asked for, a number is the pit; with the meat asked for, the meat."""
    ribs.until(on("09:11"))
    assert ribs.say("Ines", "272").lines[0] == "Pit 272 F, 09:11."


def test_done_is_no_number(ribs: PlayedKitchen) -> None:
    """Saying "done" to a question for a number measures nothing: the number is asked for, the question stays open."""
    ribs.until(on("09:11"))
    assert ribs.say("Ines", "done").lines[0] == "Good. And the number?"
    assert [prompt.step.id for prompt in ribs.situation.waiting] == ["pit_check"]


def test_wrapped_without_saying_in_what(ribs: PlayedKitchen) -> None:
    """Saying "Wrapped" asks in what; the button closes it."""
    ribs.until(on("12:00"))
    asked = ribs.say("Ines", "wrapped")
    assert asked.lines[0] == "Wrapped in what?"
    assert asked.labels == ("Paper", "Foil")
    assert ribs.tap("Ines", "Paper").lines[0] == "Wrapped in paper, 12:00."


def test_a_number_that_may_be_either_is_asked_about(ribs: PlayedKitchen) -> None:
    """A number that could be meat or pit brings one short question, and the button settles it."""
    ribs.until(on("10:45"))
    ribs.say("Ines", "272/128")
    asked = ribs.say("Ines", "190")
    assert asked.lines[0] == "190: the meat or the pit?"
    assert asked.labels == ("The meat", "The pit")
    assert "Pit 190 F, 10:45." in ribs.tap("Ines", "The pit").lines


def test_a_temperature_that_no_meat_has(ribs: PlayedKitchen) -> None:
    """An impossible number is refused with what is possible, and is kept as a note."""
    ribs.until(on("10:00"))
    answer = ribs.say("Ines", "meat 900")
    assert answer.text.startswith("900 is not a temperature I can believe. Meat lies between 23 F and 212 F")
    assert ribs.notes == ["meat 900"]


def test_what_is_not_understood_is_kept(ribs: PlayedKitchen) -> None:
    """One kind sentence quotes what was not understood; the words are in the log and the answer tells what comes."""
    answer = ribs.say("Ines", "blue umbrellas everywhere")
    assert answer.text.startswith('I did not get "blue umbrellas everywhere". I kept it as a note.')
    assert answer.last.startswith("Next: ")
    assert ribs.notes == ["blue umbrellas everywhere"]


def test_nothing_is_open(ribs: PlayedKitchen) -> None:
    """Saying "Done" with nothing open for an hour changes nothing and says where to look."""
    ribs.until(on("09:10"))
    ribs.say("Ines", "pit 272")
    assert 'Nothing is open that this could answer. "what next" tells what comes.' in ribs.say("Ines", "all done").text


# --- the others -----------------------------------------------------------------------------------------------------


def test_the_others_see_one_silent_line(ribs: PlayedKitchen) -> None:
    """What one person reports is echoed to the other window with the name, silently, and with what comes next."""
    ribs.until(on("10:00"))
    answer = ribs.say("Tomas", "meat 110")
    (echo,) = ribs.told("Ines")
    assert echo.text.startswith("Tomas: Meat 110 F, 10:00.")
    assert echo.outgoing.silent
    assert not answer.outgoing.silent
    assert echo.last == answer.last


def test_a_note_is_passed_on_in_its_own_words(ribs: PlayedKitchen) -> None:
    """A problem told by one is told to the others in the words it was told in, and answered with what to do."""
    answer = ribs.say("Tomas", "the fire went out")
    assert answer.text.startswith("Lit charcoal from a chimney; the meat stays in the closed cooker meanwhile.")
    (echo,) = ribs.told("Ines")
    assert echo.lines[0] == 'Tomas says: "the fire went out"'


def test_a_question_is_answered_to_the_asker_alone(ribs: PlayedKitchen) -> None:
    """What somebody asks is nobody else's message."""
    ribs.say("Tomas", "how long")
    assert ribs.told("Ines") == []


def test_done_already_by_the_same_person(ribs: PlayedKitchen) -> None:
    """Told twice by one person: said kindly with the first time, and not counted twice."""
    length = len([f for f in ribs.cook.facts if f.body.kind == "step_done"])
    assert ribs.say("Ines", "lit").lines[0] == "I have that down at 07:40 already: light the fire."
    assert len([f for f in ribs.cook.facts if f.body.kind == "step_done"]) == length


def test_done_already_by_somebody_else(ribs: PlayedKitchen) -> None:
    """Told by two: the second is thanked, and told who was first and when."""
    assert ribs.say("Tomas", "meat is on").lines[0] == "Thanks. Ines told me at 08:40 already: meat on."


# --- doubt ----------------------------------------------------------------------------------------------------------


@pytest.fixture
def doubted(ribs: PlayedKitchen) -> PlayedKitchen:
    """Return the ribs after a reading that does not fit the one before."""
    ribs.until(on("10:40"))
    ribs.say("Ines", "272/128")
    ribs.later(5)
    ribs.say("Tomas", "meat 190")
    return ribs


def test_a_reading_that_does_not_fit_is_kept_aside(doubted: PlayedKitchen) -> None:
    """Sixty degrees in five minutes: both are named, a third is asked for, and the forecast does not move."""
    (answer,) = doubted.told("Tomas")
    assert answer.lines[0] == (
        "Two readings: Ines 128 F, Tomas 190 F. The lower one stands until a third. What does it say, off bone and fat?"
    )
    assert answer.labels == ("190 F is right", "128 F is right", "Both, two spots")
    assert doubted.told("Ines")[0].lines[0] == f"Tomas: {answer.lines[0]}"
    assert "meat 128 F" in doubted.say("Ines", "how long").text


def test_one_person_who_reads_twice_hears_it_once(ribs: PlayedKitchen) -> None:
    """Two numbers of one person on either side of the minimum: a second spot is asked for and the lower one stands, in
    one sentence; that two readings differ is not said again beside it, nor in the other rooms.
    """
    ribs.until(on("10:40"))
    ribs.say("Ines", "272/128")
    ribs.later(5)
    answer = ribs.say("Ines", "meat 190")
    assert answer.lines[0] == (
        "190 F does not fit 128 F at 10:40. The lower one stands until a second spot is read. "
        "What does it say, off bone and fat?"
    )
    (echo,) = ribs.told("Tomas")
    for said in (answer.text, echo.text):
        assert said.count("The lower one stands") == 1
        assert "two readings differ" not in said
        assert "keep it aside" not in said
    assert "Measured safe" not in ribs.say("Ines", "is it safe").text


def test_a_number_long_after_the_other_is_kept_aside_alone(ribs: PlayedKitchen) -> None:
    """Fifteen minutes later it is no second spot of the same moment: the number is kept aside, nothing else stands."""
    ribs.until(on("10:40"))
    ribs.say("Ines", "272/128")
    ribs.later(15)
    answer = ribs.say("Ines", "meat 190")
    assert answer.lines[0].endswith("I keep it aside. What does a second spot say, off bone and fat?")
    assert "lower one" not in answer.text


def test_the_button_says_that_it_is_right(doubted: PlayedKitchen) -> None:
    """Confirmed by its button, the reading counts, and what it moves is told."""
    answer = doubted.tap("Tomas", "190 F is right")
    assert answer.lines[0] == "Meat 190 F, 10:45."
    assert "runs faster than I said" in answer.text
    assert "Meat 190 F" in doubted.told("Ines")[0].text


@pytest.mark.parametrize("typed", ["190 f is right", "190 is right", "190F is right."])
def test_the_words_of_the_button_say_so_too(doubted: PlayedKitchen, typed: str) -> None:
    """The label of the button may be typed, with its unit or without."""
    assert doubted.say("Tomas", typed).lines[0] == "Meat 190 F, 10:45."


def test_a_second_spot_settles_it(doubted: PlayedKitchen) -> None:
    """A second spot that agrees confirms the first one; one that does not leaves it aside."""
    assert "runs faster than I said" in doubted.say("Tomas", "meat 189").text


def test_a_second_spot_that_disagrees_leaves_it_aside(doubted: PlayedKitchen) -> None:
    """A second spot near the old value counts by itself; the doubtful one moves nothing."""
    answer = doubted.say("Tomas", "meat 131")
    assert answer.lines[0] == "Meat 131 F, 10:45."
    assert "faster" not in answer.text


# --- stall and pit ----------------------------------------------------------------------------------------------------


def test_the_stall_is_told_when_it_begins_and_when_it_is_over(ribs: PlayedKitchen) -> None:
    """A calm sentence with its likely end when it begins, one when it climbs again, and none in between."""
    stall = []
    for clock, core in (
        ("10:30", 130), ("11:30", 150), ("12:00", 158), ("12:30", 160), ("13:00", 161), ("13:30", 161), ("14:30", 171)
    ):  # fmt: skip
        ribs.until(on(clock))
        answer = ribs.say("Ines", f"275/{core}")
        stall += [(clock, line) for line in answer.lines if "stall" in line]
        echoed = [line for line in ribs.told("Tomas")[0].lines if "stall" in line]
        assert echoed == [line for line in answer.lines if "stall" in line]
    begun, over = stall
    assert begun[0] == "12:30"
    assert re.fullmatch(
        r"The stall has begun, near 160 F\. Likely over (near 1\d:\d\d \(.* to .*\)|by 1\d:\d\d)\. "
        r"Check pit and fuel, then touch nothing\.",
        begun[1],
    )
    assert over == ("14:30", "It is climbing again: the stall is over.")


@pytest.mark.parametrize(
    ("pit", "advice"),
    [(315, "That is above 275 F: close the vents"), (240, "That is below 275 F: clear the ash"), (275, None)],
)
def test_a_pit_out_of_its_band_brings_one_thing_to_do(ribs: PlayedKitchen, pit: int, advice: str | None) -> None:
    """Too hot and too cold each bring one small move; a pit in its band brings none."""
    ribs.until(on("09:40"))
    second = ribs.say("Ines", f"pit {pit}").lines[1]
    assert second.startswith(advice or "Next: ")


@pytest.mark.parametrize(("trouble", "first_words"), [
    ("we are out of charcoal", "Add lit charcoal now"),
    ("the pit is running away", "Close top and bottom a little"),
    ("the probe is dead", "Use a hand reader"),
    ("flare up", "Lid shut, vents shut"),
])  # fmt: skip
def test_a_problem_told_unasked_is_answered_with_what_to_do(
    ribs: PlayedKitchen, trouble: str, first_words: str
) -> None:
    """Each problem has its sentence; it is kept, and the answer ends with what comes."""
    answer = ribs.say("Ines", trouble)
    assert answer.text.startswith(first_words)
    assert answer.last.startswith("Next: ")


def test_meat_first_read_at_its_safe_minimum_is_told_once(ribs: PlayedKitchen) -> None:
    """When the safe minimum is first measured it is told with number, limit and rest; not with every later reading."""
    ribs.until(on("11:40"))
    assert "Safe minimum passed where you read it: 152 F (it needs 145 F and 3 min" in ribs.say("Ines", "meat 152").text
    ribs.later(20)
    assert "Safe minimum" not in ribs.say("Ines", "meat 156").text
