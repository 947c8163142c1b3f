"""Fixtures for tests that talk to the server: a conftest imports them.

They must not be used where a test stops the server: such a test starts one of its own.
"""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from tests.fakes.botapi.client import FakeTelegram


@pytest.fixture(scope="session")
def telegram_server() -> Iterator[FakeTelegram]:
    """One server process for all tests of this worker."""
    with FakeTelegram() as server:
        yield server


@pytest.fixture
def fake(telegram_server: FakeTelegram) -> Iterator[FakeTelegram]:
    """A server that knows nothing yet; at the end no call may have broken the contract."""
    telegram_server.reset()
    yield telegram_server
    telegram_server.release()
    assert telegram_server.violations() == []
