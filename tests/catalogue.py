"""The texts of the catalogue as its files hold them, and the cuts read from them, for tests of every room."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import scheduler
from scheduler.cuts import Cuts, read_cuts

FOLDER = Path(scheduler.__file__).parent / "catalogue"
TEXTS: Mapping[str, str] = {
    path.relative_to(FOLDER).with_suffix("").as_posix(): path.read_text(encoding="utf-8")
    for path in sorted(FOLDER.rglob("*.toml"))
}
"""By place without the ending: "cuts/beef", "steps"."""
CUT_TEXTS: tuple[str, ...] = tuple(text for place, text in TEXTS.items() if place.startswith("cuts/"))
CUTS: Cuts = read_cuts(*CUT_TEXTS)
