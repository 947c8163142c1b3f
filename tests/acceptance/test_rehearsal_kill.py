"""The rehearsal's kill, its determinism, and the command that plays it."""

from __future__ import annotations

import ast
import os
import re
import signal
import subprocess
import sys
from pathlib import Path

import pytest

from bot.messages import narration
from bot.rehearsal import command, crew, meat, scene
from bot.rehearsal.command import perform
from bot.rehearsal.engine import catalogue
from bot.rehearsal.scene import CREW, TOMAS
from bot.rehearsal.tally import nothing_lost, prints
from bot.store.opening import DATABASE_NAME
from scheduler.cook import assess
from scheduler.facts import Asked, Withdrawn
from tests.acceptance.conftest import Rehearsed

REHEARSE = [sys.executable, "-m", "bot", "rehearse"]


def test_it_was_really_killed(rehearsed: Rehearsed) -> None:
    """The program's process ended by SIGKILL between meat on and pull, and stayed away for about an hour."""
    outage = rehearsed.record.outage
    assert outage is not None
    assert outage.exit_code == -signal.SIGKILL
    assert len(outage.facts_before) > 40
    assert outage.restarted_at - outage.killed_at == scene.OUTAGE_FOR


def test_no_fact_is_lost(rehearsed: Rehearsed) -> None:
    """The facts from before the kill are, one by one, the first of the facts at the end."""
    record = rehearsed.record
    assert record.outage is not None
    before = record.outage.facts_before
    assert nothing_lost(record)
    assert prints(record.facts)[: len(before)] == before
    assert len(record.facts) > len(before) + 20


def test_no_prompt_is_lost(rehearsed: Rehearsed) -> None:
    """Whatever was planned at the kill and fell due in the outage was asked afterwards, or withdrawn with a reason."""
    record = rehearsed.record
    assert record.outage is not None
    count = len(record.outage.facts_before)
    due = [p for p in assess(record.facts[:count], catalogue()).prompts
           if p.asked == 0 and p.due_at <= record.outage.restarted_at]  # fmt: skip
    assert due
    after = record.facts[count:]
    asked = {key for f in after if isinstance(f.body, Asked) for key in f.body.prompts}
    withdrawn = {f.body.prompt for f in after if isinstance(f.body, Withdrawn) and f.body.reason}
    assert [p.key for p in due if p.key not in asked | withdrawn] == []


def test_nothing_is_left_unsent_and_at_most_one_repeat(rehearsed: Rehearsed) -> None:
    """At the end every message has been sent, and at most one may have come twice."""
    outbox = rehearsed.record.outbox
    assert outbox.get("possible_repeat", 0) <= 1
    assert sum(outbox.values()) - outbox.get("possible_repeat", 0) == outbox["sent"] > 50


@pytest.mark.parametrize("who", CREW)
def test_nobody_sees_a_message_twice(rehearsed: Rehearsed, who: str) -> None:
    """No message stands twice on a screen at the same instant."""
    seen = [(s.at, s.row.text) for s in rehearsed.record.seen if s.who == who]
    assert len(seen) == len(set(seen))


@pytest.mark.parametrize("who", CREW)
def test_what_is_late_says_so_first(rehearsed: Rehearsed, who: str) -> None:
    """After the outage one message brings what is late and says first which time had been told: a message of its own
    begins with that, else it follows the answer to what was typed meanwhile.
    """
    record = rehearsed.record
    assert record.outage is not None
    told = [s.row.text.split("\n")[-1] for s in record.seen if s.who == who and s.at < record.outage.killed_at][-1]
    time = re.search(r"\d\d:\d\d", told)
    assert time
    late = f"Later than I said ({time.group()})."
    back = [s for s in record.seen if s.who == who and s.at == record.outage.restarted_at and late in s.row.text]
    assert len(back) == 1
    assert back[0].caused_by is not None or back[0].row.text.startswith(late)
    assert f"\n{late}" in f"\n{back[0].row.text}"


def test_what_was_typed_into_the_silence_is_answered(rehearsed: Rehearsed) -> None:
    """A line typed while the program was dead is answered when it is back."""
    record = rehearsed.record
    assert record.outage is not None
    unheard = {t.who for t in record.typed if not t.heard}
    back = [s for s in record.seen if s.caused_by is not None and s.at == record.outage.restarted_at]
    assert unheard <= {s.who for s in back}
    asked = [t for t in record.typed if not t.heard and t.line == "how long"]
    told = [s for s in back if "Ready to pull" in s.row.text and s.who == TOMAS]
    assert len(told) == len(asked)


# --- the telling ----------------------------------------------------------------------------------------------------


def test_two_rehearsals_tell_the_same(rehearsed: Rehearsed, tmp_path: Path) -> None:
    """The same story, word for word: nothing hangs on chance, on the real clock or on the machine's pace."""
    told: list[str] = []
    perform(tmp_path, told.append)
    assert tuple(told) == rehearsed.told


