"""The courier, on a real database, with a way out that does as it is told."""

from __future__ import annotations

import asyncio
import datetime as dt
from collections.abc import Iterator
from pathlib import Path

import pytest

from bot.chat import (
    Address,
    Document,
    Locked,
    Outcome,
    Outgoing,
    OutgoingKind,
    Rejected,
    Sent,
    TryAgain,
    Unknown,
)
from bot.delivery.courier import Courier
from bot.delivery.pace import BOT_API_PACE
from bot.ports import Apply, ClaimedRow, OutboxWrite
from bot.store import SqlStore, open_store
from bot.store.engine import sqlite_engine
from bot.store.errors import DiskFull
from bot.store.opening import DATABASE_NAME

NOON = dt.datetime(2026, 9, 5, 12, 0, tzinfo=dt.UTC)
SECOND = dt.timedelta(seconds=1)


class Wire:
    """A way out: notes what was sent, and answers each row with the next outcome it was given, else with sent."""

    def __init__(self, name: str = "telegram") -> None:
        self.name = name
        self.sent: list[str] = []
        self.repeats: list[str] = []
        self.outcomes: list[Outcome | Exception] = []

    async def send(self, row: ClaimedRow) -> Outcome:
        await asyncio.sleep(0)
        self.sent.append(row.outgoing.text)
        if row.outgoing.possible_repeat:
            self.repeats.append(row.outgoing.text)
        outcome = self.outcomes.pop(0) if self.outcomes else Sent(ref=str(row.id))
        if isinstance(outcome, Exception):
            raise outcome
        return outcome


@pytest.fixture
def store(tmp_path: Path) -> Iterator[SqlStore]:
    """Give a fresh database."""
    opened = open_store(tmp_path)
    yield opened
    opened.close()


def put(store: SqlStore, *texts: str, chat: str = "41", kind: OutgoingKind = OutgoingKind.MESSAGE) -> None:
    """Store messages for a chat."""
    address = Address(transport="telegram", chat=chat)
    for text in texts:
        outgoing = Outgoing(key=f"{chat}:{text}", address=address, text=text, kind=kind)
        assert store.apply(Apply(now=NOON, outbox=(OutboxWrite(outgoing=outgoing),)))


def paced(store: SqlStore, wire: Wire) -> Courier:
    """Return a courier that keeps the messenger's pace."""
    return Courier(store, {wire.name: wire}, "me", paces={wire.name: BOT_API_PACE})


@pytest.mark.asyncio
async def test_what_waits_is_sent_in_order_and_recorded(store: SqlStore) -> None:
    """Everything that waits goes out once, in the order of writing within a chat."""
    wire = Wire()
    courier = Courier(store, {"telegram": wire}, "me")
    put(store, "one", "two", "three")
    assert await courier.work(NOON) == 3
    assert wire.sent == ["one", "two", "three"]
    assert store.outbox_counts()["sent"] == 3
    assert courier.next_at is None
    assert await courier.work(NOON + SECOND) == 0


@pytest.mark.asyncio
async def test_the_pace_of_a_chat_is_kept_and_told(store: SqlStore) -> None:
    """A second message to a chat waits a second; other chats go at once; `next_at` says when to come again."""
    wire = Wire()
    courier = paced(store, wire)
    put(store, "one", "two")
    put(store, "other", chat="42")
    assert await courier.work(NOON) == 2
    assert wire.sent == ["one", "other"]
    assert courier.next_at == NOON + SECOND
    assert await courier.work(NOON + SECOND) == 1
    assert wire.sent[-1] == "two"
    assert store.outbox_counts()["possible_repeat"] == 0


@pytest.mark.asyncio
async def test_answers_to_buttons_do_not_wait_for_the_chat(store: SqlStore) -> None:
    """A tap is answered at once although a message was just sent to the same chat."""
    wire = Wire()
    courier = paced(store, wire)
    put(store, "message")
    put(store, "tap", kind=OutgoingKind.TAP_ANSWER)
    assert await courier.work(NOON) == 2


@pytest.mark.asyncio
async def test_many_chats_at_once_keep_the_overall_pace(store: SqlStore) -> None:
    """Of sixty chats with a message each, 25 are served in a second, the rest in the next ones."""
    wire = Wire()
    courier = paced(store, wire)
    for chat in range(60):
        put(store, f"for {chat}", chat=str(chat + 1))
    served: list[int] = []
    now = NOON
    while courier.next_at is not None or not served:
        served.append(await courier.work(now))
        now = courier.next_at or now
    assert served == [25, 25, 10]
    assert now == NOON + 2 * SECOND


