"""The guide to the backtest shows what the program really says of the log in it."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest

from bot.__main__ import main

GUIDE = Path(__file__).parents[4] / "docs" / "howto" / "backtest.md"
ROUNDING_MIN = 1.0
"""Another machine may round a minute the other way."""
_TIME = re.compile(r"\d\d:\d\d|[+-]\d+(?= min)")


def blocks(kind: str) -> list[str]:
    """Return the fenced blocks of a kind in the guide."""
    return re.findall(rf"```{kind}\n(.*?)```", GUIDE.read_text("utf-8"), re.DOTALL)


@pytest.fixture(name="log")
def saved_log(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> str:
    """Save the log of the guide where the command is called, and return its name."""
    (log,) = blocks("csv")
    (tmp_path / "ribs.csv").write_text(log, "utf-8")
    monkeypatch.chdir(tmp_path)
    return "ribs.csv"


def minutes(text: str) -> list[float]:
    """Return the times and errors of a report in minutes."""
    found = [time.partition(":") for time in _TIME.findall(text)]
    return [int(hours) * 60 + int(rest) if rest else int(hours) for hours, _, rest in found]


def test_the_guide_shows_the_true_report(log: str, capsys: pytest.CaptureFixture[str]) -> None:
    """Word for word and time for time, from the title to the last stage."""
    assert main(["backtest", log]) == 0
    told = capsys.readouterr().out
    shown = blocks("text")[0]
    assert len(shown.splitlines()) > 20
    assert [_TIME.sub("00", line).split() for line in shown.splitlines()] == [
        _TIME.sub("00", line).split() for line in told.splitlines()
    ]
    assert minutes(shown) == pytest.approx(minutes(told), abs=ROUNDING_MIN)


def test_the_guide_shows_true_json(log: str, capsys: pytest.CaptureFixture[str]) -> None:
    """The forecast that is shown is one of those printed, in the same shape."""
    assert main(["backtest", log, "--json"]) == 0
    (cook,) = json.loads(capsys.readouterr().out)["cooks"]
    whole = blocks("text")[1].replace("...,", "").replace(", ...", "")
    ((shown,),) = ([*one["forecasts"]] for one in json.loads(whole)["cooks"])
    (told,) = (one for one in cook["forecasts"] if one["minute"] == shown["minute"])
    assert list(shown) == list(told)
    assert shown["core_f"] == told["core_f"]
    assert shown["targets"] == {"195F": pytest.approx(told["targets"]["195F"], abs=ROUNDING_MIN)}
