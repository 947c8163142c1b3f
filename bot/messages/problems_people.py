"""Cards for what goes on between people: guests, watches, phones, orders, children at the cooker.

Cautions here are never weakened; `bot.messages.problems` puts a card together.
"""

from __future__ import annotations

from bot.commands import Ask, Done, MoveDinner, Topic
from bot.messages.problem_card import Card, card
from bot.messages.words import _

PEOPLE: dict[str, Card] = {
    "phone_dead": card(
        name=lambda: _("phone or power going"),
        do=lambda: _("Write down now: the next three times, pit and core limits, who to wake. Tape it to the cooker."),
        caution=lambda: _("The lid, the pit and the two-hour rule do not wait for a phone."),
        ask=lambda: _("Who else has the plan?"),
        answers=lambda: ((_("Next steps"), Ask(topic=Topic.WHAT_NEXT)), (_("All steps"), Ask(topic=Topic.PLAN_REST))),
    ),
    "bot_silent": card(
        name=lambda: _("I was silent"),
        do=lambda: _(
            "Sorry. Carry on from the last plan; tell me what was done meanwhile, with times if you know them."
        ),
        caution=lambda: _("If I am silent again, the paper counts, not me."),
        ask=lambda: _("What was the last thing you did, and when?"),
        answers=lambda: ((_("Next steps"), Ask(topic=Topic.WHAT_NEXT)),),
    ),
    "too_tough_at_dinner": card(
        name=lambda: _("still tough at dinner"),
        do=lambda: _(
            "Three ways: wait 45 min and tell people once; slice it thin or chop it with sauce; or plan B tonight."
        ),
        caution=lambda: _("Tough is a matter of taste, the safe minimum is not: {minimum} before anybody eats."),
        ask=lambda: _("Which, and what does the meat read?"),
        answers=lambda: (
            (_("Dinner 45 min later"), MoveDinner(minutes=45)),
            (_("What can I do?"), Ask(topic=Topic.LEVERS)),
        ),
    ),
    "guests_late": card(
        name=lambda: _("guests are late"),
        do=lambda: _("Leave it whole: longer in the box, sliced when they sit. If it is done, the pit can go off."),
        caution=lambda: _("Held meat stays above {danger}: read it at {act} and act."),
        ask=lambda: _("When do you eat now?"),
        answers=lambda: (
            (_("30 min later"), MoveDinner(minutes=30)),
            (_("An hour later"), MoveDinner(minutes=60)),
            (_("90 min later"), MoveDinner(minutes=90)),
        ),
    ),
    "guests_early": card(
        name=lambda: _("guests are early"),
        do=lambda: _("Serve something small first. The rest is not cut below its shortest."),
        caution=lambda: _("Nothing is served below {minimum}."),
        ask=lambda: _("Does dinner move?"),
        answers=lambda: (
            (_("30 min earlier"), MoveDinner(minutes=-30)),
            (_("Dinner stays"), Ask(topic=Topic.WHAT_NEXT)),
        ),
    ),
    "helper_missing": card(
        name=lambda: _("the next watch does not answer"),
        do=lambda: _("Call the next name on the list. Whoever watches now stays until somebody says: I have it."),
        caution=lambda: _(
            "Nobody leaves a lit cooker alone, however tired. If nobody comes: close it down, use an oven."
        ),
        ask=lambda: _("Who takes over?"),
        answers=lambda: ((_("Who is here?"), Ask(topic=Topic.CREW)),),
    ),
    "two_bosses": card(
        name=lambda: _("two opinions"),
        do=lambda: _(
            "{lead} decides about fire and meat, the host about time. What was decided last stands until then."
        ),
        caution=lambda: _("For danger anybody may stop the cook, and nobody overrules that."),
        ask=lambda: _("What does {lead} say?"),
        answers=lambda: ((_("The plan as it stands"), Ask(topic=Topic.PLAN)),),
    ),
    "fire_ban_now": card(
        name=lambda: _("a fire ban"),
        do=lambda: _("Obey it: vents shut, lid on, fire out. The meat finishes wrapped in an oven."),
        caution=lambda: _("Coals stay hot for a day: outdoors, lid on, nobody carries them. {climbs}"),
        ask=lambda: _("Is an oven free?"),
        answers=lambda: ((_("Vents closed"), Done(step="fire_out", outcome="cooling")),),
        lever="late_oven",
    ),
}
"""Guests, watches, phones and orders."""
