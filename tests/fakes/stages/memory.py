"""The memory transport as a stage: private rooms and a group, messages that can be changed."""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping

from pydantic import TypeAdapter

from bot.chat import Address, Choice, Incoming, IncomingKind, Outgoing, OutgoingKind
from bot.ports import Decoder, Json, OutgoingTransport
from bot.transport.memory import NAME, MemoryTransport
from tests.fakes.stages.stage import NoSuchButton, Stage

_INCOMING = TypeAdapter(Incoming)
_GROUP = "-harrow lane"


@dataclasses.dataclass
class _Shown:
    """One message as it stands in a room now."""

    text: str
    choices: tuple[tuple[Choice, ...], ...]


class MemoryStage(Stage):
    """Rooms of the memory transport: what was sent is kept in a list, and folded as a phone would show it."""

    name = "memory"
    changes_messages = True
    has_group = True

    def make_transport(self) -> OutgoingTransport:
        """Return the list; after a kill it goes on with the one that people have seen."""
        self._memory: MemoryTransport = getattr(self, "_memory", MemoryTransport())
        return self._memory

    def decoders(self) -> Mapping[str, Decoder]:
        """Return what reads incoming values written as JSON."""
        return {NAME: _decoded}

    def enter(self, name: str, code: str | None) -> None:
        """Open a private room with a code."""
        self._accept(self._incoming(name, IncomingKind.TEXT, text=f"/start {code}"))

    def put(self, name: str, text: str, *, group: bool) -> None:
        """Write."""
        one = self._incoming(name, IncomingKind.TEXT, text=text, group=group)
        self._written[name, group] = one.message or ""
        self._accept(one)

    def put_edit(self, name: str, text: str, *, group: bool) -> None:
        """Change the last text."""
        one = self._incoming(name, IncomingKind.EDIT, text=text, group=group)
        self._accept(dataclasses.replace(one, message=self._written[name, group]))

    def put_tap(self, name: str, label: str, *, group: bool) -> None:
        """Press the newest button with this label that is still shown."""
        for shown in reversed(self._room(name, group=group)):
            for choice in (choice for row in shown.choices for choice in row):
                if choice.label == label:
                    one = self._incoming(name, IncomingKind.TAP, group=group)
                    self._accept(dataclasses.replace(one, token=choice.token, tap_id=f"tap{one.key}"))
                    return
        raise NoSuchButton(f"{name} sees no button {label!r}, but {self.labels(name, group=group)}")

    def gather(self, *names: str) -> None:
        """Add the program to a group by the first of these people."""
        self._accept(self._incoming(names[0], IncomingKind.ARRIVED, group=True))
        self.settle()

    def screen(self, name: str, *, group: bool = False) -> list[str]:
        """Return the messages of a room as they stand now."""
        return [shown.text for shown in self._room(name, group=group)]

    def labels(self, name: str, *, group: bool = False) -> tuple[str, ...]:
        """Return the buttons of the newest message that has any."""
        rooms = [shown for shown in self._room(name, group=group) if shown.choices]
        return tuple(choice.label for row in rooms[-1].choices for choice in row) if rooms else ()

    @property
    def outgoings(self) -> list[Outgoing]:
        """Return everything that was sent, in order."""
        return self._memory.sent

    def shown(self, name: str, *, group: bool = False) -> dict[str, _Shown]:
        """Return the messages of a room as they stand now, by the keys under which they were sent."""
        shown: dict[str, _Shown] = {}
        for one in self._memory.sent:
            if one.address == self._address(name, group=group):
                _fold(one, shown)
        return shown

    @property
    def _written(self) -> dict[tuple[str, bool], str]:
        self._texts: dict[tuple[str, bool], str] = getattr(self, "_texts", {})
        return self._texts

    def _address(self, name: str, *, group: bool) -> Address:
        return Address(transport=NAME, chat=_GROUP if group else name.casefold())

    def _room(self, name: str, *, group: bool) -> list[_Shown]:
        return list(self.shown(name, group=group).values())

    def _incoming(self, name: str, kind: IncomingKind, *, text: str = "", group: bool = False) -> Incoming:
        self._count: int = getattr(self, "_count", 0) + 1
        return Incoming(
            source=NAME,
            key=str(self._count),
            address=self._address(name, group=group),
            sender=name.casefold(),
            sender_name="Harrow Lane" if kind is IncomingKind.ARRIVED else name,
            kind=kind,
            sent_at=self.now,
            text=text,
            message=f"{NAME}:m{self._count}",
            group=group,
        )

    def _accept(self, one: Incoming) -> None:
        raw = _INCOMING.dump_python(one, mode="json")
        assert self.store.accept(source=one.source, key=one.key, raw=raw, received_at=self.now)


def _fold(one: Outgoing, shown: dict[str, _Shown]) -> None:
    """Let one outgoing change what a phone shows."""
    if one.kind is OutgoingKind.MESSAGE:
        shown[one.key] = _Shown(text=one.text, choices=one.choices)
    elif one.kind is OutgoingKind.EDIT and one.target in shown:
        shown[one.target] = _Shown(text=one.text, choices=one.choices)


def _decoded(raw: Json, *, source: str, key: str, received_at: object) -> Incoming | None:
    return _INCOMING.validate_python(dict(raw))
