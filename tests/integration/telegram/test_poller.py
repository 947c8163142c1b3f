"""The poller loses nothing, lets nothing stand in the way, and says what is wrong."""

from __future__ import annotations

import asyncio
import contextlib
import dataclasses
import datetime as dt
import itertools
import os
import subprocess
import sys
from collections.abc import AsyncIterator, Callable
from pathlib import Path

import httpx
import pytest
import pytest_asyncio

from bot.ports import Json
from bot.transport.telegram.calls import BotApi
from bot.transport.telegram.decode import decode
from bot.transport.telegram.poller import (
    ALLOWED_UPDATES,
    Conflict,
    Outage,
    Poll,
    Polled,
    Poller,
    Rival,
    StoreTrouble,
    TokenRefused,
)
from bot.transport.telegram.redact import Token
from tests.fakes.botapi import FakeTelegram
from tests.fakes.botapi.client import ROOT
from tests.integration.telegram.polling_process import NOON, Notebook

pytestmark = pytest.mark.asyncio

SOURCE = "telegram:7000001"


@dataclasses.dataclass
class Inbox:
    """What the poller is given: a store of its own, and what it reports."""

    rows: dict[str, Json] = dataclasses.field(default_factory=dict)
    repeats: list[str] = dataclasses.field(default_factory=list)
    refuse: Callable[[Json], bool] = lambda _: False
    polls: list[Poll] = dataclasses.field(default_factory=list)
    waits_s: list[float] = dataclasses.field(default_factory=list)
    nudges: int = 0

    def accept(self, *, source: str, key: str, raw: Json, received_at: dt.datetime) -> bool:
        assert source == SOURCE
        assert received_at == NOON
        if self.refuse(raw):
            raise OSError("database or disk is full\n[parameters: what people wrote]")
        if key in self.rows:
            self.repeats.append(key)
            return False
        self.rows[key] = raw
        return True

    def nudge(self) -> None:
        self.nudges += 1

    @property
    def texts(self) -> list[object]:
        messages = [raw.get("message") for raw in self.rows.values()]
        return [message["text"] for message in messages if isinstance(message, dict)]


@pytest.fixture
def inbox() -> Inbox:
    """An empty inbox."""
    return Inbox()


@pytest_asyncio.fixture
async def api(fake: FakeTelegram) -> AsyncIterator[BotApi]:
    """A client of the server."""
    made = BotApi(token=Token(fake.token), base_url=fake.base_url)
    yield made
    await made.close()


def _poller(api: BotApi, inbox: Inbox, *, enough: int = 1_000, long_poll_s: int = 0) -> Poller:
    """Return a poller that waits no time between tries, and is called off after `enough` waits."""

    async def pause(wait_s: float) -> None:
        inbox.waits_s.append(wait_s)
        if len(inbox.waits_s) >= enough:
            raise asyncio.CancelledError

    return Poller(
        api=api,
        source=SOURCE,
        accept=inbox.accept,
        clock=lambda: NOON,
        nudge=inbox.nudge,
        report=inbox.polls.append,
        pause=pause,
        long_poll_s=long_poll_s,
    )


@contextlib.asynccontextmanager
async def _running(poller: Poller) -> AsyncIterator[asyncio.Task[TokenRefused]]:
    """Let a poller run, and call it off at the end."""
    task = asyncio.create_task(poller.run())
    try:
        yield task
    finally:
        task.cancel()
        await asyncio.wait([task])


async def test_updates_are_stored_raw_and_then_confirmed(fake: FakeTelegram, api: BotApi, inbox: Inbox) -> None:
    """The first call has no offset; the offset of the next one confirms the batch, and then is forgotten."""
    ines = fake.private("Ines")
    fake.say(ines, "Ines", "178")
    fake.say(ines, "Ines", "done")
    first, second = fake.unconfirmed()
    poller = _poller(api, inbox)
    assert await poller.once() == Polled(updates=2, new=2)
    assert fake.unconfirmed() == [first, second]
    assert await poller.once() == Polled(updates=0, new=0)
    assert fake.unconfirmed() == []
    assert await poller.once() == Polled(updates=0, new=0)
    assert list(inbox.rows) == [str(first), str(second)]
    assert inbox.texts == ["178", "done"]
    assert inbox.nudges == 1
    asked = [call["parameters"] for call in fake.calls("getUpdates")]
    assert [one.get("offset") for one in asked] == [None, second + 1, None]
    assert all(tuple(one["allowed_updates"]) == ALLOWED_UPDATES for one in asked)


