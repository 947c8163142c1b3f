"""Cards for the meat itself: bark, salt, dryness, ice, what fell down, what is held too cold.

Cautions here are never weakened; `bot.messages.problems` puts a card together.
"""

from __future__ import annotations

from bot.commands import Ask, Discard, MoveDinner, Topic, Trouble, WrapSaid
from bot.messages.problem_card import Card, card
from bot.messages.words import _
from scheduler.facts import Wrap

MEAT: dict[str, Card] = {
    "left_out": card(
        name=lambda: _("food that stood out"),
        do=lambda: _(
            "Out of heat and fridge over 2 h (1 h on a hot day, above {hot}): bin it, whatever it smells like."
        ),
        caution=lambda: _("Less: back to heat or into the fridge now. Nobody eats of it while nobody knows how long."),
        ask=lambda: _("What stood out, and since when?"),
    ),
    "dry_flat": card(
        name=lambda: _("dry meat"),
        do=lambda: _("Slice it thinner, warm juices or broth over it, chop the ends."),
        caution=lambda: _("Juices that ran off raw meat are boiled first."),
        ask=lambda: _("Shall I keep for next time: wrap earlier?"),
    ),
    "bark_soft": card(
        name=lambda: _("soft bark"),
        do=lambda: _("Open the wrap, 15 to 30 min at {bark}, no spritz."),
        caution=lambda: _("Steam when you open it. Watch that the meat does not run past its target."),
        ask=lambda: _("What does the meat read?"),
        answers=lambda: ((_("Unwrapped"), WrapSaid(wrap=Wrap.NONE)),),
    ),
    "bark_dark": card(
        name=lambda: _("dark bark"),
        do=lambda: _("Scratch and taste it: bitter or not? Wrap it or shield it now. Less sugar next time."),
        ask=lambda: _("Wrap it?"),
        answers=lambda: (
            (_("Wrapped in paper"), WrapSaid(wrap=Wrap.PAPER)),
            (_("Wrapped in foil"), WrapSaid(wrap=Wrap.FOIL)),
        ),
    ),
    "pink_inside": card(
        name=lambda: _("pink inside"),
        do=lambda: _(
            "Colour says nothing: smoke turns meat pink, and near a bone it stays red. Read the coldest spot: it is "
            "safe from {minimum}."
        ),
        caution=lambda: _(
            "Under {minimum} it goes back on, however it looks. What it touched counts as raw: wash knife and board."
        ),
        ask=lambda: _("What does the coldest spot read?"),
    ),
    "skin_rubbery": card(
        name=lambda: _("soft skin"),
        do=lambda: _(
            "Dab it dry. The pit to 165 to 190 C (325 to 375 F) for the last 20 to 30 min, or skin up under a hot oven "
            "grill for a few minutes."
        ),
        caution=lambda: _("Fat flares: stay beside it. Crisp skin is not done meat: {minimum} at the coldest spot."),
        ask=lambda: _("What does the meat read?"),
    ),
    "over_tender": card(
        name=lambda: _("it falls apart"),
        do=lambda: _(
            "Off the fire now, open to the air 20 to 30 min, a short hold that is not too hot. Chop it, do not slice."
        ),
        caution=lambda: _("Held meat stays above {danger}."),
        ask=lambda: _("Is it off?"),
    ),
    "hold_low": card(
        name=lambda: _("held meat is too cold"),
        do=lambda: _(
            "{danger} to {act}: serve now, or oven at 93 to 107 C (200 to 225 F) until it reads above {above}. Under "
            "{danger}: do not serve it, reheat it covered to {reheat}, or chill it fast."
        ),
        caution=lambda: _("Under {danger} for over 2 h (1 h on a hot day), or nobody knows how long: bin it."),
        ask=lambda: _("What does it read, and since when is it under {danger}?"),
    ),
    "frozen_middle": card(
        name=lambda: _("ice in the middle"),
        do=lambda: _(
            "Do not cook it yet. In its bag under cold water, changed every 30 min, about an hour for each "
            "kilogram; then it goes on at once."
        ),
        caution=lambda: _(
            "Never from frozen in a low pit: the middle stays too long where germs grow. Never on the table."
        ),
        ask=lambda: _("How heavy is it, and where is the ice? Dinner may move."),
        answers=lambda: (
            (_("Dinner an hour later"), MoveDinner(minutes=60)),
            (_("Dinner 3 h later"), MoveDinner(minutes=180)),
        ),
    ),
    "over_salted": card(
        name=lambda: _("salted twice"),
        do=lambda: _(
            "Before cooking: wipe off what has not melted, no salt in the rub. After: unsalted sauce and sides, "
            "thicker slices, mixed with an unsalted batch."
        ),
        ask=lambda: _("Who salted, and how many grams?"),
    ),
    "no_salt": card(
        name=lambda: _("salt was forgotten"),
        do=lambda: _("Salt in the rub now and flaky salt on the slices. Do not delay the cook for it."),
        ask=lambda: _("Is it salted now?"),
        answers=lambda: ((_("What next"), Ask(topic=Topic.WHAT_NEXT)),),
    ),
    "eaten": card(
        name=lambda: _("part of the meat is gone"),
        do=lambda: _("Tell me what is left, like: 2 racks. A piece that is gone altogether: drop the ribs."),
        caution=lambda: _("Bin what was bitten or licked. In doubt: bin it. No hot fat and no cooked bones for a dog."),
        ask=lambda: _("How many are left?"),
    ),
    "dropped": card(
        name=lambda: _("it fell down"),
        do=lambda: _("Cooked and ready to eat: bin it. Raw, at home: cut off the dirty face and cook on."),
        caution=lambda: _(
            "At a public event: bin it either way. In doubt: bin it. Hot fat on the floor: nobody walks there."
        ),
        ask=lambda: _('Raw or done? Type "raw" or "done".'),
        answers=lambda: (
            (_("It was raw"), Trouble(what="dropped_raw", text="raw")),
            (_("It was done"), Trouble(what="dropped_done", text="done")),
        ),
    ),
    "dropped_raw": card(
        name=lambda: _("raw meat fell down"),
        do=lambda: _("Cut off the dirty face, wash hands, knife and board, and cook on. At a public event: bin it."),
        caution=lambda: _("In doubt: bin it. It counts from a reading of {minimum}, as before."),
        ask=lambda: _("Does it cook on?"),
        answers=lambda: ((_("Thrown away"), Discard()),),
    ),
    "dropped_done": card(
        name=lambda: _("cooked meat fell down"),
        do=lambda: _("Bin it, the whole piece: nothing that lay on the ground is served."),
        caution=lambda: _("I do not call it safe. Hot fat on the floor: nobody walks there."),
        ask=lambda: _("Tell me when it is thrown away."),
        answers=lambda: ((_("Thrown away"), Discard()),),
    ),
    "cross_contamination": card(
        name=lambda: _("raw juices on cooked food"),
        do=lambda: _(
            "Nobody eats it. Cooked food that touched raw meat, its tray, board, knife or marinade: back on the heat, "
            "covered, until it reads {reheat} at the coldest spot, or bin it."
        ),
        caution=lambda: _("Wash hands, board, knife and tray first. A marinade that held raw meat: boil it or bin it."),
        ask=lambda: _("What does it read, or is it thrown away?"),
        answers=lambda: ((_("Thrown away"), Discard()),),
    ),
}
"""What happens to the meat."""
