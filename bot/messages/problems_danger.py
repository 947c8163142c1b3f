"""Cards for people in danger: first aid, fumes, fire where none should be. They come before anything about the plan.

Never weakened; each defers to the emergency number. Where each comes from stands in the catalogue of problems.
"""

from __future__ import annotations

from bot.messages.problem_card import Card, card
from bot.messages.steps import CAUTIONS
from bot.messages.words import _


def emergency() -> str:
    """Return the sentence that names the emergency number, without pretending to know the country."""
    return _("Call the emergency number (112 in Europe, 911 in North America, or your own).")


_FIRST_AID: dict[str, Card] = {
    "burn": card(
        name=lambda: _("a burn"),
        do=CAUTIONS["burn_aid"],
        caution=lambda: _(
            "Large, on the face, hands or joints, blistered, or a child: {emergency} Rings and tight things "
            "off; cover it loosely. Somebody else takes the fire."
        ),
        ask=lambda: _("Who has the fire now? Type the name."),
    ),
    "co_symptom": card(
        name=lambda: _("signs of carbon monoxide"),
        do=lambda: _("Everybody out into fresh air now, away from the smoke. {emergency}"),
        caution=lambda: _(
            "Charcoal gives off carbon monoxide: you cannot smell it. Do not go back in for food, fire or "
            "anything else. "
            "Headache, dizziness or feeling sick near coals is enough; say at the phone that charcoal was burning."
        ),
        ask=lambda: _("Is everybody out?"),
    ),
    "cooker_indoors": card(
        name=lambda: _("a lit cooker or an alarm under a roof"),
        do=lambda: _("Everybody out of there now, into fresh air: garage, tent, porch, van or house. {emergency}"),
        caution=lambda: _(
            "Charcoal makes carbon monoxide: it kills, you cannot smell it, an open door is not enough. Leave doors "
            "open behind you. Nobody goes back in for food or fire until the fire service says so. Headache, dizziness "
            "or feeling sick: say it at the phone. Charcoal burns outdoors only."
        ),
        ask=lambda: _("Is everybody out? Count them."),
    ),
    "allergic_reaction": card(
        name=lambda: _("an allergic reaction"),
        do=lambda: _(
            "{emergency} Trouble breathing, swelling of face or throat, faintness: their own adrenaline pen now, into "
            "the outer thigh."
        ),
        caution=lambda: _(
            "Lie them down, legs up; who cannot breathe lying sits, legs out. Nobody stands or walks; never leave them "
            'alone. No better after 5 min: a second pen if there is one. Say "allergic reaction" at the phone and what '
            "was eaten. What the phone says counts before this (from memory)."
        ),
        ask=lambda: _("Is help on the way?"),
    ),
    "choking": card(
        name=lambda: _("somebody is choking"),
        do=lambda: _(
            "Coughing: let them cough. No cough, voice or breath: bend them forward, 5 hard blows between the shoulder "
            "blades, then 5 thrusts in and up above the navel; again until it is out. Somebody else calls. {emergency}"
        ),
        caution=lambda: _(
            "Under one year, or pregnant: chest thrusts, none in the belly. Limp or not answering: down on the back, "
            "chest compressions. What the phone says counts before this (from memory). See a doctor afterwards."
        ),
        ask=lambda: _("Do they breathe?"),
    ),
    "guest_ill": card(
        name=lambda: _("a guest is ill"),
        do=lambda: _(
            "Stop serving: nobody eats on. Call a doctor. Blood, hard breathing, faint, stiff or very drowsy, or "
            "pregnant, old or a small child: {emergency}"
        ),
        caution=lambda: _(
            "Near burning coals it may be carbon monoxide: fresh air first, everybody. Keep some of all that was eaten "
            "covered and labelled, in the fridge, and tell the health office; throw nothing away before they say so. "
            "Small sips; who is ill handles no food (from memory)."
        ),
        ask=lambda: _("Who is ill, since when, and what did they eat?"),
    ),
}

_FIRE: dict[str, Card] = {
    "grease_fire": card(
        name=lambda: _("burning fat"),
        do=lambda: _("People back. Shut the lid and every vent if you can reach them without leaning over flames."),
        caution=lambda: _(
            "Never water. Do not carry or move the cooker. Small, and you are trained: sand, baking soda, fire "
            "blanket or extinguisher. Otherwise, or in any doubt: {emergency}"
        ),
        ask=lambda: _("Is everybody clear, and is it out?"),
    ),
    "fire_spreads": card(
        name=lambda: _("something else burns"),
        do=lambda: _("{emergency} Everybody away from it now; wake and fetch whoever is in the house."),
        caution=lambda: _(
            "Fight it only while it is small and your way out is behind you: extinguisher, or water where there is no "
            "fat and no power. Let the meat be. Do not go back in."
        ),
        ask=lambda: _("Is everybody away, and was the call made?"),
    ),
    "fluid_on_fire": card(
        name=lambda: _("starter fluid on a fire"),
        do=lambda: _("No more of it. Everybody back, nobody leans over it; can shut and far away from the fire."),
        caution=lambda: _(
            "Never starter fluid on a lit fire or hot coals: the flame runs up to the can. Lid off, stand upwind, let "
            "it burn off. Clothes on fire: stop, drop and roll. Anything else catches, or somebody is burned: "
            "{emergency}"
        ),
        ask=lambda: _("Is everybody unhurt?"),
    ),
    "sparks": card(
        name=lambda: _("sparks in the wind"),
        do=lambda: _("Lid on, vents shut now. Hose or buckets beside it; look at grass, roofs and tents downwind."),
        caution=lambda: _(
            "Anything catches: {emergency} Such wind may forbid the fire where you are: your county or fire service "
            "decides. Sparks go on: let it die with lid and vents shut, the meat into a hot oven. Somebody stays."
        ),
        ask=lambda: _("Has it stopped?"),
    ),
    "hot_ash": card(
        name=lambda: _("hot ash where it can burn"),
        do=lambda: _(
            "Away from house, walls and cars with it, if it neither burns nor smokes: wet it through, outdoors. It "
            "burns or smokes, or stands indoors: everybody out. {emergency}"
        ),
        caution=lambda: _(
            "Ash can burn for days and gives off carbon monoxide: 48 hours, metal tin with lid, wet, outdoors; never "
            "plastic, paper, bin or house."
        ),
        ask=lambda: _("Is it outdoors and wet?"),
    ),
    "cooker_fell": card(
        name=lambda: _("hot coals on the ground"),
        do=lambda: _(
            "People and pets back; nobody lifts or catches it. Coals on bare ground: water from a distance or sand; "
            "never water where fat burns."
        ),
        caution=lambda: _(
            "Anything catches, or somebody is burned: {emergency} A burn: cool running water, 10 to 20 min. Meat that "
            "lay on the ground: bin it."
        ),
        ask=lambda: _("Is everybody unhurt, and are all coals out?"),
    ),
    "lightning": card(
        name=lambda: _("a storm near"),
        do=lambda: _("Everybody inside now, lid on, vents as they are. Nobody stands at the cooker."),
        caution=lambda: _(
            "Go back 30 min after the last thunder. The cooker stays outside: never into a garage, tent or "
            "porch. Struck or hurt: {emergency}"
        ),
        ask=lambda: _("Tell me when you are back at the fire."),
    ),
}

DANGER: dict[str, Card] = {**_FIRST_AID, **_FIRE}
"""People first: these come before anything about the plan."""