async def test_a_long_poll_brings_what_is_said_meanwhile(fake: FakeTelegram, api: BotApi, inbox: Inbox) -> None:
    """While nothing happens the poller waits at the server, and stops at once when called off."""
    ines = fake.private("Ines")
    async with _running(_poller(api, inbox, long_poll_s=50)):
        await asyncio.to_thread(fake.wait, "polls", 1)
        fake.say(ines, "Ines", "178")
        await asyncio.to_thread(fake.wait, "confirmed", 0)
    assert inbox.texts == ["178"]
    assert inbox.waits_s == []
    assert [type(poll) for poll in inbox.polls] == [Polled]


async def test_a_kill_between_storing_and_confirming_loses_nothing(fake: FakeTelegram, tmp_path: Path) -> None:
    """Killed with updates stored and not confirmed, the next start gets them again and stores each once."""
    ines = fake.private("Ines")
    for text in ("178", "done", "wrapped in paper"):
        fake.say(ines, "Ines", text)
    waiting = fake.unconfirmed()
    fake.inject("hold", method="getUpdates", skip=1)  # the confirming call does not get through
    notebook = Notebook(tmp_path / "inbox")
    command = [
        sys.executable,
        "-m",
        "tests.integration.telegram.polling_process",
        fake.base_url,
        str(tmp_path / "inbox"),
    ]
    environment = os.environ | {"SLOWBELL_TOKEN": fake.token}
    for what, at_least in (("held", 1), ("confirmed", 0)):
        process = await asyncio.to_thread(subprocess.Popen, command, cwd=ROOT, env=environment)
        try:
            await asyncio.to_thread(fake.wait, what, at_least)
        finally:
            process.kill()
            await asyncio.to_thread(process.wait)
        assert [line["key"] for line in notebook.lines()] == [str(one) for one in waiting]
        assert fake.unconfirmed() == (waiting if what == "held" else [])


async def test_a_repeat_is_dropped_and_confirmed(fake: FakeTelegram, api: BotApi, inbox: Inbox) -> None:
    """An update that the server hands out once more is known by its id."""
    ines = fake.private("Ines")
    fake.say(ines, "Ines", "178")
    (update,) = fake.unconfirmed()
    poller = _poller(api, inbox)
    await poller.once()
    fake.again(update)
    assert await poller.once() == Polled(updates=0, new=0)
    fake.again(update)
    assert await poller.once() == Polled(updates=1, new=0)
    assert await poller.once() == Polled(updates=0, new=0)
    assert (inbox.texts, inbox.repeats, inbox.nudges) == (["178"], [str(update)], 1)


async def test_update_ids_may_jump_back(fake: FakeTelegram, api: BotApi, inbox: Inbox) -> None:
    """After a quiet week ids start anywhere, also lower: nothing is skipped."""
    poller = _poller(api, inbox)
    for update_id in (900_000_000, 3):
        fake.push({"update_id": update_id, "message": {"text": str(update_id)}})
        assert await poller.once() == Polled(updates=1, new=1)
        assert await poller.once() == Polled(updates=0, new=0)
    assert list(inbox.rows) == ["900000000", "3"]


