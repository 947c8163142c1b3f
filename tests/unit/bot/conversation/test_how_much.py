"""Questions about amounts of meat: what they ask, and that nothing else is taken for one."""

from __future__ import annotations

import pytest

from bot.commands import GuestsSaid, HowMuch
from bot.conversation.parsing.feeding import how_much
from bot.conversation.parsing.words import tidy
from scheduler.facts import Appetite
from tests.catalogue import CUTS

TWENTY = GuestsSaid(adults=20)


@pytest.mark.parametrize(
    ("text", "meant"),
    [
        ("how much brisket for 20?", HowMuch(cut="brisket_packer", guests=TWENTY)),
        ("How many kg of brisket for twenty?", HowMuch(cut="brisket_packer", guests=TWENTY)),
        ("how much brisket should I buy for 20 adults", HowMuch(cut="brisket_packer", guests=TWENTY)),
        ("how much meat for 24 adults and 6 children", HowMuch(guests=GuestsSaid(adults=24, children=6))),
        ("how much pork butt for 24+6", HowMuch(cut="pork_butt", guests=GuestsSaid(adults=24, children=6))),
        ("how much pork butt for 12 + 4 kids", HowMuch(cut="pork_butt", guests=GuestsSaid(adults=12, children=4))),
        (
            "how much spareribs for 12 hungry people in buns",
            HowMuch(cut="spareribs_stl", guests=GuestsSaid(adults=12, appetite=Appetite.HEARTY, buns=True)),
        ),
        ("how much for 40 people in buns?", HowMuch(guests=GuestsSaid(adults=40, buns=True))),
        ("how much should I buy for 12", HowMuch(guests=GuestsSaid(adults=12))),
        ("will it be enough?", HowMuch()),
        ("do we have enough meat?", HowMuch()),
        ("enough for 30?", HowMuch(guests=GuestsSaid(adults=30))),
        ("how many does 6 kg of brisket feed?", HowMuch(cut="brisket_packer", mass_kg=6.0)),
        ("how many people will 3 racks of spareribs feed", HowMuch(cut="spareribs_stl", count=3)),
        ("is 6 kg of brisket enough for 20?", HowMuch(cut="brisket_packer", mass_kg=6.0, guests=TWENTY)),
    ],
)
def test_what_is_asked(text: str, meant: HowMuch) -> None:
    """The cut, the guests and the amounts of a question are found."""
    assert how_much(tidy(text), CUTS) == meant


@pytest.mark.parametrize(
    "text",
    [
        "how much longer", "how much charcoal for 12 hours", "how much salt for 6 kg", "how much time for 20 people",
        "is it hot enough?", "is it tender enough", "is it long enough", "how much is left", "how many people",
        "how much wood for the brisket", "enough charcoal", "brisket for 20", "we are 20 people", "178", "is it done",
    ],
)  # fmt: skip
def test_what_is_no_such_question(text: str) -> None:
    """Questions about time, fire and tenderness, and what is told, are left to their own readers."""
    assert how_much(tidy(text), CUTS) is None
