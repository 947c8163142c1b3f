"""What pieces come into the kitchen: ranges of size, shape, fat, juice, cooker settings and wraps of twelve families.

Ranges are 10th, 50th and 90th percentiles (low, typical, high). Masses, thicknesses and pit temperatures are common
practice of the trade, no source; fat follows public composition tables, from memory; `juice` and `toughness_h` were
moved until durations and stalls lay within the trade's (tests.virtual_kitchen.check). No range was fitted to a
forecast, but scores were seen between rounds: the kitchen is independent in its equations, not blind.
"""

from __future__ import annotations

import dataclasses

Range = tuple[float, float, float]


@dataclasses.dataclass(frozen=True, kw_only=True)
class Kind:
    """One cut as the trade sells it."""

    cut: str
    said: tuple[str, ...]
    """What people call it."""
    mass_kg: Range
    thickness_mm: Range
    aspect: Range
    roundness: Range
    bone: str
    fat: Range
    fat_cap: bool = False
    pits_f: tuple[int, ...]
    """Settings people choose, each as likely as another."""
    wraps: tuple[tuple[str, float], ...]
    wrap_core_f: tuple[float, float]
    target_f: tuple[int, ...]
    """When it is pulled: what this person goes by."""
    tender: bool = False
    """True for pieces that are ready at a temperature, not by feel."""
    juice: float = 1.0
    """Scale of seeping juice."""
    toughness_h: float = 1.5
    """Median hours at 90 °C until connective tissue has let go."""
    trade_pit_f: int
    trade_kg: float
    trade_wrap: str
    trade_h: Range
    trade_target_f: int
    stall_h: Range | None = None


TOUGH_TARGETS = (195, 198, 200, 203, 203, 205)
BARE_OR = (("none", 0.45), ("paper", 0.35), ("foil", 0.2))
FOIL_OFTEN = (("none", 0.25), ("paper", 0.3), ("foil", 0.45))
ALL_FOUR = (("none", 0.25), ("paper", 0.35), ("foil", 0.25), ("boat", 0.15))

