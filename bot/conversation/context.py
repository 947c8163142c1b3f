"""What the reader of a text has to know besides the text.

Values only; `bot.application` fills them from the log and the open questions.
"""

from __future__ import annotations

import dataclasses
import datetime as dt

from bot.commands import Intent
from scheduler.cuts import Cuts
from scheduler.facts import CookerKind, RestPlace, Serving, Slot, Wrap


@dataclasses.dataclass(frozen=True, kw_only=True)
class OpenStep:
    """A prompt that waits for an answer, newest question first in `Context.open_steps`.

    `asks` is what it wants: numbers (slots), a choice (outcome words), or only "done".
    """

    step: str
    title: str
    slots: tuple[Slot, ...] = ()
    outcomes: tuple[str, ...] = ()
    """Outcome words it offers ("thin", "grey", "white")."""
    is_question: bool = False
    """True for the one open question of its message; ticks are False."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class OfferedChoice:
    """A button now on the screen: its letter (terminal), its label and what it means."""

    letter: str
    label: str
    meaning: Intent


@dataclasses.dataclass(frozen=True, kw_only=True)
class CookerName:
    """A name that a cooker goes by, tidied: that of a kind, or of somebody's own card."""

    name: str
    kind: CookerKind
    card: str | None = None


@dataclasses.dataclass(frozen=True, kw_only=True)
class KnownPiece:
    """One of several pieces of a cook: its id, its cut, its number among those of the same cut.

    `context` is what decides the meaning of words about this piece.
    """

    piece: str
    cut: str
    number: int | None
    context: Context


@dataclasses.dataclass(frozen=True, kw_only=True)
class Context:
    """Everything that decides what a text means."""

    now: dt.datetime
    """When the person sent it (UTC)."""
    zone: str
    unit: str | None
    """F or C as set for the chat, None while nobody has said."""
    stage: str
    """none, before, fire, cooking, resting, serving, after."""
    cuts: Cuts
    open_steps: tuple[OpenStep, ...] = ()
    choices: tuple[OfferedChoice, ...] = ()
    cooker_names: tuple[CookerName, ...] = ()
    pit_target_c: float | None = None
    last_core_c: float | None = None
    last_core_at: dt.datetime | None = None
    last_pit_c: float | None = None
    last_pit_at: dt.datetime | None = None
    last_told_at: dt.datetime | None = None
    """When anything was read last, also what is in doubt."""
    lights_at: dt.datetime | None = None
    """When the fire is to be lit, while it is not."""
    meat_on_at: dt.datetime | None = None
    wrap: Wrap | None = None
    setup_slot: str | None = None
    """While a cook is being set up: the question that is open (cut, serving, pit, mass, wrap), else None."""
    troubles: tuple[str, ...] = ()
    """Problems of the catalogue that were reported and are not over."""
    pieces: tuple[KnownPiece, ...] = ()
    """The pieces of a cook that has several, else nothing."""
    cut: str | None = None
    """The cut of a cook that has one piece: a number beside its name is its core."""
    each: int = 1
    """So many like pieces of which each is read (two birds): as many numbers in a row are all cores."""
    of_piece: bool = False
    """True for words beside the name of one of several pieces."""
    asked_cores: tuple[str, ...] = ()
    """The pieces whose core is asked for, in the order in which the question names them."""
    serving: Serving | None = None
    """When dinner is planned now: "18:30 at the latest" widens it, and a bare "7" stays on its day."""
    rest_place: RestPlace | None = None
    """Where the meat is to rest, as told."""
    people: tuple[str, ...] = ()
    """Names of those who belong to this kitchen."""
    may_keep: bool = False
    """True once the meat was served, or pulled after its safe minimum was read: it may be cooled."""
    stop_stands: bool = False
    """True while the cook is stopped for safety: words that would wave it off are heard as that."""
    chilling: bool = False
    """True once food was put away to cool: a bare figure is read of that."""
    asks_allergy: bool = False
    """True while an allergy was told and nobody has said of what."""
    muted: tuple[str, ...] = ()
    """Steps whose prompts were switched off."""
    watch_offered: bool = False
    """True while the watch is to be taken over: "I have it" is about it."""
    sound_open: bool = False
    """True while somebody's test of the wake-up waits for an answer."""
