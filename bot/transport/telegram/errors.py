"""Turns every error that a call to Telegram can end in into an outcome, in one function.

It must not send, wait or log.

Which errors prove that nothing was delivered, and which leave it open, was read in python-telegram-bot
22.8 (`telegram/request/_httpxrequest.py`, `telegram/error.py`) and httpx 0.28: a connection that never stood
carried nothing; once the request may have been written, only an answer tells.
"""

from __future__ import annotations

import datetime as dt

import httpx
from telegram import error as tg

from bot.chat import (
    Address,
    Declined,
    Lack,
    Locked,
    Moved,
    Outcome,
    OutgoingKind,
    Rejected,
    Sent,
    TryAgain,
    Unknown,
    Unreachable,
)

TRANSPORT = "telegram"

NETWORK_WAIT = dt.timedelta(seconds=5)
"""Before trying a network that was down; the courier may wait longer after repeated failures."""
BUSY_WAIT = dt.timedelta(seconds=30)
"""When the server says "too many requests" but not for how long."""
NO_JITTER = dt.timedelta(0)

# The connection never stood, or the request was never written: certainly not delivered.
_NEVER_LEFT = (httpx.PoolTimeout, httpx.ConnectTimeout, httpx.ConnectError, httpx.ProxyError)
_WRONG_ADDRESS = (httpx.UnsupportedProtocol, httpx.InvalidURL)

# Words inside errors 400. The first two groups: the official server (tdlib/telegram-bot-api, 01a3679c);
# the others from memory: a wording not listed here is parked, never lost.
_DONE_BEFORE = ("message is not modified",)
_TAP_TOO_OLD = ("query is too old", "query id is invalid")
_NO_WAY_IN = (
    "chat not found",
    "user not found",
    "peer_id_invalid",
    "group chat was deactivated",
    "bot is not a member",
    "have no rights to send",
    "not enough rights to send",
    "need administrator rights",
    "chat_write_forbidden",
    "chat_restricted",
)
_GONE = (
    "message to edit not found",
    "message to pin not found",
    "message to react not found",
    "message can't be edited",
    "message_id_invalid",
    "message identifier is not specified",
)
_UNPINNED_BEFORE = ("message to unpin not found", "message is not pinned", "chat_not_modified", "message_id_invalid")
_NO_PIN = (
    "not enough rights to manage pinned messages",
    "not enough rights to pin",
    "not enough rights to unpin",
    "chat_admin_required",
    "need administrator rights",
    "pin_restricted",
)
_NO_CHAT = ("chat not found", "group chat was deactivated", "peer_id_invalid")
_FILE_GONE = ("file is too big", "wrong file_id", "file_id_invalid", "invalid file_id", "temporarily unavailable")
_NOT_A_PICTURE = ("photo_invalid_dimensions", "image_process_failed", "photo_save_file_invalid", "photo_ext_invalid")
_TOPIC_GONE = ("message thread not found", "topic_closed", "topic_deleted", "topic_id_invalid")


def outcome_of(error: BaseException, *, edit: bool, jitter: dt.timedelta = NO_JITTER) -> Outcome:
    """Return what an error means for the row that was being sent.

    `edit` is True for what may simply be done again (edits, reactions, answers to taps): where a message
    would be `Unknown`, these are tried again. `jitter` is added to the wait that the server asks for.
    """
    if isinstance(error.__cause__, tg.TelegramError):  # an error page of somebody in between, not of Telegram
        return _unknown("an answer that is not Telegram's", edit=edit)
    if isinstance(error, tg.RetryAfter):
        wait = _span(error.retry_after)
        return TryAgain(wait=wait + jitter, why="Telegram asks for a pause", costs_attempt=False)
    if isinstance(error, tg.ChatMigrated):
        return Moved(to=Address(transport=TRANSPORT, chat=str(error.new_chat_id)))
    if isinstance(error, tg.Forbidden):
        return Unreachable(why=error.message)
    if isinstance(error, tg.InvalidToken):  # its text may hold the token: never passed on
        return Locked(why="Telegram does not accept the bot token (revoked or mistyped)")
    if isinstance(error, tg.EndPointNotFound | tg.PassportDecryptionError):
        return Rejected(why=f"{type(error).__name__}: the server does not know this call")
    if isinstance(error, tg.Conflict):
        return TryAgain(wait=BUSY_WAIT + jitter, why="another program uses this bot")
    if isinstance(error, tg.BadRequest):
        return _bad_request(error.message)
    if isinstance(error, tg.NetworkError):  # also TimedOut, which is one of these
        return _by_cause(error, edit=edit, jitter=jitter)
    return _unknown(f"no readable answer ({type(error).__name__})", edit=edit)


