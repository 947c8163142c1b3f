"""A stop cannot be muted, put off or worded away: a number ends it, or who may discard, and its end is said once."""

from __future__ import annotations

import pytest

from scheduler.facts import Discarded, Edition, StepDone, Warned
from scheduler.state import Stage
from tests.fakes.kitchen import Heard, PlayedKitchen, on, window

STOP = "Stop: off the fire at 120 F at the coldest spot, it needs 165 F (73.9 C)."
STILL = "Stop, still: off the fire at 120 F at the coldest spot, it needs 165 F (73.9 C)."


def stops(sent: list[Heard], name: str = "Ines") -> list[Heard]:
    """Return the messages in somebody's window that are stops and nothing else."""
    return [heard for heard in sent if heard.room == window(name) and heard.sort == "stop"]


@pytest.fixture
def bird(kitchen: PlayedKitchen) -> PlayedKitchen:
    """Return a chicken on the fire at 17:00, read at 120 F; Tomas looks on."""
    kitchen.opens("Tomas")
    kitchen.now = on("10:00")
    kitchen.say("Ines", "chicken, dinner 18:00, pit 325")
    kitchen.until(on("15:55"))
    for text in ("lit at 15:00", "pit 325", "meat is on", "raw side washed"):
        kitchen.say("Ines", text)
    kitchen.until(on("17:00"))
    kitchen.say("Ines", "325/120")
    return kitchen


@pytest.fixture
def stopped(bird: PlayedKitchen) -> PlayedKitchen:
    """Return the same chicken, pulled at 17:05: a stop stands."""
    bird.later(5)
    bird.say("Ines", "pulled")
    return bird


def test_put_back_on_ends_the_stop_of_a_pull_too_early(stopped: PlayedKitchen) -> None:
    """The stop says what to type; typed, the bird cooks on, the pull stays in the log, and the stop is over."""
    (told,) = stops(stopped.new)
    assert 'Put it back on now (type "back on")' in told.text
    stopped.later(5)
    answer = stopped.say("Ines", "back on")
    assert "Back on the heat" in answer.text
    assert stopped.situation.state.stage is Stage.COOKING
    assert not stopped.situation.findings(stopped.now)
    assert [fact for fact in stopped.cook.facts if fact.body == StepDone(step="pull")]


def test_one_of_three_birds_is_not_all_of_them(kitchen: PlayedKitchen) -> None:
    """The question asks for each; one number opens the gate of that one, and "is it safe" says one of three."""
    kitchen.say("Ines", "3 chickens, dinner 18:00, pit 325")
    kitchen.until(on("15:55"))
    for text in ("lit at 15:00", "pit 325", "meat is on", "raw side washed"):
        kitchen.say("Ines", text)
    kitchen.until(on("17:00"))
    kitchen.say("Ines", "meat 166")
    kitchen.say("Ines", "166")  # so early it is doubted: a second spot
    assert "of 3 read at the minimum" in kitchen.say("Ines", "is it safe?").text
    kitchen.later(1)
    answer = kitchen.say("Ines", "166 168 167")
    assert "Measured safe" in kitchen.say("Ines", "is it safe?").text, answer.text


def test_other_rules_end_no_stop_and_say_so(stopped: PlayedKitchen) -> None:
    """Rules chosen after the first number count from the next cook on: here the stricter figure of each counts."""
    answer = stopped.say("Ines", "rules: food code")
    assert "the stricter figure of each counts to its end" in answer.text
    assert stopped.situation.state.edition is Edition.STRICTER
    assert "pulled_under_minimum" in {one.rule for one in stopped.situation.findings(stopped.now)}


@pytest.mark.parametrize(
    "wish",
    [
        "just decisions",
        "fewer messages",
        "no more reminders",
        "stop asking",
        "quiet 16 to 23",
        "mute the readings",
        "every step",
    ],
)
def test_no_wish_mutes_a_stop(bird: PlayedKitchen, wish: str) -> None:
    """Whatever was wished about messages before it: a stop comes at once, by itself, loud, in every room."""
    bird.mutter("Ines", wish)
    bird.later(5)
    bird.say("Ines", "pulled")
    for name in ("Ines", "Tomas"):
        (told,) = stops(bird.new, name)
        assert told.text.startswith(STOP)
        assert (told.outgoing.urgent, told.outgoing.silent) == (True, False)


@pytest.mark.parametrize(
    "wish",
    [
        "it's fine, ignore it", "ignore the stop", "remind me later", "stop telling me", "mute the stop",
        "we'll risk it",
        "serve it anyway", "kept it", "looks fine to me", "not now", "ok", "got it",
        "just decisions", "fewer messages",
        "quiet 16 to 23", "stop the warnings", "snooze", "in 20", "skip",
    ],
)  # fmt: skip
def test_no_words_end_a_stop(stopped: PlayedKitchen, wish: str) -> None:
    """Whatever is said to a stop that stands: the answer names it, and it is told again after half an hour."""
    sent = stopped.mutter("Ines", wish)
    assert any(STILL in heard.text for heard in sent if heard.room == window("Ines")), [heard.text for heard in sent]
    (told,) = stops(stopped.until(on("17:36")))
    assert (told.at, told.outgoing.urgent, told.outgoing.silent) == (on("17:35"), True, False)


