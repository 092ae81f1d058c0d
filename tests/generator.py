"""Descriptions made from the fixtures, as many as wanted; the same seed, the same bytes.

Each is one fixture with its values jittered, some written in inches and pounds where
the fixture has millimetres and kilograms (or the other way round), some fields left
out, some lists a member shorter. A share of them is broken, each in one of the ways
that files are broken in practice. The valid ones bind by construction: values stay
inside what the schema allows and required fields stay. The same module serves the
tests and the benchmarks.

    python tests/generator.py FOLDER COUNT [SEED]
"""

from __future__ import annotations

import json
import random
import re
import sys
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any, NamedTuple

from checker import units
from checker.installation.fields import Field, Section
from checker.installation.schema import installation_layout
from checker.reading import plain, read_yaml
from checker.units.quantities import NotAQuantity, Quantity, parse

__all__ = ["BREAKAGES", "Generator", "Made", "written"]

FIXTURES = Path(__file__).resolve().parents[1] / "fixtures"

# What is written instead of what, where a plant thinks in the other system.
_OTHER_SYSTEM = {
    "mm": "in", "m": "ft", "kg": "lb", "N*m": "lbf*ft", "m3/h": "ft3/min", "Pa": "inH2O", "kPa": "psi", "m/s": "ft/min",
    "kW": "hp", "degC": "degF", "N": "lbf", "m2": "ft2", "L": "US gal", "kg/m": "lb/ft",
    "in": "mm", "ft": "m", "lb": "kg", "lbf*ft": "N*m", "ft3/min": "m3/h", "inH2O": "Pa", "psi": "kPa", "ft/min": "m/s",
    "hp": "kW", "degF": "degC", "lbf": "N", "ft2": "m2", "US gal": "L", "lb/ft": "kg/m",
}  # fmt: skip
_JITTERED, _CONVERTED, _DROPPED, _SHORTENED = 0.3, 0.15, 0.02, 0.1


class Made(NamedTuple):
    """One generated description: its name, its bytes, and how it is broken ('' if it is not)."""

    name: str
    data: bytes
    breakage: str


class Generator:
    """Makes descriptions by number, each independent of the others."""

    def __init__(
        self, seed: int = 1, *, broken: float = 0.0, fixtures: tuple[Path, ...] | None = None
    ) -> None:
        self.seed = seed
        self.broken = broken
        paths = fixtures or (
            *sorted(FIXTURES.glob("*.yaml")),
            *sorted((FIXTURES / "defective").glob("*.yaml")),
        )
        self.originals = [plain(read_yaml(p.read_bytes(), str(p))) for p in paths]
        self.root = installation_layout().root

    def one(self, number: int, edition: int = 0) -> Made:
        """The description of a number; another edition is another one of the same name."""
        chance = random.Random(f"{self.seed} {number} {edition}")
        original = self.originals[chance.randrange(len(self.originals))]
        tree = self._section(original, self.root, chance)
        job = tree.setdefault("job", {})
        job["reference"] = f"G-{number:05}"
        month = chance.randrange(36)
        job["planned_on"] = (
            f"{2023 + month // 12}-{month % 12 + 1:02}-{chance.randrange(28) + 1:02}"
        )
        data = written(tree).encode()
        name, breakage = f"{number // 1000:02}/{number:05}.yaml", ""
        if chance.random() < self.broken:
            breakage = chance.choice(sorted(BREAKAGES))
            data = BREAKAGES[breakage](data)
        return Made(name, data, breakage)

    def several(self, count: int) -> Iterator[Made]:
        """The first so many."""
        return (self.one(number) for number in range(count))

    def write(self, folder: Path, count: int) -> list[Path]:
        """Write the first so many below a folder; their paths."""
        paths = []
        for made in self.several(count):
            path = folder / made.name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(made.data)
            paths.append(path)
        return paths

    def _section(self, value: Any, section: Section, chance: random.Random) -> dict[str, Any]:
        made: dict[str, Any] = {}
        for key, child in value.items():
            target = section.children[key]
            if key not in section.required and chance.random() < _DROPPED:
                continue
            if isinstance(target, Section):
                made[key] = self._section(child, target, chance)
            else:
                made[key] = self._field(child, target, chance)
        return made

    def _field(self, value: Any, field: Field, chance: random.Random) -> Any:
        if field.item is not None and isinstance(value, list):
            members = [self._section(member, field.item.root, chance) for member in value]
            if len(members) > max(field.least or 1, 1) and chance.random() < _SHORTENED:
                members.pop(chance.randrange(len(members)))
            return members
        if field.type != "quantity" or field.unit is None:
            return value
        if isinstance(value, dict):
            return {**value, "is": _varied(value["is"], field, chance)}
        return _varied(value, field, chance) if isinstance(value, str) else value


