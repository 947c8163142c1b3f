"""What people see when a cook is planned, held word for word: each screen was read aloud when it was kept."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.screens.scenes import GOLDEN, SCENES, Scene, played

WIDEST = 400
LONGEST_MESSAGE = 4096
"""A message of the messenger holds no more characters (Bot API)."""


@pytest.mark.parametrize("scene", SCENES, ids=[scene.name for scene in SCENES])
def test_a_screen_is_as_it_was_read_aloud(scene: Scene, tmp_path: Path) -> None:
    """The words, times and buttons of a scene; a wanted change is written with `python -m tests.screens`."""
    assert played(scene, tmp_path) == (GOLDEN / f"{scene.name}.txt").read_text(encoding="utf-8")


def test_every_kept_screen_belongs_to_a_scene() -> None:
    """No screen is left behind by a scene that is gone."""
    assert {path.stem for path in GOLDEN.glob("*.txt")} == {scene.name for scene in SCENES}


@pytest.mark.parametrize("scene", SCENES, ids=[scene.name for scene in SCENES])
def test_a_screen_can_be_read_on_a_phone(scene: Scene) -> None:
    """No line is a wall of text, none holds a placeholder that nobody filled, and no message is over the limit."""
    text = (GOLDEN / f"{scene.name}.txt").read_text(encoding="utf-8")
    assert max(len(line) for line in text.splitlines()) <= WIDEST
    assert not {"{", "}", "None", "nan"} & set(
        text.replace("[None of these]", "").replace("[", " ").replace("]", " ").split()
    )
    assert max(len(part) for part in text.split("\n> ")) <= LONGEST_MESSAGE
