"""Cards for people in danger: first aid, fumes, fire where none should be. They come before anything about the plan.

Never weakened; each defers to the emergency number. Where each comes from stands in the catalogue of problems.
"""

from __future__ import annotations

from bot.commands import Trouble
from bot.messages.message import Option
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

_SOMEBODY: dict[str, Card] = {
    "burn_severe": card(
        name=lambda: _("somebody burned badly"),
        do=lambda: _(
            "{emergency} Get them away from the heat. Clothes burn: stop, drop, roll, or smother it with a blanket."
            " Then "
            "cool running water for 20 min on the burn, keep the rest of them warm."
        ),
        caution=lambda: _(
            "Rings and loose clothes off, nothing that sticks. No ice, no butter, no cream; cover it loosely."
            " Breathed in "
            "smoke or flame, or a child: say it at the phone. What the phone says counts before this (from memory)."
        ),
        ask=lambda: _("Is help on the way? Who has the fire?"),
    ),
    "collapsed": card(
        name=lambda: _("somebody has collapsed"),
        do=lambda: _(
            "{emergency} Shake their shoulder, shout. No answer and no normal breath: push hard and fast in the"
            " middle of "
            "the chest, twice a second, until help comes; somebody fetches a defibrillator."
        ),
        caution=lambda: _(
            "Near burning coals, in a tent, shed or garage: into fresh air first, and say charcoal at the phone. They "
            "breathe: on their side, stay with them. What the phone says counts before this (from memory)."
        ),
        ask=lambda: _("Do they breathe?"),
    ),
    "cut": card(
        name=lambda: _("a cut"),
        do=lambda: _(
            "Press hard on it with a clean cloth for 10 min without looking, hand held high. It spurts, is deep,"
            " goes on "
            "bleeding, or a part is off: {emergency}"
        ),
        caution=lambda: _(
            "Something stuck in it stays in. Who is cut handles no food. Food, board and knife with blood on them:"
            " throw "
            "the food away, wash the rest (from memory)."
        ),
        ask=lambda: _("Has it stopped? Who takes over?"),
    ),
    "children_near": card(
        name=lambda: _("children at the cooker"),
        do=lambda: _("Bring them away now: a good metre (3 ft) back, pets too. One grown-up stays between."),
        caution=lambda: _(
            "Metal, coals and fat burn skin at a touch, long after the flames are out. Burned: cool running water, and "
            "for a child: {emergency}"
        ),
        ask=lambda: _("Who looks after them while it is hot?"),
    ),
}


def _which_danger() -> tuple[Option, ...]:
    """Return the dangers of which one is meant when somebody only shouts."""
    named = (
        (_("Somebody is burned"), "burn_severe"),
        (_("Somebody is ill or hurt"), "collapsed"),
        (_("A building burns"), "building_fire"),
        (_("Something else burns"), "fire_spreads"),
        (_("Fat burns in the cooker"), "grease_fire"),
    )
    return tuple((label, Trouble(what=what, text=label)) for label, what in named)


_PLACES: dict[str, Card] = {
    "building_fire": card(
        name=lambda: _("a building burns, or smoke in it"),
        do=lambda: _(
            "Everybody out now; wake them, count them outside. {emergency} Shut doors behind you, leave everything."
        ),
        caution=lambda: _(
            "Nobody goes back in, not for people, animals or food: the fire service does. Smoke: keep low. Smoke"
            " and no "
            "flames: out too, it may be carbon monoxide. The cooker and the meat do not matter now."
        ),
        ask=lambda: _("Is everybody out, and was the call made?"),
    ),
    "gas_smell": card(
        name=lambda: _("a smell of gas"),
        do=lambda: _(
            "No flame, no switch, no phone in there. Shut the cylinder if you reach it without danger, everybody"
            " out and "
            "far away. From out there: {emergency}"
        ),
        caution=lambda: _(
            "Do not light or put out anything near it. It burns at the bottle: do not try, get away. Doors open as"
            " you go; "
            "nobody goes back before the fire service or the gas company says so (from memory)."
        ),
        ask=lambda: _("Is everybody away from it?"),
    ),
    "cooker_moving": card(
        name=lambda: _("a lit cooker going under a roof"),
        do=lambda: _(
            "Stop: it stays outdoors. Never into a shed, garage, tent, porch or house, not for rain, not with the"
            " door open."
        ),
        caution=lambda: _(
            "Charcoal makes carbon monoxide: it kills, you cannot smell it. It is in there already: everybody out into "
            "fresh air. {emergency} Rain: lid on, vents as they are, no tarp on hot metal. Meat past its safe"
            " minimum may go "
            "on in a kitchen oven."
        ),
        ask=lambda: _("Is it outdoors, and is everybody well?"),
    ),
    "danger_unclear": card(
        name=lambda: _("danger, not said what"),
        do=lambda: _(
            "Somebody is in danger, or anything burns outside the cooker: everybody away from it. {emergency}"
        ),
        caution=lambda: _("People first: the meat can wait. Never water on burning fat."),
        ask=lambda: _("What is it? One tap, or say it in a word."),
        answers=_which_danger,
    ),
}


DANGER: dict[str, Card] = {**_FIRST_AID, **_FIRE, **_SOMEBODY, **_PLACES}
"""People first: these come before anything about the plan."""
