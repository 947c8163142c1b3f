"""Writes the golden screens anew: `python -m tests.screens`. Read them aloud before you keep them."""

from __future__ import annotations

import tempfile
from pathlib import Path

from tests.screens.scenes import GOLDEN, SCENES, played


def main() -> None:
    """Play every scene and write its screen."""
    for scene in SCENES:
        with tempfile.TemporaryDirectory() as folder:
            (GOLDEN / f"{scene.name}.txt").write_text(played(scene, Path(folder)), encoding="utf-8")


if __name__ == "__main__":
    main()
