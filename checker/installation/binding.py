"""A description's text, checked against the fields and bound to SI values."""

from __future__ import annotations

import datetime
import hashlib
import re
from typing import Any

from checker.errors import MOST_TOLD, Mistake, Mistakes, near
from checker.installation.fields import Field, Layout, Section
from checker.installation.record import Installation, Record, Stated
from checker.installation.schema import installation_layout
from checker.reading import Mark, Node, place_of, read_yaml
from checker.units.quantities import MAX_MAGNITUDE, NotAQuantity, Quantity, parse

__all__ = ["ORIGINS", "bind", "bind_node", "seconds_of"]

ORIGINS = ("nameplate", "measured", "drawing", "maker", "estimated")
_EPOCH = datetime.date(1970, 1, 1).toordinal()
_WRAPPED = {"is", "origin"}
# date.fromisoformat also takes week dates; a description has one way to write a day.
_DATE = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}", re.ASCII)


def bind(data: bytes, name: str) -> Installation:
    """Read, check and bind the bytes of a description.

    Raises Mistakes with every mistake found, in the order of the file.
    """
    node = read_yaml(data, name)
    return Installation(
        bind_node(node, installation_layout(), name), name, hashlib.sha256(data).hexdigest()
    )


def bind_node(node: Node, layout: Layout, name: str) -> Record:
    """Bind a node that was read already; raises Mistakes."""
    binder = _Binder(name)
    record = Record(layout, node[1])
    binder.section(node, layout.root, record)
    if binder.mistakes:
        raise Mistakes(binder.mistakes)
    return record


def seconds_of(text: str) -> float | None:
    """The date in a text as seconds since 1970-01-01, or None.

    >>> seconds_of("1970-01-02")
    86400.0
    """
    try:
        day = datetime.date.fromisoformat(text) if _DATE.fullmatch(text) else None
    except ValueError:
        day = None
    return None if day is None else (day.toordinal() - _EPOCH) * 86400.0


