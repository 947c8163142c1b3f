"""Cookers: what the catalogue says of each kind, and the card of one that a person owns.

This room reads text, never files; it knows no meat and computes no heat.
"""

from __future__ import annotations

import tomllib
from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field, ValidationError, model_validator

from scheduler.cut_names import name_key
from scheduler.cuts import Spread, read_entries
from scheduler.cuts.own import Complaint
from scheduler.facts import CookerKind, CookerTold, VentMark
from scheduler.units import c_from_f, c_step_from_f

Positive = Annotated[float, Field(gt=0, allow_inf_nan=False)]
Figure = Annotated[float, Field(allow_inf_nan=False)]
Name = Annotated[str, Field(min_length=1, max_length=40, pattern=r"^\S(.*\S)?$")]
WoodBy = Literal["lid", "door", "firebox", "before"]
FuelName = Literal["lump", "briquettes"]

_DIAL_MOST_C = 60.0
"""A dial that is farther off than this shows nothing: house rule."""
_PIT_LOW_C, _PIT_HIGH_C = 60.0, 260.0
"""Pit bands of vent marks lie between these [°C]: house rule, against a unit mixed up."""


def plain_name(name: str) -> str:
    """Return a name without the article before it."""
    first, _, rest = name.strip().partition(" ")
    return rest if rest and first.casefold() in {"the", "my", "our", "a", "an"} else name


class _Data(BaseModel):
    model_config = ConfigDict(frozen=True, extra="forbid")


class Fuel(_Data):
    """A kind of charcoal: lower heating value as fired [MJ/kg] and share of carbon, 0 to 1."""

    mj_per_kg: Spread
    carbon: Spread
    basis: str


class Cooker(_Data):
    """One kind of cooker; what each figure means stands at the head of `catalogue/cookers.toml`."""

    id: CookerKind
    name: str
    also_called: tuple[str, ...]
    fuel: FuelName
    """The charcoal that is usual in it."""
    walls_w_per_k: Spread
    walls_kj_per_k: Spread
    air_ratio: Spread
    wind: Annotated[float, Field(ge=1, le=3)]
    rain: Annotated[float, Field(ge=1, le=3)]
    opening_fall_c: Positive
    opening_min: Positive
    wood_by: WoodBy
    holds_kg: Spread
    light_min: Spread
    dial_offset_c: Spread
    grate_m2: Spread
    fits: str
    basis: str

    @model_validator(mode="after")
    def _positive(self) -> Cooker:
        for field in ("walls_w_per_k", "walls_kj_per_k", "holds_kg", "light_min", "grate_m2"):
            if getattr(self, field).low <= 0:
                raise ValueError(f"{self.id}: {field} is not above zero")
        if self.air_ratio.low < 1:
            raise ValueError(f"{self.id}: a fire with less air than it needs (air_ratio below 1) does not burn")
        return self


class Cookers(_Data):
    """Every kind of cooker and every kind of charcoal."""

    fuels: dict[FuelName, Fuel]
    cookers: tuple[Cooker, ...]

    @model_validator(mode="after")
    def _consistent(self) -> Cookers:
        ids = [cooker.id for cooker in self.cookers]
        if sorted(ids) != sorted(CookerKind):
            raise ValueError(f"each kind stands once: {', '.join(sorted(CookerKind))}")
        if set(self.fuels) != {"lump", "briquettes"}:
            raise ValueError("fuels are lump and briquettes")
        names: dict[str, CookerKind] = {}
        for cooker in self.cookers:
            for name in (cooker.id, cooker.name, *cooker.also_called):
                if names.setdefault(name_key(name), cooker.id) != cooker.id:
                    raise ValueError(f"{name!r} names both {names[name_key(name)]} and {cooker.id}")
        return self

    def get(self, kind: CookerKind) -> Cooker:
        """Return what the catalogue says of a kind."""
        return next(cooker for cooker in self.cookers if cooker.id is kind)

    def named(self, text: str) -> CookerKind | None:
        """Return the kind that a text names ("kettle", "the drum smoker"), None when it names none."""
        wanted = name_key(plain_name(text))
        for cooker in self.cookers:
            if wanted in {name_key(name) for name in (cooker.id, cooker.name, *cooker.also_called)}:
                return cooker.id
        return None

    def of_kind(self, kind: CookerKind) -> CookerTold:
        """Return what is written into a log for a cooker of which only the kind is known."""
        cooker = self.get(kind)
        return CookerTold(cooker=kind, wood_by=cooker.wood_by, light_min=cooker.light_min.typical)


class CardVent(_Data):
    """Where the vents of a card stand for a pit band, in °F or in °C."""

    low_f: Figure | None = None
    high_f: Figure | None = None
    low_c: Figure | None = None
    high_c: Figure | None = None
    words: Annotated[str, Field(min_length=1, max_length=120)]

    @model_validator(mode="after")
    def _one_unit(self) -> CardVent:
        in_f, in_c = (self.low_f, self.high_f), (self.low_c, self.high_c)
        if (None in in_f) == (None in in_c) or {*in_f, *in_c} - {None} not in ({*in_f}, {*in_c}):
            raise ValueError("give low_f and high_f, or low_c and high_c")
        mark = self.mark()
        if not _PIT_LOW_C <= mark.low_c <= mark.high_c <= _PIT_HIGH_C:
            raise ValueError(f"no pit runs from {mark.low_c:.0f} to {mark.high_c:.0f} °C: is it the other unit?")
        return self

    def mark(self) -> VentMark:
        """Return it as it stands in a log."""
        if self.low_f is not None and self.high_f is not None:
            return VentMark(low_c=c_from_f(self.low_f), high_c=c_from_f(self.high_f), words=self.words)
        assert self.low_c is not None
        assert self.high_c is not None
        return VentMark(low_c=self.low_c, high_c=self.high_c, words=self.words)


