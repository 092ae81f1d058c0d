"""What a rule's answer rests on, and what has to be said of it: not verified, or practice only."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from checker.checking.outcomes import Values, derived_names, working_of
from checker.findings import BasisRead
from checker.formulas.cells import cells_read
from checker.formulas.scope import Uses
from checker.rulebook.model import Basis, Recalled, Rule, Rulebook

__all__ = ["NOT_VERIFIED", "bases_of", "is_unverified", "remarks_of"]

# How every remark begins that speaks of a value from memory.
NOT_VERIFIED = "Reference not verified"
_FUNCTION = "function "


def bases_of(rule: Rule, rulebook: Rulebook) -> list[BasisRead]:
    """The bases of a rule's formulas, parameters and tables, and of the derived values beneath.

    Of the functions those from memory, but for one that rests on a text which another basis
    from memory names already: that is said once.
    """
    found = [_read("the rule", b) for b in rule.basis]
    found += [_read(f"{p.name} = {p.text}", p.basis) for p in rule.parameters.values()]
    found += _table_bases(rule.uses, rulebook)
    found += _function_bases(rule.recalled)
    for index in rule.derived:
        derived = rulebook.order[index]
        found += [_read(f"derived.{derived.name}", b) for b in derived.basis]
        found += [_read(f"{p.name} = {p.text}", p.basis) for p in derived.parameters.values()]
        found += _table_bases(derived.uses, rulebook)
        found += _function_bases(derived.recalled)
    said = {
        b.title.partition(",")[0]
        for b in found
        if b.confidence == "from-memory" and not b.of.startswith(_FUNCTION)
    }
    return [
        b
        for b in dict.fromkeys(found)
        if not (b.of.startswith(_FUNCTION) and any(title in b.title for title in said))
    ]


def remarks_of(
    read: list[BasisRead],
    rule: Rule,
    rulebook: Rulebook,
    values: Values,
    names: dict[str, Any],
) -> list[str]:
    """What has to be said of a rule's bases; ``names`` are those that the formulas ran with."""
    remembered = _remembered(b for b in read if b.confidence == "from-memory")
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


def _remembered(read: Iterable[BasisRead]) -> list[str]:
    """Each basis with its reference; functions after one text together."""
    found: list[str] = []
    functions: dict[str, list[str]] = {}
    for basis in read:
        if basis.of.startswith(_FUNCTION):
            functions.setdefault(basis.title, []).append(basis.of)
        else:
            found.append(f"{basis.of} ({basis.title}, {basis.clause})")
    return [*found, *(f"{', '.join(of)} ({title})" for title, of in functions.items())]


def _function_bases(recalled: Iterable[Recalled]) -> list[BasisRead]:
    return [
        BasisRead(
            f"{_FUNCTION}{one.name}",
            one.source,
            one.source,
            "",
            one.does.rstrip("."),
            "from-memory",
        )
        for one in recalled
    ]


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
    if not rule.doubtful:
        return []  # Tracing which cells were read costs more than the rule.
    found = []
    behind = [(rule.probes, names)]
    for index in rule.derived:
        derived = rulebook.order[index]
        if derived.probes:
            behind.append((derived.probes, derived_names(derived, values)))
    cells = [cell for probes, known in behind for cell in cells_read(probes, known)]
    for table_name, column, keys in cells:
        table = rulebook.tables[table_name]
        whole = table.basis.get(column, table.basis[""]).confidence
        confidence = table.confidence_of(column, *keys)
        if confidence != whole:
            shown = table.say_keys(*keys)
            prefix = NOT_VERIFIED if confidence == "from-memory" else "Common practice"
            found.append(f"{prefix}: {column} for {shown} in the table '{table.title}'.")
    return found


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
