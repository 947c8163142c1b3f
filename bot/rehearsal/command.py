"""The command `rehearse`: an empty folder, one performance, a summary.

It must never play on a folder that holds a database already.
"""

from __future__ import annotations

import datetime as dt
import os
import sys
import tempfile
import threading
from collections.abc import Callable
from pathlib import Path

from bot.alarm.system import utc_now
from bot.messages import narration
from bot.rehearsal import scene, tally
from bot.rehearsal.engine import catalogue
from bot.rehearsal.narrator import Narrator
from bot.rehearsal.play import Play
from bot.rehearsal.process import ProgramDied
from bot.rehearsal.record import Record
from bot.store.opening import DATABASE_NAME

DONE, FAILED, INTERRUPTED = 0, 1, 130


def main(
    data: str | Path | None = None,
    *,
    pace_s: float = 0.0,
    clock: Callable[[], dt.datetime] = utc_now,
) -> int:
    """Play the rehearsal and print it; return 0, 1 when something went wrong, 130 when it was broken off.

    `data` is a folder to keep the database in, otherwise it is thrown away; `pace_s` is a pause after each line [s].
    """
    began_at = clock()
    try:
        if data is not None:
            return _in_folder(Path(data), pace_s, began_at, clock)
        with tempfile.TemporaryDirectory(prefix="slowbell-rehearsal-") as folder:
            return _in_folder(Path(folder), pace_s, began_at, clock)
    except KeyboardInterrupt:
        print(f"\n{narration.stopped()}")
        return INTERRUPTED
    except BrokenPipeError:  # nobody reads any more (`| head`); Python would complain once more at its own end
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return DONE
    except ProgramDied as error:
        print(narration.died(str(error.log)), file=sys.stderr)
        return FAILED


def perform(data_dir: Path, put: Callable[[str], None]) -> Record:
    """Play once on an empty folder, telling it line by line; return the record."""
    narrator = Narrator(put, zone=scene.ZONE, catalogue=catalogue())
    play = Play(data_dir, narrator)
    narrator.log = play.facts
    try:
        narrator.open()
        record = play.perform()
        narrator.summary(tally.sentences(record))
    finally:
        play.close()
    return record


def _in_folder(data_dir: Path, pace_s: float, began_at: dt.datetime, clock: Callable[[], dt.datetime]) -> int:
    if (data_dir / DATABASE_NAME).exists():
        print(narration.folder_in_use(str(data_dir)), file=sys.stderr)
        return FAILED
    pause = threading.Event()

    def put(line: str) -> None:
        print(line, flush=True)  # read as it comes, also through a pipe
        if pace_s > 0:
            pause.wait(pace_s)

    record = perform(data_dir, put)
    put(f"- {narration.wall_time((clock() - began_at).total_seconds())}")
    return DONE if tally.nothing_lost(record) else FAILED
