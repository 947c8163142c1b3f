"""`slowbell plan --guests`: what it feeds and what to buy, only when it was asked."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from bot.__main__ import main

ARGS = ("--zone", "Europe/London", "--now", "2026-08-12T15:31", "--serve", "2026-08-15T18:00")
BRISKET = ("--cut", "brisket", "--mass", "6kg", "--pit", "250F")


@pytest.fixture(autouse=True)
def _own_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("SLOWBELL_DATA", str(tmp_path / "data"))


def test_shopping_only_with_guests(capsys: pytest.CaptureFixture[str]) -> None:
    """The key is there when guests are told, and only then; all other values stay as they were."""
    assert main(["plan", *BRISKET, *ARGS, "--format", "json"]) == 0
    plain = json.loads(capsys.readouterr().out)
    assert main(["plan", *BRISKET, *ARGS, "--guests", "24+6", "--format", "json"]) == 0
    told = json.loads(capsys.readouterr().out)
    shopping = told.pop("shopping")
    assert told == plain
    assert (shopping["adults"], shopping["children"]) == (24, 6)
    assert [one["cut"] for one in shopping["buy"]] == ["brisket_packer"]
    assert shopping["buy"][0]["planned_kg"] == 6.0
    assert shopping["buy"][0]["buy_kg"] == pytest.approx(6.0 + shopping["short_kg"], abs=0.2)
    assert shopping["feeds"] < 30


def test_the_text_says_what_to_buy(capsys: pytest.CaptureFixture[str]) -> None:
    """Whom it feeds, what is missing, and the mass of each piece, raw."""
    assert main(["plan", *BRISKET, "--guests", "24+6", *ARGS, "--cut", "spareribs", "--count", "3"]) == 0
    printed = capsys.readouterr().out
    assert "6 kg of whole brisket and 3 racks of spareribs feed about 26 of 30" in printed
    assert "To buy for 24 adults and 6 children, raw as sold, before trimming:" in printed
    assert "kg of whole brisket (planned: 6 kg)" in printed


@pytest.mark.parametrize("given", ["24+x", "0", "many", "0+0", "-3", "1000"])
def test_guests_that_are_no_number(given: str, capsys: pytest.CaptureFixture[str]) -> None:
    """What cannot be read is refused with what would work."""
    assert main(["plan", *BRISKET, *ARGS, f"--guests={given}"]) == 2
    printed = capsys.readouterr()
    assert printed.out == ""
    assert "like 24 or 24+6" in printed.err
