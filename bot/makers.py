"""Protocols of what makes files for people: papers and pictures of a cook. No adapter, no wording."""

from __future__ import annotations

import dataclasses
import datetime as dt
from typing import TYPE_CHECKING, Literal, Protocol

from bot.chat import Document
from scheduler.facts import Fact, PaperIssued

if TYPE_CHECKING:
    from bot.messages.figures import Voice
    from scheduler.cook import Situation  # named only: slow to import

PaperKind = Literal["page", "calendar", "record"]


@dataclasses.dataclass(frozen=True, kw_only=True)
class Paper:
    """A plan or a record given out: the file, and the fact that says so."""

    document: Document
    issued: PaperIssued
    also: Document | None = None
    """The same as a table, where there is one."""


class ChartMaker(Protocol):
    """Makes a picture of a cook."""

    def __call__(self, situation: Situation, *, log: tuple[Fact, ...], voice: Voice, dark: bool | None) -> Document:
        """Return the picture as of `voice.now`, in the language spoken now; `dark` None: as fits the hour."""


class PaperMaker(Protocol):
    """Makes a file of the plan of a cook."""

    def __call__(
        self, paper: PaperKind, situation: Situation, *, now: dt.datetime, log: tuple[Fact, ...], unit: str | None
    ) -> Paper:
        """Return the paper as of `now`; `log` is the whole log of the cook, with every paper given out before, `unit`
        the one that its reader uses (None: that of the cook). Its language is the one that is spoken now.
        """
