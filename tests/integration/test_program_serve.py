"""`serve` as a process, against the strict Bot API server, alone and beside a chat window."""

from __future__ import annotations

import datetime as dt
import json
import re
import signal
import sqlite3
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from bot.conversation.parsing.commands import command
from bot.messages import console
from bot.messages.menus import Place, menu
from bot.store import open_store
from tests.fakes.botapi import FakeTelegram
from tests.fakes.botapi.fixtures import fake, telegram_server
from tests.integration.program_process import ECHO, ROOT, Process, started

NOON = dt.datetime(2026, 9, 5, 12, 0, tzinfo=dt.UTC)
__all__ = ["fake", "telegram_server"]


@contextmanager
def serving(data: Path, fake: FakeTelegram) -> Iterator[Process]:
    """Serve a data folder for the length of a block."""
    words = ("serve", "--data", str(data), "--zone", "UTC")
    with started(*words, SLOWBELL_TOKEN=fake.token, SLOWBELL_BOT_API=fake.base_url) as process:
        yield process


@contextmanager
def chatting(data: Path, name: str) -> Iterator[Process]:
    """Open somebody's window for the length of a block."""
    with started("chat", "--data", str(data), "--zone", "UTC", "--as", name) as process:
        yield process


def answers(fake: FakeTelegram, chat: int) -> list[str]:
    """Return what the bot said in a chat."""
    return [message.text for message in fake.messages(chat) if message.by_bot]


def test_it_listens_answers_and_stops(tmp_path: Path, fake: FakeTelegram) -> None:
    """What is said to the bot is answered; a signal ends it with exit code 0; the token is shown nowhere."""
    ines = fake.private("Ines")
    with serving(tmp_path, fake) as serve:
        serve.sees("Listening as @")
        assert [one["command"] for one in fake.commands()] == [name for name, _ in menu(Place.ANYWHERE)]
        fake.say(ines, "Ines", "178")
        fake.wait("messages", 1, chat=ines)
        assert answers(fake, ines) == ["heard 178"]
        assert serve.ends(signal.SIGTERM) == 0
        assert serve.told.count("\n") == 3, serve.told
        assert serve.told.endswith(
            "Stopped; everything is kept, and what falls due meanwhile is told after the next start.\n"
        )
    written = serve.told + "".join(path.read_text("utf-8") for path in tmp_path.glob("*.log"))
    assert fake.token not in written
    assert fake.token.partition(":")[2] not in written


def test_the_first_start_shows_a_code_for_the_owner(tmp_path: Path, fake: FakeTelegram) -> None:
    """While nobody owns the bot the console shows a code and a link; the code is kept only as a digest."""
    with serving(tmp_path, fake) as serve:
        told = serve.sees("to become its owner")
        found = re.search(r"https://t\.me/\w+\?start=([0-9a-f]{16}) ", told)
        assert found
        code = found.group(1)
        assert told.count(code) == 2
    store = open_store(tmp_path)
    now = store.last_received_at("terminal")
    assert now is None
    store.close()
    assert code.encode() not in (tmp_path / "slowbell.db").read_bytes()


def test_a_second_serve_is_refused(tmp_path: Path, fake: FakeTelegram) -> None:
    """Two on one data folder would take each other's updates: the second says so and ends; the first goes on."""
    ines = fake.private("Ines")
    with serving(tmp_path, fake) as first:
        first.sees("Listening as @")
        with serving(tmp_path, fake) as second:
            assert second.ends() == 1
            assert "already" in second.told
            assert second.told.count("\n") == 1
        fake.say(ines, "Ines", "178")
        fake.wait("messages", 1, chat=ines)


def test_a_chat_window_as_the_engine_does_not_silence_the_bot(tmp_path: Path, fake: FakeTelegram) -> None:
    """With a window deciding, `serve` still takes in and sends; when the window is killed, `serve` decides."""
    ines = fake.private("Ines")
    with chatting(tmp_path, "Tomas") as tomas:
        tomas.sees("welcome")
        with serving(tmp_path, fake) as serve:
            serve.sees("Listening as @")
            assert int((tmp_path / "slowbell.lock").read_text()) == tomas.process.pid
            fake.say(ines, "Ines", "178")
            fake.wait("messages", 1, chat=ines)
            tomas.kill()
            fake.say(ines, "Ines", "182")
            fake.wait("messages", 2, chat=ines)
            assert answers(fake, ines) == ["heard 178", "heard 182"]


