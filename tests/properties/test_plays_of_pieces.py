"""Random plays of cooks with several pieces: the laws of one piece hold for each of them."""

from __future__ import annotations

import datetime as dt

from hypothesis import given, settings

from scheduler.facts import PieceAdded, StepDone
from tests.properties.actions import Action, Start
from tests.properties.laws import LAWS
from tests.properties.play import Play, play
from tests.properties.strategies import crews, several


@settings(max_examples=5)
@given(start=several(2), actions=crews(12))
def test_every_law_holds_in_a_cook_of_two_pieces(start: Start, actions: tuple[Action, ...]) -> None:
    """Whatever is told of the one in turn with the other."""
    _obeys(play(start, actions))


@settings(max_examples=3)
@given(start=several(3), actions=crews(8))
def test_every_law_holds_in_a_cook_of_three_pieces(start: Start, actions: tuple[Action, ...]) -> None:
    """The same laws with three pieces on one fire."""
    _obeys(play(start, actions))


def test_a_cook_of_two_is_brought_to_its_end() -> None:
    """A sensible crew brings ribs and a chicken from the fire to the plate, and the cook closes by itself."""
    others = (PieceAdded(cut="whole_chicken", pit_low_c=149.0, pit_high_c=149.0),)
    played = Play(Start(at=dt.datetime(2026, 9, 12, 6, tzinfo=dt.UTC), dinner_min=900, others=others))
    played.work(6 * 24 * 60)
    served = {fact.piece for fact in played.log if isinstance(fact.body, StepDone) and fact.body.step == "serve"}
    assert served == {"p1", "p2"}
    assert played.situation.state.over
    _obeys(played)


def _obeys(played: Play) -> None:
    if played.refused is None:
        for law in LAWS:
            law(played)
