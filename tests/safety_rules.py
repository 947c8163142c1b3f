"""The table of every rule of food safety, made from the register: `python -m tests.safety_rules` writes it anew.

It asserts nothing; `tests/unit/scheduler/safety/test_register.py` compares what stands in docs with what is made now.
"""

from __future__ import annotations

from pathlib import Path

from scheduler.facts import Edition
from scheduler.safety.least import counting_pair
from scheduler.safety.limits import LIMITS, MINIMUMS, PAIRS, Figure, Limit
from scheduler.safety.register import REGISTER, Rule

PAGE = Path(__file__).parent.parent / "docs" / "reference" / "safety-rules.md"

HEAD = """# Every rule of food safety

Made from the register in `scheduler/safety/register` by `python -m tests.safety_rules`; a test compares. What the rules
mean together is told in [food safety](../explanation/food-safety.md).

The published Fahrenheit figure governs. A reading in Celsius is compared with it converted and rounded to 0.1. Of two
editions the stricter counts unless another is chosen (`consumer`, `food_code`); local codes come before all of them. A
**stop** says that food must not be served, or not any longer, a **caution** asks to act, a **note** is to be known. A
house rule is never graver than a caution. "From memory" marks a figure that was not read again in its source; it
counts all the same.

"""


def figure_text(figure: Figure) -> str:
    """Return a figure in the unit of its publisher, temperatures in Celsius too."""
    match figure.unit:
        case "F":
            return f"{figure.value:g} F ({figure.c:.1f} C)"
        case "min":
            return time_text(figure.value)
        case "d":
            return f"{figure.value:g} d"


def time_text(minutes: float) -> str:
    """Return a time as a publisher prints it: hours, minutes or seconds; none is "at once"."""
    if minutes <= 0:
        return "at once"
    if minutes < 1:
        return f"{round(minutes * 60)} s"
    return f"{minutes / 60:g} h" if minutes % 30 == 0 else f"{minutes:g} min"


def pair_row(temp: Limit, hold: Limit) -> str:
    """Return the row of a least temperature and its time, which count together: the stricter pair by default."""
    editions = {figure.edition for figure in temp.figures}
    cells = [
        pair_text(temp, hold, edition) if edition in editions else ""
        for edition in (Edition.CONSUMER, Edition.FOOD_CODE)
    ]
    sources = "; ".join(dict.fromkeys(f.source for limit in (temp, hold) for f in limit.figures))
    return f"| `{temp.id}` | {cells[0]} | {cells[1]} | {pair_text(temp, hold, Edition.STRICTER)} | {sources} |"


def pair_text(temp: Limit, hold: Limit, edition: Edition) -> str:
    """Return the temperature and the time of an edition, as the engine takes them."""
    pair = counting_pair(temp, hold, edition, temp.id)
    return f"{pair.temp_f:g} F ({pair.temp_c:.1f} C), {time_text(pair.rest_min)}"


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
    limits += [limit_row(limit) for limit in LIMITS if limit not in MINIMUMS]
    limits += [
        "",
        "## Least internal temperatures by edition",
        "",
        "A temperature and its time belong together. By default the stricter pair counts: the higher temperature, and",
        "of equal ones the longer time.",
        "",
        "| meat | consumer | food_code | by default | source |",
        "|---|---|---|---|---|",
    ]
    limits += [pair_row(temp, hold) for temp, hold in PAIRS]
    return HEAD + "\n".join([*rules, *limits]) + "\n"


if __name__ == "__main__":
    PAGE.write_text(page(), encoding="utf-8")
