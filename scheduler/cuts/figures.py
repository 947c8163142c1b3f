"""Kinds of figures that entries of the catalogue hold: a spread, a share, a composition, a safe minimum.

It knows no cut; what the figures of one cut have to do with each other stands beside the cut.
"""

from __future__ import annotations

from typing import Annotated

from pydantic import BaseModel, ConfigDict, Field, model_validator

Figure = Annotated[float, Field(allow_inf_nan=False)]
Positive = Annotated[float, Field(gt=0, allow_inf_nan=False)]
NotNegative = Annotated[float, Field(ge=0, allow_inf_nan=False)]
Share = Annotated[float, Field(ge=0, le=1)]

WHOLE_LOW, WHOLE_HIGH = 0.97, 1.03
"""Water, protein, fat and ash of a published row sum to this: they are measured one by one."""


class Spread(BaseModel):
    """Low, typical and high of a figure: about one case in ten lies outside at each end."""

    model_config = ConfigDict(frozen=True, extra="forbid")
    low: Figure
    typical: Figure
    high: Figure

    @model_validator(mode="after")
    def _in_order(self) -> Spread:
        if not self.low <= self.typical <= self.high:
            raise ValueError(f"low {self.low:g}, typical {self.typical:g} and high {self.high:g} are not in order")
        return self


class SafetyClass(BaseModel):
    """Minimum internal temperature of a class of meat and the rest that belongs to it."""

    model_config = ConfigDict(frozen=True, extra="forbid")
    minimum_f: Figure
    """Published limit in Fahrenheit, which governs [°F]."""
    rest_min: NotNegative
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
