"""Dwell times of meat as published: FSIS Appendix A for three targets, FDA Food Code for whole roasts and for meat that
is not intact. Values only; nothing is rounded or fitted here.
"""

from __future__ import annotations

from scheduler.safety.tables.table import Table

_FSIS = "USDA FSIS Cooking Guideline for Meat and Poultry Products (Revised Appendix A), 14 Dec 2021, FSIS-GD-2021-14"

MEAT_5_LOG = Table(
    id="fsis_meat_5_log",
    source=f"{_FSIS}, Table 6",
    log_reduction=5.0,
    dwell_s=(
        (130, 5160),
        (131, 4140),
        (132, 3300),
        (133, 2640),
        (134, 2100),
        (135, 1680),
        (136, 1320),
        (137, 1080),
        (138, 840),
        (139, 660),
        (140, 540),
        (141, 420),
        (142, 360),
        (143, 300),
        (144, 240),
        (145, 180),
        (146, 130),
        (147, 103),
        (148, 82),
        (149, 65),
        (150, 52),
        (151, 41),
        (152, 33),
        (153, 26),
        (154, 21),
        (155, 17),
        (156, 14),
        (157, 11),
        (158, 0),
        (159, 0),
        (160, 0),
    ),
)
"""Least time at a temperature [(°F, s)] for a 5-log reduction of Salmonella in meat; 0 is at once."""

MEAT_6_5_LOG = Table(
    id="fsis_meat_6_5_log",
    source=f"{_FSIS}, Table 2",
    log_reduction=6.5,
    dwell_s=(
        (130, 6720),
        (131, 5340),
        (132, 4260),
        (133, 3360),
        (134, 2700),
        (135, 2160),
        (136, 1680),
        (137, 1380),
        (138, 1080),
        (139, 900),
        (140, 720),
        (141, 540),
        (142, 480),
        (143, 360),
        (144, 300),
        (145, 240),
        (146, 169),
        (147, 134),
        (148, 107),
        (149, 85),
        (150, 67),
        (151, 54),
        (152, 43),
        (153, 34),
        (154, 27),
        (155, 22),
        (156, 17),
        (157, 14),
        (158, 0),
        (159, 0),
        (160, 0),
    ),
)
"""Least time at a temperature [(°F, s)] for a 6.5-log reduction of Salmonella in meat; 0 is at once."""

MEAT_7_LOG = Table(
    id="fsis_meat_7_log",
    source=f"{_FSIS}, Table 2",
    log_reduction=7.0,
    dwell_s=(
        (130, 7260),
        (131, 5820),
        (132, 4620),
        (133, 3720),
        (134, 2820),
        (135, 2220),
        (136, 1920),
        (137, 1440),
        (138, 1140),
        (139, 900),
        (140, 720),
        (141, 600),
        (142, 480),
        (143, 360),
        (144, 300),
        (145, 240),
        (146, 182),
        (147, 144),
        (148, 115),
        (149, 91),
        (150, 72),
        (151, 58),
        (152, 46),
        (153, 37),
        (154, 29),
        (155, 23),
        (156, 19),
        (157, 15),
        (158, 0),
        (159, 0),
        (160, 0),
    ),
)
"""Least time at a temperature [(°F, s)] for a 7-log reduction of Salmonella in meat; 0 is at once."""

ROAST = Table(
    id="food_code_roast",
    source="FDA Food Code 3-401.11(B)(2)",
    log_reduction=6.5,
    dwell_s=(
        (130, 6720),
        (131, 5340),
        (133, 3360),
        (135, 2160),
        (136, 1680),
        (138, 1080),
        (140, 720),
        (142, 480),
        (144, 300),
        (145, 240),
        (147, 134),
        (149, 85),
        (151, 54),
        (153, 34),
        (155, 22),
        (157, 14),
        (158, 0),
    ),
)
"""Holding time of whole meat roasts (beef, corned beef, lamb, pork, cured pork) [(°F, s)]; it may include the rise
after the oven. Each is the 6.5-log time of FSIS Appendix A; older codes printed the 7-log times."""

NOT_INTACT = Table(
    id="food_code_not_intact",
    source="FDA Food Code (2017 and later) 3-401.11(A)(2)",
    log_reduction=None,
    dwell_s=((145, 180), (150, 60), (155, 17), (158, 0)),
)
"""Alternatives for ground, injected and mechanically tenderised meat [(°F, s)]. They never open the gate."""
