"""A set-up by taps: mass, dinner and pit as buttons, what was said so far, and how each part of it is changed.

Words and buttons only.
"""

from __future__ import annotations

from zoneinfo import ZoneInfo

from bot.commands import CareSaid, Draft, LastTime, SetUp, SetUpSlot
from bot.messages.care import allergy_names
from bot.messages.figures import Voice, kilograms
from bot.messages.language import capital, number
from bot.messages.message import Message, Option, lines
from bot.messages.words import _
from scheduler.cuts import Cut, Cuts
from scheduler.facts import Serving, ServingKind, Wrap
from scheduler.units import LB_IN_KG

RACKS, SMALL = (1, 2, 3, 4, 6, 8), (4, 6, 8, 12, 16, 24)
"""Counts that have a button, of racks and of small pieces (own choice)."""

_FINE_FROM_KG = 2.0
"""Heavier pieces are named to half a kilogram or a pound [kg]."""


def masses(cut: Cut, unit: str) -> tuple[tuple[str, float], ...]:
    """Return usual masses of one piece, the usual one first and then in rising order: (label, mass [kg])."""
    low, usual, high = cut.mass_kg.low, cut.mass_kg.typical, cut.mass_kg.high
    found = [usual, low, (low + usual) / 2, (usual + high) / 2, high]
    in_kg = unit != "F"
    step = (0.5 if found[0] >= _FINE_FROM_KG else 0.1) if in_kg else (1.0 if found[0] >= _FINE_FROM_KG else 0.25)
    rounded = [step * round((kg if in_kg else kg / LB_IN_KG) / step) for kg in found]
    labels = {round(value, 2): value for value in (rounded[0], *sorted(rounded[1:])) if value > 0}
    unit_kg = 1.0 if in_kg else LB_IN_KG
    return tuple((_mass(value, in_kg=in_kg), round(value * unit_kg, 2 if in_kg else 1)) for value in labels.values())


def _mass(value: float, *, in_kg: bool) -> str:
    if in_kg:
        return kilograms(value)
    return _("{pounds} lb ({mass})").format(pounds=number(value), mass=kilograms(round(value * LB_IN_KG, 1)))


def usually(label: str) -> str:
    """Return the label of the usual answer."""
    return _("Usual: {what}").format(what=label)


def ask_mass(cut: Cut, unit: str, *, counted: bool) -> Message:
    """Ask how heavy one piece is, or how many there are of what is counted."""
    if counted:
        counts = RACKS if cut.piece_word == "rack" else SMALL
        rows = tuple(((str(count), Draft(count=count)),) for count in counts)
        return Message(text=_("How many? A number, or choose."), choices=rows)
    found = masses(cut, unit)
    rows = tuple(
        ((usually(label) if place == 0 else label, Draft(mass_kg=kg)),) for place, (label, kg) in enumerate(found)
    )
    unknown: Option = (_("Not weighed yet"), Draft(mass_usual=True))
    text = _("How heavy is one {piece}, as bought? Like {example}.").format(
        piece=_(cut.piece_word), example=found[0][0]
    )
    return Message(text=text, choices=(*rows, (unknown,)))


def evening(serving: Serving, voice: Voice) -> str:
    """Return the label of a dinner: "Today 18:00", "Tomorrow 18:00", else its day."""
    at = serving.starts_at()
    if serving.start is None or at is None:
        return _("When ready")
    away = (serving.start.date() - voice.now.astimezone(ZoneInfo(voice.zone)).date()).days
    time = f"{serving.start:%H:%M}"
    if away == 0:
        return _("Today {time}").format(time=time)
    return _("Tomorrow {time}").format(time=time) if away == 1 else voice.clock(at)


def ask_serving(evenings: tuple[Serving, ...], voice: Voice) -> Message:
    """Ask when people eat, with the next evenings as buttons."""
    ready = Draft(serving=Serving(kind=ServingKind.WHEN_READY, zone=voice.zone))
    rows = tuple(((evening(one, voice), Draft(serving=one)),) for one in evenings)
    return Message(
        text=_("When do people eat? A time (18:00, Saturday 6pm), a window (18:00-19:00), or when ready."),
        choices=(*rows, ((_("When ready"), ready),)),
    )


def ask_wrap(cut: Cut) -> Message:
    """Ask how the meat is to be wrapped."""
    labels = {Wrap.PAPER: _("Paper"), Wrap.FOIL: _("Foil"), Wrap.BOAT: _("Foil boat"), Wrap.NONE: _("Bare")}
    rows = tuple(((labels[wrap], Draft(wrap=wrap)),) for wrap in cut.wraps if wrap in labels)
    return Message(text=_("Wrapped in what?"), choices=rows)


