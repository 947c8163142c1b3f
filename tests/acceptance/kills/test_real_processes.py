"""The program itself, as people start it, killed at random moments while messages flow: nothing said is lost.

Moments are drawn by a fixed seed out of what can be waited for: how many lines were typed, how many calls were made.
"""

from __future__ import annotations

import contextlib
import datetime as dt
import random  # noqa: TID251 - fixed seeds choose the moments of death
import re
import sqlite3
from collections import Counter, deque
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.acceptance.kills.life import Order
from tests.acceptance.kills.nursery import Nursery
from tests.acceptance.kills.verdict import MARK
from tests.acceptance.kills.written import Written, read
from tests.fakes.botapi import FakeTelegram
from tests.integration.program_process import Process

SEEDS = [1, 2]
KILLS = 3
MOST_CALLS = 9
CODE = re.compile(r"start=([0-9a-f]{16})")
RIBS = "4 short ribs on since {on:%H:%M}, 165 now, pit 262, eating at {eat:%H:%M}"
READINGS = tuple(f"pit {value}" for value in range(252, 260))
"""What is said, one after the other, each value once."""
CREW = ("Ines", "Tomas")


def now() -> dt.datetime:
    """Return the present instant: the processes under test live by the real clock."""
    return dt.datetime.now(dt.UTC)  # noqa: TID251 - the processes under test live by it


def ribs() -> str:
    """Return the words that begin a cook three hours ago."""
    return RIBS.format(on=now() - dt.timedelta(hours=3), eat=now() + dt.timedelta(hours=6))


def all_worked_on(written: Written) -> None:
    """Assert that each reading stands in the inbox once, is done, and is in the log once."""
    assert written.sound
    assert {(row["state"], row["result"]) for row in written.tables["inbox"]} == {("done", "done")}
    ids = Counter(fact["id"] for fact in written.tables["fact"])
    assert max(ids.values()) == 1
    for text in READINGS:
        (row,) = [row for row in written.tables["inbox"] if f'"{text}"' in row["raw"]]
        told = [fact for fact in written.rows("fact", kind="reading") if fact["id"].startswith(f"i{row['id']}.")]
        assert len(told) == 1, (text, told)


# --- the terminal -------------------------------------------------------------------------------------------------


class Windows:
    """Two windows on one folder. Whoever is killed opens theirs again and types what had not been stored."""

    def __init__(self, data: Path) -> None:
        self.data = data
        self.lines = deque(READINGS)
        self._typed: dict[str, Process] = {}
        self._open: dict[str, Process] = {}

    def of(self, name: str) -> Process:
        """Return somebody's window, opened at need."""
        if name not in self._open:
            words = ("chat", "--data", str(self.data), "--zone", "UTC", "--as", name)
            self._open[name] = Process(*words, module="bot")
        return self._open[name]

    def type_some(self, name: str, most: int, *, patiently: bool) -> None:
        """Type the next lines, at most so many; `patiently` waits for an answer to one of them."""
        window = self.of(name)
        answers = window.told.count("Next:")
        lines = [self.lines.popleft() for _ in range(min(most, len(self.lines)))]
        for line in lines:
            self._typed[line] = window
            window.type(f"{line}\n")
        if lines and patiently:
            window.sees("Next:", times=answers + 1)

    def kill(self, name: str) -> None:
        """Kill somebody's window; what it had not stored was never accepted, and is typed again."""
        window = self._open.pop(name)
        window.kill()
        window.close()
        database = sqlite3.connect(self.data / "slowbell.db")
        stored = "".join(raw for (raw,) in database.execute("SELECT raw FROM inbox"))
        database.close()
        self.lines.extend(line for line, where in self._typed.items() if where is window and f'"{line}"' not in stored)

    def leave(self, name: str) -> int:
        """End somebody's input, which ends their window once all is answered; return its exit code."""
        window = self.of(name)
        assert window.process.stdin is not None
        window.process.stdin.close()
        return window.ends()

    def close(self) -> None:
        """Kill what is left."""
        for window in self._open.values():
            window.close()


