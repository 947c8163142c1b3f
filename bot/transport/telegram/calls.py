"""A small client for the calls whose raw answer matters: getUpdates, getMe, setMyCommands.

It must not interpret updates, retry, or let the token out: answers and errors are values with masked texts.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping

import httpx

from bot.transport.telegram.redact import Token

OFFICIAL = "https://api.telegram.org"
"""The official Bot API server; a server of one's own, or a test, gives another address."""

_OK, _UNAUTHORIZED, _NOT_FOUND = 200, 401, 404


@dataclasses.dataclass(frozen=True, kw_only=True)
class Answered:
    """The call was carried out; `result` is JSON as the server sent it."""

    result: object


@dataclasses.dataclass(frozen=True, kw_only=True)
class Refused:
    """The server answered, but not with a result. `code` is the HTTP status."""

    code: int
    description: str
    retry_after_s: float | None = None

    @property
    def token_refused(self) -> bool:
        """Whether the token is revoked (401) or malformed (404)."""
        return self.code in {_UNAUTHORIZED, _NOT_FOUND}


@dataclasses.dataclass(frozen=True, kw_only=True)
class NoAnswer:
    """No answer that could be read: no network, a time-out, a server in trouble."""

    why: str


Answer = Answered | Refused | NoAnswer


class BotApi:
    """Calls methods of the Bot API by name. Use inside a running event loop; `close()` it at the end."""

    def __init__(
        self,
        *,
        token: Token,
        base_url: str = OFFICIAL,
        connect_s: float = 10.0,
        client: httpx.AsyncClient | None = None,
    ) -> None:
        """Prepare a client; nothing is sent yet. `base_url` is the server without `/bot`."""
        self._token = token
        self._root = base_url.rstrip("/")
        self._connect_s = connect_s
        self._client = client or httpx.AsyncClient()

    def __repr__(self) -> str:
        return "BotApi(token hidden)"

    async def close(self) -> None:
        """Close the connections."""
        await self._client.aclose()

    async def call(self, method: str, parameters: Mapping[str, object], *, read_s: float = 20.0) -> Answer:
        """Call a method once; wait at most `read_s` seconds for each part of the answer."""
        timeout = httpx.Timeout(self._connect_s, read=read_s)
        url = f"{self._root}/bot{self._token.reveal()}/{method}"
        try:
            response = await self._client.post(url, json=dict(parameters), timeout=timeout)
        except (httpx.HTTPError, httpx.InvalidURL) as error:
            return NoAnswer(why=self._token.hide(f"{type(error).__name__}: {error}"))
        try:
            body = response.json()
        except (ValueError, RecursionError):
            return NoAnswer(why=f"unreadable answer (status {response.status_code})")
        return self._read(response.status_code, body)

    def _read(self, code: int, body: object) -> Answer:
        if not isinstance(body, dict):
            return NoAnswer(why=f"unreadable answer (status {code})")
        if code == _OK and body.get("ok") is True and "result" in body:
            return Answered(result=body["result"])
        parameters = body.get("parameters")
        wait = parameters.get("retry_after") if isinstance(parameters, dict) else None
        return Refused(
            code=code,
            description=self._token.hide(str(body.get("description", ""))),
            retry_after_s=float(wait) if isinstance(wait, int | float) else None,
        )
