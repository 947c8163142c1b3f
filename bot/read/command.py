"""The command `read`: makes the moment of its arguments, has the text read, and prints how it was understood.

It keeps nothing and opens no store.
"""

from __future__ import annotations

import argparse
import datetime as dt
import json
import re
import sys
from pathlib import Path
from zoneinfo import ZoneInfo

from bot.catalogue import open_catalogue
from bot.messages import read_help as words
from bot.messages.figures import Voice
from bot.messages.read_told import told
from bot.read.meaning import understand
from bot.read.moment import SLOTS, STAGES, Moment, Told
from scheduler.units import c_from_f

DONE, WRONGLY_CALLED = 0, 2
_STAGE_OF = {"rest": "resting"}
_VALUE = re.compile(r"(?P<value>-?[0-9]{1,4}(?:[.,][0-9]+)?) ?°?(?P<unit>[FCfc])?")
_LAST = re.compile(r"(?P<slot>core|pit)[=:] ?(?P<value>[^@]+?)(?: ?@ ?(?P<at>.+))?")
_LIMITS_C = (-20.0, 400.0)
"""What was told before: of the core, too, for it may have been told wrongly."""
_SOME_TIME_AGO = dt.timedelta(minutes=45)
"""When the reading before was, as nobody said: house rule."""


class Unusable(ValueError):
    """An argument that cannot be used: which, and what was given."""

    def __init__(self, what: str, given: str) -> None:
        super().__init__(f"{what}: {given}")
        self.what, self.given = what, given


def main(given: argparse.Namespace, *, zone: str, now: dt.datetime, data_dir: Path) -> int:
    """Print how a text would be understood; return 0, or 2 when an argument cannot be used, having said why."""
    try:
        text, moment = _text(given), moment_of(given, zone=zone, now=now)
    except Unusable as error:
        print(words.unusable(error.what, error.given), file=sys.stderr)
        return WRONGLY_CALLED
    found = understand(text, moment, open_catalogue(data_dir).catalogue)
    if given.json:
        print(json.dumps(found.as_values(), allow_nan=False, ensure_ascii=False))
    else:
        voice = Voice(zone=moment.zone, unit=moment.unit or "F", now=moment.now)
        print("\n".join(told(found, text, voice)))
    return DONE


def _text(given: argparse.Namespace) -> str:
    """Return what is to be read; raise `Unusable` when that is nothing."""
    text = " ".join(given.text)
    if not text.strip():
        raise Unusable("text", text)
    return text


def moment_of(given: argparse.Namespace, *, zone: str, now: dt.datetime) -> Moment:
    """Return the moment that arguments describe; raise `Unusable` for one that cannot be used."""
    slot = _one_of("slot", given.slot or "none", tuple(SLOTS))
    stage = _one_of("stage", given.stage or _STAGE_OF.get(slot, "cooking"), STAGES)
    unit = None if given.unit is None else _one_of("unit", given.unit.upper(), ("F", "C"))
    at = now if given.now is None else _clock("now", given.now, now.astimezone(ZoneInfo(zone)))
    known = dict(_last(one, unit, at, zone) for one in given.last or ())
    target = given.pit_target
    return Moment(
        now=at,
        zone=zone,
        unit=unit,
        stage=stage,
        steps=SLOTS[slot],
        core=known.get("core"),
        pit=known.get("pit"),
        pit_target_c=None if target is None else _celsius("pit_target", target, unit),
    )


def _one_of(what: str, given: str, known: tuple[str, ...]) -> str:
    said = given.strip() if what == "unit" else given.strip().casefold()
    if said not in known:
        raise Unusable(what, given)
    return said


def _clock(what: str, given: str, today: dt.datetime) -> dt.datetime:
    """Return the instant (UTC) of a time of today, or of a whole date and time."""
    try:
        return dt.datetime.combine(today.date(), dt.time.fromisoformat(_two(given.strip())), today.tzinfo).astimezone(
            dt.UTC
        )
    except ValueError:
        pass
    try:
        whole = dt.datetime.fromisoformat(given.strip())
    except ValueError:
        raise Unusable(what, given) from None
    return (whole if whole.tzinfo is not None else whole.replace(tzinfo=today.tzinfo)).astimezone(dt.UTC)


def _two(clock: str) -> str:
    """Return "9:05" as "09:05"."""
    return f"0{clock}" if re.match(r"[0-9]:", clock) else clock


def _last(given: str, unit: str | None, now: dt.datetime, zone: str) -> tuple[str, Told]:
    """Return a reading that is known already: at its time of today, of yesterday when that has not come yet."""
    found = _LAST.fullmatch(given.strip())
    if found is None:
        raise Unusable("last", given)
    try:
        value_c = _celsius("last", found["value"], unit)
        at = (
            now - _SOME_TIME_AGO if found["at"] is None else _clock("last", found["at"], now.astimezone(ZoneInfo(zone)))
        )
    except Unusable:
        raise Unusable("last", given) from None
    return found["slot"], Told(value_c=value_c, at=at if at <= now else at - dt.timedelta(days=1))


def _celsius(what: str, given: str, unit: str | None) -> float:
    found = _VALUE.fullmatch(given.strip())
    if found is None:
        raise Unusable(what, given)
    value = float(found["value"].replace(",", "."))
    low, high = _LIMITS_C
    said = (found["unit"] or "").upper() or unit
    in_c = [c_from_f(value) if one == "F" else value for one in ([said] if said else ["F", "C"])]
    fits = [one for one in in_c if low <= one <= high]
    if not fits:
        raise Unusable(what, given)
    return fits[0]
