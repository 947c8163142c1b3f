"""`slowbell plan`: what it prints, what it refuses and what it says would work."""

from __future__ import annotations

import datetime as dt
import itertools
import json
from pathlib import Path
from typing import Any

import pytest
import vobject

from bot.__main__ import main

ARGS = ("--zone", "Europe/London", "--now", "2026-08-12T15:31")
BRISKET = ("--cut", "brisket", "--mass", "6kg", "--pit", "250F")
SATURDAY = ("--serve", "2026-08-15T18:00")
KEYS = {
    "light_at", "on_at", "pull", "plate", "late_probability", "rest_minutes", "alternatives", "prompts",
    "at_risk", "allergies", "public", "rules", "treated", "safe_by", "minimum",
}  # fmt: skip
OF_A_PIECE = {"treated", "safe_by", "minimum"}
"""Keys that stand with each piece where there are several."""


@pytest.fixture(autouse=True)
def _own_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("SLOWBELL_DATA", str(tmp_path / "data"))


def _json(capsys: pytest.CaptureFixture[str], *args: str) -> dict[str, Any]:
    assert main(["plan", *args, *ARGS, "--format", "json"]) == 0
    found = json.loads(capsys.readouterr().out)
    assert isinstance(found, dict)
    return found


def _refused(capsys: pytest.CaptureFixture[str], *args: str) -> str:
    assert main(["plan", *args, *ARGS]) == 2
    printed = capsys.readouterr()
    assert printed.out == ""
    return printed.err


def _at(text: str) -> dt.datetime:
    return dt.datetime.fromisoformat(text)


def test_json_holds_the_plan_and_nothing_else(capsys: pytest.CaptureFixture[str]) -> None:
    """The keys that scripts may count on; quantiles in order, instants with their offset, the asked way first."""
    found = _json(capsys, *BRISKET, *SATURDAY)
    assert set(found) == KEYS
    for name in ("pull", "plate"):
        assert list(found[name]) == ["p10", "p50", "p90"]
        assert _at(found[name]["p10"]) <= _at(found[name]["p50"]) <= _at(found[name]["p90"])
    assert _at(found["light_at"]) < _at(found["on_at"]) < _at(found["pull"]["p10"])
    assert found["on_at"].endswith("+01:00")
    assert 0.10 <= found["late_probability"] <= 0.15
    assert found["rest_minutes"] > 60
    assert 2 <= len(found["alternatives"]) <= 3
    assert found["alternatives"][0]["kind"] == "as_asked"
    assert found["alternatives"][0]["on_at"] == found["on_at"]


def test_prompts_come_in_order_with_key_reason_and_question(capsys: pytest.CaptureFixture[str]) -> None:
    """From the day before to the leftovers; none in the past, each key once."""
    prompts = _json(capsys, *BRISKET, *SATURDAY)["prompts"]
    assert all(set(one) == {"key", "kind", "due_at", "why", "asks"} for one in prompts)
    assert all(_at(one["due_at"]) <= _at(other["due_at"]) for one, other in itertools.pairwise(prompts))
    assert _at(prompts[0]["due_at"]) >= _at("2026-08-12T15:31+01:00")
    assert len({one["key"] for one in prompts}) == len(prompts)
    by_kind = {one["kind"]: one for one in prompts}
    assert {"light", "meat_on", "bark_check", "pull", "slice", "leftovers"} <= set(by_kind)
    assert by_kind["light"]["why"] == "1 h before: meat on"
    assert by_kind["bark_check"]["why"] == "when the meat is near 160 F"
    assert by_kind["pit_stable"]["asks"] == ["pit"]


def test_several_pieces_share_one_fire(capsys: pytest.CaptureFixture[str]) -> None:
    """Repeating the group adds a piece: lit for the first, each with its own start, late as the likeliest to be."""
    ribs = ("--cut", "spareribs", "--count", "3", "--mass", "1.2kg")
    found = _json(capsys, *BRISKET, *SATURDAY, *ribs)
    assert set(found) == KEYS - OF_A_PIECE | {"pieces"}
    assert all(set(piece) >= OF_A_PIECE for piece in found["pieces"])
    first, second = found["pieces"]
    assert [first["cut"], second["cut"], second["count"]] == ["brisket_packer", "spareribs_stl", 3]
    assert found["on_at"] == first["on_at"] < second["on_at"]
    assert found["late_probability"] == max(first["late_probability"], second["late_probability"])
    keys = [one["key"] for one in found["prompts"]]
    assert {"p1/meat_on/1", "p2/meat_on/1", "p1/light/1"} <= set(keys)
    assert "p2/light/1" not in keys


