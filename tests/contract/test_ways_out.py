"""The ways out that need no network: the list of the rehearsal and the screens of the terminal."""

from __future__ import annotations

import asyncio
import dataclasses
from pathlib import Path

import pytest

from bot.chat import Address, Choice, Declined, Document, Lack, Outgoing, OutgoingKind, Sent, Unknown
from bot.ports import ClaimedRow, OutgoingTransport
from bot.store import SqlStore
from bot.transport.memory import MemoryTransport
from bot.transport.terminal.outgoing import MOST_FILE_BYTES, TerminalOutgoing
from tests.contract.written import NOON

ROW = ClaimedRow(
    id=1,
    attempt=1,
    outgoing=Outgoing(
        key="m1",
        address=Address(transport="terminal", chat="ines"),
        text="Wrap now.",
        choices=((Choice(label="done", token="t1"),), (Choice(label="skip", token="t2"),)),
    ),
    target_ref=None,
)


def of_kind(kind: OutgoingKind, text: str, target: str | None = None) -> ClaimedRow:
    """Return a row of another kind."""
    outgoing = dataclasses.replace(ROW.outgoing, kind=kind, text=text, key=kind, target=target)
    return dataclasses.replace(ROW, outgoing=outgoing)


PLAN = Document(name="plan-1.pdf", media_type="application/pdf", data=bytes(range(256)))


def terminal_of(store: SqlStore, folder: Path) -> TerminalOutgoing:
    """Return the terminal's way out, with a folder for files that is not there yet."""
    return TerminalOutgoing(store, now=lambda: NOON, folder=folder / "papers")


def with_file(text: str = "The plan.", *, key: str = "m1", name: str = PLAN.name) -> ClaimedRow:
    """Return a row with a file."""
    outgoing = dataclasses.replace(ROW.outgoing, text=text, key=key, document=dataclasses.replace(PLAN, name=name))
    return dataclasses.replace(ROW, outgoing=outgoing)


@pytest.fixture(params=["memory", "terminal"])
def way_out(request: pytest.FixtureRequest, store: SqlStore, tmp_path: Path) -> OutgoingTransport:
    """Return each way out in turn."""
    return MemoryTransport() if request.param == "memory" else terminal_of(store, tmp_path)


@pytest.mark.parametrize("kind", OutgoingKind)
def test_everything_can_be_sent(way_out: OutgoingTransport, kind: OutgoingKind) -> None:
    """Every kind of outgoing has success as its outcome; what is fetched is any file that is there."""
    assert isinstance(asyncio.run(way_out.send(of_kind(kind, "text", __file__))), Sent)


def test_a_photo_attached_in_a_window_is_copied(store: SqlStore, tmp_path: Path) -> None:
    """Its bytes are put away under the name asked for, nothing is shown; a file that is gone or large is declined."""
    kept: dict[str, bytes] = {}
    terminal = TerminalOutgoing(store, now=lambda: NOON, folder=tmp_path / "papers", album=kept.__setitem__)
    photo, large = tmp_path / "bark.jpg", tmp_path / "large.jpg"
    photo.write_bytes(b"bark")
    with large.open("wb") as file:
        file.truncate(MOST_FILE_BYTES + 1)
    outcomes = [
        asyncio.run(terminal.send(of_kind(OutgoingKind.FETCH, "supper-1.jpg", str(path))))
        for path in (photo, large, tmp_path / "gone.jpg")
    ]
    assert [isinstance(one, Sent) for one in outcomes] == [True, False, False]
    assert [isinstance(one, Declined) and one.lack is Lack.FILE for one in outcomes] == [False, True, True]
    assert (kept, store.screen("ines")) == ({"supper-1.jpg": b"bark"}, ())


def test_a_message_gets_a_reference(way_out: OutgoingTransport) -> None:
    """The reference is what a later edit names."""
    outcome = asyncio.run(way_out.send(ROW))
    assert isinstance(outcome, Sent)
    assert outcome.ref


