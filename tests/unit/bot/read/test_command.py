"""The command `slowbell read`: its arguments, what it says of bad ones, and that it starts quickly."""

from __future__ import annotations

import json
import subprocess
import sys

import pytest

from bot.__main__ import main
from bot.read.arguments import with_text_apart
from tests.unit.bot.read.moments import NOW, heard, moment


@pytest.mark.parametrize(
    ("arguments", "why", "works"),
    [
        ([], "no text", '"171 at 1:30"'),
        (["  "], "no text", "quotes"),
        (["171", "--slot", "meat"], "meat", "core, pit, spritz"),
        (["171", "--stage", "eating"], "eating", "before, fire, cooking"),
        (["171", "--unit", "K"], "K", "F or C"),
        (["171", "--now", "25:10"], "25:10", "13:55"),
        (["171", "--last", "166F"], "166F", "core=166F@13:10"),
        (["171", "--last", "core=166F@teatime"], "teatime", "core=166F@13:10"),
        (["171", "--pit-target", "hot"], "hot", "121C or 250F"),
    ],
)
def test_a_bad_argument_gets_a_kind_error(
    arguments: list[str], why: str, works: str, capsys: pytest.CaptureFixture[str]
) -> None:
    """It says what cannot be used and what would work, on the other channel, with code 2."""
    assert main(["read", *arguments]) == 2
    told = capsys.readouterr()
    assert told.out == ""
    assert why in told.err
    assert works in told.err


@pytest.mark.parametrize(
    ("argv", "text"),
    [
        (["read", "---"], ["---"]),
        (["read", "-5", "--json"], ["-5"]),
        (["read", "--slot", "core", "-- it says"], ["-- it says"]),
        (["read", "171", "pit", "262"], ["171", "pit", "262"]),
        (["--zone", "UTC", "read", "read"], ["read"]),
    ],
)
def test_a_text_may_begin_with_dashes(argv: list[str], text: list[str]) -> None:
    """What is no option is text, wherever it stands."""
    apart = with_text_apart(argv)
    assert apart[apart.index("--") + 1 :] == text


def test_other_commands_keep_their_arguments() -> None:
    """The word read in another place changes nothing."""
    assert with_text_apart(["chat", "--as", "read"]) == ["chat", "--as", "read"]
    assert with_text_apart(["--as", "read", "chat"]) == ["--as", "read", "chat"]


def test_a_time_that_has_not_come_today_was_yesterday() -> None:
    """A reading that is known already lies in the past."""
    known = moment("171", "--unit F --last core=166F@23:10")
    assert known.core is not None
    assert known.core.at < NOW


def test_the_stage_follows_the_question() -> None:
    """The hold is asked for while the meat rests, everything else while it cooks."""
    assert moment("60", "--slot rest").stage == "resting"
    assert moment("171", "--slot core").stage == "cooking"
    assert moment("171", "--slot core --stage fire").stage == "fire"


def test_nothing_said_is_null() -> None:
    """What a text does not say is null in JSON, and no list holds a value that a question is about."""
    values = heard("95", "--slot pit --pit-target 121C --stage fire").as_values()
    assert values == {
        "intent": "reading",
        "core_c": [],
        "pit_c": [],
        "minutes_ago": None,
        "duration_min": None,
        "question": "95: Celsius or Fahrenheit?",
    }


def test_the_program_itself_prints_one_line_of_json() -> None:
    """Started as people start it, it prints JSON, and brings neither the database nor the messenger along."""
    script = (
        "import sys; from bot.__main__ import main; "
        "code = main(['read', '171', '--slot', 'core', '--unit', 'F', '--json']); "
        "assert not {'sqlalchemy', 'telegram', 'reportlab', 'apscheduler'} & set(sys.modules); sys.exit(code)"
    )
    done = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True)
    assert json.loads(done.stdout)["core_c"] == [77.22]
