"""Reads the data files of the catalogue that lie beside the engine.

Texts only; what they mean and whether they are right, the engine says. It must not change or cache anything.
"""

from __future__ import annotations

import importlib.resources
from collections.abc import Iterator
from importlib.resources.abc import Traversable

SUFFIX = ".toml"


def texts() -> dict[str, str]:
    """Return the text of every data file by its place without the ending: "cuts/beef", "steps", "cautions"."""
    return dict(_below(importlib.resources.files("scheduler") / "catalogue", ""))


def texts_of(name: str) -> tuple[str, ...]:
    """Return the texts of one subject, in the order of their places: those of the folder or the file of this name."""
    return tuple(
        text for place, text in sorted(texts().items()) if place == name or place.startswith(f"{name}/")
    )  # fmt: skip


def _below(folder: Traversable, place: str) -> Iterator[tuple[str, str]]:
    for one in folder.iterdir():
        if one.is_dir():
            yield from _below(one, f"{place}{one.name}/")
        elif one.name.endswith(SUFFIX):
            yield f"{place}{one.name.removesuffix(SUFFIX)}", one.read_text("utf-8")
