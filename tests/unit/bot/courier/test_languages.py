"""What a transport adds to a message is in the language of the room that it goes to."""

from __future__ import annotations

import asyncio
import datetime as dt
from pathlib import Path

from bot.chat import Address, Outcome, Outgoing, Sent
from bot.delivery.courier import Courier
from bot.messages.console import possible_repeat
from bot.ports import Apply, ClaimedRow, OutboxWrite, RoomWrite
from bot.store import open_store

NOON = dt.datetime(2026, 9, 5, 12, 0, tzinfo=dt.UTC)


class Marking:
    """A way out that puts words of its own beside each message."""

    name = "telegram"

    def __init__(self) -> None:
        self.added: dict[str, str] = {}

    async def send(self, row: ClaimedRow) -> Outcome:
        await asyncio.sleep(0)
        self.added[row.outgoing.text] = possible_repeat()
        return Sent(ref=str(row.id))


def test_words_of_a_transport_follow_the_room(tmp_path: Path) -> None:
    """A German chat and its topics are told in German that a message may be a repeat, an English one in English."""
    store, wire = open_store(tmp_path), Marking()
    german, english = Address(transport="telegram", chat="-41"), Address(transport="telegram", chat="42")
    topic = Address(transport="telegram", chat="-41", thread=7)
    rooms = (RoomWrite(address=german, group=True, language="de"), RoomWrite(address=english))
    out = [OutboxWrite(outgoing=Outgoing(key=name, address=address, text=name)) for name, address in
           (("german", german), ("topic", topic), ("english", english))]  # fmt: skip
    assert store.apply(Apply(now=NOON, rooms=rooms, outbox=tuple(out)))
    asyncio.run(Courier(store, {"telegram": wire}, "courier").work(NOON))
    store.close()
    assert wire.added["english"] == "(This may have reached you before.)"
    assert wire.added["german"] == wire.added["topic"] == "(Das kam vielleicht schon einmal an.)"
