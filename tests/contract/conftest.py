"""Every engine of the database that must keep the contract. A second engine is one more entry in `ENGINES`.

It must not hold tests.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from bot.store import SqlStore, open_store

ENGINES: dict[str, Callable[[Path], SqlStore]] = {"sqlite": open_store}


@pytest.fixture(params=sorted(ENGINES))
def engine_name(request: pytest.FixtureRequest) -> str:
    """Return the name of the engine under test."""
    return str(request.param)


@pytest.fixture
def reopen(engine_name: str, tmp_path: Path) -> Iterator[Callable[[], SqlStore]]:
    """Open the same database once more, as another process would."""
    opened: list[SqlStore] = []

    def one_more() -> SqlStore:
        opened.append(ENGINES[engine_name](tmp_path / "data"))
        return opened[-1]

    yield one_more
    for store in opened:
        store.close()


@pytest.fixture
def store(reopen: Callable[[], SqlStore]) -> SqlStore:
    """Return an empty store."""
    return reopen()