class _Binder:
    __slots__ = ("mistakes", "name")

    def __init__(self, name: str) -> None:
        self.name = name
        self.mistakes: list[Mistake] = []

    def wrong(
        self, what: str, mark: Mark, found: str = "", expected: str = "", hint: str = ""
    ) -> None:
        self.mistakes.append(Mistake(what, place_of(mark, self.name), found, expected, hint))

    def section(self, node: Node, section: Section, record: Record) -> None:
        value, mark = node
        if type(value) is not dict:
            self.wrong(
                f"{section.path.rstrip('.') or 'the description'} is not a group of fields",
                mark,
                _shown(value),
                "fields below it, each 'name: value'",
                section.description,
            )
            return
        children = section.children
        for key, (key_mark, child) in value.items():
            target = children.get(key)
            if target is None:
                self.unknown(key, key_mark, section)
            elif child[0] is None:
                continue  # A name with nothing behind it is a field not stated yet.
            elif type(target) is Section:
                self.section(child, target, record)
            else:
                self.field(child, target, record)  # type: ignore[arg-type]
        for name in section.required:
            if name not in value or value[name][1][0] is None:
                missing = children[name]
                self.wrong(
                    f"'{name}' is missing",
                    mark,
                    expected=missing.description,
                    hint=f"add '{name}:' to {section.path.rstrip('.') or 'the description'}",
                )

    def unknown(self, key: str, mark: Mark, section: Section) -> None:
        # Looking for the nearest word takes longer than all else; most of it would not be shown.
        hint = near(key, section.children) if len(self.mistakes) < MOST_TOLD else ""
        if not hint:
            hint = (
                "fields here: "
                + ", ".join(list(section.children)[:12])
                + (", ..." if len(section.children) > 12 else "")
            )
        where = section.path.rstrip(".")
        self.wrong(
            f"unknown field '{key[:60]}'" + (f" in {where}" if where else ""), mark, hint=hint
        )

    def field(self, node: Node, field: Field, record: Record) -> None:
        value, mark = node
        kind = field.type
        slot = field.slot
        if kind == "quantity":
            origin = None
            if type(value) is dict:
                value, origin = self.wrapped(value, mark, field)
                if value is None:
                    return
            if type(value) is not str:
                self.bare(value, mark, field)
                return
            quantity = _QUANTITIES.get((value, field.unit.kind))  # type: ignore[union-attr]
            if quantity is None:
                quantity = self.quantity(value, mark, field)
                if quantity is None:
                    return
            if quantity.low < 0 and not field.signed:
                self.wrong(f"{field.path} cannot be below nought", mark, value, field.description)
                return
            record.values[slot] = quantity.value
            record.facts[slot] = Stated(
                value, quantity.low, quantity.high, quantity.unit, origin, mark
            )
            if quantity.low != quantity.high:
                record.uncertain.append(slot)
            if origin == "estimated":
                record.estimated.append(slot)
            usual = field.plausible
            if usual is not None and (quantity.low < usual[0] or quantity.high > usual[1]):
                record.unusual.append(slot)
        elif kind == "choice":
            if value not in field.choices or type(value) is not str:
                self.wrong(
                    f"{field.path} has no such choice",
                    mark,
                    _shown(value),
                    _listed(field.choices),
                    f'put it in quotes: "{value}"'
                    if str(value) in field.choices
                    else near(str(value), field.choices),
                )
                return
            record.values[slot] = value
            record.facts[slot] = Stated(value, 0.0, 0.0, None, None, mark)
        elif kind == "list":
            self.list(value, mark, field, record)
        elif kind == "text":
            if type(value) is not str:
                self.wrong(
                    f"{field.path} is a text",
                    mark,
                    _shown(value),
                    field.description,
                    f'put it in quotes: "{value}"' if isinstance(value, (int, float)) else "",
                )
                return
            record.values[slot] = value
            record.facts[slot] = Stated(value, 0.0, 0.0, None, None, mark)
        elif kind == "flag":
            if type(value) is not bool:
                self.wrong(
                    f"{field.path} is a yes-or-no field",
                    mark,
                    _shown(value),
                    "true or false",
                    {
                        "yes": "write 'true'",
                        "on": "write 'true'",
                        "no": "write 'false'",
                        "off": "write 'false'",
                    }.get(str(value).lower(), ""),
                )
                return
            record.values[slot] = value
            record.facts[slot] = Stated("true" if value else "false", 0.0, 0.0, None, None, mark)
        elif kind == "date":
            seconds = seconds_of(value) if type(value) is str else None
            if seconds is None:
                self.wrong(
                    f"{field.path} is not a date",
                    mark,
                    _shown(value),
                    "year-month-day, such as 2026-03-31",
                )
                return
            record.values[slot] = seconds
            record.facts[slot] = Stated(value, seconds, seconds, None, None, mark)
        else:
            self.number(value, mark, field, record)

    def number(self, value: Any, mark: Mark, field: Field, record: Record) -> None:
        whole = field.type == "count"
        if type(value) is str and not whole and value.endswith("%"):
            quantity = self.quantity(value, mark, field)
            if quantity is None:
                return
            number: float = quantity.value
            low, high, unit = quantity.low, quantity.high, quantity.unit
        elif type(value) is int or (type(value) is float and (not whole or value.is_integer())):
            number = low = high = value
            unit = None
        else:
            self.wrong(
                f"{field.path} is a {'whole number' if whole else 'number'}",
                mark,
                _shown(value),
                field.description,
            )
            return
        if (
            (low < 0 and not field.signed)
            or (field.least is not None and low < field.least)
            or (field.most is not None and high > field.most)
            or max(abs(low), abs(high)) > MAX_MAGNITUDE
        ):
            least = field.least if field.least is not None else "" if field.signed else 0
            self.wrong(
                f"{field.path} is outside what is possible",
                mark,
                _shown(value),
                f"{least} to {field.most}"
                if field.most is not None
                else f"at least {least}"
                if low < (field.least or 0)
                else "a number of usual size",
            )
            return
        record.values[field.slot] = int(number) if whole else float(number)
        record.facts[field.slot] = Stated(str(value), float(low), float(high), unit, None, mark)
        if low != high:
            record.uncertain.append(field.slot)
        if field.plausible is not None and (low < field.plausible[0] or high > field.plausible[1]):
            record.unusual.append(field.slot)

    def list(self, value: Any, mark: Mark, field: Field, record: Record) -> None:
        if type(value) is not list:
            self.wrong(
                f"{field.path} is a list",
                mark,
                _shown(value),
                "items, each starting with '-'",
                field.description,
            )
            return
        if len(value) < (field.least or 0) or len(value) > (field.most or len(value)):
            few = len(value) < (field.least or 0)
            self.wrong(
                f"{field.path} has too {'few' if few else 'many'} items",
                mark,
                f"{len(value)} in the list",
                f"at least {field.least}" if few else f"at most {field.most:g}",
            )
            return
        layout = field.item
        assert layout is not None  # noqa: S101 - a list field always has its items' layout
        members = []
        for child in value:
            member = Record(layout, child[1])
            self.section(child, layout.root, member)
            members.append(member)
        record.members[field.slot] = members
        record.values[field.slot] = [m.values for m in members]
        record.facts[field.slot] = Stated(f"{len(members)} in the list", 0.0, 0.0, None, None, mark)

    def wrapped(self, value: dict[str, Any], mark: Mark, field: Field) -> tuple[Any, str | None]:
        for key, (key_mark, _) in value.items():
            if key not in _WRAPPED:
                self.wrong(
                    f"unknown field '{key}' in {field.path}",
                    key_mark,
                    expected="'is' and 'origin'",
                    hint=near(key, _WRAPPED),
                )
                return None, None
        if "is" not in value or value["is"][1][0] is None:
            self.wrong(f"{field.path} has no value", mark, expected="'is: 28 kg' beside its origin")
            return None, None
        origin = None
        if "origin" in value and value["origin"][1][0] is not None:
            origin, origin_mark = value["origin"][1]
            if type(origin) is not str or origin not in ORIGINS:
                self.wrong(
                    f"{field.path} has no such origin",
                    origin_mark,
                    _shown(origin),
                    _listed(ORIGINS),
                    near(str(origin), ORIGINS),
                )
                return None, None
        return value["is"][1][0], origin

    def quantity(self, text: str, mark: Mark, field: Field) -> Quantity | None:
        assert field.unit is not None  # noqa: S101 - a quantity always has its unit
        try:
            quantity = parse(text, field.unit.kind)
        except NotAQuantity as error:
            self.wrong(
                f"{field.path}: {error.what}",
                mark,
                _shown(text),
                f"{_lower(field.description)} ({field.unit.kind})",
                error.hint,
            )
            return None
        if len(_QUANTITIES) < 50_000:
            _QUANTITIES[text, field.unit.kind] = quantity
        return quantity

    def bare(self, value: Any, mark: Mark, field: Field) -> None:
        assert field.unit is not None  # noqa: S101 - a quantity always has its unit
        if isinstance(value, (int, float)) and not isinstance(value, bool):
            self.wrong(
                f"{field.path} has no unit",
                mark,
                f"{value}",
                f"{_lower(field.description)} ({field.unit.kind})",
                f"write the unit: '{value} {field.unit.symbol}' if that is what is meant",
            )
        else:
            self.wrong(
                f"{field.path} is not a value with a unit",
                mark,
                _shown(value),
                f"{_lower(field.description)} ({field.unit.kind})",
                f"write a number and its unit, such as in {field.unit.symbol}",
            )


_QUANTITIES: dict[tuple[str, str], Quantity] = {}


def _shown(value: Any) -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    if value is None:
        return "nothing"
    if isinstance(value, dict):
        return "a group of fields"
    if isinstance(value, list):
        return "a list"
    text = str(value)
    return f"'{text}'" if len(text) <= 60 else f"'{text[:57]}...'"


def _listed(words: tuple[str, ...]) -> str:
    return "one of " + ", ".join(words)


def _lower(text: str) -> str:
    text = text.rstrip(".")
    return text[:1].lower() + text[1:] if text[1:2].islower() else text
