"""A window on a real database, with a person who types what the test says."""

from __future__ import annotations

import asyncio
import contextlib
import datetime as dt
from collections.abc import AsyncIterator, Iterator
from pathlib import Path

import pytest

from bot.ports import Apply, Json
from bot.store import SqlStore, open_store
from bot.store.engine import sqlite_engine
from bot.store.errors import DiskFull
from bot.store.opening import DATABASE_NAME
from bot.transport.terminal import window as window_module
from bot.transport.terminal.window import Window

NOON = dt.datetime(2026, 9, 5, 12, 0, tzinfo=dt.UTC)
PATIENCE_S = 5.0


class Desk:
    """Paper on which the test types and reads."""

    interactive = True
    width = 80

    def __init__(self) -> None:
        self.lines: asyncio.Queue[str | None] = asyncio.Queue()
        self.shown: list[str] = []
        self.offered: list[str] = []
        self.torn = False
        self._news = asyncio.Event()

    @contextlib.contextmanager
    def opened(self) -> Iterator[None]:
        yield

    async def read(self) -> str | None:
        return await self.lines.get()

    def show(self, text: str) -> None:
        if self.torn:
            raise BrokenPipeError
        self.shown.append(text)
        self._news.set()

    def put_back(self, text: str) -> None:
        self.offered.append(text)

    def type(self, *lines: str | None) -> None:
        for line in lines:
            self.lines.put_nowait(line)

    async def sees(self, words: str) -> None:
        """Wait until these words are printed."""
        async with asyncio.timeout(PATIENCE_S):
            while not any(words in text for text in self.shown):
                self._news.clear()
                await self._news.wait()


class Unwritable(SqlStore):
    """A store on a disk that is full whenever the test says so."""

    full = False

    def accept(self, *, source: str, key: str, raw: Json, received_at: dt.datetime) -> bool:
        if self.full:
            raise DiskFull(path="slowbell.db")
        return super().accept(source=source, key=key, raw=raw, received_at=received_at)


