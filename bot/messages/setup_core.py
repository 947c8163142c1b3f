"""While a cook is set up: a wished core that cannot be, with what works as buttons; what told meat and guests mean.

Words and buttons only.
"""

from __future__ import annotations

from bot.commands import CareSaid, Draft, PieceDraft, SafeBySaid, TargetSaid
from bot.messages.care_asked import what_changes
from bot.messages.language import capital
from bot.messages.message import Message, Option, lines
from bot.messages.naming import named
from bot.messages.too_low import WHY, too_low
from bot.messages.wished_core import (
    at_risk_question,
    by_time_label,
    by_time_question,
    plan_to,
    safe_by_means,
    treated_means,
)
from bot.messages.words import _
from scheduler.cook import Refusal, Situation
from scheduler.cuts import Cut, Cuts
from scheduler.facts import Edition, SafeBy
from scheduler.safety import NotByTime


def cannot_be(refusal: Refusal, draft: Draft, cuts: Cuts) -> Message:
    """Return why a wished core cannot be planned, and what works as buttons; all else that was said is kept."""
    number = int((refusal.piece or "p1")[1:])
    piece: Draft | PieceDraft = draft if number == 1 else draft.more[number - 2]
    cut = cuts.get(piece.cut or "")
    usual: Option = (_("Plan as usual"), Draft())
    if refusal.under is None:
        why = NotByTime.UNTOLD if refusal.not_by_time is None else refusal.not_by_time
        text = _("Time at a lower temperature does not count for {cut}: {why}.").format(cut=_(cut.name), why=WHY[why]())
        first = _missing_word(why, draft) if number == 1 else ()
        asked = at_risk_question() if why is NotByTime.RISK_UNTOLD and first else ""
        missing: tuple[tuple[Option, ...], ...] = (first, (usual,)) if first else ((usual,),)
        return Message(text=lines(text, asked), choices=missing)
    under = refusal.under
    feel = "" if cut.doneness == "temperature" else _("It is a tough cut: tender comes far above, by feel.")
    chosen = piece.safe_by is not None and piece.safe_by.by is SafeBy.EQUIVALENCE
    time = by_time_question(under, cut, draft.edition or Edition.STRICTER, chosen=chosen)
    if cut.doneness == "temperature" and number == 1:
        usual = (plan_to(under), Draft(target=TargetSaid(core_c=under.minimum_c)))
    rows: tuple[tuple[Option, ...], ...] = ((usual,),)
    if time and number == 1:
        untold = under.why is NotByTime.UNTOLD
        by = SafeBySaid(by=SafeBy.EQUIVALENCE, intact=untold, core_c=under.wished_c)
        rows = (*rows, ((by_time_label(under), Draft(safe_by=by)),))
    return Message(text=lines(too_low(under, _(cut.name)), feel, time), choices=rows)


def _missing_word(why: NotByTime, draft: Draft) -> tuple[Option, ...]:
    """Return the word that time at temperature waits for, as buttons that bring what was wished again."""
    if why is NotByTime.UNTOLD:
        intact = SafeBySaid(by=SafeBy.EQUIVALENCE, intact=True, core_c=None)
        return ((_("It is as cut"), Draft(safe_by=intact, target=draft.target)),)
    if why is NotByTime.RISK_UNTOLD:
        again = Draft(safe_by=draft.safe_by, target=draft.target, treated=draft.treated, care=CareSaid(at_risk=False))
        return ((_("Nobody at risk"), again), (_("Guests at risk"), Draft(care=CareSaid(at_risk=True))))
    return ()


def ask_core(draft: Draft, cuts: Cuts) -> Message:
    """Ask again where the meat is to come off, of a cook of which all else is known."""
    cut = cuts.get(draft.cut or "")
    text = _("At which core is the {cut} to come off? A number, or as usual.").format(cut=_(cut.name))
    return Message(text=text, choices=(((_("Plan as usual"), Draft()),),))


def care_said(draft: Draft, situation: Situation) -> Message:
    """Return what it means that guests, treated meat or a rule were told when the cook was set up."""
    parts: list[str] = []
    pieces: tuple[Draft | PieceDraft, ...] = (draft, *draft.more)
    for number, piece in enumerate(pieces, 1):
        name = f"p{number}"
        if all(view.piece != name for view in situation.views):
            continue
        if piece.treated is not None and piece.treated.treatments:
            said = piece.treated.model_copy(update={"piece": name})
            parts.append(named(situation, name, treated_means(said, situation)))
        if piece.safe_by is not None and piece.safe_by.by is SafeBy.EQUIVALENCE:
            by = piece.safe_by.model_copy(update={"piece": name})
            parts.append(named(situation, name, safe_by_means(by, situation)))
        if piece.target is not None and piece.target.core_c is not None and _by_feel(situation.view(name).cut):
            parts.append(
                _("{cut}: done by feel, whatever the core; I ask you to feel it when it may be tender.").format(
                    cut=capital(_(situation.view(name).cut.name))
                )
            )
    care = "" if draft.care is None else what_changes(draft.care, situation.state.care).text
    return Message(text=lines(*parts, care))


def before_next(plan: Message, more: Message) -> Message:
    """Return a plan with something said before its last line, which tells what comes next."""
    if not more.text:
        return plan
    known, _line, coming = plan.text.rpartition("\n")
    return Message(text=lines(known, more.text, coming), choices=(*plan.choices, *more.choices))


def _by_feel(cut: Cut) -> bool:
    return cut.doneness == "feel"
