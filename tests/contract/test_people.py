"""People, single-use codes and half-finished conversations."""

from __future__ import annotations

from pathlib import Path

from bot.crew import Person, Role
from bot.ports import Apply, InviteWrite, SessionWrite
from bot.store import SqlStore
from tests.contract.written import INES, NOON, SHED, after

CODE = "plum-lantern-42"
INVITE = InviteWrite(code=CODE, role="helper", expires_at=after(hours=1), cook="supper")


def test_people_are_known_in_order_of_joining(store: SqlStore) -> None:
    """A new role or name replaces the old one and leaves the place."""
    ines = Person(id="terminal:ines", name="Ines", role=Role.OWNER)
    wren = Person(id="terminal:wren", name="Wren", role=Role.GUEST)
    store.apply(Apply(now=NOON, people=(ines, wren)))
    promoted = Person(id=ines.id, name="Ines", role=Role.FIRE_LEAD)
    store.apply(Apply(now=NOON, people=(promoted,)))
    assert store.people() == (promoted, wren)
    assert store.person("terminal:wren") == wren
    assert store.person("terminal:bashir") is None


def test_a_code_opens_once(store: SqlStore) -> None:
    """An invitation is found until it is spent; whoever spends it second gets a conflict and writes nothing."""
    bashir = Person(id="telegram:9", name="Bashir", role=Role.HELPER)
    store.apply(Apply(now=NOON, invites=(INVITE,)))
    assert store.invite(CODE, after(minutes=59)) == INVITE
    assert store.apply(Apply(now=after(minutes=1), spend_code=CODE))
    assert store.invite(CODE, after(minutes=2)) is None
    assert not store.apply(Apply(now=after(minutes=2), spend_code=CODE, people=(bashir,)))
    assert store.people() == ()


def test_a_code_expires_at_its_instant(store: SqlStore) -> None:
    """At the instant itself it is over, for looking and for spending."""
    store.apply(Apply(now=NOON, invites=(INVITE,)))
    assert store.invite(CODE, INVITE.expires_at) is None
    assert not store.apply(Apply(now=INVITE.expires_at, spend_code=CODE))


def test_an_unknown_code_is_a_conflict(store: SqlStore) -> None:
    """A code that was never given out spends nothing."""
    assert not store.apply(Apply(now=NOON, spend_code="guess"))


def test_a_code_is_not_in_the_files(store: SqlStore, tmp_path: Path) -> None:
    """Nobody who reads the database can join with what it holds."""
    store.apply(Apply(now=NOON, invites=(INVITE,)))
    files = [path.read_bytes() for path in (tmp_path / "data").iterdir()]
    assert any(b"helper" in content for content in files)
    assert not any(CODE.encode() in content for content in files)


def test_a_conversation_is_kept_per_person_and_room(store: SqlStore) -> None:
    """It is replaced by the next and forgotten with None."""
    store.apply(Apply(now=NOON, sessions=(SessionWrite(address=INES, person="a", data={"step": "cut"}),)))
    store.apply(Apply(now=NOON, sessions=(SessionWrite(address=INES, person="a", data={"step": "pit"}),)))
    assert store.session(INES, "a") == {"step": "pit"}
    assert store.session(INES, "b") is None
    assert store.session(SHED, "a") is None
    store.apply(Apply(now=NOON, sessions=(SessionWrite(address=INES, person="a", data=None),)))
    assert store.session(INES, "a") is None
