"""What an update tells about a group, and about the bot itself: what is heard, what is for another bot, gaps."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest

from bot.chat import IncomingKind
from bot.transport.telegram.decode import decode
from bot.transport.telegram.listening import Listening, gap_row
from tests.unit.bot.transport_telegram.updates import (
    BELL,
    INES,
    NOON,
    PRIVATE,
    RECEIVED,
    STAMP,
    SUPPER,
    Json,
    message,
    must_read,
    read,
)

ME = {"slowbell_heard_by": {"username": "Slowbell_Test_Bot", "reads_all": False}}


@pytest.mark.parametrize(
    ("text", "meant"),
    [
        ("/temp@slowbell_test_bot 165", "/temp 165"),
        ("/PLAN@SLOWBELL_TEST_BOT", "/PLAN"),
        ("/temp 165", "/temp 165"),
        ("/temp@other_bot 165", None),
        ("write to /temp@other_bot", "write to /temp@other_bot"),
        ("@other_bot 165", "@other_bot 165"),
    ],
)
def test_commands_of_other_bots_concern_nobody(text: str, meant: str | None) -> None:
    """A command with our name loses the name; one with another's is passed over; the rest stays as typed."""
    incoming = read(message=message(chat=SUPPER, text=text), **ME)
    assert (None if incoming is None else incoming.text) == meant


def test_a_reply_names_the_message_of_ours_that_it_answers() -> None:
    """A reply to the bot says to which message; a reply to a person is none."""
    to_us = must_read(message=message(chat=SUPPER, text="178", reply_to_message=message(**{"from": BELL})))
    to_her = must_read(message=message(chat=SUPPER, text="178", reply_to_message=message(text="and?")))
    assert (to_us.answers, to_her.answers) == (f"telegram:{SUPPER['id']}:41", None)


@pytest.mark.parametrize(
    ("status", "reads_all", "hears_all"),
    [("member", False, False), ("member", True, True), ("administrator", False, True), ("member", None, None)],
)
def test_what_a_group_lets_it_hear(status: str, reads_all: bool | None, hears_all: bool | None) -> None:
    """All of it as an administrator or with privacy mode off; else only commands and replies; else it is not known."""
    change = {
        "chat": SUPPER, "from": INES, "date": STAMP,
        "old_chat_member": {"status": "left"}, "new_chat_member": {"status": status},
    }  # fmt: skip
    mark = {} if reads_all is None else {"slowbell_heard_by": {"username": "x", "reads_all": reads_all}}
    assert must_read(my_chat_member=change, **mark).hears_all is hears_all


@pytest.mark.parametrize(
    ("parts", "hears_all"),
    [
        ({"text": "178"}, True),
        ({"text": "/temp 178"}, None),
        ({"text": "178", "reply_to_message": message(**{"from": BELL})}, None),
        ({"text": "178", "chat": PRIVATE}, None),
    ],
)
def test_a_plain_message_proves_that_all_are_heard(parts: Json, hears_all: bool | None) -> None:
    """With privacy mode on only an administrator is handed a plain message; commands and replies prove nothing."""
    assert must_read(message=message(**{"chat": SUPPER, **parts}), **ME).hears_all is hears_all


def test_the_general_topic_is_the_group_itself() -> None:
    """Topic 1 has no number to answer to."""
    incoming = must_read(message=message(chat=SUPPER, text="178", message_thread_id=1, is_topic_message=True))
    assert incoming.address.thread is None


def test_a_gap_says_from_when_to_when_nobody_listened() -> None:
    """It is put into the inbox by the process that listens, and read like everything else there."""
    key, raw = gap_row(NOON, NOON + dt.timedelta(hours=30))
    incoming = decode(raw, source="telegram:7000001", key=key, received_at=RECEIVED)
    assert incoming is not None
    assert (incoming.kind, incoming.since) == (IncomingKind.GAP, NOON)
    assert incoming.sent_at == NOON + dt.timedelta(hours=30)


def test_when_it_was_last_heard_is_kept_for_the_next_start(tmp_path: Path) -> None:
    """To the minute; where the file is missing or broken nothing is known, and nothing breaks."""
    path = tmp_path / "messenger.heard"
    assert Listening(path).last_at() is None
    listening = Listening(path)
    for seconds in (0, 30, 59):
        listening.heard(NOON + dt.timedelta(seconds=seconds))
    assert Listening(path).last_at() == NOON
    listening.heard(NOON + dt.timedelta(seconds=61))
    assert Listening(path).last_at() == NOON + dt.timedelta(seconds=61)
    path.write_text("soon")
    assert Listening(path).last_at() is None
    Listening(tmp_path / "nowhere" / "x").heard(NOON)
