"""Writes the golden screens anew: `python -m tests.screens`. Read them aloud before you keep them."""

from __future__ import annotations

import tempfile
from pathlib import Path

from tests.screens.scenes import GOLDEN, SCENES, played
from tests.screens.seen import PLAYS, SEEN, seen


def main() -> None:
    """Play every scene and every play, and write their screens."""
    for scene in SCENES:
        with tempfile.TemporaryDirectory() as folder:
            (GOLDEN / f"{scene.name}.txt").write_text(played(scene, Path(folder)), encoding="utf-8")
    SEEN.mkdir(exist_ok=True)
    for name in PLAYS:
        with tempfile.TemporaryDirectory() as folder:
            (SEEN / f"{name}.txt").write_text(seen(name, Path(folder)), encoding="utf-8")


if __name__ == "__main__":
    main()
