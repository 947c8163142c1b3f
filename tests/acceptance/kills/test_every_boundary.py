"""SIGKILL at every statement, commit and outgoing call of taking in a reply and of sending a prompt, and a clean start.

The boundaries are counted by the harness in a run that is not killed; how it counts is in `boundaries`.
"""

from __future__ import annotations

import signal

import pytest

from tests.acceptance.kills.stage import AWAY, PROMPT, READING, WRAPPED, Run, Scene, Stage
from tests.acceptance.kills.verdict import Decided, decided, extra_copies, marks, problems

SCENES = pytest.mark.parametrize("scene", [READING, WRAPPED, PROMPT], ids=lambda scene: scene.name)
FEWEST = 80
"""A reply or a prompt passes more boundaries than this; fewer would mean that the harness counts nothing."""


def killed_everywhere(stage: Stage, scene: Scene) -> tuple[tuple[str, ...], list[Run], list[str]]:
    """Kill a scene at each boundary; return the boundaries, the runs, and what went wrong."""
    at_once, later = stage.rehearse(scene), stage.rehearse(scene, late=AWAY)
    undisturbed: list[Decided] = [decided(at_once), decided(later)]
    assert problems(at_once, undisturbed) == []
    (boundaries,) = at_once.boundaries
    runs = [stage.run(scene, at) for at in range(1, len(boundaries) + 1)]
    wrong = [problem for run in runs for problem in problems(run, undisturbed)]
    survived = {at: run.ends[0] for at, run in enumerate(runs, start=1) if run.ends[0].signal != signal.SIGKILL}
    assert survived == {}
    assert stage.run(scene, len(boundaries) + 1).ends[0].code == 0  # there is no further boundary
    return boundaries, runs, wrong


def tell(way: str, scene: Scene, boundaries: tuple[str, ...], runs: list[Run]) -> None:
    """Print the figures that stand in docs/explanation/delivery.md (seen with `pytest -rP`)."""
    ends = [name for boundary in boundaries for name in boundary.split(", ") if name.startswith("after")]
    calls, commits = sum("CALL" in name for name in ends), sum("COMMIT" in name for name in ends)
    statements = len(ends) - calls - commits
    repeats, marked = [extra_copies(run) for run in runs], [marks(run) for run in runs]
    print(  # noqa: T201 - figures for whoever asks for them
        f"{way}, {scene.name}: {len(runs)} boundaries around {statements} statements, {commits} commits and {calls}"
        f" calls; a message came twice after {sum(map(bool, repeats))} kills (at most {max(repeats)}), was marked after"
        f" {sum(map(bool, marked))} (at most {max(marked)})"
    )


@SCENES
def test_the_terminal_loses_and_doubles_nothing(terminal: Stage, scene: Scene) -> None:
    """Killed anywhere: all that was accepted is in the log once, all that was due on the screens once."""
    boundaries, runs, wrong = killed_everywhere(terminal, scene)
    tell("terminal", scene, boundaries, runs)
    assert wrong == []
    assert len(boundaries) > FEWEST
    assert sum(map(extra_copies, runs)) == 0


@SCENES
def test_the_messenger_loses_nothing_and_repeats_one_marked(messenger: Stage, scene: Scene) -> None:
    """Killed anywhere: no fact and no prompt is lost; at most one message comes twice, and says that it may have."""
    boundaries, runs, wrong = killed_everywhere(messenger, scene)
    tell("messenger", scene, boundaries, runs)
    assert wrong == []
    assert len(boundaries) > FEWEST
    # The one thing that nobody can know is really met: killed between the server's doing and our writing it down.
    assert sum(map(extra_copies, runs)) > 0
