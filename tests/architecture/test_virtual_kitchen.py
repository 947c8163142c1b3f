"""The virtual kitchen stays independent of what it judges."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

from tests.architecture.tree import python_files, text_of

KITCHEN = Path("tests/virtual_kitchen")
ALLOWED = {"argparse", "collections", "csv", "dataclasses", "io", "itertools", "math", "pathlib", "__future__", "numpy"}
FILES = [path for path in python_files() if path.is_relative_to(KITCHEN)]


def imported(text: str) -> set[str]:
    """Return the whole names of all modules that a source text imports."""
    names: set[str] = set()
    for node in ast.walk(ast.parse(text)):
        if isinstance(node, ast.Import):
            names |= {one.name for one in node.names}
        elif isinstance(node, ast.ImportFrom):
            names.add("." * node.level + (node.module or ""))
    return names


def foreign(text: str) -> set[str]:
    """Return what a file of the kitchen imports besides the kitchen, numpy and a few plain modules."""
    own = "tests.virtual_kitchen"
    return {
        name
        for name in imported(text)
        if name.split(".")[0] not in ALLOWED and name != own and not name.startswith(own + ".")
    }


def test_the_kitchen_is_looked_at() -> None:
    """The kitchen has files, so that the next test says something."""
    assert len(FILES) > 5


@pytest.mark.parametrize("path", FILES, ids=str)
def test_the_kitchen_knows_nothing_of_the_engine(path: Path) -> None:
    """No file of the virtual kitchen imports the engine, the program, other tests or anything that could reach them."""
    assert foreign(text_of(path)) == set()


@pytest.mark.parametrize(
    "line",
    [
        "from scheduler.thermal import geometry",
        "import bot",
        "from tests.skill import cooks",
        "from .. import skill",
        "import importlib",
    ],
)
def test_an_import_of_the_engine_would_be_seen(line: str) -> None:
    """Each way to reach the engine from the kitchen is found."""
    assert foreign(line)
