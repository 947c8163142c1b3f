"""One card about a problem: what to do now, the caution, one question, the usual answers. A value, without words."""

from __future__ import annotations

import dataclasses
from collections.abc import Callable

from bot.messages.message import Option

Words = Callable[[], str]


def _no_answers() -> tuple[Option, ...]:
    return ()


@dataclasses.dataclass(frozen=True, kw_only=True)
class Card:
    """Words may hold fields in braces; `bot.messages.problems` fills them in the unit of the room."""

    name: Words
    do: Words
    caution: Words
    ask: Words
    answers: Callable[[], tuple[Option, ...]]
    lever: str | None
    """A lever of the catalogue that is offered with it while it is open."""


def card(
    *,
    name: Words,
    do: Words,
    ask: Words,
    caution: Words = str,
    answers: Callable[[], tuple[Option, ...]] = _no_answers,
    lever: str | None = None,
) -> Card:
    """Return a card."""
    return Card(name=name, do=do, caution=caution, ask=ask, answers=answers, lever=lever)
