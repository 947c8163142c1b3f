"""Cards for the fire, the weather and the things that measure: pit, fuel, smoke, wind, rain, probes.

Cautions here are never weakened; `bot.messages.problems` puts a card together.
"""

from __future__ import annotations

from bot.commands import Ask, Done, PutOffFor, Topic, Trouble, TroubleOver
from bot.messages.problem_card import Card, card
from bot.messages.words import _

FIRE: dict[str, Card] = {
    "fire_out": card(
        name=lambda: _("the fire is out"),
        do=lambda: _(
            "Lit charcoal from a chimney; the meat stays in the closed cooker meanwhile. If the pit is under {floor} "
            "for over 30 min with the meat under {danger}, move the meat to a hot oven now."
        ),
        caution=lambda: _("No fluid on embers."),
        ask=lambda: _("What do meat and pit read?"),
        answers=lambda: ((_("Charcoal added"), Done(step="refuel")),),
        lever="late_oven",
    ),
    "fuel_out": card(
        name=lambda: _("fuel is gone"),
        do=lambda: _(
            "Add lit charcoal now; meat stays in, lid shut. If the pit is under {floor} for more than 30 min with the "
            "meat under {danger}, move the meat to a hot oven now."
        ),
        caution=lambda: _("No fluid on hot coals."),
        ask=lambda: _("What do meat and pit read?"),
        answers=lambda: ((_("Charcoal added"), Done(step="refuel")),),
        lever="late_oven",
    ),
    "wont_light": card(
        name=lambda: _("it does not light"),
        do=lambda: _("New dry charcoal in a chimney, every vent open, ash out of the air holes."),
        caution=lambda: _("Never any liquid on coals that glow or might."),
        ask=lambda: _("Does it burn now?"),
        answers=lambda: ((_("Lit"), Done(step="light")),),
    ),
    "yo_yo": card(
        name=lambda: _("the pit swings"),
        do=lambda: _(
            "Hands off: both vents to where it last held, then 15 min without touching. One small move at a time."
        ),
        ask=lambda: _("Where do both vents stand, and what does the pit read?"),
        answers=lambda: ((_("Ask in 15 min"), PutOffFor(minutes=15, step="pit_check")),),
    ),
    "pit_hot": card(
        name=lambda: _("the pit is too hot"),
        do=lambda: _(
            "Close top and bottom a little, do not open the lid to cool it: that feeds the fire. A pan of hot "
            "water in it can help."
        ),
        caution=lambda: _("Lid up on a hot fire flares: stand back if you must open."),
        ask=lambda: _("Read the pit again in 10 min."),
    ),
    "pit_cold": card(
        name=lambda: _("the pit is too cold"),
        do=lambda: _(
            "Clear ash from the air holes, open the bottom a little, look at the fuel; if it is low, add lit charcoal."
        ),
        caution=lambda: _("Under {floor} with the meat under {danger} for 30 min: a hot oven."),
        ask=lambda: _("Read the pit again in 15 min."),
        answers=lambda: ((_("Fuel is low"), Done(step="fuel_check", outcome="low")),),
        lever="late_fix_pit",
    ),
    "lid_open": card(
        name=lambda: _("the lid stood open"),
        do=lambda: _("Shut the lid and leave it shut. Vents as they were; the air made the fire grow: watch it climb."),
        caution=lambda: _("Gloves, and stand aside: fat may flare. {climbs}"),
        ask=lambda: _("What do meat and pit read in 15 min?"),
    ),
    "dirty_smoke": card(
        name=lambda: _("thick smoke"),
        do=lambda: _("More air, smaller wood, and wait. Meat not on yet: keep it off. Meat on: shield it, lid shut."),
        caution=lambda: _("Stand upwind. 20 to 30 min of it makes the skin bitter."),
        ask=lambda: _("What colour is it now?"),
        answers=lambda: ((_("Smoke: thin"), Done(step="smoke_clean", outcome="thin")),),
    ),
    "flare_up": card(
        name=lambda: _("a flare-up"),
        do=lambda: _(
            "Lid shut, vents shut for 2 to 5 min. Then move the meat off the flame with long tongs. Flames out of the "
            "lid: people back, {emergency}"
        ),
        caution=lambda: _("Never water on burning fat; mind the sleeves."),
        ask=lambda: _("Is it still burning?"),
    ),
    "wind": card(
        name=lambda: _("wind on the fire"),
        do=lambda: _("Turn the intake out of the wind, a board that does not burn 1 m off, bottom closed a touch."),
        caution=lambda: _(
            "Outdoors all the same: never into a garage, tent or porch, carbon monoxide kills. Loose things down."
        ),
        ask=lambda: _("What does the pit read in 15 min?"),
    ),
    "rain": card(
        name=lambda: _("rain"),
        do=lambda: _("A roof high above it or a blanket made for it; keep fuel dry; it takes 10 to 25 % more."),
        caution=lambda: _(
            "No tarp on hot metal. The cooker stays outdoors: never under a porch or into a garage, carbon monoxide."
        ),
        ask=lambda: _("What does the pit read?"),
    ),
    "cold": card(
        name=lambda: _("hard cold"),
        do=lambda: _("Half as much fuel again within reach, fewer openings, a little more air."),
        caution=lambda: _("Ice underfoot with hot loads: clear the path. The cooker stays outdoors, carbon monoxide."),
        ask=lambda: _("What does the pit read?"),
    ),
    "heat": card(
        name=lambda: _("great heat"),
        do=lambda: _("Vents a little smaller, shade for meat and people, water for everybody."),
        caution=lambda: _("Above {hot} served food stands an hour at most, not two; raw meat stays in the fridge."),
        ask=lambda: _("What does the pit read?"),
    ),
}
"""Fire and weather."""

