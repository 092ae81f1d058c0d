"""A rulebook made of its files: sources, tables, derived values, rules, overlays."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Mapping
from pathlib import Path
from types import CodeType
from typing import NamedTuple

from checker.errors import Mistake, Mistakes
from checker.formulas.cells import probes_of
from checker.formulas.scope import Compiled, DerivedName, Scope
from checker.installation.fields import Layout
from checker.rulebook.files import File
from checker.rulebook.gathering import Gathered, gather
from checker.rulebook.linking import link, needs_of, source_of
from checker.rulebook.model import Derived, Rule, Rulebook, Table
from checker.rulebook.ordering import derived_order
from checker.rulebook.overlays import Overlay, changes_for, find_overlay, refuse_unknown_targets
from checker.rulebook.rules import build_derived, build_rule
from checker.rulebook.tables import build_table

__all__ = ["Built", "build_rulebook"]


class Built(NamedTuple):
    """A linked rulebook, the files of its tables, and the code of its functions."""

    rulebook: Rulebook
    tables: Mapping[str, File]
    code: CodeType


def build_rulebook(
    base: Gathered, roots: Iterable[Path], names: Iterable[str], layout: Layout
) -> Built:
    """The rulebook of the files gathered from some folders, with these overlays in force.

    Raises Mistakes with all that is wrong in any file.
    """
    roots = list(roots)
    overlays = [find_overlay(name, roots) for name in names]
    found = gather((o.folder for o in overlays if o.folder is not None), base)
    digest = found.digest
    if overlays:
        parts = [digest, *(hashlib.sha256(o.file.raw).hexdigest() for o in overlays)]
        digest = hashlib.sha256("".join(parts).encode()).hexdigest()
    rulebook = _build(found, layout, overlays, _added(overlays, base, found), digest)
    code = compile(source_of(rulebook.rules, rulebook.order), "<rulebook>", "exec")
    link(rulebook, code, needs_of(rulebook))
    return Built(rulebook, found.tables, code)


def _build(
    found: Gathered, layout: Layout, overlays: list[Overlay], added: Mapping[str, str], digest: str
) -> Rulebook:
    refuse_unknown_targets(overlays, [*found.rules, *(f"derived.{name}" for name in found.derived)])
    mistakes: list[Mistake] = []
    tables: dict[str, Table] = {}
    for name, file in found.tables.items():
        with _gathered(mistakes):
            tables[name] = build_table(file, name, found.sources)
    _raise(mistakes)
    doubtful = {name for name, table in tables.items() if table.doubtful}
    derived: dict[str, Derived] = {}
    for name in derived_order(found.derived):
        with _gathered(mistakes):
            one = build_derived(
                found.derived[name],
                name,
                len(derived),
                _scope(layout, derived, tables),
                found.sources,
                derived,
            )
            changed, sentences, _ = changes_for(
                f"derived.{name}", overlays, dict(one.parameters), found.sources
            )
            if changed:
                one = build_derived(
                    found.derived[name],
                    name,
                    len(derived),
                    _scope(layout, derived, tables),
                    found.sources,
                    derived,
                    changed,
                )
            one.changes = sentences
            formulas = [line.formula for line in (*one.lines, one.result)]
            one.probes = tuple(p for f in formulas for p in probes_of(f, doubtful))
            derived[name] = one
    _raise(mistakes)
    rules: list[Rule] = []
    for name, file in found.rules.items():
        with _gathered(mistakes):
            rule = build_rule(file, name, _scope(layout, derived, tables), found.sources, derived)
            changed, sentences, off = changes_for(
                name, overlays, dict(rule.parameters), found.sources
            )
            if changed:
                rule = build_rule(
                    file,
                    name,
                    _scope(layout, derived, tables),
                    found.sources,
                    derived,
                    changed,
                )
            order = [d for d in derived.values() if d.index in rule.derived]
            rule.changes = tuple(dict.fromkeys([*sentences, *_inherited(rule, order, added)]))
            rule.switched_off = off
            rule.digest = _digest(rule, order, found, sentences)
            rule.probes = tuple(p for f in _formulas(rule) for p in probes_of(f, doubtful))
            _weigh(rule, order, tables)
            rules.append(rule)
    _raise(mistakes)
    place = {family: i for i, family in enumerate(found.families)}
    rules.sort(key=lambda r: (place.get(r.family, len(place)), r.name))
    ordered = tuple(sorted(derived.values(), key=lambda d: d.index))
    return Rulebook(
        layout, found.sources, tables, derived, tuple(rules), found.families, digest,
        tuple(o.name for o in overlays), ordered,
    )  # fmt: skip


def _digest(rule: Rule, order: list[Derived], found: Gathered, changes: tuple[str, ...]) -> str:
    """The digest of all that a rule's answer rests on: one half the files, one what overlays changed."""
    tables = {
        path.split(".")[0] for uses in (rule.uses, *(d.uses for d in order)) for path in uses.tables
    }
    parts = [
        found.rules[rule.name].raw,
        *(found.derived[d.name].raw for d in order),
        *(found.tables[name].raw for name in sorted(tables)),
    ]
    bent = [change.encode() for change in (*(c for d in order for c in d.changes), *changes)]
    return _half(parts) + _half(bent)


