"""Transient conduction in slab, cylinder, sphere and what lies between: finite volumes, stepped exactly in time by
modes.

It knows a heat flux at the surface and nothing of what causes it.
"""

from __future__ import annotations

import dataclasses
import functools

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]

NODES = 12
"""Nodes from the middle to the surface, closer together toward the surface."""

_GRADING = 1.5
_EXPONENT_STEP = 0.02
_HARDLY = 1e-4
_INNER = 5
"""The node at x = 0.6."""


@dataclasses.dataclass(frozen=True, kw_only=True, eq=False)
class Modes:
    """Eigenmodes of the finite-volume equations in units of L^2/alpha, one column per piece; arrays (modes, pieces).

    `decay` are the eigenvalues, `forcing` the square of the surface component of each mode, `core_ratio` what the
    middle sees of a mode relative to the surface, `inner_ratio` what x = 0.6 sees of it. `start` is the response of
    the modes to a uniform temperature of one degree.
    """

    decay: Array
    forcing: Array
    core_ratio: Array
    inner_ratio: Array
    start: Array

    def repeated(self, times: int) -> Modes:
        """Return the same pieces side by side `times` times."""
        return Modes(
            **{field.name: np.tile(getattr(self, field.name), (1, times)) for field in dataclasses.fields(self)}
        )


@dataclasses.dataclass(frozen=True, kw_only=True, eq=False)
class Step:
    """One step of fixed length: `keep` and `gain` (modes, pieces), `surface_gain` (pieces,) [K per W/m2].

    `gain` answers to a flux that is constant within the step; `late` is the part of it that belongs to the flux at the
    end when the flux changes on a straight line, the rest belongs to the flux at the beginning.
    """

    keep: Array
    gain: Array
    surface_gain: Array
    late: Array
    late_surface: Array


def modes(exponent: Array) -> Modes:
    """Return the modes for each shape exponent m (0 slab, 1 cylinder, 2 sphere), shape (pieces,).

    Notes
    -----
    With x in units of the half thickness and time in units of L^2/alpha, the equation is
    dT/dt = x^-m d/dx (x^m dT/dx), a flux q at x = 1 entering as q L/k. Vertex-centred finite volumes conserve heat
    exactly; the symmetric system is diagonalised once per exponent (rounded to 0.02) and then stepped without error in
    time for a flux that is constant within the step. Source: standard finite volumes, e.g. Patankar, Numerical Heat
    Transfer and Fluid Flow (1980), ch. 4, from memory.
    """
    parts = _table()
    index = np.clip(np.rint(exponent / _EXPONENT_STEP).astype(int), 0, parts[0].shape[1] - 1)
    decay, forcing, core, inner, start = (part[:, index] for part in parts)
    return Modes(decay=decay, forcing=forcing, core_ratio=core, inner_ratio=inner, start=start)


def step(of: Modes, fourier: Array, metres_per_conductivity: Array) -> Step:
    """Return the step that lasts `fourier` = alpha dt/L^2 (pieces,); `metres_per_conductivity` is L/k [m2 K/W]."""
    exponent = of.decay * fourier
    keep = np.exp(-exponent)
    gained = -np.expm1(-exponent) / of.decay
    gain = of.forcing * gained * metres_per_conductivity
    # (1 - (1 - e^-x)/x) / decay, and its limit where digits would be lost: the modes that hardly decay.
    ramp = np.where(exponent < _HARDLY, 0.5 * fourier, (1.0 - gained / fourier) / of.decay)
    late = of.forcing * ramp * metres_per_conductivity
    return Step(keep=keep, gain=gain, surface_gain=gain.sum(axis=0), late=late, late_surface=late.sum(axis=0))


@functools.lru_cache(maxsize=1)
def _table() -> tuple[Array, ...]:
    x = 1.0 - (1.0 - np.linspace(0.0, 1.0, NODES)) ** _GRADING
    faces = np.concatenate(([0.0], 0.5 * (x[1:] + x[:-1]), [1.0]))
    m = np.arange(0.0, 2.0 + _EXPONENT_STEP / 2, _EXPONENT_STEP)[:, None]
    volume = np.diff(faces ** (m + 1.0), axis=1) / (m + 1.0)
    conductance = faces[1:-1] ** m / np.diff(x)
    system = np.zeros((len(m), NODES, NODES))
    inner = np.arange(NODES - 1)
    system[:, inner, inner] += conductance
    system[:, inner + 1, inner + 1] += conductance
    system[:, inner, inner + 1] -= conductance
    system[:, inner + 1, inner] -= conductance
    scale = 1.0 / np.sqrt(volume)
    values, vectors = np.linalg.eigh(system * scale[:, :, None] * scale[:, None, :])
    surface = vectors[:, -1, :] * scale[:, -1:]
    core = vectors[:, 0, :] * scale[:, :1]
    inner_node = vectors[:, _INNER, :] * scale[:, _INNER, None]
    uniform = np.einsum("mik,mi->mk", vectors, np.sqrt(volume))
    columns = (np.maximum(values, 1e-12), surface**2, core / surface, inner_node / surface, surface * uniform)
    return tuple(np.ascontiguousarray(part.T) for part in columns)
