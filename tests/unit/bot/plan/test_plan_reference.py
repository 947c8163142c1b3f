"""Every example of docs/reference/plan.md does what stands beside it."""

from __future__ import annotations

import re
import shlex
from pathlib import Path

import pytest

from bot.__main__ import main

PAGE = (Path(__file__).parents[4] / "docs" / "reference" / "plan.md").read_text(encoding="utf-8")
EXAMPLES = re.findall(r"^    slowbell (plan .+)$", PAGE, flags=re.MULTILINE)
FILE = re.search(r"```toml\n(.*?)```", PAGE, flags=re.DOTALL)


@pytest.fixture(autouse=True)
def _a_folder_with_the_plan_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    assert FILE is not None
    (tmp_path / "plan.toml").write_text(FILE[1], encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("SLOWBELL_DATA", str(tmp_path / "data"))


def test_there_are_examples() -> None:
    """Text, several pieces, a file, JSON, page, calendar, and one that is refused."""
    assert len(EXAMPLES) == 7


@pytest.mark.parametrize("example", EXAMPLES)
def test_each_example_runs(example: str, capfdbinary: pytest.CaptureFixture[bytes]) -> None:
    """As it stands, but for the shell's own arrow; the last one is refused."""
    command, _, _into = example.partition(" > ")
    code = main(shlex.split(command))
    printed = capfdbinary.readouterr()
    assert code == (2 if example == EXAMPLES[-1] else 0), printed.err
    assert (printed.out == b"") is (code == 2)


def test_what_is_shown_is_what_is_printed(capsys: pytest.CaptureFixture[str]) -> None:
    """The excerpt of the first example, and the whole refusal of the last one, word for word."""
    shown = re.findall(r"```text\n(.*?)```", PAGE, flags=re.DOTALL)
    main(shlex.split(EXAMPLES[0]))
    printed = capsys.readouterr().out
    assert shown[0].split() == printed.partition("Every step:")[0].split()
    main(shlex.split(EXAMPLES[-1]))
    assert shown[-1].split() == capsys.readouterr().err.split()


def test_every_argument_is_explained() -> None:
    """Each argument that the command line takes has its row."""
    names = (
        "cut mass thickness count pit wrap serve guests treated done safe-by at-risk no-at-risk allergies public rules"
        " cooker zone confidence now file format"
    )
    for name in names.split():
        assert re.search(rf"^\| `--{name}[ `]", PAGE, flags=re.MULTILINE), name
