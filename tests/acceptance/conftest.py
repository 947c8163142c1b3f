"""The rehearsal, played once for all the tests that look at it, in whatever worker they run."""

from __future__ import annotations

import dataclasses
import fcntl
import pickle
from pathlib import Path

import pytest

from bot.rehearsal.command import perform
from bot.rehearsal.record import Record


@dataclasses.dataclass(frozen=True, kw_only=True)
class Rehearsed:
    """One performance: the record of it, and what the narrator printed."""

    record: Record
    told: tuple[str, ...]


@pytest.fixture(scope="session")
def rehearsed(tmp_path_factory: pytest.TempPathFactory, worker_id: str) -> Rehearsed:
    """Play the rehearsal, or take what another worker played."""
    own = tmp_path_factory.getbasetemp()
    shared = own if worker_id == "master" else own.parent
    kept = shared / "rehearsal.pickle"
    with (shared / "rehearsal.lock").open("w") as lock:
        fcntl.flock(lock, fcntl.LOCK_EX)
        if not kept.exists():
            kept.write_bytes(pickle.dumps(_play(shared / "rehearsal")))
        found = pickle.loads(kept.read_bytes())  # noqa: S301 - written just above, by ourselves
    assert isinstance(found, Rehearsed)
    return found


def _play(data_dir: Path) -> Rehearsed:
    told: list[str] = []
    record = perform(data_dir, told.append)
    return Rehearsed(record=record, told=tuple(told))
