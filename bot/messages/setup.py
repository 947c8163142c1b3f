"""Greeting and setting up a cook: one question at a time, the usual answer as a button."""

from __future__ import annotations

from collections.abc import Callable
from typing import Literal

from bot.commands import CallOff, Draft, MoreCuts, VaguePiece
from bot.messages.answers import plan
from bot.messages.cooker import read_note, with_cooker
from bot.messages.figures import Voice
from bot.messages.language import capital
from bot.messages.message import Message, Option, lines
from bot.messages.pits import pit_note
from bot.messages.plans import side_by_side, snags_of_several
from bot.messages.setup_taps import usually
from bot.messages.words import _
from scheduler.cook import Situation
from scheduler.cuts import Cut, Cuts
from scheduler.planning.shared_fire import alternatives_of
from scheduler.units import c_from_f, f_from_c

USUAL = ("beef_chuck_ribs", "beef_plate_ribs", "brisket_packer", "pork_butt")
"""Cuts that have a button before anything is said: the long cooks that are most often asked for (own choice)."""

_SET_F = 5.0
"""Nobody sets a pit finer than this [°F]."""
MOST_OWN = 3
"""A person's own cuts that have a button before anything is said; the others stand behind the last button."""

Group = Literal["own", "beef", "pork", "lamb", "poultry", "fish"]
_GROUP: dict[Group, Callable[[], str]] = {
    "own": lambda: _("Your own"),
    "beef": lambda: _("Beef"),
    "pork": lambda: _("Pork"),
    "lamb": lambda: _("Lamb"),
    "poultry": lambda: _("Poultry"),
    "fish": lambda: _("Fish and sausages"),
}


def greeting(name: str, ask: Message) -> Message:
    """Greet, say in one sentence what this is for, and ask the first question."""
    return Message(
        text=_("Hello {name}. I keep the times of a long cook over charcoal, so you need not.").format(name=name)
    ).then(ask)


def ask_cut(
    cuts: Cuts, unknown: str | None = None, past: tuple[str, ...] = (), again: tuple[Option, ...] = ()
) -> Message:
    """Ask what is cooking, with the usual cuts as buttons, those cooked before (`past`) first; instead of words that
    name none, the nearest names. `again` are cooks like earlier ones.
    """
    text = _("What is cooking? One sentence is enough: brisket 6 kg, dinner 18:00 Saturday, pit 250.")
    offered = [cut for cut in cuts.cuts if cut.id in cuts.own][:MOST_OWN]
    offered += [cut for cut in cuts.cuts if cut.id in USUAL]
    known = {cut.id: cut for cut in cuts.cuts}
    offered = list(dict.fromkeys((*(known[cut] for cut in past[:MOST_OWN] if cut in known), *offered)))
    if unknown:
        near = cuts.near(unknown)
        offered = list(near) or offered
        text = _("I do not know {what}.").format(what=repr(unknown)) + " "
        text += (
            _("Nearest: {names}. Which is it?").format(names=", ".join(_(cut.name) for cut in near))
            if near
            else _("What comes closest? {count} cuts are behind the last button.").format(count=len(cuts.cuts))
        )
    first = () if unknown else tuple((option,) for option in again)
    return Message(text=text, choices=(*first, *map(_cut_row, offered), ((_("Another cut"), MoreCuts()),)))


def more_cuts(cuts: Cuts, of: str | None = None) -> Message:
    """Show every cut that can be planned, by animal, or those of one animal as buttons."""
    groups = _groups(cuts)
    if of in groups:
        return Message(text=_("Which one?"), choices=tuple(map(_cut_row, groups[of])))
    rows = [f"{_GROUP[group]()}: {', '.join(_(cut.name) for cut in found)}" for group, found in groups.items()]
    buttons = [(_GROUP[group](), MoreCuts(of=group)) for group in groups]
    pairs = tuple(tuple(buttons[n : n + 2]) for n in range(0, len(buttons), 2))
    return Message(text=lines(_("Write its name, or choose:"), *rows), choices=pairs)


def _groups(cuts: Cuts) -> dict[Group, list[Cut]]:
    """Return the cuts by animal, a person's own first; sausages stand with the fish: both are short."""
    groups: dict[Group, list[Cut]] = {group: [] for group in _GROUP}
    for cut in cuts.cuts:
        of: Group = "own" if cut.id in cuts.own else "fish" if cut.species == "mixed" else cut.species
        groups[of].append(cut)
    return {group: found for group, found in groups.items() if found}


def _cut_row(cut: Cut) -> tuple[Option, ...]:
    name = _(cut.name)
    return ((capital(name), Draft(cut=cut.id, walked=True)),)


def ask_which(piece: VaguePiece, cuts: Cuts, meaning: Callable[[Draft | None], Draft]) -> Message:
    """Ask which cut one of several pieces is, the likeliest as buttons; all else that was said is kept."""
    rows = tuple(((capital(_(cut.name)), meaning(Draft(cut=cut.id))),) for cut in _called(piece.words, cuts))
    rest = (((_("Another cut"), MoreCuts()),), ((_("Leave it out"), meaning(None)),))
    said = piece.words if piece.count is None else f"{piece.count} {piece.words}"
    return Message(text=_("{what}: which cut is it? The rest is kept.").format(what=repr(said)), choices=(*rows, *rest))


def _called(words: str, cuts: Cuts) -> tuple[Cut, ...]:
    """Return the cuts whose name ends as the words do ("ribs": spareribs), else the nearest."""
    ending = tuple(cut for cut in cuts.cuts if cut.name.casefold().endswith(words) and cut.id not in cuts.own)
    return ending if len(ending) > 1 else cuts.near(words)


