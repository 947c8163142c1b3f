"""The pictures in docs are those that the program draws."""

from __future__ import annotations

import io

import numpy as np
import pytest
from PIL import Image

from tests.architecture.tree import ROOT
from tests.pictures.chart import pictures

FOLDER = ROOT / "docs" / "howto" / "chart"
AGAIN = "python -m tests.pictures.chart docs/howto/chart draws them anew"
NEARLY = 2.0
"""Other versions of the painting library smooth edges a little differently [levels of 255, on average]."""


@pytest.mark.parametrize("name", ["morning", "night", "end", "three"])
def test_the_pictures_in_docs_are_drawn_by_the_program(name: str) -> None:
    """Each picture on the page has the size and, but for edges, the pixels of what is drawn now."""
    kept = Image.open(FOLDER / f"{name}.png").convert("RGB")
    made = Image.open(io.BytesIO(pictures()[name])).convert("RGB")
    assert kept.size == made.size, AGAIN
    apart = np.abs(np.asarray(kept, dtype=np.int16) - np.asarray(made, dtype=np.int16)).mean()
    assert apart < NEARLY, AGAIN


def test_every_picture_is_on_the_page_and_one_in_the_readme() -> None:
    """Nothing that is drawn is left out of the page, and the README shows one."""
    page = (ROOT / "docs" / "howto" / "chart.md").read_text("utf-8")
    drawn = {path.stem for path in FOLDER.glob("*.png")}
    assert all(f"chart/{name}.png" in page for name in drawn)
    assert "docs/howto/chart/morning.png" in (ROOT / "README.md").read_text("utf-8")
