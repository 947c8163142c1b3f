"""Sends one outgoing to Telegram and says what became of it, as a value.

It must not choose words, retry on its own, or know the database.

Texts go out without `parse_mode`: nothing in them is markup, so nothing that a person typed can break or
forge it (docs/decisions/0004-telegram.md).
"""

from __future__ import annotations

import asyncio
import dataclasses
import datetime as dt
import logging
from collections.abc import Callable

from telegram import Bot
from telegram.constants import ReactionEmoji
from telegram.request import HTTPXRequest

from bot.chat import (
    Declined,
    Lack,
    Locked,
    Outcome,
    Outgoing,
    OutgoingKind,
    Rejected,
    Sent,
    TryAgain,
    Unknown,
    Unreachable,
)
from bot.ports import Album, ClaimedRow
from bot.transport.telegram.calls import OFFICIAL
from bot.transport.telegram.errors import TRANSPORT, declined, outcome_of, topic_is_gone
from bot.transport.telegram.files import fetch
from bot.transport.telegram.posting import NO_PREVIEW, Post, post_of, send
from bot.transport.telegram.redact import Token
from bot.transport.telegram.shapes import (
    MOST_CAPTION_UNITS,
    MOST_TAP_ANSWER_UNITS,
    MOST_TEXT_UNITS,
    MOST_UPLOAD_BYTES,
    MessageRef,
    fitted,
    keyboard,
    read_ref,
    sendable,
)

log = logging.getLogger(__name__)

_DRAWN = "\ufe0f"  # asks for a picture instead of a sign; the documentation lists reactions without it
_REACTIONS = frozenset(str(emoji).replace(_DRAWN, "") for emoji in ReactionEmoji)


@dataclasses.dataclass(frozen=True, kw_only=True)
class Timeouts:
    """How long one call may take, in seconds. The answer may be slow: the server sends before it answers."""

    connect_s: float = 5.0
    read_s: float = 20.0
    write_s: float = 10.0
    pool_s: float = 5.0
    whole_s: float = 45.0
    """For all of one attempt, however slowly an answer trickles in: shorter than the lease of a claimed row."""


class QuietBot(Bot):
    """The library's bot, whose representation does not show the token."""

    __slots__ = ()

    def __repr__(self) -> str:
        return "QuietBot(token hidden)"


