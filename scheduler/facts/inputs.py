"""What a cook is planned with: the meat, the cooker, the people and the air. Values only."""

from __future__ import annotations

import dataclasses
import datetime as dt
from typing import ClassVar, Literal

from scheduler.facts.choices import Appetite, CookerKind, Detail, ReadBy, RestPlace, Wrap
from scheduler.facts.serving import Serving


@dataclasses.dataclass(frozen=True, kw_only=True)
class Planned:
    """The inputs of a cook: one piece with a count of like ones. A later `Planned` replaces an earlier one."""

    kind: ClassVar[str] = "planned"
    version: ClassVar[int] = 1
    cut: str
    serving: Serving
    pit_low_c: float
    pit_high_c: float
    count: int = 1
    mass_kg: float | None = None
    """Mass of one piece; None is unknown, not zero."""
    thickness_m: float | None = None
    wrap: Wrap | None = None
    """The intended wrap; None is undecided."""
    detail: Detail = Detail.USUAL
    unit: str = "F"
    """The unit of the chat, F or C: for wording and for numbers without a unit."""
    from_middle: bool = False
    """True when the cook was started in the middle: earlier steps are unknown and not asked."""
    confidence: float | None = None
    """Wanted probability of eating on time, 0 to 1; None is the usual one of the planner."""
    read_by: ReadBy | None = None
    """How the core is read; None is unknown, and then a wire is not assumed."""
    frozen: bool = False
    """True when the meat is bought frozen and must be thawed."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class PieceAdded:
    """One more piece of the same cook, on the same cooker; `Fact.piece` names it. A later one replaces it.

    The first piece of a cook stands in its `Planned`.
    """

    kind: ClassVar[str] = "piece_added"
    version: ClassVar[int] = 1
    cut: str
    count: int = 1
    mass_kg: float | None = None
    """Mass of one; None is unknown, not zero."""
    thickness_m: float | None = None
    wrap: Wrap | None = None
    pit_low_c: float | None = None
    """Pit that this piece wants from the moment it goes on, None: the cook's [°C]."""
    pit_high_c: float | None = None
    serving: Serving | None = None
    """When this piece is wanted on the table, None: with the others. A later one is a wave of its own."""
    frozen: bool = False


@dataclasses.dataclass(frozen=True, kw_only=True)
class PieceDropped:
    """`Fact.piece` is not cooked after all."""

    kind: ClassVar[str] = "piece_dropped"
    version: ClassVar[int] = 1


@dataclasses.dataclass(frozen=True, kw_only=True)
class GuestsTold:
    """Who eats: None was not told."""

    kind: ClassVar[str] = "guests_told"
    version: ClassVar[int] = 1
    adults: int | None = None
    children: int | None = None
    appetite: Appetite = Appetite.NORMAL
    buns: bool = False
    """Served in buns, of which people eat less than from a plate."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class VentMark:
    """Where the vents stand for a pit band [°C], in the owner's own words."""

    low_c: float
    high_c: float
    words: str


@dataclasses.dataclass(frozen=True, kw_only=True)
class CookerTold:
    """The cooker of this cook, copied from its card so that the log stands alone. None and empty are unknown."""

    kind: ClassVar[str] = "cooker_told"
    version: ClassVar[int] = 1
    cooker: CookerKind
    name: str | None = None
    dial_offset_c: float | None = None
    """What is added to the dial in the lid to get the air at the grate [°C]."""
    vents: tuple[VentMark, ...] = ()
    wood_by: Literal["lid", "door", "firebox", "before"] | None = None
    """How wood gets in while cooking; "before": only laid in with the charcoal."""
    water_pan: bool = False
    fuel_kg_per_h: float | None = None
    """Charcoal per hour measured with this cooker at `fuel_at_c`; None: from the energy balance."""
    fuel_at_c: float | None = None
    fuel_holds_kg: float | None = None
    """Charcoal that one filling holds; None: what is usual for the kind."""
    fuel: Literal["lump", "briquettes"] | None = None
    """Kind of charcoal; None: what is usual for the kind of cooker."""
    light_min: float | None = None
    """Minutes from lighting to a pit that is ready for the meat; None: what is usual for any cooker."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class FuelTold:
    """Charcoal put in [kg]: at the beginning, or added (then `added` is True)."""

    kind: ClassVar[str] = "fuel_told"
    version: ClassVar[int] = 1
    kg: float
    added: bool = False


@dataclasses.dataclass(frozen=True, kw_only=True)
class Watch:
    """Who looks after the fire from one wall time to another (naive, in the cook's zone)."""

    name: str
    start: dt.datetime
    end: dt.datetime


@dataclasses.dataclass(frozen=True, kw_only=True)
class WatchesTold:
    """Watches and quiet hours of the cook; a later one replaces it. `quiet` None: the usual quiet hours."""

    kind: ClassVar[str] = "watches_told"
    version: ClassVar[int] = 1
    watches: tuple[Watch, ...] = ()
    quiet: tuple[dt.time, dt.time] | None = None


@dataclasses.dataclass(frozen=True, kw_only=True)
class KindTold:
    """Prompts of one step are wanted, or no more (never for a step of safety)."""

    kind: ClassVar[str] = "kind_told"
    version: ClassVar[int] = 1
    step: str
    wanted: bool


@dataclasses.dataclass(frozen=True, kw_only=True)
class DetailTold:
    """How much people want to be told from now on."""

    kind: ClassVar[str] = "detail_told"
    version: ClassVar[int] = 1
    detail: Detail


@dataclasses.dataclass(frozen=True, kw_only=True)
class RestTold:
    """How the meat rests: minutes between pull and knife (None: as planned) and the place (None: as planned)."""

    kind: ClassVar[str] = "rest_told"
    version: ClassVar[int] = 1
    minutes: float | None = None
    place: RestPlace | None = None
    oven_c: float | None = None
    """Set point of a warm oven [°C]."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class WrapPlanned:
    """The wrap that is now intended for a piece that is not wrapped yet."""

    kind: ClassVar[str] = "wrap_planned"
    version: ClassVar[int] = 1
    wrap: Wrap


@dataclasses.dataclass(frozen=True, kw_only=True)
class MovedToOven:
    """The meat cooks on in an oven of that temperature [°C], without smoke."""

    kind: ClassVar[str] = "moved_to_oven"
    version: ClassVar[int] = 1
    oven_c: float


@dataclasses.dataclass(frozen=True, kw_only=True)
class Divided:
    """The piece was cut into so many even parts, which cook on together."""

    kind: ClassVar[str] = "divided"
    version: ClassVar[int] = 1
    parts: int


@dataclasses.dataclass(frozen=True, kw_only=True)
class AirTold:
    """The air around the cooker: a number [°C] or a word, and the wind. None was not told and changes nothing."""

    kind: ClassVar[str] = "air_told"
    version: ClassVar[int] = 1
    temp_c: float | None = None
    word: Literal["cold", "cool", "warm", "hot"] | None = None
    wind: Literal["calm", "windy"] | None = None
