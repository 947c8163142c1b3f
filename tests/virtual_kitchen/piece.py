"""The shape of a piece: a quarter of a rounded block on a three-dimensional grid, with bones and fat in it.

It holds geometry and what the meat is made of; nothing here moves.
"""

from __future__ import annotations

import dataclasses

import numpy as np
import numpy.typing as npt

from tests.virtual_kitchen import materials
from tests.virtual_kitchen.materials import Field

INNER = 0.6
"""A core is looked for within this share of the half length and half width."""
BLUNT = 4.0
"""Ends of a piece are never rounder than this exponent."""
CELLS_ACROSS = (7, 6)
"""Cells along x and y, from the middle outward."""


def cells_up(thickness_m: float) -> int:
    """Return how many cells stack up from grate to top: thin pieces need fewer."""
    return 13 if thickness_m > 0.075 else 11 if thickness_m > 0.045 else 9


@dataclasses.dataclass(frozen=True, kw_only=True)
class Shape:
    """What a piece is: mass [kg], thickness [m], length over width, roundness, bone and fat."""

    mass_kg: float
    thickness_m: float
    aspect: float
    """Length over width of the footprint."""
    roundness: float
    """Exponent of the rounded block: 2 an ellipsoid, 8 nearly a brick."""
    bone: str
    """`none`, `plate` (the lowest layers) or `blade` (a block inside)."""
    fat: float
    """Share of the boneless mass."""
    fat_cap: bool


@dataclasses.dataclass(frozen=True, kw_only=True)
class Piece:
    """A quarter of a piece on its grid. Arrays have the shape of the grid, or one entry for each surface cell."""

    edges: tuple[Field, Field, Field]
    centres: tuple[Field, Field, Field]
    meat: Field
    inner: npt.NDArray[np.bool_]
    """Meat well inside: where a core is looked for. A wet skin can be colder, but is no core."""
    bone: Field
    volume: Field
    links: tuple[Field, Field, Field]
    """Area over distance of neighbours along each axis [m]; zero across the skin."""
    meat_links: tuple[Field, Field, Field]
    """The same, zero where one neighbour is bone: water does not cross."""
    skin: tuple[npt.NDArray[np.intp], ...]
    area: Field
    """Of the skin of each surface cell [m²]."""
    depth: Field
    """From the middle of a surface cell to its skin [m]."""
    upward: Field
    """Direction of the skin: -1 to the grate, 0 sideways, 1 up."""
    half: tuple[float, float, float]


def _graded(ratio: float, cells: int, *, both: bool) -> Field:
    """Return cell edges from the middle to 1 (or from -1 to 1) that crowd toward the skin."""
    if both:
        side = cells // 2
        widths = np.concatenate([ratio ** np.arange(side), [ratio**side], ratio ** np.arange(side)[::-1]])
        return np.asarray(-1.0 + 2.0 * np.concatenate([[0.0], np.cumsum(widths)]) / widths.sum())
    widths = ratio ** np.arange(cells)[::-1]
    return np.asarray(np.concatenate([[0.0], np.cumsum(widths)]) / widths.sum())


def _links(present: Field, edges: tuple[Field, Field, Field]) -> tuple[Field, Field, Field]:
    widths = [np.diff(one) for one in edges]
    links = []
    for axis in range(3):
        first, second = (axis + 1) % 3, (axis + 2) % 3
        shape = [1, 1, 1]
        shape[first], shape[second] = len(widths[first]), len(widths[second])
        outer = widths[first][:, None] * widths[second][None, :]
        area = (outer if first < second else outer.T).reshape(shape)
        gap = np.diff((edges[axis][1:] + edges[axis][:-1]) / 2)
        along = [1, 1, 1]
        along[axis] = len(gap)
        lower = np.take(present, range(present.shape[axis] - 1), axis=axis)
        upper = np.take(present, range(1, present.shape[axis]), axis=axis)
        links.append(area / gap.reshape(along) * lower * upper)
    return links[0], links[1], links[2]


def _skin(inside: Field, edges: tuple[Field, Field, Field]) -> tuple[Field, Field, Field]:
    """Return area of skin, depth below it, and its direction, for every cell (zero inside)."""
    dx, dy, dz = (np.diff(one) for one in edges)
    padded = np.pad(inside, 1)
    padded[0, :, :] = padded[1, :, :]
    padded[:, 0, :] = padded[:, 1, :]
    open_x = inside * (1 - padded[2:, 1:-1, 1:-1])
    open_y = inside * (1 - padded[1:-1, 2:, 1:-1])
    open_up = inside * (1 - padded[1:-1, 1:-1, 2:])
    open_down = inside * (1 - padded[1:-1, 1:-1, :-2])
    area_x = open_x * dy[None, :, None] * dz[None, None, :]
    area_y = open_y * dx[:, None, None] * dz[None, None, :]
    flat = dx[:, None, None] * dy[None, :, None]
    area_z = (open_up - open_down) * flat
    size = np.sqrt(area_x**2 + area_y**2 + area_z**2)
    # Stairs stand for a slope: the length of the area vector, not the sum of its parts.
    weight = area_x + area_y + np.abs(area_z) + 1e-30
    depth = (area_x * dx[:, None, None] + area_y * dy[None, :, None] + np.abs(area_z) * dz[None, None, :]) / weight / 2
    return size, depth, area_z / weight


