"""Guests in words: whom the meat feeds, what is missing, what to buy. Sentences only; figures come from the engine."""

from __future__ import annotations

from bot.commands import GuestsSaid, HowMuch
from bot.messages.figures import kilograms
from bot.messages.language import in_series
from bot.messages.message import Message, lines
from bot.messages.pieces import counted
from bot.messages.words import _, n_
from scheduler.cook import Situation
from scheduler.cuts import Cut, Cuts
from scheduler.facts import Appetite, GuestsTold
from scheduler.planning.feeding import Feeding, Served, feeding, guests_of, shopping
from scheduler.planning.quantities import Guests, ToBuy, feeds, to_buy

_SUGGESTED = ("brisket_packer", "pork_butt", "spareribs_stl", "whole_chicken")
"""Of these the mass is told to somebody who names no cut (own choice)."""

_ELSEWHERE = 0.1
"""A planned mass that differs by more than this from what to buy is named beside it."""


def feeds_text(situation: Situation, guests: GuestsTold | None = None, *, apart: bool = True) -> str:
    """Return whom the planned meat feeds, `apart` each of several pieces, too; `guests` stand for those of the cook."""
    of = feeding(situation.views, guests or situation.state.guests)
    each = ""
    if apart and len(of.served) > 1:
        share = 1.0 if of.fed is None or not of.adults else of.fed / of.adults
        parts = [f"{_(one.cut.name)} {people_fed(one.adults * share)}" for one in of.served]
        each = _("Of these: {pieces}.").format(pieces=", ".join(parts))
    return " ".join(part for part in (_together(of, guests or situation.state.guests), each) if part)


def plan_note(situation: Situation, *, apart: bool = True) -> str:
    """Return what a plan says of the guests: nothing as long as nobody said who eats, or once it is served."""
    known = guests_of(situation.state.guests) is not None
    served = any(view.state.did("serve") for view in situation.views)
    return feeds_text(situation, apart=apart) if known and not served else ""


def people_fed(adults: float) -> str:
    """Return how many a piece feeds, such as "about 14"."""
    return _("about {count}").format(count=max(1, round(adults)))


def buy_text(situation: Situation) -> str:
    """Return what to buy of each cut: for the guests told, else what is planned."""
    of = feeding(situation.views, situation.state.guests)
    listed = shopping(of)
    if not listed:
        return _(", ").join(_what(one) for one in of.served)
    return _(", ").join(_wanted(one, buy) for one, buy in listed)


def shopping_lines(situation: Situation) -> list[str]:
    """Return whom the plan feeds and what to buy, for a plan on paper; nothing without guests."""
    told = situation.state.guests
    of = feeding(situation.views, told)
    if of.guests is None or told is None:
        return []
    found = [_("To buy for {guests}, raw as sold, before trimming:").format(guests=_guests(of.guests))]
    found += [f"- {_wanted(one, buy)}{_size(one.cut, buy)}" for one, buy in shopping(of)]
    return [feeds_text(situation), *found, _doubt()]


# --- how much for so many? --------------------------------------------------------------------------------------------


def how_much(asked: HowMuch, cuts: Cuts, situation: Situation | None) -> Message:
    """Answer how much meat feeds so many, how many so much meat feeds, or whether the plan is enough."""
    told = None if situation is None else situation.state.guests
    guests = told if asked.guests is None else _told(asked.guests, told)
    known = guests_of(guests)
    cut = None if asked.cut is None else cuts.get(asked.cut)
    if cut is not None and (asked.mass_kg is not None or asked.count is not None):
        return Message(text=_fed_by(cut, asked, guests))
    if cut is not None and known is not None:
        return Message(text=lines(_for_so_many(cut, known), _doubt()))
    if cut is not None or (situation is None and known is None):
        return Message(text=_("For how many? Like: how much brisket for 20, or for 24 adults and 6 children."))
    if situation is not None:
        buy = _for_the_cook(situation, guests) if asked.guests is not None else ""
        return Message(text=lines(feeds_text(situation, guests), buy))
    assert known is not None, "asked for above"
    return Message(text=lines(_in_general(known, cuts), _doubt()))


def _told(said: GuestsSaid, old: GuestsTold | None) -> GuestsTold:
    """Return the guests of a question as if they were told: appetite and buns of the cook unless said otherwise."""
    before = old or GuestsTold()
    return GuestsTold(
        adults=said.adults if said.adults is not None or said.children is None else 0,
        children=said.children,
        appetite=said.appetite or before.appetite,
        buns=before.buns if said.buns is None else said.buns,
    )


