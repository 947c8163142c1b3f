"""Words of the record about findings and about what nobody measured: short, and never softened."""

from __future__ import annotations

from bot.messages.record import both, limit_both, not_measured, stamp, who
from bot.messages.record_told import ended_by_telling, lasted
from bot.messages.words import _
from scheduler.safety.entries import Ended, Raised

# --- findings -------------------------------------------------------------------------------------------------------


def rule_words(rule: str) -> str:
    """Return what a rule is about, short."""
    return {
        "minimum_not_measured": _("served, minimum not measured"),
        "pulled_under_minimum": _("off the fire under the minimum"),
        "spots_differ": _("two readings differ"),
        "not_intact": _("not intact: stricter minimum"),
        "time_counts": _("time at a lower temperature counts, by choice"),
        "pit_cold": _("pit air too cold"),
        "pit_dead": _("fire out too long"),
        "pit_dead_unread": _("fire out, core not read"),
        "pit_unread": _("fire out, pit not read"),
        "come_up_slow": _("core comes up slowly"),
        "come_up_over": _("core too long in the danger zone"),
        "come_up_unknown": _("come-up not measured"),
        "held_act_now": _("held meat near the floor"),
        "held_under_floor": _("held under the hot holding limit"),
        "served_under_floor": _("served under the hot holding limit"),
        "held_not_read": _("held meat not read"),
        "two_hours_out": _("out without temperature control too long"),
        "raw_too_old": _("raw meat too old"),
        "raw_left_out": _("raw meat left out"),
        "thaw_not_done": _("not thawed"),
        "thaw_counter": _("thawed out of the fridge"),
        "fridge_warm": _("fridge too warm"),
        "cool_slow": _("cooling, first stage too slow"),
        "cool_too_long": _("cooling took too long"),
        "cool_not_read": _("cooling not read"),
        "reheat_under": _("reheated under the limit"),
        "reheat_slow": _("reheated too slowly"),
        "leftovers_old": _("leftovers too old"),
        "food_spoiled": _("fell down"),
        "raw_touched": _("touched by raw meat or juices"),
        "reader_doubted": _("thermometer said to be wrong"),
    }.get(rule, rule.replace("_", " "))


def level_words(level: str) -> str:
    """Return the level of a finding."""
    return {"stop": _("STOP"), "caution": _("caution"), "note": _("note")}[level]


def numbers_words(one: Raised) -> str:
    """Return what was found and its limit."""
    finding = one.finding
    told = []
    if finding.found_c is not None:
        told.append(_("found {value}").format(value=both(finding.found_c)))
    elif finding.limit_c is not None and finding.found_min is None:
        told.append(not_measured())
    if finding.limit_c is not None:
        told.append(_("limit {value}").format(value=limit_both(finding.limit_c)))
    if finding.found_min is not None:
        told.append(lasted(finding.found_min))
    if finding.limit_min is not None:
        told.append(_("limit {value}").format(value=lasted(finding.limit_min)))
    return ", ".join(told)


def ended_words(one: Raised, zone: str, *, closed: bool) -> str:
    """Return how a finding ended, by whom and when; that it stands is said loudly."""
    text = {
        Ended.MEASURED: _("ended {time}: read {value}, by {who}"),
        Ended.DISCARDED: _("ended {time}: food DISCARDED, by {who}"),
        Ended.CORRECTED: _("ended {time}: what it rested on was corrected or withdrawn, by {who}"),
        Ended.TOLD: "",
        Ended.TIME: _("ended {time}: its time had gone by"),
        Ended.DROPPED: _("ended {time}: piece taken out of the cook, by {who}"),
        Ended.NOT: _("NOT ENDED when the cook was closed") if closed else _("NOT ENDED: it stands"),
    }[one.ended]
    if one.ended is Ended.TOLD:
        return ended_by_telling(one, zone)
    value = "" if one.value_c is None else both(one.value_c)
    at = "" if one.ended_at is None else stamp(one.ended_at, zone)
    return text.format(time=at, value=value, who=who(one.ended_by))


def told_words(*, told: bool) -> str:
    """Return whether people were told of a finding."""
    return _("people were told") if told else _("no message of its own")


# --- what is missing ------------------------------------------------------------------------------------------------


def missing_words(what: str) -> str:
    """Return what nobody measured or told."""
    return {
        "pit": _("pit air: not measured"),
        "raw": _("fridge, raw meat (cold holding): not measured"),
        "cooking": _("core while cooking: not measured"),
        "holding": _("core after it came off the fire (hot holding): not measured"),
        "cooling": _("cooling of what was put away: not measured"),
        "reheating": _("reheating: not measured"),
        "out": _("time out of the fridge: not told"),
        "on": _("time on the fire: not told"),
        "off": _("time off the fire: not told"),
        "serve": _("time served: not told"),
        "away": _("time put away or discarded: not told"),
    }[what]
