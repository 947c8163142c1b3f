"""A group over the Bot API: `serve` as a process and the strict server of the fakes, from being added to an outage.

What the messenger does to a program is played here: privacy mode, rights, a group that becomes a supergroup, a photo, a
program that was away.
"""

from __future__ import annotations

import datetime as dt
import re
import signal
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from bot.application.backlog import MOST_LINES
from bot.bootstrap.parts import PHOTOS
from tests.acceptance.test_telegram_cook import sees
from tests.contract.telegram.pictures import jpeg
from tests.fakes.botapi import FakeTelegram
from tests.fakes.botapi.fixtures import fake, telegram_server
from tests.integration.program_process import Process, started

__all__ = ["fake", "telegram_server"]

NAME = "slowbell_test_bot"
MINUTE = dt.timedelta(minutes=1)


@contextmanager
def serving(server: FakeTelegram, folder: Path) -> Iterator[Process]:
    """Serve on a folder."""
    words = ("serve", "--data", str(folder), "--zone", "UTC")
    with started(*words, module="bot", SLOWBELL_TOKEN=server.token, SLOWBELL_BOT_API=server.base_url) as serve:
        yield serve


def owned(server: FakeTelegram, serve: Process, ines: int) -> None:
    """Ines becomes the owner."""
    code = re.search(r"\?start=([0-9a-f]{16}) ", serve.sees("to become its owner"))
    assert code
    serve.sees("Listening as @")
    server.say(ines, "Ines", f"/start {code.group(1)}")
    sees(server, ines, "You are the owner here now")


def ago(minutes: float) -> dt.datetime:
    """Return an instant so many minutes before now."""
    return dt.datetime.now(dt.UTC) - minutes * MINUTE  # noqa: TID251 - people have clocks of their own


def test_a_group_with_privacy_mode(tmp_path: Path, fake: FakeTelegram) -> None:
    """Told what to do once; commands and replies are heard, those for other bots are not; with rights the board is
    pinned; as a supergroup it goes on with a new board at the top.
    """
    ines = fake.private("Ines")
    with serving(fake, tmp_path) as serve:
        owned(fake, serve, ines)
        club = fake.group("Harrow Lane", by="Ines")
        hello = sees(fake, club, "I hear only commands and replies here")
        fake.say(club, "Ines", "7 racks of short ribs, when ready, pit 275", reply=hello.message_id)
        plan = sees(fake, club, "Dinner when ready: plate about")
        fake.wait("calls", 1, method="pinChatMessage")
        assert [one for one in fake.messages(club) if one.pinned] == []

        fake.say(club, "Ines", "/howlong@other_bot")
        fake.say(club, "Ines", f"/howlong@{NAME}")
        fake.say(club, "Wren", "nobody hears this")
        answer = sees(fake, club, "plate about", after=plan.message_id)
        assert answer.by_bot
        fake.wait("confirmed", 0)

        fake.promote(club, by="Ines")
        fake.wait("calls", 2, method="pinChatMessage")
        fake.say(club, "Ines", "how long")
        sees(fake, club, "plate about", after=answer.message_id)
        assert [one.text.split("\n")[0] for one in fake.messages(club) if one.pinned]

        new = fake.migrate(club, by="Ines")
        sees(fake, new, "plate about")
        fake.wait("calls", 3, method="pinChatMessage")
        fake.say(new, "Ines", "how long")
        sees(fake, new, "plate about")
        (pinned,) = [one for one in fake.messages(new) if one.pinned]
        assert pinned.silent
        assert serve.ends(signal.SIGTERM) == 0


def test_privacy_switched_off_while_it_runs(tmp_path: Path, fake: FakeTelegram) -> None:
    """The owner switches privacy mode off and adds the bot to a group: it greets as one that hears everything."""
    ines = fake.private("Ines")
    with serving(fake, tmp_path) as serve:
        owned(fake, serve, ines)
        fake.see_all()
        club = fake.group("Harrow Lane", by="Ines")
        assert "only commands" not in sees(fake, club, "Hello").text
        assert serve.ends(signal.SIGTERM) == 0


def test_an_outage_ends_in_one_summary(tmp_path: Path, fake: FakeTelegram) -> None:
    """What people wrote while the program was away is told in one message of at most eight lines in each room; a photo
    that came with a number is kept whole.
    """
    ines = fake.private("Ines")
    with serving(fake, tmp_path) as serve:
        owned(fake, serve, ines)
        fake.say(ines, "Ines", "7 racks of short ribs, when ready, pit 275")
        sees(fake, ines, "Light the fire")
        fake.say(ines, "Ines", "lit")
        sees(fake, ines, "Lit, ")
        assert serve.ends(signal.SIGTERM) == 0
    before = fake.messages(ines)[-1].message_id
    for number, text in enumerate(("pit 240", "how long", "pit 262", "no ban", "pit 270", "plan", "what next")):
        fake.say(ines, "Ines", text, at=ago(30 - number))
    fake.photo(ines, "Ines", jpeg(), caption="pit 271", at=ago(20))
    with serving(fake, tmp_path) as serve:
        told = sees(fake, ines, "messages came while I was away", after=before)
        assert told.text.startswith("8 messages")
        assert len(told.text.split("\n")) <= MOST_LINES
        fake.say(ines, "Ines", "how long")
        sees(fake, ines, "plate about", after=told.message_id)
        fake.wait("calls", 1, method="getFile")
        assert serve.ends(signal.SIGTERM) == 0
    answers = [one for one in fake.messages(ines) if before < one.message_id < told.message_id]
    assert [one.text for one in answers if "away" not in one.text and "Next" in one.text and one.edits == 0] == []
    (kept,) = (tmp_path / PHOTOS).iterdir()
    assert kept.read_bytes() == jpeg()
