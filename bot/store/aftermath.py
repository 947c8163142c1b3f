"""What an outcome makes of a message: the rule table of delivery, as one pure function.

No rows are read or written here; what an outcome does to rooms and transports is in `repositories.delivery`.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
from typing import Any, Final

from bot.chat import Declined, Locked, Moved, Outcome, OutgoingKind, Rejected, Sent, TryAgain, Unknown, Unreachable
from bot.store.tables import OutboxState

MAX_FAILURES: Final = 12
"""Attempts that may fail on account of the message before it is parked (own choice: hours, with a doubling wait)."""
REPEAT_AFTER: Final = dt.timedelta(seconds=5)
"""Wait before what may have arrived is sent again (own choice); doubled for every failure of an edit or reaction."""
LONGEST_WAIT: Final = dt.timedelta(minutes=5)
_IDEMPOTENT: Final = (
    OutgoingKind.EDIT,
    OutgoingKind.PIN,
    OutgoingKind.UNPIN,
    OutgoingKind.REACTION,
    OutgoingKind.FETCH,
)


@dataclasses.dataclass(frozen=True, kw_only=True)
class Attempted:
    """A message as it stood when it was sent. `failures` and `unknown_count` are of earlier attempts."""

    kind: OutgoingKind
    failures: int
    unknown_count: int
    possible_repeat: bool


@dataclasses.dataclass(frozen=True, kw_only=True)
class After:
    """The columns of a message after an attempt."""

    state: OutboxState
    failures: int
    unknown_count: int
    possible_repeat: bool
    not_before: dt.datetime | None = None
    ref: str | None = None
    sent_at: dt.datetime | None = None
    why: str | None = None
    lack: str | None = None

    def columns(self) -> dict[str, Any]:
        """Return the outbox columns; the lease ends with the attempt."""
        return {**dataclasses.asdict(self), "owner": None, "lease_until": None}


def after(row: Attempted, outcome: Outcome, now: dt.datetime) -> After:
    """Return what becomes of a message. Nothing is ever left without a next step or a reason."""
    same = After(
        state=OutboxState.WAITING,
        failures=row.failures,
        unknown_count=row.unknown_count,
        possible_repeat=row.possible_repeat,
        why=_why(outcome),
    )
    match outcome:
        case Sent(ref=ref):
            return dataclasses.replace(same, state=OutboxState.SENT, ref=ref, sent_at=now)
        case Declined(lack=lack):
            return dataclasses.replace(same, state=OutboxState.DROPPED, lack=lack)
        case Rejected():
            return dataclasses.replace(same, state=OutboxState.PARKED)
        case _ if row.kind is OutgoingKind.TAP_ANSWER:  # whoever pressed the button has long stopped waiting
            return dataclasses.replace(same, state=OutboxState.DROPPED)
        case Unknown():
            return _unknown(row, same, now)
        case _:
            return _certainly_not_sent(same, outcome, now)


def abandoned(row: Attempted, now: dt.datetime) -> After:
    """Return what becomes of a message whose courier died with it, before or after sending: who knows.

    Unlike one whose answer was lost it may never have left, however often this happens, so it is never taken for sent.
    Each death costs at most one more copy, marked. After the first it goes again at once; a message that brings death
    again and again waits longer each time and is parked in the end.
    """
    gone = After(
        state=OutboxState.WAITING,
        failures=row.failures,
        unknown_count=row.unknown_count,
        possible_repeat=row.possible_repeat or row.kind is OutgoingKind.MESSAGE,
        not_before=None if row.failures == 0 else now + _wait_after(row.failures),
        why="the courier was gone before it recorded an answer",
    )
    if row.kind is OutgoingKind.TAP_ANSWER:
        return dataclasses.replace(gone, state=OutboxState.DROPPED, not_before=None)
    return _failed(gone)


def _certainly_not_sent(same: After, outcome: TryAgain | Moved | Unreachable | Locked, now: dt.datetime) -> After:
    match outcome:
        case TryAgain(wait=wait, costs_attempt=costs):
            waiting = dataclasses.replace(same, not_before=now + wait)
            return _failed(waiting) if costs else waiting
        case Moved():  # counted, so that two addresses that point at one another come to an end
            return _failed(same)
        case Unreachable() | Locked():  # held by the pause of the chat or the transport
            return same


def _unknown(row: Attempted, same: After, now: dt.datetime) -> After:
    """Repeat what is idempotent as often as it takes; repeat a message once, marked: two copies are the most."""
    if row.kind in _IDEMPOTENT:
        return _failed(dataclasses.replace(same, not_before=now + _wait_after(row.failures)))
    unsure = dataclasses.replace(same, possible_repeat=True, unknown_count=row.unknown_count + 1)
    if row.unknown_count == 0:
        return dataclasses.replace(unsure, not_before=now + REPEAT_AFTER)
    return dataclasses.replace(unsure, state=OutboxState.SENT, sent_at=now, why=f"sent twice, no answer: {same.why}")


def _failed(row: After) -> After:
    counted = dataclasses.replace(row, failures=row.failures + 1)
    if counted.failures < MAX_FAILURES:
        return counted
    return dataclasses.replace(counted, state=OutboxState.PARKED, not_before=None)


def _wait_after(failures: int) -> dt.timedelta:
    return min(REPEAT_AFTER * float(2**failures), LONGEST_WAIT)


def _why(outcome: Outcome) -> str | None:
    match outcome:
        case Sent():
            return None
        case Moved(to=to):
            return f"moved to {to.chat}"
        case _:
            return outcome.why
