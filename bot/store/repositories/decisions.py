"""The write of one decision: everything it changes, in an order in which conflicts show first.

It runs inside a transaction that its caller undoes when `Conflict` is raised.
"""

from __future__ import annotations

from sqlalchemy import Connection

from bot.ports import Apply
from bot.store.repositories import cooks, inbox, outbox, people, rooms


class Conflict(Exception):
    """What the decision was made on has changed: nothing of it may stay."""


def apply(connection: Connection, write: Apply) -> None:
    """Write a decision; raises `Conflict`."""
    _claim_ground(connection, write)
    if write.moved_room is not None:
        rooms.move_chat(connection, *write.moved_room)
    for room in write.rooms:
        rooms.save(connection, room)
    _write_people(connection, write)
    if write.cancel_invites:
        people.cancel_invites(connection, write.now)
    for key in write.withdraw_outbox:
        outbox.withdraw(connection, key)
    for message in write.outbox:
        outbox.write(connection, message, write.now)


def _claim_ground(connection: Connection, write: Apply) -> None:
    """Write what another process may have written first: the inbox row, the code, the versions of the cooks."""
    if write.inbox_done is not None and not inbox.finish(
        connection, write.inbox_done, result=write.inbox_result, now=write.now
    ):
        raise Conflict
    if write.spend_code is not None and not people.spend(connection, write.spend_code, write.now):
        raise Conflict
    if not all(cooks.write(connection, change) for change in write.cooks):
        raise Conflict


def _write_people(connection: Connection, write: Apply) -> None:
    for person in write.people:
        people.save(connection, person)
    for invite in write.invites:
        people.save_invite(connection, invite)
    for session in write.sessions:
        people.save_conversation(connection, session, write.now)