@pytest.mark.asyncio
async def test_an_outcome_decides_when_it_is_tried_again(store: SqlStore) -> None:
    """A refusal for a while is tried again after that while and not before."""
    wire = Wire()
    wire.outcomes = [TryAgain(wait=30 * SECOND, why="flood", costs_attempt=False)]
    courier = Courier(store, {"telegram": wire}, "me")
    put(store, "one")
    assert await courier.work(NOON) == 0
    assert courier.next_at == NOON + 30 * SECOND
    assert await courier.work(NOON + 29 * SECOND) == 0
    assert await courier.work(NOON + 30 * SECOND) == 1


@pytest.mark.asyncio
async def test_the_wait_counts_from_the_answer(store: SqlStore) -> None:
    """With a clock, a wait that the other side asked for begins when its answer came, not when work began."""
    wire = Wire()
    wire.outcomes = [TryAgain(wait=30 * SECOND, why="flood", costs_attempt=False)]
    courier = Courier(store, {"telegram": wire}, "me", clock=lambda: NOON + 20 * SECOND)
    put(store, "one")
    await courier.work(NOON)
    assert courier.next_at == NOON + 50 * SECOND


@pytest.mark.asyncio
async def test_one_chat_in_trouble_does_not_hold_up_others(store: SqlStore) -> None:
    """Rejected, lost and faulty sends cost only themselves."""
    wire = Wire()
    wire.outcomes = [Rejected(why="no"), Unknown(why="lost"), RuntimeError("a fault")]
    courier = Courier(store, {"telegram": wire}, "me")
    for chat in ("1", "2", "3", "4"):
        put(store, f"for {chat}", chat=chat)
    assert await courier.work(NOON) == 1
    counts = store.outbox_counts()
    assert (counts["sent"], counts["parked"], counts["waiting"], counts["possible_repeat"]) == (1, 1, 2, 1)


@pytest.mark.asyncio
async def test_a_fault_of_our_own_loses_nothing(store: SqlStore) -> None:
    """However often a way out raises, the message still waits and goes when the fault is gone, unmarked."""
    wire = Wire()
    wire.outcomes = [RuntimeError("a fault")] * 30
    courier = Courier(store, {"telegram": wire}, "me")
    put(store, "one")
    now = NOON
    while wire.outcomes:
        await courier.work(now)
        assert courier.next_at is not None
        now = courier.next_at
    assert await courier.work(now) == 1
    assert wire.repeats == []


@pytest.mark.asyncio
async def test_a_refused_token_locks_the_way_out(store: SqlStore) -> None:
    """After a revoked token everything waits, the reason can be read, and nothing is lost."""
    wire = Wire()
    wire.outcomes = [Locked(why="unauthorized")]
    courier = Courier(store, {"telegram": wire}, "me")
    put(store, "one", "two")
    assert await courier.work(NOON) == 0
    assert courier.locked == {"telegram": "unauthorized"}
    assert await courier.work(NOON + 60 * SECOND) == 0
    store.clear_pause("telegram")
    assert await courier.work(NOON + 61 * SECOND) == 2


@pytest.mark.asyncio
async def test_a_courier_that_died_leaves_a_marked_repeat(store: SqlStore) -> None:
    """What was claimed and never recorded is sent by another courier when the lease is over, marked."""
    put(store, "one")
    dead = store.claim(owner="dead", now=NOON, transports=["telegram"], limit=9, lease=60 * SECOND)
    assert len(dead) == 1
    wire = Wire()
    courier = Courier(store, {"telegram": wire}, "me")
    assert await courier.work(NOON + SECOND) == 0
    assert courier.next_at == NOON + 60 * SECOND
    assert await courier.work(NOON + 60 * SECOND) == 1
    assert wire.repeats == ["one"]
    assert store.record(dead[0], Sent(), NOON + 61 * SECOND) is False


class Watched(Wire):
    """A way out that notes how many messages are under way in the database whenever one is sent."""

    def __init__(self, store: SqlStore) -> None:
        super().__init__()
        self.store = store
        self.under_way: list[int] = []

    async def send(self, row: ClaimedRow) -> Outcome:
        self.under_way.append(self.store.outbox_counts()["sending"])
        return await super().send(row)


@pytest.mark.asyncio
async def test_one_message_is_in_hand_at_a_time(store: SqlStore) -> None:
    """However many chats wait, a death would leave one message, and no more, of unknown fate."""
    for chat in ("1", "2", "3", "4"):
        put(store, "one", "two", chat=chat)
    wire = Watched(store)
    assert await Courier(store, {"telegram": wire}, "me").work(NOON) == 8
    assert wire.under_way == [1] * 8


class Unwritable(SqlStore):
    """A store on a disk that is full whenever the test says so."""

    full = False

    def record(self, row: ClaimedRow, outcome: Outcome, now: dt.datetime) -> bool:
        if self.full:
            raise DiskFull(path="slowbell.db")
        return super().record(row, outcome, now)


