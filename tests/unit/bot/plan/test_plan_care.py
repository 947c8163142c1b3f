"""`slowbell plan`: who eats, treated meat and the minimum that counts, as values; `--safe-by` and its refusals."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from bot.__main__ import main

ARGS = ("--zone", "Europe/London", "--now", "2026-08-12T15:31", "--serve", "2026-08-15T18:00", "--pit", "250F")
BUTT = ("--cut", "pork butt", "--mass", "4kg")
TIP = ("--cut", "tri-tip", "--mass", "1kg")


@pytest.fixture(autouse=True)
def _own_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("SLOWBELL_DATA", str(tmp_path / "data"))


def _json(capsys: pytest.CaptureFixture[str], *args: str) -> dict[str, Any]:
    assert main(["plan", *args, *ARGS, "--format", "json"]) == 0
    found = json.loads(capsys.readouterr().out)
    assert isinstance(found, dict)
    return found


def test_what_nobody_told_is_null(capsys: pytest.CaptureFixture[str]) -> None:
    """Unknown is null, never "no" and never an empty list."""
    found = _json(capsys, *BUTT)
    assert [found[key] for key in ("at_risk", "allergies", "public", "treated")] == [None, None, None, None]
    assert (found["rules"], found["safe_by"]) == ("stricter", "minimum")
    assert (found["minimum"]["f"], found["minimum"]["c"], found["minimum"]["rest_minutes"]) == (145, 62.8, 3)


def test_the_minimum_names_rule_reason_edition_and_source(capsys: pytest.CaptureFixture[str]) -> None:
    """Injected meat: the Food Code's figure, and what made it count."""
    found = _json(capsys, *BUTT, "--treated", "injected", "--public", "--allergies", "nuts (Wren), mustard")
    assert (found["public"], found["allergies"], found["treated"]) == (True, ["nuts (Wren)", "mustard"], ["injected"])
    least = found["minimum"]
    assert (least["f"], least["c"], least["because"], least["edition"]) == (155, 68.3, "injected", "food-code")
    assert least["rule"] == "minimum_not_measured"
    assert least["source"].startswith("FDA Food Code")


@pytest.mark.parametrize("told", [("--at-risk",), ("--public",)])
def test_the_stricter_rules_count_whatever_was_chosen(capsys: pytest.CaptureFixture[str], told: tuple[str]) -> None:
    """Guests at risk, or a public meal: the rules that were asked for do not count."""
    assert _json(capsys, *BUTT, "--rules", "food-code")["rules"] == "food-code"
    assert _json(capsys, *BUTT, *told, "--rules", "food-code")["rules"] == "stricter"


def test_each_of_several_pieces_has_its_own(capsys: pytest.CaptureFixture[str]) -> None:
    """With several pieces the values that are of a piece stand with it, and not at the top."""
    found = _json(capsys, *BUTT, "--treated", "intact", "--cut", "chicken", "--mass", "2kg")
    assert [one["treated"] for one in found["pieces"]] == [[], None]
    assert [one["minimum"]["f"] for one in found["pieces"]] == [145, 165]
    assert "minimum" not in found
    assert found["at_risk"] is None


def test_time_at_a_lower_temperature_is_chosen_for_intact_cuts(capsys: pytest.CaptureFixture[str]) -> None:
    """Told intact, nobody at risk, and chosen: planned to the wished core, with its time; the minimum stays named."""
    chosen = (*TIP, "--treated", "intact", "--no-at-risk", "--safe-by", "time", "--done", "130F")
    found = _json(capsys, *chosen)
    assert (found["safe_by"], found["minimum"]["f"]) == ("time", 145)
    assert main(["plan", *chosen, *ARGS]) == 0
    assert "130 F (54.4 C) for 121 min in the coldest spot, by the FSIS table" in capsys.readouterr().out
    assert _json(capsys, *TIP, "--safe-by", "minimum")["safe_by"] == "minimum"


@pytest.mark.parametrize(
    ("args", "why", "works"),
    [
        ((*TIP, "--safe-by", "time", "--done", "130F"), "nobody said yet that it is as cut", "--treated intact"),
        ((*TIP, "--treated", "rolled", "--safe-by", "time"), "brought the outside in", "the minimum counts"),
        (("--cut", "chicken", "--safe-by", "time"), "poultry is never planned under it", "the minimum counts"),
        (("--cut", "sausages", "--safe-by", "time"), "no pink by choice", "the minimum counts"),
        ((*TIP, "--treated", "intact", "--safe-by", "time", "--at-risk"), "guests at risk", "the minimum counts"),
        ((*TIP, "--treated", "intact", "--safe-by", "time"), "nobody said yet whether guests at risk", "--no-at-risk"),
        ((*TIP, "--treated", "intact", "--done", "130F"), "Not at 130 F (54.4 C)", "--no-at-risk --safe-by time"),
        ((*TIP, "--treated", "intact", "--no-at-risk", "--done", "130F"), "Not at 130 F", "By choice: --safe-by time"),
        ((*TIP, "--safe-by", "feel"), "--safe-by 'feel'", "minimum, or time"),
    ],
)
def test_a_refusal_says_why_and_what_works(
    capsys: pytest.CaptureFixture[str], args: tuple[str, ...], why: str, works: str
) -> None:
    """Nothing is planned; the reason, and the arguments that would do."""
    assert main(["plan", *args, *ARGS]) == 2
    printed = capsys.readouterr()
    assert printed.out == ""
    assert why in printed.err
    assert works in printed.err
