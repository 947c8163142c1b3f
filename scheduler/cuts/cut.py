"""One cut of meat: every figure that the engine knows of it, and what these figures have to do with each other.

It holds no figure itself; those stand in the files of the catalogue and in a person's own file.
"""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field, model_validator

from scheduler.cuts.figures import Composition, Figure, NotNegative, Positive, Spread
from scheduler.facts import Wrap

Holds = Literal["well", "a_little", "not"]
ServeBy = Literal["slice", "pull", "whole"]
Word = Annotated[str, Field(min_length=1, max_length=200)]

HOTTEST_C = 260.0
"""No pit is planned hotter: 500 °F is searing, not smoking (common practice, no source) [°C]."""
CLASSES = {
    "beef": ("intact_beef", "ground"), "pork": ("intact_pork", "ground"), "lamb": ("intact_lamb", "ground"),
    "poultry": ("poultry",), "fish": ("fish",), "mixed": ("ground", "poultry"),
}  # fmt: skip
"""Classes of safe minimum that a cut of each animal may be of: nothing is made safer by another name."""
DONE_BY_C = 100.0
"""Wet meat gets no hotter [°C]."""

PAYS_UNTIL_C = {Wrap.PAPER: 85.0, Wrap.BOAT: 85.0, Wrap.FOIL: 88.0}
"""Core at which a wrap stops paying; common practice, no source [°C]."""
ROUNDED_C = 0.25
"""Targets are whole degrees Celsius of what was chosen in Fahrenheit: 165 F reads as 73.9 C and passes 74 [°C]."""

LONGEST_H = 30.0
"""The forecast looks no further [h]."""


