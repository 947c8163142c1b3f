"""The locks: everything pinned with hashes, for every platform, naming no index and no host."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path

import pytest

from tests.architecture.tree import text_of

RUNTIME = "deploy/lock.txt"
TESTS = "deploy/lock-test.txt"
PINNED = re.compile(r"^(?P<name>[a-z0-9._-]+)==(?P<version>[^\s;]+)(?: ; (?P<marker>[^\\]+?))? \\$")
HASH = re.compile(r"^    --hash=sha256:[0-9a-f]{64}(?: \\)?$")
NAME = re.compile(r"^[A-Za-z0-9._-]+")
PROJECT = tomllib.loads(text_of(Path("pyproject.toml")))


def _requirements(lock: str) -> list[list[str]]:
    """Return the requirements of a lock, each as its line and the lines of its hashes."""
    requirements: list[list[str]] = []
    for line in text_of(Path(lock)).splitlines():
        if line.startswith(" ") and requirements:
            requirements[-1].append(line)
        else:
            requirements.append([line])
    return requirements


def _pins(lock: str) -> set[tuple[str, str, str]]:
    found = [PINNED.match(lines[0]) for lines in _requirements(lock)]
    return {(one["name"], one["version"], one["marker"] or "") for one in found if one}


def _names(requirements: list[str]) -> set[str]:
    found = [NAME.match(one) for one in requirements]
    return {one.group().lower() for one in found if one}


@pytest.mark.parametrize("lock", [RUNTIME, TESTS])
def test_every_requirement_is_pinned_with_hashes(lock: str) -> None:
    """Each line is one exact version or one of its hashes: no header, no option, no address."""
    for lines in _requirements(lock):
        assert PINNED.match(lines[0])
        assert len(lines) > 1
        assert [line for line in lines[1:] if not HASH.match(line)] == []


@pytest.mark.parametrize("lock", [RUNTIME, TESTS])
def test_a_lock_names_no_host(lock: str) -> None:
    """A lock works with whatever index a machine is set up with."""
    assert not re.search(r"://|--[a-z-]*index|--find-links|--trusted-host|#", text_of(Path(lock)))


def test_what_tests_need_contains_what_the_program_needs() -> None:
    """Tests run on the very versions that people run."""
    assert _pins(RUNTIME)
    assert _pins(RUNTIME) <= _pins(TESTS)


def test_the_locks_hold_what_the_project_asks_for() -> None:
    """Each dependency, the build backend and each package for tests is locked."""
    asked = PROJECT["project"]["dependencies"] + PROJECT["build-system"]["requires"]
    asked_by_tests = PROJECT["project"]["optional-dependencies"]["test"]
    assert _names(asked) <= {name for name, _, _ in _pins(RUNTIME)}
    assert _names(asked_by_tests) <= {name for name, _, _ in _pins(TESTS)}


def test_the_build_backend_is_locked_as_it_is_asked_for() -> None:
    """The group that the lock is made from names the same backend as the build section."""
    assert PROJECT["dependency-groups"]["build"] == PROJECT["build-system"]["requires"]