GAUGES: dict[str, Card] = {
    "probe_bone": card(
        name=lambda: _("the probe may touch bone"),
        do=lambda: _(
            "Into the thick middle, away from bone, a finger from the pan; then a second spot. The lower one counts."
        ),
        caution=lambda: _("Nothing is done on one number: I hold the doubtful one out of the forecast."),
        ask=lambda: _("What does the second spot read?"),
    ),
    "probe_air_fat": card(
        name=lambda: _("the probe sits in fat or air"),
        do=lambda: _("Push it deeper, into lean meat in the middle, and give it two minutes."),
        ask=lambda: _("What does it read now?"),
    ),
    "probe_dead": card(
        name=lambda: _("the probe is dead"),
        do=lambda: _(
            "Use a hand reader every 30 to 45 min and type the number. Until then the forecast runs on time and pit."
        ),
        caution=lambda: _("Without any reader nobody can say that it is safe: borrow one before you serve."),
        ask=lambda: _("Is there another one?"),
    ),
    "reader_wrong": card(
        name=lambda: _("the thermometer is wrong"),
        do=lambda: _(
            "Take another one, or hold the tip in ice water: it shows 32 F (0 C) when it is right. Then read the "
            "coldest spot again and type the number."
        ),
        caution=lambda: _("No number read with it makes food safe: until then I call it unknown."),
        ask=lambda: _('Type "another thermometer" or "the thermometer is right", then the number.'),
        answers=lambda: (
            (_("Another thermometer"), Trouble(what="reader_other", text="another thermometer")),
            (_("It is right"), TroubleOver(what="reader_wrong")),
        ),
    ),
    "reader_other": card(
        name=lambda: _("another thermometer"),
        do=lambda: _("Good. Read the coldest spot with it, off bone and fat; only its numbers count now."),
        ask=lambda: _("What does it read?"),
    ),
    "pit_gauge_wrong": card(
        name=lambda: _("the dial is off"),
        do=lambda: _("Trust the one at the grate beside the meat. Type that one from now on."),
        ask=lambda: _("What do both read, at the same time?"),
    ),
    "probe_wire_fire": card(
        name=lambda: _("the wire burns"),
        do=lambda: _("Lead it away from flame and hinge, or take the hand reader: a scorched wire lies."),
        caution=lambda: _("Gloves: the wire is as hot as the fire."),
        ask=lambda: _("What does a second reader say?"),
    ),
    "stall_long": card(
        name=lambda: _("a long stall"),
        do=lambda: _("Water on the surface cools it, it ends by itself. First see that probe and pit tell the truth."),
        ask=lambda: _("What does a second spot read, and the pit?"),
        answers=lambda: ((_("What can I do?"), Ask(topic=Topic.LEVERS)), (_("How long?"), Ask(topic=Topic.STALL))),
    ),
}
"""What measures, and what it shows."""
