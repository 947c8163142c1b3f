"""What `slowbell record` says, and its help. Words only, light to import."""

from __future__ import annotations

from bot.messages.words import _


def help_record() -> str:
    """Explain record."""
    return _("write the temperature log of a cook, for whoever inspects food")


def help_cook() -> str:
    """Explain the cook."""
    return _("which cook, by its id (default: the newest)")


def help_csv() -> str:
    """Explain --csv."""
    return _("write it as a table into this file")


def help_pdf() -> str:
    """Explain --pdf."""
    return _("write it as printed pages into this file")


def no_file() -> str:
    """Return that no file was named."""
    return _("Name a file, or two: slowbell record --pdf log.pdf --csv log.csv")


def no_data(folder: str) -> str:
    """Return that there is no data."""
    return _("No cook was ever planned in {folder}. Another folder: --data DIR").format(folder=folder)


def no_cooks() -> str:
    """Return that nothing was cooked."""
    return _("There is no cook yet, so there is nothing to make a temperature log of.")


def no_such_cook(given: str, known: tuple[str, ...]) -> str:
    """Return that there is no such cook, and which there are."""
    return _("There is no cook {given}. The newest are: {known}").format(given=given, known=", ".join(known))


def unreadable(cook: str, why: str) -> str:
    """Return that a log cannot be read."""
    return _("The log of {cook} cannot be made into a record: {why}").format(cook=cook, why=why)


def not_written(name: str, why: str) -> str:
    """Return that a file could not be written."""
    return _("{name} cannot be written: {why}").format(name=name, why=why)


def written(name: str, cook: str) -> str:
    """Return that a file was written."""
    return _("{name}: temperature log of {cook}. Fill in the blanks and sign it; local codes decide.").format(
        name=name, cook=cook
    )
