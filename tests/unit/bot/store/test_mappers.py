"""Facts between rows and values: every kind and version, corrections inside out, and what cannot be read."""

from __future__ import annotations

import dataclasses
import json
from typing import ClassVar

import pytest

from bot.chat import Address
from bot.store import errors
from bot.store.mappers import address_columns, dump_body, load_body
from scheduler.facts import BODIES, Body, Corrected, Reading, Slot
from tests.unit.bot.store.bodies import ONE_OF_EACH


@pytest.mark.parametrize("body", ONE_OF_EACH, ids=lambda body: str(body.kind))
def test_a_body_survives_json(body: Body) -> None:
    """What is dumped, written as text and loaded again is equal, figures to the last bit."""
    data = json.loads(json.dumps(dump_body(body)))
    assert load_body(body.kind, body.version, data) == body


@pytest.mark.parametrize("body", ONE_OF_EACH, ids=lambda body: str(body.kind))
def test_every_field_of_a_body_is_filled_here(body: Body) -> None:
    """The examples leave no field at its default, so that a field lost on the way would show."""
    defaults = {
        field.name: field.default for field in dataclasses.fields(body) if field.default is not dataclasses.MISSING
    }
    assert [name for name, default in defaults.items() if getattr(body, name) == default] == []


def test_every_body_ever_written_is_tried() -> None:
    """The examples cover the register of the engine."""
    assert {(body.kind, body.version) for body in ONE_OF_EACH} == set(BODIES)


def test_a_body_inside_a_correction_carries_its_own_kind_and_version() -> None:
    """The correction's row alone is enough to read the body it holds."""
    dumped = dump_body(Corrected(of="f1", body=Reading(slot=Slot.PIT, value_c=120.0)))
    assert (dumped["body"]["kind"], dumped["body"]["version"]) == ("reading", 1)


@pytest.mark.parametrize(("kind", "version"), [("reading", 2), ("omen", 1)])
def test_an_unknown_kind_or_version_is_named(kind: str, version: int) -> None:
    """The error says which fact cannot be read; nothing is guessed."""
    with pytest.raises(errors.UnknownFact, match=f"{kind} version {version}") as caught:
        load_body(kind, version, {})
    assert caught.value.details["kind"] == kind


def test_an_unknown_body_inside_a_correction_is_named() -> None:
    """The inner kind is the one that is reported."""
    inner = {"kind": "reading", "version": 9, "data": {}}
    with pytest.raises(errors.UnknownFact, match="reading version 9"):
        load_body("corrected", 1, {"of": "f1", "happened_at": None, "body": inner})


@pytest.mark.parametrize(
    ("kind", "data"),
    [
        ("reading", {"slot": "core"}),
        ("reading", {"slot": "moon", "value_c": 1.0}),
        ("planned", {}),
        ("corrected", {"of": "f1"}),
        ("corrected", {"of": "f1", "happened_at": "noon", "body": {}}),
    ],
)
def test_a_damaged_body_is_an_error(kind: str, data: dict[str, object]) -> None:
    """A row of a known kind that does not hold together is an error with the kind on it."""
    with pytest.raises(errors.UnknownFact) as caught:
        load_body(kind, 1, data)
    assert caught.value.details["kind"] == kind


def test_a_body_that_is_not_registered_is_never_written() -> None:
    """What could not be read back is refused before it is stored."""

    @dataclasses.dataclass(frozen=True, kw_only=True)
    class Dreamt(Reading):
        kind: ClassVar[str] = "dreamt"

    with pytest.raises(errors.UnknownFact):
        dump_body(Dreamt(slot=Slot.CORE, value_c=1.0))


def test_a_topic_numbered_zero_is_refused() -> None:
    """Zero stands for "no topic" in the database, so that it cannot be one."""
    with pytest.raises(errors.BrokenWrite):
        address_columns(Address(transport="telegram", chat="1", thread=0))
