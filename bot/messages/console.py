"""What the program says on the console about itself: starting, serving, leaving, and what is wrong with its
data.

One sentence each. It must not say anything about a cook.
"""

from __future__ import annotations

from collections.abc import Mapping

from bot.messages.words import _, languages

_TROUBLE = {
    "FolderNotWritable": lambda: _("The data folder {path} cannot be made or written in."),
    "NotADatabase": lambda: _("{path} is not a database, or it is damaged; nothing in it was changed."),
    "ForeignDatabase": lambda: _("{path} is the database of another program; nothing in it was changed."),
    "NewerDatabase": lambda: _(
        "{path} was written by a newer Slowbell; nothing in it was changed, please update this one."
    ),
    "OlderInUse": lambda: _(
        "{path} belongs to an older Slowbell that is still running; stop that one first, then start this again."
    ),
    "ReadOnlyDatabase": lambda: _("{path} can be read but not written."),
    "DiskFull": lambda: _("The disk that holds {path} is full."),
    "DatabaseBusy": lambda: _("{path} is held by another program for too long."),
    "DiskFailed": lambda: _("The disk that holds {path} could not be read or written."),
}
"""By the name of the error's class, so that this room need not know the store."""


# --- starting
# -------------------------------------------------------------------------------------------------------


def bad_setting(setting: str, given: str) -> str:
    """Say which setting cannot be used."""
    match setting:
        case "zone" if not given:
            return _(
                "This machine does not say its time zone; give one like Europe/Lisbon with --zone or SLOWBELL_ZONE."
            )
        case "zone":
            return _(
                "There is no time zone called {given}; give one like Europe/Lisbon with --zone or SLOWBELL_ZONE."
            ).format(given=repr(given))
        case "name":
            return _("A name needs at least one letter; give one with --as.")
        case "rules":
            return _(
                "--rules, or SLOWBELL_RULES, is stricter (of two published rules the stricter one, the default), "
                "consumer (USDA) or food-code, not {given}."
            ).format(given=repr(given))
        case "language":
            return _("--language, or SLOWBELL_LANGUAGE, is one of {known}, not {given}.").format(
                known=", ".join(languages()), given=repr(given)
            )
        case "bot_api":
            return _("SLOWBELL_BOT_API must be an address like https://..., not {given}.").format(given=repr(given))
        case _:
            return _("The setting {setting} cannot be used.").format(setting=setting)


def missing_token() -> str:
    """Say what `serve` needs and where to get it."""
    return _(
        "No token: create a bot by writing /newbot to @BotFather in the messenger, "
        "then export SLOWBELL_TOKEN=... and start this again."
    )


def second_serve(path: str) -> str:
    """Say that this data folder is served already."""
    return _("Another `slowbell serve` already uses the data in {path}; nothing was started.").format(path=path)


def no_rehearsal() -> str:
    """Say that this build has no rehearsal."""
    return _("This copy of Slowbell was installed without its rehearsal.")


# --- trouble
# --------------------------------------------------------------------------------------------------------


def data_trouble(kind: str, details: Mapping[str, object], data_dir: str) -> str:
    """Say what is wrong with the data, by the name of the store's error."""
    words = _TROUBLE.get(kind)
    if words is None:
        return _("Something is wrong with the data in {path} ({kind}).").format(path=data_dir, kind=kind)
    return words().format(path=str(details.get("path") or data_dir))


def goes_on(sentence: str) -> str:
    """Say that the program keeps trying."""
    return _("{sentence} Slowbell goes on and tries again; nothing that was taken in is lost.").format(
        sentence=sentence
    )


def recovered() -> str:
    """Say that all is well again."""
    return _("All is well again.")


def fault(kind: str, log_path: str) -> str:
    """Say that something failed for a reason that the program does not know."""
    return _("Slowbell met a fault of its own ({kind}); {log_path} says more.").format(kind=kind, log_path=log_path)


# --- the window
# -----------------------------------------------------------------------------------------------------


def leaving_words() -> frozenset[str]:
    """Return the words that close the window."""
    return frozenset(word.strip().casefold() for word in _("quit, exit").split(","))


def how_to_leave() -> str:
    """Say how to close the window, as a grey hint."""
    return _("quit or Ctrl-D leaves")


def left() -> str:
    """Say that the window closes and what that means."""
    return _("You have left; everything is kept, and what falls due meanwhile is told when you come back.")


def line_kept() -> str:
    """Say that a typed line could not be stored yet."""
    return _("Your line could not be stored yet; it is kept here and tried again, so leave this window open.")


def lines_stored(count: int) -> str:
    """Say that kept lines are stored now."""
    if count == 1:
        return _("Your line is stored now.")
    return _("Your {count} lines are stored now.").format(count=count)


