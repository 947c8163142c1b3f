"""Killed more than once, or killed and away for hours: still nothing is lost, each death costs one repeat at most."""

from __future__ import annotations

import datetime as dt
import random  # noqa: TID251 - fixed seeds choose the moments of death
import re
import signal

import pytest

from tests.acceptance.kills.stage import AWAY, PROMPT, READING, Stage
from tests.acceptance.kills.verdict import decided, extra_copies, marks, problems
from tests.fakes.botapi import FakeTelegram

SEED = 20260912
PAIRS = 20
STRIDE = 4
DEATHS = 3
HOURS = dt.timedelta(hours=5)


def gap(boundaries: tuple[str, ...], words: str) -> int:
    """Return the number of the first boundary whose name matches."""
    return next(at for at, name in enumerate(boundaries, start=1) if re.search(words, name))


def test_two_deaths_anywhere(messenger: Stage) -> None:
    """Of two lives in a row each dies somewhere, chosen by a fixed seed; the third finds everything."""
    runs = [messenger.rehearse(READING, late=at * AWAY) for at in range(3)]
    undisturbed = [decided(run) for run in runs]
    (boundaries,) = runs[0].boundaries
    draw = random.Random(SEED)  # noqa: S311 - which moments are tried, nothing secret
    wrong: list[str] = []
    for _ in range(PAIRS):
        first, second = draw.randint(1, len(boundaries)), draw.randint(1, len(boundaries))
        wrong += problems(messenger.run(READING, first, second), undisturbed)
    assert wrong == []


@pytest.mark.parametrize(("moment", "copies"), [("before", 1), ("after", 1 + DEATHS)])
def test_death_after_death_with_a_prompt_in_hand(
    messenger: Stage, fake: FakeTelegram, moment: str, copies: int
) -> None:
    """Several lives die before it left: the next sends it, once, marked. They die after: each costs one repeat."""
    in_hand = rf"{moment} CALL message prompt:\S+:{fake.private('Ines')}\b"
    undisturbed = [decided(messenger.rehearse(PROMPT, late=at * AWAY)) for at in range(1 + DEATHS)]
    kills: list[int] = []
    while len(kills) < DEATHS:
        run = messenger.run(PROMPT, *kills, watched=True)
        kills.append(gap(run.boundaries[-1], in_hand))
    run = messenger.run(PROMPT, *kills)
    assert problems(run, undisturbed) == []
    assert [end.signal for end in run.ends] == [signal.SIGKILL] * DEATHS + [None]
    assert (extra_copies(run), marks(run)) == (copies - 1, 1)


def test_hours_away(terminal: Stage) -> None:
    """Killed as a prompt falls due and started again five hours later: asked, or given up with a reason, once."""
    late = terminal.rehearse(PROMPT, late=HOURS)
    (boundaries,) = terminal.run(PROMPT).boundaries
    never = len(boundaries) + 1
    undisturbed = [decided(terminal.run(PROMPT, never, away=HOURS)), decided(late)]
    runs = [terminal.run(PROMPT, at, away=HOURS) for at in range(1, never, STRIDE)]
    assert [problem for run in runs for problem in problems(run, undisturbed)] == []
