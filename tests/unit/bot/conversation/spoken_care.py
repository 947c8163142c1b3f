"""What is said of guests, meat and rules, in words: for tables of tests and of the reference page. Asserts nothing."""

from __future__ import annotations

from bot.commands import CareSaid, Draft, EditionSaid, PieceDraft, SafeBySaid, TargetSaid, TreatedSaid

Care = CareSaid | TreatedSaid | SafeBySaid | TargetSaid | EditionSaid


def care_in_words(intent: Care) -> str:
    """Return one of them in words."""
    match intent:
        case CareSaid():
            parts = (
                "" if intent.at_risk is None else "at risk" if intent.at_risk else "nobody at risk",
                "" if intent.allergies is None else f"allergies {', '.join(intent.allergies) or 'none'}",
                "" if intent.public is None else "public" if intent.public else "private",
                "nobody else" if intent.all_told else "",
            )
            return f"care {', '.join(part for part in parts if part)}"
        case TreatedSaid():
            return f"meat {', '.join(intent.treatments) or 'intact'}"
        case SafeBySaid():
            return f"safe by {intent.by}"
        case TargetSaid():
            return f"off at {intent.word or f'{intent.core_c:.1f}'}"
        case EditionSaid():
            return f"rules {intent.edition or f'unknown {intent.given!r}'}"


def care_of(draft: Draft | PieceDraft) -> list[str]:
    """Return what a draft tells of them, in words."""
    told: list[Care | None] = [draft.treated, draft.target, draft.safe_by]
    if isinstance(draft, Draft):
        told += [draft.care, None if draft.edition is None else EditionSaid(edition=draft.edition)]
    return [care_in_words(one) for one in told if one is not None]