def test_a_plan_file_says_the_same_as_the_command_line(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    """The same pieces from a file give the same plan; what stands on the command line counts before it."""
    path = tmp_path / "plan.toml"
    path.write_text(
        'serve = 2026-08-15T18:00:00\npit = "250F"\nzone = "Europe/London"\n\n'
        '[[pieces]]\ncut = "brisket"\nmass = "6kg"\n\n[[pieces]]\ncut = "spareribs"\ncount = 3\nmass = "1.2kg"\n',
        encoding="utf-8",
    )
    typed = _json(capsys, *BRISKET, *SATURDAY, "--cut", "spareribs", "--count", "3", "--mass", "1.2kg")
    assert _json(capsys, "--file", str(path)) == typed
    assert _json(capsys, "--file", str(path), "--confidence", "0.6") != typed


def test_more_confidence_and_other_units(capsys: pytest.CaptureFixture[str]) -> None:
    """0.95 or 95% starts earlier than 0.7; 13 lb 3.6 oz and 121.1C are 6 kg and 250F."""
    sure = _json(capsys, *BRISKET, *SATURDAY, "--confidence", "95%")
    bold = _json(capsys, *BRISKET, *SATURDAY, "--confidence", "0.7")
    assert _at(sure["on_at"]) < _at(bold["on_at"])
    usual = _json(capsys, *BRISKET, *SATURDAY)
    lb = _json(capsys, "--cut", "brisket", "--mass", "6000g", "--pit", "121.11C", *SATURDAY)
    assert abs(_at(lb["on_at"]) - _at(usual["on_at"])) <= dt.timedelta(minutes=5)


def test_a_window_and_when_ready(capsys: pytest.CaptureFixture[str]) -> None:
    """A window is met by its end; without a time there is nothing to be late for."""
    window = _json(capsys, *BRISKET, "--serve", "2026-08-15T17:00/18:00")
    assert window["on_at"] == _json(capsys, *BRISKET, *SATURDAY)["on_at"]
    assert window["plate"]["p10"] == "2026-08-15T17:00:00+01:00"
    ready = _json(capsys, *BRISKET, "--serve", "when-ready")
    assert ready["late_probability"] is None


def test_text_reads_from_headline_to_last_step(capsys: pytest.CaptureFixture[str]) -> None:
    """Headline, dinner, start, window, chance, the ways to do it with their charcoal, every step."""
    assert main(["plan", *BRISKET, *SATURDAY, "--cooker", "kettle", *ARGS]) == 0
    lines = capsys.readouterr().out.splitlines()
    assert lines[0] == "Whole brisket, 6 kg, pit 250 F, wrap decided at the bark."
    assert lines[1].startswith("Dinner Sat 18:00: on time")
    assert lines[2].startswith("Light Fri ")
    assert any(line.startswith("Late: 15 in 100. Rest: about ") for line in lines)
    assert any(line.startswith("- 250 F: light Fri ") and "charcoal" in line for line in lines)
    assert "Every step:" in lines
    assert len(max(lines, key=len)) < 140


def test_what_nobody_said_is_taken_as_usual_and_said(capsys: pytest.CaptureFixture[str]) -> None:
    """Without mass and pit the usual of the cut is taken, and named at the end."""
    assert main(["plan", "--cut", "pork butt", *SATURDAY, *ARGS]) == 0
    text = capsys.readouterr().out
    assert "Nobody said how heavy" in text
    assert "Nobody said how hot" in text


def test_calendar_and_page_are_files_that_others_can_read(capfdbinary: pytest.CaptureFixture[bytes]) -> None:
    """An RFC 5545 file with events, and a PDF."""
    assert main(["plan", *BRISKET, *SATURDAY, *ARGS, "--format", "ics"]) == 0
    calendar = vobject.readOne(capfdbinary.readouterr().out.decode())
    assert len(calendar.vevent_list) > 5
    assert main(["plan", *BRISKET, *SATURDAY, *ARGS, "--format", "page"]) == 0
    assert capfdbinary.readouterr().out.startswith(b"%PDF-")


@pytest.mark.parametrize(
    ("args", "helps"),
    [
        (("--cut", "unicorn", "--mass", "6kg", "--pit", "250F", *SATURDAY), "whole brisket"),
        (("--cut", "brisket", "--mass", "6", "--pit", "250F", *SATURDAY), "6kg, 13lb or 900g"),
        (("--cut", "brisket", "--mass", "6kg", "--pit", "250", *SATURDAY), "250F, 121C"),
        (("--cut", "brisket", "--mass", "6kg", "--pit", "9000F", *SATURDAY), "250F, 121C"),
        ((*BRISKET, "--thickness", "thick", *SATURDAY), "7.5cm, 3in or 75mm"),
        ((*BRISKET, "--count", "0", *SATURDAY), "whole number from 1"),
        ((*BRISKET, "--wrap", "cling film", *SATURDAY), "none, paper, foil or boat"),
        ((*BRISKET, "--serve", "six o'clock"), "2026-08-15T18:00"),
        ((*BRISKET, "--serve", "2026-02-30T18:00"), "2026-08-15T18:00"),
        ((*BRISKET,), "--serve 2026-08-15T18:00"),
        ((*BRISKET, *SATURDAY, "--cooker", "spaceship"), "kettle"),
        ((*BRISKET, *SATURDAY, "--confidence", "2"), "0.5 to 0.99"),
        ((*BRISKET, *SATURDAY, "--confidence", "nan"), "0.5 to 0.99"),
        (("--pit", "250F"), "--cut brisket"),
        (("--file", "nowhere.toml"), "no such file"),
        (("--file", "nowhere.toml", *BRISKET), "not with both"),
    ],
)
def test_bad_input_is_named_with_what_would_work(
    capsys: pytest.CaptureFixture[str], args: tuple[str, ...], helps: str
) -> None:
    """Exit code 2, nothing on standard output, and a sentence that shows how to say it."""
    assert helps in _refused(capsys, *args)


def test_every_mistake_is_named_at_once(capsys: pytest.CaptureFixture[str]) -> None:
    """Two pieces with a mistake each: two sentences, each with its piece."""
    said = _refused(capsys, *BRISKET, *SATURDAY, "--thickness", "thick", "--cut", "spareribs", "--mass", "heavy")
    assert [line.split(":")[0] for line in said.splitlines()] == ["Piece 1", "Piece 2"]


def test_a_bad_zone_is_named(capsys: pytest.CaptureFixture[str]) -> None:
    """No such zone: exit code 2."""
    assert main(["plan", *BRISKET, *SATURDAY, "--zone", "Mars/Olympus"]) == 2
    assert "Europe/Lisbon" in capsys.readouterr().err


def test_a_bad_plan_file_names_the_line_or_the_field(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    """No TOML, an unknown field, no pieces: each says where."""
    path = tmp_path / "plan.toml"
    for text, helps in (
        ("pieces = [", "plan.toml"),
        ('[[pieces]]\ncut = "brisket"\ncolour = 1', "colour"),
        ("", "pieces"),
    ):
        path.write_text(text, encoding="utf-8")
        assert helps in _refused(capsys, "--file", str(path))


def test_a_dinner_that_cannot_be_names_the_earliest_and_the_reason(capsys: pytest.CaptureFixture[str]) -> None:
    """In four hours: the likely earliest, the sure one, and the sum behind it; a past one the same."""
    for serve in ("2026-08-12T20:00", "2026-08-12T10:00"):
        said = _refused(capsys, *BRISKET, "--serve", serve)
        assert "earliest plate" in said
        assert "fire 1 h, cooking about" in said
        assert "With 85 % by " in said


def test_a_dinner_that_only_luck_meets_is_planned_and_said(capsys: pytest.CaptureFixture[str]) -> None:
    """Too short for a sure dinner: planned all the same, with the chance and when it would be sure."""
    assert main(["plan", *BRISKET, "--serve", "2026-08-13T05:00", *ARGS]) == 0
    text = capsys.readouterr().out
    assert "There is no time for a sure dinner" in text
    assert "With 85 % it is on the table by" in text


@pytest.mark.parametrize(
    ("zone", "serve", "offset"),
    [
        ("Europe/Berlin", "2026-10-25T18:00", "+01:00"),
        ("Europe/Berlin", "2026-03-29T18:00", "+02:00"),
        ("America/Chicago", "2026-11-01T18:00", "-06:00"),
        ("America/Chicago", "2026-03-08T18:00", "-05:00"),
    ],
)
def test_a_night_with_a_clock_change_keeps_the_wall_time_of_dinner(
    capsys: pytest.CaptureFixture[str], zone: str, serve: str, offset: str
) -> None:
    """Six stays six; from meat on to dinner it is as long as on any other night."""
    day = dt.date.fromisoformat(serve[:10])
    now = f"{day - dt.timedelta(days=3)}T12:00"
    assert main(["plan", *BRISKET, "--serve", serve, "--zone", zone, "--now", now, "--format", "json"]) == 0
    found = json.loads(capsys.readouterr().out)
    assert found["plate"]["p10"] == f"{serve}:00{offset}"
    usual = _json(capsys, *BRISKET, *SATURDAY)
    assert _at(found["plate"]["p10"]) - _at(found["on_at"]) == _at(usual["plate"]["p10"]) - _at(usual["on_at"])


def test_own_cookers_of_the_data_folder_are_known(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    """A card by its name: its charcoal an hour counts; without the card its name is none."""
    assert "kettle" in _refused(capsys, *BRISKET, *SATURDAY, "--cooker", "Old Tin")
    folder = tmp_path / "data"
    folder.mkdir()
    (folder / "cookers.toml").write_text(
        '[[cookers]]\nname = "Old Tin"\nkind = "drum"\nfuel_kg_per_h = 0.4\nfuel_at_f = 250\nlight_min = 90\n', "utf-8"
    )
    found = _json(capsys, *BRISKET, *SATURDAY, "--cooker", "Old Tin")
    assert _at(found["on_at"]) - _at(found["light_at"]) == dt.timedelta(minutes=90)
    low, typical, high = found["alternatives"][0]["fuel_kg"]
    assert 0 < low < typical < high


def test_own_cuts_of_the_data_folder_are_known(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    """A cut of one's own is planned by its figures; one with a mistake is named beside what is known."""
    folder = tmp_path / "data"
    folder.mkdir()
    entry = '[[cuts]]\nname = "Wren\'s short ribs"\nlike = "beef_chuck_ribs"\nsalt_pct = 0.8\n'
    (folder / "cuts.toml").write_text(entry, "utf-8")
    wrens = ("--cut", "Wren's short ribs", "--mass", "2kg", "--pit", "275F", *SATURDAY)
    assert set(_json(capsys, *wrens)) == KEYS
    (folder / "cuts.toml").write_text(entry.replace("salt_pct", "salted"), "utf-8")
    assert "salted" in _refused(capsys, "--cut", "unicorn", *wrens[2:])


def test_a_window_that_ends_before_it_begins_is_no_dinner(capsys: pytest.CaptureFixture[str]) -> None:
    """18:00 to 17:00 is no window of 23 hours; one over midnight stays one."""
    assert "at most 12 h" in _refused(capsys, *BRISKET, "--serve", "2026-08-15T18:00/17:00")
    assert main(["plan", *BRISKET, "--serve", "2026-08-15T23:00/01:00", *ARGS]) == 0


def test_figures_that_do_not_fit_the_cut_are_refused_with_those_that_do(capsys: pytest.CaptureFixture[str]) -> None:
    """No brisket weighs 60 kg, none bears 400 F; the words of the cut and its own figures are named, of each piece."""
    assert "4.5 kg to 8.5 kg" in _refused(capsys, "--cut", "brisket", "--mass", "60kg", *SATURDAY)
    assert "325 F (163 C)" in _refused(capsys, "--cut", "brisket", "--pit", "400F", *SATURDAY)
    said = _refused(capsys, "--cut", "spareribs", "--cut", "brisket", "--pit", "400F", *SATURDAY)
    assert said.startswith("Piece 1: --pit: too hot for spareribs")
    assert "Piece 2: --pit: too hot for whole brisket" in said


def test_an_unusual_pit_is_planned_with_a_caution(capsys: pytest.CaptureFixture[str]) -> None:
    """Too cold for anything: germs; hotter than its cut is offered: it dries. A usual pit has no such word."""
    for pit, word in (("150F", "germs grow"), ("325F", "hotter than usual"), ("225F", "")):
        assert main(["plan", "--cut", "salmon", "--mass", "1kg", "--pit", pit, *SATURDAY, *ARGS]) == 0
        text = capsys.readouterr().out
        assert word in text
        assert ("Pit 150 F is" in text, "Pit 325 F is" in text) == (pit == "150F", pit == "325F")


def test_a_pit_that_cooks_nothing_in_time_is_refused(capsys: pytest.CaptureFixture[str]) -> None:
    """Fewer than one cook in ten in time is refused, also where the forecast sees no end: with what would do."""
    said = _refused(capsys, "--cut", "brisket", "--mass", "6kg", "--pit", "150F", *SATURDAY)
    assert "not ready within 30 h" in said
    assert "It could be met at 225 F" in said


def test_late_likelier_than_not_is_the_first_that_is_said(capsys: pytest.CaptureFixture[str]) -> None:
    """Right behind the headline, with the chance and the sure time; a dinner that is likely met has no such word."""
    assert main(["plan", *BRISKET, "--serve", "2026-08-13T05:00", *ARGS]) == 0
    second = capsys.readouterr().out.splitlines()[1]
    assert second.startswith("Late is likelier than not: ")
    assert "With 85 % it is on the table by" in second
    assert main(["plan", *BRISKET, *SATURDAY, *ARGS]) == 0
    assert "likelier" not in capsys.readouterr().out


def test_a_name_of_several_cuts_names_the_nearest_few(capsys: pytest.CaptureFixture[str]) -> None:
    """Ribs: four kinds of them, not the whole catalogue; a word like nothing lists it."""
    near = _refused(capsys, "--cut", "ribs", *SATURDAY)
    assert "spareribs" in near
    assert "salmon" not in near
    assert "salmon" in _refused(capsys, "--cut", "xyzzy", *SATURDAY)


def test_a_date_is_a_present_and_the_clocks_are_told(capsys: pytest.CaptureFixture[str]) -> None:
    """--now takes a date; a time the clocks leave out is said with what it counts as, as is their night."""
    zone = ("--zone", "Europe/London")
    assert main(["plan", *BRISKET, "--serve", "2027-03-28T01:30", "--now", "2027-03-26", *zone]) == 0
    assert "does not exist: the clocks go forward over it. Taken as Sun 02:30" in capsys.readouterr().out
    assert main(["plan", *BRISKET, "--serve", "2026-10-25T12:00", "--now", "2026-10-23", *zone]) == 0
    text = capsys.readouterr().out
    assert "The clocks go back an hour at Sun 02:00" in text
    assert "does not exist" not in text


def test_what_is_broken_in_the_data_folder_is_said_whatever_is_planned(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    """Own cuts and cookers that cannot be read: said beside a plan that needs none of them, every one of them."""
    data = tmp_path / "data"
    data.mkdir()
    wrong = "".join(f'[[cuts]]\nid = "mine{n}"\nname = "mine {n}"\nlike = "nothing"\n' for n in range(6))
    (data / "cuts.toml").write_text(wrong, encoding="utf-8")
    (data / "cookers.toml").write_text("[[cookers", encoding="utf-8")
    assert main(["plan", *BRISKET, *SATURDAY, *ARGS]) == 0
    said = capsys.readouterr().err
    assert all(f"mine {n} is left out" in said for n in range(6))
    assert "cookers.toml needs a look" in said


def test_a_plan_file_is_corrected_in_plain_words(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    """A mass without quotes and a misspelt field: which piece, and how it is written; no words of the validator."""
    path = tmp_path / "plan.toml"
    path.write_text(
        'serve = "2026-08-15T18:00"\n[[pieces]]\ncut = "brisket"\nmass = 6\nmas = "6kg"\n', encoding="utf-8"
    )
    said = _refused(capsys, "--file", str(path))
    assert 'Piece 1: mass: it cannot be read so. Write it like mass = "6kg".' in said
    assert "Did you mean mass?" in said
    assert "Input" not in said
    assert "Extra" not in said


def test_the_mass_that_is_taken_is_said(capsys: pytest.CaptureFixture[str]) -> None:
    """Of each piece nobody weighed: its name and its figure."""
    assert main(["plan", "--cut", "salmon", "--cut", "sausages", *SATURDAY, *ARGS]) == 0
    text = capsys.readouterr().out
    assert "salmon side taken as 1.3 kg each" in text
    assert "fresh sausages taken as 0.12 kg each" in text
