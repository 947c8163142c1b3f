"""What a window is printed on: a real terminal with a line to type in, or plain lines for pipes.

It must not know what the lines mean.
"""

from __future__ import annotations

import asyncio
import contextlib
import os
import shutil
import sys
import threading
from collections.abc import Iterator
from typing import TYPE_CHECKING, Protocol

from bot.transport.terminal.clean import clean
from bot.transport.terminal.layout import WIDTH

if TYPE_CHECKING:
    from prompt_toolkit.key_binding import KeyBindings, KeyPressEvent

PROMPT = "> "
READ_BYTES = 65536


class Paper(Protocol):
    """Where lines come from and where text is printed."""

    interactive: bool
    """False for pipes: nobody is there to wait for the answer, so the window does."""

    @property
    def width(self) -> int:
        """Columns."""

    def opened(self) -> contextlib.AbstractContextManager[None]:
        """Take the terminal for as long as the context lasts."""

    async def read(self) -> str | None:
        """Return the next line, None at the end of the input."""

    def show(self, text: str) -> None:
        """Print text and a line break; raises OSError when nobody reads any more."""

    def put_back(self, text: str) -> None:
        """Offer this text at the next `read`, where that can be done."""


def paper(hint: str) -> Paper:
    """Return the paper that standard input and output are. `hint` stands, pale, on an empty line to type in."""
    if sys.stdin.isatty() and sys.stdout.isatty() and os.environ.get("TERM") != "dumb":
        return PromptPaper(hint)
    return PlainPaper()


def say(sentence: str) -> None:
    """Print a sentence on standard output; control characters in it are dropped."""
    print(clean(sentence), flush=True)


def complain(sentence: str) -> None:
    """Print a sentence on standard error; control characters in it are dropped."""
    print(clean(sentence), file=sys.stderr, flush=True)


class PlainPaper:
    """Pipes and files: lines in, lines out."""

    interactive = False

    def __init__(self, source: int | None = None) -> None:
        """Read from this file descriptor, standard input by default."""
        self._source = source
        self._lines: asyncio.Queue[str | None] = asyncio.Queue()
        self._ended = False

    @property
    def width(self) -> int:
        """Columns, as told by COLUMNS or 80."""
        return shutil.get_terminal_size((WIDTH, 24)).columns

    @contextlib.contextmanager
    def opened(self) -> Iterator[None]:
        """Begin to read, in a thread of its own: reading a pipe cannot be called off, and must not hold up the end."""
        loop = asyncio.get_running_loop()
        source = sys.stdin.fileno() if self._source is None else self._source
        threading.Thread(target=_feed, args=(source, loop, self._lines), daemon=True).start()
        yield

    async def read(self) -> str | None:
        """Return the next line."""
        if self._ended:
            return None
        line = await self._lines.get()
        self._ended = line is None
        return line

    def show(self, text: str) -> None:
        """Print text."""
        print(text, flush=True)

    def put_back(self, text: str) -> None:
        """Do nothing: a pipe has moved on."""


def _feed(source: int, loop: asyncio.AbstractEventLoop, lines: asyncio.Queue[str | None]) -> None:
    """Put each line of a file descriptor in the queue, None at the end. `os.read` holds no lock of Python's own."""
    rest = b""
    try:
        while chunk := os.read(source, READ_BYTES):
            *whole, rest = (rest + chunk).split(b"\n")
            for line in whole:
                loop.call_soon_threadsafe(lines.put_nowait, line.decode("utf-8", "replace"))
        if rest:
            loop.call_soon_threadsafe(lines.put_nowait, rest.decode("utf-8", "replace"))
        loop.call_soon_threadsafe(lines.put_nowait, None)
    except (OSError, RuntimeError):  # the terminal is gone, or the loop has ended: nobody asks any more
        with contextlib.suppress(RuntimeError):
            loop.call_soon_threadsafe(lines.put_nowait, None)


class PromptPaper:
    """A terminal: one line to type in, messages printed above it without touching what is being typed."""

    interactive = True

    def __init__(self, hint: str) -> None:
        """Prepare the line to type in."""
        from prompt_toolkit import PromptSession  # noqa: PLC0415 - pipes and `serve` need none of it
        from prompt_toolkit.formatted_text import FormattedText  # noqa: PLC0415 - the same as above

        self._session: PromptSession[str] = PromptSession(
            PROMPT,
            placeholder=FormattedText([("fg:ansibrightblack", hint)]),
            key_bindings=_keys(),
        )
        self._offer = ""

    @property
    def width(self) -> int:
        """Columns of the terminal now."""
        return shutil.get_terminal_size((WIDTH, 24)).columns

    @contextlib.contextmanager
    def opened(self) -> Iterator[None]:
        """Print above the line being typed from now on."""
        from prompt_toolkit.patch_stdout import patch_stdout  # noqa: PLC0415 - pipes and `serve` need none of it

        with patch_stdout():
            yield

    async def read(self) -> str | None:
        """Return the next line."""
        offer, self._offer = self._offer, ""
        try:
            return await self._session.prompt_async(default=offer, handle_sigint=False)
        except EOFError:
            return None

    def show(self, text: str) -> None:
        """Print text above the line."""
        print(text, flush=True)

    def put_back(self, text: str) -> None:
        """Offer this text again."""
        self._offer = text


def _keys() -> KeyBindings:
    """Ctrl-C empties the line, and leaves on an empty one."""
    from prompt_toolkit.key_binding import KeyBindings as Keys  # noqa: PLC0415 - pipes and `serve` need none of it

    keys = Keys()

    @keys.add("c-c")
    def _(event: KeyPressEvent) -> None:
        if event.current_buffer.text:
            event.current_buffer.reset()
        else:
            event.app.exit(exception=EOFError())

    return keys