def ask_pit(cuts: tuple[Cut, ...], voice: Voice) -> Message:
    """Ask how hot the cooker runs, with pits that are usual for all of these cuts as buttons."""
    low, usual, high = usual_pits(cuts, voice)
    rows = tuple(
        (
            (
                usually(voice.temp(value)) if value == usual else voice.temp(value),
                Draft(pit_low_c=value, pit_high_c=value),
            ),
        )
        for value in dict.fromkeys((usual, low, high))
    )
    example = "250-275" if voice.unit == "F" else "120-135"
    return Message(
        text=_("How hot does the cooker run? A number or a band, like {example}.").format(example=example), choices=rows
    )


def usual_pits(cuts: tuple[Cut, ...], voice: Voice) -> tuple[float, float, float]:
    """Return the low, usual and high pit of cuts on one fire [°C], as people set one: in Fahrenheit to the next 5
    degrees. The usual one is that of the first cut, as near as all bear it; where no pit fits them all, the pits are
    those of the first.
    """
    low_c, high_c = max(cut.pit_c.low for cut in cuts), min(cut.pit_c.high for cut in cuts)
    if low_c > high_c:
        low_c, high_c = cuts[0].pit_c.low, cuts[0].pit_c.high
    usual_c = min(max(cuts[0].pit_c.typical, low_c), high_c)
    low, usual, high = (
        c_from_f(_SET_F * round(f_from_c(value) / _SET_F)) if voice.unit == "F" else value
        for value in (low_c, usual_c, high_c)
    )
    return low, usual, high


def begun(situation: Situation, voice: Voice, offer: Message | None = None, kept: Message | None = None) -> Message:
    """Show the plan of a cook that has just been set up, the other ways to do it, and cookers to choose from; `kept` is
    what was taken over from the last cook.
    """
    told = _plan_with_ways(situation, voice, offer)
    if kept is None or not kept.text:
        return told
    known, _line, coming = told.text.rpartition("\n")
    return Message(text=lines(known, kept.text, coming), choices=(*told.choices, *kept.choices))


def _plan_with_ways(situation: Situation, voice: Voice, offer: Message | None) -> Message:
    shown = with_cooker(plan(situation, voice, owner=False), situation, voice, offer or Message(text=""))
    if any(view.outlook.plan is None for view in situation.views):
        return shown
    pieces = [(view.state, view.cut) for view in situation.views]
    ways = side_by_side(alternatives_of(pieces, situation.catalogue.cookers), voice)
    known, _line, coming = shown.text.rpartition("\n")  # what comes next stays the last line
    snags = snags_of_several(situation, voice) if situation.several else ()  # one piece has them in its plan
    pits = (note for view in situation.views if (note := pit_note(view, voice)))
    return Message(
        text=lines(known, *pits, *snags, read_note(situation), ways.text, coming),
        choices=(*shown.choices, *ways.choices),
    )


def which_of(answers: tuple[tuple[Cut, Situation], ...], draft: Draft, voice: Voice) -> Message:
    """Answer a cook that was begun in the middle without naming the cut: what each would mean, and which is it?"""
    known = []
    if draft.on_at is not None:
        known.append(_("on since {time}").format(time=voice.clock(draft.on_at)))
    if draft.core_c is not None:
        known.append(_("meat {temp} now").format(temp=voice.temp(draft.core_c)))
    rows = [
        _("- {cut}: ready about {time} ({window})").format(
            cut=_(cut.name),
            time=_("beyond 30 h") if s.outlook.pull.likely is None else voice.about(s.outlook.pull.likely),
            window=voice.window(s.outlook.pull),
        )
        for cut, s in answers
    ]
    text = lines(
        _("Got it: {known}. It depends on what it is:").format(known=", ".join(known)), *rows, _("Which is it?")
    )
    choices = tuple(((capital(_(cut.name)), Draft(cut=cut.id)),) for cut, _s in answers)
    return Message(text=text, choices=choices)


def call_off_check() -> Message:
    """Ask before a cook is called off."""
    return Message(
        text=_(
            "Call off this cook? Everything stays in the log. If the fire is lit, it still needs somebody beside it."
        ),
        choices=(((_("Yes, call it off"), CallOff(sure=True)),),),
    )


def not_got(said: str) -> Message:
    """Say that something was not understood while a cook is set up."""
    return Message(text=_("I did not get {what}.").format(what=repr(said)))


def time_passed() -> Message:
    """Say that a serving time lies in the past."""
    return Message(text=_("That time has passed. When do people eat?"))


def started_over() -> Message:
    """Say that what was set up so far is forgotten."""
    return Message(text=_("Started over."))


def left_out(words: tuple[str, ...]) -> Message:
    """Name what was said and cannot be used, so that nobody takes it for understood."""
    if not words:
        return Message(text="")
    return Message(text=_("I left out: {words}.").format(words=", ".join(repr(word) for word in words)))


def usual_pit(pit_c: float, voice: Voice) -> Message:
    """Say that a pit nobody named was taken from the cut."""
    return Message(text=_("Nobody said how hot the pit is: I take the usual {pit}.").format(pit=voice.temp(pit_c)))


def ask_on() -> Message:
    """Ask when the meat went on, of a cook that is told with a warm core and no beginning."""
    return Message(text=_("So it is on the fire already. When did it go on? For example: on at 11:20."))
