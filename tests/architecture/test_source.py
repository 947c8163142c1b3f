"""What no source file may hold: unfinished work, tests without a sentence, unexplained exceptions."""

from __future__ import annotations

import ast
import re
from pathlib import Path

import pytest

from tests.architecture.tree import python_files, text_of

UNFINISHED = re.compile(
    r"\b(?:TODO|FIXME|XXX|HACK|NotImplementedError)\b|\bpytest\.(?:mark\.)?(?:skip|skipif|xfail|importorskip)\b"
)
SWALLOWS = re.compile(r"except(?: (?:Base)?Exception(?: as \w+)?)?:\s*(?:pass\b|\.\.\.)")
# A check silenced on a line, and the same with its code and a reason of three words at least.
SILENCED = re.compile(r"#\s*(?:noqa|type:\s*ignore|mypy:|ruff:)[^\n]*")
SILENCED_WITH_REASON = re.compile(
    r"#\s*(?:noqa:\s*[A-Z]+\d+(?:,\s*[A-Z]+\d+)*|type:\s*ignore\[[\w, -]+\])\s*[-#:]+\s*\S+\s+\S+\s+\S+"
)
FEWEST_WORDS = 3
THIS_FILE = Path("tests/architecture/test_source.py")
OTHER_FILES = [path for path in python_files() if path != THIS_FILE]
TEST_FILES = [path for path in python_files() if path.parts[0] == "tests" and path.name.startswith("test_")]


def _found_in_other_files(pattern: re.Pattern[str]) -> list[tuple[str, str]]:
    return [(str(path), found.group()) for path in OTHER_FILES for found in pattern.finditer(text_of(path))]


def _scopes(path: Path) -> list[ast.Module | ast.ClassDef]:
    """Return a module and its classes."""
    module = ast.parse(text_of(path))
    return [module, *(node for node in ast.walk(module) if isinstance(node, ast.ClassDef))]


def _tests_in(scope: ast.Module | ast.ClassDef) -> list[ast.FunctionDef | ast.AsyncFunctionDef]:
    return [
        node
        for node in scope.body
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef) and node.name.startswith("test_")
    ]


def test_no_mark_of_unfinished_work() -> None:
    """No file holds a reminder to finish it later, an empty method, or a test put aside."""
    assert _found_in_other_files(UNFINISHED) == []


def test_no_error_is_swallowed() -> None:
    """No file catches every error only to pass over it."""
    assert _found_in_other_files(SWALLOWS) == []


def test_every_silenced_check_says_why() -> None:
    """A check that is silenced on a line names its code and gives a reason there."""
    silenced = _found_in_other_files(SILENCED)
    assert [one for one in silenced if not SILENCED_WITH_REASON.match(one[1])] == []


def test_every_file_of_tests_has_tests() -> None:
    """A file called test_ something holds at least one test."""
    assert [str(path) for path in TEST_FILES if not any(map(_tests_in, _scopes(path)))] == []


def test_every_test_says_what_it_shows() -> None:
    """Each test has a docstring that says the behaviour, in three words at least."""
    wordless = [
        (str(path), test.name)
        for path in TEST_FILES
        for scope in _scopes(path)
        for test in _tests_in(scope)
        if len((ast.get_docstring(test) or "").split()) < FEWEST_WORDS
    ]
    assert wordless == []


def test_no_test_hides_another() -> None:
    """Two tests of one module or class never have the same name."""
    for path in TEST_FILES:
        for scope in _scopes(path):
            names = [test.name for test in _tests_in(scope)]
            assert len(names) == len(set(names)), path


@pytest.mark.parametrize(
    ("pattern", "guilty", "innocent"),
    [
        (UNFINISHED, "# TODO: later", "# the toddler eats at six"),
        (UNFINISHED, "@pytest.mark.xfail", "pytest.raises(ValueError)"),
        (SWALLOWS, "except Exception:\n    pass", "except ValueError:\n    pass"),
        (SWALLOWS, "except: ...", "except OSError as error:\n    report(error)"),
    ],
)
def test_the_patterns_tell_guilty_from_innocent(pattern: re.Pattern[str], guilty: str, innocent: str) -> None:
    """The patterns above find what they are for, and leave plain code alone."""
    assert pattern.search(guilty)
    assert not pattern.search(innocent)


@pytest.mark.parametrize(
    ("line", "explained"),
    [
        ("x = f()  # noqa: S311 - not for secrets", True),
        ("x = f()  # type: ignore[arg-type]  # the stub is wrong", True),
        ("x = f()  # noqa: S311", False),
        ("x = f()  # noqa", False),
        ("x = f()  # type: ignore[arg-type]", False),
        ("# ruff: noqa", False),
    ],
)
def test_a_reason_is_told_from_none(line: str, *, explained: bool) -> None:
    """A silenced check counts as explained only with a code and at least three words."""
    found = SILENCED.search(line)
    assert found
    assert bool(SILENCED_WITH_REASON.match(found.group())) is explained