@pytest.fixture
def windows(folder: Path) -> Iterator[Windows]:
    """Two windows and a cook that is under way."""
    made = Windows(folder)
    for name in CREW:
        made.of(name).sees("What is cooking?")
    made.of("Ines").type(f"{ribs()}\n")
    for name in CREW:
        made.of(name).sees("Next:")
    yield made
    made.close()


@pytest.mark.parametrize("seed", SEEDS)
def test_two_windows_killed_while_both_type(windows: Windows, seed: int) -> None:
    """Whoever is killed, engine or not: each line is worked on once, each message shown once on each screen."""
    draw = random.Random(seed)  # noqa: S311 - which moments are tried, nothing secret
    kills = 0
    while windows.lines or kills < KILLS:
        windows.type_some(draw.choice(CREW), draw.randint(1, 3), patiently=draw.random() < 1 / 2)
        if kills < KILLS:
            victim = draw.choice(CREW)
            windows.of(victim)
            windows.kill(victim)
            kills += 1
    assert [windows.leave(name) for name in CREW] == [0, 0]
    written = read(windows.data)
    all_worked_on(written)
    assert {row["state"] for row in written.tables["outbox"]} == {"sent"}
    shown = Counter(row["outbox_key"] for row in written.tables["screen"])
    assert shown == Counter(row["key"] for row in written.tables["outbox"])
    assert all(row["shown_at"] for row in written.tables["screen"])


# --- the messenger ------------------------------------------------------------------------------------------------


def serving(data: Path, fake: FakeTelegram) -> Process:
    """Start `serve` on a folder."""
    words = ("serve", "--data", str(data), "--zone", "UTC")
    return Process(*words, module="bot", SLOWBELL_TOKEN=fake.token, SLOWBELL_BOT_API=fake.base_url)


def ways_through(fake: FakeTelegram, data: Path, draw: random.Random) -> int:
    """Say everything while `serve` is killed and started again; return how often it was killed."""
    ines = fake.private("Ines")
    killed_after = set(draw.sample(READINGS, KILLS))
    serve = serving(data, fake)
    try:
        told = serve.sees("to become its owner")
        code = CODE.search(told)
        assert code
        fake.say(ines, "Ines", f"/start {code.group(1)}")
        fake.say(ines, "Ines", ribs())
        for text in READINGS:
            fake.say(ines, "Ines", text)
            if text in killed_after:
                with contextlib.suppress(TimeoutError):  # fewer may come: then a second is the moment
                    fake.wait("calls", len(fake.calls()) + draw.randint(1, MOST_CALLS), timeout_s=1)
                serve.kill()
                serve.close()
                serve = serving(data, fake)
        fake.wait("confirmed", 0)
    finally:
        serve.close()
    return KILLS + 1


@pytest.mark.parametrize("seed", SEEDS)
def test_serve_killed_while_messages_flow(fake: FakeTelegram, folder: Path, nursery: Nursery, seed: int) -> None:
    """However often it is killed: each message is worked on once, each answer comes, at most one twice for each kill.

    The last kill comes when the server has handed over everything; a start two minutes later finishes the rest.
    """
    data = folder / "data"
    kills = ways_through(fake, data, random.Random(seed))  # noqa: S311 - which moments are tried, nothing secret
    at = (now() + dt.timedelta(minutes=2)).isoformat()
    order = Order(data=str(data), now=at, report=str(folder / "boundaries"), server=fake.base_url)
    assert nursery.live(order.as_json()).code == 0
    written = read(data)
    all_worked_on(written)
    assert {row["state"] for row in written.tables["outbox"]} <= {"sent", "superseded", "dropped"}
    meant = Counter(row["text"].strip() for row in written.rows("outbox", kind="message"))
    boards = {row["text"].strip() for row in written.tables["outbox"] if row["key"].startswith("board:")}
    came = [one for one in fake.messages(fake.private("Ines")) if one.text not in boards]
    repeats = [one for one in came if one.text.startswith(MARK)]
    got = Counter(one.text.removeprefix(MARK).strip() for one in came)
    twice = got - meant
    assert meant - got - Counter(boards) == Counter()
    assert twice.total() <= min(kills, len(repeats))