def _weigh(rule: Rule, order: list[Derived], tables: Mapping[str, Table]) -> None:
    """Note how sure all is that a rule rests on, so that a short report need not look again."""
    behind: list[Rule | Derived] = [rule, *order]
    bases = [b for one in behind for b in one.basis]
    bases += [p.basis for one in behind for p in one.parameters.values()]
    doubtful: dict[str, None] = {}
    for path in (path for one in behind for path in one.uses.tables):
        name, _, column = path.partition(".")
        bases.append(tables[name].basis.get(column, tables[name].basis[""]))
        if tables[name].doubtful:
            doubtful[name] = None
    rule.remembered = any(basis.confidence == "from-memory" for basis in bases) or any(
        one.recalled for one in behind
    )
    rule.doubtful = tuple(doubtful)


def _formulas(rule: Rule) -> list[Compiled]:
    """What a rule's answer comes from."""
    measures = [line for line in (rule.demand, rule.limit) if line is not None]
    lines = [line.formula for line in (*rule.lines, *measures)]
    return [*lines, *(condition for _, condition in rule.expect)]


def _half(parts: list[bytes]) -> str:
    return hashlib.sha256(b"".join(hashlib.sha256(p).digest() for p in parts)).hexdigest()[:32]


def _inherited(rule: Rule, order: list[Derived], added: Mapping[str, str]) -> list[str]:
    """Changes that reach a rule through its derived values, its tables or its own file."""
    found = [added[rule.name]] if rule.name in added else []
    tables = [*rule.uses.tables]
    for derived in order:
        found += [
            *derived.changes,
            *([added[f"derived.{derived.name}"]] if f"derived.{derived.name}" in added else []),
        ]
        tables += derived.uses.tables
    found += [
        added[f"table.{t}"]
        for t in dict.fromkeys(path.split(".")[0] for path in tables)
        if f"table.{t}" in added
    ]
    return found


def _added(overlays: list[Overlay], base: Gathered, found: Gathered) -> dict[str, str]:
    """A sentence for each rule, derived value and table that an overlay brings or replaces."""
    sentences: dict[str, str] = {}
    for overlay in overlays:
        if overlay.folder is None:
            continue
        names = {
            p.relative_to(overlay.folder).as_posix().removesuffix(".yaml")
            for p in overlay.folder.rglob("*.yaml")
        }
        for kind, before, now, prefix, folder in (
            ("rule", base.rules, found.rules, "", ""),
            ("derived value", base.derived, found.derived, "derived.", "derived/"),
            ("table", base.tables, found.tables, "table.", "tables/"),
        ):
            for name in now:
                if f"{folder}{name}" in names:
                    verb = "replaces" if name in before else "adds"
                    sentences[f"{prefix}{name}"] = f"{overlay.name}: {verb} the {kind} {name}."
    return sentences


def _scope(layout: Layout, derived: Mapping[str, Derived], tables: Mapping[str, Table]) -> Scope:
    return Scope(
        layout,
        derived={name: DerivedName(d.index, d.result.formula.type) for name, d in derived.items()},
        tables={name: dict(t.columns) for name, t in tables.items()},
    )


class _gathered:  # noqa: N801 - reads as a word at the 'with'
    """Collects the mistakes of one file and lets the next be read."""

    def __init__(self, mistakes: list[Mistake]) -> None:
        self.mistakes = mistakes

    def __enter__(self) -> None:
        return None

    def __exit__(self, kind: object, error: BaseException | None, trace: object) -> bool:
        if isinstance(error, Mistakes):
            self.mistakes.extend(error.mistakes)
            return True
        return False


def _raise(mistakes: list[Mistake]) -> None:
    if mistakes:
        raise Mistakes(mistakes)
