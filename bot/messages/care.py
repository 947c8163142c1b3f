"""What facts about guests, treated meat, rules and discarding say, in a few words. Never softened."""

from __future__ import annotations

from bot.commands import UNNAMED
from bot.messages.words import _
from scheduler.facts import CareTold, Discarded, Edition, EditionTold, SafeBy, SafeByTold, TreatedTold, Treatment

_TREATED = {
    Treatment.TENDERISED: lambda: _("tenderised"),
    Treatment.INJECTED: lambda: _("injected"),
    Treatment.ROLLED: lambda: _("rolled"),
    Treatment.GROUND: lambda: _("ground"),
    Treatment.STUFFED: lambda: _("stuffed"),
}

_EDITIONS = {
    Edition.STRICTER: lambda: _("Of two published rules the stricter one counts"),
    Edition.CONSUMER: lambda: _("The USDA consumer rules count"),
    Edition.FOOD_CODE: lambda: _("The FDA Food Code counts; local codes may differ"),
}


def care_text(body: CareTold | TreatedTold | SafeByTold | EditionTold | Discarded) -> str:
    """Return what such a fact says."""
    match body:
        case CareTold():
            return _capital("; ".join(_cared(body))) or _("Nothing told of the guests")
        case TreatedTold(treatments=()):
            return _("The meat is intact")
        case TreatedTold():
            return _("The meat is {how}").format(how=", ".join(_TREATED[one]() for one in body.treatments))
        case SafeByTold(by=SafeBy.EQUIVALENCE):
            return _("Safe by time at a lower temperature, by your choice")
        case SafeByTold():
            return _("Safe by the published minimum")
        case EditionTold():
            return _EDITIONS[body.edition]()
        case Discarded():
            return _("Thrown away, nobody eats it")


def _cared(body: CareTold) -> list[str]:
    told = []
    if body.at_risk is not None:
        told.append(_("guests at risk") if body.at_risk else _("no guests at risk"))
    if body.allergies is not None:
        what = ", ".join(allergy_names(body.allergies))
        told.append(_("allergies: {what}").format(what=what) if body.allergies else _("no allergies"))
    if body.public is not None:
        told.append(_("a public or paid meal") if body.public else _("a private meal"))
    return told


def allergy_names(allergies: tuple[str, ...]) -> list[str]:
    """Return allergies as people said them; one that was told without its name is said to be so."""
    return [_("not named yet") if what == UNNAMED else what for what in allergies]


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]
