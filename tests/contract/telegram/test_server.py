"""The server hands out updates and refuses calls as the official one does."""

from __future__ import annotations

import asyncio
import dataclasses
import datetime as dt
from collections.abc import AsyncIterator
from typing import Any

import pytest
import pytest_asyncio

from bot.messages.menus import MENU_LANGUAGES, Place, menu
from bot.messages.words import speaking
from bot.transport.telegram.calls import Answered, BotApi, Refused
from bot.transport.telegram.me import Me, hears_all_of, show_commands, who_am_i
from bot.transport.telegram.poller import TokenRefused
from bot.transport.telegram.redact import Token
from tests.fakes.botapi import FakeTelegram

pytestmark = pytest.mark.asyncio

NOON = dt.datetime(2026, 9, 12, 12, tzinfo=dt.UTC)


@pytest_asyncio.fixture
async def api(fake: FakeTelegram) -> AsyncIterator[BotApi]:
    """The program's own client."""
    made = BotApi(token=Token(fake.token), base_url=fake.base_url)
    yield made
    await made.close()


async def _texts(api: BotApi, **parameters: int) -> list[str]:
    answer = await api.call("getUpdates", parameters)
    assert isinstance(answer, Answered)
    assert isinstance(answer.result, list)
    return [update["message"]["text"] for update in answer.result]


async def test_updates_come_again_until_confirmed(fake: FakeTelegram, api: BotApi) -> None:
    """Without an offset the same ones come; a higher offset forgets all below it."""
    ines = fake.private("Ines")
    for text in ("one", "two", "three"):
        fake.say(ines, "Ines", text)
    first, second, _ = fake.unconfirmed()
    assert second == first + 1
    assert await _texts(api) == await _texts(api) == ["one", "two", "three"]
    assert await _texts(api, limit=2) == ["one", "two"]
    assert await _texts(api, offset=second) == ["two", "three"]
    assert await _texts(api) == ["two", "three"]
    assert await _texts(api, offset=second + 2) == []
    assert fake.unconfirmed() == []


async def test_a_long_poll_ends_with_the_first_update(fake: FakeTelegram, api: BotApi) -> None:
    """A call that waits is answered as soon as somebody writes."""
    ines = fake.private("Ines")
    waiting = asyncio.create_task(_texts(api, timeout=50))
    await asyncio.to_thread(fake.wait, "polls", 1)
    await asyncio.to_thread(fake.say, ines, "Ines", "178")
    assert await waiting == ["178"]


async def test_updates_older_than_a_day_are_gone(fake: FakeTelegram, api: BotApi) -> None:
    """What waited for more than 24 hours is dropped."""
    ines = fake.private("Ines")
    fake.set_time(NOON)
    fake.say(ines, "Ines", "old")
    fake.set_time(NOON + dt.timedelta(hours=1))
    fake.say(ines, "Ines", "newer")
    fake.set_time(NOON + dt.timedelta(hours=24, minutes=30))
    assert await _texts(api) == ["newer"]


async def test_a_group_shows_a_bot_little(fake: FakeTelegram, api: BotApi) -> None:
    """In privacy mode: commands and replies to the bot; with it off, or as administrator, everything."""
    group = fake.group("Harrow Lane supper", kind="supergroup", by="Bashir")
    admin = fake.group("Harrow Lane hosts", kind="supergroup", admin=True)
    answer = await api.call("sendMessage", {"chat_id": group, "text": "Meat?"})
    assert isinstance(answer, Answered)
    (prompt,) = fake.messages(group)
    fake.say(group, "Wren", "lovely weather")
    fake.say(group, "Wren", "/temp 165")
    fake.say(group, "Wren", "165", reply=prompt.message_id)
    fake.say(admin, "Wren", "heard")
    fake.see_all()
    fake.say(group, "Wren", "heard too")
    updates = await api.call("getUpdates", {})
    assert isinstance(updates, Answered)
    assert isinstance(updates.result, list)
    seen: list[dict[str, Any]] = [update["message"] for update in updates.result if "message" in update]
    assert [message["text"] for message in seen] == ["/temp 165", "165", "heard", "heard too"]


