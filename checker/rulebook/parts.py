"""The parts that rules, derived values and tables are made of."""

from __future__ import annotations

from typing import Any

from checker import units
from checker.errors import Mistake, Mistakes, near
from checker.formulas.compiling import compile_formula
from checker.formulas.functions import CONSTANTS
from checker.formulas.grammar import FormulaError
from checker.formulas.scope import Compiled, Scope
from checker.formulas.types import FLAG, PLAIN, Items, Numeric, Text, Type, say
from checker.installation.binding import seconds_of
from checker.rulebook.files import File
from checker.rulebook.model import Basis, Line, Parameter, Source
from checker.units import Unit
from checker.units.quantities import NotAQuantity, parse

__all__ = [
    "bases_from",
    "basis_from",
    "formula_from",
    "line_from",
    "lines_from",
    "parameter_value",
    "parameters_from",
    "type_of_unit",
]


def basis_from(file: File, sources: dict[str, Source], *path: str | int) -> Basis:
    """The basis at a part of a file; raises Mistakes for an unknown source."""
    entry = file.data
    for step in path:
        entry = entry[step]
    source = sources.get(entry["source"])
    if source is None:
        raise Mistakes(
            [
                file.mistake(
                    f"unknown source '{entry['source']}'",
                    *path,
                    "source",
                    hint=near(entry["source"], sources) or "add it to sources.yaml",
                )
            ]
        )
    return Basis(source, entry["clause"], entry["confidence"], entry.get("note", ""))


def bases_from(file: File, sources: dict[str, Source]) -> tuple[Basis, ...]:
    """All the bases of a rule or a derived value."""
    return tuple(basis_from(file, sources, "basis", i) for i in range(len(file.data["basis"])))


def type_of_unit(unit: Unit) -> Numeric:
    """The type of a number that is written in a unit."""
    return Numeric(unit.dimension, "temperature" if unit.kind == "temperature" else None)


def parameter_value(value: Any) -> tuple[Type, Any, Unit | None]:
    """The type, the SI value and the unit of a parameter as it was written.

    A text that is a value with a unit is that value; any other text is a text.
    Raises NotAQuantity for a text that tries to be a value and is not one.

    >>> parameter_value("300 N")[1]
    300.0
    """
    if isinstance(value, bool):
        return FLAG, value, None
    if isinstance(value, (int, float)):
        return PLAIN, value, None
    if isinstance(value, list):
        if all(isinstance(v, str) for v in value):
            return Items(Text(tuple(value))), tuple(value), None
        if all(isinstance(v, (int, float)) for v in value):
            return Items(PLAIN), tuple(value), None
        raise NotAQuantity("a list of texts and numbers", "write one kind")
    seconds = seconds_of(value)
    if seconds is not None:
        return Numeric(units.need("s").dimension, "date"), seconds, None
    if value[:1].isdigit() or value[:1] in "+-" or value[:1] == ".":
        quantity = parse(value)
        if not quantity.is_exact:
            raise NotAQuantity("a parameter with a tolerance", "write the one value that is used")
        return type_of_unit(quantity.unit), quantity.value, quantity.unit
    return Text((value,)), value, None


_RESERVED = ("demand", "limit", "utilisation", "subject", "derived", "table", *CONSTANTS)


def _taken(name: str, scope: Scope) -> bool:
    """Whether a name stands for something else already, which it would hide."""
    return name in scope.layout.root.children or name in scope.members or name in _RESERVED


def parameters_from(file: File, sources: dict[str, Source], scope: Scope) -> dict[str, Parameter]:
    """The parameters of a rule or a derived value; raises Mistakes."""
    found: dict[str, Parameter] = {}
    mistakes: list[Mistake] = []
    for name, entry in file.data.get("parameters", {}).items():
        if _taken(name, scope):
            mistakes.append(
                file.mistake(
                    f"the name '{name}' is taken", "parameters", name, hint="choose another"
                )
            )
            continue
        try:
            kind, value, unit = parameter_value(entry["value"])
        except NotAQuantity as error:
            mistakes.append(
                file.mistake(
                    f"the parameter '{name}': {error.what}",
                    "parameters",
                    name,
                    "value",
                    found=repr(entry["value"]),
                    hint=error.hint,
                )
            )
            continue
        basis = basis_from(file, sources, "parameters", name, "basis")
        text = (
            ", ".join(map(str, entry["value"]))
            if isinstance(entry["value"], list)
            else str(entry["value"])
        )
        found[name] = Parameter(
            name, kind, value, text, unit, basis, entry["why"], file.place("parameters", name)
        )
    if mistakes:
        raise Mistakes(mistakes)
    return found


