"""A piece heated or cooled by convection alone with the conduction of the engine: for published cases.

No evaporation, no radiation, no forecast.
"""

from __future__ import annotations

import csv
import dataclasses
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from scheduler.thermal import conduction

Array = NDArray[np.float64]

DATA = Path(__file__).parents[1] / "data"


def rows(name: str) -> list[dict[str, str]]:
    """Return the rows of a data file, without the comments that name its source."""
    with (DATA / name).open() as lines:
        return list(csv.DictReader(line for line in lines if not line.startswith("#")))


@dataclasses.dataclass(frozen=True, kw_only=True)
class Heating:
    """A piece of half thickness L [m] and shape exponent m in a medium of coefficient h; SI units, temperatures °C."""

    exponent: float
    half_thickness_m: float
    heat_w_m2k: float
    conductivity_w_mk: float
    diffusivity_m2_s: float
    start_c: float
    medium_c: float
    step: float = 5e-4
    """Step in units of L^2/alpha."""

    def seconds_to(self, core_c: float) -> float:
        """Return when the core passes `core_c` [s], linear within a step."""
        fourier, ratio = self.cores()
        wanted = (core_c - self.medium_c) / (self.start_c - self.medium_c)
        index = int(np.argmax(ratio <= wanted))
        assert index > 0
        share = (ratio[index - 1] - wanted) / (ratio[index - 1] - ratio[index])
        return float((fourier[index - 1] + share * self.step) * self.half_thickness_m**2 / self.diffusivity_m2_s)

    def core_c(self, seconds: float) -> float:
        """Return the core after so many seconds [°C]."""
        fourier, ratio = self.cores()
        left = np.interp(seconds * self.diffusivity_m2_s / self.half_thickness_m**2, fourier, ratio)
        return float(self.medium_c + (self.start_c - self.medium_c) * left)

    def cores(self, until: float = 20.0) -> tuple[Array, Array]:
        """Return Fourier numbers and (T_core - T_medium) / (T_start - T_medium)."""
        biot = self.heat_w_m2k * self.half_thickness_m / self.conductivity_w_mk
        modes = conduction.modes(np.array([self.exponent]))
        part = conduction.step(modes, np.array([self.step]), np.ones(1))
        amplitudes = modes.start.copy()
        found = [1.0]
        while found[-1] > 0.004 and len(found) * self.step < until:
            amplitudes = part.keep * amplitudes
            bare = amplitudes.sum(axis=0)
            surface = bare / (1.0 + part.surface_gain * biot)
            amplitudes = amplitudes + part.gain * (surface - bare) / part.surface_gain
            found.append(float((modes.core_ratio * amplitudes).sum()))
        fourier = np.array([self.step * index for index in range(len(found))])
        return fourier, np.array(found)


def ball_radius_m(mass_kg: float, density_kg_m3: float) -> float:
    """Return the radius of a sphere of this mass."""
    return float(np.cbrt(3.0 * mass_kg / (4.0 * np.pi * density_kg_m3)))
