"""The rehearsal: one whole invented cook, played in well under a minute on the real code and a real database.

Meat, fire, crew and story are made up here; this room must not be needed by anything else.
"""

from bot.rehearsal.command import main

__all__ = ["main"]
