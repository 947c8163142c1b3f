"""The shape of the tree: what lies at the top, how long a file is, how it is named."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from tests.architecture.tree import ROOT, present, python_files, text_of, tracked

TOP_LEVEL = {
    "DEVELOPERS.md",
    "README.md",
    "bot",
    "deploy",
    "docs",
    "pyproject.toml",
    "scheduler",
    "tests",
}
MOST_LINES = 400
NAMES_THAT_SAY_NOTHING = {"base", "common", "helper", "helpers", "manager", "managers", "util", "utils"}
COMMANDS = ("deploy/run", "deploy/test", "deploy/relock", ".ci/run")


def _top_level() -> set[str]:
    return {path.parts[0] for path in tracked() if not path.parts[0].startswith(".")}


def test_nothing_unexpected_lies_at_the_top() -> None:
    """A newcomer sees eight names at the top of the tree, and no others."""
    assert _top_level() - TOP_LEVEL == set()


def test_everything_expected_lies_at_the_top() -> None:
    """None of the eight names is missing."""
    assert TOP_LEVEL - _top_level() == set()


def test_the_tree_is_not_empty() -> None:
    """The other tests of this folder look at real files: this very one is among them."""
    assert Path(__file__).resolve().relative_to(ROOT) in python_files()


def test_a_file_fits_in_a_head() -> None:
    """No Python file has more than 400 lines."""
    lengths = {str(path): len(text_of(path).splitlines()) for path in python_files()}
    assert {path: lines for path, lines in lengths.items() if lines > MOST_LINES} == {}


def test_names_say_what_is_inside() -> None:
    """No folder or file is called utils, common, base, helper or manager."""
    vague = [
        path for path in present() if NAMES_THAT_SAY_NOTHING & {part.removesuffix(".py").lower() for part in path.parts}
    ]
    assert vague == []


@pytest.mark.parametrize("command", COMMANDS)
def test_commands_can_be_started(command: str) -> None:
    """What people and CI start is executable."""
    assert os.access(ROOT / command, os.X_OK)
