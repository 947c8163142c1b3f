"""A set-up that is not finished survives SIGKILL: what was said is remembered once, and the next question is asked."""

from __future__ import annotations

import json

import pytest

from tests.acceptance.kills.stage import AWAY, HALF_SET_UP, Run, Stage
from tests.acceptance.kills.verdict import decided

STRIDE = 3
"""Every third boundary; the taking in of a reply is killed at each of them in `test_every_boundary`."""


def remembered(run: Run) -> list[str]:
    """Return the set-ups that stand in the database at the end; other things are remembered there as well."""
    rows = (json.dumps(row["data"]) for row in run.after.tables["session"])
    return [row for row in rows if "brisket" in row]


@pytest.mark.parametrize("way", ["terminal", "messenger"])
def test_a_half_finished_set_up_survives(way: str, request: pytest.FixtureRequest) -> None:
    """Killed while the mass is taken in: cut and mass are kept, exactly as undisturbed, and no cook has begun."""
    stage: Stage = request.getfixturevalue(way)
    at_once, later = stage.rehearse(HALF_SET_UP), stage.rehearse(HALF_SET_UP, late=AWAY)
    undisturbed = [decided(at_once), decided(later)]
    (boundaries,) = at_once.boundaries
    (kept,) = remembered(at_once)
    assert "brisket_packer" in kept
    assert "6.0" in kept
    runs = [stage.run(HALF_SET_UP, at) for at in range(1, len(boundaries) + 1, STRIDE)]
    assert [remembered(run) for run in runs] == [[kept]] * len(runs)
    assert [at for at, run in enumerate(runs) if decided(run) not in undisturbed] == []
    assert all(run.after.tables["cook"] == () for run in runs)
    assert len(runs) > 10
