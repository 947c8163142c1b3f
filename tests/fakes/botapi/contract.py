"""Checks a call against the project's contract table: names, required parameters, types, lengths. Pure.

It must not know chats or messages, only forms.
"""

from __future__ import annotations

import base64
import dataclasses
import json
import re
import tomllib
from collections.abc import Mapping
from pathlib import Path
from typing import Any

Json = dict[str, Any]
"""JSON objects as the server keeps them."""

_ARRAY = "Array of "
_MOST_BITS = 52  # chat and user ids have at most 52 significant bits (Bot API 10.1, Chat.id)


@dataclasses.dataclass(frozen=True, kw_only=True)
class Checked:
    """A call as read: parameters with their types, and every way in which it breaks the contract."""

    parameters: Json
    problems: tuple[str, ...]


class Contract:
    """The table of methods and types."""

    def __init__(self) -> None:
        """Read the table."""
        table = tomllib.loads(Path(__file__).with_name("contract.toml").read_text(encoding="utf-8"))
        self.version: str = table["version"]
        self.methods: Mapping[str, Mapping[str, Json]] = table["methods"]
        self.types: Mapping[str, Mapping[str, Json]] = table["types"]

    def check(self, method: str, sent: Mapping[str, object], *, as_text: bool) -> Checked:
        """Check one call; `as_text` says that values came as form fields, everything but strings as JSON."""
        table = self.methods.get(method)
        if table is None:
            return Checked(parameters=dict(sent), problems=(f"{method}: not in the contract",))
        problems: list[str] = []
        read: Json = {}
        for name, value in sent.items():
            if name not in table:
                problems.append(f"{method}.{name}: not in the contract")
                continue
            read[name] = _from_text(value, table[name]["types"]) if as_text else value
        problems += self._object(read, table, where=method)
        return Checked(parameters=read, problems=tuple(problems))

    def _object(self, value: object, fields: Mapping[str, Json], *, where: str) -> list[str]:
        if not isinstance(value, dict):
            return [f"{where}: not an object"]
        problems = [
            f"{where}.{name}: required" for name, field in fields.items() if field.get("required") and name not in value
        ]
        problems += [f"{where}.{name}: not in the contract" for name in value if name not in fields]
        for name, field in fields.items():
            if name in value:
                problems += self._field(value[name], field, where=f"{where}.{name}")
        return problems

    def _field(self, value: object, field: Json, *, where: str) -> list[str]:
        tries = [self._typed(value, kind, field, where=where) for kind in field["types"]]
        return min(tries, key=len)

    def _typed(self, value: object, kind: str, field: Json, *, where: str) -> list[str]:
        if kind.startswith(_ARRAY):
            if not isinstance(value, list):
                return [f"{where}: not an array"]
            inner = {key: limit for key, limit in field.items() if key != "most"}
            found = [
                problem
                for number, item in enumerate(value)
                for problem in self._typed(item, kind.removeprefix(_ARRAY), inner, where=f"{where}[{number}]")
            ]
            return found + ([f"{where}: too many"] if _count(value) > field.get("most", _count(value)) else [])
        if kind == "Integer":
            return _integer(value, field, where)
        if kind == "Boolean":
            return [] if isinstance(value, bool) else [f"{where}: not a truth value"]
        if kind == "String":
            return _string(value, field, where)
        if kind == "InputFile":
            return _file(value, field, where)
        return self._object(value, self.types[kind], where=where)


def _integer(value: object, field: Json, where: str) -> list[str]:
    if not isinstance(value, int) or isinstance(value, bool):
        return [f"{where}: not an integer"]
    if value.bit_length() > _MOST_BITS or not field.get("min", value) <= value <= field.get("max", value):
        return [f"{where}: {value} out of bounds"]
    return []


def _string(value: object, field: Json, where: str) -> list[str]:
    if not isinstance(value, str):
        return [f"{where}: not a string"]
    size, size_bytes = len(value.encode("utf-16-le")) // 2, len(value.encode())
    problems = []
    if not field.get("min", size) <= size <= field.get("max", size):
        problems.append(f"{where}: {size} characters")
    if not field.get("min_bytes", size_bytes) <= size_bytes <= field.get("max_bytes", size_bytes):
        problems.append(f"{where}: {size_bytes} bytes")
    if value not in field.get("one_of", [value]):
        problems.append(f"{where}: {value!r} is not one of the allowed values")
    if not re.fullmatch(field.get("pattern", ".*"), value, re.DOTALL):
        problems.append(f"{where}: {value!r} has the wrong form")
    return problems


def _file(value: object, field: Json, where: str) -> list[str]:
    """Check a file that came as a part of a form: its name and its bytes as base64."""
    if not isinstance(value, dict) or not {"file_name", "mime_type", "base64"} <= value.keys():
        return [f"{where}: not an uploaded file"]
    size_bytes = len(base64.b64decode(value["base64"]))
    problems = [] if value["file_name"] else [f"{where}: a file without a name"]
    if not 0 < size_bytes <= field["max_bytes"]:
        problems.append(f"{where}: {size_bytes} bytes")
    return problems


def _count(value: list[Any]) -> int:
    """Return how many items there are, inner arrays counted by their items."""
    return sum(_count(item) if isinstance(item, list) else 1 for item in value)


def _from_text(value: object, types: list[str]) -> object:
    """Return the value of a form field: a string stays one where a string is allowed, all else is JSON."""
    if not isinstance(value, str) or "String" in types:
        return value
    try:
        return json.loads(value)
    except ValueError:
        return value
