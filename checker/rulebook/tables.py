"""Published tables: read, typed, and looked up within their range only."""

from __future__ import annotations

import bisect
from typing import Any

from checker import units
from checker.absent import OutOfReach
from checker.errors import Mistake, Mistakes
from checker.formulas.running import SLACK
from checker.formulas.scope import TableColumn
from checker.formulas.types import Text, Type
from checker.quantities import format_number
from checker.rulebook.files import File
from checker.rulebook.model import Basis, Source, Table
from checker.rulebook.parts import basis_from, type_of_unit

__all__ = ["build_table"]


class _Key:
    """One key of a table: its name, unit and what a number between two rows takes."""

    def __init__(self, name: str, entry: dict[str, Any]) -> None:
        self.name = name
        self.unit = units.find(str(entry["unit"])) if "unit" in entry else None
        self.between = entry.get("between", "exact")

    @property
    def is_number(self) -> bool:
        return self.unit is not None

    def shown(self, value: Any) -> str:
        if self.unit is None or not isinstance(value, (int, float)):
            return f"'{value}'"
        return f"{format_number((value - self.unit.offset) / self.unit.factor, 4)} {self.unit.shown}".strip()


def build_table(file: File, name: str, sources: dict[str, Source]) -> Table:
    """A table from its file.

    Raises Mistakes for rows that do not fit the keys and columns.
    """
    data = file.data
    mistakes: list[Mistake] = []
    for group in ("keys", "columns"):
        for entry, spec in data[group].items():
            if spec and "unit" in spec and units.find(str(spec["unit"])) is None:
                mistakes.append(
                    file.mistake(
                        f"unknown unit '{spec['unit']}'",
                        group,
                        entry,
                        "unit",
                        hint=f"did you mean '{units.nearest(str(spec['unit']))}'?",
                    )
                )
    if mistakes:
        raise Mistakes(mistakes)
    keys = [_Key(k, v or {}) for k, v in data["keys"].items()]
    columns = {k: v or {} for k, v in data["columns"].items()}
    width = len(keys) + len(columns)
    rows: list[tuple[Any, ...]] = []
    for i, row in enumerate(data["rows"]):
        if len(row) != width:
            mistakes.append(
                file.mistake(
                    f"a row of {len(row)} cells in a table of {width}",
                    "rows",
                    i,
                    expected=", ".join([k.name for k in keys] + list(columns)),
                )
            )
            continue
        rows.append(tuple(row))
        for j, cell in enumerate(row):
            numeric = (
                keys[j].is_number
                if j < len(keys)
                else "unit" in list(columns.values())[j - len(keys)]
            )
            if cell is not None and numeric != isinstance(cell, (int, float)):
                mistakes.append(
                    file.mistake(
                        "a text where a number belongs"
                        if numeric
                        else "a number where a text belongs",
                        "rows",
                        i,
                        j,
                        found=str(cell),
                        hint="" if numeric else "put it in quotes",
                    )
                )
    if mistakes:
        raise Mistakes(mistakes)
    basis = basis_from(file, sources, "basis")
    bases: dict[str, Basis] = {"": basis}
    for column, spec in columns.items():
        if "basis" in spec:
            bases[column] = basis_from(file, sources, "columns", column, "basis")
    built = {}
    for j, (column, spec) in enumerate(columns.items()):
        gives = (
            type_of_unit(units.need(str(spec["unit"])))
            if "unit" in spec
            else Text(
                tuple(
                    dict.fromkeys(
                        str(r[len(keys) + j]) for r in rows if r[len(keys) + j] is not None
                    )
                )
            )
        )
        unit = units.need(str(spec["unit"])) if "unit" in spec else None
        cells = {
            tuple(_si(v, k.unit) for v, k in zip(r[: len(keys)], keys, strict=True)): (
                None if r[len(keys) + j] is None else _si(r[len(keys) + j], unit)
            )
            for r in rows
        }
        if len(cells) != len(rows):
            raise Mistakes([file.mistake("two rows have the same keys", "rows")])
        types: tuple[tuple[str, Type], ...] = tuple(
            (
                k.name,
                type_of_unit(k.unit)
                if k.unit is not None
                else Text(tuple(dict.fromkeys(str(r[i]) for r in rows))),
            )
            for i, k in enumerate(keys)
        )
        built[column] = TableColumn(types, gives, _LookUp(data["title"], column, keys, cells))
    doubtful = {
        (tuple(str(x) for x in d["row"]), d["column"]): d["confidence"]
        for d in data.get("doubtful", ())
    }

    def confidence_of(column: str, *given: Any) -> str:
        row = tuple(
            str(g)
            if not isinstance(g, float)
            else format_number(
                (g - (k.unit.offset if k.unit else 0)) / (k.unit.factor if k.unit else 1), 6
            )
            for g, k in zip(given, keys, strict=True)
        )
        found = doubtful.get((row, column))
        return found or bases.get(column, basis).confidence

    return Table(
        name,
        data["title"],
        tuple(k.name for k in keys),
        built,
        bases,
        confidence_of,
        tuple(rows),
        file.place(),
        data.get("note", ""),
    )


