"""A cook over the Bot API: `serve` as a process, the strict server of the fakes, two people, from code to echo."""

from __future__ import annotations

import re
import signal
from pathlib import Path

from tests.fakes.botapi import FakeTelegram
from tests.fakes.botapi.fixtures import fake, telegram_server
from tests.fakes.botapi.seen import Seen
from tests.integration.program_process import started

__all__ = ["fake", "telegram_server"]


def sees(server: FakeTelegram, chat: int, words: str, *, after: int = 0) -> Seen:
    """Return the newest message of the bot with these words in a chat, later than a message id; wait for it."""
    while True:
        messages = server.messages(chat)
        found = [one for one in messages if words in one.text and one.message_id > after]
        if found:
            return found[-1]
        server.wait("messages", len(messages) + 1, chat=chat)


def changed(server: FakeTelegram, message: Seen, words: str) -> Seen:
    """Return a message of the bot once it was changed so that it holds these words; wait for it."""
    edits = 0
    while True:
        now = next(one for one in server.messages(message.chat) if one.message_id == message.message_id)
        if words in now.text:
            return now
        edits += 1
        server.wait("calls", edits, method="editMessageText")


def papers(server: FakeTelegram, ines: int) -> None:
    """Ines asks for the plan on paper and in her calendar; both come as files."""
    server.say(ines, "Ines", "page")
    page = sees(server, ines, "The plan on one page, no. 1.")
    assert str(page.file).endswith("-page-1.pdf")
    server.say(ines, "Ines", "/calendar")
    calendar = sees(server, ines, "Phones may stay silent", after=page.message_id)
    assert str(calendar.file).endswith("-calendar-1.ics")


def test_an_evening_on_the_messenger(tmp_path: Path, fake: FakeTelegram) -> None:
    """Owner by code, a plan, a prompt at once, a tap, an edit, the plan on paper, a second person by link who sees the
    echo, a chat that blocks the bot and comes back; no call breaks the contract (see the fixture), and the token is
    nowhere.
    """
    ines = fake.private("Ines")
    words = ("serve", "--data", str(tmp_path), "--zone", "UTC")
    with started(*words, module="bot", SLOWBELL_TOKEN=fake.token, SLOWBELL_BOT_API=fake.base_url) as serve:
        code = re.search(r"\?start=([0-9a-f]{16}) ", serve.sees("to become its owner"))
        assert code
        serve.sees("Listening as @")

        fake.say(ines, "Ines", f"/start {code.group(1)}")
        hello = sees(fake, ines, "You are the owner here now")
        assert "Beef short ribs" in hello.labels

        fake.say(ines, "Ines", "7 racks of short ribs, when ready, pit 275")
        plan = sees(fake, ines, "Dinner when ready: plate about", after=hello.message_id)
        assert plan.labels[0] == "All steps"  # other plans may stand beside it
        asked = sees(fake, ines, "Light the fire", after=plan.message_id)
        assert "carbon monoxide" in asked.text
        assert "Next: " in asked.text.split("\n")[-1]

        tap = fake.tap(asked, "Lit")
        lit = changed(fake, asked, "Ines: Lit, ")
        assert "Lit" not in lit.labels
        assert fake.answered(tap)

        number = fake.say(ines, "Ines", "pit 240")
        told = sees(fake, ines, "Pit 240 F", after=lit.message_id)
        fake.edit(ines, number, "pit 245")
        sees(fake, ines, "Changed: pit 245 F", after=told.message_id)

        papers(fake, ines)

        fake.say(ines, "Ines", "invite")
        link = re.search(r"\?start=(\S+)", sees(fake, ines, "For one person").text)
        assert link
        tomas = fake.private("Tomas")
        fake.say(tomas, "Tomas", "how long")
        fake.say(tomas, "Tomas", f"/start {link.group(1)}")
        sees(fake, tomas, "Hello Tomas. You are in.")
        assert sees(fake, tomas, "7 racks of beef short ribs, pit 275 F").silent
        fake.say(ines, "Ines", "pit to 250")
        echo = sees(fake, tomas, "Ines: Pit to 250 F from now.")
        assert echo.silent

        before = fake.messages(tomas)
        fake.block(tomas, by="Tomas")
        fake.say(ines, "Ines", "no ban")
        sees(fake, ines, "No ban, calm enough, ")
        fake.wait("confirmed", 0)
        assert [one.message_id for one in fake.messages(tomas)] == [one.message_id for one in before]
        fake.unblock(tomas, by="Tomas")
        sees(fake, tomas, "Next: ", after=echo.message_id)
        fake.say(ines, "Ines", "pit 250")
        sees(fake, tomas, "Ines: Pit 250 F", after=echo.message_id)

        assert serve.ends(signal.SIGTERM) == 0
    secret = fake.token.partition(":")[2]
    assert secret not in serve.told
    assert [path.name for path in tmp_path.rglob("*") if path.is_file() and secret.encode() in path.read_bytes()] == []


def test_a_helper_says_it_was_thrown_away_in_the_group(tmp_path: Path, fake: FakeTelegram) -> None:
    """Over the Bot API, in a group: the helper's word brings one button to the group; the owner's tap records it."""
    ines, words = fake.private("Ines"), ("serve", "--data", str(tmp_path), "--zone", "UTC")
    with started(*words, module="bot", SLOWBELL_TOKEN=fake.token, SLOWBELL_BOT_API=fake.base_url) as serve:
        code = re.search(r"\?start=([0-9a-f]{16}) ", serve.sees("to become its owner"))
        assert code
        serve.sees("Listening as @")
        fake.say(ines, "Ines", f"/start {code.group(1)}")
        sees(fake, ines, "You are the owner here now")
        fake.see_all()
        club = fake.group("Harrow Lane", by="Ines")
        sees(fake, club, "Hello")
        fake.say(club, "Ines", "7 racks of short ribs, when ready, pit 275")
        sees(fake, club, "Dinner when ready: plate about")
        fake.say(club, "Wren", "threw it out")
        asked = sees(fake, club, "Wren says that the meat was thrown away.")
        assert asked.labels == ("Thrown away",)
        assert not asked.silent
        tap = fake.tap(asked, "Thrown away", user="Ines")
        sees(fake, club, "Thrown away, nobody eats it", after=asked.message_id)
        assert fake.answered(tap)
        assert serve.ends(signal.SIGTERM) == 0
