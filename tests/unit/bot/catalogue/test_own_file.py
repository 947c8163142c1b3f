"""Own cuts in the data folder: read, told about, kept for the logs that speak of them; and the page about them."""

from __future__ import annotations

import json
import re
import tomllib
from pathlib import Path

import pytest

from bot.catalogue import OWN_CUTS, open_catalogue, texts, texts_of
from bot.messages.own_cuts import broken
from scheduler.cuts import Cut
from scheduler.cuts.own import Complaint, join_own
from tests.catalogue import CUTS, TEXTS

PAGE = (Path(__file__).parents[4] / "docs" / "howto" / "own-cut.md").read_text(encoding="utf-8")
(EXAMPLE,) = re.findall(r"```toml\n(.*?)```", PAGE, flags=re.DOTALL)
MINE = '[[cuts]]\nname = "Wren\'s ribs"\nlike = "beef_chuck_ribs"\n'


def written(folder: Path, text: str) -> Path:
    """Write the own file of a data folder; return the folder."""
    (folder / OWN_CUTS).write_text(text, encoding="utf-8")
    return folder


def test_the_files_beside_the_engine_are_read_by_their_places() -> None:
    """Every data file of the package, folders and all, as the tests read them from the tree."""
    assert texts() == dict(TEXTS)
    assert len(texts_of("cuts")) == len([place for place in TEXTS if place.startswith("cuts/")])
    assert texts_of("cautions") == (TEXTS["cautions"],)


def test_without_an_own_file_there_are_the_built_in_cuts(tmp_path: Path) -> None:
    """Nothing is complained of and nothing is written."""
    opened = open_catalogue(tmp_path)
    assert opened.catalogue.cuts == CUTS
    assert opened.complaints == ()
    assert list(tmp_path.iterdir()) == []


def test_own_cuts_are_in_the_catalogue(tmp_path: Path) -> None:
    """A right entry is one cut more."""
    opened = open_catalogue(written(tmp_path, MINE))
    assert opened.complaints == ()
    assert opened.catalogue.cuts.get("own_wrens_ribs").name == "Wren's ribs"
    assert len(opened.catalogue.cuts.cuts) == len(CUTS.cuts) + 1


@pytest.mark.parametrize(
    ("content", "why"),
    [
        (b"[[cuts]\n", "not TOML"),
        (b"\xff\xfe\x00", "not a text in UTF-8"),
        (b"# " + b"x" * 1_000_001, "larger than a megabyte"),
        (MINE.replace("beef_chuck_ribs", "zebra").encode(), "there is no built-in cut 'zebra'"),
    ],
)
def test_a_broken_file_stops_nothing(tmp_path: Path, content: bytes, why: str) -> None:
    """The built-in cuts go on, and what is wrong is said."""
    (tmp_path / OWN_CUTS).write_bytes(content)
    opened = open_catalogue(tmp_path)
    assert opened.catalogue.cuts.cuts == CUTS.cuts
    assert why in opened.complaints[0].why


def test_a_folder_of_that_name_stops_nothing(tmp_path: Path) -> None:
    """What cannot be opened is told about."""
    (tmp_path / OWN_CUTS).mkdir()
    assert open_catalogue(tmp_path).complaints == (Complaint(entry="", why="it cannot be opened"),)


@pytest.mark.parametrize("after", ["", "[[cuts]\n", MINE.replace("Wren", "Tomas")])
def test_a_cook_keeps_a_cut_that_left_the_file(tmp_path: Path, after: str) -> None:
    """Taken out, renamed, or in a file that broke: logs still find it as it was, and nobody is offered it."""
    before = open_catalogue(written(tmp_path, MINE + "salt_pct = 0.7\n")).catalogue.cuts.get("own_wrens_ribs")
    cuts = open_catalogue(written(tmp_path, after)).catalogue.cuts
    assert cuts.get("own_wrens_ribs") == before
    assert "own_wrens_ribs" not in {cut.id for cut in cuts.cuts}
    assert cuts.named("Wren's ribs") is None


def test_a_corrected_cut_counts_as_corrected(tmp_path: Path) -> None:
    """The file is right, what was kept of it is older."""
    open_catalogue(written(tmp_path, MINE))
    cuts = open_catalogue(written(tmp_path, MINE + "salt_pct = 0.7\n")).catalogue.cuts
    assert cuts.get("own_wrens_ribs").salt_pct == 0.7
    assert cuts.past == ()


@pytest.mark.parametrize("kept", ["no json", '{"a": 1}', "[1, 2]"])
def test_spoiled_notes_of_before_stop_nothing(tmp_path: Path, kept: str) -> None:
    """What was kept is a help, and no more."""
    (tmp_path / "cuts.kept.json").write_text(kept, encoding="utf-8")
    assert open_catalogue(written(tmp_path, MINE)).catalogue.cuts.get("own_wrens_ribs").like == "beef_chuck_ribs"


def test_what_an_older_program_kept_goes_by_the_cut_it_is_like(tmp_path: Path) -> None:
    """A kept cut that lacks figures of today has those of the built-in one, under its own name."""
    old = [{"id": "own_x", "name": "X", "like": "duck", "salt_pct": 0.5}]
    (tmp_path / "cuts.kept.json").write_text(json.dumps(old), encoding="utf-8")
    cut = open_catalogue(tmp_path).catalogue.cuts.get("own_x")
    assert (cut.name, cut.target_c) == ("X", CUTS.get("duck").target_c)


# --- words and the page -----------------------------------------------------------------------------------------------


def test_what_is_wrong_is_said_in_a_sentence_or_two() -> None:
    """Where, which entries and why; of many only the first three."""
    told = tuple(Complaint(entry=f"cut {n}", why="mass_kg: 4 needs a table") for n in range(5))
    assert broken(told[:1]) == (
        "cuts.toml needs a look. cut 0 is left out: mass_kg: 4 needs a table. Everything else counts."
    )
    assert "And 2 more: slowbell plan on the command line lists them all." in broken(told)
    assert "And 2 more" not in broken(told, every=True)
    assert broken((Complaint(entry="", why="it cannot be opened"),), "/data/cuts.toml") == (
        "/data/cuts.toml needs a look. It cannot be opened. Everything else counts."
    )


def test_the_example_of_the_page_is_right() -> None:
    """It is read as it stands, without a complaint, and makes the cuts the page speaks of."""
    joined = join_own(CUTS, EXAMPLE)
    assert joined.complaints == ()
    assert [cut.name for cut in joined.own] == ["Wren's short ribs", "pulled ham"]
    assert joined.cuts.named("harvest ribs") == joined.own[0]


def test_the_complaint_on_the_page_is_what_is_said() -> None:
    """The mistake that the page shows is complained of in these words."""
    joined = join_own(CUTS, EXAMPLE.replace("mass_kg", "mas_kg", 1))
    assert f"> {broken(joined.complaints)}" in PAGE


def test_the_page_explains_every_figure_and_no_other() -> None:
    """The table names each figure that an entry may hold."""
    rows = [line.split("|")[1] for line in PAGE.split("\n") if line.startswith("| `")]
    named = {name for row in rows for name in re.findall(r"`(\w+)`", row)}
    assert named == set(Cut.model_fields)
    assert set(tomllib.loads(EXAMPLE)["cuts"][0]) <= named
