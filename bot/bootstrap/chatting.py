"""The command `chat`: a window for one person, and the engine unless another process is it.

It must not import the messenger, nor what computes forecasts: the window opens first.
"""

from __future__ import annotations

import os
import sys

from bot.alarm.system import SystemAlarm
from bot.bootstrap.parts import make_program
from bot.bootstrap.running import run_on_data, stopped_by_signals
from bot.messages import console
from bot.settings import Settings
from bot.store import SqlStore
from bot.transport.terminal.paper import paper
from bot.transport.terminal.window import Window


def chat(settings: Settings) -> int:
    """Open the window and stay until the person leaves; return the exit code."""
    return run_on_data(settings, lambda store: _chat(settings, store))


async def _chat(settings: Settings, store: SqlStore) -> int:
    alarm = SystemAlarm()
    window = Window(
        data=store,
        paper=paper(console.how_to_leave()),
        name=settings.name,
        zone=settings.zone,
        clock=alarm.now,
        language=settings.language,
    )
    program = make_program(settings, store, alarm, say=window.say)
    window.nudge = program.nudge
    with stopped_by_signals(program.stop):
        await program.run(window.run)
    try:
        if window.unstored:
            window.say(console.lines_lost(window.unstored))
        window.say(console.left())
    except OSError:  # the terminal is closed: nobody is there to be told
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
    return 0
