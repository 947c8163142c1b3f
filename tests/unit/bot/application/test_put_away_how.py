"""Food put away is recorded with how it was cut, whatever the order of steps."""

from __future__ import annotations

import pytest

from tests.fakes.kitchen import PlayedKitchen, on


@pytest.mark.parametrize("text", ["put away, sliced shallow", "sliced and put away in the fridge"])
def test_sliced_shallow_is_how_it_was_put_away(ribs: PlayedKitchen, text: str) -> None:
    """After serving "sliced" is how: the put-away stands, and nobody is told to bin it two hours after dinner."""
    ribs.until(on("14:30"))
    ribs.mutter("Ines", "203")
    ribs.mutter("Ines", "off the fire")
    ribs.until(on("18:00"))
    ribs.mutter("Ines", "food out")
    ribs.until(on("19:20"))
    said = ribs.say("Ines", text)
    assert "That cannot be" not in said.text
    state = ribs.situation.state
    assert state.did("two_hour") is not None or state.did("leftovers") is not None
    heard = ribs.until(on("20:20"))
    assert not any("the food has been out" in one.text for one in heard)
