"""Who hears what at night when nobody answers: each telephone rings once."""

from __future__ import annotations

import dataclasses

import pytest

from bot.application.manners import PLAIN
from bot.application.routing import Listener, Loudness, of_a_trip
from bot.crew import Person, Role
from scheduler.cook import Situation
from scheduler.facts import CrewRole, CrewTold
from scheduler.planning.escalation import STAGE_MIN
from scheduler.planning.trips import Trip
from tests.fakes.kitchen import chat, group
from tests.unit.scheduler.test_handover import overnight

GROUP = Listener(room=group("Harrow Lane"), manner=PLAIN, group=True)


def _own(name: str, role: Role = Role.HELPER) -> Listener:
    person = Person(id=f"telegram:{name.casefold()}", name=name, role=role)
    return Listener(room=chat(name), manner=PLAIN, person=person, roles=frozenset({role}))


INES, WREN, TOMAS = _own("Ines", Role.OWNER), _own("Wren", Role.WATCH), _own("Tomas")


@pytest.fixture(scope="module")
def nobody_answers() -> tuple[Trip, Situation]:
    """Return the third asking of the bark at night: Ines and Wren did not answer, now everybody is called."""
    log = overnight(("Wren", 0, 540))
    log.tell(CrewTold(name="Tomas", role=CrewRole.HELPER), 6)
    due = log.due("bark_check")
    assert due is not None
    trips = [log.trip(due + stage * STAGE_MIN) for stage in range(3)]
    assert trips[-1] is not None
    bark = tuple(one for one in trips[-1].prompts if one.step.id == "bark_check")
    return dataclasses.replace(trips[-1], prompts=bark), log.situation


def _heard(trip: Trip, situation: Situation, rooms: tuple[Listener, ...]) -> dict[str, Loudness]:
    return {one.name or "group": of_a_trip(one, rooms, trip, situation, urgent=False) for one in rooms}


def test_who_has_a_room_of_their_own_is_rung_there_alone(nobody_answers: tuple[Trip, Situation]) -> None:
    """All three have private rooms: each rings, and the group keeps the message without a sound."""
    heard = _heard(*nobody_answers, (GROUP, INES, WREN, TOMAS))
    assert heard == {
        "group": Loudness.SILENT, "Ines": Loudness.LOUD, "Wren": Loudness.LOUD, "Tomas": Loudness.LOUD,
    }  # fmt: skip


def test_the_group_rings_for_those_who_have_none(nobody_answers: tuple[Trip, Situation]) -> None:
    """Tomas can only be reached in the group: it rings, and the rooms of the other two keep still."""
    heard = _heard(*nobody_answers, (GROUP, INES, WREN))
    assert heard == {"group": Loudness.LOUD, "Ines": Loudness.SILENT, "Wren": Loudness.SILENT}


def test_about_safety_nobody_is_spared(nobody_answers: tuple[Trip, Situation]) -> None:
    """A group may be muted: what is about safety rings in the rooms of their own as well."""
    trip, situation = nobody_answers
    safe = [dataclasses.replace(p, step=p.step.model_copy(update={"safety": True})) for p in trip.prompts]
    heard = _heard(dataclasses.replace(trip, prompts=tuple(safe)), situation, (GROUP, INES, WREN))
    assert set(heard.values()) == {Loudness.LOUD}


def test_without_a_group_those_at_the_fire_ring(nobody_answers: tuple[Trip, Situation]) -> None:
    """Windows only: whoever is called rings, somebody who is not called does not."""
    heard = _heard(*nobody_answers, (INES, WREN, _own("Bashir", Role.HOST)))
    assert heard == {"Ines": Loudness.LOUD, "Wren": Loudness.LOUD, "Bashir": Loudness.NOTHING}
