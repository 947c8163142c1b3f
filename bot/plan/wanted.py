"""What is wanted of a plan, as typed: read into figures, each unreadable one named with what would work.

It reads text, never files or clocks, and forecasts nothing.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
import re
from zoneinfo import ZoneInfo

from pydantic import BaseModel, ConfigDict, Field

from bot.backtest.figures import mass_kg, pit_band_c, thickness_m, wrap_of
from scheduler.cuts import Cut, Cuts
from scheduler.facts import CareTold, GuestsTold, SafeBy, Serving, ServingKind, Treatment, Wrap
from scheduler.planning.bounds import believed
from scheduler.units import c_from_f

MOST_PIECES = 24
MOST_OF_ONE = 60
"""More pieces than this are a slip of the keys: house rule."""

MOST_GUESTS = 999
_GUESTS = re.compile(r"\s*([0-9]{1,3})\s*(?:\+\s*([0-9]{1,3})\s*)?")
LONGEST_WINDOW = dt.timedelta(hours=12)
"""A window longer than this has its ends the wrong way round: house rule."""

LEAST_CONFIDENCE, MOST_CONFIDENCE = 0.5, 0.99
_CORE = re.compile(r"([0-9]{2,3}(?:\.[0-9]+)?) ?°? ?([cf])")
_CORES_C = (38.0, 100.0)
"""No wished core lies outside [°C]."""
SAFE_BY = {"minimum": SafeBy.MINIMUM, "time": SafeBy.EQUIVALENCE}
"""By which rule a piece is safe, as typed."""
_WHEN_READY = re.compile(r"(?:when[ -]?)?ready")
_DATE = re.compile(r"\d{4}-\d{2}-\d{2}")
_HOURS = re.compile(r"(\d{1,2}):(\d{2})")


class PieceTyped(BaseModel):
    """One piece as typed; None was not said."""

    model_config = ConfigDict(extra="forbid", frozen=True)

    cut: str
    mass: str | None = None
    thickness: str | None = None
    count: int | str | None = None
    pit: str | None = None
    wrap: str | None = None
    serve: str | None = None
    treated: str | None = None
    done: str | None = None
    safe_by: str | None = None


class PlanTyped(BaseModel):
    """A plan as typed, on the command line or in a plan file; what pieces do not say is taken from here."""

    model_config = ConfigDict(extra="forbid", frozen=True)

    pieces: tuple[PieceTyped, ...] = Field(min_length=1, max_length=MOST_PIECES)
    serve: str | dt.datetime | None = None
    pit: str | None = None
    guests: int | str | None = None
    at_risk: bool | None = None
    allergies: str | None = None
    public: bool | None = None
    cooker: str | None = None
    zone: str | None = None
    confidence: float | str | None = None
    now: str | dt.datetime | dt.date | None = None


@dataclasses.dataclass(frozen=True, kw_only=True)
class Unusable:
    """Something typed that cannot be used: its name, what was given, and of what kind the trouble is.

    `trouble` is a key that `bot.messages.plan_refused` has words for.
    """

    trouble: str
    given: str = ""
    piece: int | None = None
    """Which piece, counted from 1; None when there is only one, or it is about the whole plan."""
    cut: Cut | None = None
    """The cut that it does not fit."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class PieceWanted:
    """One piece in figures: mass of one [kg], thickness [m], pit [°C]; None was not said."""

    cut: Cut
    mass_kg: float | None
    thickness_m: float | None
    count: int
    pit_c: tuple[float, float] | None
    wrap: Wrap | None
    serving: Serving | None
    treated: tuple[Treatment, ...] | None = None
    done_c: float | None = None
    safe_by: SafeBy | None = None


def read_piece(typed: PieceTyped, cuts: Cuts, zone: ZoneInfo, number: int | None) -> PieceWanted | list[Unusable]:
    """Return a piece in figures, or everything of it that cannot be used."""
    wrong: list[Unusable] = []

    def said(trouble: str, given: object) -> None:
        wrong.append(Unusable(trouble=trouble, given=str(given), piece=number))

    cut = cuts.named(typed.cut)
    mass = None if typed.mass is None else mass_kg(typed.mass)
    thickness = None if typed.thickness is None else thickness_m(typed.thickness)
    pit = None if typed.pit is None else read_pit(typed.pit)
    wrap = None if typed.wrap is None else wrap_of(typed.wrap)
    count = read_count(typed.count)
    serving = None if typed.serve is None else read_serving(typed.serve, zone)
    treated = None if typed.treated is None else read_treated(typed.treated)
    done_c = None if typed.done is None else read_core(typed.done)
    safe_by = None if typed.safe_by is None else SAFE_BY.get(typed.safe_by.strip().casefold())
    if cut is None:
        said("cut", typed.cut)
    for trouble, given, found in (
        ("mass", typed.mass, mass), ("thickness", typed.thickness, thickness), ("pit", typed.pit, pit),
        ("wrap", typed.wrap, wrap), ("serve", typed.serve, serving), ("count", typed.count, count),
        ("treated", typed.treated, treated), ("done", typed.done, done_c),
        ("safe_by", typed.safe_by, safe_by),
    ):  # fmt: skip
        if given is not None and found is None:
            said(trouble, given)
    if wrap is not None and cut is not None and wrap is not Wrap.NONE and wrap not in cut.wraps:
        said("wrap_of_cut", typed.wrap)
    if cut is not None and mass is not None and not believed(cut, mass):
        said("mass_of_cut", typed.mass)
        wrong[-1] = dataclasses.replace(wrong[-1], cut=cut)
    if wrong or cut is None:
        return wrong
    return PieceWanted(
        cut=cut, mass_kg=mass, thickness_m=thickness, count=count or 1, pit_c=pit, wrap=wrap, serving=serving,
        treated=treated, done_c=done_c, safe_by=safe_by,
    )  # fmt: skip


