"""Kinds of cookers, and the cards of a person's own."""

from __future__ import annotations

import pytest

from scheduler.cookers import read_cards, read_cookers
from scheduler.errors import CatalogueError
from scheduler.facts import CookerKind, VentMark
from scheduler.units import c_from_f
from tests.catalogue import TEXTS
from tests.unit.scheduler.logbook import CATALOGUE

COOKERS = CATALOGUE.cookers
CARD = """
[[cookers]]
name = "the old kettle"
kind = "kettle"
dial_offset_f = -18
wood_by = "before"
fuel_kg_per_h = 0.4
fuel_at_f = 240
vents = [
    { low_f = 260, high_f = 280, words = "top open, bottom half" },
    { low_f = 225, high_f = 250, words = "top two fingers, bottom a quarter" },
]
"""


def test_kinds_are_known_by_several_names() -> None:
    """Names, plain other names, articles and case; a cut or a stranger is no kind."""
    for said, kind in (
        ("kettle", CookerKind.KETTLE),
        ("the Steel Kettle", CookerKind.KETTLE),
        ("barrel", CookerKind.DRUM),
        ("kamado", CookerKind.CERAMIC),
        ("my offset smoker", CookerKind.OFFSET),
        ("insulated cabinet", CookerKind.CABINET),
    ):
        assert COOKERS.named(said) is kind
    assert COOKERS.named("brisket") is None
    assert COOKERS.named("old kettle") is None


def test_every_figure_is_in_order_and_has_a_basis() -> None:
    """Thick walls lose less and take longer to warm; every kind says where its figures come from."""
    for cooker in COOKERS.cookers:
        assert "common practice, no source" in cooker.basis
        assert "own estimate" in cooker.basis
    assert COOKERS.get(CookerKind.CERAMIC).walls_w_per_k.typical < COOKERS.get(CookerKind.KETTLE).walls_w_per_k.typical
    assert COOKERS.get(CookerKind.KETTLE).light_min.typical < COOKERS.get(CookerKind.CERAMIC).light_min.typical


def test_a_card_becomes_what_the_log_keeps() -> None:
    """Offsets are differences, vents stand in order of heat, what the card leaves out comes from its kind."""
    cards, complaints = read_cards(CARD, COOKERS)
    card = cards.named("old kettle")
    assert complaints == ()
    assert card is not None
    told = card.told(COOKERS)
    assert (told.cooker, told.name, told.wood_by) == (CookerKind.KETTLE, "the old kettle", "before")
    assert told.dial_offset_c == pytest.approx(-10.0)
    assert told.fuel_at_c == pytest.approx(115.6, abs=0.05)
    assert told.light_min == COOKERS.get(CookerKind.KETTLE).light_min.typical
    assert told.vents[0] == VentMark(
        low_c=c_from_f(225), high_c=c_from_f(250), words="top two fingers, bottom a quarter"
    )


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        ('kind = "kettle"', 'kind = "pot"', "kind should be 'ceramic', 'kettle', 'offset', 'drum' or 'cabinet'"),
        ("dial_offset_f = -18", "dial_offset_f = -180", "dial_offset_f should be greater than or equal to -108"),
        ("dial_offset_f = -18", "dial_offset_f = -18\ndial_offset_c = -10", "leave one out"),
        ("low_f = 225, high_f = 250", "low_f = 250, high_f = 225", "no pit runs"),
        ("low_f = 225, high_f = 250", "low_c = 225, high_c = 280", "other unit"),
        ("low_f = 225, high_f = 250", "low_f = 225, high_c = 120", "give low_f and high_f"),
        ("low_f = 225, ", "", "give low_f and high_f"),
        ("fuel_kg_per_h = 0.4", "fuel_kg_per_h = 40", "fuel_kg_per_h should be less than 10"),
        ("fuel_at_f = 240", "fuel_at_f = 24", "other unit"),
        ('wood_by = "before"', 'wood_by = "window"', "wood_by should be 'lid', 'door', 'firebox' or 'before'"),
        ("dial_offset_f = -18", "dial = -18", "nothing is known of 'dial'"),
        ('kind = "kettle"', "", "kind is missing"),
        ('"the old kettle"', '"the kettle"', "is a kind of cooker"),
    ],
)  # fmt: skip
def test_a_broken_card_is_left_out_and_says_why(old: str, new: str, says: str) -> None:
    """The complaint names the card and what would work; the other card of the file counts."""
    assert old in CARD
    other = '[[cookers]]\nname = "Big Blue"\nkind = "drum"\n'
    cards, (complaint,) = read_cards(CARD.replace(old, new) + other, COOKERS)
    assert [card.name for card in cards.cookers] == ["Big Blue"]
    assert complaint.entry in {"'the old kettle'", "'the kettle'"}
    assert says in complaint.why


def test_a_file_that_is_none_is_told_as_a_whole() -> None:
    """No TOML, a strange table, a list that is none, an entry without a name: told, and nothing raises."""
    for text, entry, says in (
        ("[[cookers", "", "it is not TOML"),
        ('[grill]\nname = "x"', "grill", "only [[cookers]]"),
        ('[cookers]\nname = "x"', "cookers", "two brackets"),
        ('[[cookers]]\nkind = "drum"', "cooker 1", "name is missing"),
        ('[[cookers]]\nkind = "drum"\nname = ""', "cooker 1", "name"),
    ):
        cards, (complaint,) = read_cards(text, COOKERS)
        assert cards.cookers == ()
        assert complaint.entry == entry
        assert says in complaint.why


def test_two_cards_of_one_name_are_one() -> None:
    """The second one is left out: "on the old kettle" must mean one thing."""
    cards, (complaint,) = read_cards(CARD + CARD.replace("the old", "old"), COOKERS)
    assert [card.name for card in cards.cookers] == ["the old kettle"]
    assert "is called 'old kettle' already" in complaint.why


def test_a_broken_catalogue_of_kinds_is_refused() -> None:
    """A kind that is missing, figures out of order, a fire without air, one name for two kinds."""
    text = TEXTS["cookers"]
    for old, new, says in (
        ('id = "drum"', 'id = "kettle"', "each kind stands once"),
        ("air_ratio = { low = 2.5", "air_ratio = { low = 0.5", "does not burn"),
        ("light_min = { low = 30", "light_min = { low = 80", "not in order"),
        ('"barrel"', '"ball grill"', "names both"),
        ("[fuels.lump]", "[fuels.coke]", "fuels"),
    ):
        assert old in text
        with pytest.raises(CatalogueError, match=says):
            read_cookers(text.replace(old, new))
