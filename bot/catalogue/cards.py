"""Reads the cards of a person's own cookers from the data folder.

A broken file never stops the program: it is told about, and everything else counts. It must not write anything.
"""

from __future__ import annotations

import logging
from pathlib import Path

from scheduler.cookers import Cards, Cookers, read_cards
from scheduler.cuts.own import Complaint

log = logging.getLogger(__name__)

OWN_COOKERS = "cookers.toml"
"""A person's own cookers, written by hand."""
LARGEST_BYTES = 1_000_000


def open_cards(data_dir: Path, cookers: Cookers) -> tuple[Cards, tuple[Complaint, ...]]:
    """Return the cards of a data folder, and what is wrong with those that are not among them."""
    path = data_dir / OWN_COOKERS
    try:
        if path.stat().st_size > LARGEST_BYTES:
            return Cards(), (Complaint(entry="", why="the file is larger than a megabyte"),)
        text = path.read_text("utf-8")
    except FileNotFoundError:
        return Cards(), ()
    except (OSError, UnicodeDecodeError) as error:
        log.warning("own cookers: %s", error)
        why = "it is not a text in UTF-8" if isinstance(error, UnicodeDecodeError) else "it cannot be opened"
        return Cards(), (Complaint(entry="", why=why),)
    return read_cards(text, cookers)
