"""What a rule's answer rests on, and what has to be said of it: not verified, or practice only."""

from __future__ import annotations

from typing import Any

from checker.checking.outcomes import Values, derived_names, working_of
from checker.findings import BasisRead
from checker.formulas.scope import Compiled, Uses
from checker.rulebook.model import Basis, Rule, Rulebook

__all__ = ["NOT_VERIFIED", "bases_of", "is_unverified", "remarks_of"]

# How every remark begins that speaks of a value from memory.
NOT_VERIFIED = "Reference not verified"


def bases_of(rule: Rule, rulebook: Rulebook) -> list[BasisRead]:
    """The bases of a rule's formulas, parameters and tables, and of the derived values beneath."""
    found = [_read("the rule", b) for b in rule.basis]
    found += [_read(f"{p.name} = {p.text}", p.basis) for p in rule.parameters.values()]
    found += _table_bases(rule.uses, rulebook)
    for index in rule.derived:
        derived = rulebook.order[index]
        found += [_read(f"derived.{derived.name}", b) for b in derived.basis]
        found += [_read(f"{p.name} = {p.text}", p.basis) for p in derived.parameters.values()]
        found += _table_bases(derived.uses, rulebook)
    return list(dict.fromkeys(found))


def remarks_of(
    read: list[BasisRead],
    rule: Rule,
    rulebook: Rulebook,
    values: Values,
    names: dict[str, Any],
) -> list[str]:
    """What has to be said of a rule's bases; ``names`` are those that the formulas ran with."""
    remembered = [f"{b.of} ({b.title}, {b.clause})" for b in read if b.confidence == "from-memory"]
    practice = [b.of for b in read if b.confidence == "common-practice" and b.of != "the rule"]
    remarks = []
    if remembered:
        listed = "; ".join(dict.fromkeys(remembered))
        remarks.append(f"{NOT_VERIFIED}: {listed}: from memory.")
    if practice:
        listed = "; ".join(dict.fromkeys(practice))
        remarks.append(
            f"Common practice, to be replaced by your own rule where you have one: {listed}."
        )
    remarks += _doubtful(rule, rulebook, values, names)
    return list(dict.fromkeys(remarks))


def is_unverified(rule: Rule, rulebook: Rulebook, values: Values, member: int | None) -> bool:
    """Whether the answer rests on anything from memory."""
    if rule.remembered or not rule.doubtful:
        return rule.remembered
    names = working_of(rule, values, member)
    return any(r.startswith(NOT_VERIFIED) for r in _doubtful(rule, rulebook, values, names))


def _table_bases(uses: Uses, rulebook: Rulebook) -> list[BasisRead]:
    found = []
    for path in uses.tables:
        table, column = path.split(".")
        bases = rulebook.tables[table].basis
        of = f"table {table}: {column}" if column in bases else f"table {table}"
        found.append(_read(of, bases.get(column, bases[""])))
    return found


def _doubtful(rule: Rule, rulebook: Rulebook, values: Values, names: dict[str, Any]) -> list[str]:
    """Single cells of a table that rest on less than the table as a whole."""
    from checker.formulas.cells import cells_read  # noqa: PLC0415

    if not rule.doubtful:
        return []  # Tracing which cells were read costs more than the rule.
    found = []
    behind = [([f for f in _formulas(rule) if _reads(f.uses, rule.doubtful)], names)]
    for index in rule.derived:
        derived = rulebook.order[index]
        if _reads(derived.uses, rule.doubtful):
            formulas = [x.formula for x in (*derived.lines, derived.result)]
            behind.append((formulas, derived_names(derived, values)))
    cells = [cell for formulas, known in behind for cell in cells_read(formulas, known)]
    for table_name, column, keys in cells:
        table = rulebook.tables[table_name]
        whole = table.basis.get(column, table.basis[""]).confidence
        confidence = table.confidence_of(column, *keys)
        if confidence != whole:
            shown = table.say_keys(*keys)
            prefix = NOT_VERIFIED if confidence == "from-memory" else "Common practice"
            found.append(f"{prefix}: {column} for {shown} in the table '{table.title}'.")
    return found


def _reads(uses: Uses, tables: tuple[str, ...]) -> bool:
    return any(path.partition(".")[0] in tables for path in uses.tables)


def _read(of: str, basis: Basis) -> BasisRead:
    return BasisRead(
        of,
        basis.source.name,
        basis.source.title,
        basis.source.edition,
        basis.clause,
        basis.confidence,
        basis.note or basis.source.note,
    )


def _formulas(rule: Rule) -> list[Compiled]:
    lines = [
        line.formula
        for line in (*rule.lines, *(x for x in (rule.demand, rule.limit) if x is not None))
    ]
    return [*lines, *(condition for _, condition in rule.expect)]
