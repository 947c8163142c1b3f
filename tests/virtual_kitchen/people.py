"""Who tends the fire: when they look, where the probe goes, what they type, when they wrap and pull.

They see readings, never the truth.
"""

from __future__ import annotations

import dataclasses
import itertools
import math

import numpy as np

from tests.virtual_kitchen.roast import Roast

UNIT_SLIPS, TYPOS = 0.012, 0.007
"""Shares of readings typed in the other unit, or with digits swapped or lost."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Habits:
    """One person on one day."""

    style: str
    """`few`, `usual`, `sleeper` or `eager`."""
    first_min: float
    pause_min: float
    fahrenheit: bool
    rounding: str
    """`whole`, `five` or `tenth`."""
    left_in: bool
    """The probe stays where it is."""
    off_centre: float
    """How far from the middle, as a share of the half sizes."""
    reads_pit: float
    spritzes: bool
    skips_core: float
    calibration_c: float
    sleeps_at_min: float
    sleeps_min: float


def drawn(rng: np.random.Generator, usual_h: float) -> Habits:
    """Return a person; `usual_h` is how long such a cook takes."""
    shares = (0.12, 0.58, 0.18, 0.12) if usual_h > 8 else (0.14, 0.72, 0.0, 0.14)
    style = str(rng.choice(["few", "usual", "sleeper", "eager"], p=shares))
    hurry = min(1.0, usual_h / 6)  # nobody waits three hours for the first look at a loin
    pause = {"few": usual_h * 60 / 4.5, "usual": rng.uniform(25, 75), "sleeper": rng.uniform(30, 75)}
    return Habits(
        style=style,
        first_min=hurry * float(np.clip(90 * math.exp(0.4 * rng.standard_normal()), 45, 180)),
        pause_min=hurry * pause.get(style, max(15.0, usual_h * 60 / 38)),
        fahrenheit=bool(rng.random() < 0.7),
        rounding=str(rng.choice(["whole", "five", "tenth"], p=(0.8, 0.08, 0.12))),
        left_in=bool(rng.random() < (0.8 if style == "eager" else 0.35)),
        off_centre=rng.uniform(0.03, 0.12),
        reads_pit=rng.uniform(0.33, 1.0),
        spritzes=bool(rng.random() < 0.35),
        skips_core=0.06,
        calibration_c=0.6 * rng.standard_normal(),
        sleeps_at_min=rng.uniform(150, 420),
        sleeps_min=rng.uniform(150, 400),
    )


def next_look(habits: Habits, rng: np.random.Generator, minute: float, *, near: bool) -> float:
    """Return when the next look comes; near the end people look more often, asleep not at all."""
    pause = habits.pause_min * math.exp(0.4 * rng.standard_normal())
    pause = max(45.0, pause) if habits.style == "few" else float(np.clip(pause, 12, 100))
    if near:
        pause = min(pause, rng.uniform(12, 35))
    when = minute + pause
    wakes = habits.sleeps_at_min + habits.sleeps_min
    if habits.style == "sleeper" and habits.sleeps_at_min < when < wakes:
        when = wakes + rng.uniform(0, 20)
    return when


class Probe:
    """A thermometer held by a person."""

    def __init__(self, habits: Habits, rng: np.random.Generator, *, bony: bool) -> None:
        self._habits, self._rng, self._bony = habits, rng, bony
        self._spot: tuple[float, float, float] | None = None
        self.contact = ""

    def read_c(self, roast: Roast) -> float:
        """Return what the thermometer shows."""
        if self._spot is None or not self._habits.left_in or self.contact == "bone":
            self._spot = self._seat(roast)
        seen = _at(roast, self._spot)
        return seen + self._habits.calibration_c + 0.35 * self._rng.standard_normal()

    def _seat(self, roast: Roast) -> tuple[float, float, float]:
        """Aim at the coldest meat and miss it; now and then rest against bone, or in the fat under the skin."""
        piece, rng = roast.piece, self._rng
        cold = np.where(piece.inner, roast.temp_c, np.inf)
        place = np.unravel_index(int(np.argmin(cold)), cold.shape)
        aim = [float(piece.centres[axis][place[axis]]) for axis in range(3)]
        for axis, share in enumerate((1.6, 1.6, 1.0)):
            aim[axis] += share * self._habits.off_centre * piece.half[axis] * rng.standard_normal()
        luck = rng.random()
        self.contact = ""
        if self._bony and luck < 0.04:
            bones = np.argwhere(piece.bone > 0)
            near = bones[int(rng.integers(len(bones)))]
            aim = [float(piece.centres[axis][near[axis]]) for axis in range(3)]
            self.contact = "bone"
        elif luck > 0.97:
            aim[2] = 0.62 * piece.half[2]
            self.contact = "fat"
        return abs(aim[0]), abs(aim[1]), aim[2]


def _at(roast: Roast, spot: tuple[float, float, float]) -> float:
    """Return the temperature at a point [m from the middle], linear between the cells about it that are there."""
    piece = roast.piece
    present = (piece.meat + piece.bone) > 0
    total = weight = 0.0
    sides = []
    for axis in range(3):
        middles = piece.centres[axis]
        upper = int(np.clip(np.searchsorted(middles, spot[axis]), 1, len(middles) - 1))
        share = float(np.clip((spot[axis] - middles[upper - 1]) / (middles[upper] - middles[upper - 1]), 0, 1))
        sides.append(((upper - 1, 1 - share), (upper, share)))
    for (i, of_i), (j, of_j), (k, of_k) in itertools.product(*sides):
        if present[i, j, k]:
            total += of_i * of_j * of_k * float(roast.temp_c[i, j, k])
            weight += of_i * of_j * of_k
    return total / weight if weight > 0.2 else roast.core_c


def typed(value_c: float, habits: Habits, rng: np.random.Generator) -> tuple[str, str]:
    """Return what is typed, in the unit of this person, and the slip if there was one: the other unit, or a typo."""
    luck = rng.random()
    slip = "unit" if luck < UNIT_SLIPS else ""
    in_f = habits.fahrenheit != (slip == "unit")
    value = value_c * 1.8 + 32 if in_f else value_c
    text = {"whole": f"{value:.0f}", "five": f"{5 * round(value / 5):d}", "tenth": f"{value:.1f}"}[habits.rounding]
    if UNIT_SLIPS <= luck < UNIT_SLIPS + TYPOS:
        swaps = luck < UNIT_SLIPS + TYPOS / 2
        wrong = text[1] + text[0] + text[2:] if swaps else text[:1] + text[2:]
        if wrong != text and wrong[0] not in ".0" and len(wrong) > 1:
            text, slip = wrong, "typo"
    return text, slip
