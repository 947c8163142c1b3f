"""The methods of the Bot API that the contract names, carried out on the world, with the server's own refusals.

It must not check forms (the contract does) nor know HTTP. Wordings of refusals: tdlib/telegram-bot-api (commit
01a3679c), from memory where they come from further behind.
"""

from __future__ import annotations

import base64
import math
from collections.abc import Callable

from tests.fakes.botapi.contract import Json
from tests.fakes.botapi.updates import ApiError
from tests.fakes.botapi.world import BOT, BOT_ID, Entry, Room, World

MOST_DOWNLOAD_BYTES = 20_000_000
NO_PICTURE = b"not a picture after all"
"""Bytes at the end of a photo that this server finds no picture in."""

Result = Json | bool | list[Json]


def call(world: World, method: str, parameters: Json) -> Result:
    """Carry out one call whose form was checked; raise `ApiError` when the server refuses it."""
    return _METHODS[method](world, parameters)


def _get_me(world: World, _: Json) -> Result:
    return {**BOT, "can_join_groups": True, "can_read_all_group_messages": world.sees_all}


def _get_updates(world: World, sent: Json) -> Result:
    return world.queue.poll(
        offset=sent.get("offset"),
        limit=sent.get("limit", 100),
        timeout_s=sent.get("timeout", 0),
        allowed=sent.get("allowed_updates"),
    )


def _send_message(world: World, sent: Json) -> Result:
    room = _writable(world, sent["chat_id"])
    return _sent(world, room, sent, {"text": _text(sent["text"])})


def _send_document(world: World, sent: Json) -> Result:
    room = _writable(world, sent["chat_id"])
    file = sent["document"]
    size = len(base64.b64decode(file["base64"]))
    told: Json = {"file_id": f"file-{size}", "file_unique_id": f"unique-{size}", "file_size": size}
    document = told | {"file_name": file["file_name"], "mime_type": file["mime_type"]}
    caption = {"caption": sent["caption"].strip()} if sent.get("caption", "").strip() else {}
    return _sent(world, room, sent, {"document": document, **caption})


def _send_photo(world: World, sent: Json) -> Result:
    room = _writable(world, sent["chat_id"])
    data = base64.b64decode(sent["photo"]["base64"])
    if data.endswith(NO_PICTURE):
        raise ApiError(400, "Bad Request: PHOTO_INVALID_DIMENSIONS")
    caption = {"caption": sent["caption"].strip()} if sent.get("caption", "").strip() else {}
    return _sent(world, room, sent, {"photo": world.keep_photo(data), **caption})


def _get_file(world: World, sent: Json) -> Result:
    data = world.files.get(sent["file_id"])
    if data is None:
        raise ApiError(400, "Bad Request: wrong file_id or the file is temporarily unavailable")
    if len(data) > MOST_DOWNLOAD_BYTES:
        raise ApiError(400, "Bad Request: file is too big")
    told: Json = {"file_id": sent["file_id"], "file_unique_id": f"u-{sent['file_id']}", "file_size": len(data)}
    return told | {"file_path": f"photos/{sent['file_id']}"}


def _get_chat_member(world: World, sent: Json) -> Result:
    room = _writable(world, sent["chat_id"])
    status = "administrator" if room.admin else "member"
    return world.member(room, status)


def _sent(world: World, room: Room, sent: Json, content: Json) -> Result:
    """Put a message of the bot into a chat, in its topic, with its buttons."""
    thread = sent.get("message_thread_id")
    if thread is not None and thread not in room.topics:
        raise ApiError(400, "Bad Request: message thread not found")
    if thread in room.closed_topics and not room.admin:
        raise ApiError(400, "Bad Request: TOPIC_CLOSED")
    wait_s = room.last_by_bot_s + room.slow_s - world.now_s()
    if room.slow_s and wait_s > 0:
        raise flood(math.ceil(wait_s))
    room.last_by_bot_s = world.now_s()
    if "inline_keyboard" in sent.get("reply_markup", {}):
        content["reply_markup"] = sent["reply_markup"]
    replied = room.entries.get(sent.get("reply_parameters", {}).get("message_id", 0))
    if replied is not None:
        content["reply_to_message"] = replied.message
    if thread is not None:
        content |= {"message_thread_id": thread, "is_topic_message": True}
    entry = world.add(room, BOT, content)
    entry.silent = sent.get("disable_notification", False)
    entry.force_reply = sent.get("reply_markup", {}) if "force_reply" in sent.get("reply_markup", {}) else None
    return entry.message


def _edit_message_text(world: World, sent: Json) -> Result:
    entry = _own(world, sent, "edit")
    if entry.frozen:
        raise ApiError(400, "Bad Request: message can't be edited")
    if "text" not in entry.message:
        raise ApiError(400, "Bad Request: there is no text in the message to edit")
    return _change(world, entry, {"text": _text(sent["text"])}, sent.get("reply_markup"))


