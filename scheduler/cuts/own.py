"""A person's own cuts: read from the text of their file, entry by entry, and joined to the built-in ones.

A broken entry takes nothing else away: it is told about as a `Complaint`, and all others count. It reads text, never
files, and changes no safe minimum.
"""

from __future__ import annotations

import dataclasses
import difflib
import re
import tomllib
from typing import Any

from pydantic import ValidationError

from scheduler.cut_names import name_key
from scheduler.cuts.catalogue import Cuts
from scheduler.cuts.cut import Cut
from scheduler.cuts.kindly import what_is_wrong
from scheduler.errors import CatalogueError

MOST = 200
"""Own cuts that are read; nobody cooks more kinds of meat."""

_OWN_ALONE = {"id", "name", "also_called", "like", "several"}
"""What an own cut never takes over from the one it is like."""


@dataclasses.dataclass(frozen=True, kw_only=True)
class Complaint:
    """What is wrong with an entry of a person's own file: which entry (empty: the file), why, what would work."""

    entry: str
    why: str


@dataclasses.dataclass(frozen=True, kw_only=True)
class Joined:
    """The built-in cuts and those of the own file that are right, and what is wrong with the others."""

    cuts: Cuts
    own: tuple[Cut, ...] = ()
    complaints: tuple[Complaint, ...] = ()


def join_own(built_in: Cuts, text: str) -> Joined:
    """Return the built-in cuts with those of a person's own file.

    An entry may be like a built-in cut and then states only what differs; a table such as `mass_kg` may be stated in
    part. Nothing raises for what a person wrote.
    """
    try:
        data = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        why = f"this is not TOML, {_lowered(str(error))}; numbers need a point, words need quotes"
        return Joined(cuts=built_in, complaints=(Complaint(entry="", why=why),))
    entries = data.pop("cuts", [])
    complaints = [Complaint(entry="", why=_no_place(key)) for key in data]
    if not isinstance(entries, list) or not all(isinstance(entry, dict) for entry in entries):
        return Joined(cuts=built_in, complaints=(Complaint(entry="", why="each cut begins with a line [[cuts]]"),))
    joined, own = built_in, []
    for number, entry in enumerate(entries[:MOST], start=1):
        called = _called(entry, number)
        try:
            cut = own_cut(entry, built_in)
            joined = _with(joined, cut)
        except CatalogueError as error:
            complaints.append(Complaint(entry=called, why=str(error)))
        else:
            own.append(cut)
    if len(entries) > MOST:
        complaints.append(Complaint(entry="", why=f"only the first {MOST} cuts are read"))
    return Joined(cuts=joined, own=tuple(own), complaints=tuple(complaints))


def own_cut(entry: dict[str, Any], built_in: Cuts) -> Cut:
    """Return the cut that an entry of a person's own file describes.

    Raises
    ------
    CatalogueError
        When something is wrong; the message says which figure, why, and what would work.
    """
    figures: dict[str, Any] = {"also_called": [], **entry}
    like = figures.get("like")
    if like is not None:
        figures = _inherited(figures, _like(like, built_in))
    if "id" not in figures and isinstance(figures.get("name"), str):
        figures["id"] = id_of(figures["name"])
    figures.setdefault("basis", "the person's own figures")
    figures.setdefault("composition_source", "the person's own figures")
    try:
        return Cut.model_validate(figures)
    except ValidationError as error:
        raise CatalogueError("; ".join(what_is_wrong(error, figures))) from error


def id_of(name: str) -> str:
    """Return the id of an own cut that states none: "own_" and its name in plain letters."""
    plain = re.sub(r"[^a-z0-9]+", "_", name.casefold().replace("'", "")).strip("_")
    return f"own_{plain}"[:40].rstrip("_")


def _like(like: object, built_in: Cuts) -> Cut:
    known = [cut.id for cut in built_in.cuts if cut.id not in built_in.own]
    if like in known:
        return built_in.get(str(like))
    named = built_in.named(str(like))
    near = [named.id] if named is not None else difflib.get_close_matches(str(like), known, n=2, cutoff=0.6)
    hint = f"did you mean {' or '.join(near)}?" if near else f"there are {', '.join(known)}"
    raise CatalogueError(f"like: there is no built-in cut {str(like)!r}; {hint}")


def _inherited(entry: dict[str, Any], like: Cut) -> dict[str, Any]:
    """Return the figures of the built-in cut with those of the entry laid over; tables are laid over key by key."""
    figures = like.model_dump(mode="json", exclude=_OWN_ALONE)
    own = {key: value for key, value in entry.items() if key not in _OWN_ALONE}
    for key, value in own.items():
        held = figures.get(key)
        figures[key] = {**held, **value} if isinstance(held, dict) and isinstance(value, dict) else value
    if own and "basis" not in own:
        figures["basis"] = f"own figures: {', '.join(sorted(own))}; the rest as {like.id}: {like.basis}"
    figures["sources"] = {key: source for key, source in figures["sources"].items() if key not in own}
    return figures | {key: entry[key] for key in _OWN_ALONE & entry.keys()}


def _with(cuts: Cuts, own: Cut) -> Cuts:
    """Return the cuts with one more; raise `CatalogueError` when it does not fit the others."""
    for cut in cuts.cuts:
        if cut.id == own.id:
            raise CatalogueError(f"id: {own.id} is the id of {cut.name!r} already; choose another id, or leave it out")
        for name in (cut.id, cut.name, *cut.also_called):
            mine = next((one for one in (own.name, *own.also_called) if name_key(one) == name_key(name)), None)
            if mine is not None:
                raise CatalogueError(f"{mine!r} is what {cut.name!r} is called already; choose another name")
    try:
        return Cuts(safety=cuts.safety, cuts=(*cuts.cuts, own), own=cuts.own | {own.id}, past=cuts.past)
    except ValidationError as error:
        raise CatalogueError("; ".join(what_is_wrong(error, {}))) from error


def _no_place(key: str) -> str:
    if key == "safety":
        return "the safe minimum temperatures are the published ones and no file changes them; take [safety] out"
    return f"{key!r} means nothing here; figures of a cut stand under its line [[cuts]]"


def _called(entry: dict[str, Any], number: int) -> str:
    called = next((entry[key] for key in ("name", "id") if isinstance(entry.get(key), str)), "")
    return called[:60] or f"cut no. {number}"


def _lowered(words: str) -> str:
    return words[:1].lower() + words[1:]
