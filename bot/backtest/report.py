"""Puts the forecasts of a log into a table to read, or into values for JSON.

Words and columns are made in `bot.messages.backtest`.
"""

from __future__ import annotations

from collections.abc import Sequence

from bot.backtest.log import Log
from bot.backtest.replay import Answer, Asked
from bot.backtest.score import Stage, stages, when_reached
from bot.backtest.targets import Target
from bot.messages import backtest as words
from bot.messages.naming import cut_name
from scheduler.cuts import Cut
from scheduler.units import c_from_f, f_from_c


def as_values(file: str, targets: Sequence[Target], cook: Sequence[Asked]) -> dict[str, object]:
    """Return one cook as values for JSON: minutes since meat on, cores in Fahrenheit."""
    return {
        "file": file,
        "forecasts": [
            {
                "minute": _plain(asked.minute),
                "core_f": round(f_from_c(asked.core_c), 1),
                "targets": {
                    target.name: {"p10": answer.p10, "p50": answer.p50, "p90": answer.p90}
                    for target, answer in zip(targets, asked.answers, strict=True)
                },
            }
            for asked in cook
        ],
    }


def as_lines(file: str, log: Log, cut: Cut, targets: Sequence[Target], cook: Sequence[Asked]) -> list[str]:
    """Return one cook as lines to read: every forecast, then how far off they were at each stage."""
    head = log.head
    lines = [words.title(file, cut_name(cut), head.mass_kg, head.thickness_m, head.pit_c, head.wrap, log.unit)]
    rows = [
        [
            words.moment(asked.minute, log.on_at),
            words.temp(asked.core_c, log.unit),
            *(words.moment(minute, log.on_at) for answer in asked.answers for minute in _quantiles(answer)),
        ]
        for asked in cook
    ]
    lines += [words.legend(by_clock=log.on_at is not None), "", *words.table([*words.columns(_names(targets)), *rows])]
    for place, target in enumerate(targets):
        lines += ["", *_scored(log, cook, target, place)]
    return lines


def _scored(log: Log, cook: Sequence[Asked], target: Target, place: int) -> list[str]:
    reached = when_reached(cook, target.temp_c, place)
    if reached is None:
        return [words.not_reached(target.name)]
    before = None if reached.before is None else words.moment(reached.before, log.on_at)
    after = words.moment(reached.after, log.on_at)
    lines = [words.reached(target.name, words.moment(reached.minute, log.on_at), before, after)]
    if found := stages(cook, reached, target.temp_c, place):
        lines += words.table([words.score_columns(), *(_stage(log, stage, place) for stage in found)])
    return lines


def _stage(log: Log, stage: Stage, place: int) -> list[str]:
    asked = stage.asked
    if stage.percent is not None:
        name = words.share_of_rise(stage.percent)
    else:
        name = words.passing(words.temp(c_from_f(stage.mark_f or 0), log.unit))
    return [
        name,
        words.moment(asked.minute, log.on_at),
        words.temp(asked.core_c, log.unit),
        words.moment(asked.answers[place].p50, log.on_at),
        words.error(stage.error_min),
        words.window(inside=stage.inside),
    ]


def _quantiles(answer: Answer) -> tuple[float | None, float | None, float | None]:
    return answer.p10, answer.p50, answer.p90


def _names(targets: Sequence[Target]) -> list[str]:
    return [target.name for target in targets]


def _plain(minute: float) -> float:
    """Return a minute as it is written: whole ones without a point."""
    return int(minute) if minute.is_integer() else minute
