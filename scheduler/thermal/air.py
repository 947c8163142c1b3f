"""The air around the cooker, where people give a word instead of a number.

Figures only; what the air does is decided elsewhere.
"""

from __future__ import annotations

WORDS_C = {"cold": 0.0, "cool": 10.0, "warm": 22.0, "hot": 32.0}
"""Middle of what people mean by each word [°C]; common practice, no source."""

WORD_SPREAD_C = 4.0
"""Doubt of a word, one standard deviation [°C]; an assumption."""


def temp_c(said: float | str | None) -> float | None:
    """Return the air temperature [°C] for a number or one of `WORDS_C`; None stays None.

    Raises
    ------
    KeyError
        For another word.
    """
    return WORDS_C[said] if isinstance(said, str) else said
