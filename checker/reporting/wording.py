"""Numbers, sentences and workings in the reader's own units."""

from __future__ import annotations

import ast
import re
from datetime import date, timedelta
from typing import Any

from checker import units
from checker.absent import Absent
from checker.formulas.functions import CONSTANTS
from checker.formulas.grammar import dotted, parse_again
from checker.installation.record import Installation, Record, Stated
from checker.rulebook.model import Line, Rule, Rulebook
from checker.units import Unit
from checker.units.quantities import format_value

__all__ = ["Wording"]

# What a reader who writes inches and pounds is shown, by the unit a rule is written in.
_INCH = {
    "mm": "in", "cm": "in", "m": "ft", "mm2": "in2", "cm2": "in2", "m2": "ft2", "cm3": "in3", "mm3": "in3",
    "L": "US gal", "mL": "US gal", "m3": "ft3", "cm4": "in4", "kg": "lb", "g": "oz", "kg/m": "lb/ft", "N": "lbf", "kN": "lbf",
    "N*m": "lbf*ft", "kN*m": "lbf*ft", "kN*m/rad": "lbf*ft/rad", "N*m/rad": "lbf*ft/rad", "N/m": "lbf/in", "N/mm": "lbf/in", "kN/m": "lbf/in",
    "MPa": "ksi", "Pa": "inH2O", "kPa": "psi", "bar": "psi", "m/s": "ft/min", "mm/s": "in/s", "m3/h": "ft3/min", "m3/s": "ft3/min",
    "L/s": "ft3/min", "L/min": "US gal/min", "L/h": "US gal/h", "degC": "degF", "kg/m3": "lb/ft3",
}  # fmt: skip
_PLACEHOLDER = re.compile(r"\{([^{}]*)\}")
_EPOCH = date(1970, 1, 1)
_YES_NO = {"true": "yes", "false": "no"}


class Wording:
    """Says values as the writer of one description would."""

    def __init__(self, installation: Installation, rulebook: Rulebook) -> None:
        self.installation = installation
        self.order = rulebook.order
        lengths = [
            f.unit.symbol
            for _, record in installation.records()
            for f in record.facts
            if f is not None and f.unit is not None and f.unit.kind == "length"
        ]
        self.inch = sum(s in ("in", "ft") for s in lengths) * 2 > len(lengths)

    def unit(self, unit: Unit) -> Unit:
        """The unit that a value is shown in."""
        return units.need(_INCH[unit.symbol]) if self.inch and unit.symbol in _INCH else unit

    def value(self, value: Any, unit: Unit | None, digits: int = 3) -> str:
        """Any value of a formula as text."""
        if isinstance(value, Absent):
            return "not known"
        if isinstance(value, bool):
            return "yes" if value else "no"
        if isinstance(value, (list, tuple)):
            return ", ".join(str(v) for v in value)
        if isinstance(value, str):
            return value
        if unit is None:
            # Every number has a unit but a date: seconds from 1970-01-01 to its midnight.
            try:
                return (_EPOCH + timedelta(seconds=value)).isoformat()
            except OverflowError:
                return "a day beyond the calendar"
        return format_value(float(value), self.unit(unit), digits)

    def pair(self, demand: float, limit: float, unit: Unit) -> tuple[str, str]:
        """Demand and limit with enough digits to tell them apart."""
        for digits in (3, 4, 5, 6, 8):
            texts = self.value(demand, unit, digits), self.value(limit, unit, digits)
            if texts[0] != texts[1] or demand == limit:
                break
        return texts

    def sentence(
        self,
        template: str,
        rule: Rule,
        names: dict[str, Any],
        known: dict[str, str],
        member: int | None,
    ) -> str:
        """A rule's sentence with its names filled in."""

        def fill(match: re.Match[str]) -> str:
            name = match[1]
            return known.get(name) or self.named(name, rule, names, member)

        return _PLACEHOLDER.sub(fill, " ".join(template.split()))

    def named(self, path: str, rule: Rule, names: dict[str, Any], member: int | None) -> str:
        """What a name in a formula or a sentence stands for, as text."""
        for line in (*rule.lines, *(x for x in (rule.demand, rule.limit) if x is not None)):
            if line.name == path:
                return self.value(names[f"v_{path}"], line.unit)
        if path in rule.parameters:
            parameter = rule.parameters[path]
            if parameter.unit is not None and self.inch and parameter.unit.symbol in _INCH:
                return self.value(parameter.value, parameter.unit)
            return _as_shown(parameter.text, parameter.unit)
        if path in CONSTANTS:
            value, symbol = CONSTANTS[path]
            return format_value(value, units.need(symbol), 4)
        if path.startswith("derived."):
            return self.derived(path.removeprefix("derived."), names)
        fact = self.fact(path, rule, member)
        # A description says true and false; a sentence says yes and no, as for a line.
        if fact is None:
            return "not stated"
        return _YES_NO.get(fact.text) or _as_shown(fact.text, fact.unit)

    def derived(self, name: str, names: dict[str, Any]) -> str:
        """A derived value as text."""
        for derived in self.order:
            if derived.name == name:
                return self.value(names["D"][derived.index], derived.result.unit)
        return name

    def fact(self, path: str, rule: Rule, member: int | None) -> Stated | None:
        """How a field was stated, the rule's own list member included."""
        record: Record = self.installation.record
        if (
            rule.each is not None
            and member is not None
            and path.startswith(f"{rule.each.variable}.")
        ):
            record, path = record.members[rule.each.field.slot][member], path.partition(".")[2]
        field = record.layout.leaf(path)
        return None if field is None else record.facts[field.slot]

    def numbers(self, line: Line, rule: Rule, names: dict[str, Any], member: int | None) -> str:
        """A line's formula with the numbers put in."""
        tree = parse_again(line.formula.text)
        filled = _Filler(lambda path: self.named(path, rule, names, member)).visit(tree)
        return _prettify(ast.unparse(filled))


def _as_shown(text: str, unit: Unit | None) -> str:
    """A value as it was written, with its unit as everything else shows it."""
    if unit is None or not text.endswith(f" {unit.symbol}"):
        return text
    return text.removesuffix(unit.symbol) + unit.shown


class _Filler(ast.NodeTransformer):
    """Replaces each path by its value; what belongs to a loop keeps its name."""

    def __init__(self, say: Any) -> None:
        self.say = say
        self.loops: list[str] = []

    def visit_GeneratorExp(self, node: ast.GeneratorExp) -> ast.AST:
        return self._loop(node)

    def visit_ListComp(self, node: ast.ListComp) -> ast.AST:
        return self._loop(node)

    def _loop(self, node: Any) -> ast.AST:
        self.loops.append(node.generators[0].target.id)
        node.elt = self.visit(node.elt)
        node.generators[0].ifs = [self.visit(x) for x in node.generators[0].ifs]
        self.loops.pop()
        return node  # type: ignore[no-any-return]

    def visit_Call(self, node: ast.Call) -> ast.AST:
        if isinstance(node.func, ast.Name) and node.func.id == "stated":
            return node
        node.args = [self.visit(a) for a in node.args]
        return node

    def visit_Name(self, node: ast.Name) -> ast.AST:
        return node if node.id in self.loops else ast.Name(self._word(node.id))

    def visit_Attribute(self, node: ast.Attribute) -> ast.AST:
        path = dotted(node)
        if path is None or path.partition(".")[0] in self.loops:
            return node
        return ast.Name(self._word(path))

    def _word(self, path: str) -> str:
        return str(self.say(path))


def _prettify(text: str) -> str:
    return text.replace(" ** ", "^").replace(" * ", " × ").replace("**", "^")
