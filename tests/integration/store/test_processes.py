"""Several processes and threads on one data folder: nobody loses, doubles or waits for the dead."""

from __future__ import annotations

import multiprocessing
import os
import signal
import threading
from collections import Counter
from collections.abc import Callable, Iterator
from concurrent.futures import ThreadPoolExecutor
from multiprocessing.connection import Connection
from multiprocessing.process import BaseProcess
from pathlib import Path
from typing import Any

import pytest

from bot.chat import Address, Sent
from bot.ports import Apply, CookWrite
from bot.store import EngineLock, SqlStore, open_store
from bot.store.engine import sqlite_engine, writing
from bot.store.opening import DATABASE_NAME
from bot.store.repositories import cooks
from tests.contract.written import LEASE, NOON, fact, message, new_cook, put

SPAWN = multiprocessing.get_context("spawn")
PROCESSES = 3
SHARED_KEYS = 40
MESSAGES = 60

Start = Callable[..., tuple[BaseProcess, Connection]]


@pytest.fixture
def start() -> Iterator[Start]:
    """Start a process that talks through a pipe; whatever is left of it ends with the test."""
    started: list[BaseProcess] = []

    def one(work: Callable[..., None], *args: object) -> tuple[BaseProcess, Connection]:
        here, there = SPAWN.Pipe()
        process = SPAWN.Process(target=work, args=(there, *args))
        process.start()
        there.close()
        started.append(process)
        return process, here

    yield one
    for process in started:
        process.kill()
        process.join()


def answer(pipe: Connection) -> Any:  # noqa: ANN401 -- each work has its own answer
    """Return what a process says, within half a minute."""
    assert pipe.poll(30), "the other process says nothing"
    return pipe.recv()


# --- racing ---------------------------------------------------------------------------------------------------------


def _race(pipe: Connection, data: Path, name: str) -> None:
    """Open, accept, claim and write the same things as everybody else, as fast as possible."""
    pipe.send("ready")
    pipe.recv()
    store = open_store(data)
    accepted = [
        key for key in range(SHARED_KEYS) if store.accept(source="shared", key=str(key), raw={}, received_at=NOON)
    ]
    for at in range(10):
        write_a_fact(store, f"{name}-{at}")
    pipe.send(accepted)
    pipe.recv()
    claimed: list[str] = []
    while rows := store.claim(owner=name, now=NOON, transports=["memory"], limit=3, lease=LEASE):
        claimed += [row.outgoing.key for row in rows if store.record(row, Sent(ref=name), NOON)]
    pipe.send(claimed)
    store.close()


def write_a_fact(store: SqlStore, fact_id: str) -> None:
    """Read, decide, apply, and again on a conflict."""
    while True:
        cook = store.cook("supper")
        version = 0 if cook is None else cook.version
        write = CookWrite(cook="supper", expected_version=version, facts=(fact(fact_id),))
        if store.apply(Apply(now=NOON, cooks=(write,))):
            return


def test_processes_that_start_at_once_share_the_work(tmp_path: Path, start: Start) -> None:
    """On a folder that does not exist yet: one schema, each update accepted once, each fact kept, each message claimed
    once.
    """
    data = tmp_path / "data"
    pipes = [start(_race, data, f"p{at}")[1] for at in range(PROCESSES)]
    for pipe in pipes:
        assert answer(pipe) == "ready"
    for pipe in pipes:
        pipe.send("go")
    accepted = [key for pipe in pipes for key in answer(pipe)]
    assert sorted(accepted) == list(range(SHARED_KEYS))
    store = open_store(data)
    cook = store.cook("supper")
    assert cook is not None
    assert Counter(one.id for one in cook.facts) == Counter(f"p{p}-{at}" for p in range(PROCESSES) for at in range(10))
    assert cook.version == len(cook.facts)
    chats = [Address(transport="memory", chat=str(at)) for at in range(MESSAGES)]
    store.apply(Apply(now=NOON, outbox=tuple(message(f"m{at}", chat) for at, chat in enumerate(chats))))
    for pipe in pipes:
        pipe.send("go")
    claimed = [key for pipe in pipes for key in answer(pipe)]
    assert Counter(claimed) == Counter(f"m{at}" for at in range(MESSAGES))
    assert store.outbox_counts()["sent"] == MESSAGES
    store.close()


