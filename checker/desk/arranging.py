"""The members of a list put into another order, taken out, or put in between, lines kept whole.

A member's lines are those from its dash, and the comments right above it, down to the next
member's. What cannot be told apart with certainty is left to the round trip.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import yaml

from checker.asking.editing import CannotEdit, Parts
from checker.errors import Mistakes
from checker.reading import plain, read_yaml

__all__ = ["arranged"]

_LOADER: Any = getattr(yaml, "CSafeLoader", yaml.SafeLoader)


def arranged(text: str, parts: Parts, order: Sequence[int | list[str]]) -> str:
    """The text with the list at a path in another order.

    order: the positions of members that stay, and the lines of new ones with their dash at
    the margin. Where none is left, nothing stands behind the list's name. Raises CannotEdit.
    """
    node = _node_at(text, parts)
    if not isinstance(node, yaml.SequenceNode) or node.flow_style or not node.value:
        raise CannotEdit(1 if node is None else node.start_mark.line + 1)
    newline = "\r\n" if "\r\n" in text else "\n"
    lines = text.split(newline)
    column = node.start_mark.column
    starts = [_first_line(lines, item, column) for item in node.value]
    end = _last_line(node.value[-1]) + 1
    if starts != sorted(set(starts)):
        raise CannotEdit(node.start_mark.line + 1)
    pieces = [lines[a:b] for a, b in zip(starts, [*starts[1:], end], strict=True)]
    put: list[str] = []
    for one in order:
        put += pieces[one] if isinstance(one, int) else [" " * column + line for line in one]
    changed = newline.join([*lines[: starts[0]], *put, *lines[end:]])
    _hold_against(text, changed, parts, order)
    return changed


def _first_line(lines: list[str], item: yaml.Node, column: int) -> int:
    """The line where a member begins, the comments right above its dash included."""
    line = item.start_mark.line
    if lines[line][: column + 1].strip() != "-":
        raise CannotEdit(line + 1)
    dash = " " * column + "#"
    while line and lines[line - 1].startswith(dash):
        line -= 1
    return line


def _last_line(node: yaml.Node) -> int:
    """The last line that something of a node is written on."""
    while isinstance(node, yaml.CollectionNode) and not node.flow_style and node.value:
        last = node.value[-1]
        node = last[1] if isinstance(last, tuple) else last
    if isinstance(node, yaml.ScalarNode) and node.style in ("|", ">"):
        raise CannotEdit(node.start_mark.line + 1)
    line: int = node.end_mark.line
    return line


def _node_at(text: str, parts: Parts) -> yaml.Node | None:
    node: Any = yaml.compose(text, Loader=_LOADER)
    for part in parts:
        if isinstance(node, yaml.MappingNode):
            node = next((v for k, v in node.value if k.value == part), None)
        elif isinstance(node, yaml.SequenceNode) and isinstance(part, int):
            node = node.value[part] if part < len(node.value) else None
        else:
            return None
    found: yaml.Node | None = node
    return found


def _hold_against(before: str, after: str, parts: Parts, order: Sequence[int | list[str]]) -> None:
    """Refuse a text that means anything but what was asked for."""
    expected = plain(read_yaml(before.encode(), ""))
    owner: Any = expected
    for part in parts[:-1]:
        owner = owner[part]
    was = owner[parts[-1]]
    owner[parts[-1]] = [
        was[one] if isinstance(one, int) else plain(read_yaml("\n".join(one).encode(), ""))[0]
        for one in order
    ] or None
    try:
        got = plain(read_yaml(after.encode(), ""))
    except Mistakes:
        got = None
    if got != expected:
        raise CannotEdit(1)