def _fed_by(cut: Cut, asked: HowMuch, told: GuestsTold | None) -> str:
    count = asked.count or 1
    raw_kg = count * (asked.mass_kg or cut.mass_kg.typical)
    how = told or GuestsTold()
    of = feeds(cut, raw_kg, appetite=how.appetite, buns=how.buns)
    one = Served(piece="", cut=cut, count=count, raw_kg=raw_kg, told=asked.mass_kg is not None, adults=of.typical)
    if asked.guests is not None and (known := guests_of(told)) is not None:
        return _together(Feeding(served=(one,), guests=known), told)
    what = _what(one)
    return _("{what} feed about {count} adults {how} ({low} to {high}, as it turns out).").format(
        what=_capital(what), count=round(of.typical), how=_how(how), low=round(of.low), high=round(of.high)
    )


def _for_so_many(cut: Cut, guests: Guests) -> str:
    buy = to_buy(cut, guests)
    text = _("For {guests} {how}: {mass} of {cut}, raw as sold{size}. About {plates} of it comes to the plates.")
    return text.format(
        guests=_guests(guests), how=_how(guests), mass=kilograms(buy.raw_kg), cut=_(cut.name), size=_size(cut, buy),
        plates=kilograms(round(buy.cooked_kg, 1)),
    )  # fmt: skip


def _for_the_cook(situation: Situation, guests: GuestsTold | None) -> str:
    listed = shopping(feeding(situation.views, guests))
    if not listed or guests is None:
        return ""
    return _("To buy for them: {what}.").format(what=_(", ").join(_wanted(one, buy) for one, buy in listed))


def _in_general(guests: Guests, cuts: Cuts) -> str:
    rows = [
        _("- {mass} of {cut}").format(mass=kilograms(to_buy(cut, guests).raw_kg), cut=_(cut.name))
        for cut in cuts.cuts
        if cut.id in _SUGGESTED
    ]
    head = _("For {guests} {how}, raw as sold, one of these:").format(guests=_guests(guests), how=_how(guests))
    return lines(head, *rows)


def _doubt() -> str:
    return _("Yields differ by a tenth or more either way; portions are common practice, not measured.")


# --- pieces of sentences ----------------------------------------------------------------------------------------------


def _together(of: Feeding, told: GuestsTold | None) -> str:
    what = _capital(in_series([_what(one) for one in of.served]))
    how = _how(told or GuestsTold())
    if of.heads is None or of.fed is None:
        return _("{what} feed about {count} adults {how}. Who eats? Like: 24 adults, 6 children.").format(
            what=what, count=max(1, round(of.adults)), how=how
        )
    if of.enough:
        return _("{what} feed about {count} {how}: enough for {heads}.").format(
            what=what, count=max(of.heads, round(of.fed)), how=how, heads=of.heads
        )
    return _("{what} feed about {count} of {heads} {how}; about {mass} more would do.").format(
        what=what, count=min(of.heads - 1, round(of.fed)), heads=of.heads, how=how, mass=kilograms(of.short_kg)
    )


def _what(one: Served) -> str:
    """Return what is planned: counted pieces, or the mass of one."""
    if one.count > 1:
        return counted(one.cut, one.count)
    mass = kilograms(round(one.raw_kg, 1))
    if one.told:
        return _("{mass} of {cut}").format(mass=mass, cut=_(one.cut.name))
    return _("about {mass} of {cut}").format(mass=mass, cut=_(one.cut.name))


def _wanted(one: Served, buy: ToBuy) -> str:
    """Return what to buy of a piece, and what is planned where that is another mass."""
    text = _("{mass} of {cut}").format(mass=kilograms(buy.raw_kg), cut=_(one.cut.name))
    if abs(one.raw_kg - buy.raw_kg) <= _ELSEWHERE * buy.raw_kg:
        return text
    planned = counted(one.cut, one.count) if one.count > 1 and not one.told else kilograms(round(one.raw_kg, 1))
    return _("{what} (planned: {planned})").format(what=text, planned=planned)


def _size(cut: Cut, buy: ToBuy) -> str:
    if buy.pieces < 2:  # noqa: PLR2004 - one piece needs no count
        return ""
    return _(", about {pieces} of the usual size").format(pieces=counted(cut, buy.pieces))


def _guests(guests: Guests) -> str:
    adults = n_("{count} adult", "{count} adults", guests.adults).format(count=guests.adults)
    if not guests.children:
        return adults
    children = n_("{count} child", "{count} children", guests.children).format(count=guests.children)
    return children if not guests.adults else _("{adults} and {children}").format(adults=adults, children=children)


def _how(told: GuestsTold | Guests) -> str:
    text = {
        Appetite.LIGHT: _("at a light appetite"),
        Appetite.NORMAL: _("at a usual appetite"),
        Appetite.HEARTY: _("at a hearty appetite"),
    }[told.appetite]
    return _("{how}, in buns").format(how=text) if told.buns else text


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]
