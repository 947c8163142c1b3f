"""The reader's world for tests: a setting written in words, and intents written so that a person can read them.

It holds no expectations.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
import re
import tomllib
from pathlib import Path
from zoneinfo import ZoneInfo

from bot.commands import (
    AddPiece,
    AirSaid,
    Ask,
    BackOn,
    CareSaid,
    ChangePlan,
    ChoosePlan,
    CookerSaid,
    Correct,
    Discard,
    Done,
    Draft,
    DropPiece,
    EditionSaid,
    FeelSaid,
    ForCook,
    FuelSaid,
    GuestsSaid,
    HowMuch,
    Intent,
    Invite,
    Join,
    KindSaid,
    MoreCuts,
    MoveDinner,
    MovePit,
    NewCook,
    Note,
    NotYet,
    Pause,
    PieceDraft,
    PutOffFor,
    ReadBySaid,
    Report,
    RestSaid,
    SafeBySaid,
    Skip,
    Suppose,
    SureSaid,
    TakeLever,
    TargetSaid,
    TellMe,
    TreatedSaid,
    Trouble,
    TroubleOver,
    Unclear,
    Undo,
    VaguePiece,
    Value,
    WatchesSaid,
    WrapSaid,
)
from bot.conversation.context import Context, CookerName, KnownPiece, OpenStep
from scheduler.facts import CookerKind, Serving, ServingKind, Slot
from tests.catalogue import CUTS
from tests.unit.bot.conversation.spoken_care import care_in_words, care_of
from tests.unit.bot.conversation.spoken_crew import crew_in_words

ROOT = Path(__file__).parents[4]
CATALOGUE = ROOT / "scheduler" / "catalogue"
ZONE = "Europe/London"
DAY = dt.date(2026, 9, 12)
"""A Saturday."""
COOKER_NAMES = (
    CookerName(name="old kettle", kind=CookerKind.KETTLE, card="the old kettle"),
    CookerName(name="big blue", kind=CookerKind.DRUM, card="Big Blue"),
    *(CookerName(name=kind.value, kind=kind) for kind in CookerKind),
    CookerName(name="barrel", kind=CookerKind.DRUM),
)
_KEYS = {
    "unit", "stage", "now", "last_core", "pit_target", "on", "serving", "setup", "muted", "lights_in_h", "cut",
    "pieces", "stop", "chilling", "each",
}  # fmt: skip
STEPS = {
    step["id"]: step
    for path in sorted((CATALOGUE / "steps").glob("*.toml"))
    for step in tomllib.loads(path.read_text(encoding="utf-8"))["steps"]
}


def at(clock: str, day: dt.date = DAY) -> dt.datetime:
    """Return the instant of a wall time in the zone of these tests."""
    hour, minute = map(int, clock.split(":"))
    return dt.datetime.combine(day, dt.time(hour, minute), ZoneInfo(ZONE)).astimezone(dt.UTC)


def celsius(text: str) -> float:
    """Return the °C of "166F" or "61C"."""
    value = float(text[:-1])
    return (value - 32.0) / 1.8 if text.endswith("F") else value


def open_step(step: str) -> OpenStep:
    """Return an open question about a step, with what the catalogue says it asks for."""
    entry = STEPS.get(step, {})
    slots = entry.get("slots", ["core"] if step == "second_spot" else [])
    return OpenStep(
        step=step,
        title=step,
        slots=tuple(Slot(slot) for slot in slots),
        outcomes=tuple(entry.get("outcomes", ())),
        is_question=True,
    )


def setting(text: str, asked: str = "") -> Context:
    """Return the context that words like "unit=F last_core=166F@13:10 now=13:55" describe."""
    said = dict(pair.split("=") for pair in text.split())
    unknown = set(said) - _KEYS
    assert not unknown, f"a setting has no {unknown}"
    core, _, core_at = said.get("last_core", "").partition("@")
    start = dt.datetime.combine(DAY, dt.time.fromisoformat(said["serving"])) if "serving" in said else None
    context = Context(
        now=at(said.get("now", "13:55")),
        zone=ZONE,
        unit=None if said.get("unit", "F") == "-" else said.get("unit", "F"),
        stage=said.get("stage", "cooking"),
        cuts=CUTS,
        open_steps=tuple(open_step(step) for step in asked.split()),
        pit_target_c=celsius(said["pit_target"]) if "pit_target" in said else None,
        last_core_c=celsius(core) if core else None,
        last_core_at=at(core_at) if core_at else None,
        lights_at=at(said.get("now", "13:55")) + dt.timedelta(hours=float(said["lights_in_h"]))
        if "lights_in_h" in said
        else None,
        meat_on_at=at(said["on"]) if "on" in said else None,
        serving=Serving(kind=ServingKind.AT, zone=ZONE, start=start) if start else None,
        setup_slot=said.get("setup"),
        people=("Ines", "Tomas"),
        muted=tuple(said["muted"].split(",")) if "muted" in said else (),
        cooker_names=COOKER_NAMES,
        cut=said.get("cut"),
        stop_stands=said.get("stop") == "stands",
        chilling="chilling" in said,
        each=int(said.get("each", "1")),
    )
    cuts = said["pieces"].split(",") if "pieces" in said else []
    alone = {cut: dataclasses.replace(context, cut=cut) for cut in cuts}
    return dataclasses.replace(
        context,
        pieces=tuple(
            KnownPiece(piece=f"p{number}", cut=cut, number=None, context=alone[cut])
            for number, cut in enumerate(cuts, 1)
        ),
    )


def plain(intents: tuple[Intent, ...]) -> str:
    """Return intents in words, joined by plus signs."""
    return " + ".join(_plain(intent) for intent in intents)


def _plain(intent: Intent) -> str:
    match intent:
        case Report():
            return f"reading {', '.join(_value(value) for value in intent.values)}{_clock(intent.at)}"
        case Done(every=True):
            return f"done all{_clock(intent.at)}"
        case Done():
            return f"done {intent.step or '?'}{f', {intent.outcome}' if intent.outcome else ''}{_clock(intent.at)}"
        case Skip():
            return f"skip {intent.step or '?'}"
        case NotYet():
            return f"not yet {intent.step or '?'}"
        case PutOffFor():
            return f"ask {intent.step or '?'} again in {intent.minutes:g} min"
        case FeelSaid():
            return f"feel {intent.feel}{f' in the {intent.spot}' if intent.spot else ''}"
        case WrapSaid():
            kind = f"wrap {intent.wrap}" if intent.wrap else "wrap, kind not said"
            return f"{kind}{'' if intent.done else ', planned'}{_clock(intent.at)}"
        case Undo():
            return "undo"
        case Correct():
            return _correction(intent)
        case Ask():
            return f"ask {intent.topic}" + ("" if intent.number is None else f" {intent.number:g}")
        case MoreCuts():
            return f"more cuts {intent.of or ''}".strip()
        case Draft():
            return _draft(intent)
        case ChangePlan():
            return _change(intent)
        case GuestsSaid():
            return f"guests {_guests(intent)}"
        case HowMuch():
            return _how_much(intent)
        case AddPiece():
            return f"add {', '.join(_piece(piece) for piece in intent.more)}"
        case DropPiece():
            return f"drop {intent.piece}"
        case ForCook():
            return f"for cook {intent.cook}: {intent.text!r}"
        case NewCook():
            return f"new cook {intent.text!r}"
        case MoveDinner():
            return f"dinner {_serving(intent.serving) if intent.serving else _shift(intent.minutes or 0.0)}"
        case ChoosePlan():
            return f"choose {_band(intent.pit_low_c, intent.pit_high_c)} {intent.wrap}"
        case MovePit():
            return f"pit to {_band(intent.pit_low_c, intent.pit_high_c)}"
        case AirSaid():
            return f"air {_air(intent)}"
        case CookerSaid():
            return f"cooker {intent.cooker}{f' called {intent.card}' if intent.card else ''}"
        case FuelSaid():
            return f"charcoal {'added' if intent.added else 'in'} {intent.kg:.2f} kg"
        case ReadBySaid():
            return f"read by {intent.read_by}"
        case TellMe():
            return f"tell {intent.detail}"
        case WatchesSaid() | KindSaid() | SureSaid() | RestSaid() | Suppose():
            return _wish(intent)
        case CareSaid() | TreatedSaid() | SafeBySaid() | TargetSaid() | EditionSaid():
            return care_in_words(intent)
        case Discard():
            what = f"{', all of it' if intent.every else ''}{f' {intent.piece}' if intent.piece else ''}"
            return f"thrown away{what}{_clock(intent.at)}"
        case BackOn():
            return f"back on the heat{_clock(intent.at)}"
        case Join():
            return f"join {intent.code}"
        case Invite():
            return "invite"
        case Trouble():
            return f"trouble {intent.what}"
        case TroubleOver():
            return f"trouble over{f' {intent.what}' if intent.what else ''}"
        case TakeLever():
            return f"lever {intent.lever}"
        case Pause():
            return "pause"
        case Note():
            return "note"
        case Unclear():
            options = " | ".join(f"{label}: {_plain(meaning)}" for label, meaning in intent.options)
            return f"question {intent.question}{f' [{options}]' if options else ''}"
        case _:
            return crew_in_words(intent, _clock)


def _wish(intent: WatchesSaid | KindSaid | SureSaid | RestSaid | Suppose) -> str:
    match intent:
        case WatchesSaid():
            turns = [f"{one.name} {_hour(one.start)} to {_hour(one.end)}" for one in intent.watches or ()]
            taken = ["none"] if intent.watches == () else []
            quiet = [] if intent.quiet is None else [f"quiet {_hour(intent.quiet[0])} to {_hour(intent.quiet[1])}"]
            return f"watches {', '.join((*turns, *taken, *quiet))}"
        case KindSaid():
            return f"{'tell' if intent.wanted else 'mute'} {intent.step}"
        case SureSaid():
            return f"sure {'safer' if intent.safer else 'bolder'}" if intent.confidence is None else (
                f"sure {intent.confidence:.3g}"
            )  # fmt: skip
        case RestSaid():
            parts: tuple[str, ...] = (
                "" if intent.minutes is None else f"{intent.minutes:g} min",
                intent.place.value if intent.place else "",
                "" if intent.oven_c is None else f"at {intent.oven_c:.0f}",
                "now" if intent.there else "",
            )
            return f"rest {' '.join(part for part in parts if part)}"
        case _:
            parts = (
                f"light{_clock(intent.light_at)}" if intent.light_at else "",
                f"on{_clock(intent.on_at)}" if intent.on_at else "",
                "" if intent.later_min is None else _shift(intent.later_min),
                f"dinner {_serving(intent.serving)}" if intent.serving else "",
                "" if intent.pit_low_c is None else f"pit {_band(intent.pit_low_c, intent.pit_high_c)}",
            )
            return f"suppose {', '.join(part for part in parts if part)}"


def _hour(clock: dt.time | None) -> str:
    return "?" if clock is None else f"{clock:%H:%M}"


def _value(value: Value) -> str:
    spread = f" give or take {value.spread_c:.1f}" if value.spread_c else ""
    of = f" of {value.piece}" if value.piece else ""
    return f"{value.slot or '?'} {value.value_c:.1f}{f' in the {value.spot}' if value.spot else ''}{spread}{of}"


def _clock(instant: dt.datetime | None) -> str:
    if instant is None:
        return ""
    wall = instant.astimezone(ZoneInfo(ZONE))
    days = (wall.date() - DAY).days
    return f" at {wall:%H:%M}" + {0: "", -1: " the day before", 1: " the day after"}.get(days, f" {days:+d} days")


def _correction(intent: Correct) -> str:
    if intent.at is not None:
        return f"correct to{_clock(intent.at).removeprefix(' at')}"
    if intent.value_c is None:
        return f"correct to the {intent.slot}"
    return f"correct to {intent.value_c:.1f}{f' instead of {intent.old_c:.1f}' if intent.old_c is not None else ''}"


def _change(intent: ChangePlan) -> str:
    parts = (
        f"count {intent.count}" if intent.count else "",
        f"mass {intent.mass_kg:.2f} kg" if intent.mass_kg else "",
        f"unit {intent.unit}" if intent.unit else "",
    )
    return f"change {', '.join(part for part in parts if part)}"


def _shift(minutes: float) -> str:
    return f"{abs(minutes):g} min {'later' if minutes > 0 else 'earlier'}"


def _serving(serving: Serving) -> str:
    if serving.start is None:
        return "when ready"
    days = (serving.start.date() - DAY).days
    day = "" if days == 0 else f" in {days} days"
    if serving.end is not None:
        return f"from {serving.start:%H:%M} to {serving.end:%H:%M}{day}"
    return f"{serving.start:%H:%M}{day}"


def _band(low_c: float, high_c: float | None) -> str:
    return f"{low_c:.0f}" if high_c is None or abs(high_c - low_c) < 0.1 else f"{low_c:.0f}-{high_c:.0f}"


def _air(air: AirSaid) -> str:
    parts = ("" if air.temp_c is None else f"{air.temp_c:.1f}", air.word or "", air.wind or "")
    return " ".join(part for part in parts if part)


def _piece(piece: PieceDraft) -> str:
    parts = [
        f"and {piece.count or 1} {piece.cut}",
        f"of {piece.mass_kg:.2f} kg" if piece.mass_kg else "",
        f"pit {_band(piece.pit_low_c, piece.pit_high_c)}" if piece.pit_low_c is not None else "",
        f"at {_serving(piece.serving)}" if piece.serving else "",
        *care_of(piece),
    ]
    return " ".join(part for part in parts if part)


def _how_much(asked: HowMuch) -> str:
    parts = [
        asked.cut or "",
        f"count {asked.count}" if asked.count else "",
        f"mass {asked.mass_kg:.2f} kg" if asked.mass_kg else "",
        f"for {_guests(asked.guests)}" if asked.guests else "",
    ]
    return " ".join(("how much meat", *(part for part in parts if part)))


def _guests(guests: GuestsSaid) -> str:
    how = f"{f' {guests.appetite}' if guests.appetite else ''}{' in buns' if guests.buns else ''}"
    return f"{guests.adults or 0}+{guests.children or 0}{how}"


def _vague(piece: VaguePiece) -> str:
    mass = "" if piece.mass_kg is None else f" of {piece.mass_kg:.2f} kg"
    return f"and {piece.count or 1} {piece.words!r}, asked which{mass}"


def _draft(draft: Draft) -> str:
    parts = [
        f"cut {draft.cut}" if draft.cut else "",
        f"unknown cut {draft.unknown_cut!r}" if draft.unknown_cut else "",
        f"count {draft.count}" if draft.count else "",
        f"mass {draft.mass_kg:.2f} kg" if draft.mass_kg else "",
        f"pit {_band(draft.pit_low_c, draft.pit_high_c)}" if draft.pit_low_c is not None else "",
        f"dinner {_serving(draft.serving)}" if draft.serving else "",
        f"wrap {draft.wrap}" if draft.wrap else "",
        f"on{_clock(draft.on_at)}" if draft.on_at else "",
        f"air {_air(draft.air)}" if draft.air is not None else "",
        f"core {draft.core_c:.1f}" if draft.core_c is not None else "",
        *(_piece(piece) for piece in draft.more),
        *(_vague(piece) for piece in draft.vague),
        f"guests {_guests(draft.guests)}" if draft.guests is not None else "",
        f"sure {draft.confidence:.3g}" if draft.confidence is not None else "",
        f"tell {draft.detail}" if draft.detail is not None else "",
        *care_of(draft),
        f"ignored {' / '.join(draft.ignored)}" if draft.ignored else "",
    ]
    return re.sub(r"\s+", " ", f"draft {', '.join(part for part in parts if part)}").strip()