def _varied(text: str, field: Field, chance: random.Random) -> str:
    jittered, converted = chance.random() < _JITTERED, chance.random() < _CONVERTED
    if not (jittered or converted):
        return text
    assert field.unit is not None
    stated = parse(text, field.unit.kind)
    unit = stated.unit
    if converted:
        unit = units.find(_OTHER_SYSTEM.get(unit.symbol, "")) or unit
    scale = chance.uniform(0.85, 1.15) if jittered and unit.kind != "temperature" else 1.0
    made = _in_unit(stated, unit, scale)
    try:
        again = parse(made, field.unit.kind)
    except NotAQuantity:
        return text
    return text if again.low < 0 and not field.signed else made


def _in_unit(stated: Quantity, unit: units.Unit, scale: float) -> str:
    value = (stated.value * scale - unit.offset) / unit.factor
    made = f"{_number(value)} {unit.symbol}"
    if stated.is_exact:
        return made
    spread = (stated.high - stated.low) / 2 / unit.factor
    # A tolerance of a temperature is written in its own unit too: the difference has the same size.
    return f"{made} ± {_number(spread)} {unit.symbol}"


def _number(value: float) -> str:
    text = f"{value:.4g}"
    return text if "e" not in text else f"{value:.9f}".rstrip("0").rstrip(".")


# --- YAML ----------------------------------------------------------------------

_PLAIN_TEXT = re.compile(r"[A-Za-z][A-Za-z0-9_/.()±%*+-]*(?: [A-Za-z0-9_/.()±%*+-]+)*")
_PLAIN_QUANTITY = re.compile(
    r"[0-9][0-9./]* [A-Za-z%1][A-Za-z0-9_/.()%*^ ]*(?: ± [0-9.]+ [A-Za-z%][A-Za-z0-9/.*]*)?"
)
_WORDS = {"true", "false", "null", "yes", "no", "on", "off", "y", "n"}


def written(tree: Any) -> str:
    """A tree as YAML in the manner of the fixtures: groups in blocks, small items in braces."""
    return "\n".join(_block(tree, 0)) + "\n"


def _block(value: dict[str, Any], depth: int) -> Iterator[str]:
    room = "  " * depth
    for key, child in value.items():
        if isinstance(child, dict) and child and "is" not in child:
            yield f"{room}{key}:"
            yield from _block(child, depth + 1)
        elif isinstance(child, list) and child and isinstance(child[0], dict):
            yield f"{room}{key}:"
            for member in child:
                if any(isinstance(v, (dict, list)) for v in member.values()):
                    lines = list(_block(member, depth + 2))
                    yield f"{room}  - {lines[0].lstrip()}"
                    yield from lines[1:]
                else:
                    yield f"{room}  - {_flow(member)}"
        else:
            yield f"{room}{key}: {_flow(child)}"


def _flow(value: Any) -> str:
    if isinstance(value, dict):
        return "{" + ", ".join(f"{k}: {_flow(v)}" for k, v in value.items()) + "}"
    if isinstance(value, list):
        return "[" + ", ".join(map(_flow, value)) + "]"
    if isinstance(value, bool):
        return "true" if value else "false"
    if value is None:
        return "~"
    if isinstance(value, (int, float)):
        return repr(value)
    is_plain = _PLAIN_TEXT.fullmatch(value) or _PLAIN_QUANTITY.fullmatch(value)
    if is_plain and value.lower() not in _WORDS:
        return str(value)
    return json.dumps(value, ensure_ascii=False)


# --- broken files --------------------------------------------------------------


def _replaced(pattern: bytes, by: bytes) -> Callable[[bytes], bytes]:
    def broken(data: bytes) -> bytes:
        made, times = re.subn(pattern, by, data, count=1)
        assert times, f"nothing to break with {pattern!r}"
        return made

    return broken


BREAKAGES: dict[str, Callable[[bytes], bytes]] = {
    "a decimal comma": _replaced(rb": ([0-9]+)\.?[0-9]* (mm|kg|m|in|lb|ft)\n", rb": \1,5 \2\n"),
    "a duplicate key": lambda data: data + b"job: {stage: plan}\n",
    "a field that is unknown": lambda data: data + b"collecter: {mass: 4 kg}\n",
    "a number without its unit": _replaced(rb": ([0-9.]+) (mm|kg|m|in|lb|ft)\n", rb": \1\n"),
    "a quote left open": lambda data: data + b'work: "not closed\n',
    "a tab": _replaced(rb"\n  ", b"\n\t"),
    "a unit of another kind": _replaced(rb": ([0-9.]+) (mm|kg|m|in|lb|ft)\n", rb": \1 V\n"),
    "an alias": lambda data: data + b"work: *job\n",
    "cut off inside a line": lambda data: data[: data.rindex(b": ")] + b": {a",
    "not UTF-8": _replaced(rb"reference: ", b"reference: \xe9"),
    "nothing": lambda data: data[:0],
    "not a description": lambda data: b"- " + data[:0] + b"shopping list\n",
}


def main() -> None:
    """Write descriptions to a folder."""
    folder, count, *seed = sys.argv[1:]
    Generator(int(seed[0]) if seed else 1, broken=0.03).write(Path(folder), int(count))


if __name__ == "__main__":
    main()