async def test_a_message_of_somebody_else_cannot_be_edited(fake: FakeTelegram, api: BotApi) -> None:
    """The bot changes only what it wrote; pinning a group's message needs a right."""
    group = fake.group("Harrow Lane supper")
    said = fake.say(group, "Wren", "/temp 165")
    change = {"chat_id": group, "message_id": said, "text": "x"}
    answers = [
        await api.call("editMessageText", change),
        await api.call("pinChatMessage", {"chat_id": group, "message_id": said}),
    ]
    assert [answer.code for answer in answers if isinstance(answer, Refused)] == [400, 400]


async def test_a_board_can_be_pinned_and_lose_its_buttons(fake: FakeTelegram, api: BotApi) -> None:
    """In a private chat the bot may pin what it wrote, and change the buttons alone."""
    ines = fake.private("Ines")
    markup = {"inline_keyboard": [[{"text": "Done", "callback_data": "t"}]]}
    await api.call("sendMessage", {"chat_id": ines, "text": "Board", "reply_markup": markup})
    (board,) = fake.messages(ines)
    where = {"chat_id": ines, "message_id": board.message_id}
    assert isinstance(await api.call("pinChatMessage", where | {"disable_notification": True}), Answered)
    assert isinstance(await api.call("editMessageReplyMarkup", where), Answered)
    (board,) = fake.messages(ines)
    assert (board.pinned, board.labels, board.edits) == (True, (), 1)


async def test_the_bot_learns_who_it_is(fake: FakeTelegram, api: BotApi) -> None:
    """Its id names the source of updates, its name makes links, and it knows what groups show it."""
    me = await who_am_i(api)
    assert me == Me(bot_id=7000001, username="slowbell_test_bot", reads_whole_groups=False)
    assert me.source == "telegram:7000001"
    assert me.join_link("k3-Jq_9") == "https://t.me/slowbell_test_bot?start=k3-Jq_9"
    with pytest.raises(ValueError, match="code"):
        me.join_link("no spaces")


async def test_a_revoked_token_is_told_at_the_start(fake: FakeTelegram, api: BotApi) -> None:
    """Asking who it is says at once that the token is not accepted."""
    fake.revoke()
    assert isinstance(await who_am_i(api), TokenRefused)


async def test_the_menu_of_commands_is_set(fake: FakeTelegram, api: BotApi) -> None:
    """Names and descriptions reach the server; a bad one is refused as a value."""
    assert await show_commands(api, [("plan", "The plan for this cook")]) is None
    assert fake.commands() == [{"command": "plan", "description": "The plan for this cook"}]
    fake.inject("status", code=500)
    assert isinstance(await show_commands(api, []), Refused)


async def test_each_kind_of_chat_has_its_own_menu_in_each_language(fake: FakeTelegram, api: BotApi) -> None:
    """The server takes every menu as it is made, and keeps them apart."""
    for place in Place:
        for language in ("", *MENU_LANGUAGES):
            with speaking(language or None):
                assert await show_commands(api, menu(place), scope=place.value, language=language) is None
    assert "invite" in [one["command"] for one in fake.commands("all_private_chats")]
    assert "invite" not in [one["command"] for one in fake.commands("all_group_chats", "de")]
    assert "calloff" in [one["command"] for one in fake.commands("all_chat_administrators", "de")]
    assert [one["command"] for one in fake.commands()] == [name for name, _ in menu(Place.ANYWHERE)]


async def test_an_administrator_hears_everything_in_its_group(fake: FakeTelegram, api: BotApi) -> None:
    """Asked about a group: what it is there, or that it hears everything everywhere; nothing where nobody says."""
    club, shed = fake.group("Harrow Lane", admin=True), fake.group("Shed")
    me = await who_am_i(api)
    assert isinstance(me, Me)
    assert [await hears_all_of(api, me, str(chat)) for chat in (club, shed, -1)] == [True, False, None]
    assert await hears_all_of(api, dataclasses.replace(me, reads_whole_groups=True), str(shed))


async def test_half_a_call_is_not_carried_out(fake: FakeTelegram) -> None:
    """A caller that dies while it writes has called nothing: no answer, no call on record, no broken contract."""
    head = (
        f"POST /bot{fake.token}/sendMessage HTTP/1.1\r\nContent-Type: application/json\r\nContent-Length: 100\r\n\r\n"
    )
    reader, writer = await asyncio.open_connection("127.0.0.1", fake.port)
    writer.write(head.encode() + b'{"chat_id": 1')
    writer.write_eof()
    assert await reader.read() == b""
    writer.close()
    await writer.wait_closed()
    assert fake.calls("sendMessage") == []
