"""A description as the page holds it, a tree of texts as typed, bound as the command line binds a file.

What is typed at a field becomes the value that stands in the file once it is saved: the
same function turns it into YAML for both. A place is the way to a field, not a line.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from functools import lru_cache
from typing import Any, Final, NamedTuple

from checker.asking.answers import as_yaml
from checker.errors import Mistake, Mistakes, Place
from checker.installation.binding import bind_node
from checker.installation.fields import Field, Layout, Section
from checker.installation.record import Record
from checker.reading import Node, plain, read_yaml

__all__ = [
    "PLACE",
    "At",
    "Entry",
    "Typed",
    "bound",
    "entry_of",
    "holds_nothing",
    "read_typed",
    "shown",
    "value_of",
]

# A member of a list says at this key where it stands in the file; a new one says nothing.
PLACE: Final = "#"
_MOST_VALUES: Final = 20_000
_DEEPEST: Final = 32


class At(NamedTuple):
    """Where a value stands: ``line`` counts through all of a tree, ``file`` is the tree's name."""

    line: int
    column: int
    file: str


class Entry(NamedTuple):
    """Something wrong with what was typed: the way to it, and the words of the command line."""

    path: str
    what: str
    found: str
    expected: str
    hint: str


class Typed:
    """A tree read into nodes, the way to each of them, and what could not be read at all."""

    def __init__(self, name: str) -> None:
        self.name = name
        self.node: Node = ({}, At(0, 0, name))
        self.paths: list[str] = []
        # Where each value hangs, so that one that is wrong can be taken off again.
        self.hooks: list[tuple[Any, Any]] = []
        self.entries: list[Entry] = []

    def mark(self, path: str, box: Any, key: Any) -> At:
        """A mark for the value that will hang at a key of a box."""
        if len(self.paths) >= _MOST_VALUES:
            raise Mistakes([Mistake("the description holds too much", Place(self.name), f"more than {_MOST_VALUES} values")])  # fmt: skip
        self.paths.append(path)
        self.hooks.append((box, key))
        return At(len(self.paths) - 1, 0, self.name)

    def path_of(self, mistake: Mistake) -> str:
        """The way to what a mistake is about."""
        line = mistake.place.line - 1
        return self.paths[line] if 0 <= line < len(self.paths) else ""

    def take_off(self, mistake: Mistake) -> bool:
        """Leave out what a mistake is about; False where that cannot be done."""
        line = mistake.place.line - 1
        if not 0 < line < len(self.hooks):
            return False
        box, key = self.hooks[line]
        if isinstance(box, dict):
            return box.pop(key, None) is not None
        mark = box[key][1]
        box[key] = ({}, mark)
        return True


@lru_cache(maxsize=50_000)
def value_of(field: Field, typed: str) -> Any:
    """The value that a typed text has in the file. Raises Mistakes for one that no file may hold."""
    if field.type == "text":
        text = json.dumps(typed, ensure_ascii=False)
    elif typed in field.choices:
        return typed
    else:
        text = as_yaml(field, typed)
    return plain(read_yaml(f"v: {text}".encode("utf-8", "surrogatepass"), ""))["v"]


def shown(node: Node, target: Field | Section | None) -> Any:
    """A node of a file as the page holds it: numbers as they are written, nothing left out."""
    value = node[0]
    if isinstance(value, dict):
        children = target.children if isinstance(target, Section) else {}
        return {k: shown(n, children.get(k)) for k, (_, n) in value.items() if n[0] is not None}
    if isinstance(value, list):
        item = target.item.root if isinstance(target, Field) and target.item is not None else None
        members = [shown(n, item) for n in value]
        # A dash with nothing behind it is a member of which nothing is stated yet.
        return [{PLACE: i, **(m or {})} if m is None or isinstance(m, dict) else m for i, m in enumerate(members)]  # fmt: skip
    if isinstance(target, Field) and target.type in ("number", "count"):
        return str(value) if type(value) in (int, float) else value
    return value


def holds_nothing(target: Field | Section | None) -> bool:
    """Whether a text of no length can be a value here: a file may state one, nobody types it."""
    return isinstance(target, Field) and target.type == "text"


