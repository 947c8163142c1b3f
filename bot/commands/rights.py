"""The right that each intent needs: every one is named here, and one that is forgotten needs the most.

Values in, values out; who has which right is said in `bot.crew`.
"""

from __future__ import annotations

from bot.commands.care import CareSaid, TreatedSaid
from bot.commands.intent import Said
from bot.commands.trouble import BY_ANYBODY, Trouble
from bot.crew import Right

_ASK = (
    "ask",
    "how_much",
    "pause",
    "read_again",
    "wave_off",
    "suppose",
    "for_cook",
    "agreed",
    "lever_no",
    "heard_it",
    "manner",
    "set_up",
)
_HEARD = ("join", "note", "unclear", "cannot_watch")
"""What is kept or asked back, and changes nothing."""

_REPORT = (
    "report", "done", "not_yet", "put_off", "feel", "undo", "correct", "air", "fuel", "trouble", "trouble_over",
    "claim", "claim_back", "take_watch", "decline_watch", "nod", "call_name",
    "wrong_cook", "two_spots",
    "other_number",
)  # fmt: skip
_TEND = ("skip", "back_on", "hand_over", "safe_default")
_DECIDE = (
    "take_lever", "change_plan", "move_pit", "choose_plan", "tell_me", "watches", "kind_of_step", "sure", "rest_wish",
    "cooker", "read_by", "safe_by", "target", "edition", "add_piece", "drop_piece",
)  # fmt: skip
_DINNER = ("move_dinner", "guests")
_START = ("call_off", "draft", "last_time", "more_cuts", "new_cook")
_INVITE = ("invite", "cancel_invites", "role", "left", "sound_check")

NEEDS: dict[str, Right] = {
    **dict.fromkeys((*_ASK, *_HEARD), Right.ASK),
    **dict.fromkeys(_REPORT, Right.REPORT),
    **dict.fromkeys(_TEND, Right.TEND),
    **dict.fromkeys(_DECIDE, Right.DECIDE),
    **dict.fromkeys(_DINNER, Right.DINNER),
    **dict.fromkeys(_START, Right.START),
    **dict.fromkeys(_INVITE, Right.INVITE),
    "discard": Right.DISCARD,
}
"""Kind of an intent -> the right it needs, where nothing else in it decides."""

OF_STEPS: dict[str, Right] = {
    "bark_check": Right.TEND,
    "wrap_do": Right.TEND,
    "pull": Right.TEND,
    "slice": Right.SLICE,
    "t_minus": Right.DINNER,
}
"""Steps that not everybody who reports may report, and not everybody may claim."""


def needs(intent: Said) -> Right:
    """Return the right that an intent needs."""
    kind = str(getattr(intent, "kind", ""))
    if isinstance(intent, Trouble) and intent.what in BY_ANYBODY:
        return Right.ASK
    if isinstance(intent, CareSaid):
        return Right.ASK if intent.only_adds else Right.DINNER
    if isinstance(intent, TreatedSaid):
        return Right.REPORT if intent.treatments else Right.DECIDE
    if kind == "wrap":
        return Right.TEND if getattr(intent, "done", True) else Right.DECIDE
    if kind in {"done", "claim"}:
        return OF_STEPS.get(str(getattr(intent, "step", None)), Right.REPORT)
    own = getattr(intent, "name", None) == "i"
    if kind == "left" and own:
        return Right.ASK
    return NEEDS.get(kind, Right.START)
