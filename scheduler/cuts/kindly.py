"""Says what is wrong with the figures of a cut so that a cook can put it right: which figure, why, what would work.

It judges nothing itself; the rules stand beside the figures.
"""

from __future__ import annotations

import difflib
from typing import Any

from pydantic import ValidationError
from pydantic_core import ErrorDetails

from scheduler.cuts.cut import Cut

_MOST_NAMED = 3
"""So many missing figures are named one by one; of more only these and how many."""

_NEEDS = {
    "float_parsing": "needs a number, with a point and without a unit",
    "float_type": "needs a number, with a point and without a unit",
    "finite_number": "needs a number",
    "int_parsing": "needs a whole number",
    "int_type": "needs a whole number",
    "int_from_float": "needs a whole number",
    "string_type": "needs words in quotes",
    "string_too_short": "must not be empty",
    "string_too_long": "is too long",
    "bool_type": "needs true or false",
    "bool_parsing": "needs true or false",
    "tuple_type": "needs a list in brackets, such as [3, 5]",
    "model_type": "needs a table, such as { low = 1.5, typical = 2.0, high = 3.0 }",
    "model_attributes_type": "needs a table, such as { low = 1.5, typical = 2.0, high = 3.0 }",
    "dict_type": "needs a table with names and values",
}


def what_is_wrong(error: ValidationError, figures: dict[str, Any]) -> list[str]:
    """Return one sentence for each thing that is wrong with the figures of one cut."""
    errors = error.errors(include_url=False)
    missing = [_place(one) for one in errors if one["type"] == "missing"]
    told = [_one(one) for one in errors if one["type"] != "missing"]
    if missing:
        named = ", ".join(missing[:_MOST_NAMED])
        more = f" and {len(missing) - _MOST_NAMED} more" if len(missing) > _MOST_NAMED else ""
        hint = "" if "like" in figures else '; with a line such as like = "brisket_packer" they come from that cut'
        told.append(f"{named}{more} {'is' if len(missing) == 1 else 'are'} missing{hint}")
    return told


def _one(one: ErrorDetails) -> str:
    place, given = _place(one), one.get("input")
    match one["type"]:
        case "value_error":
            words = one["msg"].removeprefix("Value error, ")
            return f"{place}: {words}" if place else _after_id(words)
        case "extra_forbidden":
            near = difflib.get_close_matches(place.rpartition(".")[2], list(Cut.model_fields), n=1, cutoff=0.6)
            hint = f"did you mean {near[0]}?" if near and "." not in place else "take it out"
            return f"{place}: no figure has this name; {hint}"
        case "enum" | "literal_error":
            return f"{place}: {given!r} is none of {one.get('ctx', {}).get('expected', '')}"
        case "greater_than" | "greater_than_equal" | "less_than" | "less_than_equal":
            return f"{place}: {given!r} cannot be; {one['msg'].removeprefix('Input ').replace('should', 'it must')}"
        case "string_pattern_mismatch":
            return f"{place}: {given!r} cannot be; small letters, figures and _, beginning with a letter, up to 40"
        case "too_long":
            return f"{place}: has too many figures"
        case kind:
            return f"{place}: {given!r} {_NEEDS.get(kind, 'cannot be, ' + one['msg'].lower())}"


def _place(one: ErrorDetails) -> str:
    return ".".join(str(part) for part in one["loc"])


def _after_id(words: str) -> str:
    """Return a rule's words without the id of the cut, which the complaint names already."""
    head, colon, rest = words.partition(": ")
    return rest if colon and " " not in head else words