def read_pit(text: str) -> tuple[float, float] | None:
    """Return a pit with its unit, such as "250F", "121 C" or "250-275F" [°C]; None without a unit."""
    return pit_band_c(text, "F") if re.search(r"[cf]\s*$", text.strip().casefold()) else None


def read_treated(text: str) -> tuple[Treatment, ...] | None:
    """Return what was done to meat, such as "injected, rolled"; nothing for "intact", None for what is neither."""
    words = [word for word in re.split(r"[\s,+]+(?:and\s+)?", text.strip().casefold()) if word]
    if words in (["intact"], ["none"], ["nothing"]):
        return ()
    known = {treatment.value: treatment for treatment in Treatment} | {"tenderized": Treatment.TENDERISED}
    found = [known.get(word) for word in words]
    told = tuple(one for one in found if one is not None)
    return told if told and len(told) == len(found) else None


def read_core(text: str) -> float | None:
    """Return a core with its unit, such as "145F" or "63 C" [°C]; None for what is none."""
    found = _CORE.fullmatch(text.strip().casefold())
    if found is None:
        return None
    core_c = c_from_f(float(found[1])) if found[2] == "f" else float(found[1])
    return core_c if _CORES_C[0] <= core_c <= _CORES_C[1] else None


def read_care(typed: PlanTyped) -> CareTold | None:
    """Return who eats and where, None when nothing of it was typed; "none" means that nobody has an allergy."""
    told = None if typed.allergies is None else typed.allergies.strip()
    none = told is not None and told.casefold() in ("", "none", "no", "nobody")
    allergies = (
        None if told is None else () if none else tuple(part.strip() for part in told.split(",") if part.strip())
    )
    care = CareTold(at_risk=typed.at_risk, allergies=allergies, public=typed.public)
    return None if care == CareTold() else care


def read_count(given: int | str | None) -> int | None:
    """Return a number of like pieces, None when it is none."""
    if given is None:
        return None
    text = str(given).strip()
    return int(text) if text.isdecimal() and 1 <= int(text) <= MOST_OF_ONE else None


def read_guests(given: int | str) -> GuestsTold | None:
    """Return who eats: "24" adults, or "24+6" adults and children; None when it is neither."""
    found = _GUESTS.fullmatch(str(given))
    if found is None:
        return None
    adults, children = int(found[1]), int(found[2] or 0)
    return GuestsTold(adults=adults, children=children) if 0 < adults + children <= MOST_GUESTS else None


def read_confidence(given: float | str) -> float | None:
    """Return a wanted probability, such as 0.85, ".9" or "85%"; None outside what a plan can be asked for."""
    text = str(given).strip()
    try:
        value = float(text.removesuffix("%")) / (100.0 if text.endswith("%") else 1.0)
    except ValueError:
        return None
    return value if LEAST_CONFIDENCE <= value <= MOST_CONFIDENCE else None


def read_serving(given: str | dt.datetime, zone: ZoneInfo) -> Serving | None:
    """Return when people eat: "2026-08-15T18:00", a window "2026-08-15T18:00/19:00", or "when ready".

    A wall time is one of `zone`; one with an offset is turned into it.
    """
    text = given.isoformat() if isinstance(given, dt.datetime) else given.strip()
    if _WHEN_READY.fullmatch(text.casefold()):
        return Serving(kind=ServingKind.WHEN_READY, zone=zone.key)
    first, slash, last = text.partition("/")
    start = _wall(first, zone)
    if start is None:
        return None
    if not slash:
        return Serving(kind=ServingKind.AT, zone=zone.key, start=start)
    clock = _HOURS.fullmatch(last.strip())
    end = _wall(f"{start.date()}T{last.strip().zfill(5)}" if clock else last, zone)
    if end is not None and clock and end <= start:
        end += dt.timedelta(days=1)
    if end is None or not dt.timedelta() < end - start <= LONGEST_WINDOW:
        return None
    return Serving(kind=ServingKind.WINDOW, zone=zone.key, start=start, end=end)


def read_instant(given: str | dt.date, zone: ZoneInfo) -> dt.datetime | None:
    """Return an instant (UTC) from an ISO time; without an offset it is a wall time of `zone`, a date its beginning."""
    text = given.isoformat() if isinstance(given, dt.date) else given.strip()
    wall = _wall(f"{text}T00:00" if _DATE.fullmatch(text) else text, zone)
    return None if wall is None else wall.replace(tzinfo=zone).astimezone(dt.UTC)


def in_a_gap(serving: Serving) -> bool:
    """Return whether a dinner is at a wall time that the clocks leave out when they go forward."""
    if serving.start is None:
        return False
    zone = ZoneInfo(serving.zone)
    return serving.start.replace(tzinfo=zone).astimezone(dt.UTC).astimezone(zone).replace(tzinfo=None) != serving.start


def _wall(text: str, zone: ZoneInfo) -> dt.datetime | None:
    text = text.strip()
    if not re.match(r"\d{4}-\d{2}-\d{2}[T ]\d", text):
        return None
    try:
        at = dt.datetime.fromisoformat(text)
        return at if at.tzinfo is None else at.astimezone(zone).replace(tzinfo=None)
    except (ValueError, OverflowError):
        return None
