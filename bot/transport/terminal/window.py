"""The window of one person: what they type goes to the inbox, what is on their screen is printed.

It must not understand a word of either, and works the same whether this process is the engine or another one
is.
"""

from __future__ import annotations

import asyncio
import contextlib
import datetime as dt
import logging
from collections.abc import Callable
from typing import Literal, Protocol
from zoneinfo import ZoneInfo

from bot.messages import console
from bot.ports import Json, Screen, ScreenRow, Store
from bot.transport.terminal.attach import NoPicture, Picture, attached, may_attach
from bot.transport.terminal.clean import clean, clean_line
from bot.transport.terminal.decode import LONGEST_TEXT, SOURCE, chat_of, make_raw
from bot.transport.terminal.layout import WIDEST, set_row, wrap
from bot.transport.terminal.paper import Paper

log = logging.getLogger(__name__)

LOOK_EVERY_S = 0.15
FIRST_LOOKS_S = 0.03
"""How often it looks until the first words are there: a new window greets at once."""
TRY_AGAIN_EVERY_S = 1.0
ANSWERS_WITHIN_S = 15.0
"""How long a window on a pipe waits for the last answers after the input has ended."""
END_WITHIN_S = 2.0
"""How long the last look may take, so that what was printed is also remembered as shown."""
QUIET_LOOKS = 3
"""Looks without anything under way that count as: all is answered."""


class Data(Store, Screen, Protocol):
    """The database, with the terminal's side of it."""


class Window:
    """One open window. `run` ends when the person leaves."""

    def __init__(
        self,
        *,
        data: Data,
        paper: Paper,
        name: str,
        zone: str,
        clock: Callable[[], dt.datetime],
        language: str | None = None,
    ) -> None:
        """Make a window for a named person, who is spoken to in `language` while they say no other."""
        self._data = data
        self._paper = paper
        self._name = name
        self._chat = chat_of(name)
        self._zone = zone
        self._language = language
        self._clock = clock
        self.nudge: Callable[[], None] = lambda: None
        """Called when something was put in the inbox; set by whoever runs the engine in this process."""
        self._kept: list[tuple[str, Json]] = []
        self._printed = 0
        self._first_look = True
        self._told_kept = False
        self._storing = asyncio.Lock()
        self._ending = asyncio.Event()

    @property
    def unstored(self) -> list[str]:
        """Lines that could not be stored, in order."""
        return [str(raw["text"] or raw.get("file")) for _, raw in self._kept if raw["text"] or raw.get("file")]

    def say(self, sentence: str) -> None:
        """Print a sentence of the program's own."""
        self._paper.show("\n".join(wrap(clean_line(sentence), min(self._paper.width, WIDEST) - 1)))

    async def run(self) -> None:
        """Greet the engine, then print and listen until the person leaves."""
        with self._paper.opened():
            self._keep("hello", "")
            await self._store_kept()
            printing = asyncio.create_task(self._print_on())
            listening = asyncio.create_task(self._listen())
            try:
                await asyncio.wait([printing, listening], return_when=asyncio.FIRST_COMPLETED)
                if not listening.done():
                    return  # nobody reads what is printed
                listening.result()
                if not self._paper.interactive:
                    await self._until_answered()
            finally:
                self._ending.set()
                listening.cancel()
                await asyncio.wait([printing, listening], timeout=END_WITHIN_S)
                printing.cancel()

    # --- listening
    # --------------------------------------------------------------------------------------------------

    async def _listen(self) -> None:
        while (line := await self._paper.read()) is not None:
            text = clean(line).strip()
            if text.casefold() in console.leaving_words():
                return
            if len(text) > LONGEST_TEXT:
                self.say(console.line_too_long(LONGEST_TEXT))
                self._paper.put_back(line)
            elif text:
                await self._take(text)

    async def _take(self, text: str) -> None:
        """Put a line in the inbox: words, or a photo by the path of its file."""
        found = await asyncio.to_thread(attached, text) if may_attach(text) else None
        if isinstance(found, NoPicture):
            self.say(console.no_picture(found.path))
            return
        if found is None:
            self._keep("text", text)
        else:
            self._keep("photo", "", found)
        await self._store_kept()

    def _keep(self, kind: Literal["hello", "text", "photo"], text: str, picture: Picture | None = None) -> None:
        made = make_raw(
            kind=kind,
            name=self._name,
            sent_at=self._clock(),
            text=text,
            language=self._language,
            picture=picture,
        )
        self._kept.append(made)

    async def _store_kept(self) -> None:
        """Put what was typed in the inbox, in order; what cannot be stored stays here."""
        async with self._storing:
            stored = 0
            while self._kept:
                key, raw = self._kept[0]
                try:
                    await asyncio.to_thread(
                        self._data.accept, source=SOURCE, key=key, raw=raw, received_at=self._clock()
                    )
                except Exception:  # whatever is wrong with the disk, the line is kept and tried again
                    log.exception("a line could not be stored")
                    if not self._told_kept and self.unstored:
                        self._told_kept = True
                        self.say(console.line_kept())
                    return
                self._kept.pop(0)
                stored += bool(raw["text"])
                self.nudge()
            if self._told_kept:
                self._told_kept = False
                self.say(console.lines_stored(stored))

    # --- printing
    # ---------------------------------------------------------------------------------------------------

    async def _print_on(self) -> None:
        """Print what comes on the screen, and try again to store what is kept; return when nobody reads, or after a
        last look at the end: what came just before it is printed, too.
        """
        pause_s = LOOK_EVERY_S
        ends = False
        while not ends:
            ends = self._ending.is_set()
            try:
                await self._print_new()
                if self._kept:
                    await self._store_kept()
                usual_s = LOOK_EVERY_S if self._printed else FIRST_LOOKS_S
                pause_s = TRY_AGAIN_EVERY_S if self._kept else usual_s
            except OSError as error:  # the other end of the pipe is closed
                log.warning("nobody reads this window: %s", error)
                return
            except Exception:  # the database: the program tells people, this window only waits
                log.exception("the screen could not be read")
                pause_s = TRY_AGAIN_EVERY_S
            with contextlib.suppress(TimeoutError):
                await asyncio.wait_for(self._ending.wait(), pause_s)

    async def _print_new(self) -> int:
        rows = await asyncio.to_thread(self._data.screen, self._chat, self._printed)
        new = [row for row in rows if not (self._first_look and row.shown)]
        self._first_look = False
        for row in new:
            self._print(row)
        if rows:
            self._printed = rows[-1].id
        if new:
            await asyncio.to_thread(self._data.mark_shown, self._chat, self._printed, self._clock())
        return len(new)

    def _print(self, row: ScreenRow) -> None:
        today = self._clock().astimezone(ZoneInfo(self._zone)).date()
        self._paper.show(set_row(row, zone=self._zone, today=today, width=self._paper.width))

    # --- the end of a pipe
    # ------------------------------------------------------------------------------------------

    async def _until_answered(self) -> None:
        """Wait until what was typed is worked on and what it brought about is printed, or for so long."""
        quiet = 0
        ends_s = asyncio.get_running_loop().time() + ANSWERS_WITHIN_S
        while quiet < QUIET_LOOKS and asyncio.get_running_loop().time() < ends_s:
            await asyncio.sleep(LOOK_EVERY_S)
            quiet = quiet + 1 if not self._kept and not await asyncio.to_thread(self._is_busy) else 0

    def _is_busy(self) -> bool:
        if any(row.source == SOURCE for row in self._data.inbox_waiting()):
            return True
        due_at = self._data.next_send_at([SOURCE])
        return due_at is not None and due_at <= self._clock()