def ask_who() -> Message:
    """Ask who eats, before a cook begins."""
    return Message(
        text=_("Anybody pregnant, old, very young or ill, any allergies, or is it a public or paid meal?"),
        choices=(
            ((_("None of these"), Draft(care=CareSaid(at_risk=False, allergies=(), public=False))),),
            ((_("Guests at risk"), Draft(care=CareSaid(at_risk=True))),),
            ((_("Public or paid meal"), Draft(care=CareSaid(public=True))),),
        ),
    )


def so_far(draft: Draft, cuts: Cuts, voice: Voice) -> str:
    """Return what was said so far, in one line; nothing when nothing was."""
    parts: list[str] = []
    if draft.cut is not None:
        name = capital(_(cuts.get(draft.cut).name))
        one = draft.count in (None, 1)
        parts.append(name if one else _("{count} x {name}").format(count=draft.count, name=name))
    if draft.mass_kg is not None:
        parts.append(kilograms(draft.mass_kg))
    if draft.mass_usual and draft.mass_kg is None:
        parts.append(_("not weighed"))
    parts += [_(cuts.get(piece.cut).name) for piece in draft.more]
    if draft.serving is not None:
        parts.append(_("dinner {time}").format(time=_dinner(draft.serving, voice)))
    if draft.pit_low_c is not None:
        high_c = draft.pit_low_c if draft.pit_high_c is None else draft.pit_high_c
        parts.append(_("pit {pit}").format(pit=voice.band(draft.pit_low_c, high_c)))
    if draft.wrap is not None:
        parts.append(wrap_word(draft.wrap))
    return ", ".join((*parts, *_who(draft))) + "." if parts else ""


def _dinner(serving: Serving, voice: Voice) -> str:
    start, end = serving.starts_at(), serving.ends_at()
    if start is None or end is None:
        return _("when ready")
    return voice.clock(start) if start == end else f"{voice.clock(start)}-{voice.clock(end).split()[-1]}"


def wrap_word(wrap: Wrap) -> str:
    """Return a wrap in words of a list."""
    words = {
        Wrap.PAPER: _("in paper"), Wrap.FOIL: _("in foil"), Wrap.BOAT: _("in a foil boat"), Wrap.NONE: _("not wrapped"),
    }  # fmt: skip
    return words[wrap]


def _who(draft: Draft) -> list[str]:
    care = draft.care
    if care is None:
        return []
    told = [_("guests at risk")] if care.at_risk else []
    told += allergy_names(care.allergies or ())
    return told + ([_("public meal")] if care.public else [])


def with_way_back(asked: Message, said: str, *, first: bool) -> Message:
    """Return a question below what was said so far, with the way back."""
    back: tuple[tuple[Option, ...], ...] = () if first else (((_("Back"), SetUp(what="back")),),)
    return Message(text=lines(said, asked.text), choices=(*asked.choices, *back))


def show_all(said: str) -> Message:
    """Show a set-up of which all is known, to be begun or changed."""
    rows = (((_("Start"), SetUp(what="begin")),), *change_rows(), ((_("Back"), SetUp(what="back")),))
    return Message(text=lines(said, _("Start it, or change something?")), choices=rows)


def change_rows() -> tuple[tuple[Option, ...], ...]:
    """Return the buttons for everything that can be said anew, two in a row."""
    named: tuple[tuple[str, SetUpSlot], ...] = (
        (_("Change: cut"), "cut"), (_("Change: mass"), "mass"), (_("Change: dinner"), "serving"),
        (_("Change: pit"), "pit"), (_("Change: wrap"), "wrap"), (_("Change: who eats"), "who"),
    )  # fmt: skip
    options = [(label, SetUp(what=slot)) for label, slot in named]
    return tuple(tuple(options[at : at + 2]) for at in range(0, len(options), 2))


def half_finished(question: Message) -> Message:
    """Put a set-up question again after a return, with a way to start over."""
    rows = (*question.choices, ((_("Start over"), SetUp(what="over")),))
    return Message(text=lines(_("We were setting up a cook."), question.text), choices=rows)


def as_last_time(said: str, serving: Serving, cook: str) -> Option:
    """Return the button that sets up a cook like an earlier one: everything but the date."""
    what = said.removesuffix(".")
    if serving.start is not None:
        what = _("{what}, dinner {time}").format(what=what, time=f"{serving.start:%H:%M}")
    return (_("As last time: {what}").format(what=what), LastTime(cook=cook))


def change_button() -> Option:
    """Return the button below the plan of a cook that has just begun."""
    return (_("Change something"), SetUp(what="change"))


def who_is_told(told: str) -> Message:
    """Say who eats as it was told, and how that is changed: what makes a rule less strict is said in words."""
    return Message(text=lines(told, _("To change who eats, say it: 8 adults, guests at risk, allergy nuts Wren.")))


def changed_cook() -> Message:
    """Ask what of a cook that runs is to be changed."""
    return Message(text=_("What changes?"), choices=change_rows())


def no_other_cut() -> Message:
    """Say that the meat that is on stays what it is."""
    return Message(text=_("The meat is on: another cut is another cook. Call this one off, or say: also chicken 2 kg."))
