"""Levers that wait in the chat: who may take which, how long a question waits, what may be done then."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from tests.fakes.kitchen import PlayedKitchen, on


@pytest.fixture(scope="module")
def late_once(tmp_path_factory: pytest.TempPathFactory) -> PlayedKitchen:
    """Play ribs that are late at noon: Ines leads, Tomas has the watch, Wren helps, Bashir is the host."""
    kitchen = PlayedKitchen(tmp_path_factory.mktemp("late"), on("06:00"))
    for name in ("Ines", "Tomas", "Wren", "Bashir"):
        kitchen.opens(name)
    kitchen.say("Ines", "7 racks of short ribs, dinner 14:30, pit 250")
    for text in ("Tomas is watch", "Wren is helper", "Bashir is host"):
        kitchen.say("Ines", text)
    kitchen.until(on("07:00"))
    kitchen.say("Ines", "lit")
    kitchen.until(on("08:30"))
    for text in ("smoke thin", "probe is in", "meat on"):
        kitchen.say("Ines", text)
    kitchen.until(on("12:00"))
    kitchen.say("Ines", "150")
    kitchen.close()
    return kitchen


@pytest.fixture
def late(late_once: PlayedKitchen, tmp_path_factory: pytest.TempPathFactory) -> Iterator[PlayedKitchen]:
    """Return the late ribs at noon."""
    kitchen = late_once.continued(tmp_path_factory.mktemp("twin"))
    yield kitchen
    kitchen.close()


def _way(kitchen: PlayedKitchen, name: str, begins: str) -> str:
    """Somebody asks for the ways; return the label of one."""
    return next(one for one in kitchen.say(name, "what can we do").labels if one.startswith(begins))


def test_the_watch_moves_the_pit_a_step_by_itself(late: PlayedKitchen) -> None:
    """A small move is the watch's: it is done at once, and nobody is asked."""
    done = late.tap("Tomas", _way(late, "Tomas", "Pit up a step"))
    assert "pit to 275 F from now" in done.text
    assert late.told("Ines", "lever") == []


def test_a_helper_asks_the_watch_for_a_small_move(late: PlayedKitchen) -> None:
    """What the watch decides the watch is asked, not the lead."""
    said = late.tap("Wren", _way(late, "Wren", "Pit up a step"))
    assert said.lines[0].startswith("Tomas decides that, and is asked now: pit up a step.")
    assert [one.labels for one in late.told("Tomas", "lever")] == [("Yes", "No")]
    assert late.told("Ines", "lever") == []


def test_the_wrap_waits_for_the_lead(late: PlayedKitchen) -> None:
    """Twenty minutes, and with a bark of which nobody told that it is set the default is to keep the pit."""
    said = late.tap("Tomas", _way(late, "Tomas", "Wrap in paper"))
    assert said.lines[:2] == [
        "Ines decides that, and is asked now: wrap in paper.",
        "Answer by 12:20; until then nothing changes. Without an answer: pit and dinner stay as they are.",
    ]
    (wait,) = late.situation.state.levers_asked.values()
    assert (wait.decider, wait.until) == ("Ines", on("12:20"))


def test_with_a_bark_that_is_set_the_wrap_is_the_safe_default(late: PlayedKitchen) -> None:
    """The engine says what may be done when nobody decides, also for a wish typed freely."""
    late.say("Ines", "bark is set")
    assert "Without an answer: pit and dinner stay as they are." in late.say("Wren", "pit to 275").text
    said = late.tap("Wren", _way(late, "Wren", "Wrap in paper"))
    assert "Without an answer: the watch may wrap, if the bark is set" in said.text


def test_dinner_is_asked_of_the_host(late: PlayedKitchen) -> None:
    """An hour later is a lever of the host: of nobody else by name, and the lead's answer counts as well."""
    late.tap("Ines", _way(late, "Ines", "Pit up a step"))
    late.tap("Tomas", _way(late, "Tomas", "Dinner an hour later"))
    assert [one.labels for one in late.told("Bashir", "lever")] == [("Yes", "No")]
    assert late.told("Ines", "lever") == []


def test_a_question_is_asked_of_who_decides_alone(late: PlayedKitchen) -> None:
    """Nobody else is shown the buttons, in no room."""
    late.tap("Tomas", _way(late, "Tomas", "Wrap in paper"))
    asked = [one for one in late.new if one.labels == ("Yes", "No")]
    assert [one.room.chat for one in asked] == ["ines"]


def test_a_second_answer_changes_nothing(late: PlayedKitchen) -> None:
    """The host said no: a late "yes" on the same card changes nothing, and is told who settled it."""
    late.tap("Ines", _way(late, "Ines", "Pit up a step"))
    late.tap("Tomas", _way(late, "Tomas", "Dinner an hour later"))
    late.tap("Bashir", "No")
    serving = late.situation.state.serving
    again = late.tap("Bashir", "Yes")
    assert again.lines[0].startswith("That was settled at 12:00 by Bashir.")
    assert late.situation.state.serving == serving