@pytest.mark.asyncio
async def test_an_outcome_that_could_not_be_recorded_is_recorded_later(store: SqlStore, tmp_path: Path) -> None:
    """A disk that is full at the wrong moment does not make the message go out twice."""
    unwritable = Unwritable(sqlite_engine(tmp_path / DATABASE_NAME))
    unwritable.full = True
    wire = Wire()
    courier = Courier(unwritable, {"telegram": wire}, "me")
    put(store, "one")
    with pytest.raises(DiskFull):
        await courier.work(NOON)
    unwritable.full = False
    assert await courier.work(NOON + SECOND) == 0
    unwritable.close()
    assert wire.sent == ["one"]
    assert store.outbox_counts()["sent"] == 1


@pytest.mark.asyncio
async def test_a_clock_set_back_does_not_silence_it(store: SqlStore) -> None:
    """A message written before the clock was set back an hour goes out all the same."""
    wire = Wire()
    courier = Courier(store, {"telegram": wire}, "me")
    put(store, "one")
    assert await courier.work(NOON - 3600 * SECOND) == 1


@pytest.mark.asyncio
async def test_a_file_goes_again_whole_when_nobody_knows_whether_it_arrived(store: SqlStore) -> None:
    """After an answer that was lost the same file is sent once more, marked; then it counts as sent."""
    wire = Keeper()
    courier = Courier(store, {"telegram": wire}, "me")
    plan = Document(name="plan.pdf", media_type="application/pdf", data=bytes(range(256)) * 10)
    outgoing = Outgoing(key="p", address=Address(transport="telegram", chat="41"), text="The plan.", document=plan)
    assert store.apply(Apply(now=NOON, outbox=(OutboxWrite(outgoing=outgoing),)))
    wire.outcomes = [TryAgain(wait=SECOND, why="no network"), Unknown(why="no answer"), Unknown(why="no answer")]
    for minutes in range(4):
        await courier.work(NOON + dt.timedelta(minutes=minutes))
    assert wire.documents == [plan, plan, plan]
    assert wire.repeats == ["The plan."]
    assert store.outbox_counts()["sent"] == 1


class Keeper(Wire):
    """A way out that also keeps the files it was given."""

    def __init__(self) -> None:
        super().__init__()
        self.documents: list[Document | None] = []

    async def send(self, row: ClaimedRow) -> Outcome:
        self.documents.append(row.outgoing.document)
        return await super().send(row)


def test_edits_wait_for_their_own_pace_and_hold_up_nothing(store: SqlStore) -> None:
    """Of three edits within fifteen seconds the first and the last are sent; a message between them does not wait."""
    wire, now = Wire(), NOON
    courier = paced(store, wire)
    put(store, "board")
    asyncio.run(courier.work(now))
    for number, text in enumerate(("one", "two", "three")):
        now = NOON + (2 + 2 * number) * SECOND
        edit = Outgoing(
            key=text,
            address=Address(transport="telegram", chat="41"),
            text=text,
            kind=OutgoingKind.EDIT,
            target="41:board",
        )
        assert store.apply(Apply(now=now, outbox=(OutboxWrite(outgoing=edit),)))
        asyncio.run(courier.work(now))
    put(store, "wrap now")
    now = NOON + 8 * SECOND
    asyncio.run(courier.work(now))
    assert wire.sent == ["board", "one", "wrap now"]
    assert courier.next_at == NOON + 17 * SECOND
    asyncio.run(courier.work(NOON + 17 * SECOND))
    assert wire.sent == ["board", "one", "wrap now", "three"]


def test_slow_mode_of_a_group_pauses_all_its_topics_and_nobody_else(store: SqlStore) -> None:
    """What the messenger asks of a group holds for its topics; when it is over, what is urgent goes first."""
    wire = Wire()
    courier = Courier(store, {"telegram": wire}, "me")
    topics = [Address(transport="telegram", chat="-100", thread=thread) for thread in (None, 7)]
    for number, address in enumerate(topics):
        outgoing = Outgoing(key=f"t{number}", address=address, text=f"topic {number}")
        assert store.apply(Apply(now=NOON, outbox=(OutboxWrite(outgoing=outgoing),)))
    wire.outcomes = [TryAgain(wait=30 * SECOND, why="slow mode", costs_attempt=False)]
    asyncio.run(courier.work(NOON))
    put(store, "private")
    stop = Outgoing(key="stop", address=topics[1], text="stop", urgent=True)
    assert store.apply(Apply(now=NOON, outbox=(OutboxWrite(outgoing=stop),)))
    asyncio.run(courier.work(NOON + SECOND))
    assert wire.sent == ["topic 0", "private"]
    asyncio.run(courier.work(NOON + 30 * SECOND))
    assert wire.sent[2:] == ["stop", "topic 0", "topic 1"]
