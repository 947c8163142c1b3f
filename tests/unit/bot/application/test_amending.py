"""Taking back and correcting: in words, by editing a message, and what is said to hold again."""

from __future__ import annotations

import pytest

from scheduler.facts import Slot
from tests.fakes.kitchen import PlayedKitchen, chat, on


def core_f(kitchen: PlayedKitchen) -> float:
    """Return the newest core reading that counts [°F]."""
    last = kitchen.situation.state.last(Slot.CORE)
    assert last is not None
    return round(last.value_c * 1.8 + 32)


@pytest.fixture
def read(ribs: PlayedKitchen) -> PlayedKitchen:
    """Return the ribs at 10:40, after Ines told the meat alone."""
    ribs.until(on("10:40"))
    ribs.say("Ines", "meat 128")
    return ribs


# --- in words -------------------------------------------------------------------------------------------------------


def test_undo_takes_back_the_last_thing_that_this_person_told(read: PlayedKitchen) -> None:
    """What is taken back is named with its time, to everybody; what others told stays."""
    read.say("Tomas", "pit 272")
    answer = read.say("Ines", "undo")
    assert answer.lines[0] == "Taken back: meat 128 F (10:40)."
    assert read.told("Tomas")[0].lines[0] == "Ines: Taken back: meat 128 F (10:40)."
    assert read.situation.state.last(Slot.CORE) is None
    assert read.situation.state.last(Slot.PIT) is not None


def test_undo_takes_back_everything_of_one_message(ribs: PlayedKitchen) -> None:
    """A pair told in one message is taken back as one."""
    ribs.until(on("10:40"))
    ribs.say("Ines", "272/128")
    assert {"Taken back: pit 272 F (10:40).", "Taken back: meat 128 F (10:40)."} <= set(ribs.say("Ines", "undo").lines)


def test_undo_of_a_step_asks_it_again(ribs: PlayedKitchen) -> None:
    """A step that is taken back is open again."""
    assert ribs.say("Ines", "undo").lines[0] == "Taken back: raw side washed (08:40)."
    assert ribs.situation.prompt("raw_cleanup") is not None


def test_nothing_to_take_back(read: PlayedKitchen) -> None:
    """Somebody who told nothing is told so."""
    assert read.say("Tomas", "undo").lines[0] == "There is nothing of yours to take back."


def test_undo_of_the_beginning_asks_about_the_whole_cook(planned: PlayedKitchen) -> None:
    """When only the beginning is left, undo asks whether to call the cook off; nothing is lost without a yes."""
    planned.say("Ines", "undo")
    asked = planned.say("Ines", "undo")
    assert asked.text.startswith("Call off this cook?")
    assert asked.labels == ("Yes, call it off",)
    assert len(planned.store.open_cooks()) == 1
    assert "Called off; the log is kept." in planned.tap("Ines", "Yes, call it off").text
    assert planned.store.open_cooks() == ()
    assert planned.told("Tomas")[0].text.startswith("From Ines:\n\nCalled off")


def test_sorry_corrects_the_last_reading(read: PlayedKitchen) -> None:
    """Saying "Sorry 131 not 128" changes the value, says what it was, and tells the others."""
    answer = read.say("Ines", "sorry 131 not 128")
    assert answer.lines[0] == "Changed: meat 131 F, 10:40 (it was 128 F)."
    assert read.told("Tomas")[0].lines[0] == f"Ines: {answer.lines[0]}"
    assert core_f(read) == 131


def test_a_star_with_its_probe_corrects_that_reading(read: PlayedKitchen) -> None:
    """A star before "pit 255" after a pit and a core is of the pit; the core stays."""
    read.say("Ines", "pit 272")
    read.say("Ines", "meat 129")
    assert read.say("Ines", "*pit 255").lines[0] == "Changed: pit 255 F, 10:40 (it was 272 F)."
    assert core_f(read) == 129


def test_undo_of_a_correction_says_what_holds_again(read: PlayedKitchen) -> None:
    """Taking back a correction goes back to what was told first, and names it."""
    read.say("Ines", "sorry 131 not 128")
    assert read.say("Ines", "undo").lines[0] == "Back to: meat 128 F, 10:40."
    assert core_f(read) == 128


