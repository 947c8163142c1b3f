"""A brisket-sized cook of three pieces from the first sentence to the leftovers, and two cooks in one chat: what people
saw, in order.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from scheduler.facts import Reading, Slot
from scheduler.state import Stage
from tests.acceptance.table import INES, Table
from tests.fakes.kitchen import Heard, PlayedKitchen, on


@pytest.fixture(scope="module")
def dinner(tmp_path_factory: pytest.TempPathFactory) -> Table:
    """Return a dinner of ribs, chuck ribs and a chicken that was played to the end of the day."""
    table = Table(tmp_path_factory.mktemp("several"))
    table.kitchen.say(
        INES, "spare ribs 2 racks and chuck ribs and chicken 1.8 kg at 325, dinner 19:00, pit 275, 8 people"
    )
    table.play(on("23:00"))
    return table


def _said(table: Table, *words: str) -> list[Heard]:
    return [h for h in table.kitchen.heard if h.sort != "board" and all(word in h.text for word in words)]


def test_one_sentence_makes_a_plan_of_three_pieces(dinner: Table) -> None:
    """Each piece has its own times under one fire, the pit that one brings is told, and guests are kept."""
    plan = dinner.kitchen.heard[1].text
    assert "2 racks of spareribs: on" in plan
    assert "Beef short ribs: on" in plan
    assert "Whole chicken, 1.8 kg: on" in plan
    assert "pit 325 F from then on" in plan
    assert plan.count("Light the fire") == 1
    assert dinner.kitchen.situation.state.guests is not None


def test_every_piece_came_to_the_table(dinner: Table) -> None:
    """All three were put on, read, pulled and served, each by its own facts."""
    situation = dinner.kitchen.situation
    assert [view.state.stage for view in situation.views] == [Stage.AFTER] * 3
    on_at = [view.state.at("meat_on") for view in situation.views]
    assert len(set(on_at)) == 3
    readings = {f.piece for f in dinner.kitchen.cook.facts if isinstance(f.body, Reading) and f.body.slot is Slot.CORE}
    assert readings == {"p1", "p2", "p3"}


def test_the_fire_is_asked_about_once(dinner: Table) -> None:
    """One lighting, one look at the smoke, one shutdown: the fire is the same for all pieces."""
    done = dinner.kitchen.situation.views[0].state.done
    assert [len(done[step]) for step in ("light", "smoke_clean", "shutdown")] == [1, 1, 1]


def test_pit_and_core_are_one_question_that_names_the_piece(dinner: Table) -> None:
    """One walk reads the pit and the core; the answer is a row of numbers in that order."""
    assert _said(dinner, "Read the pit, then the core of beef short ribs, like 250 171")
    assert _said(dinner, "Pit 275 F, beef short ribs: meat")


def test_buttons_name_their_piece(dinner: Table) -> None:
    """Where a step is done to one of several, its button says to which."""
    labels = {label for h in dinner.kitchen.heard for label in h.labels}
    assert {"Spareribs: Meat is on", "Whole chicken: Meat is on", "Spareribs: Slides in"} <= labels
    assert "Meat is on" not in labels


def test_no_message_asks_for_a_row_longer_than_its_pieces(dinner: Table) -> None:
    """At most one question for numbers in a message of plain readings."""
    for heard in dinner.kitchen.heard:
        assert heard.text.count("Read the pit") + heard.text.count("Core of") <= 1


@pytest.fixture
def pair(tmp_path: Path) -> PlayedKitchen:
    """Return a kitchen with a brisket and a pork shoulder on one fire since ten."""
    kitchen = PlayedKitchen(tmp_path, on("8:30"))
    kitchen.opens(INES)
    kitchen.say(INES, "brisket 5 kg and pork shoulder 4 kg, when ready, pit 250")
    kitchen.say(INES, "lit at 8:30")
    kitchen.until(on("10:00"))
    kitchen.say(INES, "brisket and shoulder are on")
    return kitchen


@pytest.mark.parametrize(
    ("row", "told"),
    [
        ("84 92", "Whole brisket: meat 84 F, pork shoulder: meat 92 F"),
        ("250 84 92", "Pit 250 F, whole brisket: meat 84 F, pork shoulder: meat 92 F"),
    ],
)
def test_two_cores_are_one_question_and_one_row(pair: PlayedKitchen, row: str, told: str) -> None:
    """The question names the pieces in order; the row is understood in that order, with the pit before it or not."""
    sent = [heard for heard in pair.until(on("11:40")) if "Core of" in heard.text]
    assert "Core of whole brisket, then pork shoulder? Like 171 188." in sent[0].text
    assert pair.say(INES, row).text.startswith(told)


def test_a_name_tells_the_piece_and_undo_takes_back_only_that(pair: PlayedKitchen) -> None:
    """A core with a name is of that piece; undo takes back the last thing told."""
    pair.until(on("11:45"))
    assert "Pork shoulder: meat 91 F" in pair.say(INES, "shoulder 91").text
    assert "ork shoulder" in pair.say(INES, "undo").text
    assert pair.situation.view("p2").state.read(Slot.CORE) == ()


def test_a_core_that_fits_both_costs_a_tap(pair: PlayedKitchen) -> None:
    """Nothing is asked and both could be there: one tap tells which."""
    pair.until(on("11:20"))
    asked = pair.say(INES, "meat 80")
    assert (asked.labels[-2:], "which piece?" in asked.text) == (("Whole brisket", "Pork shoulder"), True)
    assert "Pork shoulder: meat 80 F" in pair.tap(INES, "Pork shoulder").text


def test_a_piece_is_added_and_dropped_by_a_word(pair: PlayedKitchen) -> None:
    """What was added has a plan of its own; what was dropped is not spoken of any more."""
    assert "Whole chicken: added, 2 pieces" in pair.say(INES, "add 2 chickens").text
    assert len(pair.situation.views) == 3
    assert "Whole chicken: not cooked after all" in pair.say(INES, "drop the chicken").text
    assert [view.piece for view in pair.situation.views] == ["p1", "p2"]


# --- two cooks in one chat --------------------------------------------------------------------------------------------


@pytest.fixture
def two(tmp_path: Path) -> PlayedKitchen:
    """Return a kitchen in which ribs are planned, and a chicken as a cook of its own."""
    kitchen = PlayedKitchen(tmp_path, on("6:00"))
    kitchen.opens(INES)
    kitchen.say(INES, "spare ribs 2 racks, dinner 19:00, pit 275")
    kitchen.say(INES, "new cook: chicken 1.8 kg, dinner 20:00")
    kitchen.say(INES, "300")
    return kitchen


def test_a_second_cook_begins_beside_the_first(two: PlayedKitchen) -> None:
    """Both are open, and what next tells of both by name."""
    assert len(two.store.open_cooks()) == 2
    text = two.say(INES, "what next").text
    assert "Spareribs:" in text
    assert "Whole chicken:" in text


def test_a_reply_goes_to_the_cook_that_it_names(two: PlayedKitchen) -> None:
    """The chicken is trimmed, the ribs are not."""
    assert two.say(INES, "chicken trimmed").text.startswith("Whole chicken:\nTrimmed")
    assert two.say(INES, "spareribs salted").text.startswith("Spareribs:\nSalted")


def test_an_ambiguous_reply_costs_a_tap(two: PlayedKitchen) -> None:
    """Both ask for ticks: "done" is asked about, and the tap does it in the cook that is meant."""
    asked = two.say(INES, "all done")
    assert (asked.text, set(asked.labels)) == ("For which cook?", {"Whole chicken", "Spareribs"})
    assert two.tap(INES, "Spareribs").text.startswith("Spareribs:\nCooker clean")


def test_buttons_belong_to_their_cook(two: PlayedKitchen) -> None:
    """The newest "Salted" is the chicken's; an older one still salts the ribs."""
    tokens = [
        choice.token
        for heard in two.heard
        for row in heard.outgoing.choices
        for choice in row
        if choice.label == "Salted"
    ]
    first = [h for h in two.does(two.tapped(INES, tokens[0])) if h.sort == "answer"]
    last = [h for h in two.does(two.tapped(INES, tokens[-1])) if h.sort == "answer"]
    assert first[-1].text.startswith("Spareribs:")
    assert last[-1].text.startswith("Whole chicken:")
