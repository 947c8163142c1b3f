"""What a crew does in a cook that is played: values only.

Nothing is done here; `tests.properties.play` acts on them.
"""

from __future__ import annotations

import dataclasses
import datetime as dt

from scheduler.facts import Detail, Feel, PieceAdded, ReadBy, Slot, WatchesTold, Wrap


@dataclasses.dataclass(frozen=True, kw_only=True)
class Start:
    """How a cook is begun. Minutes are counted from `at`."""

    at: dt.datetime
    cut: str = "beef_chuck_ribs"
    dinner_min: int | None = 720
    """Minutes to dinner, None: when ready."""
    window_min: int = 0
    zone: str = "Europe/London"
    pit_c: float = 135.0
    wrap: Wrap | None = None
    on_ago_min: int | None = None
    """Minutes since the meat went on, for a cook begun in the middle."""
    core_c: float | None = None
    pace: float = 1.0
    """How fast the meat rises: 1 is usual."""
    mass_kg: float | None = None
    detail: Detail = Detail.USUAL
    read_by: ReadBy | None = None
    frozen: bool = False
    others: tuple[PieceAdded, ...] = ()
    """The other pieces of the same cook."""
    watches: WatchesTold | None = None
    """Watches and quiet hours that are told with the plan."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Wait:
    """Time passes; the bell rings whenever it must."""

    minutes: int


@dataclasses.dataclass(frozen=True, kw_only=True)
class Work:
    """Time passes with a good crew: everything asked is answered well a few minutes later."""

    minutes: int


@dataclasses.dataclass(frozen=True, kw_only=True)
class Away:
    """Time passes while the program is off; the bell rings once it is back."""

    minutes: int


@dataclasses.dataclass(frozen=True, kw_only=True)
class Answer:
    """The newest open question is answered; `choice` picks among what it offers."""

    choice: int = 0


@dataclasses.dataclass(frozen=True, kw_only=True)
class Do:
    """A step is reported as done, asked for or not."""

    step: str
    choice: int = 0
    ago_min: int = 0
    """Negative: in the future, as by a clock that is wrong."""
    dated: bool = False


@dataclasses.dataclass(frozen=True, kw_only=True)
class Read:
    """A temperature is reported: what the meat has (or the pit should have), give or take."""

    slot: Slot = Slot.CORE
    off_c: float = 0.0
    ago_min: int = 0
    spread_c: float = 0.0
    spot: str | None = None
    sure: bool = False


@dataclasses.dataclass(frozen=True, kw_only=True)
class Skip:
    """A step is skipped."""

    step: str


@dataclasses.dataclass(frozen=True, kw_only=True)
class Later:
    """The newest open question is put off."""

    minutes: int


@dataclasses.dataclass(frozen=True, kw_only=True)
class PutOn:
    """The meat is wrapped, or meant to stay bare."""

    wrap: Wrap


@dataclasses.dataclass(frozen=True, kw_only=True)
class Touch:
    """Somebody feels for tenderness."""

    feel: Feel


@dataclasses.dataclass(frozen=True, kw_only=True)
class Undo:
    """Somebody takes back the last thing they told."""

    who: int = 0


@dataclasses.dataclass(frozen=True, kw_only=True)
class Amend:
    """A fact that somebody told gets another value or time."""

    which: int
    off_c: float = 0.0
    ago_min: int | None = None


@dataclasses.dataclass(frozen=True, kw_only=True)
class MoveDinner:
    """Dinner is moved; None: it follows the meat from now on."""

    minutes: int | None


@dataclasses.dataclass(frozen=True, kw_only=True)
class MovePit:
    """The pit is to run at another temperature."""

    pit_c: float


Action = Wait | Work | Away | Answer | Do | Read | Skip | Later | PutOn | Touch | Undo | Amend | MoveDinner | MovePit
