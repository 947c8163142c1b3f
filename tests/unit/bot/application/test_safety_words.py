"""Safety is said first, urgently, to everybody, and what is open about it is named until it is closed."""

from __future__ import annotations

import pytest

from bot.chat import OutgoingKind
from tests.fakes.kitchen import Heard, PlayedKitchen, on, window


def both(kitchen: PlayedKitchen) -> list[Heard]:
    """Return what the last action sent to Ines and Tomas, taps left out."""
    return [heard for heard in kitchen.new if heard.outgoing.kind is OutgoingKind.MESSAGE]


def assert_warned(kitchen: PlayedKitchen, words: str) -> None:
    """Both rooms were told these words first, and urgently."""
    sent = both(kitchen)
    assert {heard.room for heard in sent} == {window("Ines"), window("Tomas")}
    assert [(heard.text[: len(words)], heard.outgoing.urgent, heard.outgoing.silent) for heard in sent] == [
        (words, True, False)
    ] * len(sent)
    assert all(heard.last.startswith("Next: ") for heard in sent)


def assert_stopped(kitchen: PlayedKitchen, words: str) -> None:
    """Both rooms were sent the stop in a message about nothing else, first, urgently, never silent, with its button."""
    for name in ("Ines", "Tomas"):
        stop, *_others = kitchen.told(name)
        assert stop.text.startswith(words), stop.text
        assert (stop.sort, stop.outgoing.urgent, stop.outgoing.silent) == ("stop", True, False)
        assert stop.last.startswith("Next: ")
        assert len(stop.lines) == 2
        assert "Thrown away" in stop.labels


@pytest.fixture
def tender(ribs: PlayedKitchen) -> PlayedKitchen:
    """Return the ribs at 13:00, read every hour and just felt tender."""
    for clock, core in (("10:40", 130), ("11:40", 165), ("12:30", 190)):
        ribs.until(on(clock))
        ribs.say("Ines", f"275/{core}")
    ribs.until(on("13:00"))
    ribs.say("Ines", "204, slides in")
    return ribs


@pytest.fixture
def held(tender: PlayedKitchen) -> PlayedKitchen:
    """Return the ribs in their box at 13:25, the cooker shut."""
    tender.later(3)
    tender.say("Ines", "it is off")
    tender.say("Ines", "vents closed")
    tender.until(on("13:25"))
    tender.say("Ines", "boxed")
    return tender


def test_a_cold_pit_is_told_first_to_both(ribs: PlayedKitchen) -> None:
    """A pit that keeps meat in the danger zone: number, limit and what to do, before the receipt, to both rooms."""
    ribs.until(on("10:00"))
    answer = ribs.say("Ines", "200/110")
    assert_warned(ribs, "Caution: pit 200 F, under 225 F (107 C), with the meat in the danger zone.")
    assert answer.text.index("pit 200 F, under") < answer.text.index("Pit 200 F, meat 110 F, 10:00.")


def test_a_slow_come_up_is_told(kitchen: PlayedKitchen) -> None:
    """A big piece that is still cold after more than four hours: told urgently, with what to think about."""
    kitchen.opens("Tomas")
    kitchen.now = on("12:00")
    kitchen.say("Ines", "brisket on since 7:00, 90f now, dinner tomorrow 12:00, pit 250f")
    kitchen.until(on("12:10"))
    kitchen.say("Ines", "250/92")
    warned = [heard for heard in kitchen.heard if "Get the pit up, look at fuel and probe;" in heard.text]
    assert warned
    assert all(heard.outgoing.urgent for heard in warned)
    assert {heard.room for heard in warned} == {window("Ines"), window("Tomas")}


def test_the_pull_comes_alone(tender: PlayedKitchen) -> None:
    """The moment to pull is a message about nothing else, with what is hot about it."""
    (mine,) = tender.told("Ines")
    body = mine.text.partition("\n\n")[2]
    assert body.startswith("Pull it now, onto a clean tray, not the raw one. Hot fat runs")
    assert mine.labels == ("It is off",)
    for heard in tender.later(10):
        assert heard.lines[:2] == ["Still open:", body.split("\n")[0]]
        assert heard.labels == ("It is off",)


