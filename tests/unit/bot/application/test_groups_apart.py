"""Several groups, and one that is gone: nobody meddles with the cook of another, and nobody is left alone."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from bot.chat import IncomingKind
from tests.fakes.kitchen import Heard, PlayedKitchen, chat, group, on
from tests.unit.bot.application.conftest import RIBS

CODE = "0123456789abcdef"
HERE, ELSEWHERE = group("Allotment"), group("Elsewhere")


@pytest.fixture
def grouped(tmp_path: Path) -> PlayedKitchen:
    """Return a kitchen of Ines, with ribs planned in her group."""
    kitchen = PlayedKitchen(tmp_path, on("06:00"), link_prefix="https://example.org/bell?start=")
    kitchen.invite(CODE, "owner")
    kitchen.say("Ines", f"/start {CODE}", room=chat("Ines"))
    kitchen.does(kitchen.incoming("Ines", HERE, IncomingKind.ARRIVED))
    kitchen.say("Ines", RIBS, room=HERE)
    kitchen.say("Ines", "cooker clean", room=HERE)
    return kitchen


def code_for(kitchen: PlayedKitchen, role: str) -> str:
    """Return a code for one more person."""
    text = kitchen.say("Ines", f"invite Gus as {role}", room=chat("Ines")).text
    found = re.search(r"start=(\S+)", text)
    assert found
    return found.group(1)


def heard_in(sent: list[Heard], name: str) -> list[Heard]:
    """Return what somebody was sent in private, boards left out."""
    return [one for one in sent if one.room == chat(name) and one.sort != "board"]


def test_a_code_lets_in_a_person_and_never_a_group(grouped: PlayedKitchen) -> None:
    """A guest says the own code in a group of strangers: the guest is in, the strangers stay outside."""
    grouped.say("Gus", f"/join {code_for(grouped, 'guest')}", room=ELSEWHERE)
    assert grouped.mutter("Mallory", "what next", room=ELSEWHERE) == []
    assert {person.name for person in grouped.store.people()} == {"Ines", "Gus"}


def test_the_helpers_of_one_group_do_not_follow_the_cook_of_another(grouped: PlayedKitchen) -> None:
    """Somebody of a second group of the same owner reports in private: the cook of the first is untouched."""
    grouped.does(grouped.incoming("Ines", ELSEWHERE, IncomingKind.ARRIVED))
    grouped.mutter("Mallory", "what next", room=ELSEWHERE)
    before = grouped.situation.state
    sent = grouped.mutter("Mallory", "pit 400F", room=chat("Mallory"))
    assert all(one.room == chat("Mallory") for one in sent)
    assert grouped.situation.state == before


def test_the_helpers_of_a_group_follow_its_cook_in_private(grouped: PlayedKitchen) -> None:
    """Whoever was seen in the group of a cook may ask about it alone."""
    grouped.say("Wren", "/next", room=HERE)
    assert "Yours next: " in grouped.say("Wren", "what next", room=chat("Wren")).text


def test_those_at_the_fire_are_told_that_the_group_is_gone(grouped: PlayedKitchen) -> None:
    """The only group throws the program out: the lead hears it in private, and what is due comes there from then on."""
    sent = grouped.does(grouped.incoming("Ines", HERE, IncomingKind.LEFT))
    told = heard_in(sent, "Ines")
    assert [one.text.split("\n")[0] for one in told] == [
        "I can no longer write into the group: I was taken out, or it is closed."
    ]
    assert "What is due comes here now" in told[0].text
    due = [one for one in heard_in(grouped.until(on("14:00")), "Ines") if one.sort == "prompt"]
    assert due
    assert not due[0].outgoing.silent


def test_a_stop_is_heard_in_private_while_the_group_is_gone(grouped: PlayedKitchen) -> None:
    """Danger told by whoever is left reaches the lead by sound though the only group is gone."""
    grouped.say("Tomas", f"/start {code_for(grouped, 'watch')}", room=chat("Tomas"))
    grouped.does(grouped.incoming("Ines", HERE, IncomingKind.LEFT))
    sent = grouped.mutter("Tomas", "grease fire", room=chat("Tomas"))
    assert any(one.outgoing.urgent for one in heard_in(sent, "Ines"))
