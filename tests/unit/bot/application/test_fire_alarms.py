"""A fire that goes wrong is told to whoever leads and watches, loudly, whoever typed it."""

from __future__ import annotations

import pytest

from tests.fakes.kitchen import PlayedKitchen, on


def test_a_pit_far_too_hot_is_told_to_all_at_the_fire(ribs: PlayedKitchen) -> None:
    """A runaway pit: number first, the card of a hot fire, urgent in both rooms; never "one small move"."""
    ribs.until(on("10:40"))
    answer = ribs.say("Tomas", "pit 500")
    (echo,) = ribs.told("Ines")
    for heard in (answer, echo):
        assert "Pit 500 F, far above 275 F (read by Tomas)." in heard.text
        assert "do not open the lid to cool it" in heard.text
        assert "Lid up on a hot fire flares" in heard.text
        assert "one small move, then wait" not in heard.text
    assert echo.outgoing.urgent
    assert not echo.outgoing.silent


def test_a_pit_a_little_too_hot_is_nobody_elses_alarm(ribs: PlayedKitchen) -> None:
    """Under the mark of the handover card the small move is told to whoever read it, and nobody is called."""
    ribs.until(on("10:40"))
    answer = ribs.say("Tomas", "pit 300")
    assert "one small move" in answer.text
    assert not any(one.outgoing.urgent for one in ribs.told("Ines"))


@pytest.mark.parametrize("text", ["no charcoal left", "it's pouring", "the fire is out"])
def test_what_the_card_promises_reaches_the_lead(ribs: PlayedKitchen, text: str) -> None:
    """Fuel gone, rain, fire out: the lead hears who says it and the card, loudly."""
    ribs.until(on("10:40"))
    ribs.say("Tomas", text)
    (echo,) = ribs.told("Ines")
    assert f'Tomas says: "{text}"' in echo.text
    assert echo.outgoing.urgent
    assert not echo.outgoing.silent
