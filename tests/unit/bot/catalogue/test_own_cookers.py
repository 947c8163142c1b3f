"""The page about a person's own cookers: its example is read, its table is what the engine says."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from bot.catalogue import OWN_COOKERS, open_cards
from bot.messages.own_cuts import COOKERS_FILE, broken
from scheduler.cookers import Card
from scheduler.facts import CookerKind
from scheduler.planning.fuel import Setting, burning
from scheduler.units import c_from_f
from tests.fakes.kitchen import CATALOGUE

PAGE = (Path(__file__).parents[4] / "docs" / "howto" / "cookers.md").read_text(encoding="utf-8")
(EXAMPLE,) = re.findall(r"```toml\n(.*?)```", PAGE, flags=re.DOTALL)
COOKERS = CATALOGUE.cookers


def test_the_example_of_the_page_is_read(tmp_path: Path) -> None:
    """Both cards count, and nothing is complained of."""
    (tmp_path / OWN_COOKERS).write_text(EXAMPLE, encoding="utf-8")
    cards, complaints = open_cards(tmp_path, COOKERS)
    assert complaints == ()
    assert [card.name for card in cards.cookers] == ["the old kettle", "Harrow Lane drum"]
    kettle, drum = (card.told(COOKERS) for card in cards.cookers)
    assert kettle.dial_offset_c == pytest.approx(-15 / 1.8)
    assert [mark.low_c for mark in kettle.vents] == [c_from_f(225), c_from_f(260)]
    assert (drum.water_pan, drum.fuel_holds_kg, drum.light_min) == (True, 6.0, 60.0)
    assert cards.named("the club drum") == cards.cookers[1]


def test_the_complaint_on_the_page_is_what_is_said(tmp_path: Path) -> None:
    """A kind that is none is told in these words."""
    (tmp_path / OWN_COOKERS).write_text(EXAMPLE.replace('"drum"', '"tub"'), encoding="utf-8")
    _cards, complaints = open_cards(tmp_path, COOKERS)
    assert f"> {broken(complaints, COOKERS_FILE)}\n" in PAGE


def test_every_figure_of_a_card_stands_on_the_page() -> None:
    """Nothing can be written into the file that the page does not explain."""
    explained = set(re.findall(r"`([a-z_]+)`", PAGE))
    assert set(Card.model_fields) <= explained


@pytest.mark.parametrize("kind", CookerKind)
def test_the_table_of_kinds_is_what_the_engine_says(kind: CookerKind) -> None:
    """Charcoal an hour, lighting and filling of each kind, as printed."""
    cooker = COOKERS.get(kind)
    rate = burning(COOKERS.of_kind(kind), Setting(pit_c=121.0, meat_kg=5.0, hours=12.0), COOKERS).kg_per_h
    (row,) = [line for line in PAGE.splitlines() if line.startswith(f"| {kind.value} |")]
    assert f"| {rate.typical:.2f} kg ({rate.low:.2f} to {rate.high:.2f}) |" in row
    assert f"| {cooker.light_min.typical:g} min |" in row
    assert f"| {cooker.holds_kg.typical:g} kg |" in row