def test_the_narrator_says_what_is_invented_and_why_things_happen(rehearsed: Rehearsed) -> None:
    """It opens with what is made up, shows every message, and says why each message came by itself."""
    text = "\n".join(rehearsed.told)
    assert "are invented" in text[:400]
    assert (
        text.count("~ Why now: ")
        >= len([s for s in rehearsed.record.seen if s.who == TOMAS and s.caused_by is None]) - 3
    )
    shown = re.sub(r"\s+", " ", re.sub(r"(?m)^.{14}\| (?:\d\d:\d\d  |       )?", "", text))
    for seen in rehearsed.record.seen:
        assert re.sub(r"\s+", " ", seen.row.text) in shown


def test_lines_fit_a_terminal(rehearsed: Rehearsed) -> None:
    """No line is wider than a hundred columns."""
    assert max(len(line) for line in rehearsed.told) <= 100


def test_the_readme_shows_what_was_really_said(rehearsed: Rehearsed) -> None:
    """Every line of the README's excerpt stands in the rehearsal, in that order."""
    readme = (Path(__file__).parents[2] / "README.md").read_text(encoding="utf-8")
    excerpt = readme.partition("plays a whole invented cook in seconds:\n\n```\n")[2].partition("```")[0].splitlines()
    assert len(excerpt) > 15
    told = iter(line.rstrip() for entry in rehearsed.told for line in entry.split("\n"))
    assert [line for line in excerpt if not any(line == said for said in told)] == []


def test_the_summary_counts(rehearsed: Rehearsed) -> None:
    """It ends with messages for each person, dinner, three forecasts, and the log over the kill."""
    start = rehearsed.told.index(narration.summary_heading())
    text = " ".join(line.strip() for line in rehearsed.told[start:])
    for who in CREW:
        assert f"{who}, meat on to plate: " in text
    assert text.count("Forecast ") == 3
    assert "Dinner was set for 18:00" in text
    assert "LOST" not in text


# --- the command ----------------------------------------------------------------------------------------------------


def test_ctrl_c_ends_it_cleanly(tmp_path: Path) -> None:
    """Ctrl-C ends it with one sentence and 130, leaves no folder and no process."""
    environ = {**os.environ, "TMPDIR": str(tmp_path)}
    with subprocess.Popen(REHEARSE, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True, env=environ) as playing:
        assert playing.stdout is not None
        while "Salt the meat" not in playing.stdout.readline():
            assert playing.poll() is None
        playing.send_signal(signal.SIGINT)
        rest, errors = playing.communicate()
    assert playing.returncode == command.INTERRUPTED
    assert rest.rstrip().endswith(narration.stopped())
    assert errors == ""
    assert list(tmp_path.iterdir()) == []


def test_a_reader_who_leaves_is_no_error(tmp_path: Path) -> None:
    """`rehearse | head` ends in silence."""
    environ = {**os.environ, "TMPDIR": str(tmp_path)}
    with subprocess.Popen(REHEARSE, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True, env=environ) as playing:
        assert playing.stdout is not None
        assert playing.stdout.readline()
        playing.stdout.close()
        assert playing.stderr is not None
        assert playing.stderr.read() == ""
        assert playing.wait() == command.DONE
    assert list(tmp_path.iterdir()) == []


def test_it_never_plays_on_real_data(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A folder with a database in it is refused, and its database is not touched."""
    database = tmp_path / DATABASE_NAME
    database.write_bytes(b"dinner")
    assert command.main(tmp_path) == command.FAILED
    assert database.read_bytes() == b"dinner"
    assert str(tmp_path) in capsys.readouterr().err


# --- what is invented -----------------------------------------------------------------------------------------------


def test_the_invented_meat_stalls() -> None:
    """At a steady pit the core rises fast, stands nearly still for over half an hour near 70 C, then rises again."""
    rack, pit_c = meat.Meat(), 134.0
    core_c = []
    for _ in range(6 * 60):
        core_c.append(rack.core_c)
        for _ in range(4):
            rack.go_on(meat.STEP_S, pit_c)
    rise_c = [later - now for now, later in zip(core_c, core_c[40:], strict=False)]
    slowest = min(range(60, 300), key=lambda minute: rise_c[minute])
    assert 62.0 < core_c[slowest] < 78.0
    assert rise_c[slowest] < 2.0
    assert rise_c[slowest - 90] > 5.0
    assert max(rise_c[slowest:]) > 6.0


def _imported(module: object) -> set[str]:
    source = Path(str(getattr(module, "__file__"))).read_text("utf-8")  # noqa: B009 - plain objects have no such attribute
    nodes = ast.walk(ast.parse(source))
    return {n.module or "" for n in nodes if isinstance(n, ast.ImportFrom)} | {
        alias.name for n in ast.walk(ast.parse(source)) if isinstance(n, ast.Import) for alias in n.names
    }


def test_meat_and_crew_know_nothing_of_the_engine() -> None:
    """The meat imports no equations of the engine; the crew knows its screen and the yard, nothing of the plan."""
    assert _imported(meat) == {"__future__", "dataclasses", "math"}
    ours = {name for name in _imported(crew) if name.startswith(("bot", "scheduler"))}
    assert ours == {"bot.rehearsal.scene", "bot.rehearsal.world", "bot.transport.terminal.layout"}
