"""Words of the record for an event: a temperature log as somebody who inspects food reads it. Nothing is left blank.

Temperatures stand in both units, the published Fahrenheit first. Nothing is laid out here.
"""

from __future__ import annotations

import datetime as dt
from zoneinfo import ZoneInfo

from bot.messages.figures import held_for, limit_f
from bot.messages.language import date_with_year, day_and_month
from bot.messages.message import lines
from bot.messages.words import _, written
from scheduler.facts import CareTold, Edition, SafeBy, Treatment
from scheduler.safety.entries import Action, Bound, Meets, Phase
from scheduler.units import f_from_c

F_PER_C = 1.8


# --- figures --------------------------------------------------------------------------------------------------------


def fahrenheit(temp_c: float) -> float:
    """Return a temperature in Fahrenheit, to a tenth."""
    return round(f_from_c(temp_c), 1)


def both(temp_c: float, spread_c: float = 0.0) -> str:
    """Return a temperature in both units, such as "203 F (95 C)", with "±" where it is approximate."""
    more_f = f" ±{_tenth(spread_c * F_PER_C)}" if spread_c else ""
    more_c = f" ±{_tenth(spread_c)}" if spread_c else ""
    return _("{f} F ({c} C)").format(f=_tenth(f_from_c(temp_c)) + more_f, c=_tenth(temp_c) + more_c)


def limit_both(limit_c: float) -> str:
    """Return a limit in both units, the Fahrenheit as it was published."""
    return _("{f} F ({c} C)").format(f=_tenth(limit_f(limit_c)), c=_tenth(limit_c))


def limit_words(bound: Bound) -> str:
    """Return a limit in both units, such as "at least 145 F (62.8 C)"."""
    figure = _("{f} F ({c} C)").format(f=_tenth(bound.limit_f), c=_tenth(bound.limit_c))
    text = _("at most {figure}") if bound.at_most else _("at least {figure}")
    within = "" if bound.within_min is None else _(" within {hours:g} h").format(hours=round(bound.within_min / 60, 1))
    return text.format(figure=figure) + within


def _tenth(value: float) -> str:
    return written(f"{round(value, 1) + 0.0:.1f}".removesuffix(".0"))


def iso(at: dt.datetime, zone: str) -> str:
    """Return an instant as ISO 8601 on the clock of a zone, with the offset from UTC."""
    return at.astimezone(ZoneInfo(zone)).isoformat(timespec="seconds")


def clock(at: dt.datetime, zone: str) -> str:
    """Return a time of day."""
    return f"{at.astimezone(ZoneInfo(zone)):%H:%M}"


def day(at: dt.datetime, zone: str) -> str:
    """Return a date with the offset from UTC, such as "Sat 12 Sep 2026, UTC+01:00"."""
    local = at.astimezone(ZoneInfo(zone))
    return f"{date_with_year(local)}, UTC{local.isoformat(timespec='minutes')[16:]}"


def stamp(at: dt.datetime, zone: str) -> str:
    """Return date and time, such as "12 Sep 14:05"."""
    local = at.astimezone(ZoneInfo(zone))
    return f"{day_and_month(local)} {local:%H:%M}"


# --- the head -------------------------------------------------------------------------------------------------------


def title() -> str:
    """Return what the paper is."""
    return _("Temperature log of a cook")


def made_line(cook: str, made_at: dt.datetime, zone: str) -> str:
    """Return which cook it is of, and when it was made."""
    return _(
        "Cook {cook}. Made {time} ({zone}). Times are of that zone; the offset from UTC stands with each day."
    ).format(cook=cook, time=f"{stamp(made_at, zone)}", zone=zone)


def blanks() -> tuple[tuple[str, ...], ...]:
    """Return what has to be filled in by hand, line by line: the program does not know it."""
    return (
        (_("Event"),),
        (_("Place"),),
        (_("Person in charge"), _("Permit no.")),
        (_("Food handler certificate no."), _("Thermometer checked")),
    )


def to_fill_in() -> str:
    """Return what stands in a file where a hand would write."""
    return _("to be filled in")


def headings() -> dict[str, str]:
    """Return the headings of the parts of the page, and of the columns of its tables."""
    return {
        "told": _("What was told"),
        "pieces": _("Food"),
        "piece_columns": _("what|how it was treated|minimum that applies|coldest spot that was read"),
        "log": _("Readings and times"),
        "log_columns": _("time|what|read|limit then|meets|by|corrective action, remarks"),
        "raised": _("Stops and cautions raised, and how they ended"),
        "raised_columns": _("first known|level|what|how it ended"),
        "none_raised": _("None was raised. What was never read cannot raise one: see below."),
        "missing": _("Not measured, not told"),
        "limits": _("Limits"),
        "limit_columns": _("limit|figure|source"),
        "sign": _("Person in charge (name, signature)"),
        "date": _("Date"),
        "empty": _("Nothing was read and nothing was done, as far as anybody told."),
        "letters": _("? = a letter that this printer font lacks. The CSV file has it."),
    }


