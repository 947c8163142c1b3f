"""A core that somebody wishes, meat that was treated, the rules that count: what each means, and refusals with what
works instead.

Words and buttons only; the published Fahrenheit figure comes first, and no refusal is softened.
"""

from __future__ import annotations

import math

from bot.commands import CareSaid, EditionSaid, Intent, SafeBySaid, TargetSaid, TreatedSaid
from bot.messages.care import care_text
from bot.messages.figures import both
from bot.messages.message import Message, Option, lines
from bot.messages.naming import named, piece_name
from bot.messages.too_low import OPEN, WHY, too_low
from bot.messages.words import _
from scheduler.cook import Refusal, Situation
from scheduler.cuts import Cut
from scheduler.facts import Edition, EditionTold, SafeBy, SafeByTold, TreatedTold, Treatment
from scheduler.planning.views import PieceView
from scheduler.safety import NotByTime, Undercooked, by_time, least_of
from scheduler.safety.least import counting, table_under

_MINUTE_S = 60.0
_EDITIONS = {
    Edition.STRICTER: lambda: _("The stricter of both"),
    Edition.CONSUMER: lambda: _("USDA consumer"),
    Edition.FOOD_CODE: lambda: _("Food Code"),
}


def by_time_question(under: Undercooked, cut: Cut, edition: Edition, *, chosen: bool) -> str:
    """Return what the other way asks for, time at temperature; nothing where it cannot be chosen, or is `chosen`."""
    choosable = under.why in OPEN and cut.doneness == "temperature" and not chosen
    row = _row(under.wished_c, edition)
    if row is None or not choosable:
        return ""
    condition = {
        NotByTime.UNTOLD: _(" if it is as cut, nothing injected or tenderised, and no guest is at risk"),
        NotByTime.RISK_UNTOLD: _(" if no guest is at risk"),
    }.get(under.why or NotByTime.AT_RISK, "")
    return _(
        "Lower is safe only by time at temperature{condition}: {temp} for {minutes} in the coldest spot ({table}), "
        "read several times."
    ).format(condition=condition, temp=row[0], minutes=row[1], table=_table(edition))


def _row(core_c: float, edition: Edition) -> tuple[str, str] | None:
    """Return the row of the published table for a core: its temperature, its time; None below the lowest."""
    rows = [row for row in table_under(edition).by_c if row[0] <= round(core_c, 1)]
    if not rows:
        return None
    temp_c, dwell_s = rows[-1]
    return both(temp_c), _length(dwell_s)


def _length(dwell_s: float) -> str:
    """Return a time of a table, never shorter than it is."""
    if dwell_s <= _MINUTE_S:
        return _("{seconds:g} s").format(seconds=dwell_s)
    return _("{minutes} min").format(minutes=math.ceil(dwell_s / _MINUTE_S))


def _table(edition: Edition) -> str:
    return _("Food Code table") if edition is Edition.FOOD_CODE else _("FSIS table")


def plan_to(under: Undercooked) -> str:
    """Return the label of the button that plans to the minimum."""
    return _("Plan to {minimum}").format(minimum=both(under.minimum_c).split(" (")[0])


def by_time_label(under: Undercooked) -> str:
    """Return the label of the button that chooses time at temperature."""
    if under.why is NotByTime.UNTOLD:
        return _("It is as cut: time at temperature")
    return _("Choose time at temperature")


def refused(refusal: Refusal, situation: Situation) -> Message | None:
    """Return a refusal of a cook that runs, with what works as buttons; None for one that is not of this kind."""
    view = situation.view(refusal.piece or situation.state.piece)
    piece = view.piece if situation.several else None
    if refusal.under is not None:
        under, minimum = refusal.under, TargetSaid(core_c=refusal.under.minimum_c, piece=piece)
        rows: list[tuple[Option, ...]] = [] if view.cut.doneness == "feel" else [((plan_to(under), minimum),)]
        if _time(under, view):
            untold = under.why is NotByTime.UNTOLD
            chosen = SafeBySaid(by=SafeBy.EQUIVALENCE, intact=untold, core_c=under.wished_c, piece=piece)
            rows.append(((by_time_label(under), chosen),))
        return Message(text=_why_too_low(under, view), choices=tuple(rows))
    if refusal.not_by_time is NotByTime.UNTOLD:
        return _ask_intact(piece)
    if refusal.not_by_time is not None:
        text = _("Time at a lower temperature does not count here: {why}. The minimum is {minimum}.")
        return Message(text=text.format(why=WHY[refusal.not_by_time](), minimum=both(least_c(view, situation))))
    return None


def _time(under: Undercooked, view: PieceView) -> str:
    chosen = view.state.safe_by is SafeBy.EQUIVALENCE
    return by_time_question(under, view.cut, view.state.edition, chosen=chosen)


def _why_too_low(under: Undercooked, view: PieceView) -> str:
    feel = "" if view.cut.doneness == "temperature" else _("It is a tough cut: tender comes far above, by feel.")
    return lines(too_low(under, piece_name(view)), feel, _time(under, view))


def _ask_intact(piece: str | None) -> Message:
    options: tuple[tuple[str, Intent], ...] = (
        (_("It is as cut"), SafeBySaid(by=SafeBy.EQUIVALENCE, intact=True, piece=piece)),
        (_("Injected"), TreatedSaid(treatments=(Treatment.INJECTED,), piece=piece)),
        (_("Tenderised"), TreatedSaid(treatments=(Treatment.TENDERISED,), piece=piece)),
        (_("Rolled"), TreatedSaid(treatments=(Treatment.ROLLED,), piece=piece)),
    )
    text = _("First: is it as cut, nothing injected, tenderised or rolled? Only then does time at temperature count.")
    return Message(text=text, choices=(options,))


