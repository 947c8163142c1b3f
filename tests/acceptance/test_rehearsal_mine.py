"""`rehearse --mine` as an acceptance test: a plan made in the chat, played three times, and nothing written."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest

from bot.rehearsal.engine import catalogue
from bot.rehearsal.own import command
from bot.rehearsal.own.meat import Pace
from bot.rehearsal.own.performance import Performance, Said, Shown, perform
from bot.rehearsal.own.report import side_by_side
from scheduler.facts import Reading, Slot
from tests.fakes.kitchen import PlayedKitchen, on

MIN = dt.timedelta(minutes=1)


@pytest.fixture(scope="module")
def planned(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a data folder with a plan for short ribs."""
    folder = tmp_path_factory.mktemp("mine")
    kitchen = PlayedKitchen(folder, on("06:00"))
    kitchen.opens("Ines")
    kitchen.say("Ines", "2 racks of short ribs, pit 275, dinner 18:00")
    kitchen.close()
    return folder


@pytest.fixture(scope="module")
def played(planned: Path, tmp_path_factory: pytest.TempPathFactory) -> dict[Pace, Performance]:
    """Return the three performances of that plan."""
    facts = command.planned_in(planned)
    return {
        pace: perform(
            facts,
            pace=pace,
            now=facts[0].recorded_at,
            folder=tmp_path_factory.mktemp(pace.value),
            catalogue=catalogue(),
        )
        for pace in Pace
    }


def _pulled_at(performance: Performance) -> dt.datetime:
    pulled_at = performance.after.state.at("pull")
    assert pulled_at is not None
    return pulled_at


def test_each_piece_comes_to_the_table(played: dict[Pace, Performance]) -> None:
    """Answered in time, a plan is played from the fire to the plate whatever the piece does."""
    assert all(performance.finished for performance in played.values())


def test_a_fast_piece_is_off_before_a_usual_one_before_a_slow_one(played: dict[Pace, Performance]) -> None:
    """The three differ by what the meat does, by more than half an hour each way."""
    fast, usual, slow = (_pulled_at(played[pace]) for pace in Pace)
    assert fast + 30 * MIN < usual < slow - 30 * MIN


def test_the_forecast_is_taught_by_what_the_invented_piece_shows(played: dict[Pace, Performance]) -> None:
    """Readings of the meat are asked for and answered, and the program moves its plan by them."""
    facts = played[Pace.FAST].after.state.read(Slot.CORE)
    assert len(facts) >= 3
    assert all(isinstance(one, Said | Shown) for one in played[Pace.FAST].told)


def test_a_question_is_answered_with_the_words_of_a_button_or_a_number(played: dict[Pace, Performance]) -> None:
    """No line of the cook is left without being understood."""
    shown = [one.text for one in played[Pace.USUAL].told if isinstance(one, Shown)]
    assert not [text for text in shown if "did not get" in text or "not understood" in text]


def test_the_comparison_names_every_milestone(played: dict[Pace, Performance]) -> None:
    """One row each, one column for each piece, dinner judged."""
    table = side_by_side(tuple(played.values()))
    assert table[0].split() == ["fast", "usual", "slow"]
    rows = {line[:34].strip(): line[34:].split("  ") for line in table[1:]}
    assert {"fire lit", "meat on", "off the fire", "on the table", "dinner", "messages by itself"} <= set(rows)
    assert "on time" in " ".join(rows["dinner"])


def test_every_piece_has_its_own_rows(tmp_path: Path) -> None:
    """Of several pieces each is told by name, and dinner is as late as its worst."""
    kitchen = PlayedKitchen(tmp_path / "plan", on("06:00"))
    kitchen.opens("Ines")
    kitchen.say("Ines", "2 racks of baby backs and 2 chickens, pit 300, dinner 18:00")
    kitchen.close()
    facts = command.planned_in(tmp_path / "plan")
    slow = perform(facts, pace=Pace.SLOW, now=facts[0].recorded_at, folder=tmp_path / "played", catalogue=catalogue())
    table = "\n".join(side_by_side((slow,)))
    assert slow.finished
    for name in ("baby back ribs: off the fire", "whole chicken: off the fire", "whole chicken: on the table"):
        assert name in table
    served = [view.state.at("serve") for view in slow.after.views]
    dinner_at = slow.after.state.serving.ends_at()
    assert dinner_at is not None
    late_min = max((at - dinner_at) / MIN for at in served if at is not None)
    assert ("on time" in table.splitlines()[-3]) == (late_min < 10)


def test_rehearsing_writes_nothing_into_the_folder(planned: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The person's own log is the same afterwards, and the story is told on standard output."""
    before = command.planned_in(planned)
    lines: list[str] = []
    assert command.rehearse_mine(planned, lines.append) == 0
    assert command.planned_in(planned) == before
    assert lines[0].startswith("REHEARSAL of your plan: 2 × beef short ribs")
    assert capsys.readouterr().out == ""


def test_what_has_happened_since_is_played_anew(planned: Path) -> None:
    """Readings and steps of the real cook are no part of the plan that is rehearsed."""
    assert not [fact for fact in command.planned_in(planned) if isinstance(fact.body, Reading)]


def test_an_empty_folder_is_told_how_to_plan(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Without a cook there is a sentence that says what would work."""
    assert command.rehearse_mine(tmp_path, print) == 1
    assert "slowbell rehearse --cut" in capsys.readouterr().err
