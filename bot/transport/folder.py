"""Putting files into a folder of this machine: papers that were asked for, photos that were sent.

It must not choose names or folders, and never writes outside the folder it is given.
"""

from __future__ import annotations

import os
from pathlib import Path


def put_away(name: str, data: bytes, folder: Path) -> Path:
    """Write a file whole, readable by its owner alone, and return its path; the same name is replaced.

    Only the last part of the name counts, whatever it holds. Raises OSError.
    """
    folder.mkdir(mode=0o700, parents=True, exist_ok=True)
    path = folder / (Path(name.replace("\\", "/")).name.lstrip(".") or "paper")
    fresh = path.with_name(f".{path.name}.{os.getpid()}")
    with os.fdopen(os.open(fresh, os.O_WRONLY | os.O_CREAT | os.O_TRUNC, 0o600), "wb") as file:
        file.write(data)
        file.flush()
        os.fsync(file.fileno())
    fresh.replace(path)
    return path