def _inner(meat: Field, area: Field, middles: list[Field], edges_z: Field) -> npt.NDArray[np.bool_]:
    """Return meat without skin, away from the ends and the sides, in the middle half of the height of the meat."""
    inside = (meat > 0) & (area == 0)
    layers = np.nonzero(meat[0, 0] > 0)[0]
    low, high = edges_z[layers[0]], edges_z[layers[-1] + 1]
    height = np.abs((edges_z[1:] + edges_z[:-1]) / 2 - (low + high) / 2) <= (high - low) / 4
    across = (middles[0] < INNER)[:, None, None] & (middles[1] < INNER)[None, :, None]
    return np.asarray(inside & across & height[None, None, :])


def build(shape: Shape) -> Piece:
    """Return the piece on its grid; its footprint follows from mass and thickness."""
    density = 1060.0 if shape.bone == "none" else 1110.0
    nx, ny, nz = (*CELLS_ACROSS, cells_up(shape.thickness_m))
    crowding = 1.22 if shape.thickness_m > 0.06 else 1.1
    reach = [
        _graded(crowding, nx, both=False),
        _graded(crowding, ny, both=False),
        _graded(crowding, nz, both=True),
    ]
    middles = [np.abs((one[1:] + one[:-1]) / 2) for one in reach]
    powers = max(shape.roundness, BLUNT), shape.roundness, shape.roundness
    far = sum(
        one.reshape([-1 if axis == place else 1 for place in range(3)]) ** powers[axis]
        for axis, one in enumerate(middles)
    )
    inside = (np.asarray(far) <= 1.0).astype(float)
    unit = np.diff(reach[0])[:, None, None] * np.diff(reach[1])[None, :, None] * np.diff(reach[2])[None, None, :]
    filled = float((inside * unit).sum())  # of 2: one quarter of a block of half sides 1
    half_z = shape.thickness_m / 2
    footprint = shape.mass_kg / density / (4 * filled * half_z)  # product of the half sides
    half_y = float(np.sqrt(footprint / shape.aspect))
    half_x = half_y * shape.aspect
    edges = reach[0] * half_x, reach[1] * half_y, reach[2] * half_z
    centres = tuple((one[1:] + one[:-1]) / 2 for one in edges)
    bone = np.zeros_like(inside)
    if shape.bone == "plate":
        layers = max(2, nz // 5)
        bone[:, :, 1 : layers + 1] = inside[:, :, 1 : layers + 1]  # under them a membrane and a little meat
        bone[1::3] = 0.0  # meat between the ribs
    elif shape.bone == "blade":
        bone[:3, :3, nz // 4 : nz // 4 + 2] = inside[:3, :3, nz // 4 : nz // 4 + 2]
    meat = inside - bone
    area, depth, upward = _skin(inside, edges)
    skin = np.nonzero(area)
    return Piece(
        edges=edges,
        centres=(centres[0], centres[1], centres[2]),
        meat=meat,
        inner=_inner(meat, area, middles, reach[2]),
        bone=bone,
        volume=unit * half_x * half_y * half_z,
        links=_links(inside, edges),
        meat_links=_links(meat, edges),
        skin=skin,
        area=area[skin],
        depth=depth[skin],
        upward=upward[skin],
        half=(half_x, half_y, half_z),
    )


def masses(piece: Piece, shape: Shape) -> tuple[Field, Field, Field]:
    """Return raw water, solids and fat of every cell [kg]; fat lies more in the cap where there is one."""
    fat = shape.fat * piece.meat
    if shape.fat_cap:
        fat[:, :, -2:] += 0.35 * piece.meat[:, :, -2:]
    fat = np.minimum(fat, 0.8)
    lean = 1.0 - fat
    solid_share = 1.0 / (1.0 + materials.LEAN_WATER_PER_SOLID)
    volume_per_kg = fat / materials.FAT_DENSITY + lean * (
        solid_share / materials.SOLID_DENSITY + (1 - solid_share) / materials.WATER_DENSITY
    )
    mass = piece.meat * piece.volume / volume_per_kg
    return mass * lean * (1 - solid_share), mass * lean * solid_share, mass * fat