class Card(_Data):
    """The card of one cooker that a person owns. What is left out is taken as usual for its kind."""

    name: Name
    kind: CookerKind
    also_called: tuple[Name, ...] = ()
    dial_offset_c: Annotated[float, Field(ge=-_DIAL_MOST_C, le=_DIAL_MOST_C)] | None = None
    dial_offset_f: Annotated[float, Field(ge=-_DIAL_MOST_C * 1.8, le=_DIAL_MOST_C * 1.8)] | None = None
    wood_by: WoodBy | None = None
    water_pan: bool = False
    fuel: FuelName | None = None
    fuel_kg_per_h: Annotated[float, Field(gt=0.03, lt=10)] | None = None
    fuel_at_f: Figure | None = None
    fuel_at_c: Figure | None = None
    fuel_holds_kg: Annotated[float, Field(gt=0.2, lt=60)] | None = None
    light_min: Annotated[float, Field(ge=10, le=240)] | None = None
    vents: tuple[CardVent, ...] = ()

    @model_validator(mode="after")
    def _one_unit(self) -> Card:
        for of in ("dial_offset", "fuel_at"):
            if getattr(self, f"{of}_c") is not None and getattr(self, f"{of}_f") is not None:
                raise ValueError(f"{of} is given in °C and in °F: leave one out")
        at_c = self._fuel_at_c()
        if at_c is not None and not _PIT_LOW_C <= at_c <= _PIT_HIGH_C:
            raise ValueError(f"no pit runs at {at_c:.0f} °C: is fuel_at in the other unit?")
        return self

    def _fuel_at_c(self) -> float | None:
        return self.fuel_at_c if self.fuel_at_f is None else c_from_f(self.fuel_at_f)

    def told(self, cookers: Cookers) -> CookerTold:
        """Return what is copied into a log: the card, and where it is silent how its kind gets wood and lights."""
        of_kind = cookers.get(self.kind)
        offset_c = self.dial_offset_c if self.dial_offset_f is None else c_step_from_f(self.dial_offset_f)
        return CookerTold(
            cooker=self.kind,
            name=self.name,
            dial_offset_c=offset_c,
            vents=tuple(sorted((vent.mark() for vent in self.vents), key=lambda mark: mark.low_c)),
            wood_by=self.wood_by or of_kind.wood_by,
            water_pan=self.water_pan,
            fuel=self.fuel,
            fuel_kg_per_h=self.fuel_kg_per_h,
            fuel_at_c=self._fuel_at_c(),
            fuel_holds_kg=self.fuel_holds_kg,
            light_min=self.light_min or of_kind.light_min.typical,
        )


class Cards(_Data):
    """The cards of a person, `DATA/cookers.toml`."""

    cookers: tuple[Card, ...] = ()

    def named(self, text: str) -> Card | None:
        """Return the card with this name, None when there is none."""
        wanted = name_key(plain_name(text))
        for card in self.cookers:
            if wanted in {name_key(plain_name(name)) for name in (card.name, *card.also_called)}:
                return card
        return None


def read_cookers(*texts: str) -> Cookers:
    """Read the kinds of cookers from TOML texts.

    Raises
    ------
    CatalogueError
        When a text is not TOML or a figure breaks a rule; the message names entry and field.
    """
    return read_entries(Cookers, "cookers", *texts)


def read_cards(text: str, cookers: Cookers) -> tuple[Cards, tuple[Complaint, ...]]:
    """Return a person's own cards from a TOML text, and what is wrong with those that are not among them.

    One entry that breaks a rule leaves the others as they are; a card that calls itself by the name of a kind, or by
    that of another card, is left out too: "on the kettle" must mean one thing.
    """
    try:
        data = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        return Cards(), (Complaint(entry="", why=f"it is not TOML: {error}"),)
    entries = data.get("cookers", [])
    strange = sorted(set(data) - {"cookers"})
    complaints = [Complaint(entry=key, why="only [[cookers]] stands at the top of this file") for key in strange]
    if not isinstance(entries, list):
        return Cards(), (Complaint(entry="cookers", why="write [[cookers]], with two brackets"),)
    cards: list[Card] = []
    for number, entry in enumerate(entries, 1):
        called = str(entry.get("name", "")) if isinstance(entry, dict) else ""
        found = _card(entry, Cards(cookers=tuple(cards)), cookers)
        if isinstance(found, Card):
            cards.append(found)
        else:
            complaints.append(Complaint(entry=repr(called) if called else f"cooker {number}", why=found))
    return Cards(cookers=tuple(cards)), tuple(complaints)


def _card(entry: object, known: Cards, cookers: Cookers) -> Card | str:
    """Return the card of an entry, or why it is none."""
    try:
        card = Card.model_validate(entry)
    except ValidationError as error:
        first = error.errors()[0]
        field = ".".join(str(part) for part in first["loc"])
        return _kindly(field, first["type"], first["msg"])
    for name in (card.name, *card.also_called):
        if cookers.named(name) is not None:
            return f"{name!r} is a kind of cooker; give it a name of its own"
        if known.named(name) is not None:
            return f"another card is called {name!r} already"
    return card


def _kindly(field: str, kind: str, message: str) -> str:
    said = message.removeprefix("Value error, ").removeprefix("Input should be ")
    match kind:
        case "extra_forbidden":
            return f"nothing is known of {field!r}; is it spelled right?"
        case "missing":
            return f"{field} is missing"
        case "value_error":
            return f"{field}: {said}" if field else said
        case _:
            return f"{field} should be {said}" if said != message else f"{field}: {message}"
