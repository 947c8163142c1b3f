"""Draws the picture of the printed page for docs/howto/paper-and-calendar.md: `python -m tests.pictures.page PNG`.

The cook, the names and the vent marks are invented. It needs `pdftoppm` (poppler-utils), which nothing else here needs.
"""

from __future__ import annotations

import subprocess
import sys
import tempfile
from pathlib import Path

from PIL import Image

from bot.papers import page
from tests.unit.bot.papers.papers import EVENING, night_cook, sheet

DOTS_PER_INCH = 100
SHADES = 6


def draw(target: Path) -> None:
    """Write the page of the invented night cook as a grey PNG."""
    with tempfile.TemporaryDirectory() as folder:
        printed = Path(folder) / "page.pdf"
        printed.write_bytes(page(sheet(night_cook(), now=EVENING)))
        dots = str(DOTS_PER_INCH)
        subprocess.run(
            ["pdftoppm", "-png", "-gray", "-singlefile", "-r", dots, printed, target.with_suffix("")], check=True
        )
    with Image.open(target) as drawn:
        drawn.quantize(colors=SHADES).save(target, optimize=True)


if __name__ == "__main__":
    draw(Path(sys.argv[1]))
