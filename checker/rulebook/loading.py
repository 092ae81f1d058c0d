"""A whole rulebook, from its folders: sources, tables, derived values, rules."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Mapping
from pathlib import Path

from checker.errors import Mistake, Mistakes, Place, near
from checker.formulas.grammar import FormulaError, dotted, parse_formula
from checker.formulas.scope import DerivedName, Scope
from checker.installation.fields import Layout
from checker.installation.schema import installation_layout
from checker.places import RULES
from checker.rulebook.files import File, read_file
from checker.rulebook.model import Derived, Rule, Rulebook, Source, Table
from checker.rulebook.rules import build_derived, build_rule
from checker.rulebook.tables import build_table

__all__ = ["load_rulebook"]

# Folders of a rulebook that hold something other than rules.
_OTHER = ("derived", "tables", "local")


def load_rulebook(folders: Iterable[Path] = (), *, shipped: bool = True, layout: Layout | None = None) -> Rulebook:
    """Read, check and compile a rulebook.

    folders: further rule folders, laid out as ``rules/`` is; a file there with the name
    of an earlier one takes its place. shipped: whether to start from the shipped rules.
    Raises Mistakes with all that is wrong in any file.
    """
    layout = layout or installation_layout()
    roots = [*([RULES] if shipped else []), *folders]
    digest = hashlib.sha256()
    mistakes: list[Mistake] = []
    sources: dict[str, Source] = {}
    families: dict[str, str] = {}
    found: dict[str, dict[str, tuple[Path, str]]] = {"rules": {}, "derived": {}, "tables": {}}
    for root in roots:
        if not root.is_dir():
            raise Mistakes([Mistake("there is no such folder of rules", Place(str(root)))])
        _gather(root, root.name, sources, families, found, digest, mistakes)
    tables = _tables(found["tables"], sources, mistakes)
    if mistakes:
        raise Mistakes(mistakes)
    derived = _derived(found["derived"], layout, sources, tables, mistakes)
    if mistakes:
        raise Mistakes(mistakes)
    rules: list[Rule] = []
    for name, (path, shown) in found["rules"].items():
        try:
            file = read_file(path, shown, "rule")
            rules.append(build_rule(file, name, _scope(layout, derived, tables), sources, derived, tables))
        except Mistakes as error:
            mistakes.extend(error.mistakes)
    if mistakes:
        raise Mistakes(mistakes)
    order = tuple(sorted(derived.values(), key=lambda d: d.index))
    place = {family: i for i, family in enumerate(families)}
    rules.sort(key=lambda r: (place.get(r.family, len(place)), r.name))
    return Rulebook(layout, sources, tables, derived, tuple(rules), families, digest.hexdigest(), order=order)


def _gather(root: Path, label: str, sources: dict[str, Source], families: dict[str, str], found: dict[str, dict[str, tuple[Path, str]]], digest: hashlib._Hash, mistakes: list[Mistake]) -> None:
    for path in sorted(root.rglob("*.yaml")):
        relative = path.relative_to(root).as_posix()
        shown = f"{label}/{relative}"
        digest.update(relative.encode() + b"\0" + path.read_bytes() + b"\0")
        parts = relative.removesuffix(".yaml").split("/")
        name = "/".join(parts)
        try:
            if parts[0] == "sources":
                file = read_file(path, shown, "sources")
                for key, entry in file.data.items():
                    if key in sources and sources[key].title != entry["title"]:
                        mistakes.append(file.mistake(f"the source '{key}' is described twice", key, found=entry["title"], hint=f"elsewhere it is '{sources[key].title}'"))
                    sources[key] = Source(key, entry["title"], str(entry.get("edition", "")), entry["publisher"], entry.get("note", ""))
            elif name == "families":
                families.update(read_file(path, shown, "families").data)
            elif parts[0] == "local":
                continue
            elif parts[0] in _OTHER and len(parts) == 2:
                found[parts[0]][parts[1]] = (path, shown)
            else:
                found["rules"][name] = (path, shown)
        except Mistakes as error:
            mistakes.extend(error.mistakes)


def _scope(layout: Layout, derived: Mapping[str, Derived], tables: Mapping[str, Table]) -> Scope:
    return Scope(
        layout,
        derived={name: DerivedName(d.index, d.result.formula.type) for name, d in derived.items()},
        tables={name: dict(t.columns) for name, t in tables.items()},
    )


def _tables(found: dict[str, tuple[Path, str]], sources: dict[str, Source], mistakes: list[Mistake]) -> dict[str, Table]:
    tables = {}
    for name, (path, shown) in found.items():
        try:
            tables[name] = build_table(read_file(path, shown, "table"), name, sources)
        except Mistakes as error:
            mistakes.extend(error.mistakes)
    return tables


def _derived(found: dict[str, tuple[Path, str]], layout: Layout, sources: dict[str, Source], tables: Mapping[str, Table], mistakes: list[Mistake]) -> dict[str, Derived]:
    files: dict[str, File] = {}
    for name, (path, shown) in found.items():
        try:
            files[name] = read_file(path, shown, "derived")
        except Mistakes as error:
            mistakes.extend(error.mistakes)
    derived: dict[str, Derived] = {}
    for name in _order(files, mistakes):
        try:
            derived[name] = build_derived(files[name], name, len(derived), _scope(layout, derived, tables), sources, tables)
        except Mistakes as error:
            mistakes.extend(error.mistakes)
    return derived


def _order(files: dict[str, File], mistakes: list[Mistake]) -> list[str]:
    """Derived values so that each stands behind those it uses; a circle is refused."""
    needs = {name: _needs(file) for name, file in files.items()}
    order: list[str] = []
    open_: list[str] = []

    def visit(name: str) -> None:
        if name in order:
            return
        if name in open_:
            circle = " -> ".join([*open_[open_.index(name) :], name])
            mistakes.append(files[name].mistake("derived values that go round in a circle", "result", found=circle))
            return
        open_.append(name)
        for other in needs[name]:
            if other in needs:
                visit(other)
            else:
                mistakes.append(files[name].mistake(f"there is no derived value '{other}'", "result", hint=near(other, needs)))
        open_.pop()
        order.append(name)

    for name in needs:
        visit(name)
    return [] if mistakes else order


def _needs(file: File) -> list[str]:
    import ast  # noqa: PLC0415 - only the names are wanted, before the formulas are checked

    texts = [str(e["formula"]) for e in [*file.data.get("working", {}).values(), file.data["result"]]]
    found: dict[str, None] = {}
    for text in texts:
        try:
            tree = parse_formula(text)
        except FormulaError:
            continue  # Said with its place where the formula is compiled.
        for node in ast.walk(tree):
            path = dotted(node) if isinstance(node, ast.Attribute) else None
            if path is not None and path.startswith("derived."):
                found[path.split(".")[1]] = None
    return list(found)
