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
    """Return the third asking of the bark at night: Ines and Wren did not answer, now the group is called."""
    log = overnight(("Wren", 0, 540))
    log.tell(CrewTold(name="Tomas", role=CrewRole.WATCH), 6)
    due = log.due("bark_check")
    assert due is not None
    trips = [log.trip(due + stage * STAGE_MIN) for stage in range(3)]
    assert trips[-1] is not None
    bark = tuple(one for one in trips[-1].prompts if one.step.id == "bark_check")
    return dataclasses.replace(trips[-1], prompts=bark), log.situation


def _heard(trip: Trip, situation: Situation, rooms: tuple[Listener, ...]) -> dict[str, Loudness]:
    return {one.name or "group": of_a_trip(one, rooms, trip, situation, urgent=False) for one in rooms}


def test_the_group_rings_and_the_rooms_of_its_people_keep_still(nobody_answers: tuple[Trip, Situation]) -> None:
    """Who is in the group and has a room of their own hears one ring, not two."""
    heard = _heard(*nobody_answers, (GROUP, INES, WREN, TOMAS))
    assert heard == {
        "group": Loudness.LOUD, "Ines": Loudness.SILENT, "Wren": Loudness.SILENT, "Tomas": Loudness.SILENT,
    }  # fmt: skip


def test_about_safety_who_was_not_called_yet_is_rung_alone_too(nobody_answers: tuple[Trip, Situation]) -> None:
    """A group may be muted: Tomas, who was not called before, is rung in his own room as well."""
    trip, situation = nobody_answers
    safe = [dataclasses.replace(p, step=p.step.model_copy(update={"safety": True})) for p in trip.prompts]
    heard = _heard(dataclasses.replace(trip, prompts=tuple(safe)), situation, (GROUP, INES, WREN, TOMAS))
    assert heard == {
        "group": Loudness.LOUD, "Ines": Loudness.SILENT, "Wren": Loudness.SILENT, "Tomas": Loudness.LOUD,
    }  # fmt: skip


def test_without_a_group_those_at_the_fire_ring(nobody_answers: tuple[Trip, Situation]) -> None:
    """Windows only: whoever is called rings; the host, who is not, hears nothing."""
    heard = _heard(*nobody_answers, (INES, WREN, _own("Bashir", Role.HOST)))
    assert heard == {"Ines": Loudness.LOUD, "Wren": Loudness.LOUD, "Bashir": Loudness.NOTHING}
