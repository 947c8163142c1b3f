"""The token appears in no log, error or representation, whatever goes wrong at whatever log level."""

from __future__ import annotations

import datetime as dt
import logging
from collections.abc import Iterator

import pytest
from telegram import Bot
from telegram.error import InvalidToken

from bot.chat import Address, Outgoing
from bot.ports import ClaimedRow
from bot.transport.telegram.calls import BotApi
from bot.transport.telegram.me import who_am_i
from bot.transport.telegram.outgoing import QuietBot, TelegramTransport
from bot.transport.telegram.poller import Poller
from bot.transport.telegram.redact import MASK, Token, install_redaction
from tests.fakes.botapi import FakeTelegram

pytestmark = pytest.mark.asyncio

NOON = dt.datetime(2026, 9, 12, 12, tzinfo=dt.UTC)


@pytest.fixture
def redaction(fake: FakeTelegram, caplog: pytest.LogCaptureFixture) -> Iterator[pytest.LogCaptureFixture]:
    """Every logger at DEBUG, with redaction installed; the logs so far."""
    caplog.set_level(logging.DEBUG)
    for name in ("httpx", "httpcore", "telegram"):
        caplog.set_level(logging.DEBUG, logger=name)
    take_off = install_redaction(Token(fake.token))
    yield caplog
    take_off()


async def _use_everything(fake: FakeTelegram) -> list[object]:
    """Send, poll and ask, on a good server and through every kind of trouble; return all that came back."""
    token = Token(fake.token)
    ines = fake.private("Ines")
    outgoing = Outgoing(key="p", address=Address(transport="telegram", chat=str(ines)), text="Spritz.")
    row = ClaimedRow(id=1, attempt=1, outgoing=outgoing, target_ref=None)
    said: list[object] = [token]
    for base_url in (fake.base_url, "http://127.0.0.1:1", "nonsense"):
        transport = TelegramTransport(token=token, repeat_mark=lambda: "!", clock=lambda: NOON, base_url=base_url)
        api = BotApi(token=token, base_url=base_url)
        poller = Poller(api=api, source="s", accept=lambda **_: True, clock=lambda: NOON, long_poll_s=0)
        for fault in ("", "page", "drop", "status", "revoke"):
            if fault == "revoke":
                fake.revoke()
            elif fault:
                fake.inject(fault, code=502, times=2, description=f"trouble with {fake.token}")
                fake.inject(fault, code=502, method="getUpdates")
            said += [await transport.send(row), await who_am_i(api), await poller.once(), transport, api, poller]
            fake.calm()
            fake.restore()
        await transport.close()
        await api.close()
    return said


async def test_nothing_that_is_logged_or_returned_holds_the_token(
    fake: FakeTelegram, redaction: pytest.LogCaptureFixture
) -> None:
    """With all libraries at DEBUG and through all kinds of trouble, addresses are logged, the token is not."""
    said = await _use_everything(fake)
    logged = redaction.text + repr([(record.msg, record.args) for record in redaction.records])
    assert f"bot{MASK}" in redaction.text
    assert any(record.name == "httpx" for record in redaction.records)
    assert any(record.name.startswith("httpcore") for record in redaction.records)
    assert any(record.name.startswith("telegram") for record in redaction.records)
    assert fake.token not in logged
    assert fake.token not in repr(said) + str(said)


async def test_without_redaction_the_logs_would_hold_it(fake: FakeTelegram, caplog: pytest.LogCaptureFixture) -> None:
    """The test above can fail: the HTTP client does log the address."""
    caplog.set_level(logging.INFO)
    await _use_everything(fake)
    assert fake.token in caplog.text


async def test_the_bot_does_not_show_it(fake: FakeTelegram) -> None:
    """The library's bot shows the token in its representation; ours does not."""
    assert fake.token in repr(Bot(fake.token))
    assert fake.token not in repr(QuietBot(fake.token))


async def test_the_librarys_own_error_is_masked_in_logs(
    fake: FakeTelegram, redaction: pytest.LogCaptureFixture
) -> None:
    """The library writes the token into its error; logging that error does not write it anywhere."""
    fake.revoke()
    bot = QuietBot(fake.token, base_url=f"{fake.base_url}/bot")
    with pytest.raises(InvalidToken) as caught:
        await bot.initialize()
    await bot.shutdown()
    assert fake.token in str(caught.value)
    logging.getLogger("bot").error("could not start", exc_info=caught.value)
    assert "could not start" in redaction.text
    assert fake.token not in redaction.text
