"""A dinner in two waves from the first sentence to the fridge: what people saw, in order."""

from __future__ import annotations

from pathlib import Path

import pytest

from scheduler.state import Stage
from tests.acceptance.table import INES, Table
from tests.fakes.kitchen import Heard, on


@pytest.fixture(scope="module")
def dinner(tmp_path_factory: pytest.TempPathFactory) -> Table:
    """Return a dinner of ribs at six and short ribs at seven, played to the end of the day."""
    table = Table(tmp_path_factory.mktemp("waves"))
    table.kitchen.say(INES, "spare ribs 2 racks at 18:00, beef short ribs at 19:00, pit 275, 12 people")
    table.play(on("23:00"))
    return table


def _first(table: Table, *words: str) -> Heard:
    return next(h for h in table.kitchen.heard if h.sort == "prompt" and all(word in h.text for word in words))


def test_the_plan_says_what_each_wave_feeds(dinner: Table) -> None:
    """When each comes to the table, for how many; and whether all of it is enough."""
    plan = dinner.kitchen.heard[1].text
    assert "To the table: 18:00 spareribs, feeds about 5; 19:00 beef short ribs, feeds about 5." in plan
    assert "feed about 10 of 12 at a usual appetite; about 1 kg more would do." in plan


def test_each_wave_is_opened_sliced_and_called_at_its_own_time(dinner: Table) -> None:
    """Next piece out, the knife, the call: first for the one, an hour later for the other, each by its name."""
    for number, name, hour in ((1, "Spareribs", 18), (2, "Beef short ribs", 19)):
        wave = f"(wave {number} of 2, feeds about 5)"
        out = _first(dinner, f"{name}: Next piece out {wave}.")
        knife = _first(dinner, f"{name}: Slice across the grain")
        call = _first(dinner, f"{name}: Call people to the table, food out {wave}.")
        assert (out.at.hour, call.at.hour) == (hour - 1, hour)
        assert out.at <= knife.at <= call.at


def test_both_waves_reached_the_table(dinner: Table) -> None:
    """Served an hour apart, and what is left is put away once, after the last."""
    views = dinner.kitchen.situation.views
    assert [view.state.stage for view in views] == [Stage.AFTER] * 2
    times = [view.state.at("serve") for view in views]
    assert all(time is not None for time in times)
    assert [time.hour for time in times if time is not None] == [18, 19]
    away = [h for h in dinner.kitchen.heard if h.sort == "prompt" and "Two hours is the limit" in h.text]
    assert len(away) == 1
    assert away[0].at > on("19:00")


def test_between_the_waves_the_answer_is_about_the_next_one(dinner: Table) -> None:
    """Once the first is out, dinner is that of the second."""
    after = next(h for h in dinner.kitchen.heard if h.sort == "answer" and h.text.startswith("Spareribs: food is out"))
    assert "Dinner 19:00" in after.text


def test_a_wave_without_a_day_is_on_the_day_of_the_dinner(tmp_path: Path) -> None:
    """Only the dinner names the day: the other piece is not put on today."""
    table = Table(tmp_path)
    plan = table.kitchen.say(
        INES, "brisket 6 kg, dinner Sunday 19:00, and 3 racks of spareribs at 18:00, pit 250, 30 people"
    ).text
    assert "To the table: Sun 18:00 spareribs, feeds about 8; Sun 19:00 whole brisket, feeds about 15." in plan
