"""What a window is printed on."""

from __future__ import annotations

import asyncio
import os

import pytest
from prompt_toolkit.application import create_app_session
from prompt_toolkit.input import PipeInput, create_pipe_input
from prompt_toolkit.output import DummyOutput

from bot.transport.terminal.paper import PlainPaper, PromptPaper, complain, paper, say

PATIENCE_S = 5.0


@pytest.mark.asyncio
async def test_a_pipe_gives_its_lines_and_then_its_end() -> None:
    """Lines come whole however they arrive; a last one without a line break counts; broken bytes do no harm."""
    reading, writing = os.pipe()
    plain = PlainPaper(reading)
    with plain.opened():
        os.write(writing, b"17")
        await asyncio.sleep(0.01)
        os.write(writing, b"8\nhow \xff long\r\n\nlast")
        os.close(writing)
        lines = [await asyncio.wait_for(plain.read(), PATIENCE_S) for _ in range(6)]
    assert lines == ["178", "how \N{REPLACEMENT CHARACTER} long\r", "", "last", None, None]
    os.close(reading)


def test_without_a_terminal_there_are_plain_lines() -> None:
    """Where input or output is no terminal, nothing is drawn."""
    assert isinstance(paper("hint"), PlainPaper)


def test_sentences_cannot_control_the_console(capsys: pytest.CaptureFixture[str]) -> None:
    """A folder or bot with a nasty name cannot reach the terminal's controls."""
    say("fine \x1b[2J")
    complain("bad \x1b[2J")
    assert capsys.readouterr() == ("fine \n", "bad \n")


async def _keys(keys: PipeInput, text: str, desk: PromptPaper) -> str | None:
    reading = asyncio.create_task(desk.read())
    await asyncio.sleep(0.02)
    keys.send_text(text)
    return await asyncio.wait_for(reading, PATIENCE_S)


@pytest.mark.asyncio
async def test_the_keys_of_a_terminal() -> None:
    """Enter sends; Ctrl-C empties a line that has something in it; Ctrl-C or Ctrl-D on an empty line leaves."""
    with create_pipe_input() as keys, create_app_session(input=keys, output=DummyOutput()):
        desk = PromptPaper("quit leaves")
        assert desk.interactive
        assert await _keys(keys, "178\r", desk) == "178"
        assert await _keys(keys, "wrong\x03right\r", desk) == "right"
        assert await _keys(keys, "\x03", desk) is None
        assert await _keys(keys, "\x04", desk) is None
        desk.put_back("too long")
        assert await _keys(keys, "\x7f\r", desk) == "too lon"
