"""A courier's hands for the contract tests: claim and record without sending anything.

It must not decide outcomes.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable

from bot.chat import Outcome
from bot.ports import ClaimedRow
from bot.store import SqlStore
from tests.contract.written import LEASE, NOON


def claim(
    store: SqlStore,
    now: dt.datetime = NOON,
    *,
    limit: int = 10,
    owner: str = "courier",
    transports: tuple[str, ...] = ("memory",),
) -> tuple[ClaimedRow, ...]:
    """Claim for one courier."""
    return store.claim(owner=owner, now=now, transports=transports, limit=limit, lease=LEASE)


def keys(rows: Iterable[ClaimedRow]) -> list[str]:
    """Return the outbox keys of claimed rows, in order."""
    return [row.outgoing.key for row in rows]


def attempt(store: SqlStore, outcome: Outcome, now: dt.datetime = NOON) -> ClaimedRow:
    """Claim the one row that may go and record an outcome for it."""
    (row,) = claim(store, now)
    assert store.record(row, outcome, now)
    return row