def declined(error: BaseException, kind: OutgoingKind) -> Outcome | None:
    """Return the outcome of a refusal that breaks nothing: no right to pin, no reactions, a message that is gone.

    None for all that `outcome_of` judges.
    """
    if not isinstance(error, tg.BadRequest) or isinstance(error.__cause__, tg.TelegramError):
        return None
    text = error.message
    if kind is OutgoingKind.UNPIN and _says(text, _UNPINNED_BEFORE):
        return Sent()
    if kind is OutgoingKind.PIN and _says(text, ("chat_not_modified",)):  # pinned before
        return Sent()
    if kind in {OutgoingKind.PIN, OutgoingKind.UNPIN} and _says(text, _NO_PIN):
        return Declined(lack=Lack.PIN, why=text)
    if kind in {OutgoingKind.EDIT, OutgoingKind.PIN} and _says(text, _GONE):
        return Declined(lack=Lack.GONE, why=text)
    if kind is OutgoingKind.REACTION and not _says(text, _NO_CHAT):
        return Declined(lack=Lack.REACTION, why=text)
    if kind is OutgoingKind.FETCH and _says(text, _FILE_GONE):
        return Declined(lack=Lack.FILE, why=text)
    return None


def not_a_picture(error: BaseException) -> bool:
    """Return whether Telegram cannot show a file as a picture, so that it goes as a file."""
    return isinstance(error, tg.BadRequest) and _says(error.message, _NOT_A_PICTURE)


def topic_is_gone(error: BaseException) -> bool:
    """Return whether a message was refused only because its topic was closed or deleted."""
    return isinstance(error, tg.BadRequest) and _says(error.message, _TOPIC_GONE)


def _bad_request(text: str) -> Outcome:
    if _says(text, _DONE_BEFORE) or _says(text, _TAP_TOO_OLD):
        return Sent()
    if _says(text, _NO_WAY_IN):
        return Unreachable(why=text)
    return Rejected(why=text)


def _by_cause(error: tg.NetworkError, *, edit: bool, jitter: dt.timedelta) -> Outcome:
    cause = error.__cause__
    if isinstance(cause, httpx.PoolTimeout):
        return TryAgain(wait=NETWORK_WAIT, why="too many calls at once", costs_attempt=False)
    if isinstance(cause, _NEVER_LEFT):
        why = f"no connection ({type(cause).__name__})"
        return TryAgain(wait=NETWORK_WAIT, why=why, costs_attempt=False, whole_transport=True)
    if isinstance(cause, _WRONG_ADDRESS):
        return Locked(why="the address of the Bot API server or the token has a wrong form")
    if cause is None and "too many requests" in error.message.lower():
        return TryAgain(wait=BUSY_WAIT + jitter, why="Telegram asks for a pause", costs_attempt=False)
    if cause is not None:
        return _unknown(f"answer lost ({type(cause).__name__})", edit=edit)
    return _unknown(f"server trouble ({error.message})", edit=edit)


def _unknown(why: str, *, edit: bool) -> Outcome:
    return TryAgain(wait=NETWORK_WAIT, why=why) if edit else Unknown(why=why)


def _span(value: float | dt.timedelta) -> dt.timedelta:
    return value if isinstance(value, dt.timedelta) else dt.timedelta(seconds=value)


def _says(text: str, phrases: tuple[str, ...]) -> bool:
    return any(phrase in text.lower() for phrase in phrases)
