"""Stages for plays: the same people and words over the terminal, the memory transport and the Bot API.

A play is written once (`tests/acceptance/plays`); a stage knows nothing of what a good answer is.
"""

from __future__ import annotations

from tests.fakes.stages.memory import MemoryStage
from tests.fakes.stages.messenger import MessengerStage
from tests.fakes.stages.stage import NoSuchButton, Stage
from tests.fakes.stages.windows import WindowStage

__all__ = ["MemoryStage", "MessengerStage", "NoSuchButton", "Stage", "WindowStage"]
