"""The cut of a log, and what stands in for one that nobody knows."""

from __future__ import annotations

import pytest

from bot.backtest.kinds import USUAL, all_cuts, stand_in
from bot.backtest.log import Head

CUTS = all_cuts()


def test_backtest_knows_every_cut() -> None:
    """The cuts of the planner and those that only the forecast knows are one catalogue here."""
    assert {"brisket_packer", "whole_turkey", "salmon_side"} <= {cut.id for cut in CUTS.cuts}


@pytest.mark.parametrize(
    ("head", "cut"),
    [
        (Head(), USUAL),
        (Head(cut="mystery"), USUAL),
        (Head(mass_kg=1.5), "chuck_roast"),
        (Head(mass_kg=6.2, thickness_m=0.085), "brisket_packer"),
        (Head(cut="lamb"), "lamb_shoulder"),
        (Head(cut="ribs", mass_kg=1.0, thickness_m=0.028), "baby_back_ribs"),
        (Head(cut="ribs", mass_kg=2.0, thickness_m=0.055), "beef_chuck_ribs"),
        (Head(cut="beef, some piece", mass_kg=0.5, thickness_m=0.055), "beef_cheeks"),
        (Head(cut="goose", mass_kg=5.0), "whole_turkey"),
        (Head(cut="trout"), USUAL),
    ],
)
def test_the_stand_in_is_the_nearest_tough_cut(head: Head, cut: str) -> None:
    """The animal and ribs are kept when they are named; then mass and thickness decide, else the usual shoulder."""
    assert stand_in(head, CUTS).id == cut
