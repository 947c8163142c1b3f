"""The ways out that need no network: the list of the rehearsal and the screens of the terminal."""

from __future__ import annotations

import asyncio
import dataclasses

import pytest

from bot.chat import Address, Choice, Outgoing, OutgoingKind, Sent, Unknown
from bot.ports import ClaimedRow, OutgoingTransport
from bot.store import SqlStore
from bot.transport.memory import MemoryTransport
from bot.transport.terminal.outgoing import TerminalOutgoing
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


def of_kind(kind: OutgoingKind, text: str) -> ClaimedRow:
    """Return a row of another kind."""
    return dataclasses.replace(ROW, outgoing=dataclasses.replace(ROW.outgoing, kind=kind, text=text, key=kind))


@pytest.fixture(params=["memory", "terminal"])
def way_out(request: pytest.FixtureRequest, store: SqlStore) -> OutgoingTransport:
    """Return each way out in turn."""
    return MemoryTransport() if request.param == "memory" else TerminalOutgoing(store, now=lambda: NOON)


@pytest.mark.parametrize("kind", OutgoingKind)
def test_everything_can_be_sent(way_out: OutgoingTransport, kind: OutgoingKind) -> None:
    """Every kind of outgoing has success as its outcome."""
    assert isinstance(asyncio.run(way_out.send(of_kind(kind, "text"))), Sent)


def test_a_message_gets_a_reference(way_out: OutgoingTransport) -> None:
    """The reference is what a later edit names."""
    outcome = asyncio.run(way_out.send(ROW))
    assert isinstance(outcome, Sent)
    assert outcome.ref


def test_the_memory_answers_as_scripted() -> None:
    """Scripted outcomes come first, in order; only what arrived is among the sent."""
    memory = MemoryTransport(outcomes=[Unknown(why="answer lost")])
    assert asyncio.run(memory.send(ROW)) == Unknown(why="answer lost")
    assert isinstance(asyncio.run(memory.send(ROW)), Sent)
    assert (memory.sent, len(memory.attempts)) == ([ROW.outgoing], 2)


def test_the_terminal_shows_a_message_once(store: SqlStore) -> None:
    """A repeat of the same message changes nothing on the screen; its choices are in order."""
    terminal = TerminalOutgoing(store, now=lambda: NOON)
    first = asyncio.run(terminal.send(ROW))
    assert asyncio.run(terminal.send(ROW)) == first
    (row,) = store.screen("ines")
    assert (row.text, row.choices, row.at) == ("Wrap now.", (("done", "t1"), ("skip", "t2")), NOON)


def test_the_terminal_shows_nothing_that_has_no_words(store: SqlStore) -> None:
    """Reactions and silent answers to a choice leave the screen as it is."""
    terminal = TerminalOutgoing(store, now=lambda: NOON)
    asyncio.run(terminal.send(of_kind(OutgoingKind.REACTION, "👍")))
    asyncio.run(terminal.send(of_kind(OutgoingKind.TAP_ANSWER, "")))
    assert store.screen("ines") == ()
