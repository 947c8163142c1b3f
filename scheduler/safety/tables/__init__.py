"""Published tables of time and temperature, row by row, each with its source. Figures only; it computes nothing."""

from scheduler.safety.tables.meat import MEAT_5_LOG, MEAT_6_5_LOG, MEAT_7_LOG, NOT_INTACT, ROAST
from scheduler.safety.tables.ovens import LARGE_KG, OVENS, Oven, oven_limit
from scheduler.safety.tables.poultry import CHICKEN, TURKEY
from scheduler.safety.tables.table import Table

__all__ = [
    "CHICKEN",
    "LARGE_KG",
    "MEAT_5_LOG",
    "MEAT_6_5_LOG",
    "MEAT_7_LOG",
    "NOT_INTACT",
    "OVENS",
    "ROAST",
    "TURKEY",
    "Oven",
    "Table",
    "oven_limit",
]
