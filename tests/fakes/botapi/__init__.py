"""A strict Bot API server as a process of its own on this machine, and a client to steer it from tests.

It must not import the program: it knows only the project's contract table (`contract.toml`).

    with FakeTelegram() as fake:
        ines = fake.private("Ines")
        fake.say(ines, "Ines", "178")
        ...
        assert fake.violations() == []
"""

from __future__ import annotations

from tests.fakes.botapi.client import FakeTelegram
from tests.fakes.botapi.seen import Seen

__all__ = ["FakeTelegram", "Seen"]
