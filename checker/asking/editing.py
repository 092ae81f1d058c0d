"""One value of a description's text changed where it stands; every other character is kept.

Each change is read back and held against what was meant before it is given out. A text
that is laid out in a way that cannot be changed with certainty is left to its writer.
"""

from __future__ import annotations

import json
from collections.abc import Sequence
from typing import Any, NamedTuple

import yaml

from checker.errors import Mistakes
from checker.reading import plain, read_yaml

__all__ = ["CannotEdit", "Parts", "add_item", "clear", "empty_list", "put"]

# The way to a value: names of fields, and the positions of members of lists.
Parts = tuple[str | int, ...]

_LOADER: Any = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
_STEP = 2


class CannotEdit(Exception):
    """A text whose layout leaves no certain place for a change; ``line`` counts from 1."""

    def __init__(self, line: int) -> None:
        super().__init__(line)
        self.line = line


class _Edit(NamedTuple):
    """A stretch of the text and what stands there afterwards."""

    start: int
    end: int
    new: str


def put(text: str, parts: Parts, value: str) -> str:
    """The text with a value, itself YAML on one line, at a path.

    Raises CannotEdit.
    """
    wanted = plain(read_yaml(f"value: {value}".encode(), ""))["value"]
    return _changed(text, parts, wanted, _put(text, parts, value))


def clear(text: str, parts: Parts) -> str:
    """The text with nothing behind the field at a path, which must be there. Raises CannotEdit."""
    chain = _chain(text, parts)
    if len(chain) <= len(parts):
        return text
    return _changed(
        text, parts, None, _behind_colon(text, chain[-1], "null" if _is_flow(chain[-2]) else "")
    )


def add_item(text: str, parts: Parts, lines: Sequence[str]) -> str:
    """The text with one item more in the list at a path.

    lines: the item, its dash at the margin; used where the list is written line by line.
    Raises CannotEdit.
    """
    chain = _chain(text, parts)
    if len(chain) <= len(parts):
        if _is_flow(chain[-1]):
            return _changed(text, parts, [{}], _new_key(text, chain, parts, "[{}]"))
        # Name the list first, with nothing behind it.
        return add_item(_changed(text, parts, None, _new_key(text, chain, parts, "")), parts, lines)
    found, before = chain[-1], _value_at(text, parts) or []
    item: Any = plain(read_yaml("\n".join(lines).encode(), ""))[0]
    if _is_flow(chain[-2]) or (_is_flow(found) and before):
        item, at = {}, found.end_mark.index - 1
        edit = _Edit(at, at, ", {}") if before else _behind_colon(text, found, "[{}]")
    elif before:
        edit = _lines_after(text, _end(found), lines, found.start_mark.column)
    else:
        start, end = found.start_mark.index, found.end_mark.index
        after = _lines_after(text, end, lines, _margin_of_key(text, start) + _STEP)
        # What stood behind the colon goes; a comment on the line stays.
        first = len(text[:start].rstrip(" "))
        edit = _Edit(first, after.end, text[end : after.start] + after.new)
    return _changed(text, parts, [*before, item], edit)


def empty_list(text: str, parts: Parts) -> str:
    """The text with ``[]`` for the list at a path; lines of items become comments.

    Raises CannotEdit.
    """
    chain = _chain(text, parts)
    found = chain[-1] if len(chain) > len(parts) else None
    if isinstance(found, yaml.SequenceNode) and found.value and not found.flow_style:
        start = text.rfind("\n", 0, found.start_mark.index) + 1
        stop = _line_end(text, _end(found))
        margin = found.start_mark.column
        silent = [
            line if line.lstrip().startswith("#") or not line.strip() else f"{line[:margin]}# {line[margin:]}"
            for line in text[start:stop].split("\n")
        ]  # fmt: skip
        if text[start : start + margin].strip():
            raise CannotEdit(found.start_mark.line + 1)
        colon = _colon(text, found, chain)
        edit = _Edit(colon, stop, " []" + text[colon:start] + "\n".join(silent))
        return _changed(text, parts, [], edit)
    return put(text, parts, "[]")


def _put(text: str, parts: Parts, value: str) -> _Edit:
    chain = _chain(text, parts)
    if len(chain) > len(parts):
        return _behind_colon(text, chain[-1], value)
    return _new_key(text, chain, parts, value)


def _chain(text: str, parts: Parts) -> list[yaml.Node]:
    """The nodes from the root along a path, as far as they go."""
    node: Any = yaml.compose(text, Loader=_LOADER)
    chain = [node]
    for part in parts:
        below: yaml.Node | None = None
        if isinstance(node, yaml.MappingNode):
            below = next((v for k, v in node.value if k.value == part), None)
        elif isinstance(node, yaml.SequenceNode) and isinstance(part, int):
            below = node.value[part] if part < len(node.value) else None
        if below is None:
            break
        node = below
        chain.append(node)
    return chain


