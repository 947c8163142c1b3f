"""The Bot API as a stage: the strict server of the fakes, our poller and our way out, in one process with a clock."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from pathlib import Path

from bot.ports import Decoder, OutgoingTransport
from bot.transport.telegram.calls import BotApi
from bot.transport.telegram.decode import decode
from bot.transport.telegram.outgoing import TelegramTransport
from bot.transport.telegram.poller import Poller
from bot.transport.telegram.redact import Token
from tests.fakes.botapi import FakeTelegram
from tests.fakes.stages.stage import NoSuchButton, Stage

_SOURCE = "telegram:7000001"


class MessengerStage(Stage):
    """Chats of the messenger: private ones and one supergroup in which the program hears everything."""

    name = "botapi"
    changes_messages = True
    has_group = True

    def __init__(self, folder: Path, fake: FakeTelegram, at: dt.datetime | None = None, *, zone: str = "UTC") -> None:
        self.fake = fake
        self._group: int | None = None
        self._written: dict[tuple[str, bool], int] = {}
        super().__init__(folder, at, zone=zone)

    def make_transport(self) -> OutgoingTransport:
        """Return the way out to the server; the poller is made beside it."""
        token = Token(self.fake.token)
        self._api = BotApi(token=token, base_url=self.fake.base_url)
        self._poller = Poller(
            api=self._api, source=_SOURCE, accept=self.store.accept, clock=lambda: self.now, long_poll_s=0
        )
        self._out = TelegramTransport(
            token=token, repeat_mark=lambda: "", clock=lambda: self.now, base_url=self.fake.base_url
        )
        return self._out

    def drop_connections(self) -> None:
        """Close the poller's connection and the one of the way out."""
        self.runner.run(self._api.close())
        self.runner.run(self._out.close())

    def decoders(self) -> Mapping[str, Decoder]:
        """Return what reads updates."""
        return {"telegram": decode}

    def hear(self) -> None:
        """Poll once; the server's clock goes with ours."""
        self.fake.set_time(self.now)
        self.runner.run(self._poller.once())

    def enter(self, name: str, code: str | None) -> None:
        """Open a private chat by a link."""
        self.fake.set_time(self.now)
        self.fake.say(self.fake.private(name), name, f"/start {code}", at=self.now)

    def put(self, name: str, text: str, *, group: bool) -> None:
        """Write."""
        self.fake.set_time(self.now)
        self._written[name, group] = self.fake.say(self._chat(name, group=group), name, text, at=self.now)

    def put_edit(self, name: str, text: str, *, group: bool) -> None:
        """Change the last text."""
        self.fake.edit(self._chat(name, group=group), self._written[name, group], text, at=self.now)

    def put_tap(self, name: str, label: str, *, group: bool) -> None:
        """Press the newest button with this label."""
        for message in reversed(self.fake.messages(self._chat(name, group=group))):
            if label in message.labels:
                self.fake.tap(message, label, user=name)
                return
        raise NoSuchButton(f"{name} sees no button {label!r}, but {self.labels(name, group=group)}")

    def gather(self, *names: str) -> None:
        """Make a supergroup with the program as administrator."""
        self._group = self.fake.group("Harrow Lane", kind="supergroup", admin=True, by=names[0])
        self.settle()

    def screen(self, name: str, *, group: bool = False) -> list[str]:
        """Return the messages of the program in a chat as they stand now."""
        if group and self._group is None:
            return []
        return [one.text for one in self.fake.messages(self._chat(name, group=group))]

    def labels(self, name: str, *, group: bool = False) -> tuple[str, ...]:
        """Return the buttons of the newest message that has any."""
        found = [one.labels for one in self.fake.messages(self._chat(name, group=group)) if one.labels]
        return found[-1] if found else ()

    def _chat(self, name: str, *, group: bool) -> int:
        if group and self._group is not None:
            return self._group
        return self.fake.private(name)
