"""Between rows and the values of the program: facts by their kind and version, addresses, buttons, messages.

Nothing is read or written here; a row that cannot be understood is an error, never a guess.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
from collections.abc import Mapping
from typing import Any

from pydantic import TypeAdapter, ValidationError
from sqlalchemy import Row

from bot.chat import Address, Asking, Choice, Document, Outgoing, OutgoingKind
from bot.ports import Json
from bot.store.errors import BrokenWrite, UnknownFact
from bot.store.tables import NO_THREAD
from scheduler.facts import BODIES, Body, Corrected, Fact

Columns = dict[str, Any]


# --- addresses ------------------------------------------------------------------------------------------------------


def address_columns(address: Address) -> Columns:
    """Return the three columns of an address."""
    if address.thread == NO_THREAD:
        raise BrokenWrite("A topic number must not be zero.", address=address)
    thread = NO_THREAD if address.thread is None else address.thread
    return {"transport": address.transport, "chat": address.chat, "thread": thread}


def address_of(row: Row[Any]) -> Address:
    """Return the address of a row."""
    thread = None if row.thread == NO_THREAD else row.thread
    return Address(transport=row.transport, chat=row.chat, thread=thread)


# --- facts ----------------------------------------------------------------------------------------------------------


def fact_columns(fact: Fact) -> Columns:
    """Return the columns of a fact (its place in the log is given by the database)."""
    return {
        "id": fact.id,
        "cook": fact.cook,
        "piece": fact.piece,
        "kind": fact.body.kind,
        "version": fact.body.version,
        "happened_at": fact.happened_at,
        "recorded_at": fact.recorded_at,
        "by": fact.by,
        "body": dump_body(fact.body),
        "answers": list(fact.answers),
        "message": fact.message,
    }


def fact_of(row: Row[Any]) -> Fact:
    """Return the fact of a row; raises `UnknownFact`."""
    return Fact(
        id=row.id,
        cook=row.cook,
        piece=row.piece,
        happened_at=row.happened_at,
        recorded_at=row.recorded_at,
        by=row.by,
        body=load_body(row.kind, row.version, row.body),
        answers=tuple(row.answers),
        message=row.message,
    )


def dump_body(body: Body) -> Columns:
    """Return a body as JSON. A body inside a body carries its own kind and version."""
    if BODIES.get((body.kind, body.version)) is not type(body):
        raise UnknownFact(kind=body.kind, version=body.version)
    if isinstance(body, Corrected):
        inner = {"kind": body.body.kind, "version": body.body.version, "data": dump_body(body.body)}
        happened_at = None if body.happened_at is None else body.happened_at.isoformat()
        return {"of": body.of, "happened_at": happened_at, "body": inner}
    dumped: Columns = _ADAPTERS[type(body)].dump_python(body, mode="json")
    return dumped


def load_body(kind: str, version: int, data: Json) -> Body:
    """Return the body that was stored as this kind and version; raises `UnknownFact`."""
    shape = BODIES.get((kind, version))
    if shape is None:
        raise UnknownFact(f"The log holds an unknown fact: {kind} version {version}.", kind=kind, version=version)
    try:
        if shape is Corrected:
            return _load_corrected(data)
        body: Body = _ADAPTERS[shape].validate_python(data)
    except (ValidationError, KeyError, TypeError, ValueError) as error:
        raise UnknownFact(
            f"A {kind} fact (version {version}) cannot be read.", kind=kind, version=version, why=str(error)
        ) from error
    return body


def _load_corrected(data: Mapping[str, Any]) -> Corrected:
    inner, happened_at = data["body"], data["happened_at"]
    return Corrected(
        of=data["of"],
        happened_at=None if happened_at is None else dt.datetime.fromisoformat(happened_at),
        body=load_body(inner["kind"], inner["version"], inner["data"]),
    )


_ADAPTERS: dict[type[Body], TypeAdapter[Any]] = {
    shape: TypeAdapter(shape) for shape in BODIES.values() if shape is not Corrected
}


# --- messages -------------------------------------------------------------------------------------------------------


def outgoing_columns(outgoing: Outgoing) -> Columns:
    """Return the columns of a message that say what is to be done."""
    return {
        "key": outgoing.key,
        **address_columns(outgoing.address),
        "kind": str(outgoing.kind),
        "text": outgoing.text,
        "choices": [[[choice.label, choice.token] for choice in line] for line in outgoing.choices],
        "silent": outgoing.silent,
        "urgent": outgoing.urgent,
        "target": outgoing.target,
        "useful_until": outgoing.useful_until,
        "possible_repeat": outgoing.possible_repeat,
        "wants_reply": None if outgoing.wants_reply is None else dataclasses.asdict(outgoing.wants_reply),
    }


def document_columns(outbox_key: str, document: Document) -> Columns:
    """Return the columns of a file that goes with a message."""
    return {
        "outbox_key": outbox_key,
        "name": document.name,
        "media_type": document.media_type,
        "data": document.data,
    }


def document_of(row: Row[Any]) -> Document:
    """Return the file of a row."""
    return Document(name=row.name, media_type=row.media_type, data=bytes(row.data))


def outgoing_of(row: Row[Any], document: Document | None = None) -> Outgoing:
    """Return the message of an outbox row, with the file that goes with it."""
    return Outgoing(
        key=row.key,
        address=address_of(row),
        kind=OutgoingKind(row.kind),
        text=row.text,
        choices=tuple(tuple(Choice(label=label, token=token) for label, token in line) for line in row.choices),
        silent=row.silent,
        urgent=row.urgent,
        target=row.target,
        useful_until=row.useful_until,
        possible_repeat=row.possible_repeat,
        document=document,
        wants_reply=None if row.wants_reply is None else Asking(**row.wants_reply),
    )