def _behind_colon(text: str, node: yaml.Node, new: str) -> _Edit:
    """The stretch of a value on one line, to be replaced; an empty one starts at the colon."""
    start, end = node.start_mark.index, node.end_mark.index
    if _block(node) or "\n" in text[start:end]:
        raise CannotEdit(node.start_mark.line + 1)
    start = len(text[:start].rstrip(" "))
    return _Edit(start, end, f" {new}" if new else "")


def _new_key(text: str, chain: list[yaml.Node], parts: Parts, value: str) -> _Edit:
    """A line, or several one below the other, for a field that the text does not name yet."""
    owner, rest = chain[-1], parts[len(chain) - 1 :]
    names = [p for p in rest if isinstance(p, str)]
    if len(names) != len(rest) or not isinstance(owner, (yaml.MappingNode, yaml.ScalarNode)):
        raise CannotEdit(owner.start_mark.line + 1)
    if _is_flow(owner):
        inner = f"{': {'.join(names)}: {value}{'}' * (len(names) - 1)}"
        at = owner.start_mark.index + 1
        rest_of_it = isinstance(owner, yaml.MappingNode) and bool(owner.value)
        return _Edit(at, at, f"{inner}, " if rest_of_it else inner)
    if _block(owner):
        margin, at = owner.start_mark.column, _end(owner)
    elif owner.start_mark.index == owner.end_mark.index and len(chain) > 1:
        # The section's name stands there with nothing behind it.
        margin = _margin_of_key(text, owner.start_mark.index) + _STEP
        at = owner.start_mark.index
    else:
        raise CannotEdit(owner.start_mark.line + 1)
    return _lines_after(text, at, _nested(names, value), margin)


def _nested(names: Sequence[str], value: str) -> list[str]:
    lines = [f"{' ' * (_STEP * i)}{name}:" for i, name in enumerate(names)]
    lines[-1] += f" {value}" if value else ""
    return lines


def _lines_after(text: str, index: int, lines: Sequence[str], margin: int) -> _Edit:
    """Lines put in below the line that a place stands on."""
    newline = _newline(text)
    at = _line_end(text, index)
    body = newline.join(f"{' ' * margin}{line}" for line in lines)
    return _Edit(at, at, newline + body + ("" if at < len(text) else newline))


def _newline(text: str) -> str:
    return "\r\n" if "\r\n" in text else "\n"


def _line_end(text: str, index: int) -> int:
    """Where the line of a place ends, before its line end."""
    end = text.find("\n", index)
    end = len(text) if end < 0 else end
    return end - 1 if text[end - 1 : end] == "\r" and end > index else end


def _end(node: yaml.Node) -> int:
    """Where the last thing written in a node ends; libyaml's own end lies lines further on."""
    while _block(node) and node.value:
        last = node.value[-1]
        node = last[1] if isinstance(last, tuple) else last
    end: int = node.end_mark.index
    if isinstance(node, yaml.ScalarNode) and node.style in ("|", ">"):
        raise CannotEdit(node.start_mark.line + 1)
    return end


def _block(node: yaml.Node) -> bool:
    return isinstance(node, yaml.CollectionNode) and not node.flow_style


def _is_flow(node: yaml.Node) -> bool:
    return isinstance(node, yaml.CollectionNode) and bool(node.flow_style)


def _margin_of_key(text: str, colon: int) -> int:
    """The column of the key whose colon is at a place, behind the dash of an item."""
    line = text[text.rfind("\n", 0, colon) + 1 : colon]
    return len(line) - len(line.lstrip(" -"))


def _colon(text: str, node: yaml.Node, chain: list[yaml.Node]) -> int:
    """The place behind the colon of the key that a node belongs to."""
    owner = chain[-2]
    key = next(k for k, v in owner.value if v is node)
    return text.index(":", key.end_mark.index) + 1


def _value_at(text: str, parts: Parts) -> Any:
    value = plain(read_yaml(text.encode(), ""))
    for part in parts:
        if isinstance(part, int):
            value = value[part] if isinstance(value, list) and part < len(value) else None
        else:
            value = value.get(part) if isinstance(value, dict) else None
    return value


def _changed(text: str, parts: Parts, wanted: Any, edit: _Edit) -> str:
    """The text with the edit made, once it is known to change what was meant and nothing else."""
    changed = text[: edit.start] + edit.new + text[edit.end :]
    expected = plain(read_yaml(text.encode(), ""))
    at = expected
    for part, following in zip(parts, [*parts[1:], None], strict=True):
        if following is None:
            at[part] = wanted
        elif isinstance(part, str) and at.get(part) is None:
            at[part] = {}
        at = at[part]
    try:
        got = plain(read_yaml(changed.encode(), ""))
    except Mistakes:
        got = None
    if json.dumps(got, sort_keys=True) != json.dumps(expected, sort_keys=True):
        raise CannotEdit(text.count("\n", 0, edit.start) + 1)
    return changed
