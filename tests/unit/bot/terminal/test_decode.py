"""What a window stores in the inbox, and how it is read."""

from __future__ import annotations

import datetime as dt

import pytest

from bot.chat import Address, Attachment, IncomingKind
from bot.ports import Decoder, Json
from bot.transport.terminal.attach import Picture
from bot.transport.terminal.decode import chat_of, decode_terminal, make_raw

NOON = dt.datetime(2026, 9, 5, 12, 0, tzinfo=dt.UTC)
DECODER: Decoder = decode_terminal


def read(raw: Json) -> object:
    """Read a row that was received a minute after noon."""
    return DECODER(raw, source="terminal", key="k", received_at=NOON + dt.timedelta(minutes=1))


def test_a_typed_line_is_read_as_it_was_sent() -> None:
    """Who, where, when it was sent (not received), what was typed, and a reference of its own."""
    key, raw = make_raw(kind="text", name=" Ines  Harrow", sent_at=NOON, text="178 \x1b[31mnow")
    incoming = decode_terminal(raw, source="terminal", key=key, received_at=NOON + dt.timedelta(hours=1))
    assert incoming is not None
    assert incoming.address == Address(transport="terminal", chat="ines harrow")
    assert (incoming.sender, incoming.sender_name) == ("ines harrow", "Ines Harrow")
    assert (incoming.kind, incoming.text, incoming.sent_at) == (IncomingKind.TEXT, "178 now", NOON)
    assert incoming.message == f"terminal:{key}"
    assert not incoming.group


def test_opening_a_window_is_arriving() -> None:
    """Hello means that the person is there; bye concerns nobody, for prompts wait for them."""
    hello = decode_terminal(
        make_raw(kind="hello", name="Ines", sent_at=NOON)[1], source="terminal", key="k", received_at=NOON
    )
    assert hello is not None
    assert hello.kind is IncomingKind.ARRIVED
    assert read(make_raw(kind="bye", name="Ines", sent_at=NOON)[1]) is None


def test_one_person_has_one_window_however_the_name_is_written() -> None:
    """Case and the spelling of accents make no difference."""
    assert chat_of("INÊS") == chat_of("inês") == chat_of("ine\u0302s")


def test_two_lines_are_never_the_same_message() -> None:
    """The same words twice are two messages."""
    first, second = (make_raw(kind="text", name="Ines", sent_at=NOON, text="178") for _ in range(2))
    assert first[0] != second[0]


def test_a_time_in_the_future_is_not_believed() -> None:
    """After the clock was set back, a line counts from when it was received."""
    _, raw = make_raw(kind="text", name="Ines", sent_at=NOON + dt.timedelta(days=1), text="178")
    incoming = decode_terminal(raw, source="terminal", key="k", received_at=NOON)
    assert incoming is not None
    assert incoming.sent_at == NOON


@pytest.mark.parametrize(
    "change",
    [
        {"kind": "dance"},
        {"chat": ""},
        {"chat": " \x07 "},
        {"sender": ""},
        {"sent_at": "noon"},
        {"sent_at": "2026-09-05T12:00:00"},
    ],
)
def test_what_cannot_be_read_is_an_error(change: dict[str, str]) -> None:
    """A row that no window wrote is a ValueError, so that it can be parked."""
    _, raw = make_raw(kind="text", name="Ines", sent_at=NOON, text="178")
    with pytest.raises(ValueError, match=r"\w"):
        read({**raw, **change})


def test_rows_of_later_windows_can_be_read() -> None:
    """Fields that this version does not know are left alone."""
    _, raw = make_raw(kind="text", name="Ines", sent_at=NOON, text="178")
    assert read({**raw, "mood": "hungry"}) is not None


def test_a_photo_names_its_file() -> None:
    """What was attached is read as a photo with its path, kind and size, and no words."""
    picture = Picture(path="/home/ines/bark.png", media_type="image/png", size_bytes=9)
    _, raw = make_raw(kind="photo", name="Ines", sent_at=NOON, picture=picture)
    incoming = decode_terminal(raw, source="terminal", key="k", received_at=NOON)
    assert incoming is not None
    assert (incoming.kind, incoming.text) == (IncomingKind.PHOTO, "")
    assert incoming.attachment == Attachment(file="/home/ines/bark.png", media_type="image/png", size_bytes=9)