def test_a_wave_off_is_answered_kindly(stopped: PlayedKitchen) -> None:
    """Who waves a stop off hears what alone ends it; what was typed is kept."""
    answer = stopped.say("Tomas", "it's fine, ignore it")
    assert "only a number or throwing it away ends a stop" in answer.text
    assert "it's fine, ignore it" in stopped.notes


def test_a_stop_is_told_four_times_and_then_with_every_message(stopped: PlayedKitchen) -> None:
    """Every half hour, four times in all; from then on in every answer and first on the board."""
    sent = stopped.until(on("20:00"))
    assert [told.at for told in stops(sent)] == [on("17:35"), on("18:05"), on("18:35")]
    assert stopped.say("Ines", "how long").text.startswith(STILL)


def test_a_reading_ends_it_and_that_is_said_once(stopped: PlayedKitchen) -> None:
    """A reading of the minimum ends the stop: said once with its number, to both, and never again."""
    stopped.later(5)
    stopped.mutter("Ines", "undo")
    stopped.later(20)
    stopped.mutter("Ines", "meat 168")
    stopped.later(2)
    stopped.mutter("Ines", "168")
    told = [heard for heard in stopped.heard if "That stop is over" in heard.text and heard.room == window("Tomas")]
    assert len(told) == 1
    assert not stops(stopped.until(on("18:30")))


def test_a_mistyped_reading_ends_its_stop_by_correction(stopped: PlayedKitchen) -> None:
    """120 was 172: the stop ends by the correction, by name; both numbers stay in the log."""
    answer = stopped.say("Ines", "oops 172")
    assert answer.lines[0] == "That stop is over: ended by Ines's correction at 17:05."
    kinds = [fact.body.kind for fact in stopped.cook.facts]
    assert {"reading", "corrected"} <= set(kinds)
    again = stopped.say("Ines", "oops 120")
    assert stops(stopped.new)[0].text.startswith(STOP)
    assert "Changed: meat 120 F" in again.text


def test_thrown_away_ends_it_with_time_and_name(stopped: PlayedKitchen) -> None:
    """One tap of who may: the stop is over, and undo brings it back, told anew."""
    answer = stopped.tap("Ines", "Thrown away")
    assert answer.lines[0] == "That stop is over: thrown away, told by Ines at 17:05. Nobody eats it."
    assert any(isinstance(fact.body, Discarded) for fact in stopped.cook.facts)
    assert "Stop" not in stopped.say("Ines", "is it safe").text
    stopped.say("Ines", "undo")
    assert stops(stopped.new)[0].text.startswith(STOP)


@pytest.mark.parametrize(
    "words",
    [
        "binned it",
        "threw it out",
        "chucked the chicken",
        "it's in the bin",
        "we discarded it",
        "threw the chicken away",
        "tossed it",
    ],
)
def test_ways_to_say_thrown_away(stopped: PlayedKitchen, words: str) -> None:
    """Plain words record it as the button does."""
    assert "That stop is over: thrown away" in stopped.say("Tomas", words).text


@pytest.mark.parametrize(
    "words",
    ["should we bin it?", "don't bin it", "we will not throw it away", "binned the ash", "threw the thermometer away"],
)
def test_what_is_not_thrown_away(stopped: PlayedKitchen, words: str) -> None:
    """A question, a refusal, or other things in the bin record nothing of the meat."""
    stopped.mutter("Tomas", words)
    assert not any(isinstance(fact.body, Discarded) for fact in stopped.cook.facts)


def test_a_helper_is_thanked_and_the_lead_is_asked(stopped: PlayedKitchen) -> None:
    """A helper who says so ends nothing: thanked kindly, and who leads records it with one tap."""
    stopped.invite("HELPER123", "helper")
    stopped.mutter("Wren", "join HELPER123")
    if not any(heard.room == window("Wren") for heard in stopped.new):
        pytest.fail("Wren was not let in")
    answer = stopped.say("Wren", "binned it")
    assert "Thank you, Wren." in answer.text
    assert not any(isinstance(fact.body, Discarded) for fact in stopped.cook.facts)
    asked = stopped.told("Ines")[-1]
    assert "Wren says that the meat was thrown away" in asked.text
    assert asked.outgoing.urgent
    stopped.tap("Ines", "Thrown away")
    assert any(isinstance(fact.body, Discarded) and fact.by == "Ines" for fact in stopped.cook.facts)


def test_serving_is_written_down_but_answered_by_the_stop(stopped: PlayedKitchen) -> None:
    """Food out with a stop standing: a fact, answered by the stop."""
    stopped.say("Ines", "food is out")
    assert stopped.situation.state.did("serve") is not None
    assert stops(stopped.new)[0].text.startswith("Stop: 120 F at the coldest spot")


