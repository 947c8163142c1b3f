"""Every reply of the trade's list of a hundred, as `slowbell read --json` understands it."""

from __future__ import annotations

import csv
import json
import shlex

import pytest

from bot.__main__ import main
from bot.read.meaning import understand
from tests.unit.bot.conversation.spoken import ROOT
from tests.unit.bot.read.moments import CATALOGUE, celsius, moment

TABLE = ROOT / "tests" / "data" / "replies_read.csv"
TWO_COOKS = {"81": ("brisket", "chicken")}
"""Rows in which two cooks run."""


def _rows() -> list[dict[str, str]]:
    lines = [line for line in TABLE.read_text(encoding="utf-8").splitlines() if not line.startswith("#")]
    return list(csv.DictReader(lines))


def _expected(row: dict[str, str]) -> dict[str, object]:
    return {
        "intent": row["intent"],
        "core_c": [celsius(one) for one in row["core"].split()],
        "pit_c": [celsius(one) for one in row["pit"].split()],
        "minutes_ago": int(row["minutes_ago"]) if row["minutes_ago"] else None,
        "duration_min": int(row["duration_min"]) if row["duration_min"] else None,
    }


def _understood(row: dict[str, str]) -> dict[str, object]:
    """Return the same values that the command prints, of a moment that may know more than options say."""
    more: dict[str, object] = {"steps": tuple(row["open"].split())} if row["open"] else {}
    more |= {"cooks": TWO_COOKS[row["n"]]} if row["n"] in TWO_COOKS else {}
    return understand(row["text"], moment(row["text"], row["options"], **more), CATALOGUE).as_values()


@pytest.mark.parametrize("row", _rows(), ids=lambda row: f"{row['n']} {row['text']}")
def test_a_reply_of_the_table_is_understood(row: dict[str, str]) -> None:
    """Intent, readings, times and the question are those of the table."""
    found = _understood(row)
    question = found.pop("question")
    assert found == _expected(row)
    assert (question is None) == (not row["asks"])
    assert row["asks"] in str(question or "")


@pytest.mark.parametrize(
    "row", [row for row in _rows() if row["n"] not in TWO_COOKS], ids=lambda row: f"{row['n']} {row['text']}"
)
def test_the_options_alone_understand_it_as_well(row: dict[str, str], capsys: pytest.CaptureFixture[str]) -> None:
    """On the command line, where only options tell of the moment, the row has the same readings and times."""
    options = row["options"] if "--now" in row["options"] else f"{row['options']} --now 13:55"
    assert main(["--zone", "Europe/London", "read", row["text"], *shlex.split(options), "--json"]) == 0
    found = json.loads(capsys.readouterr().out)
    assert list(found) == ["intent", "core_c", "pit_c", "minutes_ago", "duration_min", "question"]
    assert {name: value for name, value in found.items() if name not in ("intent", "question")} == {
        name: value for name, value in _expected(row).items() if name != "intent"
    }
    assert row["open"] or found["intent"] == row["intent"]


def test_the_table_holds_all_of_the_hundred() -> None:
    """No row is left out, and none stands twice."""
    assert [int(row["n"]) for row in _rows()] == list(range(1, 101))


def test_the_texts_are_those_of_the_other_table() -> None:
    """Both tables of replies are of the same texts."""
    other = ROOT / "tests" / "data" / "replies.csv"
    lines = [line for line in other.read_text(encoding="utf-8").splitlines() if not line.startswith("#")]
    texts = {row["n"]: row["text"] for row in _rows()}
    assert {row["n"]: row["text"] for row in csv.DictReader(lines)}.items() <= texts.items()
