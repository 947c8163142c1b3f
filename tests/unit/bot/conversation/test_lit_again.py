"""A fire that was told to be out burns again when somebody says that it burns, and not by any word like fine."""

from __future__ import annotations

import dataclasses

import pytest

from bot.conversation.context import Context
from bot.conversation.interpreter import read
from tests.unit.bot.conversation.spoken import plain, setting


def _standing(*troubles: str) -> Context:
    return dataclasses.replace(setting("unit=F pit_target=250F"), troubles=troubles)


@pytest.mark.parametrize(
    "text",
    ["relit", "it's lit again", "the fire is back", "fire is burning again", "i relit it at 13:30", "its going again"],
)
@pytest.mark.parametrize("what", ["fire_out", "fuel_out"])
def test_a_fire_burns_again_by_words_of_fire(text: str, what: str) -> None:
    """The problem that stands is over."""
    assert plain(read(text, _standing(what))) == f"trouble over {what}"


@pytest.mark.parametrize(
    "text", ["its fine", "all good", "ok now", "sorted", "fire went out but its fine now", "is it lit again?"]
)
def test_a_fire_stays_out_by_other_words(text: str) -> None:
    """Nothing that does not speak of a burning fire names it as over."""
    assert "over fire_out" not in plain(read(text, _standing("fire_out")))