def ask_at_risk(said: SafeBySaid) -> Message:
    """Ask whether guests at risk eat, of somebody who chose time at temperature; an answer brings the choice again."""
    options: tuple[Option, ...] = (
        (_("Nobody at risk"), said.model_copy(update={"nobody_at_risk": True})),
        (_("Guests at risk"), CareSaid(at_risk=True)),
    )
    return Message(text=at_risk_question(), choices=(options,))


def at_risk_question() -> str:
    """Return the question on which time at temperature waits."""
    return _("First: is anybody pregnant, old, very young or ill among the guests? Only if not does that time count.")


def least_c(view: PieceView, situation: Situation) -> float:
    """Return the minimum that counts for a piece [°C]."""
    state = view.state
    edition = counting(state.edition, at_risk=state.care.at_risk)
    return least_of(view.cut, situation.catalogue.cuts, state.treated, edition).temp_c


def what_is_asked(said: TreatedSaid | SafeBySaid | TargetSaid) -> str:
    """Return what is told of a piece, for the question which one is meant."""
    match said:
        case TreatedSaid():
            return care_text(TreatedTold(treatments=said.treatments))
        case SafeBySaid():
            return care_text(SafeByTold(by=said.by))
        case TargetSaid(core_c=core_c) if core_c is not None:
            return _("Off at {core}").format(core=both(core_c))
        case _:
            return _("Off the fire sooner or later")


def treated_means(said: TreatedSaid, situation: Situation) -> str:
    """Return what it means that a piece was treated, or that nothing was done to it."""
    view = situation.view(said.piece)
    minimum = both(least_c(view, situation))
    if not said.treatments and view.state.treated:
        return _(
            "It was told otherwise before, and that counts: the minimum stays {minimum}. Was it wrong? Say once more"
            " that the meat is intact."
        ).format(minimum=minimum)
    if not said.treatments:
        return _("The minimum stays {minimum}.").format(minimum=minimum)
    return _("The stricter minimum counts: {minimum} in the very middle. No pink centre by choice.").format(
        minimum=minimum
    )


def treated_note(view: PieceView, situation: Situation) -> str:
    """Return what was done to the meat of a plan and the minimum that follows; nothing where nothing was."""
    if not view.state.treated:
        return ""
    return _("{told}: the stricter minimum counts, {minimum} in the very middle, no pink centre by choice.").format(
        told=care_text(TreatedTold(treatments=view.state.treated)), minimum=both(least_c(view, situation))
    )


def moved_core(before: Situation, after: Situation) -> str:
    """Return which pieces come off at another core than before because of what was told; nothing for none."""
    earlier = {view.piece: view.cut.done_c for view in before.views}
    return lines(
        *(
            named(after, view.piece, _("Planned off the fire at {core} now.").format(core=both(view.cut.done_c)))
            for view in after.views
            if view.cut.doneness == "temperature" and view.cut.done_c != earlier.get(view.piece, view.cut.done_c)
        )
    )


def safe_by_means(said: SafeBySaid, situation: Situation) -> str:
    """Return what a choice of rule means for a piece."""
    view = situation.view(said.piece)
    if said.by is SafeBy.MINIMUM or not by_time(view.state, view.cut):
        return _("{minimum} in the coldest spot, as published.").format(minimum=both(least_c(view, situation)))
    row = _row(view.cut.done_c, view.state.edition)
    lowest = both(table_under(view.state.edition).by_c[0][0])
    if row is None:
        return _("Under {lowest} no time is enough.").format(lowest=lowest)
    return _(
        "{temp} for {minutes} in the coldest spot, by the {table}; under {lowest} nothing counts. That time begins "
        "when it reads so and is not in the plan yet: leave room before dinner. I count only what is read, so read it "
        "several times. Guests at risk end this choice."
    ).format(temp=row[0], minutes=row[1], table=_table(view.state.edition), lowest=lowest)


def time_means(view: PieceView, situation: Situation) -> str:
    """Return what it means that a piece of a plan is to be safe by its time at a lower temperature."""
    return safe_by_means(SafeBySaid(by=SafeBy.EQUIVALENCE, piece=view.piece), situation)


def edition_means(said: EditionSaid, situation: Situation) -> Message:
    """Return which rules count now and what overrides them; which there are, where none that is known was named."""
    state = situation.state
    over = ""
    if state.care.at_risk or state.care.public:
        over = _("With guests at risk, or at a public meal, the stricter figure counts whatever was chosen.")
    elif said.edition is not None and said.edition is not state.edition:
        over = _("For this cook, already measured by other rules, the stricter figure of each counts to its end.")
    if said.edition is not None:
        return Message(text=over)
    unknown = _("I do not know the rules {given}.").format(given=repr(said.given)) if said.given else ""
    now = _("{rules}.").format(rules=care_text(EditionTold(edition=state.edition)))
    ask = _("There are three: the stricter of both, USDA consumer, Food Code.")
    row: tuple[Option, ...] = tuple(
        (_EDITIONS[edition](), EditionSaid(edition=edition)) for edition in Edition if edition is not state.edition
    )
    return Message(text=lines(unknown, now, over, ask), choices=(row,))
