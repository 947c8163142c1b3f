"""Acceptance runs as each person saw them, held word for word: family, crew, outage, dispute, correction, dinners."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.screens.seen import PLAYS, SEEN, seen


@pytest.mark.parametrize("name", PLAYS)
def test_everybody_saw_what_was_read_aloud(name: str, tmp_path: Path) -> None:
    """The screens of all people in a play; a wanted change is written with `python -m tests.screens`."""
    assert seen(name, tmp_path) == (SEEN / f"{name}.txt").read_text(encoding="utf-8")


def test_every_kept_run_belongs_to_a_play() -> None:
    """None is left behind by a play that is gone."""
    assert {path.stem for path in SEEN.glob("*.txt")} == set(PLAYS)
