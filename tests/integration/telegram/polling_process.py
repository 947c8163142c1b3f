"""A process that polls into a file, to be killed by a test: what it accepted is on disk, line by line.

It must not be kind to the test: it knows nothing of being killed.
"""

from __future__ import annotations

import asyncio
import datetime as dt
import json
import os
import sys
from pathlib import Path

from bot.ports import Json
from bot.transport.telegram.calls import BotApi
from bot.transport.telegram.poller import Poller
from bot.transport.telegram.redact import Token

NOON = dt.datetime(2026, 9, 12, 12, tzinfo=dt.UTC)


class Notebook:
    """An inbox in a file: one line for each update, a repeat is dropped."""

    def __init__(self, path: Path) -> None:
        self._path = path
        self._path.touch()

    def lines(self) -> list[Json]:
        return [json.loads(line) for line in self._path.read_text(encoding="utf-8").splitlines()]

    def accept(self, *, source: str, key: str, raw: Json, received_at: dt.datetime) -> bool:
        if any(line["key"] == key for line in self.lines()):
            return False
        with self._path.open("a", encoding="utf-8") as file:
            line = {"source": source, "key": key, "raw": raw, "received_at": received_at.isoformat()}
            file.write(json.dumps(line) + "\n")
            file.flush()
            os.fsync(file.fileno())
        return True


async def _poll(base_url: str, path: str) -> None:
    api = BotApi(token=Token(os.environ["SLOWBELL_TOKEN"]), base_url=base_url)
    notebook = Notebook(Path(path))
    poller = Poller(api=api, source="telegram:7000001", accept=notebook.accept, clock=lambda: NOON)
    await poller.run()


if __name__ == "__main__":
    asyncio.run(_poll(sys.argv[1], sys.argv[2]))