def test_a_box_that_holds_too_little(tender: PlayedKitchen) -> None:
    """Pulled hours before dinner: until when a cold box holds and what then, with the pull and when asked how long.

    The longest rest of the cut ends at 16:53; when one in ten has fallen before, that time is told.
    """
    tender.later(3)
    answer = tender.say("Ines", "it is off")
    (warm,) = [line for line in answer.lines if line.startswith("Dinner is later than a cold box holds: by ")]
    assert warm.endswith("into a warm oven, 150 to 170 F (65 to 77 C).")
    assert "13:23" < warm.split("by ")[1][:5] <= "16:50"
    assert warm in tender.say("Ines", "how long").text


def test_the_vents_are_named_until_they_are_closed(tender: PlayedKitchen) -> None:
    """A safety step that was asked and not answered is named in every receipt until it is closed."""
    tender.later(3)
    tender.say("Ines", "it is off")
    tender.until(on("13:25"))
    assert "Still open: close the vents." in tender.say("Ines", "boxed").lines
    assert "Still open: close the vents." in tender.say("Ines", "meat 190").lines
    assert "Still open" not in tender.say("Ines", "vents closed").text
    assert "Still open" not in tender.say("Ines", "meat 188").text


def test_safety_cannot_be_skipped(tender: PlayedKitchen) -> None:
    """Skip leaves a safety step open and says so."""
    tender.later(3)
    tender.say("Ines", "it is off")
    tender.say("Ines", "venting")
    asked = tender.say("Ines", "skip")
    assert asked.lines[0] == "Skip which one?"
    answer = tender.tap("Ines", "close the vents")
    assert answer.lines[0] == "This one is about safety, so it stays open: close the vents."
    assert tender.situation.prompt("shutdown") is not None


def test_held_meat_near_the_floor_then_under_it(held: PlayedKitchen) -> None:
    """At 63 C: act now. Under 60 C: stop, and what then. Both first, urgent, and to both rooms."""
    held.until(on("15:30"))
    held.say("Ines", "144")
    assert_warned(
        held,
        "Caution: held meat at 144 F, near its floor of 140 F (60 C). Act now: serve, a warm oven, or slice and chill.",
    )
    held.later(20)
    held.say("Ines", "138")
    assert_stopped(held, "Stop: held meat at 138 F, under 140 F (60 C, the stricter rule) since 15:50, last known")
    assert "Reheat it covered to 165 F (74 C) by" in held.told("Ines")[0].text
    assert "Stop: held meat at 138 F" in held.say("Ines", "is it safe").text


def test_serving_held_meat_that_nobody_read(held: PlayedKitchen) -> None:
    """Served without a reading since it left the fire: told first, with what to do."""
    held.until(on("17:50"))
    held.say("Ines", "food is out")
    assert_warned(held, "Caution: not measured since it left the fire: I cannot say that it stayed hot.")


def test_serving_what_was_never_measured(ribs: PlayedKitchen) -> None:
    """Pulled, cut and served without any core reading: stop, not measured as safe."""
    ribs.until(on("15:00"))
    ribs.say("Ines", "pulled")
    ribs.until(on("15:50"))
    ribs.say("Ines", "food is out")
    texts = [heard.text for heard in ribs.heard if "Let nobody eat" in heard.text]
    assert texts
    assert all(text.startswith("Stop: not measured, it needs 145 F (62.8 C) at the coldest spot.") for text in texts)


def test_is_it_safe_answers_with_what_was_measured(ribs: PlayedKitchen) -> None:
    """Before a reading, after a low one, after a high one: each answer says what was measured and what is needed."""
    assert "Unknown: nothing has been measured yet, so I cannot call it safe." in ribs.say("Ines", "is it safe").text
    ribs.until(on("10:40"))
    ribs.say("Ines", "meat 128")
    answer = ribs.say("Ines", "is it safe")
    assert answer.lines[0].startswith("Not yet safe: 128 F is the lowest spot so far (10:40), it needs 145 F (62.8 C)")
    ribs.until(on("11:40"))
    ribs.say("Ines", "meat 152")
    assert (
        ribs.say("Ines", "is it safe")
        .lines[0]
        .startswith("Not yet safe: 152 F passes (11:40), but its rest ends at 11:43.")
    )
    ribs.later(5)
    assert ribs.say("Ines", "is it safe").lines[0].startswith("Measured safe: 152 F at 11:40. It needs 145 F (62.8 C)")


