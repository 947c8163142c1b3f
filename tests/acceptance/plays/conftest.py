"""Every play is given on three stages: the terminal, the memory transport, the Bot API."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.fakes.botapi import FakeTelegram
from tests.fakes.botapi.fixtures import fake, telegram_server
from tests.fakes.stages import MemoryStage, MessengerStage, Stage, WindowStage

__all__ = ["fake", "telegram_server"]


@pytest.fixture(params=["terminal", "memory", "botapi"])
def stage(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[Stage]:
    """Return a stage on which nobody has entered yet."""
    if request.param == "botapi":
        server = request.getfixturevalue("fake")
        assert isinstance(server, FakeTelegram)
        made: Stage = MessengerStage(tmp_path, server)
    else:
        made = WindowStage(tmp_path) if request.param == "terminal" else MemoryStage(tmp_path)
    with made:
        yield made
