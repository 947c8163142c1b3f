"""Who can be woken in a night: somebody who did not answer the test and is up all the same, and what undo leaves."""

from __future__ import annotations

from tests.acceptance.test_crew_night import evening, evening_once, loud
from tests.fakes.kitchen import PlayedKitchen, chat, on

__all__ = ("evening", "evening_once")


def test_who_does_something_at_night_is_called_again(evening: PlayedKitchen) -> None:
    """Bashir did not answer the test; a bare k at half past two counts as the answer, and the watch hears of it."""
    evening.until(on("20:05"))
    for name in ("Ines", "Tomas"):
        evening.tap(name, "I heard it", room=chat(name))
    evening.until(on("22:30"))
    assert evening.situation.not_wakeable(evening.now) == ("Bashir",)
    sent = evening.mutter("Bashir", "k", room=chat("Bashir"))
    assert evening.situation.not_wakeable(evening.now) == ()
    told = [one for one in sent if one.room == chat("Tomas") and one.sort == "awake"]
    assert [one.text for one in told] == ["Bashir is awake: called again from now on."]
    assert loud(sent) == {}


def test_undo_does_not_take_back_the_test_nor_the_coming(evening: PlayedKitchen) -> None:
    """Ines heard the test and undoes more than she told: she can still be woken; Wren is still the host."""
    evening.until(on("20:05"))
    evening.tap("Ines", "I heard it", room=chat("Ines"))
    for _again in range(3):
        evening.mutter("Ines", "undo", room=chat("Ines"))
    evening.mutter("Wren", "undo", room=chat("Wren"))
    state = evening.situation.state
    assert state.sound["Ines"].heard_at is not None
    assert "Wren" in state.crew
