"""Fixtures of the kill tests: the process that gives lives, and the stages on which they are taken.

It must not hold anything that only one test needs.
"""

from __future__ import annotations

import tempfile
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.acceptance.kills.crew import AtTheTerminal, OnTheMessenger
from tests.acceptance.kills.nursery import Nursery
from tests.acceptance.kills.stage import Stage
from tests.fakes.botapi import FakeTelegram

IN_MEMORY = Path("/dev/shm")  # noqa: S108 - a folder in memory: SIGKILL leaves what was written there as on a disk


@pytest.fixture(scope="session")
def nursery() -> Iterator[Nursery]:
    """One process for all tests of this worker."""
    with Nursery() as process:
        yield process


@pytest.fixture
def folder() -> Iterator[Path]:
    """A folder that is fast: hundreds of databases are made in it."""
    with tempfile.TemporaryDirectory(dir=IN_MEMORY if IN_MEMORY.is_dir() else None) as name:
        yield Path(name)


@pytest.fixture(scope="session")
def server() -> Iterator[FakeTelegram]:
    """One Bot API server for all tests of this worker."""
    with FakeTelegram() as process:
        yield process


@pytest.fixture
def fake(server: FakeTelegram) -> Iterator[FakeTelegram]:
    """A server that knows nothing yet; at the end no call may have broken the contract."""
    server.reset()
    yield server
    assert server.violations() == []


@pytest.fixture
def terminal(folder: Path, nursery: Nursery) -> Stage:
    """The story at the terminal."""
    return Stage(folder, nursery, AtTheTerminal())


@pytest.fixture
def messenger(folder: Path, nursery: Nursery, fake: FakeTelegram) -> Stage:
    """The story on the messenger."""
    return Stage(folder, nursery, OnTheMessenger(fake))