def _si(value: Any, unit: units.Unit | None) -> Any:
    return value if unit is None else value * unit.factor + unit.offset


class _LookUp:
    """One column's look-up; outside the rows it refuses, it never extrapolates."""

    __slots__ = ("cells", "column", "keys", "steps", "title")

    def __init__(
        self, title: str, column: str, keys: list[_Key], cells: dict[tuple[Any, ...], Any]
    ) -> None:
        self.title = title
        self.column = column
        self.keys = keys
        self.cells = cells
        # For each beginning of a row's keys, the numbers that the next key takes there.
        self.steps: dict[tuple[Any, ...], list[float]] = {}
        for row in cells:
            for i, key in enumerate(keys):
                if key.is_number:
                    steps = self.steps.setdefault(row[:i], [])
                    if row[i] not in steps:
                        bisect.insort(steps, row[i])

    def __call__(self, *given: Any) -> Any:
        value = self.cells.get(given)
        return self.settle(given, 0, ()) if value is None else value

    def settle(self, given: tuple[Any, ...], i: int, fixed: tuple[Any, ...]) -> Any:
        """Settle the keys from left to right; only interpolation looks at two rows."""
        if i == len(self.keys):
            value = self.cells.get(fixed)
            if value is None:
                raise self.refusal(given)
            return value
        key, wanted = self.keys[i], given[i]
        if not key.is_number:
            return self.settle(given, i + 1, (*fixed, wanted))
        steps = self.steps.get(fixed, [])
        position = bisect.bisect_left(steps, wanted)
        for near in steps[max(position - 1, 0) : position + 1]:
            if abs(near - wanted) <= SLACK * max(abs(near), abs(wanted)):
                return self.settle(given, i + 1, (*fixed, near))
        below = steps[position - 1] if position > 0 else None
        above = steps[position] if position < len(steps) else None
        if key.between == "next-higher" and above is not None:
            return self.settle(given, i + 1, (*fixed, above))
        if key.between == "next-lower" and below is not None:
            return self.settle(given, i + 1, (*fixed, below))
        if key.between == "interpolate" and below is not None and above is not None:
            low = self.settle(given, i + 1, (*fixed, below))
            high = self.settle(given, i + 1, (*fixed, above))
            return low + (high - low) * (wanted - below) / (above - below)
        raise self.refusal(given)

    def refusal(self, given: tuple[Any, ...]) -> OutOfReach:
        """What was asked for, and what the table covers."""
        asked = ", ".join(
            f"{k.name.replace('_', ' ')} {k.shown(g)}"
            for k, g in zip(self.keys, given, strict=True)
        )
        ranges = []
        for i, key in enumerate(self.keys):
            values = list(
                dict.fromkeys(row[i] for row, cell in self.cells.items() if cell is not None)
            )
            if key.is_number:
                covered = f"{key.shown(min(values))} to {key.shown(max(values))}"
            else:
                covered = ", ".join(map(str, values[:12])) + (", ..." if len(values) > 12 else "")
            ranges.append(f"{key.name.replace('_', ' ')} {covered}")
        return OutOfReach(
            f"The table '{self.title}' gives no {self.column.replace('_', ' ')} for {asked}; it covers {'; '.join(ranges)}."
        )
