"""Who eats and where: asked once when a cook is planned, what an answer changes, and how a plan shows it.

Words only. Nothing here makes a rule less strict, and what nobody said is said as not told.
"""

from __future__ import annotations

from bot.commands import UNNAMED, CareSaid
from bot.messages.care import allergy_names
from bot.messages.language import capital
from bot.messages.message import Message, Option, lines
from bot.messages.words import _
from scheduler.cook import Situation
from scheduler.facts import CareTold


def ask(care: CareTold, *, begun: bool = False) -> Message:
    """Ask, in one line with one row of buttons, for what was not told with the plan. `begun`: the meat is on."""
    left = _left(care)
    if not left:
        return Message(text="")
    if care != CareTold():
        text = _("Who eats, still: {what}? Tap what is so.").format(what=_(" or ").join(_questions(care)))
        return Message(text=text, choices=((_nobody(_("That is all")), *left),))
    text = _(
        "Before you buy: anybody pregnant, old, very young or ill, any allergies, or is it a public or paid meal? "
        "Tap what is so."
    )
    if begun:
        text = _(
            "Who eats: anybody pregnant, old, very young or ill, any allergies, or is it a public or paid meal? "
            "Tap what is so."
        )
    return Message(text=text, choices=((_nobody(_("None of these")), *left),))


def _questions(care: CareTold) -> list[str]:
    """Return what is still to be asked."""
    asked = (
        (_("anybody pregnant, old, very young or ill"), care.at_risk),
        (_("any allergies"), care.allergies),
        (_("a public or paid meal"), care.public),
    )
    return [question for question, told in asked if told is None]


def _nobody(label: str) -> Option:
    return label, CareSaid(all_told=True)


def _left(care: CareTold) -> tuple[Option, ...]:
    """Return the buttons of what is not told yet."""
    return tuple(
        option
        for option, told in (
            ((_("Guests at risk"), CareSaid(at_risk=True)), care.at_risk),
            ((_("Allergies"), CareSaid(allergies=(UNNAMED,))), care.allergies),
            ((_("Public or paid meal"), CareSaid(public=True)), care.public),
        )
        if told is None
    )


def still_asked(care: CareTold) -> tuple[Option, ...]:
    """Return what can be answered as long as something is not told, also when newer buttons cover the question."""
    left = _left(care)
    return (_nobody(_("None of these")), _nobody(_("That is all")), *left) if left else ()


def what_changes(said: CareSaid, care: CareTold) -> Message:
    """Return what an answer changes, and the buttons of what is still not told."""
    text = lines(*_risk(said), *_allergies(said, care), *_public(said), _end(said, care))
    left = _left(care)
    row = (*left, _nobody(_("That is all"))) if left and not said.all_told and not _takes_back(said) else ()
    return Message(text=text, choices=(row,) if row else ())


def _takes_back(said: CareSaid) -> bool:
    return not said.only_adds


def _risk(said: CareSaid) -> list[str]:
    if not said.at_risk:
        return []
    return [
        _(
            "Guests at risk: of two rules the stricter counts. Nothing is planned under its minimum, and time at a "
            "lower temperature does not count. What is held stays at 140 F (60 C) or hotter."
        )
    ]


def _allergies(said: CareSaid, care: CareTold) -> list[str]:
    if not said.allergies:
        return []
    if UNNAMED in (care.allergies or ()):
        return [_("Which allergy, and whose? For example: nuts, Wren.")]
    return [_("I say it again before serving. Keep it out of the rub, and their plate and tools apart.")]


def _public(said: CareSaid) -> list[str]:
    if not said.public:
        return []
    return [
        _("The Food Code counts too: cooling is read, and I keep a record of the event."),
        _(
            "Ask the health department about permit, licensed handler and where food may be prepared: "
            "local codes decide."
        ),
    ]


def _end(said: CareSaid, care: CareTold) -> str:
    if said.all_told or not said.only_adds:
        return _("If that changes, say so at any time.") if not care.at_risk else ""
    return ""


def care_line(situation: Situation) -> str:
    """Return who eats and where in one line, for a plan; nothing while nothing is told that changes anything."""
    care = situation.state.care
    told = [
        _("Guests at risk: nothing under the minimum.") if care.at_risk else "",
        allergies_text(care),
        _("Public meal: permit, licensed handler and local codes decide.") if care.public else "",
    ]
    return " ".join(part for part in told if part)


def allergies_text(care: CareTold) -> str:
    """Return the allergies as told, "Allergies: nuts (Wren)."; nothing when none were told."""
    if not care.allergies:
        return ""
    return _("Allergies: {what}.").format(what=", ".join(allergy_names(care.allergies)))


def on_paper(situation: Situation) -> str:
    """Return the line for a printed page: as in the plan, and what nobody said as not told."""
    care = situation.state.care
    parts = (
        (_("guests at risk"), care.at_risk),
        (_("allergies"), care.allergies),
        (_("public meal"), care.public),
    )
    untold = [name for name, told in parts if told is None]
    missing = capital(_("{what}: not told.").format(what=", ".join(untold))) if untold else ""
    return " ".join(part for part in (care_line(situation), missing) if part)


def not_told(situation: Situation) -> str:
    """Return how a plan that was made without a chat is told of them; nothing once it is."""
    if situation.state.care != CareTold():
        return ""
    return _("Guests at risk, allergies, a public meal: not told (--at-risk, --allergies nuts, --public).")
