"""The command `plan`: reads a plan file if one is named, makes the plan and prints it in one of four formats.

It decides nothing about a plan.
"""

from __future__ import annotations

import argparse
import datetime as dt
import json
import os
import sys
import tomllib
from pathlib import Path

from pydantic import ValidationError

from bot.catalogue import OWN_COOKERS, OWN_CUTS, open_cards, open_catalogue
from bot.messages import plan_refused as words
from bot.messages import plan_report
from bot.messages.figures import Voice
from bot.messages.own_cuts import broken
from bot.messages.refusals import refusal_text
from bot.papers import calendar_file, page, sheet_of
from bot.plan.making import Made, Refused, make
from bot.plan.values import as_values
from bot.plan.wanted import PieceTyped, PlanTyped, Unusable
from scheduler.facts import Edition
from scheduler.planning.catalogue import Catalogue

DONE, WRONGLY_CALLED = 0, 2
LARGEST_BYTES = 1_000_000
"""A plan file is some lines."""
_ALL = ("guests", "at_risk", "allergies", "public", "cooker", "confidence", "now")


def main(
    given: argparse.Namespace, *, zone: str, now: dt.datetime, data_dir: Path, edition: Edition = Edition.STRICTER
) -> int:
    """Print the plan that was asked for; return 0, or 2 when it cannot be made, having said why and what would work."""
    made = planned(given, zone=zone, now=now, data_dir=data_dir, edition=edition)
    if made is None:
        return WRONGLY_CALLED
    try:
        return _printed(made, given.format)
    except BrokenPipeError:  # nobody reads any more (`| head`); Python would complain once more at its own end
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return DONE


def planned(
    given: argparse.Namespace, *, zone: str, now: dt.datetime, data_dir: Path, edition: Edition = Edition.STRICTER
) -> Made | None:
    """Return the plan that was asked for, None when it cannot be made: then it is said why, and what would work."""
    opened = open_catalogue(data_dir)
    trade = opened.catalogue
    if opened.complaints:
        print(broken(opened.complaints, str(data_dir / OWN_CUTS), every=True), file=sys.stderr)
    typed = _typed(given)
    made = typed if isinstance(typed, list) else _made(typed, zone, now, trade, data_dir, edition)
    if isinstance(made, list):
        for one in made:
            print(_why_not(one, trade), file=sys.stderr)
        return None
    if isinstance(made, Refused):
        why = refusal_text(made.refusal, Voice(zone=made.zone, unit=made.unit, now=made.now))
        print(" ".join(filter(None, (why, words.what_works(made.refusal)))), file=sys.stderr)
        return None
    return made


def _made(
    typed: PlanTyped, zone: str, now: dt.datetime, trade: Catalogue, data_dir: Path, edition: Edition
) -> Made | Refused | list[Unusable]:
    cards, complaints = open_cards(data_dir, trade.cookers)
    if complaints:
        print(broken(complaints, str(data_dir / OWN_COOKERS), every=True), file=sys.stderr)
    return make(typed, zone=zone, now=now, catalogue=trade, cards=cards, edition=edition)


def _why_not(one: Unusable, trade: Catalogue) -> str:
    """Return what cannot be used of a piece or a plan, and what would work."""
    if one.cut is not None:
        return words.unfit(one.trouble, one.given, one.cut, one.piece)
    if one.trouble != "cut":
        return words.unusable(one.trouble, one.given, piece=one.piece)
    near = [cut.name for cut in trade.cuts.near(one.given)]
    if near:
        return words.unusable("cut_near", one.given, near, one.piece)
    return words.unusable("cut", one.given, [cut.name for cut in trade.cuts.cuts], one.piece)


def _printed(made: Made, as_format: str) -> int:
    state = made.situation.state
    match as_format:
        case "json":
            print(json.dumps(as_values(made), allow_nan=False, ensure_ascii=False, indent=2))
        case "ics":
            _write(calendar_file(sheet_of(made.situation, made.now)))
        case "page":
            if sys.stdout.isatty():
                print(words.unusable("terminal", ""), file=sys.stderr)
                return WRONGLY_CALLED
            _write(page(sheet_of(made.situation, made.now)))
        case _:
            voice = Voice(zone=state.serving.zone, unit=state.planned.unit, now=made.now)
            change = sheet_of(made.situation, made.now).clock_change
            lines = plan_report.report(made.situation, made.offered, made.assumed, voice, change)
            print("\n".join(lines), flush=True)
    return DONE


def _write(data: bytes) -> None:
    sys.stdout.buffer.write(data)
    sys.stdout.buffer.flush()


def _typed(given: argparse.Namespace) -> PlanTyped | list[Unusable]:
    """Return what was typed: on the command line, or in a plan file, over which the command line counts."""
    pieces, early = getattr(given, "pieces", None), dict(getattr(given, "early", None) or {})
    said = {name: value for name in _ALL if (value := getattr(given, name, None)) is not None}
    if getattr(given, "zone", None) is not None:
        said["zone"] = given.zone
    if given.file is not None:
        if pieces:
            return [Unusable(trouble="both")]
        return _from_file(given.file, {**said, **{name: early[name] for name in ("serve", "pit") if name in early}})
    if not pieces:
        return [Unusable(trouble="no_cut")]
    return _checked({**said, "pieces": pieces})


def _from_file(name: str, said: dict[str, object]) -> PlanTyped | list[Unusable]:
    path = Path(name)
    try:
        if path.stat().st_size > LARGEST_BYTES:
            return [Unusable(trouble="file_missing", given=name)]
        found = tomllib.loads(path.read_text(encoding="utf-8-sig"))
    except (OSError, ValueError) as error:
        if isinstance(error, tomllib.TOMLDecodeError):
            return [Unusable(trouble="file_no_toml", given=f"{name}: {error}")]
        return [Unusable(trouble="file_missing", given=name)]
    return _checked({**found, **said})


def _checked(values: dict[str, object]) -> PlanTyped | list[Unusable]:
    try:
        return PlanTyped.model_validate(values)
    except ValidationError as error:
        return [
            Unusable(trouble="file_field", given=words.field(one["loc"], one["type"], _fields_of(one["loc"])))
            for one in {
                _place(one["loc"]): one for one in error.errors(include_url=False, include_context=False)
            }.values()
        ]


def _place(loc: tuple[int | str, ...]) -> tuple[int | str, ...]:
    """Return the field of an error; what follows it names only the kinds of value that were tried."""
    return loc[:3] if loc[:1] == ("pieces",) else loc[:1]


def _fields_of(loc: tuple[int | str, ...]) -> list[str]:
    """Return the names that are known where a field stands."""
    return list(PieceTyped.model_fields if len(_place(loc)) > 1 else PlanTyped.model_fields)
