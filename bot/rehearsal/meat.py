"""The invented meat and the invented pit: two lumps of heat, a wet skin that dries, and a fire that burns down.

It must not know the engine: these equations are its own, so that a forecast cannot be right by construction.

Every constant was chosen by hand so that a rack of short ribs cooks as people tell it (common practice, no source);
none was fitted to the engine or taken from it.
"""

from __future__ import annotations

import dataclasses
import math

STEP_S = 15.0

# The rack, per square metre of its surface.
SKIN_HEAT_J_M2_K = 42_000.0
CORE_HEAT_J_M2_K = 76_000.0
AIR_TO_SKIN_W_M2_K = 17.0
SKIN_TO_CORE_W_M2_K = 60.0
STEAM_W_M2_PA = 0.025
"""Heat that a wet skin loses to evaporation, for each pascal of vapour pressure over it."""
WET_KG_M2 = 4.8
"""Water that can reach the skin before it dries out."""
BOUND_SHARE = 0.20
"""Share of that evaporation which goes on from within when the skin is dry: the core creeps towards boiling."""
DRYING_SHARPNESS = 25.0
"""How suddenly the skin is dry at the end: the stall ends within half an hour."""
LATENT_J_KG = 2.3e6
CARRY_W_M2_K = 6.0
"""Air to skin off the fire, standing open."""
BOXED_W_M2_K = 4.5
"""The same through towels and the wall of a box."""

# Gristle gives way faster the hotter it is.
SOFT_PER_H_AT_90C = 0.36
SOFTER_BY_C = 5.0
ALMOST_SOFT = 0.62

# The pit.
PIT_ANSWERS_IN_S = 600.0
LID_LOSS_C = 22.0
FUEL_PER_H = 0.09
"""Share of a full basket burnt in an hour."""
FUEL_RUNS_LOW = 0.30
AIR_C = 17.0


def vapour_pa(temp_c: float) -> float:
    """Return the vapour pressure over water [Pa] at a temperature [°C] (Magnus formula, constants from memory)."""
    return 610.9 * math.exp(17.62 * temp_c / (243.1 + temp_c))


@dataclasses.dataclass
class Pit:
    """The fire and the air at grate level [°C]. `aim_c` is what the vents are set for; `fuel` 1 is a full basket."""

    aim_c: float
    temp_c: float = AIR_C
    fuel: float = 1.0
    lit: bool = False
    shut: bool = False

    def go_on(self, seconds: float, clock_s: float) -> None:
        """Let the fire burn on; a breeze comes and goes with the clock."""
        if self.lit and not self.shut:
            self.fuel = max(0.0, self.fuel - FUEL_PER_H * seconds / 3600)
        breeze_c = 3.0 * math.sin(clock_s / 1500.0) + 2.0 * math.sin(clock_s / 610.0 + 1.0)
        burning = self.lit and not self.shut
        strength = min(1.0, self.fuel / FUEL_RUNS_LOW) ** 0.5
        wanted_c = AIR_C + (self.aim_c + breeze_c - AIR_C) * strength if burning else AIR_C
        answers_in_s = PIT_ANSWERS_IN_S if burning else 6 * PIT_ANSWERS_IN_S
        self.temp_c += (wanted_c - self.temp_c) * seconds / answers_in_s

    def open_lid(self) -> None:
        """Lose heat through an open lid."""
        self.temp_c -= LID_LOSS_C

    def refuel(self) -> None:
        """Fill the basket up."""
        self.fuel = 1.0


@dataclasses.dataclass
class Meat:
    """The biggest rack: skin and core [°C], water left in the skin [kg/m2], and how soft it is (1: probes slide in)."""

    skin_c: float = 4.0
    core_c: float = 4.0
    wet_kg_m2: float = WET_KG_M2
    soft: float = 0.0

    def go_on(self, seconds: float, around_c: float, air_w_m2_k: float = AIR_TO_SKIN_W_M2_K) -> None:
        """Heat or cool for so long in surroundings of so many degrees."""
        wetness = 1.0 - (1.0 - self.wet_kg_m2 / WET_KG_M2) ** DRYING_SHARPNESS
        open_to_air = air_w_m2_k > BOXED_W_M2_K
        share = BOUND_SHARE + (1.0 - BOUND_SHARE) * wetness if open_to_air else 0.0
        steam_w_m2 = STEAM_W_M2_PA * share * vapour_pa(self.skin_c)
        inward_w_m2 = SKIN_TO_CORE_W_M2_K * (self.skin_c - self.core_c)
        gained_w_m2 = air_w_m2_k * (around_c - self.skin_c) - steam_w_m2 - inward_w_m2
        self.skin_c += gained_w_m2 * seconds / SKIN_HEAT_J_M2_K
        self.core_c += inward_w_m2 * seconds / CORE_HEAT_J_M2_K
        self.wet_kg_m2 = max(0.0, self.wet_kg_m2 - steam_w_m2 * seconds / LATENT_J_KG)
        self.soft += SOFT_PER_H_AT_90C * math.exp((self.core_c - 90.0) / SOFTER_BY_C) * seconds / 3600
