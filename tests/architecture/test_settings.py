"""The settings of the checks: every rule on, every exception with its reason beside it."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path

import pytest

from tests.architecture.tree import text_of

PYPROJECT = text_of(Path("pyproject.toml"))
SETTINGS = tomllib.loads(PYPROJECT)
RULE_OFF = re.compile(r'^\s+"(?P<code>[A-Z]+\d*)",(?P<rest>.*)$', re.MULTILINE)
REASON = re.compile(r"\s+#\s+\S+\s+\S+")


def _lint_section() -> str:
    start = PYPROJECT.index("[tool.ruff.lint]\n")
    return PYPROJECT[start : PYPROJECT.index("[tool.ruff.lint.flake8-tidy-imports.banned-api]")]


def test_every_rule_is_on() -> None:
    """Ruff selects all its rules, and mypy is strict everywhere."""
    assert SETTINGS["tool"]["ruff"]["lint"]["select"] == ["ALL"]
    assert SETTINGS["tool"]["mypy"]["strict"] is True
    assert SETTINGS["tool"]["mypy"]["files"] == ["bot", "scheduler", "tests"]


def test_warnings_are_errors() -> None:
    """Pytest turns each warning into a failure, and knows its markers."""
    options = SETTINGS["tool"]["pytest"]["ini_options"]
    assert options["filterwarnings"][0] == "error"
    assert "--strict-markers" in options["addopts"]


def test_every_rule_that_is_off_is_seen_by_the_next_test() -> None:
    """Each code that ruff is told to ignore stands on a line of its own."""
    lint = SETTINGS["tool"]["ruff"]["lint"]
    off = [*lint["ignore"], *(code for codes in lint["per-file-ignores"].values() for code in codes)]
    assert sorted(off) == sorted(found["code"] for found in RULE_OFF.finditer(_lint_section()))


@pytest.mark.parametrize("line", [found.group() for found in RULE_OFF.finditer(_lint_section())])
def test_every_rule_that_is_off_has_a_reason(line: str) -> None:
    """Beside each ignored code stands a comment of at least two words."""
    found = RULE_OFF.match(line)
    assert found
    assert REASON.match(found["rest"])


@pytest.mark.parametrize("package", ["bot", "scheduler"])
def test_layers_are_exhaustive(package: str) -> None:
    """The import contracts list every module of each package: a new one must be placed."""
    contracts = SETTINGS["tool"]["importlinter"]["contracts"]
    layers = [one for one in contracts if one["type"] == "layers" and one["containers"] == [package]]
    assert [one["exhaustive"] for one in layers] == [True]
