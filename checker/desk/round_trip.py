"""Changes to a description by a round trip through ruamel.yaml, which keeps comments and order.

For what cannot be changed where it stands. A round trip lays some lines out anew; only
those that a change touched are taken over, as long as that can be told.
"""

from __future__ import annotations

import difflib
import io
from typing import Any

from ruamel.yaml import YAML
from ruamel.yaml.comments import CommentedMap, CommentedSeq

from checker.desk.typed import PLACE
from checker.installation.fields import Field, Section

__all__ = ["round_trip"]


def round_trip(text: str, wanted: dict[str, Any], section: Section) -> str:
    """The text with the values of a tree, whose texts are values already."""
    data = _yaml().load(text)
    before = _dumped(data)
    _apply(data, wanted, section)
    return _patched(text, before, _dumped(data))


def _yaml() -> YAML:
    yaml = YAML()
    yaml.preserve_quotes = True
    yaml.width = 100_000
    yaml.indent(mapping=2, sequence=4, offset=2)
    return yaml


def _dumped(data: Any) -> str:
    out = io.StringIO()
    _yaml().dump(data, out)
    return out.getvalue()


def _apply(box: CommentedMap, wanted: dict[str, Any], section: Section) -> None:
    flow = bool(box.fa.flow_style())
    for key in [k for k in box if k not in wanted]:
        if key in section.children and not flow:
            if box[key] is not None:
                box[key] = None
        else:
            del box[key]
    for key, value in wanted.items():
        if key == PLACE:
            continue
        target = section.children.get(key)
        there = box.get(key)
        if isinstance(target, Section) and isinstance(there, CommentedMap) and isinstance(value, dict):  # fmt: skip
            _apply(there, value, target)
        elif isinstance(target, Field) and target.item is not None and isinstance(value, list):
            new = _list(there if isinstance(there, CommentedSeq) else CommentedSeq(), value, target)
            _put(box, key, new, section)
        elif key not in box or _plain(there) != value or type(_plain(there)) is not type(value):
            _put(box, key, _made(value, target), section)


def _list(there: CommentedSeq, wanted: list[Any], field: Field) -> CommentedSeq:
    assert field.item is not None  # noqa: S101 - only lists come here
    members = []
    for member in wanted:
        place = member.get(PLACE) if isinstance(member, dict) else None
        old = there[place] if isinstance(place, int) and 0 <= place < len(there) else None
        if isinstance(old, CommentedMap):
            _apply(old, member, field.item.root)
            members.append(old)
        else:
            members.append(_made(member, field.item.root))
    there[:] = members
    if not members:
        there.fa.set_flow_style()
    return there


def _put(box: CommentedMap, key: str, value: Any, section: Section) -> None:
    """Set a key where it stands, else behind those that the schema names before it."""
    if key in box:
        box[key] = value
        return
    order = list(section.children)
    before = set(order[: order.index(key)]) if key in order else set(order)
    place = max((i + 1 for i, k in enumerate(box) if k in before), default=0)
    box.insert(place, key, value)


def _made(value: Any, target: Field | Section | None) -> Any:
    if isinstance(value, dict):
        made = CommentedMap((k, _made(v, None)) for k, v in value.items() if k != PLACE)
        if isinstance(target, Field):
            made.fa.set_flow_style()
        return made
    if isinstance(value, list):
        return CommentedSeq(_made(v, None) for v in value)
    return value


def _plain(value: Any) -> Any:
    if isinstance(value, dict):
        return {str(k): _plain(v) for k, v in value.items()}
    if isinstance(value, list):
        return [_plain(v) for v in value]
    for kind in (bool, int, float, str):
        if isinstance(value, kind):
            return kind(value)
    return value


def _patched(text: str, before: str, after: str) -> str:
    """The text with the lines that differ between two round trips; all of the second where they cannot be placed."""
    own, old, new = (t.splitlines(keepends=True) for t in (text, before, after))
    place: dict[int, int] = {len(old): len(own)}
    for a, b, size in difflib.SequenceMatcher(None, old, own, autojunk=False).get_matching_blocks():
        place.update((a + i, b + i) for i in range(size))
    out: list[str] = []
    at = 0
    for tag, i1, i2, j1, j2 in difflib.SequenceMatcher(
        None, old, new, autojunk=False
    ).get_opcodes():
        if tag == "equal":
            continue
        if i1 not in place or (i2 - 1 if i2 > i1 else i1) not in place:
            return after
        start = place[i1]
        end = place[i2 - 1] + 1 if i2 > i1 else start
        if start < at or end - start != i2 - i1:
            return after
        out += [*own[at:start], *new[j1:j2]]
        at = end
    return "".join([*out, *own[at:]])
