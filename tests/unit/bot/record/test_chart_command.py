"""`slowbell chart`: a cook in the data folder becomes a picture, and what it says when it cannot."""

from __future__ import annotations

import io
from pathlib import Path

import pytest
from PIL import Image

from bot.__main__ import main
from bot.papers.chart_values import ChartSheet
from tests.fakes.kitchen import PlayedKitchen, on


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """Return a data folder in which Ines planned ribs, the bot away."""
    data = tmp_path / "data"
    data.mkdir()
    kitchen = PlayedKitchen(data, on("06:00"))
    kitchen.opens("Ines")
    kitchen.say("Ines", "7 racks of short ribs, dinner 18:00, pit 275")
    kitchen.close()
    return data


def test_the_newest_cook_is_drawn(folder: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Without a name the newest cook is drawn, light, and the command says so."""
    target = tmp_path / "chart.png"
    assert main(["chart", "--data", str(folder), "--png", str(target)]) == 0
    image = Image.open(io.BytesIO(target.read_bytes())).convert("L")
    assert image.width == 1080
    assert image.getpixel((3, 3)) == 255
    assert str(target) in capsys.readouterr().out


def test_a_cook_of_long_ago_is_drawn_as_it_was(folder: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Months later the picture is that of the last fact, with dinner ahead: nobody wants to see it late by weeks."""
    drawn: list[ChartSheet] = []

    def kept(sheet: ChartSheet) -> bytes:
        drawn.append(sheet)
        return b"png"

    monkeypatch.setattr("bot.record.picture.chart_png", kept)
    assert main(["chart", "--data", str(folder), "--png", str(tmp_path / "x.png")]) == 0
    (sheet,) = drawn
    assert sheet.title.startswith("Dinner 18:00: on time")
    assert sheet.now_at is None or sheet.now_at < sheet.dinner_at


def test_it_can_be_dark_and_in_the_other_unit(folder: Path, tmp_path: Path) -> None:
    """Dark is asked for, and so is the unit: each gives another picture."""
    made: list[bytes] = []
    for more in ((), ("--dark",), ("--unit", "C")):
        target = tmp_path / f"{len(made)}.png"
        assert main(["chart", "--data", str(folder), "--png", str(target), *more]) == 0
        made.append(target.read_bytes())
    assert len(set(made)) == 3


@pytest.mark.parametrize(
    ("arguments", "code", "said"),
    [
        (["chart"], 2, "Name a file"),
        (["chart", "nowhere", "--png", "x.png"], 2, "There is no cook nowhere"),
        (["chart", "--png", "no/such/folder/x.png"], 1, "cannot be written"),
    ],
)
def test_what_cannot_be_done_is_said(
    folder: Path, capsys: pytest.CaptureFixture[str], arguments: list[str], code: int, said: str
) -> None:
    """No file, no such cook, no such folder: each is one sentence."""
    assert main([*arguments, "--data", str(folder)]) == code
    assert said in capsys.readouterr().err


def test_an_empty_folder_is_said(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Where nothing was ever planned, there is nothing to draw."""
    assert main(["chart", "--png", "x.png", "--data", str(tmp_path)]) == 1
    assert "No cook was ever planned" in capsys.readouterr().err
