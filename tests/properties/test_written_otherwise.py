"""How a description is written changes nothing: units, key order, comments, line ends, quotes, JSON."""

from __future__ import annotations

import json
import math
import re
from collections.abc import Callable, Iterator
from functools import cache
from pathlib import Path
from random import Random
from typing import Any

import pytest
import yaml
from case_installations import shipped
from moving import FIXTURES, ROOT

from checker import units
from checker.checking.outcomes import Outcome, check
from checker.installation.binding import bind
from checker.installation.fields import Field, Section
from checker.installation.schema import installation_layout
from checker.reading import plain, read_yaml
from checker.running import Checker
from checker.units.quantities import Quantity, parse

MAIN = FIXTURES[:6]
_EVERY = pytest.mark.parametrize("path", MAIN, ids=lambda p: p.stem)
_MANY = pytest.mark.parametrize(
    "path", [pytest.param(p, marks=[pytest.mark.slow] * (i > 0)) for i, p in enumerate(MAIN)], ids=lambda p: p.stem
)  # fmt: skip


def outcomes(data: bytes) -> list[Outcome]:
    return check(shipped(), bind(data, "plan.yaml"))


@cache
def as_it_is(path: Path) -> list[Outcome]:
    return outcomes(path.read_bytes())


def the_same(one: list[Outcome], other: list[Outcome]) -> None:
    """Grade for grade; demand over limit to nine digits."""
    assert [(o.rule.name, o.member) for o in one] == [(o.rule.name, o.member) for o in other]
    for a, b in zip(one, other, strict=True):
        assert a.grade is b.grade, (a.rule.name, a.member, a.demand, a.limit, b.demand, b.limit)
        for x, y in ((a.demand, b.demand), (a.limit, b.limit)):
            assert (x is None) is (y is None)
            if x is not None:
                assert math.isclose(x, y, rel_tol=1e-9, abs_tol=1e-9), (a.rule.name, x, y)


# --- units -----------------------------------------------------------------------


def _rewritten(tree: Any, section: Section, turn: int) -> tuple[Any, int]:
    """A description with every quantity in the unit that its turn brings; how many were changed."""
    made, count = {}, 0
    for key, value in tree.items():
        target = section.children[key]
        if isinstance(target, Section):
            made[key], n = _rewritten(value, target, turn) if value is not None else (value, 0)
        elif target.item is not None and isinstance(value, list):
            members = [_rewritten(m, target.item.root, turn) for m in value]
            made[key], n = [m for m, _ in members], sum(k for _, k in members)
        else:
            made[key], n = _field(value, target, turn)
        count += n
    return made, count


def _field(value: Any, field: Field, turn: int) -> tuple[Any, int]:
    if field.type != "quantity" or field.unit is None:
        return value, 0
    if isinstance(value, dict):
        made, count = _field(value["is"], field, turn)
        return {**value, "is": made}, count
    if not isinstance(value, str):
        return value, 0
    stated = parse(value, field.unit.kind)
    # Several rows of one kind and one factor are two names of one unit.
    others = [u for u in units.by_kind(field.unit.kind) if u.symbol != "1"]
    unit = others[turn % len(others)]
    text = _in(unit, stated)
    return (value, 0) if text is None else (text, int(unit != stated.unit))


def _in(unit: units.Unit, stated: Quantity) -> str | None:
    """The same value in another unit, to the last digit that a description may have, or None."""
    number = _digits((stated.value - unit.offset) / unit.factor)
    if number is None:
        return None
    if stated.is_exact:
        return f"{number} {unit.symbol}"
    # A band about the middle; a difference of temperatures has the same size in its own unit.
    spread = _digits((stated.high - stated.low) / 2 / unit.factor)
    return None if spread is None else f"{number} ± {spread} {unit.symbol}"


def _digits(value: float) -> str | None:
    for digits in range(15, 12, -1):
        text = f"{value:.{digits}g}"
        if "e" not in text:
            found = re.fullmatch(r"-?[0-9]{1,15}(?:\.[0-9]{1,15})?", text)
        else:
            text = f"{value:.{min(digits, 15)}e}"
            found = re.fullmatch(r"-?[0-9]{1,15}(?:\.[0-9]{1,15})?e[-+]?[0-9]{1,2}", text)
        if found and abs(float(text) - value) <= 1e-12 * abs(value):
            return text
    return None


@_MANY
@pytest.mark.parametrize("turn", range(12))
def test_in_every_unit_of_its_kind(path: Path, turn: int) -> None:
    """Every quantity in the next unit of the closed table, then the next, until all were used."""
    tree = plain(read_yaml(path.read_bytes(), path.name))
    made, changed = _rewritten(tree, installation_layout().root, turn)
    assert changed > 50
    the_same(as_it_is(path), outcomes(json.dumps(made, ensure_ascii=False).encode()))


def test_twelve_turns_reach_every_unit_that_a_field_can_be_written_in() -> None:
    most = max(len([u for u in units.by_kind(f.unit.kind) if u.symbol != "1"]) for f in installation_layout().walk() if f.unit is not None)  # fmt: skip
    assert most <= 12


