"""A whole rulebook: sources, tables, derived values and rules, with the overlays in force."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Mapping
from functools import cached_property
from pathlib import Path

from checker.errors import Mistake, Mistakes, Place
from checker.formulas.scope import DerivedName, Scope
from checker.installation.fields import Layout
from checker.installation.schema import installation_layout
from checker.places import RULES
from checker.rulebook.cache import files_digest, keep, key_of, recall
from checker.rulebook.gathering import Gathered, gather
from checker.rulebook.linking import code_of, link
from checker.rulebook.model import Derived, Rule, Rulebook, Table
from checker.rulebook.ordering import derived_order
from checker.rulebook.overlays import (
    Overlay,
    changes_for,
    find_overlay,
    overlay_names,
    refuse_unknown_targets,
)
from checker.rulebook.rules import build_derived, build_rule
from checker.rulebook.stored import as_data, from_data
from checker.rulebook.tables import build_table

__all__ = ["Rulebooks", "load_rulebook"]


def load_rulebook(
    folders: Iterable[Path] = (),
    *,
    shipped: bool = True,
    layout: Layout | None = None,
    local: Iterable[str] = (),
) -> Rulebook:
    """Read, check and compile a rulebook.

    folders: further rule folders, laid out as ``rules/`` is; a file there with the name
    of an earlier one takes its place. shipped: whether to start from the shipped rules.
    local: the overlays in force, later ones winning. The files are always read, with
    the rules' own cases.
    Raises Mistakes with all that is wrong in any file.
    """
    books = Rulebooks(folders, shipped=shipped, layout=layout, fresh=True)
    return books.with_overlays(tuple(local))


class Rulebooks:
    """The rulebooks that come of one set of folders under different overlays.

    Each set of overlays is compiled when first asked for, or taken from what an earlier
    run has kept; the files are read only if it is not there.
    """

    def __init__(
        self,
        folders: Iterable[Path] = (),
        *,
        shipped: bool = True,
        layout: Layout | None = None,
        fresh: bool = False,
    ) -> None:
        self.layout = layout or installation_layout()
        self.roots = [*([RULES] if shipped else []), *folders]
        for root in self.roots:
            if not root.is_dir():
                raise Mistakes([Mistake("there is no such folder of rules", Place(str(root)))])
        # A layout of one's own is not described by any file that the key could name.
        self._kept = not fresh and layout is None
        self._base: Gathered | None = None
        self._built: dict[tuple[str, ...], Rulebook] = {}

    @cached_property
    def digest(self) -> str:
        """The digest of all rule files, those of every overlay included."""
        parts = [files_digest(self.roots, overlays=False), files_digest(self.roots, overlays=True)]
        return hashlib.sha256("".join(parts).encode()).hexdigest()

    @cached_property
    def overlay_names(self) -> list[str]:
        """The overlays that can be asked for."""
        return overlay_names(self.roots)

    def with_overlays(self, names: tuple[str, ...] = ()) -> Rulebook:
        """The rulebook with these overlays in force, in their order. Raises Mistakes."""
        names = tuple(dict.fromkeys(names))
        if names not in self._built:
            self._built[names] = self._from_cache(names) if self._kept else self._afresh(names)[0]
        return self._built[names]

    def _from_cache(self, names: tuple[str, ...]) -> Rulebook:
        key = key_of([self.digest, *(str(root) for root in self.roots), *names])
        found = recall(key)
        if found is not None:
            data, code = found
            try:
                rulebook = from_data(data, self.layout)
                link(rulebook, code)
            except (KeyError, TypeError, ValueError, IndexError, NameError, AttributeError):
                pass  # Damaged: made again below, and kept under the same name no more.
            else:
                return rulebook
        rulebook, gathered = self._afresh(names)
        keep(key, as_data(rulebook, gathered.tables), code_of(rulebook.rules, rulebook.order))
        return rulebook

    def _afresh(self, names: tuple[str, ...]) -> tuple[Rulebook, Gathered]:
        if self._base is None:
            self._base = gather(self.roots)
        overlays = [find_overlay(name, self.roots) for name in names]
        found = gather((o.folder for o in overlays if o.folder is not None), self._base)
        added = _added(overlays, self._base, found)
        digest = (
            hashlib.sha256(
                "".join(
                    [found.digest, *(hashlib.sha256(o.file.raw).hexdigest() for o in overlays)]
                ).encode()
            ).hexdigest()
            if overlays
            else found.digest
        )
        return _build(found, self.layout, overlays, added, digest), found


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
            rules.append(rule)
    _raise(mistakes)
    place = {family: i for i, family in enumerate(found.families)}
    rules.sort(key=lambda r: (place.get(r.family, len(place)), r.name))
    ordered = tuple(sorted(derived.values(), key=lambda d: d.index))
    rulebook = Rulebook(
        layout, found.sources, tables, derived, tuple(rules), found.families, digest,
        tuple(o.name for o in overlays), ordered,
    )  # fmt: skip
    link(rulebook, compile(code_of(rulebook.rules, rulebook.order), "<rulebook>", "exec"))
    return rulebook


def _digest(rule: Rule, order: list[Derived], found: Gathered, changes: tuple[str, ...]) -> str:
    """The digest of all that a rule's answer rests on: its file, tables, derived values, changes."""
    tables = {
        path.split(".")[0] for uses in (rule.uses, *(d.uses for d in order)) for path in uses.tables
    }
    parts = [
        found.rules[rule.name].raw,
        *(found.derived[d.name].raw for d in order),
        *(found.tables[name].raw for name in sorted(tables)),
        *(change.encode() for d in order for change in d.changes),
        *(change.encode() for change in changes),
    ]
    return hashlib.sha256(b"".join(hashlib.sha256(p).digest() for p in parts)).hexdigest()


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
