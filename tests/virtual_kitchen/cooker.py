"""A charcoal cooker: a pit that wanders about a set point that is not quite the one told, walls that lag, lids opened.

It knows no meat. Temperatures are in °C; one step is one minute.
"""

from __future__ import annotations

import dataclasses
import math

import numpy as np

from tests.virtual_kitchen.roast import Around, Cover

COVERS = {
    "none": Cover(over="nothing", leak=1.0, emissivity=0.92, gap=100.0),
    "paper": Cover(over="all", leak=0.15, emissivity=0.9, gap=60.0),
    "foil": Cover(over="all", leak=0.006, emissivity=0.4, gap=120.0),
    "boat": Cover(over="below", leak=0.01, emissivity=0.65, gap=120.0, shelter=0.35),
}
CONVECTION = {"kamado": 6.0, "kettle": 7.5, "bullet": 7.0, "offset": 9.5, "drum": 8.0}
"""Natural draught to slight forced draught [W m⁻² K⁻¹], textbook range 5 to 15, from memory."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Make:
    """One cooker on one day."""

    convection: float
    vapour_pa: float
    wall_below_c: float
    """How much colder the walls are than the air."""
    ember_c: float
    """How much hotter the underside's view is than the walls."""
    error_c: float
    """True pit minus what its own gauge says."""
    slow_c: float
    slow_min: float
    fast_c: float
    fast_min: float
    damping: float
    load_dip_c: float


def drawn(rng: np.random.Generator) -> Make:
    """Return a cooker drawn from what people own."""
    name = str(rng.choice(list(CONVECTION)))
    by_dial = rng.random() < 0.45
    return Make(
        convection=CONVECTION[name] * math.exp(0.25 * rng.standard_normal()),
        vapour_pa=(5500.0 if name == "bullet" else 2600.0) * math.exp(0.45 * rng.standard_normal()),
        wall_below_c=rng.uniform(2, 14) if name != "kamado" else rng.uniform(-2, 6),
        ember_c=rng.uniform(0, 15),
        error_c=rng.normal(-2.0, 8.0 if by_dial else 2.5),
        slow_c=rng.uniform(2, 7),
        slow_min=rng.uniform(40, 110),
        fast_c=rng.uniform(1, 4),
        fast_min=rng.uniform(3, 9),
        damping=rng.uniform(0.4, 0.9),
        load_dip_c=rng.uniform(8, 45),
    )


class Cooker:
    """The pit, minute by minute."""

    def __init__(self, make: Make, set_c: float, rng: np.random.Generator) -> None:
        self._make, self._rng = make, rng
        self.set_c = set_c
        self._held, self._rate = set_c - make.load_dip_c, 0.0
        self._slow, self._fast = make.slow_c * rng.standard_normal(), 0.0
        self._dip = 0.0
        self._wall = self._held - make.wall_below_c

    @property
    def air_c(self) -> float:
        """Air beside the meat."""
        return self._held + self._make.error_c + self._slow + self._fast - self._dip

    @property
    def gauge_c(self) -> float:
        """What the gauge shows: it never knew its error."""
        return self.air_c - self._make.error_c

    def open(self, seconds: float) -> None:
        """Lift the lid."""
        self._dip = min(60.0, self._dip + 12.0 + 0.5 * seconds)

    def sag(self, by_c: float) -> None:
        """Fuel runs low, or cold fuel goes on."""
        self._held -= by_c

    def minute(self) -> None:
        """Let one minute pass."""
        make = self._make
        pull = 1 / 7.0
        self._rate += pull**2 * (self.set_c - self._held) - 2 * make.damping * pull * self._rate
        self._held += self._rate
        self._slow += (
            -self._slow / make.slow_min + make.slow_c * math.sqrt(2 / make.slow_min) * self._rng.standard_normal()
        )
        self._fast += (
            -self._fast / make.fast_min + make.fast_c * math.sqrt(2 / make.fast_min) * self._rng.standard_normal()
        )
        self._dip *= 0.8
        self._wall += (self.air_c + 0.6 * self._dip - make.wall_below_c - self._wall) / 12.0

    def around(self) -> Around:
        """Return what the meat sits in now."""
        return Around(
            air_c=self.air_c,
            wall_c=self._wall,
            ember_c=self._wall + self._make.ember_c,
            vapour_pa=self._make.vapour_pa,
            convection=self._make.convection,
        )
