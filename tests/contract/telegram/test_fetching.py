"""Fetching what somebody sent: the bytes come whole, and the address with the token in it is never told."""

from __future__ import annotations

import dataclasses
import datetime as dt
import logging

import pytest

from bot.chat import Declined, IncomingKind, Lack, OutgoingKind, Rejected, Sent, TryAgain
from bot.ports import ClaimedRow
from bot.transport.telegram.decode import decode
from bot.transport.telegram.files import MOST_DOWNLOAD_BYTES
from tests.contract.telegram.pictures import jpeg
from tests.contract.telegram.sending import row, transport
from tests.fakes.botapi import FakeTelegram

pytestmark = pytest.mark.asyncio

SENT_AT = dt.datetime(2026, 9, 12, 13, 5, tzinfo=dt.UTC)


@dataclasses.dataclass
class Kept:
    """An album in memory."""

    files: dict[str, bytes] = dataclasses.field(default_factory=dict)

    def __call__(self, name: str, data: bytes) -> None:
        self.files[name] = data


def fetch(chat: int, file: str) -> ClaimedRow:
    """Return a row that fetches a file."""
    return row(chat, "supper-12.jpg", kind=OutgoingKind.FETCH, target=file)


async def _photo(fake: FakeTelegram, ines: int, data: bytes) -> str:
    """Ines sends a photo; return the file that its update names."""
    fake.photo(ines, "Ines", data, caption="178", at=SENT_AT)
    entry = fake.history(ines)[-1]
    raw = {"update_id": 1, "message": _as_update(fake, entry.message_id, ines)}
    incoming = decode(raw, source="telegram:1", key="1", received_at=SENT_AT)
    assert incoming is not None
    assert (incoming.kind, incoming.text, incoming.sent_at) == (IncomingKind.PHOTO, "178", SENT_AT)
    assert incoming.attachment is not None
    assert (incoming.attachment.media_type, incoming.attachment.size_bytes) == ("image/jpeg", len(data))
    return incoming.attachment.file


def _as_update(fake: FakeTelegram, message_id: int, chat: int) -> object:
    found = [one["message"] for one in fake.updates() if one["message"]["message_id"] == message_id]
    assert found
    assert found[0]["chat"]["id"] == chat
    return found[0]


async def test_a_photo_is_fetched_whole_in_its_largest_size(fake: FakeTelegram) -> None:
    """What is put away are the bytes that Ines sent, under the name asked for; again, the same."""
    ines, kept = fake.private("Ines"), Kept()
    file = await _photo(fake, ines, jpeg())
    async with transport(fake, album=kept) as telegram:
        for _ in range(2):
            assert await telegram.send(fetch(ines, file)) == Sent()
    assert kept.files == {"supper-12.jpg": jpeg()}


async def test_a_file_that_is_gone_or_too_large_is_declined(fake: FakeTelegram) -> None:
    """It is not tried again, nothing is put away, and the transport goes on as before."""
    ines, kept = fake.private("Ines"), Kept()
    large = await _photo(fake, ines, jpeg() + bytes(MOST_DOWNLOAD_BYTES))
    file = await _photo(fake, ines, jpeg())
    async with transport(fake, album=kept) as telegram:
        outcomes = [await telegram.send(fetch(ines, large))]
        fake.inject("status", method="getFile", code=400, description="Bad Request: file is too big")
        outcomes.append(await telegram.send(fetch(ines, file)))
        fake.forget_files()
        outcomes.append(await telegram.send(fetch(ines, file)))
        assert isinstance(await telegram.send(row(ines)), Sent)
    assert [isinstance(one, Declined) and one.lack is Lack.FILE for one in outcomes] == [True] * 3
    assert kept.files == {}


async def test_a_file_is_fetched_again_after_trouble(fake: FakeTelegram) -> None:
    """A lost answer costs one more try; without an album, or a name, nothing can be fetched."""
    ines, kept = fake.private("Ines"), Kept()
    file = await _photo(fake, ines, jpeg())
    async with transport(fake, album=kept) as telegram:
        fake.inject("drop", method="getFile")
        assert isinstance(await telegram.send(fetch(ines, file)), TryAgain)
        assert await telegram.send(fetch(ines, file)) == Sent()
    async with transport(fake) as telegram:
        assert isinstance(await telegram.send(fetch(ines, file)), Rejected)


async def test_the_address_of_a_file_is_never_told(fake: FakeTelegram, caplog: pytest.LogCaptureFixture) -> None:
    """Whatever goes wrong, neither the outcome nor our own log holds the token."""
    ines, kept = fake.private("Ines"), Kept()
    file = await _photo(fake, ines, jpeg())
    secret = fake.token.partition(":")[2]
    fake.hide_files()
    with caplog.at_level(logging.DEBUG, logger="bot"):
        async with transport(fake, album=kept) as telegram:
            outcome = await telegram.send(fetch(ines, file))
    assert isinstance(outcome, Declined)
    assert secret not in repr(outcome)
    assert [one for one in caplog.records if one.name.startswith("bot") and secret in one.getMessage()] == []
