"""Every step of `slowbell plan`: series in one line, nothing past, one fire, reading before pulling."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from bot.__main__ import main
from bot.messages.figures import charcoal
from scheduler.cook import Beginning, Changes, begin
from scheduler.facts import CookerKind, CookerTold
from scheduler.planning.alternatives import Alternative
from scheduler.planning.shared_fire import alternatives_of
from tests.unit.scheduler.logbook import CATALOGUE, START, planned

ARGS = ("--zone", "Europe/London", "--now", "2026-08-12T15:31")
BRISKET = ("--cut", "brisket", "--mass", "6kg", "--pit", "250F")
SATURDAY = ("--serve", "2026-08-15T18:00")


@pytest.fixture(autouse=True)
def _own_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("SLOWBELL_DATA", str(tmp_path / "data"))


def test_a_plan_shows_each_series_in_one_line_and_nothing_in_the_past(capsys: pytest.CaptureFixture[str]) -> None:
    """When ready: what should be done by now is now; pit, meat, wood, fuel and spritz say how often and until when."""
    assert main(["plan", *BRISKET, "--serve", "when-ready", *ARGS]) == 0
    text = capsys.readouterr().out
    steps = text[text.index("Every step:") :]
    assert "now  clean the cooker" in steps
    assert "15:31" not in steps
    assert "look at the fuel, every 2.5 h" in steps
    assert "spritz, every 60 min until wrapped" in steps
    assert "add wood, every 60 min until wrapped" in steps
    assert steps.count("read the meat") == 1


def test_ways_of_a_dinner_that_follows_the_meat_say_the_plate(capsys: pytest.CaptureFixture[str]) -> None:
    """Without a dinner time nothing is late, and when one eats is what tells the ways apart."""
    assert main(["plan", *BRISKET, "--serve", "when-ready", *ARGS]) == 0
    ways = [line for line in capsys.readouterr().out.splitlines() if line.startswith("- ")]
    assert len(ways) > 1
    assert all("plate about" in line for line in ways)


def test_only_the_first_piece_lights_the_fire(capsys: pytest.CaptureFixture[str]) -> None:
    """Ribs that go on beside a burning brisket have no fire of their own, in text and in JSON."""
    pieces = (*BRISKET, *SATURDAY, "--cut", "spareribs", "--mass", "1.2kg")
    assert main(["plan", *pieces, *ARGS]) == 0
    text = capsys.readouterr().out
    assert sum(line.startswith("Light ") for line in text.splitlines()) == 1
    assert any(line.startswith("Meat on ") for line in text.splitlines())
    assert main(["plan", *pieces, *ARGS, "--format", "json"]) == 0
    found = json.loads(capsys.readouterr().out)
    assert {piece["light_at"] for piece in found["pieces"]} == {found["light_at"]}


@pytest.mark.parametrize("cut", ["tri-tip", "salmon", "prime rib", "leg of lamb", "chicken", "pork loin", "duck"])
def test_the_coldest_spot_is_read_before_the_meat_comes_off(capsys: pytest.CaptureFixture[str], cut: str) -> None:
    """What goes by its temperature is read and then pulled; nothing looks at meat or fuel behind the pull."""
    for now in ("2026-08-12T15:31", "2026-08-15T09:00"):
        assert main(["plan", "--cut", cut, *SATURDAY, "--zone", "Europe/London", "--now", now]) == 0
        rows = [line.partition("  ")[2] for line in capsys.readouterr().out.splitlines()]
        pull = rows.index("pull the meat")
        assert rows.index("read the coldest spot") < pull
        assert not any(row.startswith(("read the meat", "look at the fuel", "spritz")) for row in rows[pull:])


def test_the_same_words_give_the_same_plans_in_every_cook() -> None:
    """A chat names its cooks, the command line has none: plan, other ways and charcoal are the same for both."""
    told = CookerTold(cooker=CookerKind.KETTLE)

    def offered(cook: str) -> tuple[Alternative, ...]:
        begun = begin(
            Beginning(cook=cook, planned=planned(), cooker=told), by="Ines", now=START, seed=cook, message=None,
            catalogue=CATALOGUE,
        )  # fmt: skip
        assert isinstance(begun, Changes)
        views = begun.after.views
        return alternatives_of([(view.state, view.cut) for view in views], CATALOGUE.cookers)

    assert offered("plan") == offered("c-2026-11-25-7f3a")


def test_charcoal_is_one_figure(capsys: pytest.CaptureFixture[str]) -> None:
    """The range of a way is worded as that of the purchase: whole kilograms, the high end up to the next half."""
    assert charcoal(2.6, 10.2) == "3 to 10.5 kg"
    assert main(["plan", *BRISKET, *SATURDAY, *ARGS, "--cooker", "kettle", "--format", "json"]) == 0
    low, _middle, high = json.loads(capsys.readouterr().out)["alternatives"][0]["fuel_kg"]  # tenths of a kilogram
    assert main(["plan", *BRISKET, *SATURDAY, *ARGS, "--cooker", "kettle"]) == 0
    text = capsys.readouterr().out
    assert any(f"charcoal {charcoal(low, high + more)}" in text for more in (-0.05, 0.0, 0.05))
