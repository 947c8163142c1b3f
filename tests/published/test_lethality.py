"""Time and temperature as published, row by row: FSIS Appendix A for meat and birds, FDA Food Code for roasts.

Rows are reproduced by look-up, exactly. The fitted lines only describe them, each within the deviation stated for it.
"""

from __future__ import annotations

import itertools
import math

import pytest

from scheduler.safety.lethality import Point, dwell_at_s, dwell_by_fat_s, dwell_s, exposure, fit
from scheduler.safety.tables import (
    CHICKEN,
    MEAT_5_LOG,
    MEAT_6_5_LOG,
    MEAT_7_LOG,
    NOT_INTACT,
    OVENS,
    ROAST,
    TURKEY,
    Table,
    oven_limit,
)  # fmt: skip
from tests.published.tables import header, rows

MEAT = {"dwell_5log_s": MEAT_5_LOG, "dwell_6p5log_s": MEAT_6_5_LOG, "dwell_7log_s": MEAT_7_LOG}
POULTRY = {"chicken": CHICKEN, "turkey": TURKEY}
FAT = range(1, 13)

_meat = [
    (table, float(row["temp_F"]), float(row["temp_C_as_printed"]), float(row[column]))
    for column, table in MEAT.items()
    for row in rows("fsis_appendix_a_meat")
]
_poultry = [
    (POULTRY[kind][fat - 1], float(row["temp_F"]), float(row["temp_C_as_printed"]), float(row[f"dwell_s_fat{fat}pct"]))
    for kind in POULTRY
    for row in rows(f"fsis_appendix_a_{kind}_7log")
    for fat in FAT
]
_roast = [
    (ROAST, float(row["temp_F"]), float(row["temp_C"]), float(row["hold_time_s"]))
    for row in rows("foodcode_roast_time_temp")
]
_not_intact = [
    (NOT_INTACT, float(row["temp_F"]), float(row["temp_C"]), float(row["time_or_value"]))
    for row in rows("minimum_temperatures")
    if row["rule_id"].startswith("fc_comminuted")
]
ROWS = [*_meat, *_poultry, *_roast, *_not_intact]
TABLES = [*MEAT.values(), *CHICKEN, *TURKEY, ROAST, NOT_INTACT]


def _names(table: Table) -> str:
    return table.id


def test_every_published_row_is_there() -> None:
    """Three columns of 31 rows of meat, 12 of 30 of each bird, 17 rows of roasts, 4 of meat that is not intact."""
    assert (len(_meat), len(_poultry), len(_roast), len(_not_intact)) == (93, 720, 17, 4)
    assert sum(len(table.dwell_s) for table in TABLES) == len(ROWS)


@pytest.mark.parametrize("name", ["fsis_appendix_a_meat", "fsis_appendix_a_chicken_7log", "fsis_appendix_a_turkey_7log",
                                  "foodcode_roast_time_temp", "foodcode_roast_oven_temp", "d_z_values"])  # fmt: skip
def test_every_table_says_whether_it_was_read(name: str) -> None:
    """The copy names its source and whether the source was opened."""
    assert "READ" in header(name) or all("status" in row for row in rows(name))


@pytest.mark.parametrize(
    ("table", "temp_f", "printed_c", "time_s"), ROWS, ids=[f"{t.id}-{f:g}F" for t, f, _, _ in ROWS]
)
def test_a_row_is_looked_up(table: Table, temp_f: float, printed_c: float, time_s: float) -> None:
    """The time of a row by its Fahrenheit and by its Celsius, rounded to 0.1, is the printed one.

    Appendix A prints 137 F as 58.4 C and 139 F as 59.5 C, the Food Code whole degrees: at the printed Celsius the time
    is the printed one or shorter.
    """
    assert dwell_s(table, temp_f) == time_s
    assert dwell_at_s(table, round((temp_f - 32.0) / 1.8, 1)) == time_s
    assert abs(printed_c - (temp_f - 32.0) / 1.8) <= 0.45
    if printed_c >= round((temp_f - 32.0) / 1.8, 1):
        assert dwell_at_s(table, printed_c) <= time_s


