"""Setting up cuts beyond the usual ones: finding them by buttons and near names, and what a plan says of them."""

from __future__ import annotations

from pathlib import Path

import pytest

from scheduler.cuts import Cut
from scheduler.cuts.own import Complaint, join_own
from scheduler.facts import Wrap
from tests.catalogue import CUTS
from tests.fakes.kitchen import CATALOGUE, PlayedKitchen, on

OWN = """
[[cuts]]
name = "Wren's ribs"
like = "beef_chuck_ribs"

[[cuts]]
name = "Bashir's bird"
like = "whole_chicken"
mas_kg = 2
"""


def test_every_cut_is_two_taps_away(kitchen: PlayedKitchen) -> None:
    """Behind "Another cut" stand the animals, behind each its cuts; every name of the catalogue is read there."""
    kitchen.opens("Ines")
    shown = kitchen.tap("Ines", "Another cut")
    assert shown.labels == ("Beef", "Pork", "Lamb", "Poultry", "Fish and sausages")
    assert all(cut.name in shown.text for cut in CUTS.cuts)
    assert kitchen.tap("Ines", "Lamb").labels == ("Lamb shoulder", "Leg of lamb")
    assert kitchen.tap("Ines", "Leg of lamb").lines[1].startswith("How heavy is one leg, as bought?")


@pytest.mark.parametrize("cut", CUTS.cuts, ids=lambda cut: cut.id)
def test_every_cut_can_be_named_and_planned(kitchen: PlayedKitchen, cut: Cut) -> None:
    """One sentence with its name and a dinner the day after tomorrow makes a plan for it, in its usual pit."""
    name = cut.name
    plan = kitchen.say("Ines", f"{name}, dinner Monday 18:00")
    if "How hot" in plan.text:
        plan = kitchen.say("Ines", "skip")
    assert plan.text.casefold().startswith(f"{name}, pit ".casefold())
    assert "Dinner Mon 18:00" in plan.text
    assert len(plan.lines) <= 16
    assert plan.lines[-2].startswith("Before you buy: ")


@pytest.mark.parametrize(
    ("words", "labels"),
    [
        ("turkey legs", ("Whole turkey", "Turkey breast", "Whole chicken", "Spatchcock chicken", "Another cut")),
        ("pork ribz", ("Spareribs", "Another cut")),
        ("lamb chops", ("Lamb shoulder", "Leg of lamb", "Another cut")),
        ("octopus", ("Beef short ribs", "Beef plate ribs", "Whole brisket", "Pork shoulder", "Another cut")),
    ],
)
def test_what_is_not_known_gets_near_names(kitchen: PlayedKitchen, words: str, labels: tuple[str, ...]) -> None:
    """Nothing is guessed: the nearest names are buttons, the usual ones where nothing is near."""
    asked = kitchen.say("Ines", f"{words}, dinner 18:00")
    assert asked.text.startswith(f"I do not know '{words}'.")
    assert asked.labels[-1] == "Another cut"
    assert asked.labels[0] == labels[0]
    assert set(labels) <= set(asked.labels)


@pytest.mark.parametrize(
    ("said", "begins"),
    [
        ("2 chickens", "2 whole chickens, pit 300 F, bare."),
        ("20 chicken thighs", "20 chicken thighs, pit 300 F, bare."),
        ("two sides of salmon", "2 sides of salmon, pit 300 F, bare."),
        ("30 sausages", "30 fresh sausages, pit 300 F, bare."),
        ("3 kg of sausages", "25 fresh sausages, 0.12 kg, pit 300 F, bare."),
        ("6 legs of lamb", "6 legs of lamb, pit 300 F, bare."),
        ("a turkey", "Whole turkey, pit 300 F, bare."),
        ("4 beef cheeks", "4 beef cheeks, pit 300 F, wrap decided at the bark."),
        ("3 racks of spareribs", "3 racks of spareribs, pit 300 F, wrap decided at the bark."),
    ],
)
def test_pieces_are_counted_in_their_own_words(kitchen: PlayedKitchen, said: str, begins: str) -> None:
    """Racks, birds, links and thighs; what goes by temperature is bare and nobody speaks of bark."""
    assert kitchen.say("Ines", f"{said}, dinner 20:00, pit 300").lines[0] == begins


@pytest.mark.parametrize("name", [cut.name for cut in CUTS.cuts if not cut.asks_bark])
def test_nobody_is_asked_about_the_bark_of_a_bird(kitchen: PlayedKitchen, name: str) -> None:
    """Roasts, birds, fish and sausages have no look at the bark and no wrap in their plan; they count on none."""
    kitchen.say("Ines", f"{name}, dinner Monday 18:00, pit 275")
    steps = {step.id for _, step in kitchen.situation.itinerary()}
    assert steps.isdisjoint({"bark_check", "wrap_do"})
    assert [choice.wrap for choice in kitchen.situation.outlook.forecast.choices] == [Wrap.NONE]


def test_a_persons_own_cuts_come_first(tmp_path: Path) -> None:
    """They have a button, are named like any other, and what is wrong with the file is said with the plan."""
    joined = join_own(CUTS, OWN)
    kitchen = PlayedKitchen(
        tmp_path, on("06:00"), catalogue=CATALOGUE.model_copy(update={"cuts": joined.cuts}),
        complaints=joined.complaints,
    )  # fmt: skip
    try:
        assert kitchen.opens("Ines").labels[0] == "Wren's ribs"
        assert kitchen.tap("Ines", "Another cut").labels[0] == "Your own"
        plan = kitchen.say("Ines", "3 racks of Wren's ribs, dinner 18:00, pit 275")
        assert "3 racks of Wren's ribs, pit 275 F" in plan.text
        assert "Bashir's bird is left out: mas_kg: no figure has this name; did you mean mass_kg?" in plan.text
    finally:
        kitchen.close()


def test_an_own_cut_that_is_broken_is_told_where_it_is_missed(tmp_path: Path) -> None:
    """Whoever names it hears why it is not there."""
    told = (Complaint(entry="Bashir's bird", why="mass_kg: 2 needs a table"),)
    kitchen = PlayedKitchen(tmp_path, on("06:00"), complaints=told)
    try:
        asked = kitchen.say("Ines", "octopus, dinner 18:00")
        assert "cuts.toml needs a look. Bashir's bird is left out: mass_kg: 2 needs a table." in asked.text
    finally:
        kitchen.close()


def test_a_hotter_pit_for_a_later_piece_is_said_in_the_plan_and_in_time(kitchen: PlayedKitchen) -> None:
    """The plan warns that the ribs do not bear the chickens' pit; before they go on the pit is asked for by itself."""
    plan = kitchen.say("Ines", "3 racks of spareribs, 2 chickens at 325, dinner 18:00, pit 250")
    assert "Whole chicken brings the pit to 325 F at" in plan.text
    assert "Too hot for the spareribs, 275 F at most" in plan.text
    on_at = kitchen.situation.view("p1").outlook.on_at
    kitchen.until(on_at)
    for text in ("no ban", "lit an hour ago", "pit 250", "ribs on", "raw side washed"):
        kitchen.say("Ines", text)
    heard = kitchen.until(kitchen.situation.view("p2").outlook.on_at)
    told = [
        one.text for one in heard if "pit to 325 F now, for the whole chicken: spareribs will run hotter" in one.text
    ]
    assert told
    assert "Too hot for the spareribs" in told[0]