def test_threads_share_one_store(tmp_path: Path) -> None:
    """Reading, writing and watching from several threads at once loses nothing."""
    store = open_store(tmp_path)
    begin = threading.Barrier(4)

    def work(name: int) -> int:
        begin.wait()
        for at in range(10):
            write_a_fact(store, f"t{name}-{at}")
            store.change_counter()
        return sum(store.accept(source="shared", key=str(at), raw={}, received_at=NOON) for at in range(20))

    with ThreadPoolExecutor(4) as pool:
        accepted = sum(pool.map(work, range(4)))
    cook = store.cook("supper")
    assert cook is not None
    assert (accepted, cook.version, len(cook.facts)) == (20, 40, 40)
    store.close()


# --- dying ----------------------------------------------------------------------------------------------------------


def _hold(pipe: Connection, data: Path) -> None:
    """Take the engine lock and keep it."""
    lock = EngineLock(data)
    pipe.send(lock.try_acquire())
    pipe.recv()


def test_the_lock_dies_with_its_holder(tmp_path: Path, start: Start) -> None:
    """A process that is killed leaves no lock behind; while it lives it is the only one."""
    process, pipe = start(_hold, tmp_path)
    assert answer(pipe)
    lock = EngineLock(tmp_path)
    assert not lock.try_acquire()
    assert lock.holder() == process.pid
    _kill(process)
    assert lock.try_acquire()
    assert lock.holder() == os.getpid()
    lock.release()


def _half_a_write(pipe: Connection, data: Path) -> None:
    """Stop for ever inside a transaction that has written."""
    store = open_store(data)
    with writing(store._engine) as connection:  # noqa: SLF001 -- the middle of a write has no public name
        (change,) = new_cook(facts=(fact(),)).cooks
        cooks.write(connection, change)
        pipe.send("written")
        pipe.recv()


def test_a_write_that_was_cut_off_never_happened(tmp_path: Path, start: Start) -> None:
    """Its process killed, nothing of it is there, and the next writer does not wait for it."""
    process, pipe = start(_half_a_write, tmp_path)
    assert answer(pipe) == "written"
    store = open_store_while_locked(tmp_path)
    assert store.cook("supper") is None
    _kill(process)
    assert store.apply(new_cook(facts=(fact(),)))
    store.close()


def open_store_while_locked(data: Path) -> SqlStore:
    """Open without the write that opening tries, for that would wait for the process under test."""
    return SqlStore(sqlite_engine(data / DATABASE_NAME))


def _claim_and_stop(pipe: Connection, data: Path) -> None:
    """Die between claiming and recording."""
    store = open_store(data)
    (row,) = store.claim(owner="first", now=NOON, transports=["memory"], limit=1, lease=LEASE)
    pipe.send(row)
    pipe.recv()


def test_a_courier_that_dies_with_a_message_loses_nothing(tmp_path: Path, start: Start) -> None:
    """Its successor sends the message once more, marked, and the others unmarked."""
    store = open_store(tmp_path)
    put(store, message("m1"), message("m2"))
    process, pipe = start(_claim_and_stop, tmp_path)
    lost = answer(pipe)
    _kill(process)
    store.end_leases(["memory"], NOON)
    sent = []
    while rows := store.claim(owner="second", now=NOON, transports=["memory"], limit=1, lease=LEASE):
        store.record(rows[0], Sent(), NOON)
        sent.append((rows[0].outgoing.key, rows[0].outgoing.possible_repeat))
    assert sent == [("m1", True), ("m2", False)]
    assert not store.record(lost, Sent(), NOON)
    store.close()


def _kill(process: BaseProcess) -> None:
    assert process.pid is not None
    os.kill(process.pid, signal.SIGKILL)
    process.join()
