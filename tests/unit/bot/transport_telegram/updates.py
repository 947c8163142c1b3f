"""Raw updates to be read in tests, and the people and chats in them.

It must not assert what they mean.
"""

from __future__ import annotations

import datetime as dt
from typing import Any

from bot.chat import Incoming
from bot.transport.telegram.decode import decode

Json = dict[str, Any]

NOON = dt.datetime(2026, 9, 12, 12, tzinfo=dt.UTC)
RECEIVED = NOON + dt.timedelta(hours=3)
INES: Json = {"id": 5000001, "is_bot": False, "first_name": "Ines"}
BELL: Json = {"id": 7000001, "is_bot": True, "first_name": "Bell"}
PRIVATE: Json = {"id": 5000001, "type": "private", "first_name": "Ines"}
SUPPER: Json = {"id": -1002000000001, "type": "supergroup", "title": "Harrow Lane supper"}
CHANNEL: Json = {"id": -1003000000001, "type": "channel", "title": "Allotment news"}
STAMP = int(NOON.timestamp())


def message(**parts: Any) -> Json:  # noqa: ANN401 - JSON of any shape
    """Return a message of Ines with these parts."""
    return {"message_id": 41, "from": INES, "chat": PRIVATE, "date": STAMP, **parts}


def read(**update: Any) -> Incoming | None:  # noqa: ANN401 - JSON of any shape
    """Return what an update is read as."""
    raw = {"update_id": 9, **update}
    return decode(raw, source="telegram:7000001", key="9", received_at=RECEIVED)


def must_read(**update: Any) -> Incoming:  # noqa: ANN401 - JSON of any shape
    """Return what an update is read as; it concerns somebody."""
    incoming = read(**update)
    assert incoming is not None
    return incoming