def page_of(number: int, count: int, cook: str) -> str:
    """Return the foot of a page."""
    return _("Slowbell, cook {cook}, page {number} of {count}").format(cook=cook, number=number, count=count)


def notes() -> tuple[str, ...]:
    """Return what a reader must know to judge the paper."""
    return (
        _("Local codes and the health authority decide; these limits are those of the named publications."),
        _("Every temperature was read and typed by a person; the program has no thermometer. ± is how unsure it was."),
        _(
            "A reading is compared with the limit in Fahrenheit converted and rounded to 0.1 C, by its unsafe edge. "
            '"not yet": still on the fire, read again later, or its time not up. "by time": under the minimum, safe by '
            'its time at a lower temperature, by choice. "not proven": a doubtful reading.'
        ),
        _("Nothing is erased: a corrected or withdrawn entry stays, with what it said, who changed it and when."),
    )  # fmt: skip


def told_lines(care: CareTold, edition: Edition, people: tuple[str, ...]) -> tuple[tuple[str, str], ...]:
    """Return (label, what was told) of the meal and the people."""
    return (
        (_("People who reported"), ", ".join(people) or not_told()),
        (_("Public or paid meal"), _yes(care.public)),
        (_("Guests at risk"), _yes(care.at_risk)),
        (
            _("Allergies"),
            not_told() if care.allergies is None else ", ".join(care.allergies) or _("asked: nobody named any"),
        ),
        (_("Rules used"), edition_words(edition)),
    )


def edition_words(edition: Edition | None) -> str:
    """Return whose rules count."""
    return {
        None: _("published limit"),
        Edition.STRICTER: _("of USDA FSIS consumer advice and the FDA Food Code the stricter figure"),
        Edition.CONSUMER: _("USDA FSIS consumer advice"),
        Edition.FOOD_CODE: _("FDA Food Code"),
    }[edition]


def _yes(told: bool | None) -> str:  # noqa: FBT001 - three answers, None among them
    return not_told() if told is None else _("yes") if told else _("no")


def not_told() -> str:
    """Return what stands where nobody said anything."""
    return _("not told")


def not_measured() -> str:
    """Return what stands where nobody read anything."""
    return _("not measured")


# --- the food -------------------------------------------------------------------------------------------------------


def treated_words(treated: tuple[Treatment, ...] | None) -> str:
    """Return what was done to a piece."""
    if treated is None:
        return _("not told whether it is intact")
    names = {
        Treatment.TENDERISED: _("tenderised"),
        Treatment.INJECTED: _("injected"),
        Treatment.ROLLED: _("rolled"),
        Treatment.GROUND: _("ground"),
        Treatment.STUFFED: _("stuffed"),
    }
    return ", ".join(names[one] for one in treated) or _("intact, as told")


def class_words(safety_class: str) -> str:
    """Return the class of a meat."""
    return {
        "intact_beef": _("beef, whole cut"),
        "intact_pork": _("pork, whole cut"),
        "intact_lamb": _("lamb, whole cut"),
        "poultry": _("poultry"),
        "ground": _("ground meat"),
        "fish": _("fish"),
    }.get(safety_class, safety_class.replace("_", " "))


def piece_words(name: str, count: int, mass_kg: float | None, *, frozen: bool, dropped: bool) -> str:
    """Return what a piece is: count, name, mass, frozen or not."""
    mass = _("mass not told") if mass_kg is None else _("{mass:g} kg each").format(mass=round(mass_kg, 2))
    text = f"{count} × {name}, {mass}" if count != 1 else f"{name}, {mass}"
    if frozen:
        text += _(", bought frozen")
    return text + (_(" (taken out of this cook)") if dropped else "")


def rest_words(rest_min: float) -> str:
    """Return the rest that belongs to a minimum."""
    return _("and {rest} of rest").format(rest=held_for(rest_min)) if rest_min else _("no rest asked for")


def opened(open_at: dt.datetime | None, zone: str, *, by: SafeBy) -> str:
    """Return whether the minimum was measured, and from when on with its rest; or its time at a lower temperature."""
    if by is SafeBy.EQUIVALENCE and open_at is None:
        return _("NOT at the minimum; time at a lower temperature was chosen, and is NOT reached")
    if open_at is None:
        return _("NOT at the minimum")
    if by is SafeBy.EQUIVALENCE:
        return _("by choice safe by its time at a lower temperature, from {time}").format(time=stamp(open_at, zone))
    return _("minimum met, with its rest from {time}").format(time=stamp(open_at, zone))


def no_limit() -> str:
    """Return what stands beside a reading that nothing is published for."""
    return _("no limit then")


def core() -> str:
    """Return what a withdrawn reading was of."""
    return _("core")


# --- an entry -------------------------------------------------------------------------------------------------------


