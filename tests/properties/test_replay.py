"""The same log gives the same situation in another process: no clock, no order of hashing, no memory of this one."""

from __future__ import annotations

import dataclasses
import datetime as dt
import os
import subprocess
import sys

from scheduler.facts import Slot
from tests.properties.actions import Amend, Read, Start, Undo, Work
from tests.properties.play import Play, again, play

PRINT = """
from tests.properties.test_replay import written_out
print(written_out())
"""


def _played() -> Play:
    """Return a cook with readings, a doubt, a correction and an undo in it, up to the rest."""
    start = Start(at=dt.datetime(2026, 10, 24, 12, tzinfo=dt.UTC), cut="brisket_packer", dinner_min=1320, pit_c=121.0)
    actions = (
        Work(minutes=400),
        Read(off_c=30.0),
        Read(off_c=1.0, spot="point"),
        Amend(which=3, off_c=-1.0),
        Read(slot=Slot.PIT, off_c=-12.0),
        Undo(),
        Work(minutes=500),
    )
    return play(start, actions)


def written_out() -> str:
    """Return a played cook in full: its log, and the situation computed from it, to the last bit."""
    played = _played()
    situation = again(played.log)
    outlook = situation.outlook
    figures = (outlook.pull, outlook.plate, outlook.verdict, None if outlook.chance is None else outlook.chance.hex())
    state = {field.name: getattr(situation.state, field.name) for field in dataclasses.fields(situation.state)}
    # Sets are printed in the order of hashing, which is another one in every process.
    state |= {name: sorted(value, key=repr) for name, value in state.items() if isinstance(value, frozenset)}
    return repr((played.log, state, situation.prompts, situation.stall, situation.gate, figures))


def test_another_process_finds_the_same() -> None:
    """Played and computed anew with other hashing: log, state, prompts and forecast are equal to the last bit."""
    env = {**os.environ, "PYTHONHASHSEED": "12345"}
    other = subprocess.run([sys.executable, "-c", PRINT], capture_output=True, text=True, check=True, env=env)
    assert other.stdout.strip() == written_out()


def test_the_case_is_worth_comparing() -> None:
    """The cook that is compared was corrected, undone and forecast from readings."""
    played = _played()
    kinds = {fact.body.kind for fact in played.log}
    assert kinds >= {"reading", "corrected", "undone", "asked", "withdrawn"}
    assert played.situation.outlook.pull.likely is not None
