"""Windows as processes of their own on one data folder: together, killed, taken over, and on a real terminal."""

from __future__ import annotations

import datetime as dt
import os
import re
import signal
import subprocess
import sys
from pathlib import Path

from bot.messages import console
from bot.store import open_store
from tests.integration.program_process import ECHO, ROOT, Process, started

STAMP = re.compile(r"^\d\d:\d\d  ", re.MULTILINE)
"""The beginning of a message."""
NOON = dt.datetime(2026, 9, 5, 12, 0, tzinfo=dt.UTC)


def chat(data: Path, name: str) -> tuple[str, ...]:
    """Return the words that open somebody's window."""
    return ("chat", "--data", str(data), "--zone", "UTC", "--as", name)


def engine_of(data: Path, *windows: Process) -> Process:
    """Return the window that is the engine."""
    holder = int((data / "slowbell.lock").read_text("ascii"))
    return next(window for window in windows if window.process.pid == holder)


def test_either_window_may_be_killed_and_the_other_carries_on(tmp_path: Path) -> None:
    """The engine is killed: the other window answers soon after. The one that came back is killed: nothing changes."""
    with started(*chat(tmp_path, "Ines")) as ines:
        ines.sees("welcome")
        with started(*chat(tmp_path, "Tomas")) as tomas:
            tomas.sees("welcome")
            assert engine_of(tmp_path, ines, tomas) is ines
            tomas.type("178\n")
            tomas.sees("heard 178")
            ines.kill()
            tomas.type("182\n")
            tomas.sees("heard 182")
            assert engine_of(tmp_path, ines, tomas) is tomas
            with started(*chat(tmp_path, "Ines")) as again:
                again.sees("welcome")
                again.type("how long\n")
                again.sees("heard how long")
                again.kill()
            tomas.type("done\n")
            tomas.sees("heard done")
            assert "heard how long" not in tomas.told
    store = open_store(tmp_path)
    assert store.inbox_waiting() == ()
    store.close()


def test_what_is_typed_as_the_engine_dies_is_not_lost(tmp_path: Path) -> None:
    """Lines typed while nobody is the engine are answered by the next one, each once, in order."""
    with started(*chat(tmp_path, "Ines")) as ines, started(*chat(tmp_path, "Wren")) as wren:
        ines.sees("welcome")
        wren.sees("welcome")
        first, second = (ines, wren) if engine_of(tmp_path, ines, wren) is ines else (wren, ines)
        for number in range(5):
            second.type(f"{170 + number}\n")
        first.kill()
        for number in range(5, 10):
            second.type(f"{170 + number}\n")
        second.sees("heard 179")
        heard = re.findall(r"heard (\d+)", second.told)
    assert heard == [str(170 + number) for number in range(10)]


def test_quit_and_come_back(tmp_path: Path) -> None:
    """Leaving says one sentence and exit code 0; the next window shows nothing twice and answers what waits."""
    with started(*chat(tmp_path, "Ines")) as ines:
        ines.sees("welcome")
        ines.type("quit\n")
        assert ines.ends() == 0
        assert " ".join(ines.told.splitlines()[2:]) == console.left()
    with started(*chat(tmp_path, "ines")) as ines:
        ines.type("178\n")
        ines.sees("heard 178")
        assert ines.told.count("welcome") == 1


def test_a_polite_signal_is_a_polite_end(tmp_path: Path) -> None:
    """SIGTERM and SIGINT leave as `quit` does."""
    for number in (signal.SIGTERM, signal.SIGINT):
        with started(*chat(tmp_path, "Ines")) as ines:
            ines.sees("welcome")
            assert ines.ends(number) == 0
            assert "You have left" in ines.told
            assert "Traceback" not in ines.told


def test_a_script_gets_its_answers(tmp_path: Path) -> None:
    """Lines from a pipe that ends are all answered before the window closes."""
    ran = subprocess.run(
        [sys.executable, "-m", ECHO, *chat(tmp_path, "Ines")],
        input="178\nhow long\n",
        capture_output=True,
        text=True,
        cwd=ROOT,
        check=True,
        timeout=30,
    )
    assert re.findall(r"heard (.*)", ran.stdout) == ["178", "how long"]
    assert ran.stderr == ""


def test_a_half_typed_line_survives_a_message(tmp_path: Path) -> None:
    """On a terminal, a message prints above the line being typed, which stays and can be finished."""
    with started(*chat(tmp_path, "Ines"), terminal=True) as ines:
        ines.sees("welcome")
        ines.sees("> ")
        ines.type("17")
        ines.sees("17")
        store = open_store(tmp_path)
        store.show(chat="ines", outbox_key="k", text="Time to spritz.", choices=(), at=NOON)
        store.close()
        ines.sees("Time to spritz.")
        ines.type("8\r")
        ines.sees("heard 178")
        ines.type("quit\r")
        assert ines.ends() == 0
    assert "> 17" in ines.told.rpartition("Time to spritz.")[2]


def test_a_terminal_is_given_back_as_it_was(tmp_path: Path) -> None:
    """A signal in the middle of typing ends in order: the terminal's special modes are switched off again."""
    with started(*chat(tmp_path, "Ines"), terminal=True) as ines:
        ines.sees("welcome")
        ines.type("17")
        ines.sees("17")
        assert ines.ends(signal.SIGTERM) == 0
        assert ines.told.count("\x1b[?2004h") == ines.told.count("\x1b[?2004l")
        assert ines.told.rstrip().endswith("come back.")


def test_a_reader_that_has_enough_is_no_fault(tmp_path: Path) -> None:
    """When whatever reads the window's output is gone, the window leaves quietly; what it could not show waits."""
    reading, writing = os.pipe()
    words = [sys.executable, "-m", ECHO, *chat(tmp_path, "Ines")]
    with subprocess.Popen(words, cwd=ROOT, stdin=subprocess.PIPE, stdout=writing, stderr=subprocess.PIPE) as process:
        os.close(writing)
        os.close(reading)
        assert process.stderr is not None
        assert process.wait(20) == 0
        assert process.stderr.read() == b""
    store = open_store(tmp_path)
    assert [row.shown for row in store.screen("ines")] == [False]
    store.close()


def test_opening_a_window_imports_nothing_slow(tmp_path: Path) -> None:
    """Before the window is open, neither the arrays of the forecast nor the messenger is imported."""
    code = "import sys, bot.__main__, bot.bootstrap.chatting; print(*sorted(sys.modules))"
    ran = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, cwd=ROOT, check=True)
    assert not {"numpy", "telegram", "httpx", "bot.application"} & set(ran.stdout.split())


def test_the_real_program_carries_on_as_well(tmp_path: Path) -> None:
    """The same with the real kitchen: it greets by name, is killed, and the other window is answered."""
    with started(*chat(tmp_path, "Ines"), module="bot") as ines, started(*chat(tmp_path, "Wren"), module="bot") as wren:
        ines.sees("Ines")
        wren.sees("Wren")
        first, second = (ines, wren) if engine_of(tmp_path, ines, wren) is ines else (wren, ines)
        first.kill()
        before = len(STAMP.findall(second.told))
        second.type("how long\n")
        second.matches(STAMP, times=before + 1)
        assert second.ends(signal.SIGTERM) == 0
        assert "Traceback" not in second.told
