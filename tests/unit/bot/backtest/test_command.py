"""The command `slowbell backtest`, from its arguments to what it prints."""

from __future__ import annotations

import io
import json
import re
import sys
from pathlib import Path
from typing import Any

import pytest

from bot.__main__ import main
from bot.backtest import command

GUIDE = Path(__file__).parents[4] / "docs" / "howto" / "backtest.md"
SHORT = "# cut: pork butt\n# pit: 250 F\nminute,core_f\n0,40\n60,75\n"


def saved(folder: Path, text: str | bytes, name: str = "cook.csv") -> str:
    """Save a log and return its path."""
    path = folder / name
    path.write_bytes(text if isinstance(text, bytes) else text.encode())
    return str(path)


def guide_log() -> str:
    """Return the example of the guide."""
    found = re.search(r"```csv\n(.*?)```", GUIDE.read_text("utf-8"), re.DOTALL)
    assert found is not None
    return found[1]


def told_json(capsys: pytest.CaptureFixture[str]) -> Any:  # noqa: ANN401 - whatever JSON holds
    """Return what was printed as JSON."""
    return json.loads(capsys.readouterr().out)


def test_the_example_of_the_guide_is_reported(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Every reading until the pull is forecast, the target is reached, and each stage has its error."""
    assert main(["backtest", saved(tmp_path, guide_log())]) == 0
    told = capsys.readouterr()
    assert told.err == ""
    assert "beef short ribs, 2.04 kg, 5.6 cm thick, pit 250 to 275 F, bare to the end." in told.out
    rows = [line for line in told.out.splitlines() if re.match(r"\d\d:\d\d +\d+ F ", line)]
    assert [row.split()[0] for row in rows] == [
        "09:30", "10:30", "11:20", "12:05", "12:50", "13:30", "14:05", "14:40", "15:15", "15:40",
    ]  # fmt: skip
    assert all(re.fullmatch(r"\d\d:\d\d +\d+ F( +(\d\d:\d\d|-)( day \d)?){3}", row) for row in rows)
    assert "195F was reached about 15:19 (read 15:15 and 15:40)." in told.out
    stage = r"^(?:\d\d % of the rise|passing \d+ F) .* [+-](?:\d+ min|\d+:\d\d) +(?:inside|outside)$"
    assert len(re.findall(stage, told.out, re.MULTILINE)) == 6


def test_json_has_the_promised_shape(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Minutes since meat on, cores in Fahrenheit, targets by the name they were given; nothing else on the page."""
    file = saved(tmp_path, guide_log())
    assert main(["backtest", file, "--json", "--target", "195f", "--target", "90 C"]) == 0
    (cook,) = told_json(capsys)["cooks"]
    assert list(cook) == ["file", "forecasts"]
    assert cook["file"] == file
    assert [one["minute"] for one in cook["forecasts"]] == [0, 60, 110, 155, 200, 240, 275, 310, 345, 370]
    assert [one["core_f"] for one in cook["forecasts"]][:3] == [40.0, 74.0, 121.0]
    for one in cook["forecasts"]:
        assert set(one) == {"minute", "core_f", "targets"}
        assert list(one["targets"]) == ["195F", "90C"]
        for answer in one["targets"].values():
            assert list(answer) == ["p10", "p50", "p90"]
            assert answer["p10"] <= answer["p50"] <= answer["p90"]
    reached = cook["forecasts"][-1]["targets"]["195F"]
    assert all(345 <= minute <= 370 for minute in reached.values())


def test_a_time_beyond_the_horizon_is_null(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A pit colder than the target never gets there."""
    text = "# cut: pork butt\n# pit: 70 C\n# wrap: none\nminute,core_c,pit_c\n0,5,70\n300,40,70\n600,52,70\n"
    assert main(["backtest", saved(tmp_path, text), "--json"]) == 0
    (cook,) = told_json(capsys)["cooks"]
    assert cook["forecasts"][-1]["targets"]["195F"] == {"p10": None, "p50": None, "p90": None}


def test_a_log_in_celsius_is_told_in_celsius(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The table speaks the unit of the log; a log that stops short has nothing to score."""
    text = SHORT.replace("core_f", "core_c").replace("0,40", "0,4.5").replace("60,75", "60,24")
    assert main(["backtest", saved(tmp_path, text)]) == 0
    told = capsys.readouterr().out
    assert re.search(r"^0:00 +4\.5 C ", told, re.MULTILINE)
    assert "195F is not reached in this log: nothing to score." in told


def test_malformed_rows_are_named_and_counted(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Each bad row has its line on standard error, with a count; JSON holds forecasts alone."""
    file = saved(tmp_path, SHORT + "soon,80\n90,hot\n120,110\n")
    assert main(["backtest", file, "--json"]) == 0
    told = capsys.readouterr()
    assert f"{file}, line 6: no time in 'soon'" in told.err
    assert f"{file}, line 7: 'hot' is no temperature" in told.err
    assert f"{file}: 2 rows skipped." in told.err
    (cook,) = json.loads(told.out)["cooks"]
    assert [one["minute"] for one in cook["forecasts"]] == [0, 60, 120]


@pytest.mark.parametrize(
    ("head", "says"),
    [("", "no line like # cut: brisket, so it is taken for"), ("# cut: swan\n", "no cut called 'swan' is known")],
)
def test_a_stand_in_for_an_unknown_cut_is_said(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], head: str, says: str
) -> None:
    """The cook is forecast as a usual tough cut, and people learn as which."""
    assert main(["backtest", saved(tmp_path, head + "minute,core_f\n0,40\n60,75\n")]) == 0
    told = capsys.readouterr()
    assert says in told.err
    assert "taken for pork shoulder" in told.err
    assert "pork shoulder" in told.out


@pytest.mark.parametrize(
    ("cut", "says"),
    [
        ("ribs", "'ribs' may be several cuts; it is assumed to be spareribs."),
        ("roast", "'roast' may be several cuts; it is assumed to be chuck roast."),
        ("goose", "'goose' is taken for whole duck, the nearest cut that is known."),
    ],
)
def test_the_nearest_cut_is_never_taken_silently(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], cut: str, says: str
) -> None:
    """Whoever wrote a name that is no cut here learns as what it was forecast."""
    assert main(["backtest", saved(tmp_path, f"# cut: {cut}\nminute,core_f\n0,40\n")]) == 0
    assert says in capsys.readouterr().err


@pytest.mark.parametrize(
    ("text", "says"),
    [
        (b"", "no line of column names"),
        (b"minute,core_f\n", "not one row with a time and a core reading"),
        (b"\x7fELF\x02\x00\x00\x01", "that is no text file"),
        (b"minute,core_f\n0,40\n# \xe9\x81\n", "that text can be read neither as UTF-8 nor as Windows-1252"),
        (b"\x89PNG\r\n\x01\xff", "that is no text file"),
    ],
)
def test_a_log_that_cannot_be_used_does_not_stop_the_others(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], text: bytes, says: str
) -> None:
    """It is named in one sentence, the exit code is 1, and the good log beside it is reported."""
    bad, good = saved(tmp_path, text, "bad.csv"), saved(tmp_path, SHORT, "good.csv")
    assert main(["backtest", bad, good, "--json"]) == 1
    told = capsys.readouterr()
    assert told.err.startswith(f"{bad}")
    assert says in told.err
    assert [cook["file"] for cook in json.loads(told.out)["cooks"]] == [good]


def test_files_that_are_not_there_are_named(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A missing file and a folder get a sentence each, and no traceback."""
    missing = str(tmp_path / "nothing.csv")
    assert main(["backtest", missing, str(tmp_path), "no\0name"]) == 1
    told = capsys.readouterr()
    assert f"{missing}: there is no such file." in told.err
    assert f"{tmp_path}: that is a folder" in told.err
    assert len(told.err.splitlines()) == 3
    assert told.out == ""


def test_spreadsheet_unicode_is_read(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """UTF-16 with its mark, and UTF-8 with one, are text as well."""
    for encoding in ("utf-16", "utf-8-sig"):
        assert main(["backtest", saved(tmp_path, SHORT.encode(encoding)), "--json"]) == 0
        assert len(told_json(capsys)["cooks"][0]["forecasts"]) == 2


def test_windows_text_is_read(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A half or an accent in a comment, as Western spreadsheets save it, does not refuse the log."""
    text = SHORT.replace("# pit", "# brought by Zoë: 3½ kg at the café\n# pit").encode("cp1252")
    assert main(["backtest", saved(tmp_path, text), "--json"]) == 0
    assert len(told_json(capsys)["cooks"][0]["forecasts"]) == 2


def test_times_without_a_date_are_named(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Each such row is named with what would work, and then that none is left."""
    assert main(["backtest", saved(tmp_path, "at,core_f\n20:30,40\n00:30,80\n")]) == 1
    told = capsys.readouterr().err
    assert "line 2: '20:30' has no date, row skipped. With one it can be read: 2026-09-12T20:30" in told
    assert "line 3: '00:30' has no date" in told
    assert "not one row with a time and a core reading" in told


def test_impossible_numbers_say_why(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A slip of the unit is suspected where it fits, a hot oven passes, and a far minute is too far."""
    rows = "0,5,120\n60,131,121\n70,400,121\n80,20,252\n90,20,900\n95,-60,120\n100000,60,120\n"
    assert main(["backtest", saved(tmp_path, f"# cut: brisket\nminute,core_c,pit_c\n{rows}"), "--json"]) == 0
    told = capsys.readouterr()
    for line, says in (
        (4, "131 C is hotter than meat gets: perhaps F? Row skipped."),
        (5, "400 C is hotter than meat gets, row skipped."),
        (7, "900 C is hotter than a cooker gets, row skipped."),
        (8, "-60 C is colder than meat or cooker get, row skipped."),
        (9, "'100000' is too far from the rest of the cook (more than 14 days), row skipped."),
    ):
        assert f"line {line}: {says}" in told.err
    assert "line 6" not in told.err
    assert [one["minute"] for one in json.loads(told.out)["cooks"][0]["forecasts"]] == [0, 80]


def test_summary_and_json_name_the_same_crossing(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A core that falls back under the target after it was reached does not move the time it was."""
    file = saved(tmp_path, "# cut: pork butt\nminute,core_f\n0,40\n300,160\n600,190\n700,197\n720,194\n760,201\n")
    assert main(["backtest", file]) == 0
    found = re.search(r"195F was reached about (\d+):(\d\d) \(read 10:00 and 11:40\)", capsys.readouterr().out)
    assert found is not None
    assert main(["backtest", file, "--json"]) == 0
    last = told_json(capsys)["cooks"][0]["forecasts"][-1]["targets"]["195F"]
    assert last["p10"] == last["p50"] == last["p90"]
    assert abs(int(found[1]) * 60 + int(found[2]) - last["p50"]) <= 0.5


class Screen(io.StringIO):
    """Standard error as a terminal."""

    def isatty(self) -> bool:
        """Say that somebody looks on."""
        return True


def test_a_long_log_tells_how_far_it_is_when_somebody_looks_on(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Every so many forecasts a line on the terminal, and none in a file or a pipe."""
    monkeypatch.setattr(command, "PROGRESS_EVERY", 2)
    file = saved(tmp_path, SHORT + "".join(f"{60 + 20 * place},{75 + place}\n" for place in range(1, 4)))
    for screen, lines in ((Screen(), 2), (io.StringIO(), 0)):
        monkeypatch.setattr(sys, "stderr", screen)
        assert main(["backtest", file, "--json"]) == 0
        assert screen.getvalue().count("forecasts so far") == lines


@pytest.mark.parametrize("target", ["195", "hot", "500F"])
def test_a_bad_target_says_what_would_work(tmp_path: Path, capsys: pytest.CaptureFixture[str], target: str) -> None:
    """Exit code 2, before any log is read."""
    assert main(["backtest", saved(tmp_path, SHORT), "--target", target]) == 2
    told = capsys.readouterr()
    assert "like 195F or 90C" in told.err
    assert told.out == ""


def test_the_name_of_a_file_does_not_change_its_forecasts(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The same log under two names gives the same numbers, bit for bit."""
    files = [saved(tmp_path, SHORT, name) for name in ("one.csv", "two.csv")]
    assert main(["backtest", *files, "--json"]) == 0
    one, two = told_json(capsys)["cooks"]
    assert one["forecasts"] == two["forecasts"]
