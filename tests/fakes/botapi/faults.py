"""What can go wrong on the way to and from the server, as values that a test asks for.

It must not act: the server asks which fault applies to a call and does it.
"""

from __future__ import annotations

import dataclasses
from enum import StrEnum
from typing import Any


class FaultKind(StrEnum):
    """What goes wrong."""

    FLOOD = "flood"
    """429 with `retry_after`; the call is not carried out."""
    STATUS = "status"
    """An error status with `description`; carried out first when `executed`."""
    PAGE = "page"
    """The status with an HTML page, as something in between would answer; carried out first when `executed`."""
    HANG = "hang"
    """No answer until released, then the connection is cut; carried out first when `executed`."""
    HOLD = "hold"
    """Waits until released, then goes on as if nothing had been; carried out before waiting when `executed`."""
    DROP = "drop"
    """The connection is cut without an answer; carried out first when `executed` (a swallowed answer)."""


@dataclasses.dataclass(kw_only=True)
class Fault:
    """One fault, for the calls it fits: a method, a chat, after skipping some, a number of times."""

    kind: FaultKind
    method: str | None = None
    chat: int | None = None
    skip: int = 0
    times: int = 1
    executed: bool = False
    code: int = 500
    description: str = "Internal Server Error"
    retry_after: int = 1

    def __post_init__(self) -> None:
        self.kind = FaultKind(self.kind)

    def takes(self, method: str, parameters: dict[str, Any]) -> bool:
        """Return whether this call is hit, and count it."""
        if self.method not in {None, method} or self.times <= 0:
            return False
        if self.chat is not None and parameters.get("chat_id") != self.chat:
            return False
        if self.method is None and method == "getUpdates":
            return False
        if self.skip > 0:
            self.skip -= 1
            return False
        self.times -= 1
        return True
