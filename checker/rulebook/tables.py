"""Published tables: read, typed, and looked up within their range only."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from checker import units
from checker.errors import Mistake, Mistakes
from checker.formulas.running import SLACK
from checker.formulas.scope import TableColumn
from checker.formulas.types import Text, Type
from checker.rulebook.files import File
from checker.rulebook.look_up import Key, LookUp
from checker.rulebook.model import CONFIDENCES, Basis, Doubt, Head, Source, Table
from checker.rulebook.parts import basis_from, type_of_unit

__all__ = ["build_table"]


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
    keys = [Key(k, v or {}) for k, v in data["keys"].items()]
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
            if cell is None and j < len(keys):
                mistakes.append(
                    file.mistake(f"the key '{keys[j].name}' of a row is blank", "rows", i, j)
                )
                continue
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
    keyed = [
        tuple(_si(v, k.unit) for v, k in zip(row[: len(keys)], keys, strict=True)) for row in rows
    ]
    if len(set(keyed)) != len(rows):
        raise Mistakes([file.mistake("two rows have the same keys", "rows")])
    types: tuple[tuple[str, Type], ...] = tuple(
        (k.name, type_of_unit(k.unit) if k.unit is not None else _texts(r[i] for r in rows))
        for i, k in enumerate(keys)
    )
    built = {}
    look_ups = {}
    for j, (column, spec) in enumerate(columns.items(), start=len(keys)):
        unit = units.need(str(spec["unit"])) if "unit" in spec else None
        gives = _texts(r[j] for r in rows) if unit is None else type_of_unit(unit)
        cells = {
            key: None if row[j] is None else _si(row[j], unit)
            for key, row in zip(keyed, rows, strict=True)
        }
        look_ups[column] = LookUp(data["title"], column, keys, cells)
        built[column] = TableColumn(
            types, gives, look_ups[column], bases.get(column, basis).confidence
        )
    doubtful = _doubtful(file, keys, look_ups)

    def confidence_of(column: str, *given: Any) -> str:
        rows = look_ups[column].rows_behind(given)
        weak = [doubtful[r, column] for r in rows if (r, column) in doubtful]
        return max(weak, key=CONFIDENCES.index) if weak else bases.get(column, basis).confidence

    def say_keys(*given: Any) -> str:
        return ", ".join(k.shown(g) for k, g in zip(keys, given, strict=True))

    return Table(
        name,
        data["title"],
        tuple(k.name for k in keys),
        built,
        bases,
        confidence_of,
        say_keys,
        tuple(rows),
        file.place(),
        data.get("note", ""),
        (
            *(Head(k.name, k.unit, "", k.between if k.is_number else "") for k in keys),
            *(
                Head(
                    name,
                    units.need(str(spec["unit"])) if "unit" in spec else None,
                    spec.get("is", ""),
                )
                for name, spec in columns.items()
            ),
        ),
        tuple(
            Doubt(tuple(d["row"]), d["column"], d["confidence"], d.get("note", ""))
            for d in data.get("doubtful", ())
        ),
    )


def _texts(cells: Iterable[Any]) -> Text:
    """The type of a key or column of words: one of those that stand there."""
    return Text(tuple(dict.fromkeys(str(cell) for cell in cells if cell is not None)))


def _doubtful(
    file: File, keys: list[Key], columns: dict[str, LookUp]
) -> dict[tuple[tuple[Any, ...], str], str]:
    """The confidence of single cells; raises Mistakes for a cell that the table does not have."""
    found: dict[tuple[tuple[Any, ...], str], str] = {}
    mistakes = []
    for i, entry in enumerate(file.data.get("doubtful", ())):
        row, column = entry["row"], entry["column"]
        cell = None
        if column in columns and len(row) == len(keys):
            cell = next(
                (
                    r
                    for r in columns[column].cells
                    if all(_same(_si(x, k.unit), y) for x, y, k in zip(row, r, keys, strict=True))
                ),
                None,
            )
        if cell is None:
            mistakes.append(
                file.mistake(
                    "a doubtful cell that the table does not have",
                    "doubtful",
                    i,
                    found=f"{', '.join(map(str, row))}: {column}",
                    expected=f"the keys of a row ({', '.join(k.name for k in keys)}) and a column",
                )
            )
        else:
            found[cell, column] = entry["confidence"]
    if mistakes:
        raise Mistakes(mistakes)
    return found


def _same(left: Any, right: Any) -> bool:
    if isinstance(left, str) or isinstance(right, str):
        return bool(left == right)
    return bool(abs(left - right) <= SLACK * max(abs(left), abs(right)))


def _si(value: Any, unit: units.Unit | None) -> Any:
    return value if unit is None else value * unit.factor + unit.offset
