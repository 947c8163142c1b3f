"""Two processes at once, one of them stopped past its lease and then let go on: what it does late changes nothing."""

from __future__ import annotations

import shutil

import pytest

from tests.acceptance.kills.nursery import Nursery
from tests.acceptance.kills.stage import AWAY, PROMPT, READING, Scene, Stage
from tests.acceptance.kills.verdict import MARK
from tests.acceptance.kills.written import Written, read
from tests.fakes.botapi import Seen


def frozen(stage: Stage, nursery: Nursery, scene: Scene, moment: str) -> tuple[Written, Written, tuple[Seen, ...]]:
    """Stop a life at a moment, let another one do everything 90 seconds later, then let the first go on.

    Returns what was written before and after it went on, and all that came to people.
    """
    (boundaries,) = stage.run(scene).boundaries
    stop_at = next(at for at, name in enumerate(boundaries, start=1) if moment in name)
    base, data, said = stage.begin(scene)
    first, _ = stage.live(data, base.at, typed=said.typed, stop_at=stop_at)
    assert first.stopped
    second, _ = stage.live(data, base.at + AWAY)
    assert second.code == 0
    before = read(data)
    assert nursery.go_on(first.pid).code == 0
    after = read(data)
    shutil.rmtree(data)
    return before, after, stage.crew.got().messages


@pytest.mark.parametrize("moment", ["before CALL message prompt", "after CALL message prompt"])
def test_a_courier_that_comes_back_late_changes_nothing(messenger: Stage, nursery: Nursery, moment: str) -> None:
    """Stopped with a prompt in hand, before or after sending: its record is void, and one copy more says it may be."""
    before, after, got = frozen(messenger, nursery, PROMPT, moment)
    assert after == before
    assert all(row["state"] == "sent" for row in after.tables["outbox"])
    (marked,) = [row for row in after.tables["outbox"] if row["possible_repeat"]]
    copies = [one.text for one in got if marked["text"].strip() in one.text and one.chat == int(marked["chat"])]
    assert sorted(copies) == sorted([marked["text"].strip(), f"{MARK}\n{marked['text'].strip()}"])
    assert len(got) == len({(one.chat, one.text) for one in got})


@pytest.mark.parametrize("scene", [READING, PROMPT], ids=lambda scene: scene.name)
def test_a_decision_that_comes_too_late_is_void(messenger: Stage, nursery: Nursery, scene: Scene) -> None:
    """Stopped after reading, before writing: another has decided meanwhile, and nothing is decided twice."""
    before, after, got = frozen(messenger, nursery, scene, "after COMMIT, before BEGIN IMMEDIATE")
    assert after == before
    assert len(got) == len({(one.chat, one.text) for one in got})