@pytest.mark.parametrize("text", ["The plan.", ""])
def test_a_file_can_be_sent_with_and_without_words(way_out: OutgoingTransport, text: str) -> None:
    """A message with a file has success as its outcome, and a reference."""
    outcome = asyncio.run(way_out.send(with_file(text)))
    assert isinstance(outcome, Sent)
    assert outcome.ref


def test_the_terminal_puts_a_file_away_and_says_where(store: SqlStore, tmp_path: Path) -> None:
    """The file is whole, its owner's alone, in a folder that is its owner's alone; the screen names its path."""
    asyncio.run(terminal_of(store, tmp_path).send(with_file()))
    path = tmp_path / "papers" / "plan-1.pdf"
    assert path.read_bytes() == PLAN.data
    assert (path.stat().st_mode & 0o777, path.parent.stat().st_mode & 0o777) == (0o600, 0o700)
    assert [row.text for row in store.screen("ines")] == [f"The plan.\nSaved as {path}"]


def test_a_repeat_leaves_one_file_and_one_line(store: SqlStore, tmp_path: Path) -> None:
    """Sending the same row again, as after a death, changes nothing that anybody sees."""
    terminal = terminal_of(store, tmp_path)
    assert asyncio.run(terminal.send(with_file())) == asyncio.run(terminal.send(with_file()))
    assert [path.name for path in (tmp_path / "papers").iterdir()] == ["plan-1.pdf"]
    assert len(store.screen("ines")) == 1


@pytest.mark.parametrize("name", ["../../slowbell.db", "/etc/passwd", "..", ".hidden", "a\\..\\b.pdf", ""])
def test_a_file_never_leaves_its_folder(store: SqlStore, tmp_path: Path, name: str) -> None:
    """Whatever a name holds, the file lies in the folder and is not hidden."""
    asyncio.run(terminal_of(store, tmp_path).send(with_file(name=name)))
    (path,) = (tmp_path / "papers").iterdir()
    assert not path.name.startswith(".")
    assert {path.name for path in tmp_path.iterdir()} <= {"papers", "data"}


def test_a_full_disk_is_ours_and_raised(store: SqlStore, tmp_path: Path) -> None:
    """Where the folder cannot be made nothing is shown: the courier tries again."""
    (tmp_path / "papers").write_text("in the way")
    with pytest.raises(OSError, match="papers"):
        asyncio.run(terminal_of(store, tmp_path).send(with_file()))
    assert store.screen("ines") == ()


def test_the_memory_answers_as_scripted() -> None:
    """Scripted outcomes come first, in order; only what arrived is among the sent."""
    memory = MemoryTransport(outcomes=[Unknown(why="answer lost")])
    assert asyncio.run(memory.send(ROW)) == Unknown(why="answer lost")
    assert isinstance(asyncio.run(memory.send(ROW)), Sent)
    assert (memory.sent, len(memory.attempts)) == ([ROW.outgoing], 2)


def test_the_terminal_shows_a_message_once(store: SqlStore, tmp_path: Path) -> None:
    """A repeat of the same message changes nothing on the screen; its choices are in order."""
    terminal = terminal_of(store, tmp_path)
    first = asyncio.run(terminal.send(ROW))
    assert asyncio.run(terminal.send(ROW)) == first
    (row,) = store.screen("ines")
    assert (row.text, row.choices, row.at) == ("Wrap now.", (("done", "t1"), ("skip", "t2")), NOON)


def test_the_terminal_shows_nothing_that_has_no_words(store: SqlStore, tmp_path: Path) -> None:
    """Reactions, pins and silent answers to a choice leave the screen as it is."""
    terminal = terminal_of(store, tmp_path)
    for kind in (OutgoingKind.REACTION, OutgoingKind.PIN, OutgoingKind.UNPIN):
        asyncio.run(terminal.send(of_kind(kind, "👍")))
    asyncio.run(terminal.send(of_kind(OutgoingKind.TAP_ANSWER, "")))
    assert store.screen("ines") == ()
