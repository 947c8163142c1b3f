"""Cuts of meat: what the catalogue says of each, checked when it is read.

This room reads text, never files; it holds no steps and no schedule.
"""

from __future__ import annotations

import tomllib
from typing import Annotated, Any, Literal, TypeVar

from pydantic import BaseModel, ConfigDict, Field, ValidationError, model_validator

from scheduler.errors import CatalogueError, UnknownCut
from scheduler.facts import Wrap

Positive = Annotated[float, Field(gt=0)]
Shape = TypeVar("Shape", bound=BaseModel)


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


class Cut(BaseModel):
    """One cut. Temperatures [°C], masses [kg], thickness [m], times [h] or [min] as the names say."""

    model_config = ConfigDict(frozen=True, extra="forbid")
    id: str
    name: str
    also_called: tuple[str, ...]
    species: Literal["beef", "pork"]
    safety_class: str
    shape: Literal["slab", "cylinder", "sphere"]
    bone_plate: bool
    """True when a plate of bone covers one face."""
    piece_word: str
    """What one piece is called: rack, brisket, shoulder."""
    mass_kg: Spread
    thickness_m: Spread
    pit_c: Spread
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
            if cut.safety_class not in self.safety:
                raise ValueError(f"{cut.id}: no safety class {cut.safety_class!r}")
            if cut.usual_wrap not in cut.wraps:
                raise ValueError(f"{cut.id}: the usual wrap {cut.usual_wrap} is not among its wraps")
            for name in (cut.id, cut.name, *cut.also_called):
                if names.setdefault(name.casefold(), cut.id) != cut.id:
                    raise ValueError(f"{name!r} names both {names[name.casefold()]} and {cut.id}")
        return self

    def get(self, cut_id: str) -> Cut:
        """Return the cut with this id; raise `UnknownCut` when there is none."""
        for cut in self.cuts:
            if cut.id == cut_id:
                return cut
        raise UnknownCut(f"no cut {cut_id!r}", cut=cut_id)

    def minimum_c(self, cut: Cut) -> float:
        """Return the published minimum of the cut's class, converted and rounded to 0.1 [°C]."""
        return round((self.safety[cut.safety_class].minimum_f - 32.0) / 1.8, 1)


def read_cuts(text: str) -> Cuts:
    """Read the catalogue of cuts from TOML text.

    Raises
    ------
    CatalogueError
        When the text is not TOML or a figure breaks a rule; the message names the entry and field.
    """
    return read_entries(Cuts, "cuts", text)


def read_entries(shape: type[Shape], name: str, *texts: str) -> Shape:
    """Read TOML texts (together one document) as `shape`.

    Raises
    ------
    CatalogueError
        When a text is not TOML or breaks a rule; the message begins with `name` and calls each entry by its id.
    """
    try:
        data = {key: value for text in texts for key, value in tomllib.loads(text).items()}
    except tomllib.TOMLDecodeError as error:
        raise CatalogueError(f"{name}: {error}") from error
    try:
        return shape.model_validate(data)
    except ValidationError as error:
        found = [f"{_place(one['loc'], data)}: {one['msg']}" for one in error.errors()]
        raise CatalogueError(f"{name}: {'; '.join(found)}") from error


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