@pytest.mark.parametrize(
    ("table", "temp_f", "printed_c", "time_s"),
    [row for row in ROWS if row[3] > 0 and row[0].log_reduction],
    ids=[f"{t.id}-{f:g}F" for t, f, _, s in ROWS if s > 0 and t.log_reduction],
)
def test_a_row_held_for_its_time_is_reached_and_not_a_minute_sooner(
    table: Table, temp_f: float, printed_c: float, time_s: float
) -> None:
    """Held level at a row for its time: all of it is reached then. For less: not."""
    temp_c = round((temp_f - 32.0) / 1.8, 1)
    minutes = time_s / 60.0
    held = exposure(table, (Point(minutes=0, low_c=temp_c), Point(minutes=minutes, low_c=temp_c)), 0.0)
    short = exposure(table, (Point(minutes=0, low_c=temp_c), Point(minutes=minutes * 0.99, low_c=temp_c)), 0.0)
    assert held.share == pytest.approx(1.0)
    assert held.reached_min == pytest.approx(minutes)
    assert short.share == pytest.approx(0.99)
    assert short.reached_min is None


@pytest.mark.parametrize("table", TABLES, ids=_names)
def test_between_rows_nothing_is_faster_than_the_rows(table: Table) -> None:
    """A temperature between two rows takes no less than the hotter row and no more than the colder one."""
    for (low_f, low_s), (high_f, high_s) in itertools.pairwise(table.dwell_s):
        for share in (0.1, 0.5, 0.9):
            temp_f = low_f + share * (high_f - low_f)
            assert high_s <= dwell_s(table, temp_f) <= low_s
            if high_s:
                straight = (1 - share) * math.log(low_s) + share * math.log(high_s)
                assert math.log(dwell_s(table, temp_f)) == pytest.approx(straight)


@pytest.mark.parametrize("table", TABLES, ids=_names)
def test_under_the_lowest_row_nothing_counts_and_over_the_last_it_is_at_once(table: Table) -> None:
    """A tenth of a degree under the lowest row takes for ever, also in Celsius; what is at once stays so."""
    assert math.isinf(dwell_s(table, table.lowest_f - 0.1))
    assert math.isinf(dwell_at_s(table, table.by_c[0][0] - 0.1))
    assert dwell_s(table, table.at_once_f - 0.1) > 0
    assert {dwell_s(table, temp_f) for temp_f in (table.at_once_f, table.at_once_f + 0.5, 200.0)} == {0.0}


def test_meat_is_at_once_at_158_f_and_starts_at_130_f() -> None:
    """The ends of the tables of meat: 130 F (54.4 C), and 158 F (70.0 C) at which no time is asked for."""
    for table in (*MEAT.values(), ROAST):
        assert (table.lowest_f, table.at_once_f, table.by_c[0][0]) == (130, 158, 54.4)
        assert dwell_at_s(table, 70.0) == 0.0
        assert dwell_at_s(table, 69.9) > 0.0


def test_the_food_code_prints_the_6_5_log_times() -> None:
    """Where both have a row, the roast table of the Food Code is the 6.5-log column of Appendix A."""
    appendix = dict(MEAT_6_5_LOG.dwell_s)
    assert all(appendix[temp_f] == time_s for temp_f, time_s in ROAST.dwell_s)


def test_more_log_reductions_never_take_less() -> None:
    """Row by row 5 log takes less than 6.5, and 6.5 no more than 7: the stricter edition asks for the longest."""
    for temp_f, time_s in MEAT_7_LOG.dwell_s:
        assert dwell_s(MEAT_5_LOG, temp_f) <= dwell_s(MEAT_6_5_LOG, temp_f) <= time_s


def test_the_consumer_minimum_and_its_rest_are_the_5_log_row() -> None:
    """145 F and three minutes, and 155 F and 17 s: both minimums of whole and tenderised meat are 5-log rows."""
    assert (dwell_s(MEAT_5_LOG, 145), dwell_s(MEAT_5_LOG, 155)) == (180, 17)


STATED = {
    "meat_6.5log": (MEAT_6_5_LOG, -math.inf), "meat_7log": (MEAT_7_LOG, -math.inf),
    "meat_5log": (MEAT_5_LOG, -math.inf),
    "meat_6.5log_146_157F_only": (MEAT_6_5_LOG, 146.0), "chicken_fat1pct": (CHICKEN[0], -math.inf),
    "chicken_fat12pct": (CHICKEN[11], -math.inf), "turkey_fat1pct": (TURKEY[0], -math.inf),
    "turkey_fat12pct": (TURKEY[11], -math.inf),
}  # fmt: skip
"""Rows of the derived file, and what they were fitted to."""


