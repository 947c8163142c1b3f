"""Names problems of the catalogue by the intents of the trade's table: what is an alarm, what only an event."""

from __future__ import annotations

_NAMES = {
    **dict.fromkeys(
        ("probe_dead", "reader_wrong", "pit_gauge_wrong", "probe_wire_fire"),
        "probe_fault",
    ),
    **dict.fromkeys(("probe_bone", "probe_air_fat"), "implausible"),
    **dict.fromkeys(
        ("guests_early", "helper_missing", "two_bosses", "phone_dead", "bot_silent", "eaten"), "chat_event"
    ),
    **dict.fromkeys(("guests_late",), "move_dinner"),
    **dict.fromkeys(
        (
            "lid_open", "stall_long", "reader_other", "dry_flat", "bark_soft", "bark_dark", "pink_inside",
            "skin_rubbery", "over_salted", "no_salt", "rain", "wind", "cold", "heat", "yo_yo",
        ),
        "event",
    ),
    **dict.fromkeys(("too_tough_at_dinner", "over_tender"), "feel"),
}  # fmt: skip


def name_of(problem: str) -> str:
    """Return the name of a problem in the table; what is not named otherwise is an alarm."""
    return _NAMES.get(problem, "alarm")
