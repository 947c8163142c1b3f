"""Late and early cooks in the chat: levers as buttons when dinner turns, on request, chosen, and who may choose."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from scheduler.facts import (
    Divided,
    LeverTaken,
    MovedToOven,
    PitMoved,
    ServingMoved,
    StepDone,
    Wrap,
    Wrapped,
    WrapPlanned,
)
from scheduler.planning.outlook import Verdict
from tests.fakes.kitchen import PlayedKitchen, chat, on

BRISKET = "brisket 5 kg, dinner 20:00, pit 250"


@pytest.fixture(scope="session")
def brisket_once(tmp_path_factory: pytest.TempPathFactory) -> PlayedKitchen:
    """Return the closed kitchen that `brisket` goes on from."""
    played = PlayedKitchen(tmp_path_factory.mktemp("brisket"), on("05:00"))
    played.opens("Ines")
    played.opens("Tomas")
    played.say("Ines", BRISKET)
    played.say("Ines", "cooker clean")
    played.until(on("06:30"))
    for text in ("no ban", "lit at 5:30", "thin", "pit 250", "probe in", "meat is on", "raw side washed"):
        played.say("Ines", text)
    for clock, text in (("09:00", "250/84"), ("11:00", "250/126"), ("13:00", "248/148")):
        played.until(on(clock))
        played.say("Ines", text)
    played.close()
    return played


@pytest.fixture
def brisket(brisket_once: PlayedKitchen, tmp_path: Path) -> Iterator[PlayedKitchen]:
    """Return a kitchen with a late brisket on the fire since 06:30, at 13:00."""
    played = brisket_once.continued(tmp_path)
    yield played
    played.close()


def bodies(kitchen: PlayedKitchen, *kinds: type[object]) -> list[object]:
    """Return what the log holds of some kinds of facts, in order."""
    return [fact.body for fact in kitchen.cook.facts if isinstance(fact.body, kinds)]


def button(kitchen: PlayedKitchen, begins: str, room: str = "Ines", text: str = "what can I do?") -> str:
    """Return the label of a lever that is offered now."""
    return next(label for label in kitchen.say(room, text).labels if label.startswith(begins))


# --- told by itself ---------------------------------------------------------------------------------------------------
def test_a_turn_for_the_worse_names_the_best_levers_once(ribs: PlayedKitchen) -> None:
    """When dinner turns from on time to close, the message names two or three levers; the next one does not."""
    ribs.until(on("10:40"))
    turned = ribs.say("Ines", "270/100")
    assert "but it may be late" in turned.text
    assert "What can be done:" in turned.text
    levers = [line for line in turned.lines if line.startswith("- ")]
    assert 2 <= len(levers) <= 3
    assert len(turned.labels) == len(levers) + 1
    assert turned.labels[-1] == "Do nothing"
    (echo,) = ribs.told("Tomas")
    assert "What can be done:" in echo.text  # whoever decides may sit at the other window
    ribs.later(10)
    assert "What can be done:" not in ribs.say("Ines", "meat 102").text


def test_a_button_tells_effect_and_until_when(brisket: PlayedKitchen) -> None:
    """A name, a size, an end, as in: Pit up a step to 275 F: 50 min earlier, until 19:15."""
    assert " earlier, until " in button(brisket, "Pit up a step to 275 F: ")


def test_nothing_is_advised_when_nothing_is_wrong(ribs: PlayedKitchen) -> None:
    """On time: asked, the answer is that nothing needs doing, without a button."""
    answer = ribs.say("Ines", "what can I do?")
    assert answer.lines[:2] == [answer.lines[0], "Nothing needs doing: leave it as it is."]
    assert answer.labels == ()


def test_asking_how_long_offers_the_way_to_the_levers(brisket: PlayedKitchen) -> None:
    """While dinner is late, the answer to how long has a button that asks what can be done, and it works."""
    assert brisket.say("Ines", "how long").labels == ("What can I do?",)
    assert brisket.tap("Ines", "What can I do?").lines[1].startswith("- Check it is real")


@pytest.mark.parametrize("text", ["running late", "what can I do?", "options", "/late"])
def test_it_is_asked_in_many_words_and_stores_nothing(brisket: PlayedKitchen, text: str) -> None:
    """The same levers, however it is asked; the log stays as it is."""
    before = brisket.cook.version
    answer = brisket.say("Ines", text)
    assert answer.lines[0].startswith("Dinner 20:00: late by about ")
    assert len(answer.labels) >= 3
    assert brisket.cook.version == before


# --- chosen -----------------------------------------------------------------------------------------------------------
def test_a_choice_is_facts_and_the_plan_follows(brisket: PlayedKitchen) -> None:
    """A hotter pit: the choice and the pit are in the log, the answer says what to do and the new times."""
    before = brisket.situation.outlook.pull.likely
    answer = brisket.tap("Ines", button(brisket, "Pit up a step"))
    assert answer.text.startswith("Open the bottom a little")
    assert "Chosen: pit up a step, pit to 275 F from now." in answer.text
    assert "pull now" in answer.text.casefold()
    assert "What can be done:" not in answer.text
    assert [type(body) for body in bodies(brisket, LeverTaken, PitMoved)] == [LeverTaken, PitMoved]
    after = brisket.situation.outlook.pull.likely
    assert before is not None
    assert after is not None
    assert after < before
    (echo,) = brisket.told("Tomas")
    assert echo.text.startswith("Ines: Chosen: pit up a step")


def test_a_wrap_that_is_chosen_is_counted_on_until_it_is_told(brisket: PlayedKitchen) -> None:
    """Choosing foil plans it; it lies around the meat when somebody says so."""
    brisket.until(on("14:00"))
    brisket.say("Ines", "248/159")
    answer = brisket.tap("Ines", button(brisket, "Wrap in foil", text="running late"))
    assert answer.text.startswith("Foil tight once the colour is right")
    assert bodies(brisket, WrapPlanned) == [WrapPlanned(wrap=Wrap.FOIL)]
    assert not bodies(brisket, Wrapped)
    assert "counting on foil" in brisket.say("Ines", "how long").text


def test_a_dinner_that_is_moved_is_moved_once(brisket: PlayedKitchen) -> None:
    """After the move no second one is offered."""
    seen = brisket.say("Ines", "what can I do?")
    assert not [label for label in seen.labels if label.startswith("Dinner ") and label.endswith("earlier")]
    brisket.say("Ines", "dinner an hour later")
    assert bodies(brisket, ServingMoved)
    assert not [label for label in brisket.say("Ines", "what can I do?").labels if label.startswith("Dinner ")]


def test_undo_takes_a_choice_back(brisket: PlayedKitchen) -> None:
    """Undo takes back what the choice changed."""
    before = brisket.situation.state.pit_c
    brisket.tap("Ines", button(brisket, "Pit up a step"))
    assert brisket.situation.state.pit_c > before
    brisket.say("Ines", "undo")
    assert brisket.situation.state.pit_c == before


def test_a_button_from_before_is_answered_with_what_is_open_now(brisket: PlayedKitchen) -> None:
    """A lever that has closed changes nothing: a second rise on the heels of the first is refused, the others shown."""
    label = button(brisket, "Pit up a step")
    brisket.tap("Ines", label)
    count = len(bodies(brisket, PitMoved))
    answer = brisket.tap("Ines", label)
    assert answer.text.startswith("Pit up a step: that is not open any more.")
    assert len(bodies(brisket, PitMoved)) == count


def test_doing_nothing_is_a_choice_too(ribs: PlayedKitchen) -> None:
    """It is kept that somebody decided to leave it."""
    ribs.until(on("10:40"))
    ribs.say("Ines", "270/100")
    assert ribs.tap("Ines", "Do nothing").text.startswith("Good: nothing is changed.")
    assert bodies(ribs, LeverTaken) == [LeverTaken(lever="nothing")]


# --- who may ----------------------------------------------------------------------------------------------------------
@pytest.fixture
def crew(tmp_path: Path) -> Iterator[PlayedKitchen]:
    """Return a kitchen on the messenger: Ines leads late ribs in her private chat, Wren helps, Bashir is a guest."""
    kitchen = PlayedKitchen(tmp_path, on("06:00"))
    for name, role in (("Ines", "owner"), ("Wren", "helper"), ("Bashir", "guest")):
        kitchen.invite(f"code-of-{name.casefold()}", role)
        kitchen.say(name, f"/start code-of-{name.casefold()}", room=chat(name))
    kitchen.say("Ines", "7 racks of short ribs, meat on at 5:30, dinner 12:00, pit 275", room=chat("Ines"))
    yield kitchen
    kitchen.close()


def test_a_helper_may_ask_but_not_choose(crew: PlayedKitchen) -> None:
    """Levers are decided by those who lead; everybody may look at them."""
    asked = crew.say("Wren", "what can I do?", room=chat("Wren"))
    label = next(label for label in asked.labels if label.startswith("Pit up a step"))
    assert crew.tap("Wren", label, room=chat("Wren")).text.startswith("Ines decides that, and is asked now: pit up")
    assert not bodies(crew, LeverTaken)
    again = crew.say("Ines", "what can I do?", room=chat("Ines"))
    assert crew.tap("Ines", label, room=chat("Ines")).text.startswith("Open the bottom a little"), again.text
    assert bodies(crew, LeverTaken) == [LeverTaken(lever="late_pit_up_14")]


def test_a_guest_may_report_danger_and_nothing_else(crew: PlayedKitchen) -> None:
    """Anybody may stop the cook for danger: a guest who was burned is answered with what to do, and everybody hears.

    A number of a guest is passed on to whoever looks after the fire, and not taken.
    """
    passed_on = crew.say("Bashir", "178", room=chat("Bashir")).text
    assert passed_on.startswith("Thank you. Ines is told, and looks at it. I take nothing of it before that.")
    hurt = crew.say("Bashir", "I burned my hand", room=chat("Bashir"))
    assert hurt.text.startswith("Cool the burn now")
    assert hurt.outgoing.urgent
    (told,) = crew.told(chat("Ines"))
    assert told.text.startswith("Cool the burn now")
    assert told.outgoing.urgent
    assert not told.outgoing.silent


# --- never a pause ----------------------------------------------------------------------------------------------------
def test_a_pause_is_refused_with_reason_and_oven(brisket: PlayedKitchen) -> None:
    """Half-cooked meat is never paused; the oven is offered, and choosing it moves the meat there."""
    answer = brisket.say("Ines", "can we pause it and finish tomorrow")
    assert answer.text.startswith("No: half-cooked meat cannot wait.")
    assert "140 F" in answer.text
    (oven,) = answer.labels
    assert oven.startswith("Finish in the oven")
    assert not bodies(brisket, LeverTaken)
    moved = brisket.tap("Ines", oven)
    assert "onto" in moved.text or "into the oven at 275 F" in moved.text
    assert [type(body) for body in bodies(brisket, LeverTaken, Wrapped, MovedToOven)] == [
        LeverTaken, Wrapped, MovedToOven,
    ]  # fmt: skip


PARKED = (
    "put it back in the fridge",
    "put it in the fridge",
    "in the fridge",
    "let the fire die and go to bed",
    "let it go out and finish it tomorrow",
    "can we put it in the fridge until tomorrow",
    "bring it inside for the night",
    "shut it down and go to bed",
    "pulled it, it's in the fridge",
    "leftovers in the fridge",
    "keep it in the garage overnight",
)


@pytest.mark.parametrize("said", PARKED)
def test_half_cooked_meat_goes_into_no_fridge(brisket: PlayedKitchen, said: str) -> None:
    """However it is put, meat at 148 F is not chilled, parked or left over a dying fire: refused, nothing written."""
    answer = brisket.say("Ines", said)
    assert answer.text.startswith("No: half-cooked meat cannot wait."), answer.text
    assert not [
        b for b in bodies(brisket, StepDone) if isinstance(b, StepDone) and b.step in {"leftovers", "t_minus", "pull"}
    ]


@pytest.mark.parametrize(
    "said", ["beer is in the fridge", "leave it on the smoker overnight", "fire is going down a bit"]
)
def test_other_words_are_no_pause(brisket: PlayedKitchen, said: str) -> None:
    """Drinks may be chilled, and meat may stay on overnight."""
    assert "half-cooked" not in brisket.say("Ines", said).text


def test_meat_pulled_and_read_safe_may_be_chilled(brisket: PlayedKitchen) -> None:
    """Off the fire and above its minimum it may go into the fridge: that is written down."""
    brisket.later(5)
    brisket.say("Ines", "pulled it")
    answer = brisket.say("Ines", "in the fridge")
    assert "half-cooked" not in answer.text
    assert "leftovers" in [b.step for b in bodies(brisket, StepDone) if isinstance(b, StepDone)]


# --- early ------------------------------------------------------------------------------------------------------------
def test_a_cook_that_runs_far_too_early_is_told_so_with_levers(brisket: PlayedKitchen) -> None:
    """Dinner moved to midnight: it would outlast the box, and what keeps it is offered."""
    answer = brisket.say("Ines", "dinner tomorrow 08:00")
    assert brisket.situation.outlook.verdict is Verdict.EARLY
    assert "early" in answer.text
    assert any(label.startswith(("Pit down a step", "Leave it bare", "Hold it")) for label in answer.labels)


def test_parts_are_asked_about_as_parts(brisket: PlayedKitchen) -> None:
    """Parting point and flat is a fact of its own once it is chosen; it opens with the seam."""
    brisket.until(on("15:30"))
    brisket.say("Ines", "meat 172")
    found = [label for label in brisket.say("Ines", "what can I do?").labels if label.startswith("Part point and flat")]
    assert found
    answer = brisket.tap("Ines", found[0])
    assert answer.text.startswith("Clean knife and board")
    assert bodies(brisket, Divided) == [Divided(parts=2)]


# --- several pieces ---------------------------------------------------------------------------------------------------
def test_of_several_pieces_the_one_that_decides_is_named(kitchen: PlayedKitchen) -> None:
    """The levers are those of the piece that makes dinner late, by its name; a hotter pit is said to be for all."""
    kitchen.opens("Ines")
    kitchen.say("Ines", "brisket 5 kg and pork butt 3.5 kg, dinner 20:00, pit 250")
    kitchen.say("Ines", "cooker clean")
    kitchen.until(on("06:40"))
    for text in ("no ban", "lit at 6:00", "thin", "pit 250", "brisket is on", "raw side washed", "butt is on"):
        kitchen.say("Ines", text)
    for clock, text in (("09:00", "brisket 84"), ("11:00", "butt 90"), ("13:00", "brisket 148"), ("13:01", "butt 120")):
        kitchen.until(on(clock))
        kitchen.say("Ines", text)
    asked = kitchen.say("Ines", "what can I do?")
    assert asked.lines[1] == "About the pork shoulder:"
    hotter = next(line for line in asked.lines if line.startswith("- Pit up a step"))
    assert "every piece gets it" in hotter
    label = next(label for label in asked.labels if label.startswith("Cut it in two"))
    kitchen.tap("Ines", label)
    (chosen,) = [fact for fact in kitchen.cook.facts if isinstance(fact.body, Divided)]
    butt = next(piece.id for piece in kitchen.situation.state.pieces if piece.cut == "pork_butt")
    assert chosen.piece == butt
