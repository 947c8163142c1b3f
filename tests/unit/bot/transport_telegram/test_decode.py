"""A raw update is read as what a person did, or refused with a ValueError and nothing else."""

from __future__ import annotations

import datetime as dt
import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.chat import Address, Attachment, Incoming, IncomingKind
from bot.transport.telegram.decode import decode
from tests.unit.bot.transport_telegram.updates import (
    BELL,
    CHANNEL,
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


def test_a_message_is_read_whole() -> None:
    """Who, where, when it was sent (not when it came), what, and a reference that stays the same."""
    assert read(message=message(text="meat 178 pit 285")) == Incoming(
        source="telegram:7000001",
        key="9",
        address=Address(transport="telegram", chat="5000001"),
        sender="5000001",
        sender_name="Ines",
        kind=IncomingKind.TEXT,
        sent_at=NOON,
        text="meat 178 pit 285",
        message="telegram:5000001:41",
    )


def test_the_language_of_the_app_is_read() -> None:
    """The app of a person may say its language, in messages and with pressed buttons; most groups do not need it."""
    sender = {**INES, "language_code": "de"}
    assert must_read(message=message(text="178", **{"from": sender})).language == "de"
    assert must_read(message=message(text="178")).language is None


def test_an_edit_is_dated_by_the_edit_and_names_the_same_message() -> None:
    """The new text, at the time of the edit, under the reference of the first message."""
    incoming = must_read(edited_message=message(text="187", edit_date=STAMP + 60))
    assert incoming.kind is IncomingKind.EDIT
    assert incoming.text == "187"
    assert incoming.sent_at == NOON + dt.timedelta(minutes=1)
    assert incoming.message == "telegram:5000001:41"


def test_an_edit_without_words_concerns_nobody() -> None:
    """A location that moves comes as an edit; there is nothing to correct."""
    assert read(edited_message=message(location={"latitude": 1.0, "longitude": 2.0}, edit_date=STAMP)) is None


def test_a_supergroup_is_a_group() -> None:
    """Its long id is kept exactly, and the person stays the person."""
    incoming = must_read(message=message(chat=SUPPER, text="178"))
    assert incoming.address == Address(transport="telegram", chat="-1002000000001")
    assert incoming.group
    assert incoming.sender == "5000001"


def test_a_topic_is_part_of_the_address() -> None:
    """A message in a topic is answered in that topic."""
    incoming = must_read(message=message(chat=SUPPER, text="178", message_thread_id=7, is_topic_message=True))
    assert incoming.address.thread == 7


def test_a_reply_is_not_a_topic() -> None:
    """Replies in a group without topics carry a thread too, which cannot be written to."""
    incoming = must_read(message=message(chat=SUPPER, text="178", message_thread_id=7))
    assert incoming.address.thread is None


@pytest.mark.parametrize("text", ["/start k3-Jq_9", "/temp@slowbell_test_bot 165", "/stop"])
def test_commands_stay_in_the_text(text: str) -> None:
    """Codes and commands are for the conversation to understand."""
    assert must_read(message=message(text=text)).text == text


@pytest.mark.parametrize("part", ["sticker", "location", "poll", "rich_message"])
def test_other_content_is_kept_with_its_caption(part: str) -> None:
    """What is not text is told as such; words below a photo are its text."""
    incoming = must_read(message=message(**{part: {}}, caption="done"))
    assert incoming.kind is IncomingKind.OTHER
    assert incoming.text == "done"


@pytest.mark.parametrize(
    "message",
    [
        message(chat=SUPPER, new_chat_members=[BELL]),
        message(chat=SUPPER, pinned_message={}),
        {**message(text="hello"), "from": BELL},
        message(chat=CHANNEL, text="news"),
        message(chat=SUPPER, text="news", sender_chat=CHANNEL, is_automatic_forward=True),
        {key: value for key, value in message(chat=SUPPER, text="x").items() if key != "from"},
    ],
    ids=["joined", "pinned", "bot", "channel", "forwarded by itself", "nobody"],
)
def test_what_no_person_did_concerns_nobody(message: Json) -> None:
    """Service messages, channels and other bots are passed over."""
    assert read(message=message) is None


@pytest.mark.parametrize("chat", [SUPPER, CHANNEL], ids=["anonymous administrator", "as a channel"])
def test_somebody_who_writes_as_a_chat_is_that_chat(chat: Json) -> None:
    """An anonymous administrator is the group, not the stand-in that the server names as the sender."""
    stand_in = {"id": 1087968824, "is_bot": True, "first_name": "Group"}
    incoming = must_read(message=message(**{"chat": SUPPER, "from": stand_in, "sender_chat": chat, "text": "178"}))
    assert incoming.sender == str(chat["id"])
    assert incoming.sender_name == chat["title"]


def test_a_tap_carries_token_and_query() -> None:
    """A tap has no time of its own: it is dated by its arrival."""
    query = {"id": "400", "from": INES, "message": message(chat=SUPPER, **{"from": BELL}), "data": "t1"}
    incoming = must_read(callback_query=query)
    assert incoming.kind is IncomingKind.TAP
    assert (incoming.token, incoming.tap_id) == ("t1", "400")
    assert incoming.sender == "5000001"
    assert incoming.sent_at == RECEIVED
    assert incoming.message == "telegram:-1002000000001:41"


def test_a_tap_on_a_message_that_is_gone_is_read() -> None:
    """The server then sends only chat, number and date 0."""
    query = {"id": "400", "from": INES, "message": {"chat": PRIVATE, "message_id": 41, "date": 0}, "data": "t1"}
    assert must_read(callback_query=query).token == "t1"


@pytest.mark.parametrize("without", ["message", "data"])
def test_a_tap_that_is_none_of_ours_concerns_nobody(without: str) -> None:
    """Taps of inline messages and games have no message or no token."""
    query = {"id": "400", "from": INES, "message": message(), "data": "t1"}
    del query[without]
    assert read(callback_query=query) is None


@pytest.mark.parametrize(
    ("old", "new", "kind"),
    [
        ({"status": "left"}, {"status": "member"}, IncomingKind.ARRIVED),
        ({"status": "left"}, {"status": "administrator"}, IncomingKind.ARRIVED),
        ({"status": "kicked"}, {"status": "member"}, IncomingKind.ARRIVED),
        ({"status": "member"}, {"status": "kicked"}, IncomingKind.LEFT),
        ({"status": "administrator"}, {"status": "left"}, IncomingKind.LEFT),
        ({"status": "member"}, {"status": "administrator"}, IncomingKind.RIGHTS),
        ({"status": "administrator"}, {"status": "member"}, IncomingKind.RIGHTS),
        ({"status": "administrator"}, {"status": "administrator", "can_pin_messages": True}, IncomingKind.RIGHTS),
        ({"status": "member"}, {"status": "member"}, None),
        (
            {"status": "member"},
            {"status": "restricted", "is_member": True, "can_send_messages": False},
            IncomingKind.LEFT,
        ),
        ({"status": "member"}, {"status": "restricted", "is_member": True, "can_send_messages": True}, None),
        ({"status": "restricted", "is_member": False}, {"status": "member"}, IncomingKind.ARRIVED),
    ],
)
def test_coming_and_going(old: Json, new: Json, kind: IncomingKind | None) -> None:
    """What counts is whether the bot may write: added, unblocked, removed, blocked, silenced."""
    change = {"chat": SUPPER, "from": INES, "date": STAMP, "old_chat_member": old, "new_chat_member": new}
    incoming = read(my_chat_member=change)
    assert (incoming and incoming.kind) == kind
    assert incoming is None or incoming.sent_at == NOON


def test_a_group_that_becomes_a_supergroup_has_moved() -> None:
    """Its two service messages, one in the old group and one in the new, say the same."""
    old = {"id": -4000001, "type": "group", "title": "Harrow Lane supper"}
    new = {**SUPPER, "id": -1002000000001}
    in_the_old = must_read(message=message(chat=old, migrate_to_chat_id=-1002000000001))
    in_the_new = must_read(message=message(chat=new, migrate_from_chat_id=-4000001))
    for incoming in (in_the_old, in_the_new):
        assert incoming.kind is IncomingKind.MOVED
        assert incoming.address.chat == "-4000001"
        assert incoming.moved_to == Address(transport="telegram", chat="-1002000000001")


SIZES = [
    {"file_id": "small", "width": 90, "height": 67, "file_size": 900},
    {"file_id": "large", "width": 1280, "height": 960, "file_size": 180_000},
    {"file_id": "middle", "width": 320, "height": 240},
]


@pytest.mark.parametrize(
    ("content", "kind", "attachment"),
    [
        (
            {"photo": SIZES},
            IncomingKind.PHOTO,
            Attachment(file="large", media_type="image/jpeg", size_bytes=180_000),
        ),
        (
            {"document": {"file_id": "d", "mime_type": "image/png"}},
            IncomingKind.PHOTO,
            Attachment(file="d", media_type="image/png"),
        ),
        (
            {"voice": {"file_id": "v", "duration": 4, "mime_type": "audio/ogg", "file_size": 9}},
            IncomingKind.VOICE,
            Attachment(file="v", media_type="audio/ogg", size_bytes=9),
        ),
        ({"voice": {"file_id": "v"}}, IncomingKind.VOICE, Attachment(file="v", media_type="audio/ogg")),
        ({"document": {"file_id": "d", "mime_type": "application/pdf"}}, IncomingKind.OTHER, None),
        ({"document": {"file_id": "d"}}, IncomingKind.OTHER, None),
    ],
    ids=["photo", "picture as a file", "voice", "voice without a type", "file", "file without a type"],
)
def test_pictures_and_voice_notes_name_their_files(
    content: Json, kind: IncomingKind, attachment: Attachment | None
) -> None:
    """Of a photo the largest size; the words below it are its text."""
    incoming = must_read(message=message(**content, caption="178 under the flat"))
    assert (incoming.kind, incoming.attachment, incoming.text) == (kind, attachment, "178 under the flat")


def test_control_characters_are_left_out_of_texts() -> None:
    """Line ends stay, tabs become spaces, direction marks stay; escapes and their like go."""
    text = "a\tb\r\nc\rd\ne\x1b[31m\x00\x7f\x9b\u202e178"
    assert must_read(message=message(text=text)).text == "a b\nc\nd\ne[31m\u202e178"


@pytest.mark.parametrize(
    ("user", "name"),
    [
        ({"first_name": "Ines", "last_name": "Vale"}, "Ines Vale"),
        ({"first_name": "\u202eIn\nes\x1b", "last_name": None}, "In es"),
        ({"first_name": "\u200f \n", "username": "ines"}, "ines"),
        ({"first_name": ""}, "5000001"),
    ],
)
def test_a_name_is_one_plain_line(user: Json, name: str) -> None:
    """A name cannot hold line ends or direction marks, and is never empty."""
    assert must_read(message={**message(text="x"), "from": {"id": 5000001, **user}}).sender_name == name


def test_other_updates_concern_nobody() -> None:
    """Kinds that were not asked for are passed over, should they come."""
    assert read(poll={"id": "1"}) is None


@pytest.mark.parametrize(
    ("raw", "where"),
    [
        ({}, "update_id"),
        ({"unreadable": "[1]"}, "update_id"),
        ({"update_id": 9, "message": "secret words"}, "message"),
        ({"update_id": 9, "message": message(text=178)}, "message.text"),
        ({"update_id": 9, "message": {**message(text="x"), "date": 10**18}}, "message.date"),
        ({"update_id": 9, "message": {**message(text="x"), "chat": {"id": 2**70, "type": "private"}}}, "chat.id"),
    ],
)
def test_what_cannot_be_read_says_where(raw: Json, where: str) -> None:
    """The reason is short, names the place, and repeats nothing of the content."""
    with pytest.raises(ValueError, match=where) as caught:
        decode(raw, source="telegram:7000001", key="9", received_at=RECEIVED)
    assert len(str(caught.value)) < 200
    assert "secret words" not in str(caught.value)


SCALARS = st.none() | st.booleans() | st.integers() | st.floats() | st.text(st.characters(), max_size=20)
NAMES = st.sampled_from(
    ["id", "from", "chat", "date", "text", "caption", "type", "data", "message", "message_id", "edit_date", "status",
     "sender_chat", "migrate_to_chat_id", "old_chat_member", "new_chat_member", "is_topic_message", "photo", "title"]
)  # fmt: skip
ANY_JSON = st.recursive(
    SCALARS, lambda inner: st.lists(inner, max_size=3) | st.dictionaries(NAMES | st.text(max_size=5), inner, max_size=8)
)
CHATS = st.sampled_from([PRIVATE, SUPPER, CHANNEL]) | ANY_JSON
NEARLY_A_MESSAGE = st.fixed_dictionaries(
    {"message_id": st.integers(0, 99) | ANY_JSON, "chat": CHATS, "date": st.integers(0, 2**31) | ANY_JSON},
    optional={"from": st.just(INES) | ANY_JSON, "text": ANY_JSON, "caption": ANY_JSON, "edit_date": ANY_JSON,
              "photo": ANY_JSON, "migrate_to_chat_id": ANY_JSON, "sender_chat": CHATS},
)  # fmt: skip
NEARLY_AN_UPDATE = st.fixed_dictionaries(
    {"update_id": st.integers() | ANY_JSON},
    optional={
        "message": NEARLY_A_MESSAGE | ANY_JSON,
        "edited_message": NEARLY_A_MESSAGE | ANY_JSON,
        "callback_query": st.fixed_dictionaries(
            {"id": st.text(), "from": st.just(INES), "message": NEARLY_A_MESSAGE, "data": ANY_JSON}
        )
        | ANY_JSON,
        "my_chat_member": ANY_JSON,
    },
)


@given(NEARLY_AN_UPDATE | st.dictionaries(st.text(), ANY_JSON, max_size=3))
def test_any_json_is_read_or_refused_with_a_value_error(raw: Json) -> None:
    """Whatever arrives, reading it gives an incoming, None, or a ValueError: no other error, and no other text."""
    incoming, refused = None, "update cannot be read: "
    try:
        incoming = decode(raw, source="telegram:7000001", key="9", received_at=RECEIVED)
    except ValueError as error:
        refused = str(error)
    assert refused.startswith("update cannot be read: ")
    assert incoming is None or incoming.sent_at.tzinfo is dt.UTC


@given(st.text(max_size=200))
def test_a_text_that_was_read_is_safe_to_show(text: str) -> None:
    """No control character but the newline is left in what a person wrote."""
    incoming = must_read(message=json.loads(json.dumps(message(text=text))))
    assert not [one for one in incoming.text if (ord(one) < 32 and one != "\n") or 127 <= ord(one) < 160]
