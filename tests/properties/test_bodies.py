"""Every body that a fact can hold comes back from the database as it went in, whatever is in it."""

from __future__ import annotations

import dataclasses
import datetime as dt
import enum
import json
import types
import typing

from hypothesis import given, settings
from hypothesis import strategies as st

from bot.store.mappers import dump_body, load_body
from scheduler.facts import BODIES, Body, Corrected, Serving, Watch

FIRST, LAST = dt.datetime(2000, 1, 1), dt.datetime(2100, 1, 1)  # noqa: DTZ001 - the zone is given beside them
INSTANTS = st.datetimes(FIRST, LAST, timezones=st.just(dt.UTC))
WALLS = st.datetimes(FIRST, LAST).map(lambda wall: wall.replace(fold=0))
"""Wall times of the cook's own zone; in an hour that comes twice the first one is meant."""

SERVINGS = st.builds(
    Serving,
    zone=st.sampled_from(("UTC", "Europe/Lisbon", "Asia/Kolkata")),
    start=st.none() | WALLS,
    end=st.none() | WALLS,
)
WATCHES = st.builds(Watch, name=st.text(max_size=20), start=WALLS, end=WALLS)

PLAIN: dict[object, st.SearchStrategy[typing.Any]] = {
    str: st.text(max_size=40),
    float: st.floats(allow_nan=False, allow_infinity=False),
    int: st.integers(-(10**9), 10**9),
    bool: st.booleans(),
    dt.datetime: INSTANTS,
    dt.time: st.times(),
    Serving: SERVINGS,
    Watch: WATCHES,
    type(None): st.none(),
}


def _values(hint: typing.Any) -> st.SearchStrategy[typing.Any]:  # noqa: ANN401 - whatever a field is declared as
    """Return values of a declared type: plain ones, enums, unions and tuples of them."""
    if hint in PLAIN:
        return PLAIN[hint]
    if isinstance(hint, enum.EnumType):
        return st.sampled_from(list(hint))
    if dataclasses.is_dataclass(hint):
        return _built(hint)
    parts = typing.get_args(hint)
    if typing.get_origin(hint) is typing.Literal:
        return st.sampled_from(parts)
    if typing.get_origin(hint) in {typing.Union, types.UnionType}:
        return st.one_of(*map(_values, parts))
    assert typing.get_origin(hint) is tuple, hint
    if parts[-1] is Ellipsis:
        return st.lists(_values(parts[0]), max_size=4).map(tuple)
    return st.tuples(*map(_values, parts))


def _built(shape: typing.Any) -> st.SearchStrategy[typing.Any]:  # noqa: ANN401 - whatever a field is declared as
    """Return values of a dataclass, each field of its declared type."""
    hints = typing.get_type_hints(shape)
    return st.builds(shape, **{field.name: _values(hints[field.name]) for field in dataclasses.fields(shape)})


BODY: st.SearchStrategy[Body] = st.one_of(*(_built(shape) for shape in BODIES.values() if shape is not Corrected))


def _same_there_and_back(body: Body) -> bool:
    """Return whether a body read back is equal, and is written the same once more."""
    written = json.dumps(dump_body(body))
    again = load_body(body.kind, body.version, json.loads(written))
    return again == body and type(again) is type(body) and json.dumps(dump_body(again)) == written


@settings(max_examples=200)
@given(body=BODY)
def test_a_body_comes_back_equal(body: Body) -> None:
    """Through JSON and back: equal in every field and type, floats to the last bit, instants to the microsecond."""
    assert _same_there_and_back(body)


@settings(max_examples=50)
@given(body=BODY, at=st.none() | INSTANTS)
def test_a_correction_comes_back_with_what_it_holds(body: Body, at: dt.datetime | None) -> None:
    """The body inside a correction, even of a correction, is read by its own kind and version."""
    inner = Corrected(of="f1", body=body, happened_at=at)
    assert _same_there_and_back(inner)
    assert _same_there_and_back(Corrected(of="f2", body=inner))
