"""The board of a cook on the messenger, from what a decision writes to what a chat shows."""

from __future__ import annotations

import dataclasses
import datetime as dt
from collections.abc import AsyncIterator, Iterator
from pathlib import Path

import pytest
import pytest_asyncio

from bot.application.posted import post_board, take_off
from bot.application.visit import Work
from bot.chat import Address
from bot.delivery.courier import Courier
from bot.store import SqlStore, open_store
from tests.contract.telegram.sending import NOON, transport
from tests.fakes.botapi import FakeTelegram

pytestmark = pytest.mark.asyncio

COOK = "supper"


@dataclasses.dataclass
class Desk:
    """Writes boards as decisions do, and delivers them; its clock is moved by hand."""

    store: SqlStore
    courier: Courier
    now: dt.datetime = NOON
    version: int = 0

    async def writes(self, text: str, *rooms: int) -> None:
        """One decision keeps the boards of these rooms; what it wrote is delivered, twice over."""
        for _ in range(2):
            self.version += 1
            work = Work(now=self.now)
            for room in rooms:
                told = f"{text} ({self.version})"
                post_board(self.store, work, told, to=_room(room), cook=COOK, version=self.version)
            await self._deliver(work)

    async def ends(self, room: int) -> None:
        """The cook is over."""
        work = Work(now=self.now)
        take_off(self.store, work, to=_room(room), cook=COOK)
        await self._deliver(work)

    async def _deliver(self, work: Work) -> None:
        assert self.store.apply(work.apply())
        for _ in range(6):
            await self.courier.work(self.now)
            self.now += dt.timedelta(seconds=20)


def _room(chat: int) -> Address:
    return Address(transport="telegram", chat=str(chat))


@pytest.fixture
def store(tmp_path: Path) -> Iterator[SqlStore]:
    """A database of its own."""
    opened = open_store(tmp_path)
    yield opened
    opened.close()


@pytest_asyncio.fixture
async def desk(fake: FakeTelegram, store: SqlStore) -> AsyncIterator[Desk]:
    """A desk that delivers to the server."""
    async with transport(fake) as telegram:
        yield Desk(store=store, courier=Courier(store, {"telegram": telegram}, "desk"))


async def test_a_board_is_posted_once_pinned_once_and_edited(fake: FakeTelegram, desk: Desk) -> None:
    """One message, at the top, that says what is so now; at the end it is taken off and stays readable."""
    ines = fake.private("Ines")
    await desk.writes("Dinner 18:00", ines)
    await desk.writes("Dinner 18:20", ines)
    (board,) = fake.messages(ines)
    assert (board.text, board.pinned, board.silent, board.edits) == ("Dinner 18:20 (4)", True, True, 3)
    assert len(fake.calls("pinChatMessage")) == 1
    await desk.ends(ines)
    assert [(one.text, one.pinned) for one in fake.messages(ines)] == [("Dinner 18:20 (4)", False)]


async def test_a_board_that_was_deleted_is_posted_and_pinned_anew(fake: FakeTelegram, desk: Desk) -> None:
    """The edit finds it gone; the next write posts another and pins that, and goes on editing it."""
    ines = fake.private("Ines")
    await desk.writes("Dinner 18:00", ines)
    fake.delete(fake.messages(ines)[0])
    await desk.writes("Dinner 18:20", ines)
    await desk.writes("Dinner 18:25", ines)
    assert [(one.text, one.pinned) for one in fake.messages(ines)] == [("Dinner 18:25 (6)", True)]


async def test_a_board_too_old_to_be_edited_makes_way(fake: FakeTelegram, desk: Desk) -> None:
    """A new one is posted and pinned, and the old one is taken off the top; this may happen again."""
    ines = fake.private("Ines")
    for number in range(3):
        await desk.writes(f"Dinner 18:{number}0", ines)
        fake.freeze(fake.messages(ines)[-1])
    assert [one.pinned for one in fake.messages(ines)] == [False, False, True]
    await desk.writes("Dinner 18:30", ines)
    assert [one.pinned for one in fake.messages(ines)] == [False, False, False, True]


async def test_without_the_right_to_pin_the_board_lives_on(fake: FakeTelegram, desk: Desk) -> None:
    """It is posted and edited all the same, and how to have it pinned is said once, however often it is written."""
    club = fake.group("Harrow Lane", kind="supergroup")
    for number in range(3):
        await desk.writes(f"Dinner 18:{number}0", club)
    board, explained = fake.messages(club)
    assert (board.text, board.pinned, board.edits) == ("Dinner 18:20 (6)", False, 5)
    assert "administrator" in explained.text
    assert explained.silent


async def test_a_group_that_moved_gets_a_board_in_its_new_chat(fake: FakeTelegram, desk: Desk) -> None:
    """Message numbers of the old chat mean nothing there: it is posted and pinned anew."""
    club = fake.group("Harrow Lane", admin=True)
    await desk.writes("Dinner 18:00", club)
    new = fake.migrate(club)
    await desk.writes("Dinner 18:20", new)
    assert [(one.text, one.pinned) for one in fake.messages(new)] == [("Dinner 18:20 (4)", True)]