class Cut(BaseModel):
    """One cut. Temperatures [°C], masses [kg], thickness [m], times [h] or [min] as the names say."""

    model_config = ConfigDict(frozen=True, extra="forbid")
    id: Annotated[str, Field(pattern=r"^[a-z][a-z0-9_]{1,39}$")]
    name: Word
    also_called: tuple[Word, ...]
    like: str | None = None
    """Of a person's own cut: the built-in one that it was made from. None for the built-in ones."""
    species: Literal["beef", "pork", "lamb", "poultry", "fish", "mixed"]
    safety_class: str
    shape: Literal["slab", "cylinder", "sphere"]
    bone_plate: bool
    """True when a plate of bone covers one face."""
    piece_word: Word
    """What one piece is called: rack, brisket, shoulder."""
    several: str = ""
    """What more than one are called together: racks of spareribs, chicken thighs; empty: its pieces "of" its name."""
    mass_kg: Spread
    thickness_m: Spread
    thickness_where: Word
    """Where the thickness is measured."""
    pit_c: Spread
    doneness: Literal["feel", "temperature"] = "feel"
    """What says that it is done: the hand on a tough cut, the thermometer alone on roasts, birds and fish."""
    start_testing_c: Figure
    """Core at which feeling for tenderness begins."""
    target_c: Spread
    """Core at which it is usually tender; the hand decides inside the band."""
    feel_words: Word
    carry_over_c: tuple[NotNegative, NotNegative]
    """How much the core usually still climbs off the fire, least and most [°C]."""
    duration_pit_c: Figure
    duration_kg: Positive
    duration_h: Spread
    """Meat on to target at `duration_pit_c` for `duration_kg` in the wrap `duration_wrap`."""
    duration_wrap: Wrap
    stall_c: tuple[Figure, Figure]
    stall_h: Spread
    wraps: tuple[Wrap, ...]
    usual_wrap: Wrap
    bark_look_c: Figure
    """Core at which the bark is looked at for the first time, where it is looked at (`asks_bark`)."""
    wrap_until_c: Figure
    """Above this a wrap no longer pays."""
    first_look_h: Positive
    spritz_every_min: Positive | None = None
    """Minutes from one spritz to the next, from the first look on; None when it is not spritzed."""
    spritz_until_c: Figure | None = None
    """Core at which a bare piece is spritzed no more; a wrap ends it sooner."""
    wood_until_c: Figure
    """Core at which no more wood is added; a wrap or `wood_until_h` ends it sooner."""
    wood_until_h: Positive
    """Hours after meat on at which no more wood is added."""
    holds: Holds
    """Whether it keeps for hours boxed or in a warm oven, for about an hour, or not at all."""
    rest_min_min: NotNegative
    rest_ideal_min: tuple[NotNegative, NotNegative]
    rest_max_unheated_min: Positive
    rest_max_heated_min: Positive
    """Longest rest in an oven or box kept warm, before it suffers."""
    vent_min: NotNegative
    slice_min: NotNegative
    serve_by: ServeBy
    salt_pct: NotNegative
    salt_lead_h: Spread
    cooked_share: Spread
    """Off-the-pit mass over trimmed raw mass."""
    edible_share: Spread
    """Mass on the plates over mass bought: trimming, cooking and bone taken off."""
    raw_g_per_adult: Spread
    """Mass to buy for one adult who eats lightly, normally, heartily [g]."""
    fridge_days: tuple[NotNegative, NotNegative]
    """How long it keeps raw in the fridge, least and most [d]."""
    thaw_days: Positive
    """Days in the fridge to thaw a typical piece."""
    come_up_check: bool
    """True for big cuts that loiter: core and pit are asked for at four hours."""
    forgiving: Annotated[int, Field(ge=1, le=5)]
    """How much it forgives, 1 little to 5 much."""
    note: str = ""
    """What a cook should know of it."""
    composition: Composition
    composition_source: Word
    """Table, number and short description; "nearest: ..." when it is that of another piece, "from memory: ..."."""
    basis: Annotated[str, Field(min_length=1)]
    """Where the figures come from, but for those that `sources` names."""
    sources: dict[str, Word] = Field(default_factory=dict, repr=False)
    """Where single figures come from, by the name of the figure."""

    def __hash__(self) -> int:
        """Hash by name and by the figures that most often differ."""
        return hash((self.id, self.duration_h.typical, self.thickness_m.typical, self.target_c.typical))

    @property
    def done_c(self) -> float:
        """Return the core at which a cut that goes by its temperature comes off [°C]."""
        return self.target_c.typical

    @property
    def off_c(self) -> float:
        """Return the reading at which such a cut counts as done [°C]: its core, but for the rounding of the units."""
        return self.done_c - ROUNDED_C

    @property
    def asks_bark(self) -> bool:
        """Return whether somebody looks at the bark and chooses a wrap: on tough cuts that are wrapped at times.

        Foil over a bird's breast is a shield against colour, and decides nothing.
        """
        return self.doneness == "feel" and any(wrap is not Wrap.NONE for wrap in self.wraps)

    @model_validator(mode="after")
    def _consistent(self) -> Cut:
        wrong = next((why for holds, why in self._rules() if not holds), None)
        if wrong is not None:
            raise ValueError(f"{self.id}: {wrong}")
        return self

    def _rules(self) -> tuple[tuple[bool, str], ...]:
        """Return what must hold between the figures, and what to say when it does not."""
        return (*self._sizes(), *self._temperatures(), *self._wrapping(), *self._times(), *self._shares())

    def _sizes(self) -> tuple[tuple[bool, str], ...]:
        classes = CLASSES[self.species]
        return (
            (
                self.safety_class in classes,
                f"safety_class {self.safety_class!r} is none of {self.species}; it must be {' or '.join(classes)}",
            ),
            (self.mass_kg.low > 0 and self.mass_kg.high <= 60, "mass_kg is of one piece, above 0 and up to 60 kg"),  # noqa: PLR2004 - said in the message
            (
                self.thickness_m.low >= 0.01 and self.thickness_m.high <= 0.5,  # noqa: PLR2004 - said in the message
                "thickness_m is in metres, 0.01 to 0.5 (75 mm is 0.075)",
            ),
            (
                self.mass_kg.low <= self.duration_kg <= self.mass_kg.high,
                (
                    f"duration_kg {self.duration_kg:g} must lie within mass_kg, "
                    f"{self.mass_kg.low:g} to {self.mass_kg.high:g}"
                ),
            ),
            (set(self.sources) <= set(type(self).model_fields), _no_figures(set(self.sources))),
        )

    def _temperatures(self) -> tuple[tuple[bool, str], ...]:
        target, pit = self.target_c, self.pit_c
        return (
            (target.high <= DONE_BY_C, f"target_c is a core in Celsius and at most {DONE_BY_C:g}"),
            (target.high < pit.low and pit.high <= HOTTEST_C, "pit_c is in Celsius, above the target and at most 260"),
            (
                pit.low <= self.duration_pit_c <= pit.high,
                f"duration_pit_c {self.duration_pit_c:g} must lie within pit_c, {pit.low:g} to {pit.high:g}",
            ),
            (
                self.start_testing_c <= target.low,
                f"start_testing_c {self.start_testing_c:g} must not be above target_c.low {target.low:g}",
            ),
            (self.stall_c[0] < self.stall_c[1], "stall_c needs its lower figure first"),
            (
                self.doneness == "temperature" or self.stall_c[1] < self.start_testing_c,
                f"the stall ends at {self.stall_c[1]:g}, which must be below start_testing_c {self.start_testing_c:g}",
            ),
            (self.carry_over_c[0] <= self.carry_over_c[1], "carry_over_c needs its lower figure first"),
        )

    def _wrapping(self) -> tuple[tuple[bool, str], ...]:
        ends = self.start_testing_c
        pays_c = max((PAYS_UNTIL_C[wrap] for wrap in self.wraps if wrap in PAYS_UNTIL_C), default=0.0)
        return (
            (bool(self.wraps), "wraps must name at least one, such as none"),
            (len(set(self.wraps)) == len(self.wraps), "wraps names one twice"),
            (self.usual_wrap in self.wraps, f"the usual wrap {self.usual_wrap} is not among its wraps"),
            (self.duration_wrap in self.wraps, f"duration_wrap {self.duration_wrap} is not among its wraps"),
            (
                self.bark_look_c < self.wrap_until_c <= ends,
                (
                    f"bark_look_c {self.bark_look_c:g} must be below wrap_until_c {self.wrap_until_c:g}, and that not "
                    f"above start_testing_c {ends:g}"
                ),
            ),
            (
                not self.asks_bark or self.wrap_until_c <= pays_c,
                f"wrap_until_c {self.wrap_until_c:g} is too late: these wraps stop paying at about {pays_c:g}",
            ),
            (
                (self.spritz_every_min is None) == (self.spritz_until_c is None),
                "spritz_every_min and spritz_until_c go together: give both, or neither",
            ),
            (
                self.spritz_until_c is None or self.spritz_until_c < ends,
                f"spritz_until_c {self.spritz_until_c or 0:g} must be below start_testing_c {ends:g}",
            ),
            (
                self.wood_until_c <= ends,
                f"wood_until_c {self.wood_until_c:g} must not be above start_testing_c {ends:g}",
            ),
        )

    def _times(self) -> tuple[tuple[bool, str], ...]:
        low, high = self.rest_ideal_min
        return (
            (
                self.duration_h.low > 0 and self.duration_h.high <= LONGEST_H,
                f"duration_h is in hours, above 0 and up to {LONGEST_H:g}",
            ),
            (
                self.first_look_h < self.duration_h.low,
                f"first_look_h {self.first_look_h:g} must come before it may be done, {self.duration_h.low:g} h",
            ),
            (
                self.wood_until_h <= self.duration_h.typical,
                f"wood_until_h {self.wood_until_h:g} must not be above duration_h.typical {self.duration_h.typical:g}",
            ),
            (self.stall_h.low >= 0, "stall_h cannot be below 0"),
            (
                self.rest_min_min <= low < high <= self.rest_max_unheated_min <= self.rest_max_heated_min,
                "rests must go up: rest_min_min, rest_ideal_min, rest_max_unheated_min, rest_max_heated_min",
            ),
            (self.salt_lead_h.low >= 0, "salt_lead_h cannot be below 0"),
            (self.fridge_days[0] <= self.fridge_days[1], "fridge_days needs its lower figure first"),
        )

    def _shares(self) -> tuple[tuple[bool, str], ...]:
        cooked, edible, raw = self.cooked_share, self.edible_share, self.raw_g_per_adult
        return (
            (cooked.low > 0 and cooked.high < 1, "cooked_share lies between 0 and 1 (60 % is 0.6)"),
            (edible.low > 0 and edible.high < 1, "edible_share lies between 0 and 1 (60 % is 0.6)"),
            (
                edible.typical <= cooked.typical,
                f"edible_share.typical {edible.typical:g} cannot be above cooked_share.typical {cooked.typical:g}",
            ),
            (raw.low >= 30 and raw.high <= 3000, "raw_g_per_adult is in grams, 30 to 3000"),  # noqa: PLR2004 - said in the message
            (self.salt_pct <= 3, "salt_pct is in per cent of the trimmed mass and at most 3"),  # noqa: PLR2004 - said in the message
        )


def _no_figures(names: set[str]) -> str:
    unknown = ", ".join(sorted(names - set(Cut.model_fields)))
    return f"sources names no figure of a cut: {unknown}"
