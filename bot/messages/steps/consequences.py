"""What happens when a step is forgotten: for everybody who asks why.

Words only, one clause for each step; from the trade's list of steps (common practice, no source).
"""

from __future__ import annotations

from bot.messages.words import _


def consequence(step_id: str) -> str:
    """Return what happens if this step is forgotten, as a sentence; nothing for what is no step."""
    text = _words().get(step_id)
    return "" if text is None else _("If forgotten: {what}").format(what=text)


def _words() -> dict[str, str]:
    return {
        "headcount": _("the wrong amount is bought, and there is no dinner time to plan back from."),
        "rules_site": _("the cook is called off on the day, or it ends with a fine or a fire."),
        "roles": _("two people lead or nobody does, and nobody is awake at four."),
        "order_meat": _("the cut is not to be had when you need it."),
        "shop_fuel": _("the charcoal runs out in the night."),
        "collect_meat": _("the plan counts on the wrong mass, or the meat gets warm on the way."),
        "fridge_check": _("the meat spoils, or does not thaw in time."),
        "marinade": _("what touched raw meat is eaten raw."),
        "raw_out": _("nobody knows how long it lay in the warm."),
        "thaw_start": _("the middle is still icy when it should go on: hours late, and unsafe."),
        "thaw_check": _("the ice is found when the meat should go on."),
        "thaw_rescue": _("dinner moves, or the water gets warm around the meat."),
        "weather": _("the charcoal and the time are wrong: wind and cold take both."),
        "clean_cooker": _("blocked air holes let the fire die at night, and old grease burns."),
        "probe_test": _("the whole plan runs on a wrong number."),
        "trim": _("the forecast is poorer, and thin edges burn."),
        "dry_brine": _("only the outside is seasoned; then salt goes into the rub at the last minute."),
        "stage_kit": _("somebody hunts for foil while the lid stands open."),
        "confirm_plan": _("people miss their watch."),
        "wake": _("everything is late from the start."),
        "rules_recheck": _("the fire is illegal, or dangerous."),
        "fuel_load": _("charcoal must be added in the middle of the cook, and the smoke is thin."),
        "light": _("every later time slides."),
        "heat_parts_in": _("the fire scorches the bottom, and fat drips into it and flares."),
        "pit_rising": _("I cannot tell when the pit gets there, and the vents are closed by guess."),
        "vents_early": _("the pit runs 20 to 40 C (35 to 70 F) too hot, and it takes an hour to catch it."),
        "smoke_clean": _("the bark gets bitter and sooty."),
        "pit_stable": _("the plan counts on a pit that is not there."),
        "rub_binder": _("the meat tastes plain."),
        "probe_in": _("the number runs ahead at bone or edge, or lags in fat, and the forecast is wrong."),
        "pit_change": _("the next piece goes on at a pit that it was not planned for."),
        "meat_on": _("the clock never starts, and every forecast is wrong."),
        "raw_cleanup": _("raw juice gets onto salad or cooked meat."),
        "pit_recover": _("a dying or runaway fire is found hours later."),
        "pit_check": _("a pit that drifts eats hours."),
        "fuel_check": _("the fire goes out, and the meat stops at a temperature where it spoils."),
        "refuel": _("the pit falls below 100 C (212 F) within half an hour to an hour."),
        "first_look": _("an edge dries out, or one side gets dark."),
        "spritz": _("the edge is slightly drier. A small loss."),
        "wood_add": _("the smoke taste is milder."),
        "water_pan": _("fat in a dry pan can catch fire, and the pit jumps."),
        "core_read": _("the forecast drifts, and decisions come late."),
        "come_up_check": _("meat that warms too slowly is not noticed."),
        "rotate": _("the colour is uneven."),
        "stall_notice": _("somebody opens the vents in a panic."),
        "bark_check": _("wrapped too soft the bark is gone; too late it is bitter and dry."),
        "wrap_decide": _("it comes one to four hours later than planned."),
        "wrap_do": _("the forecast goes on counting with bare meat."),
        "handover": _("a thing is done twice, or never."),
        "eta_note": _("the sides are cold, or the guests hungry."),
        "box_ready": _("the meat cools too soon while it rests."),
        "tender_test": _("it is pulled tough, or cooked to mush."),
        "second_spot": _("the middle is served raw."),
        "pull": _("it cooks on past its best, and nobody knows how long it has rested."),
        "shutdown": _("it burns all night and wastes the charcoal."),
        "vent_meat": _("the heat inside carries it past tender, and the bark gets soggy."),
        "box_meat": _("nobody knows since when it rests, and it cools on the table."),
        "hold_check": _("it falls unseen to where germs grow."),
        "t_minus": _("the bad news is told at the table."),
        "sides": _("the meat waits for the salad."),
        "board_ready": _("a board from the raw meat gets used."),
        "serve_reading": _("nobody knows whether it is hot enough to be safe."),
        "slice": _("the slices are dry, or the plates late."),
        "serve": _("the two hours of food on the table have no beginning."),
        "two_hour": _("people get ill: germs grow in big meats on a table."),
        "leftovers": _("they are wasted, or no longer safe."),
        "cool_check": _("the log has a gap, and nobody can show that the food cooled in time."),
        "fire_out": _("wind lights it again."),
        "wash_up": _("mould and pests come."),
        "quick_notes": _("the same mistake comes back next time."),
        "grease_clean": _("old fat goes rancid, and flares at the next cook."),
        "reheat": _("leftovers get warm instead of hot, and germs grow."),
        "reheat_on": _("nobody knows how long they were warm and not hot."),
        "reheat_away": _("reheated food stands out too long, and the next one who eats it gets sick."),
        "ash": _("a bin or a deck burns."),
        "restock": _("the next guess at the charcoal is no better."),
        "leftover_expire": _("somebody eats meat that is too old."),
    }  # fmt: skip