async def test_a_bad_update_does_not_stand_in_the_way(fake: FakeTelegram, api: BotApi, inbox: Inbox) -> None:
    """Updates that cannot be read are stored like all others; reading finds out, one by one."""
    ines = fake.private("Ines")
    fake.push({"message": {"message_id": "four", "secret": [None]}})
    fake.say(ines, "Ines", "178")
    poller = _poller(api, inbox)
    assert await poller.once() == Polled(updates=2, new=2)
    assert await poller.once() == Polled(updates=0, new=0)
    (bad_key, bad), (key, good) = inbox.rows.items()
    with pytest.raises(ValueError, match="cannot be read"):
        decode(bad, source=SOURCE, key=bad_key, received_at=NOON)
    read = decode(good, source=SOURCE, key=key, received_at=NOON)
    assert read
    assert read.text == "178"


async def test_an_update_that_cannot_be_stored_is_kept_as_text(fake: FakeTelegram, api: BotApi, inbox: Inbox) -> None:
    """One update that the store refuses is wrapped and stored, found unreadable later, and holds up nobody."""
    ines = fake.private("Ines")
    fake.say(ines, "Ines", "poison")
    fake.say(ines, "Ines", "178")
    inbox.refuse = lambda raw: "poison" in str(raw.get("message"))
    assert await _poller(api, inbox).once() == Polled(updates=2, new=2)
    wrapped = next(iter(inbox.rows.values()))
    assert "poison" in str(wrapped["unreadable"])
    with pytest.raises(ValueError, match="cannot be read"):
        decode(wrapped, source=SOURCE, key="1", received_at=NOON)


async def test_a_store_that_fails_confirms_nothing(fake: FakeTelegram, api: BotApi, inbox: Inbox) -> None:
    """With a full disk updates stay at the server, come again, and are stored when there is room."""
    ines = fake.private("Ines")
    fake.say(ines, "Ines", "178")
    inbox.refuse = lambda _: True
    poller = _poller(api, inbox)
    assert await poller.once() == StoreTrouble(why="OSError: database or disk is full")
    assert await poller.once() == StoreTrouble(why="OSError: database or disk is full")
    inbox.refuse = lambda _: False
    assert await poller.once() == Polled(updates=1, new=1)
    assert inbox.texts == ["178"]


async def test_a_second_poller_is_told_apart_from_a_webhook(fake: FakeTelegram, api: BotApi, inbox: Inbox) -> None:
    """Both answer 409; the value says which, so that the words can say what to do."""
    waiting = asyncio.create_task(_poller(api, inbox, long_poll_s=50).once())
    await asyncio.to_thread(fake.wait, "polls", 1)
    assert await _poller(api, inbox).once() == Polled(updates=0, new=0)
    ended = await waiting
    assert isinstance(ended, Conflict)
    assert ended.rival is Rival.POLLER
    fake.set_webhook("https://example.invalid/hook")
    refused = await _poller(api, inbox).once()
    assert isinstance(refused, Conflict)
    assert refused.rival is Rival.WEBHOOK


async def test_a_conflict_is_tried_again_more_and_more_slowly(fake: FakeTelegram, api: BotApi, inbox: Inbox) -> None:
    """It is reported once, not at every try, and polling goes on when the rival is gone."""
    fake.set_webhook("https://example.invalid/hook")
    with contextlib.suppress(asyncio.CancelledError):
        await _poller(api, inbox, enough=9).run()
    assert [type(poll) for poll in inbox.polls] == [Conflict]
    assert inbox.waits_s == [1, 2, 4, 8, 16, 32, 60, 60, 60]
    fake.set_webhook("")
    assert isinstance(await _poller(api, inbox).once(), Polled)


async def test_a_revoked_token_ends_polling(fake: FakeTelegram, api: BotApi, inbox: Inbox) -> None:
    """There is nothing to wait for: the value is returned and reported, without the token in it."""
    fake.revoke()
    ended = await _poller(api, inbox).run()
    assert isinstance(ended, TokenRefused)
    assert inbox.polls == [ended]
    assert fake.token not in repr(ended)