@pytest.fixture(autouse=True)
def _in_a_hurry(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(window_module, "LOOK_EVERY_S", 0.01)
    monkeypatch.setattr(window_module, "TRY_AGAIN_EVERY_S", 0.02)


@pytest.fixture
def store(tmp_path: Path) -> Iterator[Unwritable]:
    """Give a fresh database."""
    open_store(tmp_path).close()
    opened = Unwritable(sqlite_engine(tmp_path / DATABASE_NAME))
    yield opened
    opened.close()


def window_of(store: SqlStore, desk: Desk, name: str = "Ines") -> Window:
    """Return somebody's window."""
    return Window(data=store, paper=desk, name=name, zone="UTC", clock=lambda: NOON)


@contextlib.asynccontextmanager
async def running(window: Window) -> AsyncIterator[asyncio.Task[None]]:
    """Run a window until the block ends."""
    task = asyncio.create_task(window.run())
    try:
        yield task
    finally:
        task.cancel()
        await asyncio.wait([task])


def show(store: SqlStore, text: str, chat: str = "ines") -> int:
    """Put a message on somebody's screen."""
    return store.show(chat=chat, outbox_key=f"{chat}:{text}", text=text, choices=(("Done", "t"),), at=NOON)


def typed(store: SqlStore) -> list[object]:
    """Return what is in the inbox, in order."""
    return [(row.raw["kind"], row.raw["text"]) for row in store.inbox_waiting()]


@pytest.mark.asyncio
async def test_each_line_becomes_a_row_of_the_inbox(store: Unwritable) -> None:
    """Opening says hello, each line that is not blank is stored in order; quit leaves and is not stored."""
    desk = Desk()
    nudged: list[int] = []
    window = window_of(store, desk)
    window.nudge = lambda: nudged.append(1)
    desk.type("178", "  ", "done\x1b[A", " QUIT ")
    await asyncio.wait_for(window.run(), PATIENCE_S)
    assert typed(store) == [("hello", ""), ("text", "178"), ("text", "done")]
    assert len(nudged) == 3


@pytest.mark.asyncio
@pytest.mark.parametrize("last", ["quit", "exit", None])
async def test_leaving(store: Unwritable, last: str | None) -> None:
    """The two words and the end of the input leave."""
    desk = Desk()
    desk.type(last)
    await asyncio.wait_for(window_of(store, desk).run(), PATIENCE_S)
    assert typed(store) == [("hello", "")]


@pytest.mark.asyncio
async def test_the_screen_is_printed_once(store: Unwritable) -> None:
    """What is on the person's own screen is printed in order, with letters, and not again in the next window."""
    desk = Desk()
    show(store, "first")
    show(store, "for Wren", chat="wren")
    async with running(window_of(store, desk)):
        await desk.sees("first")
        show(store, "second")
        await desk.sees("second")
    assert [text.split("\n") for text in desk.shown] == [
        ["12:00  first", "         a) Done"],
        ["12:00  second", "         a) Done"],
    ]
    again = Desk()
    show(store, "third")
    async with running(window_of(store, again)):
        await again.sees("third")
    assert len(again.shown) == 1


@pytest.mark.asyncio
async def test_two_windows_of_one_person_both_print(store: Unwritable) -> None:
    """Opening a second window under the same name takes nothing from the first."""
    one, two = Desk(), Desk()
    async with running(window_of(store, one)), running(window_of(store, two, name="INES")):
        await asyncio.sleep(0.05)
        show(store, "for both")
        await one.sees("for both")
        await two.sees("for both")


@pytest.mark.asyncio
async def test_a_full_disk_keeps_the_lines(store: Unwritable) -> None:
    """Lines that cannot be stored are kept in order, told once, stored when there is room, and told again."""
    desk = Desk()
    async with running(window_of(store, desk)):
        store.full = True
        desk.type("178", "done")
        await desk.sees("could not be stored")
        store.full = False
        await desk.sees("stored now")
    assert typed(store) == [("hello", ""), ("text", "178"), ("text", "done")]
    assert len(desk.shown) == 2


@pytest.mark.asyncio
async def test_lines_unstored_at_the_end_are_named(store: Unwritable) -> None:
    """Who leaves while the disk is full can be told which lines were not stored."""
    desk = Desk()
    store.full = True
    window = window_of(store, desk)
    desk.type("178", "quit")
    await asyncio.wait_for(window.run(), PATIENCE_S)
    assert window.unstored == ["178"]


@pytest.mark.asyncio
async def test_an_endless_line_is_given_back(store: Unwritable) -> None:
    """A line too long to be a message is not taken in, but offered again for shortening."""
    desk = Desk()
    desk.type("x" * 4001, "quit")
    await asyncio.wait_for(window_of(store, desk).run(), PATIENCE_S)
    assert typed(store) == [("hello", "")]
    assert desk.offered == ["x" * 4001]
    assert "4000" in desk.shown[0]


@pytest.mark.asyncio
async def test_a_closed_pipe_ends_the_window(store: Unwritable) -> None:
    """When nobody reads what is printed, the window ends instead of failing for ever."""
    desk = Desk()
    desk.torn = True
    show(store, "unseen")
    await asyncio.wait_for(window_of(store, desk).run(), PATIENCE_S)
    assert [one.shown for one in store.screen("ines")] == [False]


@pytest.mark.asyncio
async def test_a_pipe_waits_for_its_answers(store: Unwritable) -> None:
    """At the end of piped input the window stays until what was typed is worked on and answered."""
    desk = Desk()
    desk.interactive = False
    desk.type("how long", None)
    async with running(window_of(store, desk)) as task:
        await asyncio.sleep(0.1)
        assert not task.done()
        show(store, "two hours")  # never after the row is done: the program writes both at once
        for row in store.inbox_waiting():
            store.apply(Apply(now=NOON, inbox_done=row.id))
        await asyncio.wait_for(task, PATIENCE_S)
    assert "two hours" in desk.shown[0]


@pytest.mark.asyncio
async def test_a_pipe_does_not_wait_for_ever(store: Unwritable, monkeypatch: pytest.MonkeyPatch) -> None:
    """When nothing answers, the window on a pipe ends all the same."""
    monkeypatch.setattr(window_module, "ANSWERS_WITHIN_S", 0.1)
    desk = Desk()
    desk.interactive = False
    desk.type("how long", None)
    await asyncio.wait_for(window_of(store, desk).run(), PATIENCE_S)
    assert typed(store) == [("hello", ""), ("text", "how long")]


@pytest.mark.asyncio
async def test_a_photo_is_attached_by_its_path(store: Unwritable, tmp_path: Path) -> None:
    """`photo PATH` stores a row with the file; a path without a picture is told, and words are words."""
    bark, notes = tmp_path / "the bark.jpg", tmp_path / "notes.txt"
    bark.write_bytes(b"\xff\xd8\xff\xe0 and so on")
    notes.write_text("no picture")
    desk = Desk()
    desk.type(f"photo '{bark}'", f"photo {bark}", f"photo {notes}", "photo ~/nowhere.png", "photo of the bark", None)
    await asyncio.wait_for(window_of(store, desk).run(), PATIENCE_S)
    rows = [row.raw for row in store.inbox_waiting()][1:]
    assert [(row["kind"], row.get("file"), row.get("media_type")) for row in rows] == [
        ("photo", str(bark), "image/jpeg"),
        ("photo", str(bark), "image/jpeg"),
        ("text", None, None),
    ]
    assert sum("No picture" in text for text in desk.shown) == 2