def _edit_message_caption(world: World, sent: Json) -> Result:
    entry = _own(world, sent, "edit")
    if entry.frozen:
        raise ApiError(400, "Bad Request: message can't be edited")
    if not {"photo", "document"} & entry.message.keys():
        raise ApiError(400, "Bad Request: there is no caption in the message to edit")
    return _change(world, entry, {"caption": sent.get("caption", "").strip()}, sent.get("reply_markup"))


def _edit_message_reply_markup(world: World, sent: Json) -> Result:
    return _change(world, _own(world, sent, "edit"), {}, sent.get("reply_markup"))


def _change(world: World, entry: Entry, content: Json, markup: Json | None) -> Result:
    keep = {key: value for key, value in entry.message.items() if key not in {"reply_markup", "edit_date"}}
    changed = {**keep, **content} | ({"reply_markup": markup} if markup and markup["inline_keyboard"] else {})
    before = {key: value for key, value in entry.message.items() if key != "edit_date"}
    if changed == before:
        raise ApiError(
            400,
            "Bad Request: message is not modified: specified new message content and reply markup are exactly the same"
            " as a current content and reply markup of the message",
        )
    entry.message = {**changed, "edit_date": int(world.now_s())}
    entry.edits += 1
    return entry.message


def _answer_callback_query(world: World, sent: Json) -> Result:
    query_id = sent["callback_query_id"]
    if query_id not in world.taps or query_id in world.expired:
        raise ApiError(400, "Bad Request: query is too old and response timeout expired or query ID is invalid")
    world.taps[query_id] = True
    return True


def _set_message_reaction(world: World, sent: Json) -> Result:
    room = _writable(world, sent["chat_id"])
    entry = room.entries.get(sent["message_id"])
    if entry is None:
        raise ApiError(400, "Bad Request: message to react not found")
    if not room.reactions:
        raise ApiError(400, "Bad Request: REACTION_INVALID")
    entry.reactions = [reaction["emoji"] for reaction in sent.get("reaction", [])]
    return True


def _pin_chat_message(world: World, sent: Json) -> Result:
    room = _writable(world, sent["chat_id"])
    entry = room.entries.get(sent["message_id"])
    if entry is None:
        raise ApiError(400, "Bad Request: message to pin not found")
    _may_pin(room)
    entry.pinned = True
    return True


def _unpin_chat_message(world: World, sent: Json) -> Result:
    room = _writable(world, sent["chat_id"])
    entry = room.entries.get(sent.get("message_id", 0))
    if entry is None or not entry.pinned:
        raise ApiError(400, "Bad Request: message to unpin not found")
    _may_pin(room)
    entry.pinned = False
    return True


def _may_pin(room: Room) -> None:
    if not room.private and not (room.admin and room.may_pin):
        raise ApiError(400, "Bad Request: not enough rights to manage pinned messages in the chat")


def _set_my_commands(world: World, sent: Json) -> Result:
    world.commands[sent.get("scope", {}).get("type", "default"), sent.get("language_code", "")] = sent["commands"]
    return True


def _delete_webhook(world: World, _: Json) -> Result:
    world.queue.webhook = ""
    return True


def flood(retry_after: int) -> ApiError:
    """Return the refusal of a call that came too soon."""
    return ApiError(429, f"Too Many Requests: retry after {retry_after}", {"retry_after": retry_after})


def _writable(world: World, chat_id: int) -> Room:
    room = world.rooms.get(chat_id)
    if room is None:
        if any(person["id"] == chat_id for person in world.people.values()):
            raise ApiError(403, "Forbidden: bot can't initiate conversation with a user")
        raise ApiError(400, "Bad Request: chat not found")
    if room.moved_to is not None:
        raise ApiError(
            400,
            "Bad Request: group chat was upgraded to a supergroup chat",
            {"migrate_to_chat_id": room.moved_to},
        )
    if room.closed is not None:
        raise ApiError(403, room.closed)
    return room


def _own(world: World, sent: Json, what: str) -> Entry:
    entry = _writable(world, sent["chat_id"]).entries.get(sent["message_id"])
    if entry is None:
        raise ApiError(400, f"Bad Request: message to {what} not found")
    if entry.message["from"]["id"] != BOT_ID:
        raise ApiError(400, f"Bad Request: message can't be {what}ed")
    return entry


def _text(text: str) -> str:
    """Return the text as it is kept: without spaces around it."""
    kept = text.strip()
    if not kept:
        raise ApiError(400, "Bad Request: message text is empty")
    return kept


_METHODS: dict[str, Callable[[World, Json], Result]] = {
    "getMe": _get_me,
    "getUpdates": _get_updates,
    "sendMessage": _send_message,
    "sendDocument": _send_document,
    "sendPhoto": _send_photo,
    "getFile": _get_file,
    "getChatMember": _get_chat_member,
    "editMessageText": _edit_message_text,
    "editMessageCaption": _edit_message_caption,
    "editMessageReplyMarkup": _edit_message_reply_markup,
    "answerCallbackQuery": _answer_callback_query,
    "setMessageReaction": _set_message_reaction,
    "pinChatMessage": _pin_chat_message,
    "unpinChatMessage": _unpin_chat_message,
    "setMyCommands": _set_my_commands,
    "deleteWebhook": _delete_webhook,
}
