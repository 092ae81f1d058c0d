"""The order in which derived values can be built and worked out."""

from __future__ import annotations

import ast
from collections.abc import Mapping

from checker.errors import Mistake, Mistakes, near
from checker.formulas.grammar import FormulaError, dotted, parse_formula
from checker.rulebook.files import File

__all__ = ["derived_order"]


def derived_order(files: Mapping[str, File]) -> list[str]:
    """The names of derived values, each behind those it uses.

    Raises Mistakes for a circle, or a derived value that does not exist.
    """
    needs = {name: _needs(file) for name, file in files.items()}
    mistakes: list[Mistake] = []
    order: list[str] = []
    open_: list[str] = []

    def visit(name: str) -> None:
        if name in order:
            return
        if name in open_:
            circle = " -> ".join([*open_[open_.index(name) :], name])
            mistakes.append(
                files[name].mistake(
                    "derived values that go round in a circle", "result", found=circle
                )
            )
            return
        open_.append(name)
        for other in needs[name]:
            if other in needs:
                visit(other)
            else:
                mistakes.append(
                    files[name].mistake(
                        f"there is no derived value '{other}'", "result", hint=near(other, needs)
                    )
                )
        open_.pop()
        order.append(name)

    for name in needs:
        visit(name)
    if mistakes:
        raise Mistakes(mistakes)
    return order


def _needs(file: File) -> list[str]:
    entries = [*file.data.get("working", {}).values(), file.data["result"]]
    found: dict[str, None] = {}
    for entry in entries:
        try:
            tree = parse_formula(str(entry["formula"]))
        except FormulaError:
            continue  # Said with its place where the formula is compiled.
        for node in ast.walk(tree):
            path = dotted(node) if isinstance(node, ast.Attribute) else None
            if path is not None and path.startswith("derived."):
                found[path.split(".")[1]] = None
    return list(found)
