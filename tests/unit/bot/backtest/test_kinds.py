"""The cut of a log, and what stands in for one that nobody knows."""

from __future__ import annotations

import pytest

from bot.backtest.kinds import USUAL, all_cuts, nearest, stand_in
from bot.backtest.log import Head

CUTS = all_cuts()


def test_backtest_knows_every_cut() -> None:
    """Every cut of the catalogue can stand at the head of a log."""
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


@pytest.mark.parametrize(
    ("said", "cut", "assumed"),
    [
        ("ribs", "spareribs_stl", True), ("rack of ribs", "spareribs_stl", True),
        ("country style ribs", "pork_butt", False), ("roast", "chuck_roast", True),
        ("Sunday roast", "chuck_roast", True), ("beef roast", "chuck_roast", True),
        ("spatchcock turkey", "whole_turkey", False), ("spatchcocked turkey", "whole_turkey", False),
        ("goose", "duck", False), ("rump roast", "tri_tip", False), ("top round", "tri_tip", False),
        ("eye of round", "tri_tip", False), ("sirloin roast", "tri_tip", False), ("beef tenderloin", "tri_tip", False),
        ("rib eye", "prime_rib", False), ("pork tenderloin", "pork_loin", False), ("trout", "salmon_side", False),
    ],
)  # fmt: skip
def test_a_piece_that_is_known_by_name_is_taken_for_the_nearest_cut(said: str, cut: str, assumed: bool) -> None:
    """Tender roasts for a tender one, birds and fish for their like; a bare "ribs" or "roast" is an assumption."""
    assert CUTS.named(said) is None
    found = nearest(Head(cut=said), CUTS)
    assert found is not None
    assert (found.cut.id, found.assumed) == (cut, assumed)


def test_mass_and_thickness_choose_among_the_nearest() -> None:
    """A big piece of the rump is nearer to prime rib, thick heavy ribs are those of beef."""
    for head, cut in (
        (Head(cut="top round", mass_kg=4.5), "prime_rib"),
        (Head(cut="ribs", mass_kg=2.0, thickness_m=0.055), "beef_chuck_ribs"),
    ):
        found = nearest(head, CUTS)
        assert found is not None
        assert found.cut.id == cut


@pytest.mark.parametrize("said", ["lamb roast", "venison roast", "beef back ribs", "mystery", ""])
def test_another_animal_has_no_nearest_by_name(said: str) -> None:
    """A roast of lamb is not taken for beef: the rule by animal and mass decides."""
    assert nearest(Head(cut=said), CUTS) is None
