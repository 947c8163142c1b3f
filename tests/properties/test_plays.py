"""Random plays of the engine: every law holds in every cook, planned or begun in the middle, also as clocks change."""

from __future__ import annotations

import datetime as dt

import pytest
from hypothesis import given, settings

from scheduler.facts import Felt, StepDone
from tests.properties.actions import Action, Start
from tests.properties.laws import LAWS
from tests.properties.play import Play, play
from tests.properties.strategies import crews, starts


@settings(max_examples=30)
@given(start=starts(), actions=crews())
def test_every_law_holds_in_a_planned_cook(start: Start, actions: tuple[Action, ...]) -> None:
    """Replay is equal; order holds; nothing vanishes; done stays done; nothing is asked twice at once or out of place;
    the next wake lies ahead; safety is closed by answers alone; times make sense.
    """
    _obeys(play(start, actions))


@settings(max_examples=12)
@given(start=starts(middle=True), actions=crews())
def test_every_law_holds_in_a_cook_begun_in_the_middle(start: Start, actions: tuple[Action, ...]) -> None:
    """The same laws where the past is unknown."""
    _obeys(play(start, actions))


def _obeys(played: Play) -> None:
    if played.refused is None:
        for law in LAWS:
            law(played)


@pytest.mark.parametrize("law", LAWS, ids=lambda law: str(law.__name__))
def test_every_law_says_what_it_holds(law: object) -> None:
    """A law that fails names itself, and its first words say what should have been."""
    assert law.__doc__


def test_a_play_plays() -> None:
    """The machinery of these tests gets somewhere: a sensible crew brings a cook from the fire to the plate."""
    played = Play(Start(at=dt.datetime(2026, 9, 12, 6, tzinfo=dt.UTC), dinner_min=900))
    played.work(6 * 24 * 60)
    steps = {fact.body.step for fact in played.log if isinstance(fact.body, StepDone)}
    assert steps >= {"light", "meat_on", "pull", "box_meat", "slice", "serve", "leftovers", "ash"}
    assert any(isinstance(fact.body, Felt) for fact in played.log)
    assert played.situation.state.over
    _obeys(played)