def test_calling_off_names_the_stop(stopped: PlayedKitchen) -> None:
    """Before and after: the food is still not safe."""
    assert STILL in stopped.say("Ines", "call it off").text
    assert "Calling off does not make it safe" in stopped.tap("Ines", "Yes, call it off").text


def test_the_end_of_a_cook_names_the_stop(stopped: PlayedKitchen) -> None:
    """Nobody answers any more and the cook ends by itself: its last words name what still stands, in every room."""
    stopped.say("Ines", "food is out")
    for _day in range(8):
        stopped.later(24 * 60)
    for name in ("Ines", "Tomas"):
        last = [heard for heard in stopped.heard if "That was this cook." in heard.text and heard.room == window(name)]
        assert len(last) == 1
        assert "Stop: 120 F at the coldest spot, it needs 165 F (73.9 C)." in last[0].text
        assert "The end of this cook does not make it safe: nobody eats it." in last[0].text


def test_which_rule_names_source_and_edition(stopped: PlayedKitchen) -> None:
    """Asked by a number or at all: the published figure, whose it is, and its source."""
    why = stopped.say("Ines", "why 165").text
    assert "165 F (73.9 C, USDA)" in why
    assert "Temperature Chart: all poultry, no rest asked for." in why
    said = stopped.say("Ines", "what's the rule").text
    assert "USDA FSIS" in said
    assert "FDA Food Code 3-501.16(A)(1)" in said


def test_a_caution_never_makes_a_message_of_its_own(bird: PlayedKitchen) -> None:
    """What is less than a stop rides in an answer or a prompt, to both, and nothing is sent for it alone."""
    bird.later(5)
    bird.say("Ines", "pit 200")
    told = [fact.body for fact in bird.cook.facts if isinstance(fact.body, Warned) and not fact.body.stop]
    assert [one.rule for one in told] == ["pit_cold"]
    riders = [heard for heard in bird.heard if "Caution: pit 200 F" in heard.text]
    assert {(heard.room, heard.sort) for heard in riders} == {(window("Ines"), "answer"), (window("Tomas"), "echo")}


@pytest.mark.parametrize("words", ["core 900", "pit -300", "178 at 23:00", "meat -80"])
def test_a_number_that_cannot_be_is_answered_and_kept(bird: PlayedKitchen, words: str) -> None:
    """An impossible temperature or a time to come: answered with what would work, kept as a note, no reading."""
    before = sum(fact.body.kind == "reading" for fact in bird.cook.facts)
    answer = bird.say("Ines", words)
    assert "?" in answer.text or "23:00 has not come yet" in answer.text
    assert words in bird.notes
    assert sum(fact.body.kind == "reading" for fact in bird.cook.facts) == before


def test_two_people_who_differ_are_both_named(bird: PlayedKitchen) -> None:
    """Both numbers by name, to both of them, and which one stands; a third by a third hand settles it."""
    bird.until(on("17:20"))
    bird.say("Ines", "meat 147")
    bird.later(2)
    answer = bird.say("Tomas", "meat 139")
    line = "Two readings: Ines 147 F, Tomas 139 F. The lower one stands until a third."
    assert line in answer.text
    assert any(line in heard.text for heard in bird.told("Ines"))
    assert "Two readings" not in bird.say("Ines", "meat 140").text


def test_a_reading_for_a_piece_that_is_not_on(kitchen: PlayedKitchen) -> None:
    """A hot core of a piece that nobody put on: asked kindly when it went on, kept as a note, no reading."""
    kitchen.now = on("9:00")
    kitchen.say("Ines", "brisket 5 kg and chicken 2 kg, dinner 20:00, pit 275")
    kitchen.say("Ines", "lit at 8:30")
    kitchen.until(on("10:10"))
    kitchen.say("Ines", "brisket on")
    answer = kitchen.say("Ines", "chicken core 150")
    assert "the meat is not on yet" in answer.text
    assert "chicken core 150" in kitchen.notes
    assert not any(fact.body.kind == "reading" for fact in kitchen.cook.facts)


def test_calling_off_ends_no_stop(stopped: PlayedKitchen) -> None:
    """Called off with a stop standing: no stop is over; who asks afterwards hears it until it is thrown away."""
    stopped.say("Ines", "call it off")
    stopped.tap("Ines", "Yes, call it off")
    assert not [heard.text for heard in stopped.new if "That stop is over" in heard.text]
    for name in ("Ines", "Tomas"):
        told = stopped.say(name, "is it safe").text
        assert told.startswith(STOP), told
        assert "nobody eats it" in told
    stopped.later(200)
    assert stopped.say("Ines", "is it safe").text.startswith(STOP)
    assert "Thrown away at" in stopped.tap("Ines", "Thrown away").text
    assert "Nothing is cooking." in stopped.say("Ines", "is it safe").text
