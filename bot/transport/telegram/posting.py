"""Puts one message into a chat: as text, as a picture or as a file, in its topic, with buttons or the wish for a reply.

It must not judge errors nor choose words; it raises what the library raises.
"""

from __future__ import annotations

import dataclasses

from telegram import Bot, ForceReply, InlineKeyboardMarkup, LinkPreviewOptions, Message, MessageEntity, ReplyParameters
from telegram import User as Mentioned

from bot.chat import Document, Outgoing
from bot.transport.telegram.errors import not_a_picture
from bot.transport.telegram.pictures import is_photo
from bot.transport.telegram.shapes import keyboard, read_ref, units

NO_PREVIEW = LinkPreviewOptions(is_disabled=True)
GENERAL_TOPIC = 1
"""The topic that every forum begins with; messages go there without a number ("message thread not found" with it)."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Post:
    """A message in the forms of the Bot API."""

    chat_id: int
    thread: int | None
    text: str
    document: Document | None
    silent: bool | None
    markup: InlineKeyboardMarkup | ForceReply | None
    reply: ReplyParameters | None = None
    entities: tuple[MessageEntity, ...] = ()


def post_of(out: Outgoing, text: str) -> Post:
    """Return the forms of a message whose text was made ready; ValueError where a button breaks a limit."""
    thread = None if out.address.thread == GENERAL_TOPIC else out.address.thread
    plain = Post(
        chat_id=int(out.address.chat),
        thread=thread,
        text=text,
        document=out.document,
        silent=out.silent or None,
        markup=keyboard(out.choices),
    )
    return plain if plain.markup is not None else _asking(out, plain)


def _asking(out: Outgoing, post: Post) -> Post:
    """Return a question that opens a reply: of one person, where it is known which."""
    asking = out.wants_reply
    if asking is None:
        return post
    ref = read_ref(asking.to or "")
    reply = None
    if ref is not None and ref.chat_id == post.chat_id:
        reply = ReplyParameters(message_id=ref.message_id, allow_sending_without_reply=True)
    entities = _mention(post.text, asking.person, asking.name)
    markup = ForceReply(selective=bool(reply or entities) or None)
    return dataclasses.replace(post, markup=markup, reply=reply, entities=entities)


def _mention(text: str, person: str | None, name: str) -> tuple[MessageEntity, ...]:
    """Return the mark that makes a name in the text that person's own: whoever is mentioned is asked."""
    at = text.find(name) if name else -1
    if at < 0 or person is None or not person.isdecimal():
        return ()
    who = Mentioned(id=int(person), first_name=name, is_bot=False)
    mark = MessageEntity(type=MessageEntity.TEXT_MENTION, offset=units(text[:at]), length=units(name), user=who)
    return (mark,)


async def send(bot: Bot, post: Post) -> Message:
    """Send it; a picture that Telegram cannot show as one goes as a file."""
    if post.document is None:
        return await bot.send_message(
            chat_id=post.chat_id,
            text=post.text,
            message_thread_id=post.thread,
            disable_notification=post.silent,
            link_preview_options=NO_PREVIEW,
            entities=post.entities or None,
            reply_parameters=post.reply,
            reply_markup=post.markup,
        )
    if is_photo(post.document):
        try:
            return await _photo(bot, post, post.document)
        except Exception as error:
            if not not_a_picture(error):
                raise
    return await _file(bot, post, post.document)


async def _photo(bot: Bot, post: Post, document: Document) -> Message:
    return await bot.send_photo(
        chat_id=post.chat_id,
        photo=document.data,
        filename=document.name,
        caption=post.text or None,
        message_thread_id=post.thread,
        disable_notification=post.silent,
        reply_markup=post.markup,
    )


async def _file(bot: Bot, post: Post, document: Document) -> Message:
    return await bot.send_document(
        chat_id=post.chat_id,
        document=document.data,
        filename=document.name,
        caption=post.text or None,
        message_thread_id=post.thread,
        disable_notification=post.silent,
        reply_markup=post.markup,
    )
