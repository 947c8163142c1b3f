"""A program that was away, a chat that comes back, a messenger that cannot be reached: one message of eight lines."""

from __future__ import annotations

import dataclasses
import datetime as dt
from collections.abc import Iterator
from pathlib import Path

import pytest

from bot.application.backlog import MOST_LINES
from bot.chat import IncomingKind, OutgoingKind, Sent, TryAgain
from bot.ports import ClaimedRow
from scheduler.facts import Reading
from tests.fakes.kitchen import MINUTE, Heard, PlayedKitchen, chat, on

INES = chat("Ines")
TOMAS = chat("Tomas")


@pytest.fixture
def kitchen(tmp_path: Path) -> Iterator[PlayedKitchen]:
    """A cook of a brisket with the meat on since six, followed by Ines and Tomas in their private chats."""
    played = PlayedKitchen(tmp_path, on("05:00"))
    played.invite("owner-code", "owner")
    played.say("Ines", "/start owner-code", room=INES)
    played.say("Ines", "brisket 6 kg, dinner 18:00, pit 250", room=INES)
    played.mutter("Ines", "lit", room=INES)
    played.until(on("06:00"))
    played.mutter("Ines", "meat on", room=INES)
    played.invite("tomas-code", "watch")
    played.mutter("Tomas", "/start tomas-code", room=TOMAS)
    yield played
    played.close()


def messages(kitchen: PlayedKitchen) -> list[Heard]:
    """Return the messages of the last step, boards and echoes of prompts left out."""
    return [one for one in kitchen.new if one.outgoing.kind is OutgoingKind.MESSAGE and one.sort == "late"]


def test_what_people_wrote_meanwhile_is_worked_on_in_order_and_told_at_once(kitchen: PlayedKitchen) -> None:
    """Each reading is dated by when it was sent; each room gets one summary of at most eight lines, and no answers."""
    kitchen.until(on("08:00"))
    said = [
        kitchen.incoming("Ines", INES, IncomingKind.TEXT, text=text, at=on(clock))
        for clock, text in (
            ("08:20", "pit 250"), ("08:50", "meat 110"), ("09:00", "pit 262"), ("09:20", "meat 118"),
            ("09:40", "pit 255"), ("09:50", "meat 124"), ("10:00", "pit 249"), ("10:10", "note fat cap up"),
        )
    ]  # fmt: skip
    kitchen.now = on("10:20")
    kitchen.does(*said)
    readings = [fact for fact in kitchen.cook.facts if isinstance(fact.body, Reading)]
    assert [fact.happened_at for fact in readings] == [
        on(clock) for clock in ("08:20", "08:50", "09:00", "09:20", "09:40", "09:50", "10:00")
    ]
    told = {one.room: one for one in messages(kitchen)}
    assert len(told[INES].lines) <= MOST_LINES
    assert told[INES].lines[0] == "8 messages came while I was away, sent 08:20 to 10:10:"
    assert told[INES].last.startswith("Next")
    answers = [one for one in kitchen.new if one.sort in {"answer", "echo"}]
    assert [one.text for one in answers] == []
    assert sum(one.room == TOMAS for one in messages(kitchen)) <= 1


def test_a_single_late_message_is_answered_as_ever(kitchen: PlayedKitchen) -> None:
    """One is no backlog."""
    kitchen.until(on("08:30"))
    answer = kitchen.say("Ines", "how long", room=INES, at=on("08:00"))
    assert answer.sort == "answer"


def test_a_summary_has_the_buttons_of_the_newest_question(kitchen: PlayedKitchen) -> None:
    """What is asked last can be answered under the summary."""
    kitchen.until(on("08:00"))
    said = [
        kitchen.incoming("Ines", INES, IncomingKind.TEXT, text=text, at=on("07:30")) for text in ("pit 250", "plan")
    ]
    kitchen.does(*said)
    (told,) = [one for one in messages(kitchen) if one.room == INES]
    assert "All steps" in told.labels
    assert kitchen.tap("Ines", "All steps", room=INES).text


def test_a_chat_that_comes_back_is_told_once_how_things_stand(kitchen: PlayedKitchen) -> None:
    """What waited for it is withdrawn; one message of at most eight lines says what matters now."""
    kitchen.does(kitchen.incoming("Tomas", TOMAS, IncomingKind.LEFT))
    kitchen.until(on("09:00"))
    kitchen.say("Ines", "pit to 260", room=INES)
    kitchen.until(on("10:00"))
    assert [one for one in kitchen.store.waiting(TOMAS) if one.is_message]
    kitchen.does(kitchen.incoming("Tomas", TOMAS, IncomingKind.ARRIVED))
    told = [one for one in kitchen.new if one.room == TOMAS and one.outgoing.kind is OutgoingKind.MESSAGE]
    assert len(told) == 1
    assert "not sent any more" in told[0].lines[0]
    assert len(told[0].lines) <= MOST_LINES
    assert "Next" in told[0].last
    assert kitchen.store.waiting(TOMAS) == ()


def test_messages_that_could_not_be_sent_for_long_are_told_as_one(kitchen: PlayedKitchen) -> None:
    """While the messenger cannot be reached the old ones are withdrawn, and the newest state waits in their place."""
    kitchen.until(on("08:00"))
    kitchen.deliver = lambda: _unreachable(kitchen)  # type: ignore[method-assign]  # the wire is cut
    for _sweep in range(37):
        kitchen.later(5)
        kitchen.kitchen.ring(kitchen.now)
    waiting = [one for one in kitchen.store.waiting(INES) if one.is_message and not one.outgoing.urgent]
    assert len(waiting) <= 2
    told = [one for one in waiting if one.key.startswith("now:")]
    assert told
    assert "could not send" in told[-1].outgoing.text
    assert len(told[-1].outgoing.text.split("\n")) <= MOST_LINES


def _unreachable(kitchen: PlayedKitchen) -> None:
    rows: tuple[ClaimedRow, ...] = kitchen.store.claim(
        owner="hand", now=kitchen.now, transports=["telegram"], limit=50, lease=MINUTE
    )
    for row in rows:
        outcome = TryAgain(wait=MINUTE, why="no network", costs_attempt=False, whole_transport=True)
        if row.outgoing.kind is OutgoingKind.TAP_ANSWER:
            kitchen.store.record(row, Sent(), kitchen.now)
        else:
            kitchen.store.record(row, outcome, kitchen.now)


@pytest.mark.parametrize(("hours", "told"), [(24, 0), (30, 1)])
def test_after_more_than_a_day_of_not_listening_lost_replies_are_named(
    kitchen: PlayedKitchen, hours: int, told: int
) -> None:
    """From when to when, and what may never have come; up to a day nothing is lost, and nothing is said."""
    since = kitchen.now
    kitchen.now = since + dt.timedelta(hours=hours)
    gap = dataclasses.replace(kitchen.incoming("bell", INES, IncomingKind.GAP), since=since)
    kitchen.does(gap)
    found = [one for one in kitchen.new if one.room == INES and one.sort == "lost"]
    assert len(found) == told
    for one in found:
        assert "from Sat 06:00 to 12:00" in one.text
        assert "before Sat 12:00" in one.text
