"""Random plays of cooks with several pieces: the laws of one piece hold for each of them."""

from __future__ import annotations

import datetime as dt
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given, settings

from scheduler.facts import PieceAdded, StepDone, Watch, WatchesTold
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


@pytest.mark.parametrize("day", [dt.date(2026, 10, 24), dt.date(2026, 3, 28)])
def test_two_pieces_go_through_a_night_with_a_clock_change(day: dt.date) -> None:
    """With watches, a brisket and a shoulder are served the next day; nobody outside the watch is woken."""
    before = dt.datetime.combine(day, dt.time(21))
    change = before + dt.timedelta(hours=4, minutes=30)
    watches = WatchesTold(
        watches=(
            Watch(name="Ines", start=before, end=change),
            Watch(name="Tomas", start=change, end=before + dt.timedelta(hours=10)),
        )
    )
    others = (PieceAdded(cut="pork_butt"),)
    start = dt.datetime.combine(day, dt.time(8), dt.UTC)
    played = Play(Start(at=start, cut="brisket_packer", dinner_min=29 * 60, others=others, watches=watches))
    played.work(4 * 24 * 60)
    assert played.refused is None
    assert all(view.state.did("serve") for view in played.situation.views)
    woken = {name for moment in played.moments for prompt in moment.after.prompts for name in prompt.wakes[:1]}
    assert woken <= {"Ines", "Tomas"}
    assert woken
    zone = ZoneInfo("Europe/London")
    shift, end = (at.replace(tzinfo=zone).astimezone(dt.UTC) for at in (change, before + dt.timedelta(hours=10)))
    for moment in played.moments:
        for prompt in moment.after.prompts:
            due_at = max(prompt.wake_at or prompt.due_at, moment.after.state.as_of)
            if prompt.step.owner == "watch" and prompt.wakes and shift <= due_at < end:
                assert prompt.wakes[0] == "Tomas", prompt.key
    _obeys(played)
