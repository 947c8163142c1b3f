"""A number costs one tap: what is recorded, what is not, and how two thumbs at one question are answered."""

from __future__ import annotations

from scheduler.facts import Slot
from tests.fakes.kitchen import Heard, PlayedKitchen, on, window

OLD = "That button is from an older question; nothing was changed. A new number can be typed."


def asked(kitchen: PlayedKitchen, clock: str) -> Heard:
    """Let time pass until a question for a number comes; return it."""
    return [h for h in kitchen.until(on(clock)) if h.room == window("Ines") and h.sort == "prompt"][-1]


def cores(kitchen: PlayedKitchen) -> list[tuple[int, float]]:
    """Return the cores that count: whole degrees Fahrenheit, and half a step."""
    read = kitchen.situation.state.read(Slot.CORE)
    return [(round(r.value_c * 1.8 + 32), round(r.spread_c * 1.8, 2)) for r in read]


def test_a_question_offers_seven_round_numbers_in_rising_order(ribs: PlayedKitchen) -> None:
    """Seven numbers, five degrees apart, then another number and a way to put it off; each has a row of its own."""
    question = asked(ribs, "10:10")
    assert question.labels == (
        "105 F", "110 F", "115 F", "120 F", "125 F", "130 F", "135 F", "Another number", "Cannot read it now",
    )  # fmt: skip
    assert all(len(row) == 1 for row in question.outgoing.choices)


def test_a_tap_is_a_reading_with_half_a_step_of_doubt(ribs: PlayedKitchen) -> None:
    """One tap answers the question, and the reading carries 2.5 F."""
    asked(ribs, "10:10")
    assert ribs.tap("Ines", "125 F").lines[0] == "Meat about 125 F, 10:10."
    assert cores(ribs) == [(125, 2.5)]
    assert not ribs.situation.waiting


def test_a_typed_number_is_exact_even_where_a_button_says_the_same(ribs: PlayedKitchen) -> None:
    """Typed digits are a reading of their own: they do not press the button."""
    asked(ribs, "10:10")
    assert ribs.say("Ines", "125 F").lines[0] == "Meat 125 F, 10:10."
    assert cores(ribs) == [(125, 0.0)]


def test_a_letter_chooses_a_number(ribs: PlayedKitchen) -> None:
    """In a terminal the letter of a button is the tap."""
    asked(ribs, "10:10")
    assert ribs.say("Ines", "e").lines[0] == "Meat about 125 F, 10:10."


def test_another_number_shows_those_below_and_above(ribs: PlayedKitchen) -> None:
    """Two taps reach numbers farther out; typing is offered, and nothing is recorded in between."""
    asked(ribs, "10:10")
    other = ribs.tap("Ines", "Another number")
    assert other.lines[0] == "Type the number, or choose:"
    assert other.labels == (
        "90 to under 95 F", "95 to under 100 F", "100 to under 105 F", "135 to under 140 F", "140 to under 145 F",
        "145 to under 150 F", "Another number", "Cannot read it now",
    )  # fmt: skip
    assert cores(ribs) == []
    ribs.tap("Ines", "95 to under 100 F")
    assert cores(ribs) == [(98, 2.5)]


def test_cannot_read_it_now_keeps_the_forecast(ribs: PlayedKitchen) -> None:
    """Put off by twenty minutes: asked again then, with nothing recorded."""
    asked(ribs, "10:10")
    before = ribs.situation.outlook.pull
    ribs.tap("Ines", "Cannot read it now")
    assert ribs.situation.outlook.pull == before
    again = [h for h in ribs.until(on("10:30")) if h.room == window("Ines") and h.sort == "prompt"]
    assert [h.at for h in again] == [on("10:30")]
    assert "Another number" in again[0].labels


def test_two_people_who_tap_the_same_number(ribs: PlayedKitchen) -> None:
    """The second tap is told what is written down, by whom and when; it counts once."""
    asked(ribs, "10:10")
    tokens = [ribs.token("125 F", window(name)) for name in ("Ines", "Tomas")]
    sent = ribs.does(ribs.tapped("Ines", tokens[0]), ribs.tapped("Tomas", tokens[1]))
    told = [h.lines[0] for h in sent if h.room == window("Tomas") and h.sort == "answer"]
    assert told == ["I have that down: Meat about 125 F, 10:10, Ines."]
    assert cores(ribs) == [(125, 2.5)]


def test_two_people_who_tap_numbers_far_apart(ribs: PlayedKitchen) -> None:
    """Differing readings of two people are both kept and asked about, as when they are typed."""
    asked(ribs, "10:10")
    ribs.tap("Ines", "105 F")
    answer = ribs.tap("Tomas", "135 F")
    assert "105 F" in answer.text
    assert "135 F" in answer.text
    assert len(ribs.situation.state.read(Slot.CORE, doubtful=True)) == 2


def test_the_same_thumb_on_the_next_button_corrects(ribs: PlayedKitchen) -> None:
    """A slip of the thumb: another number of the same question takes the place of the first."""
    asked(ribs, "10:10")
    ribs.tap("Ines", "120 F")
    ribs.tap("Ines", "125 F")
    assert cores(ribs) == [(125, 2.5)]


def test_an_old_number_button(ribs: PlayedKitchen) -> None:
    """A number of a question that was answered long ago records nothing and says so kindly."""
    asked(ribs, "10:10")
    ribs.tap("Ines", "120 F")
    ribs.later(25)
    assert ribs.tap("Ines", "125 F").lines[0] == OLD
    assert cores(ribs) == [(120, 2.5)]


def test_pit_and_meat_are_one_tap_each(kitchen: PlayedKitchen) -> None:
    """The four-hour check asks for both: the pit's buttons first, its answer brings the meat's."""
    kitchen.say("Ines", "brisket 6 kg, dinner 20:00 tomorrow, pit 250, paper")
    kitchen.say("Ines", "lit at 5:00")
    kitchen.say("Ines", "meat on at 6:00")
    kitchen.until(on("10:00"))
    assert "come_up_check" in {p.step.id for p in kitchen.situation.waiting}
    answer = kitchen.tap("Ines", "Pit 250 F")
    assert "And the meat?" in answer.lines
    assert sum(label[0].isdigit() for label in answer.labels) == 7
    assert not any(label.startswith("Pit") for label in answer.labels)
    meat = next(label for label in answer.labels if label[0].isdigit())
    kitchen.tap("Ines", meat)
    assert "come_up_check" not in {p.step.id for p in kitchen.situation.waiting}
