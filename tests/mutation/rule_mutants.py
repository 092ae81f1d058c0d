"""Small wrong versions of a rule's, a derived value's and a table's file."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping
from typing import Any, NamedTuple

from formula_mutants import slips

__all__ = ["Mutant", "derived_mutants", "rule_mutants", "table_mutants"]

_NUMBER = re.compile(r"([+-]?[0-9.]+(?:[eE][+-]?[0-9]+)?)(\s.*)?", re.S)
_DATE = re.compile(r"\d{4}-\d\d-\d\d")
_SHARES = (0.02, -0.02)
_BETWEEN = {
    "exact": ("next-higher", "next-lower"),
    "interpolate": ("next-higher", "next-lower"),
    "next-higher": ("next-lower", "exact"),
    "next-lower": ("next-higher", "exact"),
}


class Mutant(NamedTuple):
    """One wrong version: where, what, and the data of the file as it then reads."""

    owner: str
    at: str
    kind: str
    change: str
    data: dict[str, Any]

    @property
    def key(self) -> tuple[str, str, str]:
        """What the register of survivors knows it by."""
        return self.owner, self.at, self.change


def rule_mutants(
    name: str,
    data: Mapping[str, Any],
    columns: Mapping[str, tuple[str, ...]],
    can_be_equal: Callable[..., bool],
) -> Iterator[Mutant]:
    """The wrong versions of a rule."""
    places: list[tuple[str, ...]] = [("applies",)] if "applies" in data else []
    places += [("working", line, "formula") for line in data.get("working", {})]
    places += [("compare", side) for side in ("demand", "limit") if "compare" in data]
    places += [("expect", grade) for grade in data["expect"]]
    yield from _formulas(name, data, places, columns, can_be_equal)
    if "applies" in data:
        text = _text(data["applies"])
        yield Mutant(
            name,
            "applies",
            "negation",
            f"{' '.join(text.split())} -> not",
            _with(data, ("applies",), f"not ({text})"),
        )
    if "compare" in data:
        compare = data["compare"]
        swapped = {**compare, "demand": compare["limit"], "limit": compare["demand"]}
        yield Mutant(
            name, "compare", "sides", "demand and limit swapped", {**data, "compare": swapped}
        )
    expect = data["expect"]
    grades = list(expect)
    for i, one in enumerate(grades):
        yield Mutant(
            name, f"expect.{one}", "condition", "always holds", _with(data, ("expect", one), "True")
        )
        for other in grades[i + 1 :]:
            swapped = {**expect, one: expect[other], other: expect[one]}
            yield Mutant(
                name, "expect", "grades", f"{one} and {other} swapped", {**data, "expect": swapped}
            )
    yield from _parameters(name, data)


def derived_mutants(
    name: str,
    data: Mapping[str, Any],
    columns: Mapping[str, tuple[str, ...]],
    can_be_equal: Callable[..., bool],
) -> Iterator[Mutant]:
    """The wrong versions of a derived value."""
    places = [("working", line, "formula") for line in data.get("working", {})]
    yield from _formulas(name, data, [*places, ("result", "formula")], columns, can_be_equal)
    yield from _parameters(name, data)


def table_mutants(name: str, data: Mapping[str, Any]) -> Iterator[Mutant]:
    """The wrong versions of a table: what a number between two rows takes."""
    for key, entry in data["keys"].items():
        if not entry or "unit" not in entry:
            continue
        was = entry.get("between", "exact")
        for now in _BETWEEN[was]:
            wrong = _with(data, ("keys", key, "between"), now)
            yield Mutant(name, f"keys.{key}", "between", f"{was} -> {now}", wrong)


def _formulas(
    name: str,
    data: Mapping[str, Any],
    places: list[tuple[str, ...]],
    columns: Mapping[str, tuple[str, ...]],
    can_be_equal: Callable[..., bool],
) -> Iterator[Mutant]:
    for place in places:
        entry: Any = data
        for step in place:
            entry = entry[step]
        at = ".".join(step for step in place if step != "formula") or place[0]
        for slip in slips(_text(entry), columns, can_be_equal):
            yield Mutant(name, at, slip.kind, slip.change, _with(data, place, slip.formula))


def _parameters(name: str, data: Mapping[str, Any]) -> Iterator[Mutant]:
    for parameter, entry in data.get("parameters", {}).items():
        for share in _SHARES:
            for was, now in _moved(entry["value"], share):
                wrong = _with(data, ("parameters", parameter, "value"), now)
                told = f"{was} {share:+.0%}"
                yield Mutant(name, f"parameters.{parameter}", "parameter", told, wrong)


def _moved(value: Any, share: float) -> Iterator[tuple[str, Any]]:
    """A parameter's value moved by a share, if it is a number that can be moved."""
    if isinstance(value, bool):
        return
    if isinstance(value, (int, float)):
        if value:
            yield str(value), value * (1 + share)
    elif isinstance(value, list):
        for i, item in enumerate(value):
            for was, now in _moved(item, share):
                yield f"{was} in the list", [*value[:i], now, *value[i + 1 :]]
    elif isinstance(value, str) and not _DATE.match(value):
        match = _NUMBER.fullmatch(value.strip())
        if match is not None and float(match[1]):
            yield value, f"{float(match[1]) * (1 + share)!r}{match[2] or ''}"


def _with(data: Mapping[str, Any], place: tuple[str, ...], value: Any) -> dict[str, Any]:
    """A copy of a file's data with one entry replaced; all else is shared."""
    head, *rest = place
    inner = value if not rest else _with(data[head] or {}, tuple(rest), value)
    return {**data, head: inner}


def _text(entry: Any) -> str:
    text = str(entry).strip()
    return {"true": "True", "false": "False"}.get(text.lower(), text)