# --- the file --------------------------------------------------------------------


def _shuffled(tree: Any, random: Random) -> Any:
    if isinstance(tree, dict):
        keys = list(tree)
        random.shuffle(keys)
        return {k: _shuffled(tree[k], random) for k in keys}
    return [_shuffled(v, random) for v in tree] if isinstance(tree, list) else tree


def _commented(text: str) -> str:
    lines = []
    for line in text.split("\n"):
        lines.append(f"{line}  # {line.strip()[:20]}" if line.strip() and "#" not in line and not line.rstrip().endswith(("|", ">", "-")) else line)  # fmt: skip
        lines += ["", "  # a remark: {not} [a] &value *of !any kind"]
    return "\n".join(lines)


def _dumped(tree: Any, **options: Any) -> str:
    return yaml.safe_dump(tree, allow_unicode=True, width=4000, **options)


WAYS: dict[str, Callable[[str, Any], str | bytes]] = {
    "as JSON": lambda _, tree: json.dumps(tree, ensure_ascii=False),
    "as JSON in ASCII": lambda _, tree: json.dumps(tree),
    "as JSON with room": lambda _, tree: json.dumps(tree, indent=4, ensure_ascii=False),
    "in blocks": lambda _, tree: _dumped(tree, default_flow_style=False),
    "in one line": lambda _, tree: _dumped(tree, default_flow_style=True),
    "in double quotes": lambda _, tree: _quoted(tree, '"'),
    "in single quotes": lambda _, tree: _quoted(tree, "'"),
    "with its keys in the order of letters": lambda _, tree: _dumped(tree, sort_keys=True),
    "with its keys shuffled": lambda _, tree: json.dumps(_shuffled(tree, Random(1)), ensure_ascii=False),
    "with remarks everywhere": lambda text, _: _commented(text),
    "without its remarks": lambda text, _: re.sub(r"(?m)^\s*#.*\n", "", text),
    "with Windows line ends": lambda text, _: text.replace("\n", "\r\n"),
    "with line ends of long ago": lambda text, _: text.replace("\n", "\r"),
    "with a byte order mark": lambda text, _: "\ufeff" + text,
    "with markers around it": lambda text, _: f"---\n{text}\n...\n",
    "with blank lines": lambda text, _: text.replace("\n", "\n\n"),
    "with spaces at the ends of lines": lambda text, _: text.replace("\n", "   \n"),
    "indented by one": lambda _, tree: _dumped(tree, default_flow_style=False, indent=1),
    "indented by nine": lambda _, tree: _dumped(tree, default_flow_style=False, indent=9),
}  # fmt: skip


def _quoted(tree: Any, sign: str) -> str:
    return (
        _dumped(tree, default_style=sign) if sign == "" else "".join(_in_quotes(tree, sign)) + "\n"
    )


def _in_quotes(tree: Any, sign: str) -> Iterator[str]:
    if isinstance(tree, dict):
        yield "{"
        for key, value in tree.items():
            yield f"{sign}{key}{sign}: "
            yield from _in_quotes(value, sign)
            yield ", "
        yield "}"
    elif isinstance(tree, list):
        yield "["
        for value in tree:
            yield from _in_quotes(value, sign)
            yield ", "
        yield "]"
    elif isinstance(tree, str):
        # What a quotation mark needs inside itself.
        inner = tree.replace("'", "''") if sign == "'" else tree.replace("\\", "\\\\").replace('"', '\\"')  # fmt: skip
        yield f"{sign}{inner}{sign}"
    else:
        yield json.dumps(tree)


@_EVERY
@pytest.mark.parametrize("way", WAYS)
def test_the_same_file_another_way(path: Path, way: str) -> None:
    text = path.read_text(encoding="utf-8")
    tree = plain(read_yaml(text.encode(), path.name))
    written = WAYS[way](text, tree)
    data = written.encode() if isinstance(written, str) else written
    assert data != path.read_bytes()
    # Nothing that is stated is lost on the way: the same tree, in whatever order.
    assert plain(read_yaml(data, path.name)) == tree
    the_same(as_it_is(path), outcomes(data))


def test_the_order_of_keys_changes_no_report() -> None:
    """Whole reports, but for the digest and the places in the file."""
    text = MAIN[0].read_text(encoding="utf-8")
    tree = plain(read_yaml(text.encode(), "plan.yaml"))
    checker = Checker()
    one, other = (
        checker.report_on_bytes(json.dumps(t, ensure_ascii=False).encode(), "plan.yaml")
        for t in (tree, _shuffled(tree, Random(2)))
    )
    assert one.counts == other.counts
    assert [(f.rule, f.subject, f.sentence, f.grade) for f in one.findings] == [
        (f.rule, f.subject, f.sentence, f.grade) for f in other.findings
    ]


def test_the_fixtures_are_where_they_are_expected() -> None:
    assert len(MAIN) == 6
    assert all(p.parent == ROOT / "fixtures" for p in MAIN)
