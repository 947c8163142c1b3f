"""Kitchens for the tests of this room: an empty one, and one with ribs on the fire.

It asserts nothing.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.fakes.kitchen import PlayedKitchen, on

RIBS = "7 racks of short ribs, dinner 18:00, pit 275"


@pytest.fixture
def kitchen(tmp_path: Path) -> Iterator[PlayedKitchen]:
    """Return a kitchen in which nothing was ever said, on Saturday at six in the morning."""
    played = PlayedKitchen(tmp_path, on("06:00"))
    yield played
    played.close()


@pytest.fixture(scope="session")
def planned_once(tmp_path_factory: pytest.TempPathFactory) -> PlayedKitchen:
    """Return the closed kitchen that `planned` goes on from."""
    played = PlayedKitchen(tmp_path_factory.mktemp("planned"), on("06:00"))
    played.opens("Ines")
    played.opens("Tomas")
    played.say("Ines", RIBS)
    played.say("Ines", "cooker clean")
    played.close()
    return played


@pytest.fixture(scope="session")
def ribs_once(planned_once: PlayedKitchen, tmp_path_factory: pytest.TempPathFactory) -> PlayedKitchen:
    """Return the closed kitchen that `ribs` goes on from."""
    played = planned_once.continued(tmp_path_factory.mktemp("ribs"))
    played.until(on("08:40"))
    for text in ("no ban", "lit at 7:40", "thin", "pit 270", "probe in", "meat is on", "raw side washed"):
        played.say("Ines", text)
    played.later(1)
    played.close()
    return played


@pytest.fixture
def planned(planned_once: PlayedKitchen, tmp_path: Path) -> Iterator[PlayedKitchen]:
    """Return a kitchen in which Ines planned ribs for 18:00 with Tomas beside her; the fire is not lit."""
    played = planned_once.continued(tmp_path)
    yield played
    played.close()


@pytest.fixture
def ribs(ribs_once: PlayedKitchen, tmp_path: Path) -> Iterator[PlayedKitchen]:
    """Return a kitchen with ribs on the fire since 08:40, everything answered, at 08:41."""
    played = ribs_once.continued(tmp_path)
    yield played
    played.close()
