"""When the pieces are more than a cooker usually holds, against what its card says in words."""

from __future__ import annotations

import dataclasses

import pytest

from scheduler.facts import CookerKind, PieceAdded
from scheduler.planning.capacity import crowded
from scheduler.thermal.geometry import footprint_m2
from tests.unit.scheduler.logbook import CATALOGUE, Logbook, cut, dinner, planned

MORNING, NEXT_DAY = 12 * 60, 36 * 60


def _crowded(kind: CookerKind, *pieces: tuple[str, int], serve: int = NEXT_DAY) -> bool:
    (first, count), *others = pieces
    log = Logbook(planned(cut=first, count=count, serving=dinner(serve), pit_low_c=121.0, pit_high_c=121.0))
    log.tell(CATALOGUE.cookers.of_kind(kind), 0)
    for number, (name, of_it) in enumerate(others, 2):
        log.tell(PieceAdded(cut=name, count=of_it), 0)
        log.facts = (*log.facts[:-1], dataclasses.replace(log.facts[-1], piece=f"p{number}"))
    return crowded(log.situation.views, CATALOGUE.cookers) is not None


@pytest.mark.parametrize(
    ("kind", "pieces"),
    [
        (CookerKind.KETTLE, (("brisket_packer", 1),)),
        (CookerKind.KETTLE, (("spareribs_stl", 3),)),
        (CookerKind.CERAMIC, (("brisket_packer", 1),)),
        (CookerKind.CERAMIC, (("pork_butt", 2),)),
        (CookerKind.DRUM, (("spareribs_stl", 3),)),
        (CookerKind.OFFSET, (("brisket_packer", 3),)),
        (CookerKind.CABINET, (("brisket_packer", 4),)),
    ],
)
def test_what_a_card_says_fits_is_not_noted(kind: CookerKind, pieces: tuple[tuple[str, int], ...]) -> None:
    """One big piece or three racks in a kettle, two or three big pieces in an offset, and so on."""
    assert not _crowded(kind, *pieces)


@pytest.mark.parametrize(
    ("kind", "pieces"),
    [
        (CookerKind.KETTLE, (("brisket_packer", 1), ("spareribs_stl", 3))),
        (CookerKind.KETTLE, (("brisket_packer", 2),)),
        (CookerKind.KETTLE, (("spareribs_stl", 5),)),
        (CookerKind.CERAMIC, (("spareribs_stl", 3),)),
        (CookerKind.OFFSET, (("brisket_packer", 5),)),
        (CookerKind.CABINET, (("brisket_packer", 9),)),
    ],
)
def test_more_than_that_is_noted(kind: CookerKind, pieces: tuple[tuple[str, int], ...]) -> None:
    """What lies on the fire at one time counts together."""
    assert _crowded(kind, *pieces)


def test_what_comes_off_before_the_next_goes_on_takes_no_room() -> None:
    """Ribs for noon and a chicken for the evening are never in the kettle together."""
    log = Logbook(planned(cut="spareribs_stl", count=3, serving=dinner(MORNING)))
    log.tell(CATALOGUE.cookers.of_kind(CookerKind.KETTLE), 0)
    log.tell(PieceAdded(cut="spareribs_stl", count=3, serving=dinner(MORNING + 12 * 60)), 0)
    log.facts = (*log.facts[:-1], dataclasses.replace(log.facts[-1], piece="p2"))
    assert crowded(log.situation.views, CATALOGUE.cookers) is None


def test_nothing_is_said_of_a_cooker_that_nobody_told() -> None:
    """Ten briskets, and no word of what they lie in."""
    log = Logbook(planned(cut="brisket_packer", count=10, serving=dinner(NEXT_DAY)))
    assert crowded(log.situation.views, CATALOGUE.cookers) is None


def test_a_heavier_piece_covers_more_and_a_thicker_one_less() -> None:
    """Of one cut; a rack grows only in its length and width."""
    brisket, ribs = cut("brisket_packer"), cut("spareribs_stl")
    assert footprint_m2(brisket, 4.0) < footprint_m2(brisket, 8.0) < 2 * footprint_m2(brisket, 4.0)
    assert footprint_m2(brisket, 6.0, 0.09) < footprint_m2(brisket, 6.0, 0.06)
    assert footprint_m2(ribs, 2.0) == pytest.approx(2 * footprint_m2(ribs, 1.0))
