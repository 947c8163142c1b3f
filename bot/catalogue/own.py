"""Reads a person's own cuts from the data folder and joins them to the catalogue.

A broken file never stops the program: it is told about, and everything else counts. What a log may speak of is kept,
so that a cook goes on when its cut leaves the file.
"""

from __future__ import annotations

import dataclasses
import json
import logging
import os
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from bot.catalogue.files import texts
from scheduler.cuts import Cut, Cuts
from scheduler.cuts.own import Complaint, Joined, join_own
from scheduler.planning.catalogue import Catalogue, read_catalogue

log = logging.getLogger(__name__)

OWN_CUTS = "cuts.toml"
"""A person's own cuts, written by hand."""
KEPT = "cuts.kept.json"
"""Every own cut that was ever read, as it was last: written by the program."""
LARGEST_BYTES = 1_000_000


@dataclasses.dataclass(frozen=True, kw_only=True)
class Opened:
    """The catalogue with a person's own cuts, and what is wrong with those that are not in it."""

    catalogue: Catalogue
    complaints: tuple[Complaint, ...] = ()


def open_catalogue(data_dir: Path) -> Opened:
    """Return the built-in catalogue with the own cuts of a data folder, and remember these."""
    built_in = read_catalogue(texts())
    joined = _joined(built_in.cuts, data_dir / OWN_CUTS)
    kept = _kept(data_dir / KEPT, built_in.cuts)
    now = kept | {cut.id: cut for cut in joined.own}
    if now != kept:
        _keep(data_dir / KEPT, now)
    present = {cut.id for cut in joined.cuts.cuts}
    past = tuple(cut for cut in now.values() if cut.id not in present)
    cuts = joined.cuts.model_copy(update={"past": past})
    return Opened(catalogue=built_in.model_copy(update={"cuts": cuts}), complaints=joined.complaints)


def _joined(built_in: Cuts, path: Path) -> Joined:
    try:
        if path.stat().st_size > LARGEST_BYTES:
            return Joined(cuts=built_in, complaints=(Complaint(entry="", why="the file is larger than a megabyte"),))
        text = path.read_text("utf-8")
    except FileNotFoundError:
        return Joined(cuts=built_in)
    except (OSError, UnicodeDecodeError) as error:
        log.warning("own cuts: %s", error)
        why = "it is not a text in UTF-8" if isinstance(error, UnicodeDecodeError) else "it cannot be opened"
        return Joined(cuts=built_in, complaints=(Complaint(entry="", why=why),))
    return join_own(built_in, text)


def _kept(path: Path, built_in: Cuts) -> dict[str, Cut]:
    """Return the own cuts that were read before, by id; one that an older program wrote otherwise goes by its like."""
    try:
        data = json.loads(path.read_text("utf-8"))
    except FileNotFoundError:
        return {}
    except (OSError, ValueError) as error:
        log.warning("own cuts of before: %s", error)
        return {}
    entries = data if isinstance(data, list) else []
    found = [cut for entry in entries if (cut := _cut(entry, built_in)) is not None]
    return {cut.id: cut for cut in found}


def _cut(entry: Any, built_in: Cuts) -> Cut | None:  # noqa: ANN401 - whatever JSON holds
    try:
        return Cut.model_validate(entry)
    except ValidationError:
        like = next((cut for cut in built_in.cuts if isinstance(entry, dict) and cut.id == entry.get("like")), None)
        if like is None or not isinstance(entry.get("id"), str):
            log.warning("an own cut of before cannot be read any more: %r", entry)
            return None
        return like.model_copy(update={"id": entry["id"], "name": str(entry.get("name", like.name)), "like": like.id})


def _keep(path: Path, cuts: dict[str, Cut]) -> None:
    fresh = path.with_name(f"{path.name}.{os.getpid()}")
    try:
        fresh.write_text(json.dumps([cut.model_dump(mode="json") for cut in cuts.values()], indent=1), "utf-8")
        fresh.replace(path)
    except OSError as error:
        log.warning("own cuts could not be kept: %s", error)