@pytest.mark.parametrize("row", rows("lethality_fit_derived"), ids=lambda row: str(row["table"]))
def test_the_fitted_line_is_the_stated_one(row: dict[str, str]) -> None:
    """The z and the D at 140 F of each table are those stated, and no row lies further off the line than stated."""
    table, low_f = STATED[row["table"]]
    found = fit(table, low_f)
    assert found.z_f == pytest.approx(float(row["z_F"]), abs=0.006)
    assert found.z_c == pytest.approx(float(row["z_C"]), abs=0.006)
    assert found.d_140_min == pytest.approx(float(row["D_at_140F_min"]), abs=0.006)
    assert found.deviation <= float(row["max_rel_rounding_dev"]) + 0.005


@pytest.mark.parametrize(
    ("tables", "z_c", "deviation"),
    [
        ([MEAT_5_LOG], (5.56, 5.58), 0.13),
        ([MEAT_6_5_LOG, ROAST], (5.55, 5.60), 0.105),
        ([MEAT_7_LOG], (5.56, 5.58), 0.05),
        (list(CHICKEN), (5.28, 5.44), 0.26),
        (list(TURKEY), (5.90, 6.10), 0.215),
        ([NOT_INTACT], (5.40, 5.44), 0.06),
    ],
)
def test_how_far_rows_lie_off_the_lines(tables: list[Table], z_c: tuple[float, float], deviation: float) -> None:
    """Largest deviation of any row of each family, and the range of its z.

    Meat lies within 5 to 13 %, which is the rounding of printed minutes; fat chicken and fat turkey bend, up to 26 %.
    """
    fits = [fit(table) for table in tables]
    assert max(one.deviation for one in fits) <= deviation
    assert all(z_c[0] <= one.z_c <= z_c[1] for one in fits)


@pytest.mark.parametrize("kind", POULTRY)
def test_fat_between_two_columns_takes_the_longer_time(kind: str) -> None:
    """2.5 % of fat is no shorter than 2 and 3, less than 1 % is 1; more than the table knows is refused."""
    tables = POULTRY[kind]
    for temp_f in (136.0, 145.0, 150.0, 151.0, 155.0):
        near = [dwell_s(table, temp_f) for table in tables[1:3]]
        assert dwell_by_fat_s(tables, temp_f, 2.5) == max(near)
        assert dwell_by_fat_s(tables, temp_f, 0.3) == dwell_s(tables[0], temp_f)
        assert dwell_by_fat_s(tables, temp_f, 12) == dwell_s(tables[11], temp_f)
    for wrong in (12.1, -0.1, math.nan):
        with pytest.raises(ValueError, match="of fat"):
            dwell_by_fat_s(tables, 145.0, wrong)


def test_a_few_cells_of_poultry_are_not_in_order_of_fat() -> None:
    """As printed: at 151 F chicken of 1 % takes longer than of 2 %; turkey at 150 and 151 F likewise. Kept so."""
    assert dwell_s(CHICKEN[0], 151) > dwell_s(CHICKEN[1], 151)
    assert all(dwell_s(TURKEY[0], temp_f) > dwell_s(TURKEY[1], temp_f) for temp_f in (150, 151))


def test_oven_temperatures_of_roasts() -> None:
    """Every row of the Food Code: kind of oven, mass class, degrees in both units, and whether it is least or most."""
    found = {(one.kind, one.large): (one.temp_f, one.bound) for one in OVENS}
    published = rows("foodcode_roast_oven_temp")
    assert len(found) == len(published) == 6
    for row in published:
        large = row["roast_mass_class"] == ">=4.5kg"
        kind, mass_kg = row["oven_type"], 4.5 if large else 4.49
        assert found[kind, large] == (float(row["oven_temp_F"]), row["bound"])  # type: ignore[index]  # a published word
        assert oven_limit(kind, mass_kg).temp_f == float(row["oven_temp_F"])  # type: ignore[arg-type]  # a published word
        assert round((float(row["oven_temp_F"]) - 32.0) / 1.8) == float(row["oven_temp_C"])
