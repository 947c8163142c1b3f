"""Who the bot is: asked once at the start, needed for links and for what a group shows it.

It must not poll or send messages.
"""

from __future__ import annotations

import dataclasses
import re
from collections.abc import Sequence

from pydantic import BaseModel, ConfigDict, ValidationError

from bot.transport.telegram.calls import Answered, BotApi, NoAnswer, Refused
from bot.transport.telegram.poller import Outage, TokenRefused
from bot.transport.telegram.updates import HEARD_BY

_CODE = re.compile(r"[A-Za-z0-9_-]{1,64}")  # Bot features, deep linking: at most 64 characters of this alphabet


class _GetMe(BaseModel):
    model_config = ConfigDict(frozen=True, extra="ignore", strict=True)

    id: int
    username: str
    can_read_all_group_messages: bool = False


@dataclasses.dataclass(frozen=True, kw_only=True)
class Me:
    """The bot itself."""

    bot_id: int
    username: str
    reads_whole_groups: bool
    """False: in groups it sees only commands and replies to its own messages (privacy mode)."""

    @property
    def source(self) -> str:
        """The name of its updates in the inbox."""
        return f"telegram:{self.bot_id}"

    @property
    def mark(self) -> dict[str, object]:
        """Return what is stored with each update that this bot hears."""
        return {HEARD_BY: {"username": self.username, "reads_all": self.reads_whole_groups}}

    def join_link(self, code: str) -> str:
        """Return the link that opens a private chat and sends `/start <code>`; ValueError if it cannot."""
        if not _CODE.fullmatch(code):
            raise ValueError("a code in a link has 1 to 64 letters, digits, _ or -")
        return f"https://t.me/{self.username}?start={code}"


async def who_am_i(api: BotApi) -> Me | TokenRefused | Outage:
    """Ask the server who the token belongs to."""
    answer = await api.call("getMe", {})
    if isinstance(answer, Answered):
        try:
            me = _GetMe.model_validate(answer.result)
        except ValidationError:
            return Outage(why="unreadable answer")
        return Me(bot_id=me.id, username=me.username, reads_whole_groups=me.can_read_all_group_messages)
    if isinstance(answer, NoAnswer):
        return Outage(why=answer.why)
    if answer.token_refused:
        return TokenRefused(why=answer.description)
    return Outage(why=f"{answer.code} {answer.description}", wait_s=answer.retry_after_s)


class _Membership(BaseModel):
    model_config = ConfigDict(frozen=True, extra="ignore", strict=True)

    status: str


async def hears_all_of(api: BotApi, me: Me, chat: str) -> bool | None:
    """Ask whether the bot hears everything in a group: as an administrator, or everywhere; None when it is not told."""
    if me.reads_whole_groups:
        return True
    answer = await api.call("getChatMember", {"chat_id": int(chat), "user_id": me.bot_id})
    if not isinstance(answer, Answered):
        return None
    try:
        return _Membership.model_validate(answer.result).status in {"creator", "administrator"}
    except ValidationError:
        return None


async def show_commands(
    api: BotApi, commands: Sequence[tuple[str, str]], *, scope: str = "default", language: str = ""
) -> Refused | NoAnswer | None:
    """Set the menu of a kind of chat to these (name, description) pairs, for those who speak a language.

    `scope` is the name of one of the Bot API's scopes; no language is everybody else. None when the server took it.
    """
    menu = [{"command": name, "description": description} for name, description in commands]
    parameters: dict[str, object] = {"commands": menu, "scope": {"type": scope}}
    if language:
        parameters["language_code"] = language
    answer = await api.call("setMyCommands", parameters)
    return None if isinstance(answer, Answered) else answer
