"""The terminal as a stage: everybody sits in a window of their own; nothing that was printed changes."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal

from bot.crew import Person, Role
from bot.ports import Apply, Decoder, OutgoingTransport
from bot.transport.terminal.decode import SOURCE, chat_of, decode_terminal, make_raw
from bot.transport.terminal.outgoing import TerminalOutgoing
from tests.fakes.stages.stage import NoSuchButton, Stage


class WindowStage(Stage):
    """Windows: what the program prints is read from the screen rows of each person."""

    name = "terminal"
    changes_messages = False
    has_group = False

    def make_transport(self) -> OutgoingTransport:
        """Return the way to the windows."""
        return TerminalOutgoing(self.store, now=lambda: self.now, folder=self.folder / "papers")

    def decoders(self) -> Mapping[str, Decoder]:
        """Return what reads lines of windows."""
        return {SOURCE: decode_terminal}

    def enter(self, name: str, code: str | None) -> None:
        """Open a window: whoever sits at this machine needs no code; what they are here is written down beside it."""
        assert code
        self._write("hello", name, "")
        invite = self.store.invite(code, self.now)
        assert invite is not None
        known = Person(id=f"{SOURCE}:{chat_of(name)}", name=name, role=Role(invite.role))
        assert self.store.apply(Apply(now=self.now, people=(known,)))

    def put(self, name: str, text: str, *, group: bool) -> None:
        """Type a line."""
        assert not group
        self._write("text", name, text)

    def put_edit(self, name: str, text: str, *, group: bool) -> None:
        """Type the correction with an asterisk: a printed line cannot be changed."""
        assert not group
        self._write("text", name, f"*{text}")

    def put_tap(self, name: str, label: str, *, group: bool) -> None:
        """Type the letter of a button on the newest message that has any; an older one by its label."""
        assert not group
        shown = self.labels(name)
        if label in shown:
            self._write("text", name, "abcdefghijklmnopqrstuvwxyz"[shown.index(label)])
            return
        every = [choice for row in self.store.screen(chat_of(name)) for choice, _token in row.choices]
        if label not in every:
            raise NoSuchButton(f"{name} sees no button {label!r}, but {shown}")
        self._write("text", name, label)

    def gather(self, *names: str) -> None:
        """Nothing: there is no room for all."""

    def screen(self, name: str, *, group: bool = False) -> list[str]:
        """Return everything that was printed in a window."""
        return [] if group else [row.text for row in self.store.screen(chat_of(name))]

    def labels(self, name: str, *, group: bool = False) -> tuple[str, ...]:
        """Return the buttons of the newest message that has any."""
        rows = [row.choices for row in self.store.screen(chat_of(name)) if row.choices and not group]
        return tuple(label for label, _token in rows[-1]) if rows else ()

    def _write(self, kind: Literal["hello", "text"], name: str, text: str) -> None:
        key, raw = make_raw(kind=kind, name=name, sent_at=self.now, text=text)
        assert self.store.accept(source=SOURCE, key=key, raw=raw, received_at=self.now)
