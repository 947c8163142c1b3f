"""The register of rules, the rules themselves, their tests and the page in docs say the same."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

from scheduler.facts import Edition
from scheduler.safety.finding import FindingLevel
from scheduler.safety.limits import LIMITS, Limit
from scheduler.safety.register import REGISTER, Rule
from tests import safety_rules

ROOT = Path(__file__).parents[4]
SAFETY = ROOT / "scheduler" / "safety"


def _found() -> dict[str, set[str]]:
    """Return every rule that a finding is made of anywhere in the engine, with the levels written there."""
    found: dict[str, set[str]] = {}
    for path in SAFETY.rglob("*.py"):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if not (isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "Finding"):
                continue
            given = {word.arg: word.value for word in node.keywords}
            rule, level = given["rule"], given["level"]
            for name in (n for n in ast.walk(rule) if isinstance(n, ast.Constant)):
                found.setdefault(str(name.value), set()).update(
                    n.attr
                    for n in ast.walk(level)
                    if isinstance(n, ast.Attribute) and isinstance(n.value, ast.Name) and n.value.id == "FindingLevel"
                )
    return found


def test_every_finding_is_of_a_registered_rule() -> None:
    """What the engine finds has an entry with figure and source."""
    assert set(_found()) <= {rule.id for rule in REGISTER}


def test_no_finding_is_graver_than_its_rule() -> None:
    """A rule registered as a caution stops nothing."""
    order = [level.name for level in (FindingLevel.NOTE, FindingLevel.CAUTION, FindingLevel.STOP)]
    worst = {rule.id: order.index(rule.worst.name) for rule in REGISTER}
    graver = {name: levels for name, levels in _found().items() if any(order.index(lv) > worst[name] for lv in levels)}
    assert not graver


@pytest.mark.parametrize("rule", REGISTER, ids=lambda rule: rule.id)
def test_the_tests_of_a_rule_speak_of_it(rule: Rule) -> None:
    """Each file named as its test is there, and one of them names the rule (a caution by its own id)."""
    texts = [(ROOT / path).read_text(encoding="utf-8") for path in rule.tests]
    name = rule.id.removeprefix("caution_")
    assert any(f'"{name}"' in text for text in texts), rule.tests


def test_no_rule_stands_twice() -> None:
    """Ids are unique."""
    ids = [rule.id for rule in REGISTER]
    assert sorted(set(ids)) == sorted(ids)


@pytest.mark.parametrize("limit", LIMITS, ids=lambda limit: limit.id)
def test_of_two_editions_the_stricter_counts(limit: Limit) -> None:
    """By default no edition asks for more than the figure that counts; every figure has a source."""
    counts = limit.under(Edition.STRICTER).value
    values = [figure.value for figure in limit.figures]
    assert counts == (max(values) if limit.stricter == "higher" else min(values))
    assert all(figure.source for figure in limit.figures)


@pytest.mark.parametrize("limit", LIMITS, ids=lambda limit: limit.id)
def test_a_figure_of_no_edition_is_the_only_one(limit: Limit) -> None:
    """What is of neither edition says who published it and counts whichever was chosen; no other limit hides one."""
    if any(figure.edition is None for figure in limit.figures):
        (figure,) = limit.figures
        assert all(limit.under(edition) is figure for edition in Edition)
    for figure in limit.figures:
        assert figure.publisher in {"USDA FSIS", "FDA Food Code", "US Army"}
        assert figure.edition is not Edition.FOOD_CODE or figure.publisher == "FDA Food Code"
        assert figure.edition is not Edition.CONSUMER or figure.publisher != "FDA Food Code"


def test_a_house_rule_never_stops() -> None:
    """What no publisher says is at most a caution; a rule without any source is none."""
    with pytest.raises(ValueError, match="never stops"):
        Rule(id="x", worst=FindingLevel.STOP, figure="", house=True, tests=())
    with pytest.raises(ValueError, match="needs a source"):
        Rule(id="x", worst=FindingLevel.NOTE, figure="", tests=())


def test_the_page_in_docs_is_made_from_the_register() -> None:
    """`python -m tests.safety_rules` writes it anew."""
    assert safety_rules.PAGE.read_text(encoding="utf-8") == safety_rules.page()


def test_the_page_shows_temperatures_and_times_as_pairs() -> None:
    """Ground meat is 160 F at once by default, or 155 F for 17 s: never the one's temperature with the other's time."""
    row = next(line for line in safety_rules.page().splitlines() if line.startswith("| `ground` |"))
    cells = [cell.strip() for cell in row.split("|")[2:5]]
    assert cells == ["160 F (71.1 C), at once", "155 F (68.3 C), 17 s", "160 F (71.1 C), at once"]
    assert "0 h" not in safety_rules.page().replace("10 h", "")


MEMORY = {"leftover_life", "leftover_soon", "raw_whole", "raw_short", "fridge_over", "fish", "fish_hold", "reheat"}
"""Limits with a consumer figure that was not read again in its source when these were written down."""


def test_what_was_not_read_again_says_so() -> None:
    """The words from memory stand in the source of each such figure, and of no other but two in part."""
    marked = {limit.id for limit in LIMITS for figure in limit.figures if "from memory" in figure.source}
    assert marked == MEMORY | {"hot_hold", "pit_cold"}