def formula_from(file: File, scope: Scope, *path: str | int) -> Compiled:
    """The formula at a part of a file, checked and compiled; raises Mistakes with its column."""
    entry = file.data
    for step in path:
        entry = entry[step]
    text = str(entry).lower() if isinstance(entry, bool) else str(entry)
    text = {"true": "True", "false": "False"}.get(text, text)
    try:
        return compile_formula(text, scope)
    except FormulaError as error:
        raise Mistakes(
            [
                file.mistake(
                    error.what,
                    *path,
                    column=error.column,
                    found=" ".join(text.split())[:120],
                    hint=error.hint,
                )
            ]
        ) from None


def line_from(
    file: File,
    name: str,
    formula: Compiled,
    unit_path: tuple[str | int, ...],
    unit_text: str | None,
    meaning: str = "",
) -> Line:
    """A line with its declared unit held against the formula's dimension; raises Mistakes."""
    kind = formula.type
    if not isinstance(kind, Numeric):
        if unit_text is not None:
            raise Mistakes(
                [
                    file.mistake(
                        f"'{name}' has a unit, but its formula gives {say(kind)}",
                        *unit_path,
                        found=unit_text,
                        hint="take the unit away",
                    )
                ]
            )
        return Line(name, formula, None, meaning)
    if kind.point == "date":
        return Line(name, formula, None, meaning)
    if unit_text is None:
        raise Mistakes(
            [
                file.mistake(
                    f"'{name}' has no unit",
                    *unit_path,
                    expected=f"a unit of {say(kind)}",
                    hint="write 'unit: 1' for a plain number",
                )
            ]
        )
    unit = units.find(unit_text)
    if unit is None:
        raise Mistakes(
            [
                file.mistake(
                    f"unknown unit '{unit_text}'",
                    *unit_path,
                    hint=f"did you mean '{units.nearest(unit_text)}'?",
                )
            ]
        )
    if unit.dimension != kind.dimension and not kind.is_zero:
        raise Mistakes(
            [
                file.mistake(
                    f"'{name}' is not in its unit",
                    *unit_path,
                    found=f"{unit_text}: {say(type_of_unit(unit))}",
                    expected=f"what the formula gives: {say(kind)}",
                )
            ]
        )
    if (unit.kind == "temperature") != (kind.point == "temperature"):
        raise Mistakes(
            [
                file.mistake(
                    f"'{name}' mixes a temperature with a difference of temperatures",
                    *unit_path,
                    found=unit_text,
                    expected=say(kind),
                    hint="a difference is in K, a temperature in degC",
                )
            ]
        )
    return Line(name, formula, unit, meaning)


def lines_from(file: File, scope: Scope) -> tuple[Line, ...]:
    """The working's lines in their order; each can use those above it. Raises Mistakes."""
    lines: list[Line] = []
    mistakes: list[Mistake] = []
    for name, entry in file.data.get("working", {}).items():
        if name in scope.parameters or _taken(name, scope):
            mistakes.append(
                file.mistake(f"the name '{name}' is taken", "working", name, hint="choose another")
            )
            continue
        try:
            formula = formula_from(file, scope, "working", name, "formula")
            unit = entry.get("unit")
            path = ("working", name, "unit") if unit is not None else ("working", name)
            line = line_from(
                file,
                name,
                formula,
                path,
                None if unit is None else str(unit),
                entry.get("is", ""),
            )
        except Mistakes as error:
            # One broken line makes those below it say nothing new.
            raise Mistakes([*mistakes, *error.mistakes]) from None
        lines.append(line)
        scope.lines[name] = formula.type
    if mistakes:
        raise Mistakes(mistakes)
    return tuple(lines)