def phase_words(phase: Phase | None) -> str:
    """Return what was measured, by where the food was."""
    return {
        None: _("pit air"),
        Phase.RAW: _("core, raw (cold holding)"),
        Phase.COOKING: _("core, cooking"),
        Phase.HOLDING: _("core, off the fire (hot holding)"),
        Phase.COOLING: _("food put away (cooling)"),
        Phase.REHEATING: _("food, reheating"),
        Phase.DISCARDED: _("core, discarded food"),
        Phase.FRIDGE: _("air of the fridge"),
    }[phase]


def limit_name(name: str) -> str:
    """Return what a limit is called."""
    return {
        "minimum": _("cooking minimum"),
        "hot_hold": _("hot holding"),
        "hot_hold_roast": _("hot holding of roasts"),
        "danger_low": _("cold holding"),
        "cool_first": _("cooling, first stage"),
        "cool_cold": _("cooling, in all"),
        "reheat": _("reheating"),
        "pit_cold": _("pit air while the core is in the danger zone"),
    }.get(name, name.replace("_", " "))


def meets_words(meets: Meets) -> str:
    """Return whether a reading meets its limit."""
    return {
        Meets.YES: _("yes"),
        Meets.NO: _("NO"),
        Meets.NOT_YET: _("not yet"),
        Meets.BY_TIME: _("by time"),
        Meets.UNKNOWN: _("not proven"),
        Meets.NOTHING: _("n/a"),
    }[meets]


def actions_words(actions: tuple[Action, ...], zone: str) -> str:
    """Return what was done next, or that nothing was told."""
    return "; ".join(_action(one, zone) for one in actions) or _("none recorded")


def _action(action: Action, zone: str) -> str:
    text = {
        "back_on": _("back on the heat {time}, by {who}"),
        "oven": _("moved to the oven {time}, by {who}"),
        "reheating": _("reheating begun {time}, by {who}"),
        "reheated": _("reheated, read {value} {time}, by {who}"),
        "read_again": _("read again {value} {time}, by {who}"),
        "discarded": _("DISCARDED {time}, by {who}"),
        "put_away": _("put away {time}, by {who}"),
        "pit": _("fire tended {time}, by {who}"),
    }[action.what]
    value = "" if action.value_c is None else both(action.value_c)
    return text.format(time=clock(action.at, zone), who=who(action.by), value=value)


def who(by: str | None) -> str:
    """Return who told something."""
    return by or _("not named")


def corrected_from(was: str, by: str | None, at: dt.datetime, zone: str, *, stands: bool) -> str:
    """Return a correction: what stood before, who changed it and when."""
    text = _("corrected from {was} by {who}, {time}") if stands else _("a correction by {who}, {time}, taken back")
    return text.format(was=was, who=who(by), time=stamp(at, zone))


def withdrawn_by(by: str | None, at: dt.datetime, zone: str) -> str:
    """Return that an entry was taken back."""
    return _("WITHDRAWN by {who}, {time}").format(who=who(by), time=stamp(at, zone))


def doubtful() -> str:
    """Return the mark of a doubtful reading."""
    return _("doubtful: a second spot was asked for")


def typed_later(at: dt.datetime, zone: str) -> str:
    """Return that something was typed well after it was so."""
    return _("typed {time}").format(time=stamp(at, zone))


def step_title(name: str) -> str:
    """Return a step in the list of times."""
    return {
        "collect_meat": _("meat collected"),
        "fridge_check": _("fridge checked"),
        "raw_out": _("raw, OUT OF THE FRIDGE"),
        "raw_back": _("raw, back into the fridge"),
        "thaw_start": _("thawing begun"),
        "dry_brine": _("salted"),
        "rub_binder": _("rubbed"),
        "raw_cleanup": _("raw side washed"),
        "light": _("fire lit"),
        "meat_on": _("ON THE FIRE"),
        "pull": _("OFF THE FIRE"),
        "vent_meat": _("vented"),
        "box_meat": _("into the box"),
        "slice": _("sliced or pulled apart"),
        "serve": _("SERVED"),
        "two_hour": _("PUT AWAY"),
        "leftovers": _("leftovers put away"),
        "reheat_on": _("reheating begun"),
        "reheat_away": _("reheated food put away"),
        "leftover_expire": _("last leftovers eaten, frozen or thrown away"),
        "discarded": _("DISCARDED"),
        "oven": _("moved to an oven at {value}"),
        "wrapped": _("wrapped ({value})"),
        "unwrapped": _("unwrapped, or left bare"),
    }.get(name, name.replace("_", " "))


# --- chat and command line ------------------------------------------------------------------------------------------


def given_out(sequence: int) -> str:
    """Return what goes with the page."""
    return lines(
        _("The temperature log of this cook, no. {number}, to print.").format(number=sequence + 1),
        _("Fill in event, place, permit and person in charge by hand, and sign it. Local codes decide."),
    )


def given_out_file() -> str:
    """Return what goes with the file."""
    return _("The same as a table (CSV).")


def offered() -> str:
    """Return the line that offers a record at the end of a public meal."""
    return _('A public meal: type "record" for the temperature log, to print and sign.')
