"""The table of every rule of food safety, made from the register: `python -m tests.safety_rules` writes it anew.

It asserts nothing; `tests/unit/scheduler/safety/test_register.py` compares what stands in docs with what is made now.
"""

from __future__ import annotations

from pathlib import Path

from scheduler.facts import Edition
from scheduler.safety.limits import LIMITS, Figure, Limit
from scheduler.safety.register import REGISTER, Rule

PAGE = Path(__file__).parent.parent / "docs" / "reference" / "safety-rules.md"

HEAD = """# Every rule of food safety

Made from the register in `scheduler/safety/register` by `python -m tests.safety_rules`; a test compares. What the rules
mean together is told in [food safety](../explanation/food-safety.md).

The published Fahrenheit figure governs. A reading in Celsius is compared with it converted and rounded to 0.1. Of two
editions the stricter counts unless another is chosen (`consumer`, `food_code`); local codes come before all of them. A
**stop** says that food must not be served, or not any longer, a **caution** asks to act, a **note** is to be known. A
house rule is never graver than a caution.

"""


def figure_text(figure: Figure) -> str:
    """Return a figure in the unit of its publisher, temperatures in Celsius too."""
    match figure.unit:
        case "F":
            return f"{figure.value:g} F ({figure.c:.1f} C)"
        case "min":
            return f"{figure.value / 60:g} h" if figure.value % 30 == 0 else f"{figure.value:g} min"
        case "d":
            return f"{figure.value:g} d"


def rule_row(rule: Rule) -> str:
    """Return the row of one rule."""
    publishers = {edition_of(figure) for limit in rule.limits for figure in limit.figures}
    editions = "house rule" if rule.house else ", ".join(sorted(publishers)) or "one publisher"
    sources = [figure.source for limit in rule.limits for figure in limit.figures]
    named = "; ".join(dict.fromkeys((*sources, *rule.sources))) or "common practice, no source"
    tests = "<br>".join(f"`{path}`" for path in rule.tests)
    return f"| `{rule.id}` | {rule.worst} | {rule.figure} | {editions} | {named} | {tests} |"


def edition_of(figure: Figure) -> str:
    """Return whose edition a figure is, in words; where there are none, who published it."""
    names = {Edition.CONSUMER: "consumer", Edition.FOOD_CODE: "food_code"}
    return figure.publisher if figure.edition is None else names.get(figure.edition, str(figure.edition))


def limit_row(limit: Limit) -> str:
    """Return the row of one limit: its figure in each edition, and the one that counts by default."""
    own = {figure.edition: figure for figure in limit.figures}
    cells = [figure_text(own[edition]) if edition in own else "" for edition in (Edition.CONSUMER, Edition.FOOD_CODE)]
    if None in own:  # counts whichever edition was chosen
        cells = [f"({own[None].publisher})", f"({own[None].publisher})"]
    sources = "; ".join(dict.fromkeys(figure.source for figure in limit.figures))
    return f"| `{limit.id}` | {cells[0]} | {cells[1]} | {figure_text(limit.under(Edition.STRICTER))} | {sources} |"


def page() -> str:
    """Return the whole page."""
    rules = ["## Rules", "", "| rule | worst | figure | edition | source | test |", "|---|---|---|---|---|---|"]
    rules += [rule_row(rule) for rule in REGISTER]
    limits = [
        "",
        "## Limits by edition",
        "",
        "| limit | consumer | food_code | by default | source |",
        "|---|---|---|---|---|",
    ]
    limits += [limit_row(limit) for limit in LIMITS]
    return HEAD + "\n".join([*rules, *limits]) + "\n"


if __name__ == "__main__":
    PAGE.write_text(page(), encoding="utf-8")
