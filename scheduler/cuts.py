"""Cuts of meat: what the catalogue says of each, checked when it is read.

This room reads text, never files; it holds no steps and no schedule.
"""

from __future__ import annotations

import tomllib
from typing import Annotated, Any, Literal, TypeVar

from pydantic import BaseModel, ConfigDict, Field, ValidationError, model_validator

from scheduler.cut_names import NameOf, best_name, name_key
from scheduler.errors import CatalogueError, UnknownCut
from scheduler.facts import Wrap

Positive = Annotated[float, Field(gt=0)]
Share = Annotated[float, Field(ge=0, le=1)]
Shape = TypeVar("Shape", bound=BaseModel)

WHOLE_LOW, WHOLE_HIGH = 0.97, 1.03
"""Water, protein, fat and ash of a published row sum to this: they are measured one by one."""


class Spread(BaseModel):
    """Low, typical and high of a figure: about one case in ten lies outside at each end."""

    model_config = ConfigDict(frozen=True, extra="forbid")
    low: float
    typical: float
    high: float

    @model_validator(mode="after")
    def _in_order(self) -> Spread:
        if not self.low <= self.typical <= self.high:
            raise ValueError(f"low {self.low}, typical {self.typical} and high {self.high} are not in order")
        return self


class SafetyClass(BaseModel):
    """Minimum internal temperature of a class of meat and the rest that belongs to it."""

    model_config = ConfigDict(frozen=True, extra="forbid")
    minimum_f: float
    """Published limit in Fahrenheit, which governs [°F]."""
    rest_min: float
    """Rest after the minimum is reached [min]."""
    source: str


class Composition(BaseModel):
    """What the edible portion of raw meat is made of, as shares of its mass, 0 to 1."""

    model_config = ConfigDict(frozen=True, extra="forbid")
    water: Share
    protein: Share
    fat: Share
    ash: Share

    @model_validator(mode="after")
    def _whole(self) -> Composition:
        whole = self.water + self.protein + self.fat + self.ash
        if not WHOLE_LOW <= whole <= WHOLE_HIGH:
            raise ValueError(f"the shares sum to {whole:.4f}, not to about 1")
        return self


class Cut(BaseModel):
    """One cut. Temperatures [°C], masses [kg], thickness [m], times [h] or [min] as the names say."""

    model_config = ConfigDict(frozen=True, extra="forbid")
    id: str
    name: str
    also_called: tuple[str, ...]
    species: Literal["beef", "pork", "lamb", "poultry", "fish", "mixed"]
    safety_class: str
    shape: Literal["slab", "cylinder", "sphere"]
    bone_plate: bool
    """True when a plate of bone covers one face."""
    piece_word: str
    """What one piece is called: rack, brisket, shoulder."""
    mass_kg: Spread
    thickness_m: Spread
    pit_c: Spread
    doneness: Literal["feel", "temperature"] = "feel"
    """What says that it is done: the hand on a tough cut, the thermometer alone on roasts, birds and fish."""
    start_testing_c: float
    """Core at which feeling for tenderness begins."""
    target_c: Spread
    """Core at which it is usually tender; the hand decides inside the band."""
    feel_words: str
    duration_pit_c: float
    duration_kg: Positive
    duration_h: Spread
    """Meat on to target at `duration_pit_c` for `duration_kg` in the wrap `duration_wrap`."""
    duration_wrap: Wrap
    stall_c: tuple[float, float]
    stall_h: Spread
    wraps: tuple[Wrap, ...]
    usual_wrap: Wrap
    bark_look_c: float
    """Core at which the bark is looked at for the first time."""
    wrap_until_c: float
    """Above this a wrap no longer pays."""
    first_look_h: float
    rest_min_min: float
    rest_ideal_min: tuple[float, float]
    rest_max_unheated_min: float
    vent_min: float
    slice_min: float
    salt_pct: float
    salt_lead_h: Spread
    cooked_share: Spread
    """Off-the-pit mass over trimmed raw mass."""
    come_up_check: bool
    """True for big cuts that loiter: core and pit are asked for at four hours."""
    composition: Composition
    composition_source: str
    """Table, number and short description; "nearest: ..." when it is that of another piece, "from memory: ..."."""
    basis: str


