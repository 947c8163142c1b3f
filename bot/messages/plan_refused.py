"""Why something typed for `slowbell plan` cannot be used, and what would work instead. Words only."""

from __future__ import annotations

import difflib
from collections.abc import Callable, Sequence

from bot.messages.figures import both, kilograms
from bot.messages.words import _
from scheduler.cook import Refusal
from scheduler.cuts import Cut
from scheduler.planning.bounds import hottest_c
from scheduler.safety import NotByTime

_TROUBLE: dict[str, Callable[[], str]] = {
    "cut": lambda: _("I do not know the cut {given}. I know: {known}."),
    "cut_near": lambda: _("I know no cut called just {given}. Nearest: {known}. Say --cut with one of them."),
    "mass": lambda: _("--mass {given}: that is no mass of one piece. Say it with its unit: 6kg, 13lb or 900g."),
    "thickness": lambda: _("--thickness {given}: that is no thickness. Say it with its unit: 7.5cm, 3in or 75mm."),
    "count": lambda: _("--count {given}: how many like pieces, a whole number from 1 to 60."),
    "pit": lambda: _("--pit {given}: that is no pit. Say it with its unit: 250F, 121C, or a band like 250-275F."),
    "wrap": lambda: _("--wrap {given}: it is none, paper, foil or boat."),
    "wrap_of_cut": lambda: _("--wrap {given}: that cut is not wrapped so; leave it out, or say none."),
    "treated": lambda: _("--treated {given}: it is injected, tenderised, rolled, stuffed, ground, or intact."),
    "done": lambda: _("--done {given}: that is no core. Say it with its unit: 145F or 63C."),
    "safe_by": lambda: _("--safe-by {given}: it is minimum, or time (intact whole cuts of beef, pork and lamb only)."),
    "serve": lambda: _(
        "--serve {given}: that is no dinner. Say day and time like 2026-08-15T18:00, a window of at most 12 h "
        "like 2026-08-15T18:00/19:00, or when-ready."
    ),
    "no_serve": lambda: _("When do people eat? Say --serve 2026-08-15T18:00, or --serve when-ready."),
    "no_cut": lambda: _("What is cooking? Say --cut brisket, or --file PLAN.toml."),
    "both": lambda: _("Say the pieces with --cut or with --file, not with both."),
    "zone": lambda: _("There is no time zone called {given}; give one like Europe/Lisbon with --zone."),
    "now": lambda: _("--now {given}: that is no time. Say it like 2026-08-14T09:00."),
    "cooker": lambda: _("--cooker {given}: I know ceramic, kettle, offset, drum and cabinet, and the cards you wrote."),
    "guests": lambda: _("--guests {given}: how many eat, adults or adults+children, like 24 or 24+6."),
    "confidence": lambda: _("--confidence {given}: how sure dinner shall be, from 0.5 to 0.99."),
    "file_missing": lambda: _("--file {given}: there is no such file, or it cannot be read."),
    "file_no_toml": lambda: _("--file {given}"),
    "file_field": lambda: _("--file: {given}"),
    "cards": lambda: _("{given}"),
    "terminal": lambda: _("A page is no text: send it into a file, like slowbell plan ... --format page > plan.pdf"),
}


def unusable(trouble: str, given: str, known: Sequence[str] = (), piece: int | None = None) -> str:
    """Say what cannot be used, and what would work."""
    shown = given if trouble.startswith(("file_no", "file_field", "cards")) else repr(given) if given else given
    text = _TROUBLE[trouble]().format(given=shown, known=", ".join(known))
    return text if piece is None else _("Piece {piece}: {text}").format(piece=piece, text=text)


def unfit(trouble: str, given: str, cut: Cut, piece: int | None = None) -> str:
    """Say which figure does not fit its cut, and what would."""
    texts = {
        "mass_of_cut": _("--mass {given}: no {cut} weighs that. One is about {low} to {high}."),
        "pit_of_cut": _("--pit: too hot for {cut}, it would be spoilt. The hottest it bears is {hottest}."),
    }
    mass = cut.mass_kg
    text = texts[trouble].format(
        given=repr(given), cut=_(cut.name), low=kilograms(mass.low), high=kilograms(mass.high),
        hottest=both(hottest_c(cut)),
    )  # fmt: skip
    return text if piece is None else _("Piece {piece}: {text}").format(piece=piece, text=text)


def what_works(refusal: Refusal) -> str:
    """Return what would work instead, as arguments, where a core or its rule is refused; nothing for other refusals."""
    under = refusal.under
    why = refusal.not_by_time if under is None else under.why
    if why is NotByTime.UNTOLD:
        return _(
            "If nothing was done to it, and nobody at risk eats: --treated intact --no-at-risk --safe-by time. Else "
            "leave out --safe-by and --done."
        )
    if why is NotByTime.RISK_UNTOLD:
        return _(
            "Is anybody pregnant, old, very young or ill among the guests? If not: --no-at-risk --safe-by time. Else "
            "leave out --safe-by and --done."
        )
    if under is not None and under.why is None:
        return _("By choice: --safe-by time. Else leave out --done.")
    if refusal.reason in ("not_by_time", "undercooked"):
        return _("Leave out --safe-by and --done: the minimum counts.")
    return ""


_EXAMPLES = {
    "cut": 'cut = "brisket"', "mass": 'mass = "6kg"', "thickness": 'thickness = "7.5cm"', "count": "count = 2",
    "pit": 'pit = "250F"', "wrap": 'wrap = "paper"', "treated": 'treated = "injected"', "done": 'done = "145F"',
    "safe_by": 'safe_by = "time"',
    "at_risk": "at_risk = true", "public": "public = true", "allergies": 'allergies = "nuts"',
    "serve": 'serve = "2026-08-15T18:00"',
    "cooker": 'cooker = "kettle"',
    "zone": 'zone = "Europe/Lisbon"', "confidence": "confidence = 0.85", "now": 'now = "2026-08-14T09:00"',
}  # fmt: skip


def field(loc: Sequence[int | str], trouble: str, known: Sequence[str]) -> str:
    """Say which field of a plan file cannot be used and how it is written; `trouble` is the validator's kind of error.

    `loc` leads to the field from the top of the file, pieces counted from 0; `known` are the names possible there.
    """
    number = next((part + 1 for part in loc if isinstance(part, int)), None)
    name = next((str(part) for part in (loc[2:] if number is not None else loc) if isinstance(part, str)), "pieces")
    near = difflib.get_close_matches(name, known, n=1, cutoff=0.7)
    if name == "pieces" or (name == "cut" and trouble == "missing"):
        text = _('{name}: each piece begins with a line [[pieces]] and says what it is, like cut = "brisket".')
    elif trouble == "extra_forbidden":
        text = (
            _("{name}: there is no such field. Did you mean {near}?") if near else _("{name}: there is no such field.")
        )
        text = text.replace("{near}", near[0] if near else "") + " " + _("Known here: {known}.")
    elif name in _EXAMPLES:
        text = _("{name}: it cannot be read so. Write it like {example}.")
    else:
        text = _("{name}: it cannot be read so.")
    shown = text.format(name=name, near="".join(near), known=", ".join(known), example=_EXAMPLES.get(name, ""))
    return shown if number is None else _("Piece {piece}: {text}").format(piece=number, text=shown)
