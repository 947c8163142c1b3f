"""Values to be written in the contract tests: addresses, facts and messages of one harvest supper.

It must not read a store.
"""

from __future__ import annotations

import datetime as dt
from typing import Any

from bot.chat import Address, Choice, Outgoing, OutgoingKind
from bot.ports import Apply, CookWrite, OutboxWrite
from bot.store import SqlStore
from scheduler.facts import Body, Fact, StepDone

NOON = dt.datetime(2026, 9, 12, 12, 0, tzinfo=dt.UTC)
LEASE = dt.timedelta(seconds=60)
INES = Address(transport="memory", chat="ines")
TOMAS = Address(transport="memory", chat="tomas")
SHED = Address(transport="memory", chat="shed", thread=7)


def after(*, seconds: float = 0, minutes: float = 0, hours: float = 0) -> dt.datetime:
    """Return an instant after noon."""
    return NOON + dt.timedelta(seconds=seconds, minutes=minutes, hours=hours)


def fact(fact_id: str = "f1", body: Body | None = None, **changes: Any) -> Fact:  # noqa: ANN401 -- any field of a fact
    """Return a fact of the cook "supper"."""
    fields: dict[str, Any] = {
        "id": fact_id,
        "cook": "supper",
        "piece": "ribs",
        "happened_at": NOON,
        "recorded_at": NOON,
        "by": "Ines",
        "body": body or StepDone(step="meat_on"),
    }
    return Fact(**{**fields, **changes})


def new_cook(cook: str = "supper", **changes: Any) -> Apply:  # noqa: ANN401 -- any field of a cook's write
    """Return the write that makes a cook in Ines's room."""
    fields: dict[str, Any] = {"cook": cook, "expected_version": 0, "add_rooms": (INES,)}
    return Apply(now=NOON, cooks=(CookWrite(**{**fields, **changes}),))


def next_write(version: int, cook: str = "supper", **changes: Any) -> Apply:  # noqa: ANN401 -- any field of a cook's write
    """Return a write decided on a version of a cook."""
    return Apply(now=NOON, cooks=(CookWrite(cook=cook, expected_version=version, **changes),))


def message(key: str, address: Address = INES, **changes: Any) -> OutboxWrite:  # noqa: ANN401 -- any field of a message
    """Return a message for the outbox."""
    return OutboxWrite(outgoing=Outgoing(key=key, address=address, text=f"text of {key}", **changes))


def edit(key: str, target: str, address: Address = INES) -> OutboxWrite:
    """Return an edit of an earlier message."""
    return message(key, address, kind=OutgoingKind.EDIT, target=target)


def with_choices(key: str, *labels: str, address: Address = INES) -> OutboxWrite:
    """Return a message with one row of buttons; the meaning of each names its label."""
    row = tuple(Choice(label=label, token=f"{key}-{label}") for label in labels)
    return OutboxWrite(
        outgoing=Outgoing(key=key, address=address, text=key, choices=(row,)),
        cook="supper",
        meanings=tuple({"kind": "press", "label": label} for label in labels),
    )


def put(store: SqlStore, *messages: OutboxWrite, now: dt.datetime = NOON) -> None:
    """Write messages, each by a decision of its own."""
    for one in messages:
        assert store.apply(Apply(now=now, outbox=(one,)))