def test_undo_of_a_confirmation_names_the_reading_once(ribs: PlayedKitchen) -> None:
    """A doubtful reading that was confirmed is several facts; taken back, it is named once and is doubtful again, and
    the one that it had put aside holds.
    """
    ribs.until(on("10:40"))
    ribs.say("Ines", "meat 128")
    ribs.later(5)
    ribs.say("Ines", "meat 190")
    ribs.tap("Ines", "190 F is right")
    lines = ribs.say("Ines", "undo").lines
    assert [line for line in lines if line.startswith(("Taken back", "Back to"))] == [
        "Taken back: meat 190 F (10:45).",
        "Back to: meat 128 F, 10:40.",
    ]
    assert core_f(ribs) == 128


def test_nobody_corrects_the_reading_of_another(read: PlayedKitchen) -> None:
    """A correction is about one's own reading."""
    answer = read.say("Tomas", "sorry 131 not 128")
    assert answer.text.startswith("I have no reading of yours to correct.")
    assert core_f(read) == 128


def test_another_time_in_words(ribs: PlayedKitchen) -> None:
    """A step that happens once, told again with a time, gets that time."""
    ribs.until(on("09:00"))
    assert ribs.say("Ines", "meat on at 8:30").lines[0] == "Changed: meat is on at 08:30 (it was 08:40)."
    assert ribs.situation.state.at("meat_on") == on("08:30")


@pytest.mark.parametrize(
    ("typed", "refused"),
    [
        ("fuel half at 9:10", "09:10 has not come yet."),
        ("pulled at 8:00", 'That cannot be: I have "meat on" at 08:40.'),
    ],
)
def test_what_cannot_be_is_refused_and_kept(ribs: PlayedKitchen, typed: str, refused: str) -> None:
    """A time to come, or steps in the wrong order, are refused with the reason; the words are kept as a note."""
    ribs.until(on("09:00"))
    answer = ribs.say("Ines", typed)
    assert refused in answer.text
    assert answer.last.startswith("Next: ")
    assert ribs.situation.state.at("meat_on") == on("08:40")
    assert ribs.notes == [typed]


def test_a_step_before_the_meat_is_on(planned: PlayedKitchen) -> None:
    """Boxing what is not on the fire is refused with a question that helps."""
    assert planned.say("Ines", "boxed").text.startswith("As far as I know the meat is not on yet.")


# --- by editing -------------------------------------------------------------------------------------------------------


def test_an_edit_corrects_the_reading(read: PlayedKitchen) -> None:
    """The edited message corrects its fact, for everybody."""
    sent = read.edit(read.last_message, "Ines", "meat 131")
    assert sent[0].lines[0] == "Changed: meat 131 F, 10:40 (it was 128 F)."
    assert "Ines: Changed: meat 131 F" in read.told("Tomas")[0].text
    assert core_f(read) == 131


def test_a_second_edit_of_the_same_message(read: PlayedKitchen) -> None:
    """A message may be edited twice; the last text counts."""
    message = read.last_message
    read.edit(message, "Ines", "meat 131")
    read.edit(message, "Ines", "meat 130")
    assert core_f(read) == 130


@pytest.mark.parametrize("text", ["meat 128.", "Meat  128", "meat 128"])
def test_an_edit_that_changes_nothing_is_met_with_silence(read: PlayedKitchen, text: str) -> None:
    """A comma, a capital, a preview: no word, no fact."""
    length = len(read.cook.facts)
    assert read.edit(read.last_message, "Ines", text) == []
    assert len(read.cook.facts) == length


def test_an_edit_may_name_the_other_probe(read: PlayedKitchen) -> None:
    """The only number of a message may become the other probe's."""
    sent = read.edit(read.last_message, "Ines", "pit 228")
    assert any("Changed: pit 228 F, 10:40 (it was meat 128 F)." in heard.lines for heard in sent)


