"""Prints how engine and rivals did: `python -m tests.skill.report [--all] [--pictures FOLDER]`.

Without --all, the forty cooks that every run of the tests replays.
"""

from __future__ import annotations

import argparse
from collections.abc import Callable, Iterable
from pathlib import Path

from tests.skill.cooks import all_cooks, fixed_forty
from tests.skill.outcomes import Outcome, of_cook
from tests.skill.scores import band, middle

HEAD = (
    f"{'':34s} {'n':>4s} {'left':>5s} | {'engine':>6s} {'line':>5s} {'expon':>5s} {'lb':>5s} | "
    f"{'CRPS':>5s} {'bias':>5s} {'50 %':>5s} {'80 %':>5s}  {'band of 80 %':12s} | {'ready':>5s} {'80 %':>5s}"
)


def row(name: str, outcomes: Iterable[Outcome]) -> str:
    """Return one line: median absolute errors [min], CRPS [min], coverage of the target time, then of readiness."""
    some = list(outcomes)
    if not some:
        return f"{name:34s}    0"
    count = len(some)
    low, high = band(0.8, count)
    covered = sum(one.target.in_80 for one in some) / count
    ready = [one.ready for one in some if one.ready is not None]
    ready_80 = sum(one.in_80 for one in ready) / len(ready) if ready else float("nan")
    errors = [
        middle([one.target.error for one in some]),
        middle([one.line_error for one in some]),
        middle([one.exponential_error for one in some]),
        middle([one.per_pound_error for one in some]),
    ]
    bias = middle([one.target.median - one.target.truth for one in some])
    return (
        f"{name:34s} {count:4d} {middle([one.left_min for one in some]):5.0f} | "
        f"{errors[0]:6.0f} {errors[1]:5.0f} {errors[2]:5.0f} {errors[3]:5.0f} | "
        f"{sum(one.target.crps for one in some) / count:5.0f} {bias:+5.0f} "
        f"{sum(one.target.in_50 for one in some) / count:5.2f} {covered:5.2f}  [{low:.2f}, {high:.2f}] "
        f"{' ' if low <= covered <= high else '!'} | {middle([one.error for one in ready]):5.0f} {ready_80:5.2f}"
    )


def groups(outcomes: list[Outcome]) -> list[tuple[str, list[Outcome]]]:
    """Return the groups of the report, each with its name."""

    def those(keep: Callable[[Outcome], bool]) -> list[Outcome]:
        return [one for one in outcomes if keep(one)]

    found = [("all, all stages", outcomes)]
    for place, name in enumerate(("first stage", "second stage", "third stage")):
        found.append((f"{name}: to 195 F", those(lambda o, p=place: o.place == p and not o.by_temperature)))  # type: ignore[misc]  # the default binds the loop's own value
        found.append((f"{name}: done at a temperature", those(lambda o, p=place: o.place == p and o.by_temperature)))  # type: ignore[misc]  # the default binds the loop's own value
    found += [(family, [o for o in outcomes if o.family == family]) for family in sorted({o.family for o in outcomes})]
    found += [
        (f"wrapped: {wrap}", [o for o in outcomes if o.wrap == wrap]) for wrap in sorted({o.wrap for o in outcomes})
    ]
    found.append(("wrap plan known", those(lambda o: o.plan_known)))
    found.append(("wrap plan unknown", those(lambda o: not o.plan_known)))
    return found


def table(outcomes: list[Outcome]) -> str:
    """Return the whole report as text."""
    return "\n".join([HEAD, *(row(name, some) for name, some in groups(outcomes))])


def main() -> None:
    """Replay and print; draw when asked."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--all", action="store_true")
    parser.add_argument("--pictures", type=Path)
    asked = parser.parse_args()
    outcomes = [one for cook in (all_cooks() if asked.all else fixed_forty()) for one in of_cook(cook)]
    print(table(outcomes))  # noqa: T201 - a table for the terminal
    if asked.pictures:
        from tests.skill import drawing  # noqa: PLC0415 - only who wants pictures needs the library that draws them

        drawing.draw(outcomes, asked.pictures)


if __name__ == "__main__":
    main()