class TelegramTransport:
    """The way out to Telegram. Make it and use it inside a running event loop; `close()` it at the end."""

    name = TRANSPORT

    def __init__(
        self,
        *,
        token: Token,
        repeat_mark: Callable[[], str],
        clock: Callable[[], dt.datetime],
        base_url: str = OFFICIAL,
        timeouts: Timeouts | None = None,
        jitter: Callable[[], dt.timedelta] = lambda: dt.timedelta(seconds=1),
        reaction: str = ReactionEmoji.THUMBS_UP,
        topic_mark: Callable[[], str] = lambda: "",
        album: Album | None = None,
    ) -> None:
        """Prepare a transport; nothing is sent yet.

        `repeat_mark` says what is put on a line of its own above a message that may have arrived before, in the
        language that is spoken while it is sent. `clock` gives
        the present instant (aware, UTC). `base_url` is the server without `/bot`. `jitter` is added to every
        pause that the server asks for. `reaction` is used where an outgoing names no reaction of its own.
        `topic_mark` says what is put above a message that goes to a chat because its topic is closed or gone. `album`
        puts away what is fetched.
        """
        times = timeouts or Timeouts()
        self._token = token
        self._repeat_mark = repeat_mark
        self._clock = clock
        self._jitter = jitter
        self._whole_s = times.whole_s
        self._reaction = reaction
        self._topic_mark = topic_mark
        self._album = album
        self._paused_until: dict[str, dt.datetime] = {}
        self._request = HTTPXRequest(
            connection_pool_size=16,
            read_timeout=times.read_s,
            write_timeout=times.write_s,
            connect_timeout=times.connect_s,
            pool_timeout=times.pool_s,
        )
        self._bot = QuietBot(
            token.reveal(),
            base_url=f"{base_url.rstrip('/')}/bot",
            base_file_url=f"{base_url.rstrip('/')}/file/bot",
            request=self._request,
            get_updates_request=self._request,
        )

    def __repr__(self) -> str:
        return "TelegramTransport(token hidden)"

    async def close(self) -> None:
        """Close the connections."""
        await self._request.shutdown()

    async def send(self, row: ClaimedRow) -> Outcome:
        """Try once. Every error is an outcome; only being cancelled is raised."""
        out = row.outgoing
        again = out.kind is not OutgoingKind.MESSAGE
        try:
            async with asyncio.timeout(self._whole_s):
                outcome = await self._attempt(row)
        except Exception as error:  # noqa: BLE001 - whatever the other side does becomes a value in one place
            outcome = declined(error, out.kind) or outcome_of(error, edit=again, jitter=self._jitter())
        if out.kind is OutgoingKind.TAP_ANSWER and isinstance(outcome, TryAgain) and outcome.costs_attempt:
            outcome = Sent()  # the button has stopped waiting, or will: never worth a second try
        if out.kind is OutgoingKind.EDIT and isinstance(outcome, Sent):  # also when it was so before
            outcome = Sent(ref=row.target_ref)
        return self._noting_pauses(_hiding(outcome, self._token), out)

    async def _attempt(self, row: ClaimedRow) -> Outcome:
        match row.outgoing.kind:
            case OutgoingKind.MESSAGE:
                return await self._message(row.outgoing)
            case OutgoingKind.EDIT:
                return await self._edit(row)
            case OutgoingKind.PIN:
                return await self._pin(row.outgoing, row.target_ref, pinned=True)
            case OutgoingKind.UNPIN:
                return await self._pin(row.outgoing, row.target_ref, pinned=False)
            case OutgoingKind.FETCH:
                return await self._fetch(row.outgoing)
            case OutgoingKind.REACTION:
                return await self._react(row.outgoing)
            case OutgoingKind.TAP_ANSWER:
                return await self._answer_tap(row.outgoing)

    async def _message(self, out: Outgoing) -> Outcome:
        ready = self._ready(out)
        if isinstance(ready, Rejected):
            return ready
        post = post_of(out, ready)
        try:
            sent = await send(self._bot, post)
        except Exception as error:
            if post.thread is None or not topic_is_gone(error):
                raise
            log.warning("telegram: topic %s is closed or gone; %s goes to the chat itself", post.thread, out.key)
            sent = await send(self._bot, self._without_topic(post))
            at = dataclasses.replace(out.address, thread=None)
            return Sent(ref=str(MessageRef(chat_id=sent.chat.id, message_id=sent.message_id)), at=at)
        return Sent(ref=str(MessageRef(chat_id=sent.chat.id, message_id=sent.message_id)))

    def _without_topic(self, post: Post) -> Post:
        """Return a message for the chat itself, with why it comes there."""
        mark = self._topic_mark().rstrip()
        if not mark:
            return dataclasses.replace(post, thread=None)
        most = MOST_TEXT_UNITS if post.document is None else MOST_CAPTION_UNITS
        text = fitted(f"{mark}\n{post.text}", most)
        return dataclasses.replace(post, thread=None, text=text, entities=())

    async def _edit(self, row: ClaimedRow) -> Outcome:
        """Change text and buttons; of a message that went with a file the text is its caption."""
        out = row.outgoing
        ready = self._ready(out, captioned=row.target_file)
        if isinstance(ready, Rejected):
            return ready
        ref = _own(out, row.target_ref)
        if isinstance(ref, Declined):
            return ref
        markup = keyboard(out.choices)
        if row.target_file:
            await self._bot.edit_message_caption(
                chat_id=ref.chat_id, message_id=ref.message_id, caption=ready, reply_markup=markup
            )
        else:
            await self._bot.edit_message_text(
                chat_id=ref.chat_id,
                message_id=ref.message_id,
                text=ready,
                link_preview_options=NO_PREVIEW,
                reply_markup=markup,
            )
        return Sent(ref=str(ref))

    async def _pin(self, out: Outgoing, target_ref: str | None, *, pinned: bool) -> Outcome:
        ref = _own(out, target_ref)
        if isinstance(ref, Declined):
            return ref
        if pinned:
            await self._bot.pin_chat_message(chat_id=ref.chat_id, message_id=ref.message_id, disable_notification=True)
        else:
            await self._bot.unpin_chat_message(chat_id=ref.chat_id, message_id=ref.message_id)
        return Sent()

    async def _fetch(self, out: Outgoing) -> Outcome:
        if self._album is None or not out.target or not out.text:
            return Rejected(why="no file, or nowhere to put it")
        data = await fetch(self._bot, self._request, out.target)
        if isinstance(data, Declined):
            return data
        await asyncio.to_thread(self._album, out.text, data)
        return Sent()

    async def _react(self, out: Outgoing) -> Outcome:
        ref = read_ref(out.target or "")
        if ref is None:
            return Rejected(why="the message to be acknowledged is not one of Telegram's")
        wanted = out.text.replace(_DRAWN, "")
        if wanted not in _REACTIONS:
            wanted = self._reaction
        await self._bot.set_message_reaction(chat_id=ref.chat_id, message_id=ref.message_id, reaction=wanted)
        return Sent()

    async def _answer_tap(self, out: Outgoing) -> Outcome:
        if not out.target:
            return Rejected(why="no tap to be answered")
        text = fitted(sendable(out.text), MOST_TAP_ANSWER_UNITS)
        await self._bot.answer_callback_query(callback_query_id=out.target, text=text or None)
        return Sent()

    def _ready(self, out: Outgoing, *, captioned: bool = False) -> str | Rejected:
        """Return the text as it will be sent, or why this can never be sent; `captioned`: it stands under a file."""
        text = sendable(out.text)
        document = out.document
        captioned = captioned or document is not None
        if not captioned and not text.strip():
            return Rejected(why="no text")
        if document is not None and not 0 < len(document.data) <= MOST_UPLOAD_BYTES:
            return Rejected(why=f"a file of {len(document.data)} bytes, 1 to {MOST_UPLOAD_BYTES} are allowed")
        if not out.address.chat.removeprefix("-").isdecimal():
            return Rejected(why="not the number of a chat")
        try:
            keyboard(out.choices)
        except ValueError as error:
            return Rejected(why=str(error))
        repeats = out.possible_repeat and out.kind is OutgoingKind.MESSAGE
        if repeats and (mark := self._repeat_mark().rstrip()):
            text = f"{mark}\n{text}"
        short = fitted(text, MOST_CAPTION_UNITS if captioned else MOST_TEXT_UNITS)
        if short != text:
            log.error("telegram: %s is too long (%d characters) and was cut", out.key, len(text))
        return short

    def _noting_pauses(self, outcome: Outcome, out: Outgoing) -> Outcome:
        """Widen a rate limit to all chats when a second one meets it while the first still waits."""
        if not isinstance(outcome, TryAgain) or outcome.costs_attempt or outcome.whole_transport:
            return outcome
        now, chat = self._clock(), out.address.chat
        if chat.startswith("-"):  # slow mode and the limit of a group say nothing about other chats
            return outcome
        self._paused_until = {c: until for c, until in self._paused_until.items() if until > now}
        others = self._paused_until.keys() - {chat}
        self._paused_until[chat] = now + outcome.wait
        return dataclasses.replace(outcome, whole_transport=bool(others))


def _hiding(outcome: Outcome, token: Token) -> Outcome:
    """Return the outcome with the token masked in its reason, whatever the server wrote."""
    if isinstance(outcome, TryAgain | Unreachable | Rejected | Declined | Unknown | Locked):
        return dataclasses.replace(outcome, why=token.hide(outcome.why))
    return outcome


def _own(out: Outgoing, target_ref: str | None) -> MessageRef | Declined:
    """Return the message of ours that is to be changed or pinned, or that it can no longer be."""
    ref = read_ref(target_ref or "")
    if ref is None:
        return Declined(lack=Lack.GONE, why="the message was never sent to Telegram")
    if str(ref.chat_id) != out.address.chat:  # messages stay behind when a group gets a new id
        return Declined(lack=Lack.GONE, why="the message is in another chat")
    return ref
