"""A tree as the page holds it put into the text of a file, the rest of the text left as it is.

Value by value where each stands; what cannot be changed there goes through a round trip.
Either way the result is read back and held against what was meant.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from typing import Any, NamedTuple

from checker.asking.answers import text_as_yaml
from checker.asking.editing import CannotEdit, Parts, add_item, clear, empty_list, put
from checker.desk.arranging import arranged
from checker.desk.typed import PLACE, holds_nothing, value_of
from checker.errors import Mistakes, Place, fault
from checker.installation.fields import Field, Section
from checker.reading import plain, read_text, read_yaml

__all__ = ["Saved", "put_into"]

# Each change where it stands reads the text again; of very many a round trip is quicker.
_MOST_CHANGES = 60


class Saved(NamedTuple):
    """The new text, and the fields whose typed text no file may hold: those are as they were."""

    text: str
    left_out: tuple[str, ...]


def put_into(data: bytes, tree: Any, section: Section, name: str) -> Saved:
    """The text of a file with the values of a tree. Raises Mistakes where that cannot be done."""
    text = read_text(data, name)
    now = plain(read_yaml(data, name))
    if not isinstance(tree, dict) or not isinstance(now, dict):
        fault("this is not a group of fields", Place(name), hint="mend the file in an editor first")
    left_out: list[str] = []
    wanted = _values(tree, section, now, "", left_out)
    if name.endswith(".json"):
        changed = json.dumps(_lean(wanted), ensure_ascii=False, indent=2) + "\n"
    else:
        changed = _changed(text, wanted, now, section)
    if _lean(_read(changed)) != _lean(wanted):
        fault("the changes cannot be put into the file as it is laid out", Place(name), hint="keep them in a new file")  # fmt: skip
    return Saved(changed, tuple(left_out))


def _changed(text: str, wanted: dict[str, Any], now: dict[str, Any], section: Section) -> str:
    try:
        edited = _Edited(text)
        edited.section(wanted, now, section, ())
    except CannotEdit:
        pass
    else:
        if _lean(_read(edited.text)) == _lean(wanted):
            return edited.text
    from checker.desk.round_trip import round_trip  # noqa: PLC0415 - costs a tenth of a second

    return round_trip(text, wanted, section)


def _values(tree: dict[str, Any], section: Section, now: Any, path: str, left_out: list[str]) -> dict[str, Any]:  # fmt: skip
    """The tree with the value of each text; members keep their places, what is not stated is left out."""
    found: dict[str, Any] = {}
    for key, typed in tree.items():
        target = section.children.get(key)
        if typed is None or (typed == "" and not holds_nothing(target)):
            continue
        there = now.get(key) if isinstance(now, dict) else None
        below = f"{path}.{key}" if path else key
        if isinstance(target, Section) and isinstance(typed, dict):
            found[key] = _values(typed, target, there, below, left_out)
        elif isinstance(target, Field) and target.item is not None and isinstance(typed, list):
            root, members = target.item.root, there if isinstance(there, list) else []
            found[key] = [
                _values(m, root, _member(members, m), f"{below}[{i}]", left_out)
                if isinstance(m, dict)
                else m
                for i, m in enumerate(typed)
                if m is not None
            ]
        elif key != PLACE and isinstance(target, Field):
            try:
                found[key] = _value(typed, target)
            except Mistakes:
                left_out.append(below)
                if there is not None:
                    found[key] = there
        else:
            found[key] = typed
    return found


def _value(typed: Any, field: Field) -> Any:
    if isinstance(typed, dict):
        said = {k: v for k, v in typed.items() if v is not None and v != ""}
        if isinstance(said.get("is"), str):
            said["is"] = value_of(field, said["is"])
            if isinstance(said["is"], dict):
                said = {**said, **said["is"]}
        return said
    return value_of(field, typed) if isinstance(typed, str) else typed


def _stands(members: list[Any], wanted: dict[str, Any]) -> bool:
    """Whether a member on the page is one of the file's."""
    place = wanted.get(PLACE)
    return type(place) is int and 0 <= place < len(members)


def _member(members: list[Any], wanted: dict[str, Any]) -> Any:
    return members[wanted[PLACE]] if _stands(members, wanted) else None


