"""The colours of a chart, light and dark: chosen by contrast, and never the only thing that tells two marks apart.

Values only; that they are far enough apart, for every kind of colour vision, is computed in the tests.
"""

from __future__ import annotations

import dataclasses

Colour = str
"""`#rrggbb` (sRGB)."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Theme:
    """One set of colours. Text has 7 : 1 against what it stands on (WCAG 2.2, 1.4.6: it is read in sunlight), marks
    have 3 : 1 (1.4.11).
    """

    paper: Colour
    panel: Colour
    """The ground of the plots."""
    ink: Colour
    quiet: Colour
    """Smaller words and axes."""
    grid: Colour
    """Lines that only help the eye: they carry nothing, so they may be faint."""
    fan: Colour
    """Edges and middle of the forecast."""
    fan_fill: Colour
    """Its inside: its edges carry the meaning."""
    window: Colour
    stall: Colour
    pit: Colour
    pit_fill: Colour
    late: Colour
    good: Colour
    unsure: Colour
    people: tuple[Colour, ...]
    on_people: Colour
    """Letters inside the dots."""


LIGHT = Theme(
    paper="#ffffff",
    panel="#f6f7f9",
    ink="#12161b",
    quiet="#3f4954",
    grid="#d5dae0",
    fan="#1f5f9e",
    fan_fill="#cfe1f4",
    window="#8a3d00",
    stall="#5f2f8f",
    pit="#00594a",
    pit_fill="#cfe9e2",
    late="#9d1620",
    good="#005c3a",
    unsure="#7a4300",
    people=("#0a4f91", "#8f2f00", "#005a3c", "#6d1b70", "#4f4200", "#97003a"),
    on_people="#ffffff",
)

DARK = Theme(
    paper="#0e1217",
    panel="#171d24",
    ink="#f4f6f8",
    quiet="#c3ccd6",
    grid="#323b46",
    fan="#86bdf2",
    fan_fill="#21405f",
    window="#ffb765",
    stall="#d3b4fb",
    pit="#66d9c3",
    pit_fill="#174a42",
    late="#ff9ea3",
    good="#6fe0a8",
    unsure="#ffc46b",
    people=("#9ccbf7", "#ffb48f", "#84e0b8", "#e7b0ea", "#e3d27a", "#ffa9c4"),
    on_people="#0e1217",
)


def theme(*, dark: bool) -> Theme:
    """Return the colours for day or for night."""
    return DARK if dark else LIGHT