@pytest.mark.parametrize("fault", ["status", "page", "drop"])
async def test_a_server_in_trouble_is_waited_for(fake: FakeTelegram, api: BotApi, inbox: Inbox, fault: str) -> None:
    """Errors, pages of something in between and cut connections: wait, try again, then all is as before."""
    ines = fake.private("Ines")
    fake.say(ines, "Ines", "178")
    fake.inject(fault, method="getUpdates", times=3, code=502)
    async with _running(_poller(api, inbox, long_poll_s=50)):
        await asyncio.to_thread(fake.wait, "confirmed", 0)
    assert inbox.waits_s == [1, 2, 4]
    assert [type(poll) for poll in inbox.polls] == [Outage, Polled]
    assert inbox.texts == ["178"]


async def test_a_swallowed_answer_is_no_loss(fake: FakeTelegram, api: BotApi, inbox: Inbox) -> None:
    """Updates whose answer was lost are not confirmed, so they come again."""
    ines = fake.private("Ines")
    fake.say(ines, "Ines", "178")
    fake.inject("drop", method="getUpdates", executed=True)
    poller = _poller(api, inbox)
    assert isinstance(await poller.once(), Outage)
    assert await poller.once() == Polled(updates=1, new=1)


async def test_a_flood_limit_on_polling_is_kept_to(fake: FakeTelegram, api: BotApi, inbox: Inbox) -> None:
    """The wait is the one the server asked for."""
    fake.inject("flood", method="getUpdates", times=2, retry_after=9)
    async with _running(_poller(api, inbox, long_poll_s=50)):
        await asyncio.to_thread(fake.wait, "polls", 1)
    assert inbox.waits_s == [9, 9]


async def test_no_network_is_waited_for_with_a_cap(inbox: Inbox) -> None:
    """Without a server the waits grow to a minute and stay there; the token is in none of the reasons."""
    api = BotApi(token=Token("7000001:AAHsecret-token_of_nobody_0123456789"), base_url="http://127.0.0.1:1")
    with contextlib.suppress(asyncio.CancelledError):
        await _poller(api, inbox, enough=8).run()
    await api.close()
    assert inbox.waits_s == [1, 2, 4, 8, 16, 32, 60, 60]
    assert [type(poll) for poll in inbox.polls] == [Outage]
    assert "AAH" not in repr(inbox.polls)


@pytest.mark.parametrize(
    "body",
    [b"", b"[]", b'{"ok": true}', b'{"ok": true, "result": 7}', b"\xff", b"[" * 100_000],
    ids=["empty", "array", "no result", "number", "no text", "deep"],
)
async def test_nonsense_in_place_of_an_answer_is_an_outage(inbox: Inbox, body: bytes) -> None:
    """An answer that is none is waited out like a lost one."""
    transport = httpx.MockTransport(lambda _: httpx.Response(200, content=body))
    async with httpx.AsyncClient(transport=transport) as client:
        api = BotApi(token=Token("1:x"), client=client)
        assert isinstance(await _poller(api, inbox).once(), Outage)


async def test_updates_without_a_number_are_kept_and_do_not_spin(inbox: Inbox) -> None:
    """They cannot be confirmed: each is stored once, and the poller slows down instead of asking on and on."""
    asked = itertools.count(1)

    def answer(_: httpx.Request) -> httpx.Response:
        if next(asked) > 10:
            raise asyncio.CancelledError  # a poller that spins is called off
        return httpx.Response(200, content=b'{"ok": true, "result": ["what", {"message": {}}]}')

    async with httpx.AsyncClient(transport=httpx.MockTransport(answer)) as client:
        api = BotApi(token=Token("1:x"), client=client)
        with contextlib.suppress(asyncio.CancelledError):
            await _poller(api, inbox, enough=3).run()
    assert len(inbox.rows) == 2
    assert inbox.waits_s == [2, 4, 8]


async def test_being_called_off_leaves_a_stored_batch_stored(fake: FakeTelegram, api: BotApi, inbox: Inbox) -> None:
    """Called off while the server is silent, a poller ends at once."""
    async with _running(_poller(api, inbox, long_poll_s=50)) as task:
        await asyncio.to_thread(fake.wait, "polls", 1)
    assert task.cancelled()
