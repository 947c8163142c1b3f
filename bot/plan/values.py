"""A plan as plain values for scripts: instants in ISO form on the clock of the cook's zone. It words nothing itself."""

from __future__ import annotations

import datetime as dt
from zoneinfo import ZoneInfo

from bot.messages import plan_report as words
from bot.messages.figures import Voice
from bot.plan.making import Made
from scheduler.planning.alternatives import Alternative
from scheduler.planning.asking import Window
from scheduler.planning.backward import Backward
from scheduler.planning.feeding import Feeding, feeding, shopping
from scheduler.planning.foreseen import Foreseen, foreseen
from scheduler.planning.shared_fire import together
from scheduler.planning.views import PieceView
from scheduler.safety import by_time, least_of

_MINUTE = dt.timedelta(minutes=1)


def as_values(made: Made) -> dict[str, object]:
    """Return a plan as values that JSON can hold."""
    situation = made.situation
    zone = ZoneInfo(situation.state.serving.zone)
    voice = Voice(zone=zone.key, unit=situation.state.planned.unit, now=made.now)
    plans = plans_of(made)
    found = _plan(together(plans), zone)
    found |= _care(made)
    if not situation.several:
        found |= _safety(situation.views[0], made)
    found["alternatives"] = [_alternative(one, zone) for one in made.offered]
    found["prompts"] = [_prompt(one, voice, zone) for one in foreseen(situation.views, situation.catalogue, made.now)]
    if (told := situation.state.guests) is not None:
        found["shopping"] = _shopping(feeding(situation.views, told))
    if situation.several:
        lit_at = {"light_at": found["light_at"]}  # one fire, lit for the first piece
        each = zip(situation.views, plans, strict=True)
        found["pieces"] = [{**_piece(view, plan, zone), **lit_at, **_safety(view, made)} for view, plan in each]
    return found


def _care(made: Made) -> dict[str, object]:
    """Return who eats and where, and whose rules count; null is not told."""
    state = made.situation.state
    care = state.care
    return {
        "at_risk": care.at_risk,
        "allergies": None if care.allergies is None else list(care.allergies),
        "public": care.public,
        "rules": state.edition.value.replace("_", "-"),
    }


def _safety(view: PieceView, made: Made) -> dict[str, object]:
    """Return what was done to a piece, by which rule it is safe, and the minimum that counts with its publisher."""
    state = view.state
    least = least_of(view.cut, made.situation.catalogue.cuts, state.treated, state.edition)
    return {
        "treated": None if state.treated is None else [one.value for one in state.treated],
        "safe_by": "time" if by_time(state, view.cut) else "minimum",
        "minimum": {
            "f": least.temp_f,
            "c": least.temp_c,
            "rest_minutes": round(least.rest_min, 2),
            "rule": "minimum_not_measured",
            "because": least.because,
            "edition": None if least.edition is None else least.edition.value.replace("_", "-"),
            "source": least.source,
        },
    }


def plans_of(made: Made) -> list[Backward]:
    """Return the plan of each piece, in the order in which they were named."""
    plans = [view.outlook.plan for view in made.situation.views]
    assert all(plan is not None for plan in plans), "a plan has nothing on the fire"
    return [plan for plan in plans if plan is not None]


def _plan(plan: Backward, zone: ZoneInfo) -> dict[str, object]:
    late = plan.late_probability
    return {
        "light_at": _at(plan.light_at, zone),
        "on_at": _at(plan.on_at, zone),
        "pull": _window(plan.pull, zone),
        "plate": _window(plan.plate, zone),
        "late_probability": None if late is None else round(late, 3),
        "rest_minutes": round(plan.rest / _MINUTE),
    }


def _piece(view: PieceView, plan: Backward, zone: ZoneInfo) -> dict[str, object]:
    return {"piece": view.piece, "cut": view.cut.id, "count": view.state.planned.count, **_plan(plan, zone)}


def _alternative(one: Alternative, zone: ZoneInfo) -> dict[str, object]:
    fuel = one.fuel_kg
    return {
        "kind": one.kind.value,
        "pit_c": [round(one.pit_low_c, 1), round(one.pit_high_c, 1)],
        "wrap": None if one.wrap is None else one.wrap.value,
        **_plan(one.plan, zone),
        "awake_hours": round(one.awake / dt.timedelta(hours=1), 1),
        "awake_quiet_hours": round(one.awake_quiet / dt.timedelta(hours=1), 1),
        "fuel_kg": None if fuel is None else [round(kg, 1) for kg in (fuel.low, fuel.typical, fuel.high)],
    }


def _prompt(one: Foreseen, voice: Voice, zone: ZoneInfo) -> dict[str, object]:
    return {
        "key": one.key,
        "kind": one.step.id,
        "due_at": _at(one.due_at, zone),
        "why": words.why_text(one.why, voice),
        "asks": [slot.value for slot in one.step.slots] + list(one.step.outcomes),
    }


def _shopping(of: Feeding) -> dict[str, object]:
    """Return whom the plan feeds and what to buy of each piece, raw as sold [kg]."""
    buys = [
        {
            "piece": one.piece,
            "cut": one.cut.id,
            "planned_kg": round(one.raw_kg, 2),
            "buy_kg": buy.raw_kg,
            "pieces": buy.pieces,
            "cooked_kg": round(buy.cooked_kg, 2),
        }
        for one, buy in shopping(of)
    ]
    guests = of.guests
    return {
        "adults": None if guests is None else guests.adults,
        "children": None if guests is None else guests.children,
        "feeds": None if of.fed is None else round(of.fed, 1),
        "short_kg": of.short_kg,
        "buy": buys,
    }


def _window(window: Window, zone: ZoneInfo) -> dict[str, str | None]:
    return {
        "p10": _at(window.early, zone), "p50": _at(window.likely, zone), "p90": _at(window.late, zone),
    }  # fmt: skip


def _at(at: dt.datetime | None, zone: ZoneInfo) -> str | None:
    return None if at is None else at.astimezone(zone).isoformat(timespec="seconds")