def test_messages_wait_until_somebody_serves(tmp_path: Path, fake: FakeTelegram) -> None:
    """A window alone decides on what the bot had heard but cannot send it; the next `serve` does, once."""
    ines = fake.private("Ines")
    with serving(tmp_path, fake) as serve:
        serve.sees("Listening as @")
        fake.say(ines, "Ines", "178")
        fake.wait("messages", 1, chat=ines)
        assert serve.ends(signal.SIGTERM) == 0
    heard_before(tmp_path, "182")
    with chatting(tmp_path, "Tomas") as tomas:
        tomas.sees("welcome")
        assert answers(fake, ines) == ["heard 178"]
        with serving(tmp_path, fake):
            fake.wait("messages", 2, chat=ines)
    assert answers(fake, ines) == ["heard 178", "heard 182"]


def test_a_kill_in_the_middle_of_sending_repeats_at_most_once(tmp_path: Path, fake: FakeTelegram) -> None:
    """Killed between the messenger taking a message and our noting it: the next `serve` repeats it at once, marked."""
    ines = fake.private("Ines")
    with serving(tmp_path, fake) as serve:
        serve.sees("Listening as @")
        fake.inject("hold", method="sendMessage", executed=True)
        fake.say(ines, "Ines", "178")
        fake.wait("messages", 1, chat=ines)
        serve.kill()
        fake.calm()
        fake.release()
    with serving(tmp_path, fake) as serve:
        fake.wait("messages", 2, chat=ines)
        fake.say(ines, "Ines", "182")
        fake.wait("messages", 3, chat=ines)
    first, repeat, fresh = answers(fake, ines)
    assert (first, fresh) == ("heard 178", "heard 182")
    assert repeat == f"{console.possible_repeat()}\n{first}"


def heard_before(data: Path, text: str) -> None:
    """Put a second update in the inbox, as a `serve` does that is killed right after: the first with another text."""
    with sqlite3.connect(data / "slowbell.db") as database:
        source, raw = database.execute("SELECT source, raw FROM inbox WHERE source LIKE 'telegram%'").fetchone()
    database.close()
    store = open_store(data)
    store.accept(source=source, key="later", raw=json.loads(raw.replace("178", text)), received_at=NOON)
    store.close()


def test_a_revoked_token_is_said_and_loses_nothing(tmp_path: Path, fake: FakeTelegram) -> None:
    """Revoked while running: one sentence, exit code 1. With a good token again, what waited is sent."""
    ines = fake.private("Ines")
    with serving(tmp_path, fake) as serve:
        serve.sees("Listening as @")
        fake.say(ines, "Ines", "first")
        fake.wait("messages", 1, chat=ines)
        fake.revoke()
        fake.say(ines, "Ines", "second")
        assert serve.ends() == 1
        assert "refuses this token" in serve.told
        assert "Traceback" not in serve.told
    with serving(tmp_path, fake) as serve:
        assert serve.ends() == 1
        assert serve.told.count("\n") == 1
    fake.restore()
    with serving(tmp_path, fake) as serve:
        fake.wait("messages", 2, chat=ines)
        assert answers(fake, ines) == ["heard first", "heard second"]


def test_it_starts_without_a_network_and_listens_when_there_is_one(tmp_path: Path) -> None:
    """A messenger that cannot be reached is told once; when it answers, listening begins."""
    later = FakeTelegram().start()
    later.stop()
    with serving(tmp_path, later) as serve:
        serve.sees("cannot be reached")
        with later:
            ines = later.private("Ines")
            serve.sees("Listening as @")
            later.say(ines, "Ines", "178")
            later.wait("messages", 1, chat=ines)
            assert later.violations() == []
            assert serve.ends(signal.SIGINT) == 0


def test_no_token_needs_no_data(tmp_path: Path) -> None:
    """Without a token nothing is made: one sentence on standard error, exit code 2."""
    ran = subprocess.run(
        [sys.executable, "-m", ECHO, "serve", "--data", str(tmp_path / "data")],
        capture_output=True,
        text=True,
        cwd=ROOT,
        check=False,
        env={"PATH": ""},
    )
    assert (ran.returncode, ran.stdout, ran.stderr.count("\n")) == (2, "", 1)
    assert not (tmp_path / "data").exists()


def test_the_menu_offers_what_is_understood() -> None:
    """Each command of the messenger's menus is one that the reader of texts knows."""
    offered = {name for place in Place for name, _ in menu(place)}
    assert [name for name in sorted(offered) if command(f"/{name}") is None] == []
