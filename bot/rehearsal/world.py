"""The yard behind the hut: clock, fire and meat, and what a person standing there can see, read and do.

It must not know any message: people come here with their hands, whatever made them come.
"""

from __future__ import annotations

import datetime as dt
from enum import StrEnum

from bot.rehearsal import meat
from scheduler.units import c_from_f, f_from_c

AIM_C = c_from_f(275)
"""What Ines sets the vents for."""
SMOKE_GREY_FOR = dt.timedelta(minutes=42)
"""After lighting: grey until then, thin later."""
BARK_SETS_BELOW_KG_M2 = 0.4
"""Water left in the skin below which a nail no longer smears the bark."""

STEAMS_ABOVE_C = 82.0


class Place(StrEnum):
    """Where the meat is."""

    FRIDGE = "fridge"
    FIRE = "fire"
    TABLE = "table"
    BOX = "box"
    EATEN = "eaten"


class World:
    """Everything that is so, whether or not anybody looks."""

    def __init__(self, now: dt.datetime) -> None:
        self.now = now
        self._began_at = now
        self.pit = meat.Pit(aim_c=AIM_C)
        self.meat = meat.Meat()
        self.place = Place.FRIDGE
        self.lit_at: dt.datetime | None = None

    def go_on(self, to: dt.datetime) -> None:
        """Let time pass, in steps of fifteen seconds; a night with a cold cooker and a cold fridge in one."""
        if not self.pit.lit:
            self.now = to
            return
        step = dt.timedelta(seconds=meat.STEP_S)
        while self.now < to:
            span_s = min(step, to - self.now).total_seconds()
            self.pit.go_on(span_s, (self.now - self._began_at).total_seconds())
            match self.place:
                case Place.FIRE:
                    self.meat.go_on(span_s, self.pit.temp_c)
                case Place.TABLE:
                    self.meat.go_on(span_s, meat.AIR_C, meat.CARRY_W_M2_K)
                case Place.BOX:
                    self.meat.go_on(span_s, meat.AIR_C, meat.BOXED_W_M2_K)
                case Place.FRIDGE | Place.EATEN:
                    pass
            self.now += dt.timedelta(seconds=span_s)

    # --- what hands and eyes find -----------------------------------------------------------------------------------

    def read_meat(self) -> int:
        """Return the core as the reader shows it [°F, whole degrees]."""
        return round(f_from_c(self.meat.core_c))

    def read_pit(self) -> int:
        """Return the pit as the reader shows it [°F, whole degrees]."""
        return round(f_from_c(self.pit.temp_c))

    def smoke_is_thin(self) -> bool:
        """Look at the chimney."""
        return self.lit_at is not None and self.now - self.lit_at >= SMOKE_GREY_FOR

    def fuel(self) -> str:
        """Lift the lid of the basket: plenty, half or low."""
        if self.pit.fuel > 2 / 3:
            return "plenty"
        return "half" if self.pit.fuel > meat.FUEL_RUNS_LOW else "low"

    def bark_is_set(self) -> bool:
        """Open the lid and scratch with a nail."""
        self.pit.open_lid()
        return self.meat.wet_kg_m2 < BARK_SETS_BELOW_KG_M2

    def steams(self) -> bool:
        """Look at racks that stand open: does steam still rise?"""
        return self.meat.skin_c > STEAMS_ABOVE_C

    def feel(self) -> str:
        """Open the lid and push the probe in along the rack: still tight, almost, slides in."""
        self.pit.open_lid()
        if self.meat.soft >= 1.0:
            return "slides in"
        return "almost" if self.meat.soft >= meat.ALMOST_SOFT else "still tight"

    # --- what hands do ----------------------------------------------------------------------------------------------

    def light(self) -> None:
        """Light the charcoal."""
        self.lit_at = self.now
        self.pit.lit = True

    def refuel(self) -> None:
        """Put lit charcoal on."""
        self.pit.open_lid()
        self.pit.refuel()

    def move_meat(self, place: Place) -> None:
        """Carry the racks somewhere."""
        if Place.FIRE in {place, self.place}:
            self.pit.open_lid()
        self.place = place

    def shut(self) -> None:
        """Close all vents."""
        self.pit.shut = True
