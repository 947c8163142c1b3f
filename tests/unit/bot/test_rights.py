"""Rights: who may say what. Every intent is walked for every role, so that none is forgotten."""

from __future__ import annotations

from typing import get_args

import pytest

from bot import commands as say
from bot.commands.care import CareSaid, TreatedSaid
from bot.commands.intent import Said
from bot.commands.rights import NEEDS, needs
from bot.commands.trouble import DANGERS
from bot.crew import Person, Right, Role, may, roles_in, who_may
from scheduler.facts import CrewRole, Wrap

KINDS = {
    get_args(kind.model_fields["kind"].annotation)[0]: kind for kind in get_args(get_args(say.Intent)[0])
}  # fmt: skip
"""Kind of every intent that a button or a text can mean -> its class."""

NOT_IN_THE_TABLE = {"care", "treated", "wrap", "discard"}
"""Kinds whose right depends on what else they say, or is looked at where they are handled."""


class BrandNew(Said):
    """An intent that somebody forgot to give a right."""

    kind: str = "brand_new"


MAY: dict[Role, frozenset[Right]] = {
    Role.OWNER: frozenset(Right),
    Role.FIRE_LEAD: frozenset(Right),
    Role.WATCH: frozenset({Right.ASK, Right.REPORT, Right.TEND, Right.DISCARD}),
    Role.HELPER: frozenset({Right.ASK, Right.REPORT}),
    Role.CARVER: frozenset({Right.ASK, Right.REPORT, Right.SLICE}),
    Role.HOST: frozenset({Right.ASK, Right.REPORT, Right.DINNER}),
    Role.FOOD_HANDLER: frozenset({Right.ASK, Right.REPORT, Right.DISCARD}),
    Role.GUEST: frozenset({Right.ASK}),
}
"""The table of the trade page, written a second time by hand."""


def test_every_intent_names_the_right_it_needs() -> None:
    """A new intent that nobody gave a right fails here, and needs the most until then."""
    assert set(KINDS) - NOT_IN_THE_TABLE - set(NEEDS) == set()


@pytest.mark.parametrize("role", list(Role))
@pytest.mark.parametrize("kind", sorted(set(KINDS) & set(NEEDS)))
def test_every_intent_for_every_role(kind: str, role: Role) -> None:
    """Each button and command is allowed exactly to those that the table gives its right to."""
    intent = KINDS[kind].model_construct(kind=kind, what="fire_out")
    expected = needs(intent) in MAY[role]
    assert may(role, needs(intent)) is expected


def test_an_intent_that_nobody_knows_needs_the_most() -> None:
    """Whatever has no entry is only for those who may end a cook."""
    assert needs(BrandNew()) is Right.START


@pytest.mark.parametrize("what", sorted(DANGERS))
@pytest.mark.parametrize("role", list(Role))
def test_anybody_may_say_that_somebody_is_in_danger(what: str, role: Role) -> None:
    """Danger stops a cook whoever tells of it."""
    assert may(role, needs(say.Trouble(what=what, text="help")))


@pytest.mark.parametrize(
    ("intent", "allowed"),
    [
        (say.WrapSaid(wrap=Wrap.PAPER), {Role.OWNER, Role.FIRE_LEAD, Role.WATCH}),
        (say.WrapSaid(wrap=Wrap.PAPER, done=False), {Role.OWNER, Role.FIRE_LEAD}),
        (say.Done(step="pull"), {Role.OWNER, Role.FIRE_LEAD, Role.WATCH}),
        (say.Done(step="slice"), {Role.OWNER, Role.FIRE_LEAD, Role.CARVER}),
        (say.Done(step="t_minus", outcome="slip_30"), {Role.OWNER, Role.FIRE_LEAD, Role.HOST}),
        (say.MoveDinner(minutes=30), {Role.OWNER, Role.FIRE_LEAD, Role.HOST}),
        (say.MovePit(pit_low_c=120, pit_high_c=125), {Role.OWNER, Role.FIRE_LEAD}),
        (say.TakeLever(lever="late_pit_up_14"), {Role.OWNER, Role.FIRE_LEAD}),
        (say.Discard(), {Role.OWNER, Role.FIRE_LEAD, Role.WATCH, Role.FOOD_HANDLER}),
        (say.Claim(step="wood_add"), set(Role) - {Role.GUEST}),
        (say.Claim(step="wrap_do"), {Role.OWNER, Role.FIRE_LEAD, Role.WATCH}),
        (say.Ask(topic=say.Topic.HOW_LONG), set(Role)),
        (CareSaid(at_risk=True), set(Role)),
        (CareSaid(at_risk=False), {Role.OWNER, Role.FIRE_LEAD, Role.HOST}),
        (TreatedSaid(), {Role.OWNER, Role.FIRE_LEAD}),
    ],
)
def test_who_may_do_what_of_the_trade(intent: say.Intent, allowed: set[Role]) -> None:
    """Single decisions of a cook, for every role."""
    assert {role for role in Role if may(role, needs(intent))} == allowed


def test_several_roles_are_added_up() -> None:
    """A carver who is also host slices and moves dinner, and decides nothing about fire."""
    held = {Role.CARVER, Role.HOST}
    assert may(held, Right.SLICE)
    assert may(held, Right.DINNER)
    assert not may(held, Right.DECIDE)


def test_a_role_told_in_a_cook_goes_before_that_of_the_house() -> None:
    """Somebody trusted with the program is only the host of a cook that says so; the owner stays the owner."""
    wren = Person(id="terminal:wren", name="Wren", role=Role.FIRE_LEAD)
    assert roles_in(wren, ()) == {Role.FIRE_LEAD}
    assert roles_in(wren, {CrewRole.HOST}) == {Role.HOST}
    assert roles_in(wren, {CrewRole.HOST}, watches=True) == {Role.HOST, Role.WATCH}
    ines = Person(id="terminal:ines", name="Ines", role=Role.OWNER)
    assert roles_in(ines, {CrewRole.GUEST}) == {Role.OWNER, Role.GUEST}


def test_who_is_asked_first() -> None:
    """Dinner is the host's, slicing the carver's, throwing away the food handler's; the lead may do all of it."""
    assert who_may(Right.DINNER) == (Role.HOST, Role.FIRE_LEAD)
    assert who_may(Right.SLICE) == (Role.CARVER, Role.FIRE_LEAD)
    assert who_may(Right.DISCARD)[0] is Role.FOOD_HANDLER
    assert who_may(Right.DECIDE) == (Role.FIRE_LEAD,)
