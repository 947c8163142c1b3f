"""The files of this repository, as git sees them, for the tests of its shape.

It must not read a file that git ignores.
"""

from __future__ import annotations

import subprocess
from functools import cache
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]


def _git_lists(*options: str) -> tuple[Path, ...]:
    listed = subprocess.run(
        ["git", "ls-files", "-z", *options],
        cwd=ROOT,
        check=True,
        capture_output=True,
        text=True,
    ).stdout
    return tuple(sorted(Path(name) for name in set(listed.split("\0")) if name))


@cache
def tracked() -> tuple[Path, ...]:
    """Return the files that are committed or staged, relative to the root."""
    return _git_lists()


@cache
def present() -> tuple[Path, ...]:
    """Return the files on disk that are tracked or could be, relative to the root."""
    files = _git_lists("--cached", "--others", "--exclude-standard")
    return tuple(path for path in files if (ROOT / path).is_file())


@cache
def python_files() -> tuple[Path, ...]:
    """Return the Python files among `present()`."""
    return tuple(path for path in present() if path.suffix == ".py")


@cache
def text_of(path: Path) -> str:
    """Return the text of a file of this tree."""
    return (ROOT / path).read_text(encoding="utf-8")