class Cuts(BaseModel):
    """All cuts and safety classes of the catalogue."""

    model_config = ConfigDict(frozen=True, extra="forbid")
    safety: dict[str, SafetyClass]
    cuts: tuple[Cut, ...]

    @model_validator(mode="after")
    def _consistent(self) -> Cuts:
        names: dict[str, str] = {}
        for cut in self.cuts:
            if [other.id for other in self.cuts].count(cut.id) > 1:
                raise ValueError(f"{cut.id} stands twice")
            if cut.safety_class not in self.safety:
                raise ValueError(f"{cut.id}: no safety class {cut.safety_class!r}")
            if cut.usual_wrap not in cut.wraps:
                raise ValueError(f"{cut.id}: the usual wrap {cut.usual_wrap} is not among its wraps")
            for name in (cut.id, cut.name, *cut.also_called):
                if names.setdefault(name_key(name), cut.id) != cut.id:
                    raise ValueError(f"{name!r} names both {names[name_key(name)]} and {cut.id}")
        return self

    def get(self, cut_id: str) -> Cut:
        """Return the cut with this id; raise `UnknownCut` when there is none."""
        for cut in self.cuts:
            if cut.id == cut_id:
                return cut
        raise UnknownCut(f"no cut {cut_id!r}", cut=cut_id)

    def named(self, text: str) -> Cut | None:
        """Return the cut that a text names, kindly read (`scheduler.cut_names`), None when it is none or not clear.

        "ribs" alone may be beef or pork, so it is None; "pork ribs" are spareribs, "beef ribs" chuck short ribs and
        "brisket" a whole one, as is most usual.
        """
        names = [
            NameOf(name=name, key=cut.id, species=cut.species)
            for cut in self.cuts
            for name in (cut.id, cut.name, *cut.also_called)
        ]
        key = best_name(text, names)
        return None if key is None else self.get(key)

    def minimum_c(self, cut: Cut) -> float:
        """Return the published minimum of the cut's class, converted and rounded to 0.1 [°C]."""
        return round((self.safety[cut.safety_class].minimum_f - 32.0) / 1.8, 1)


def read_cuts(*texts: str) -> Cuts:
    """Read the catalogue of cuts from TOML texts, which together are one catalogue.

    The planner reads the cuts that it can plan (cuts.toml); the forecast knows more of them (cuts_forecast.toml).

    Raises
    ------
    CatalogueError
        When a text is not TOML, a figure breaks a rule, or two texts do not fit; the message names entry and field.
    """
    return read_entries(Cuts, "cuts", *texts)


def read_entries(shape: type[Shape], name: str, *texts: str) -> Shape:
    """Read TOML texts (together one document) as `shape`; lists are joined, tables hold the keys of all texts.

    Raises
    ------
    CatalogueError
        When a text is not TOML or breaks a rule; the message begins with `name` and calls each entry by its id.
    """
    data: dict[str, Any] = {}
    try:
        for text in texts:
            _join(data, tomllib.loads(text), name)
    except tomllib.TOMLDecodeError as error:
        raise CatalogueError(f"{name}: {error}") from error
    try:
        return shape.model_validate(data)
    except ValidationError as error:
        found = [f"{_place(one['loc'], data)}: {one['msg']}" for one in error.errors()]
        raise CatalogueError(f"{name}: {'; '.join(found)}") from error


def _join(data: dict[str, Any], more: dict[str, Any], name: str) -> None:
    """Add a further text to the document; nothing that stands there already is replaced."""
    for key, value in more.items():
        held = data.get(key)
        if held is None:
            data[key] = value
        elif isinstance(held, list) and isinstance(value, list):
            held.extend(value)
        elif isinstance(held, dict) and isinstance(value, dict):
            _join(held, value, f"{name}: {key}")
        else:
            raise CatalogueError(f"{name}: {key} stands twice")


def _place(path: tuple[int | str, ...], data: Any) -> str:  # noqa: ANN401 - whatever TOML holds
    """Return where something is wrong: entries of a list by their id, everything else by its key."""
    words = []
    for part in path:
        try:
            data = data[part]
        except (KeyError, IndexError, TypeError):
            data = None
        words.append(str(data.get("id", part)) if isinstance(part, int) and isinstance(data, dict) else str(part))
    return ".".join(words)