def test_two_hours_out(held: PlayedKitchen) -> None:
    """After two hours the stop comes first and urgent; from then on nobody is asked to put food away as if it were
    good, but what became of it.
    """
    held.until(on("17:45"))
    held.say("Ines", "meat 151")
    held.say("Ines", "food is out")
    sent = held.until(on("20:30"))
    mine = [heard for heard in sent if heard.room == window("Ines")]
    stop = next(heard for heard in mine if heard.text.startswith("Stop: the food has been out since 17:45"))
    assert stop.at == on("19:45")
    assert stop.outgoing.urgent
    assert "Do not eat it; bin it." in stop.text
    after = mine[mine.index(stop) :]
    assert all("Two hours is the limit" not in heard.text for heard in after)
    assert any("What became of the food" in heard.text for heard in after)
    assert "leftovers" not in held.say("Ines", "what next").text.lower().split("open:")[0]


def test_food_told_late_to_be_put_away_in_time_is_asked_once(held: PlayedKitchen) -> None:
    """A back-dated word ends a stop of food left out only after one question; "no" leaves the stop."""
    held.until(on("17:45"))
    held.say("Ines", "meat 151")
    held.say("Ines", "food is out")
    held.until(on("20:30"))
    asked = held.say("Ines", "put away at 18:20")
    assert "before anybody ate of it?" in asked.text
    held.tap("Ines", "No")
    assert "Stop: the food has been out" in held.say("Ines", "is it safe").text
    held.say("Ines", "put away at 18:20")
    assert "That stop is over" in held.tap("Ines", "Yes").text


def test_the_first_caution_of_the_fire_is_carbon_monoxide(planned: PlayedKitchen) -> None:
    """Whoever is told to light the fire is told about carbon monoxide in the same message, and once."""
    told = [heard for heard in planned.until(on("08:30")) if heard.room == window("Ines")]
    assert "carbon monoxide" in next(heard for heard in told if "Light the fire" in heard.text).text
    assert sum("carbon monoxide" in heard.text for heard in told) == 1


def test_calling_off_says_what_a_lit_fire_needs(ribs: PlayedKitchen) -> None:
    """Before and after calling a cook off the fire is named: somebody stays with it."""
    asked = ribs.say("Ines", "call it off")
    assert "somebody beside it" in asked.text
    assert "vents shut, lid on, outdoors" in ribs.tap("Ines", "Yes, call it off").text


def test_a_bird_pulled_too_cold_goes_back_on(kitchen: PlayedKitchen) -> None:
    """Pulled at 120 F: at once what it needs and that it goes back on; nothing of it is called on time."""
    kitchen.opens("Tomas")
    kitchen.now = on("10:00")
    kitchen.say("Ines", "chicken, dinner 18:00, pit 325")
    kitchen.until(on("15:55"))
    for text in ("lit at 15:00", "pit 325", "meat is on", "raw side washed"):
        kitchen.say("Ines", text)
    kitchen.until(on("17:00"))
    kitchen.say("Ines", "325/120")
    kitchen.later(5)
    answer = kitchen.say("Ines", "pulled")
    assert_stopped(kitchen, "Stop: off the fire at 120 F at the coldest spot, it needs 165 F (73.9 C).")
    assert "Put it back on now" in kitchen.told("Ines")[0].text
    for text in (answer.text, kitchen.say("Ines", "eta").text, kitchen.say("Ines", "what next").text):
        assert "on time" not in text
        assert "Plate possible" not in text
    kitchen.say("Ines", "undo")
    kitchen.until(on("17:55"))
    for text in ("325/167", "167"):
        kitchen.say("Ines", text)
    assert "Stop" not in kitchen.say("Ines", "pulled").text
