"""What each intent of `slowbell read` means in a few words, and what the chat keeps of it. Words only."""

from __future__ import annotations

from bot.messages.words import _

_NOT_KEPT_YET = frozenset({
    "ambiguous_number", "done_ambiguous", "implausible", "reading_none", "reading_typo", "reading_wrong_slot",
    "retract_move",
})  # fmt: skip
"""With a question left, only the words are kept until it is answered."""
_ASKS_ONLY = frozenset({"question", "question_safety"})
_NOTHING_CHANGES = frozenset({"ack", "ack_weak", "ack_not_answer", "note", "chat_event", "hold"})


def kept(intent: str, *, asked: bool) -> str:
    """Return what the chat keeps of an intent."""
    if intent == "implausible":
        return _("set aside; the forecast does not use it.")
    if intent in _ASKS_ONLY:
        return _("nothing; a question is answered.")
    if asked and intent in _NOT_KEPT_YET:
        return _("the words, as a note, until that is answered.")
    if intent in _NOTHING_CHANGES:
        return _("the words, as a note; what was asked stays open.")
    if intent in {"retract", "undo"}:
        return _("what was taken back stays in the log, struck out.")
    return _("what it says, with who said it and when.")


def meaning(intent: str) -> str:
    """Return what an intent means in a few words."""
    return (_readings() | _answers() | _told())[intent]


def intents() -> tuple[str, ...]:
    """Return every intent that has words."""
    return tuple(_readings() | _answers() | _told())


def _readings() -> dict[str, str]:
    return {
        "reading": _("a reading"),
        "two_readings": _("two readings"),
        "three_readings": _("three readings or more"),
        "reading_approx": _("a reading, about right"),
        "reading_range": _("a reading between two numbers"),
        "reading_typo": _("a reading with a slip of the thumb"),
        "reading_wrong_slot": _("a reading that may be of the other probe"),
        "implausible": _("a reading that cannot be so"),
        "reading_limit": _("a reading on a safe limit"),
        "reading_below_limit": _("a reading below a safe limit"),
        "reading_none": _("a display without a temperature"),
        "probe_fault": _("a probe that does not work"),
        "choice_plus_reading": _("a wrap and a reading"),
        "done_plus_reading": _("a thing done and a reading"),
        "feel_plus_reading": _("a feel and a reading"),
        "event_plus_reading": _("something that happened, and a reading"),
        "feel_vs_number": _("a feel against its number; the hand counts"),
    }


def _answers() -> dict[str, str]:
    return {
        "time": _("a time of the clock"),
        "time_relative": _("a time counted from now"),
        "time_future": _("a thing that will be done"),
        "snooze": _("ask again later"),
        "hold": _("wait, the question stays open"),
        "not_yet": _("not yet"),
        "decline": _("no, not now"),
        "skip": _("skip it this once"),
        "mute_step": _("no more prompts of this kind"),
        "done": _("done"),
        "done_two": _("all of what is open is done"),
        "done_past": _("done before"),
        "done_unprompted": _("done, told unasked"),
        "done_ambiguous": _("done, but which"),
        "done_choice": _("done, and what was chosen"),
        "confirm": _("yes"),
        "choice": _("a choice"),
        "choice_other": _("a choice of something else, taken for what it is like"),
        "feel": _("how it feels"),
        "feel_partial": _("how it feels, not the same everywhere"),
        "ack": _("seen"),
        "ack_weak": _("seen, perhaps not done"),
        "ack_not_answer": _("seen, but no answer"),
        "ambiguous_number": _("a number that may be two things"),
        "count": _("who eats"),
        "count_range": _("about how many eat; the higher number is planned for"),
    }


def _told() -> dict[str, str]:
    return {
        "correction": _("another number in place of the last one"),
        "correction_slot": _("the last number belongs to the other probe"),
        "correction_time": _("another time for what was told last"),
        "retract": _("forget the last number"),
        "retract_move": _("it was meant for another cook"),
        "undo": _("take back the last thing told"),
        "move_dinner": _("dinner moves"),
        "event": _("something that happened"),
        "chat_event": _("something about people"),
        "alarm": _("something is wrong"),
        "question": _("a question"),
        "question_safety": _("a question about safety"),
        "handover": _("the watch is handed over"),
        "handover_ack": _("the watch is taken"),
        "note": _("words to keep"),
    }
