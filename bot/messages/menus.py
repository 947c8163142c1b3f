"""The messenger's menus of commands: in each kind of chat only those that are of use there, most wanted first.

It must not offer what the reader of texts does not know; a test holds the two together.
"""

from __future__ import annotations

from enum import StrEnum

from bot.messages.words import _

MENU_LANGUAGES = ("de",)
"""Languages beside English, which is shown wherever none of these is spoken (Bot API: `language_code`)."""


class Place(StrEnum):
    """Where a menu is shown, by the names of the Bot API's scopes."""

    ANYWHERE = "default"
    """Where no other menu counts."""
    PRIVATE = "all_private_chats"
    GROUPS = "all_group_chats"
    ADMINISTRATORS = "all_chat_administrators"
    """What administrators of groups see there."""


_HERE: dict[Place, tuple[str, ...]] = {
    Place.ANYWHERE: ("howlong", "next", "plan", "help"),
    Place.PRIVATE: (
        "howlong", "next", "plan", "chart", "safe", "options", "page", "calendar", "record", "undo", "new", "invite",
        "help",
    ),
    Place.GROUPS: ("howlong", "next", "plan", "board", "chart", "safe", "crew", "undo", "help"),
    Place.ADMINISTRATORS: (
        "howlong", "next", "plan", "board", "chart", "safe", "crew", "undo", "new", "calloff", "help",
    ),
}  # fmt: skip


def menu(place: Place) -> tuple[tuple[str, str], ...]:
    """Return the menu of a kind of chat: (name, description)."""
    says = _descriptions()
    return tuple((name, says[name]) for name in _HERE[place])


def _descriptions() -> dict[str, str]:
    return {
        "howlong": _("How long until dinner, and is it on time"),
        "next": _("What comes next, and when"),
        "plan": _("The plan, backward from the meal"),
        "board": _("How things stand: dinner, next, readings"),
        "chart": _("The forecast as a picture"),
        "safe": _("Is the food safe, and what to watch"),
        "options": _("What can be done when dinner is late or early"),
        "crew": _("Who is here, and who has the watch"),
        "page": _("The plan on one page, to tape up beside the cooker"),
        "calendar": _("The plan as a file for your calendar"),
        "record": _("The temperature log for an inspector"),
        "undo": _("Take back the last thing you told"),
        "new": _("Begin a cook"),
        "calloff": _("End this cook"),
        "invite": _("A link with which one person can join"),
        "help": _("What you can say"),
    }
