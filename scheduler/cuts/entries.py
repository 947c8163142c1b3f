"""Reads entries of data files (TOML texts) into checked shapes; errors call each entry by its id.

It knows no cut, no step and no file.
"""

from __future__ import annotations

import tomllib
from typing import Any, TypeVar

from pydantic import BaseModel, ValidationError

from scheduler.errors import CatalogueError

Shape = TypeVar("Shape", bound=BaseModel)


def read_entries(shape: type[Shape], name: str, *texts: str) -> Shape:
    """Read TOML texts (together one document) as `shape`; lists are joined, tables hold the keys of all texts.

    Raises
    ------
    CatalogueError
        When a text is not TOML or breaks a rule; the message begins with `name` and calls each entry by its id.
    """
    data: dict[str, Any] = {}
    try:
        for text in texts:
            _join(data, tomllib.loads(text), name)
    except tomllib.TOMLDecodeError as error:
        raise CatalogueError(f"{name}: {error}") from error
    try:
        return shape.model_validate(data)
    except ValidationError as error:
        found = [f"{_place(one['loc'], data)}: {one['msg']}" for one in error.errors()]
        raise CatalogueError(f"{name}: {'; '.join(found)}") from error


def _join(data: dict[str, Any], more: dict[str, Any], name: str) -> None:
    """Add a further text to the document; nothing that stands there already is replaced."""
    for key, value in more.items():
        held = data.get(key)
        if held is None:
            data[key] = value
        elif isinstance(held, list) and isinstance(value, list):
            held.extend(value)
        elif isinstance(held, dict) and isinstance(value, dict):
            _join(held, value, f"{name}: {key}")
        else:
            raise CatalogueError(f"{name}: {key} stands twice")


def _place(path: tuple[int | str, ...], data: Any) -> str:  # noqa: ANN401 - whatever TOML holds
    """Return where something is wrong: entries of a list by their id, everything else by its key."""
    words = []
    for part in path:
        try:
            data = data[part]
        except (KeyError, IndexError, TypeError):
            data = None
        words.append(str(data.get("id", part)) if isinstance(part, int) and isinstance(data, dict) else str(part))
    return ".".join(words)