def read_typed(tree: Any, layout: Layout, name: str) -> Typed:
    """A tree as the page holds it, in nodes. Raises Mistakes where it holds too much."""
    typed = Typed(name)
    typed.node = (None, typed.mark("", {}, ""))
    typed.node = _section(tree, layout.root, "", typed.node[1], typed)
    return typed


def bound(typed: Typed, layout: Layout) -> Record | None:
    """The record of what can be read; what cannot is left out and added to the entries.

    None where what is left is no description at all.
    """
    for _ in range(8):
        try:
            return bind_node(typed.node, layout, typed.name)
        except Mistakes as error:
            taken = False
            for mistake in error.mistakes:
                typed.entries.append(entry_of(mistake, typed.path_of(mistake)))
                taken = typed.take_off(mistake) or taken
            if not taken:
                return None
    return None


def entry_of(mistake: Mistake, path: str) -> Entry:
    """A mistake of the binder at the way to what it is about."""
    name = mistake.what.split("'")[1] if mistake.what.endswith("' is missing") else ""
    return Entry(f"{path}.{name}".strip(".") if name else path, mistake.what, mistake.found, mistake.expected, mistake.hint)  # fmt: skip


def _section(tree: Any, section: Section, path: str, mark: At, typed: Typed) -> Node:
    if not isinstance(tree, dict):
        return _anything(tree, mark, typed, path, 0)
    box: dict[str, Any] = {}
    for key, value in tree.items():
        target = section.children.get(key)
        if value is None or key == PLACE or (value == "" and not holds_nothing(target)):
            continue
        below = f"{path}.{key}" if path else key
        at = typed.mark(below, box, key)
        if isinstance(target, Section):
            node = _section(value, target, below, at, typed)
        elif target is not None and target.item is not None:
            node = _list(value, target, below, at, typed)
        elif target is not None:
            node = _value(value, target, below, at, typed)
        else:
            node = _anything(value, at, typed, below, 0)
        box[key] = (at, node)
    return box, mark


def _list(tree: Any, field: Field, path: str, mark: At, typed: Typed) -> Node:
    if not isinstance(tree, list):
        return _anything(tree, mark, typed, path, 0)
    members: list[Any] = []
    assert field.item is not None  # noqa: S101 - only lists come here
    for i, member in enumerate(tree):
        if member is not None:
            below = f"{path}[{i}]"
            at = typed.mark(below, members, len(members))
            members.append(_section(member, field.item.root, below, at, typed))
    return members, mark


def _value(tree: Any, field: Field, path: str, mark: At, typed: Typed) -> Node:
    if isinstance(tree, Mapping):
        box: dict[str, Any] = {}
        for key, value in tree.items():
            if value is not None and value != "":
                at = typed.mark(path, box, key)
                inner = _text(value, field, path, at, typed) if key == "is" else _anything(value, at, typed, path, 0)  # fmt: skip
                box[key] = (at, inner)
        return box, mark
    node = _text(tree, field, path, mark, typed)
    if isinstance(node[0], dict):
        # '3 mm, measured' at a value with its origin.
        return {k: (mark, (v, mark)) for k, v in node[0].items()}, mark
    return node


def _text(tree: Any, field: Field, path: str, mark: At, typed: Typed) -> Node:
    if not isinstance(tree, str):
        return _anything(tree, mark, typed, path, 0)
    try:
        return value_of(field, tree), mark
    except Mistakes as error:
        mistake = error.mistakes[0]
        typed.entries.append(Entry(path, f"{field.path}: {mistake.what}", mistake.found, mistake.expected, mistake.hint))  # fmt: skip
        return None, mark


def _anything(tree: Any, mark: At, typed: Typed, path: str, depth: int) -> Node:
    """What no field of the schema stands for, taken over for the binder to refuse."""
    if depth > _DEEPEST:
        raise Mistakes([Mistake("nested too deeply", Place(typed.name), found=path[:60])])
    if isinstance(tree, dict):
        box: dict[str, Any] = {}
        for key, value in tree.items():
            at = typed.mark(path, box, key)
            box[key] = (at, _anything(value, at, typed, path, depth + 1))
        return box, mark
    if isinstance(tree, list):
        return [_anything(v, typed.mark(path, [], 0), typed, path, depth + 1) for v in tree], mark
    return tree, mark