FAMILIES: dict[str, tuple[Kind, ...]] = {
    "chuck ribs": (
        Kind(
            cut="beef_chuck_ribs",
            said=("beef short ribs", "chuck short ribs", "beef chuck ribs", "short ribs"),
            mass_kg=(1.4, 2.0, 2.7),
            thickness_mm=(45, 55, 75),
            aspect=(1.2, 1.5, 1.9),
            roundness=(4.0, 6.0, 8.0),
            bone="plate",
            fat=(0.15, 0.22, 0.30),
            pits_f=(250, 265, 275, 275, 285, 300),
            wraps=BARE_OR,
            wrap_core_f=(165, 180),
            target_f=TOUGH_TARGETS,
            juice=0.55,
            toughness_h=2.1,
            trade_pit_f=275,
            trade_kg=2.0,
            trade_wrap="none",
            trade_h=(4.75, 6.25, 8.0),
            trade_target_f=203,
            stall_h=(0.5, 1.25, 2.5),
        ),
    ),
    "plate ribs": (
        Kind(
            cut="beef_plate_ribs",
            said=("beef plate ribs", "plate short ribs", "plate ribs"),
            mass_kg=(1.8, 2.3, 3.2),
            thickness_mm=(50, 65, 85),
            aspect=(1.2, 1.5, 1.9),
            roundness=(4.0, 6.0, 8.0),
            bone="plate",
            fat=(0.18, 0.26, 0.34),
            pits_f=(250, 265, 275, 275, 285, 300),
            wraps=BARE_OR,
            wrap_core_f=(165, 180),
            target_f=TOUGH_TARGETS,
            toughness_h=1.8,
            juice=0.45,
            trade_pit_f=275,
            trade_kg=2.3,
            trade_wrap="none",
            trade_h=(5.5, 7.0, 9.0),
            trade_target_f=204,
            stall_h=(0.5, 1.5, 3.0),
        ),
    ),
    "brisket packer": (
        Kind(
            cut="brisket_packer",
            said=("brisket", "packer brisket", "whole packer", "full brisket"),
            mass_kg=(4.5, 6.0, 8.0),
            thickness_mm=(65, 85, 115),
            aspect=(1.5, 1.8, 2.2),
            roundness=(2.6, 3.2, 4.2),
            bone="none",
            fat=(0.14, 0.20, 0.28),
            fat_cap=True,
            pits_f=(225, 225, 250, 250, 265, 275, 300),
            wraps=ALL_FOUR,
            wrap_core_f=(158, 176),
            target_f=TOUGH_TARGETS,
            juice=1.25,
            toughness_h=2.4,
            trade_pit_f=250,
            trade_kg=5.0,
            trade_wrap="paper",
            trade_h=(9.5, 12.5, 17.0),
            trade_target_f=203,
            stall_h=(1.5, 3.0, 6.0),
        ),
    ),
    "brisket flat": (
        Kind(
            cut="brisket_flat",
            said=("brisket flat", "flat"),
            mass_kg=(2.0, 2.7, 3.6),
            thickness_mm=(32, 45, 60),
            aspect=(1.4, 1.7, 2.1),
            roundness=(3.0, 3.8, 5.0),
            bone="none",
            fat=(0.06, 0.11, 0.18),
            fat_cap=True,
            pits_f=(225, 250, 250, 265, 275),
            wraps=(("none", 0.12), ("paper", 0.4), ("foil", 0.33), ("boat", 0.15)),
            wrap_core_f=(154, 168),
            target_f=(190, 195, 200, 200, 203, 205),
            juice=1.7,
            toughness_h=2.3,
            trade_pit_f=250,
            trade_kg=2.7,
            trade_wrap="paper",
            trade_h=(5.5, 7.5, 10.5),
            trade_target_f=200,
            stall_h=(1.0, 2.5, 5.0),
        ),
    ),
    "pork butt": (
        Kind(
            cut="pork_butt",
            said=("pork butt", "boston butt", "pork shoulder"),
            mass_kg=(2.7, 3.8, 5.0),
            thickness_mm=(105, 130, 155),
            aspect=(1.1, 1.25, 1.5),
            roundness=(2.2, 2.6, 3.2),
            bone="blade",
            fat=(0.12, 0.17, 0.24),
            fat_cap=True,
            pits_f=(225, 225, 250, 250, 265, 275, 300),
            wraps=ALL_FOUR,
            wrap_core_f=(158, 172),
            target_f=TOUGH_TARGETS,
            juice=1.4,
            toughness_h=1.7,
            trade_pit_f=250,
            trade_kg=3.8,
            trade_wrap="paper",
            trade_h=(8.5, 11.5, 16.0),
            trade_target_f=203,
            stall_h=(1.5, 3.0, 6.0),
        ),
    ),
    "pork shoulder": (
        Kind(
            cut="pork_picnic",
            said=("picnic shoulder", "pork picnic"),
            mass_kg=(2.7, 3.8, 5.2),
            thickness_mm=(110, 135, 165),
            aspect=(1.2, 1.4, 1.7),
            roundness=(2.1, 2.4, 2.9),
            bone="blade",
            fat=(0.12, 0.17, 0.24),
            fat_cap=True,
            pits_f=(225, 250, 250, 275, 300),
            wraps=BARE_OR,
            wrap_core_f=(160, 172),
            target_f=TOUGH_TARGETS,
            juice=0.55,
            toughness_h=1.6,
            trade_pit_f=250,
            trade_kg=3.8,
            trade_wrap="paper",
            trade_h=(9.0, 12.0, 17.0),
            trade_target_f=203,
            stall_h=(1.5, 3.0, 6.0),
        ),
        Kind(
            cut="whole_pork_shoulder",
            said=("whole pork shoulder",),
            mass_kg=(5.5, 7.5, 9.5),
            thickness_mm=(140, 165, 190),
            aspect=(1.3, 1.6, 1.9),
            roundness=(2.2, 2.6, 3.2),
            bone="blade",
            fat=(0.14, 0.19, 0.26),
            fat_cap=True,
            pits_f=(235, 250, 250, 275, 300),
            wraps=(("none", 0.6), ("foil", 0.4)),
            wrap_core_f=(162, 176),
            target_f=TOUGH_TARGETS,
            juice=0.55,
            toughness_h=1.7,
            trade_pit_f=250,
            trade_kg=7.5,
            trade_wrap="none",
            trade_h=(13.0, 17.0, 23.0),
            trade_target_f=202,
            stall_h=(2.0, 4.0, 7.0),
        ),
    ),
    "chuck roast": (
        Kind(
            cut="chuck_roast",
            said=("chuck roast", "beef chuck roast"),
            mass_kg=(1.1, 1.6, 2.7),
            thickness_mm=(55, 75, 100),
            aspect=(1.1, 1.35, 1.7),
            roundness=(2.6, 3.2, 4.2),
            bone="none",
            fat=(0.10, 0.15, 0.22),
            pits_f=(225, 250, 250, 265, 275),
            wraps=FOIL_OFTEN,
            wrap_core_f=(156, 168),
            target_f=TOUGH_TARGETS,
            juice=0.4,
            toughness_h=1.2,
            trade_pit_f=250,
            trade_kg=1.6,
            trade_wrap="foil",
            trade_h=(5.0, 7.0, 9.5),
            trade_target_f=205,
            stall_h=(1.0, 2.0, 4.0),
        ),
    ),
    "lamb shoulder": (
        Kind(
            cut="lamb_shoulder",
            said=("lamb shoulder", "shoulder of lamb"),
            mass_kg=(1.6, 2.4, 3.2),
            thickness_mm=(65, 90, 115),
            aspect=(1.2, 1.4, 1.7),
            roundness=(2.3, 2.8, 3.6),
            bone="blade",
            fat=(0.14, 0.20, 0.27),
            fat_cap=True,
            pits_f=(225, 250, 260, 275, 300),
            wraps=FOIL_OFTEN,
            wrap_core_f=(156, 170),
            target_f=(192, 195, 198, 200, 203),
            toughness_h=0.8,
            juice=0.75,
            trade_pit_f=260,
            trade_kg=2.4,
            trade_wrap="foil",
            trade_h=(5.0, 6.75, 9.0),
            trade_target_f=200,
            stall_h=(0.75, 1.5, 3.0),
        ),
    ),
    "spare ribs": (
        Kind(
            cut="spareribs_stl",
            said=("spare ribs", "st louis ribs", "pork spareribs"),
            mass_kg=(0.9, 1.2, 1.6),
            thickness_mm=(25, 30, 40),
            aspect=(1.9, 2.3, 2.8),
            roundness=(4.0, 6.0, 8.0),
            bone="plate",
            fat=(0.16, 0.22, 0.28),
            pits_f=(225, 250, 250, 265, 275),
            wraps=BARE_OR,
            wrap_core_f=(160, 172),
            target_f=(195, 198, 200, 203),
            juice=1.0,
            toughness_h=1.9,
            trade_pit_f=250,
            trade_kg=1.2,
            trade_wrap="foil",
            trade_h=(4.0, 5.25, 6.5),
            trade_target_f=200,
            stall_h=(0.3, 0.75, 1.5),
        ),
    ),
    "belly": (
        Kind(
            cut="pork_belly",
            said=("pork belly", "belly"),
            mass_kg=(1.5, 2.5, 4.5),
            thickness_mm=(30, 42, 55),
            aspect=(1.1, 1.4, 1.8),
            roundness=(5.0, 6.0, 8.0),
            bone="none",
            fat=(0.35, 0.45, 0.52),
            pits_f=(225, 250, 250, 265, 275),
            wraps=(("none", 0.65), ("foil", 0.35)),
            wrap_core_f=(165, 180),
            target_f=(195, 198, 200, 203),
            toughness_h=1.2,
            juice=0.55,
            trade_pit_f=250,
            trade_kg=2.5,
            trade_wrap="none",
            trade_h=(4.5, 6.0, 8.0),
            trade_target_f=200,
            stall_h=(0.5, 1.0, 2.0),
        ),
    ),
    "rib roast": (
        Kind(
            cut="prime_rib",
            said=("prime rib", "rib roast", "standing rib roast"),
            mass_kg=(2.3, 4.5, 7.0),
            thickness_mm=(110, 130, 155),
            aspect=(1.2, 1.6, 2.2),
            roundness=(2.3, 2.7, 3.4),
            bone="none",
            fat=(0.14, 0.20, 0.27),
            fat_cap=True,
            pits_f=(225, 250, 250, 275, 300),
            wraps=(("none", 1.0),),
            wrap_core_f=(200, 200),
            target_f=(135, 140, 145, 145),
            tender=True,
            juice=0.5,
            trade_pit_f=250,
            trade_kg=4.5,
            trade_wrap="none",
            trade_h=(3.5, 4.75, 6.5),
            trade_target_f=145,
        ),
    ),
    "loin and breast": (
        Kind(
            cut="pork_loin",
            said=("pork loin", "pork loin roast"),
            mass_kg=(1.4, 2.3, 4.0),
            thickness_mm=(75, 92, 110),
            aspect=(2.8, 3.8, 5.2),
            roundness=(2.2, 2.6, 3.2),
            bone="none",
            fat=(0.04, 0.07, 0.11),
            fat_cap=True,
            pits_f=(225, 250, 250, 275, 300),
            wraps=(("none", 1.0),),
            wrap_core_f=(200, 200),
            target_f=(145, 145, 150),
            tender=True,
            juice=0.35,
            trade_pit_f=250,
            trade_kg=2.3,
            trade_wrap="none",
            trade_h=(2.0, 2.75, 3.75),
            trade_target_f=145,
        ),
        Kind(
            cut="turkey_breast",
            said=("turkey breast", "turkey crown"),
            mass_kg=(1.8, 2.7, 3.6),
            thickness_mm=(75, 95, 118),
            aspect=(1.1, 1.3, 1.6),
            roundness=(2.0, 2.2, 2.6),
            bone="none",
            fat=(0.03, 0.06, 0.09),
            fat_cap=True,
            pits_f=(250, 275, 275, 300, 325),
            wraps=(("none", 1.0),),
            wrap_core_f=(200, 200),
            target_f=(165, 165, 165),
            tender=True,
            juice=0.2,
            trade_pit_f=275,
            trade_kg=2.7,
            trade_wrap="none",
            trade_h=(2.5, 3.4, 4.5),
            trade_target_f=165,
        ),
    ),
}