def test_a_value_dropped_in_an_edit_is_taken_back_alone(ribs: PlayedKitchen) -> None:
    """Of a pair edited down to one number, the dropped one is taken back and the other one stays."""
    ribs.until(on("10:40"))
    ribs.say("Ines", "272/128")
    sent = ribs.edit(ribs.last_message, "Ines", "meat 128")
    assert sent[0].lines[0] == "Taken back: pit 272 F (10:40)."
    assert "meat" not in sent[0].text.partition("Next:")[0].lower()
    assert core_f(ribs) == 128


def test_an_edit_of_the_time_of_a_step(ribs: PlayedKitchen) -> None:
    """A step told with a time gets the time of the edited text."""
    ribs.until(on("11:20"))
    ribs.say("Ines", "fuel half at 11:15")
    sent = ribs.edit(ribs.last_message, "Ines", "fuel half at 11:10")
    assert sent[0].lines[0] == "Changed: fuel: half at 11:10 (it was 11:15)."


def test_an_edit_of_dinner(ribs: PlayedKitchen) -> None:
    """A message that moved dinner moves it again when it is edited."""
    ribs.say("Ines", "dinner at 7")
    sent = ribs.edit(ribs.last_message, "Ines", "dinner at 7:30")
    assert "dinner moved to 19:30" in sent[0].text
    assert "Dinner 19:30: " in sent[0].text


def test_an_edit_of_what_was_not_understood_is_read_as_new(ribs: PlayedKitchen) -> None:
    """A text that had told nothing is read again when it is edited."""
    ribs.until(on("10:40"))
    ribs.say("Ines", "blue umbrellas")
    sent = ribs.edit(ribs.last_message, "Ines", "meat 128")
    assert sent[0].lines[0] == "Meat 128 F, 10:40."


def test_an_edit_to_something_impossible_is_refused(ribs: PlayedKitchen) -> None:
    """An edited time that has not come is refused, and the fact stays."""
    ribs.until(on("11:20"))
    ribs.say("Ines", "fuel half at 11:15")
    ribs.edit(ribs.last_message, "Ines", "fuel half at 11:00 tomorrow")
    done = ribs.situation.state.did("fuel_check")
    assert done is not None
    assert done.at <= ribs.now


def test_an_edit_before_any_cook_is_read_as_words(kitchen: PlayedKitchen) -> None:
    """While a cook is being set up an edited message is read like a new one."""
    kitchen.invite("code-of-ines", "owner")
    room = chat("Ines")
    kitchen.say("Ines", "/start code-of-ines", room=room)
    kitchen.say("Ines", "brisktt", room=room)
    sent = kitchen.edit(kitchen.last_message, "Ines", "brisket", room=room)
    assert "How heavy is one brisket" in sent[0].text


def test_a_number_kept_aside_that_was_a_slip_is_named(ribs: PlayedKitchen) -> None:
    """A second spot was asked for; "sorry 130" says which number stood before."""
    ribs.until(on("10:40"))
    ribs.say("Ines", "meat 190")
    answer = ribs.say("Ines", "sorry 130")
    assert answer.lines[0] == "Changed: meat 130 F, 10:40 (it was 190 F)."


# --- what no probe can show -----------------------------------------------------------------------------------------


@pytest.mark.parametrize("typed", ["*400", "400*", "sorry 400", "meant 300 F", "*meat 260"])
def test_a_correction_that_no_meat_can_have_is_asked_about(read: PlayedKitchen, typed: str) -> None:
    """A correction obeys the limits of a reading: what was told stands, and the number is asked for."""
    answer = read.say("Ines", typed)
    assert "is not a temperature I can believe" in answer.text
    assert "Changed" not in answer.text
    assert core_f(read) == 128
    assert read.say("Ines", "*131").lines[0] == "Changed: meat 131 F, 10:40 (it was 128 F)."


def test_a_correction_of_the_pit_goes_as_far_as_a_pit_does(read: PlayedKitchen) -> None:
    """A pit of 400 F is possible, one of 900 F is not."""
    read.say("Ines", "pit 272")
    assert read.say("Ines", "*400").lines[0].startswith("Changed: pit 400 F")
    assert "is not a temperature I can believe" in read.say("Ines", "*pit 900").text