class _Edited:
    """A text that is changed value by value."""

    def __init__(self, text: str) -> None:
        self.text = text
        self.changes = 0

    def _count(self) -> None:
        self.changes += 1
        if self.changes > _MOST_CHANGES:
            raise CannotEdit(1)

    def section(self, wanted: dict[str, Any], now: dict[str, Any], section: Section, parts: Parts) -> None:  # fmt: skip
        """Bring a group of fields to what is wanted of it."""
        for key in [k for k, v in now.items() if v is not None and k not in wanted]:
            if key not in section.children:
                raise CannotEdit(1)  # A name that the schema does not have goes as a whole.
            self._clear(section.children[key], now[key], (*parts, key))
        for key in _in_order(wanted, section):
            value, there, target = wanted[key], now.get(key), section.children.get(key)
            if isinstance(target, Section) and isinstance(value, dict) and (there is None or isinstance(there, dict)):  # fmt: skip
                self.section(value, there or {}, target, (*parts, key))
            elif isinstance(target, Field) and target.item is not None and isinstance(value, list):
                self._list(value, there, target, (*parts, key))
            elif there != value or type(there) is not type(value):
                self._count()
                self.text = put(self.text, (*parts, key), _flow(value))

    def _clear(self, target: Any, there: Any, parts: Parts) -> None:
        if isinstance(target, Section) and isinstance(there, dict):
            self.section({}, there, target, parts)
            return
        self._count()
        if isinstance(there, list) and there:
            self.text = arranged(self.text, parts, [])
        else:
            self.text = clear(self.text, parts)

    def _list(self, wanted: list[Any], there: Any, field: Field, parts: Parts) -> None:
        assert field.item is not None  # noqa: S101 - only lists come here
        root = field.item.root
        if not all(isinstance(m, dict) for m in wanted):
            raise CannotEdit(1)
        now = there if isinstance(there, list) else []
        places = [m[PLACE] if _stands(now, m) else None for m in wanted]
        kept = [p for p in places if p is not None]
        if not wanted:
            if there != []:
                self._count()
                self.text = arranged(self.text, parts, []) if there else self.text
                self.text = empty_list(self.text, parts)
            return
        in_place = kept == list(range(len(now))) and places[: len(now)] == kept
        if not in_place:
            self._count()
            order = [_lines(m, root) if p is None else p for m, p in zip(wanted, places, strict=True)]  # fmt: skip
            self.text = arranged(self.text, parts, order)
        for i, (member, place) in enumerate(zip(wanted, places, strict=True)):
            if place is None and in_place:
                self._count()
                self.text = add_item(self.text, parts, _lines(member, root))
                # In brackets it was begun empty; line by line it is whole.
                self.section(member, _at(self.text, (*parts, i)), root, (*parts, i))
            elif place is not None and isinstance(now[place] or {}, dict):
                self.section(member, now[place] or {}, root, (*parts, i))


def _in_order(box: dict[str, Any], section: Section) -> list[str]:
    """The names in a box as the schema orders them, those that it does not have last."""
    order = list(section.children)
    known = [key for key in order if key in box]
    return [*known, *(key for key in box if key not in section.children and key != PLACE)]


def _lines(member: dict[str, Any], root: Section) -> list[str]:
    """A new member of a list, line by line, its dash at the margin."""
    lines = list(_entries(member, root)) or [f"{next(iter(root.children))}:"]
    return [f"- {lines[0]}", *(f"  {line}" for line in lines[1:])]


def _entries(box: dict[str, Any], section: Section) -> Iterator[str]:
    for key in _in_order(box, section):
        value, target = box[key], section.children.get(key)
        if isinstance(target, Section) and isinstance(value, dict):
            inside = list(_entries(value, target))
            if inside:
                yield f"{key}:"
                yield from (f"  {line}" for line in inside)
        elif isinstance(target, Field) and target.item is not None and isinstance(value, list) and value:  # fmt: skip
            yield f"{key}:"
            for member in value:
                yield from (f"  {line}" for line in _lines(member, target.item.root))
        else:
            yield f"{key}: {_flow(value)}"


def _flow(value: Any) -> str:
    """A value as YAML on one line."""
    if isinstance(value, dict):
        return "{" + ", ".join(f"{k}: {_flow(v)}" for k, v in value.items() if k != PLACE) + "}"
    if isinstance(value, list):
        return "[" + ", ".join(_flow(v) for v in value) + "]"
    return text_as_yaml(value) if isinstance(value, str) else json.dumps(value, ensure_ascii=False)


def _at(text: str, parts: Parts) -> dict[str, Any]:
    value: Any = _read(text)
    for part in parts:
        value = value[part]
    return value if isinstance(value, dict) else {}


def _read(text: str) -> Any:
    return plain(read_yaml(text.encode("utf-8"), ""))


def _lean(value: Any, *, member: bool = False) -> Any:
    """Without what is not stated: names with nothing behind them, groups with nothing in them."""
    if isinstance(value, dict):
        leaned = {k: _lean(v) for k, v in value.items() if k != PLACE}
        said = {k: v for k, v in leaned.items() if v is not None}
        return said if said or member else None
    if isinstance(value, list):
        return [_lean({} if v is None else v, member=True) for v in value]
    return value