def lines_lost(lines: list[str]) -> str:
    """Say which lines could not be stored before the window closed."""
    return _("Not stored, please type again next time: {lines}").format(lines="; ".join(lines))


def line_too_long(most: int) -> str:
    """Say that a line is too long to be taken in."""
    return _("That is longer than {most} characters, so nothing was taken in; send it in parts.").format(most=most)


# --- serve
# ----------------------------------------------------------------------------------------------------------


def serving(username: str, data_dir: str) -> str:
    """Say that the bot listens."""
    return _("Listening as @{username}; data in {data_dir}; Ctrl-C stops.").format(username=username, data_dir=data_dir)


def stopped() -> str:
    """Say that serving ended."""
    return _("Stopped; everything is kept, and what falls due meanwhile is told after the next start.")


def owner_code(code: str, link: str) -> str:
    """Show the one-time code that makes the owner."""
    return _("Nobody owns this bot yet: open {link} or send it {code} within a day to become its owner.").format(
        code=code, link=link
    )


def token_refused() -> str:
    """Say that the messenger does not accept the token."""
    return _(
        "The messenger refuses this token (revoked, or mistyped): get a new one from @BotFather, export "
        "SLOWBELL_TOKEN=... and start again; nothing is lost, and what waits is sent then."
    )


def no_network(why: str) -> str:
    """Say that the messenger cannot be reached."""
    return _("The messenger cannot be reached ({why}); Slowbell goes on trying.").format(why=why)


def rival_poller() -> str:
    """Say that another program takes the updates of this bot."""
    return _("Another program takes the messages of this bot with the same token; stop it, Slowbell goes on trying.")


def rival_webhook() -> str:
    """Say that a webhook is set for this bot."""
    return _("A webhook is set for this bot, so it cannot be polled; remove it, Slowbell goes on trying.")


def reachable_again() -> str:
    """Say that the messenger answers again."""
    return _("The messenger answers again.")


def possible_repeat() -> str:
    """Return the line above a message that may have arrived before."""
    return _("(This may have reached you before.)")


def no_picture(path: str) -> str:
    """Say that what was to be attached is no picture."""
    return _("No picture (PNG or JPEG, at most 20 MB) at {path}. Like this: photo ~/bark.jpg").format(path=path)


def saved_as(text: str, path: str) -> str:
    """Return a message whose file was put into a folder, with where it is."""
    saved = _("Saved as {path}").format(path=path)
    return f"{text}\n{saved}" if text else saved


# --- help of the command line ---------------------------------------------------------------------------------------


def help_program() -> str:
    """Say what the program is for."""
    return _("Plans a long slow cook backward from the meal, and prompts the crew on time. Without a command: chat.")


def help_data() -> str:
    """Explain --data."""
    return _("folder of the data (default: SLOWBELL_DATA, or this user's data folder)")


def help_zone() -> str:
    """Explain --zone."""
    return _("time zone, like Europe/Lisbon (default: SLOWBELL_ZONE, or this machine's)")


def help_rules() -> str:
    """Explain --rules."""
    return _("whose published food safety rules count: stricter, consumer or food-code (default: SLOWBELL_RULES)")


def help_language() -> str:
    """Explain --language."""
    return _("language spoken here, like en or de; a chat says its own (default: SLOWBELL_LANGUAGE, or English)")


def help_name() -> str:
    """Explain --as."""
    return _("who sits here (default: the login name)")


def help_version() -> str:
    """Explain --version."""
    return _("print the version")


def help_chat() -> str:
    """Explain chat."""
    return _("open the chat in this terminal")


def help_rehearse() -> str:
    """Explain rehearse."""
    return _("play one whole invented cook in under a minute; with --mine or --cut your own")


def help_mine() -> str:
    """Explain rehearse --mine."""
    return _("play the cook that is planned in your data folder, with a fast, a usual and a slow piece")


def help_whole() -> str:
    """Explain rehearse --whole."""
    return _("with --mine: every message of all three pieces")


def help_serve() -> str:
    """Explain serve."""
    return _("serve the messenger, with the bot's token in SLOWBELL_TOKEN")


def help_backtest() -> str:
    """Explain backtest."""
    return _("score the forecast on logs of your own past cooks")


def help_logs() -> str:
    """Explain the logs of backtest."""
    return _("CSV with minute (or at), core_f (or core_c), pit_f (or pit_c), event; lines like # cut: brisket above")


def help_target() -> str:
    """Explain --target."""
    return _("core temperature to forecast, like 195F or 90C; may be repeated (default: 195F)")


def help_json() -> str:
    """Explain --json."""
    return _("print JSON, in minutes since meat on")
