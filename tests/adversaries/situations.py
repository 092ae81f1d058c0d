"""Descriptions with values stated or not at random, and all that a formula about them can see.

Each thing stands here twice: as the rule language has it, and as the other evaluator has it.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from functools import cache
from random import Random
from typing import Any

import oracle
from mutations import ROOT
from oracle import Kind, Missing, Names, dim

from checker.absent import OutOfReach
from checker.formulas.scope import Scope, TableColumn
from checker.formulas.types import PLAIN, Numeric, Text
from checker.installation.binding import bind_node
from checker.installation.fields import Layout
from checker.installation.schema import layout_from
from checker.reading import read_yaml
from checker.units import need

MASS, LENGTH, FORCE = dim(kg=1), dim(m=1), dim(kg=1, m=1, s=-2)
STRESS, KELVIN, LEVEL, SECOND, AREA = dim(kg=1, m=-1, s=-2), dim(K=1), dim(dB=1), dim(s=1), dim(m=2)  # fmt: skip
SPEEDUP = dim(m=1, s=-2)
NONE = dim()
OPEN_SHUT = ("open", "shut")

# Path, kind, and some values as they are written, with the same in SI.
FIELDS: dict[str, tuple[Kind, tuple[tuple[str, Any], ...]]] = {
    "job.stage": (Kind("text", choices=("plan", "fitted")), (("plan", "plan"), ("fitted", "fitted"))),
    "job.title": (Kind("text"), (("a", "a"), ("shelf", "shelf"))),
    "job.checked_on": (Kind("number", SECOND, "date"), (("2026-01-31", 1769817600.0), ("1970-01-02", 86400.0))),
    "job.due_on": (Kind("number", SECOND, "date"), (("2026-03-01", 1772323200.0),)),
    "mount.kind": (Kind("text", choices=("side-post", "floor-stand")), (("side-post", "side-post"), ("floor-stand", "floor-stand"))),
    "mount.bolts": (Kind("text", choices=("4.6", "8.8")), (('"4.6"', "4.6"), ('"8.8"', "8.8"))),
    "shelf.mass": (Kind("number", MASS), (("3.5 kg", 3.5), ("0 kg", 0.0), ("250 g", 0.25), ("10 kg", 10.0))),
    "shelf.capacity": (Kind("number", MASS), (("24 kg", 24.0), ("0.001 kg", 0.001), ("10 kg", 10.0))),
    "shelf.reach": (Kind("number", LENGTH), (("0.5 m", 0.5), ("0 mm", 0.0), ("1000000 km", 1e9))),
    "shelf.pull": (Kind("number", FORCE), (("16 N", 16.0), ("0 N", 0.0), ("99 kN", 99e3))),
    "shelf.stress": (Kind("number", STRESS), (("90 MPa", 90e6), ("0.5 Pa", 0.5))),
    "shelf.shift": (Kind("number", LENGTH), (("-20 mm", -0.02), ("0 mm", 0.0), ("5 m", 5.0))),
    "shelf.warmth": (Kind("number", KELVIN, "temperature"), (("20 degC", 293.15), ("-40 degC", 233.15))),
    "shelf.rise": (Kind("number", KELVIN), (("15 K", 15.0), ("0 K", 0.0))),
    "shelf.noise": (Kind("number", LEVEL), (("68 dB", 68.0),)),
    "shelf.friction": (Kind("number"), (("0.25", 0.25), ("0", 0.0), ("3", 3.0))),
    "shelf.bolts": (Kind("number"), (("4", 4.0), ("12", 12.0))),
    "shelf.locked": (Kind("flag"), (("true", True), ("false", False))),
    "boxes": (Kind("list", path="boxes"), ()),
    "boxes[].name": (Kind("text"), ()),
    "boxes[].kind": (Kind("text", choices=OPEN_SHUT), (("open", "open"), ("shut", "shut"))),
    "boxes[].mass": (Kind("number", MASS), (("3 kg", 3.0), ("0 kg", 0.0), ("24 kg", 24.0))),
}  # fmt: skip
PARAMETERS = {
    "factor": (PLAIN, 2.5, Kind("number")),
    "most": (Numeric(need("N").dimension), 16.0, Kind("number", FORCE)),
    "warm": (Numeric(need("degC").dimension, "temperature"), 313.15, Kind("number", KELVIN, "temperature")),
}  # fmt: skip
CONSTANTS = {
    "standard_gravity": (Kind("number", SPEEDUP), 9.80665),
    "pi": (Kind("number"), math.pi),
}
GROUPS = {
    head: tuple(p for p in FIELDS if p.startswith(f"{head}.")) for head in ("job", "mount", "shelf")
}
_GAPS = {"open": 0.02, "shut": 0.005}
_STEPS = ((0.0, 4.0), (10.0, 6.0), (1e12, 8.0))


def _gap(kind: str) -> float | None:
    return _GAPS.get(kind)


def _screws(mass: float) -> float | None:
    return next((screws for up_to, screws in _STEPS if mass <= up_to), None)


def _ours(look_up: Callable[[Any], Any]) -> Callable[[Any], Any]:
    def found(key: Any) -> Any:
        # A table is looked up in a dictionary: what was not stated cannot be hashed.
        hash(key)
        value = look_up(key)
        if value is None:
            raise OutOfReach("The table has no such row.")
        return value

    return found


def _theirs(look_up: Callable[[Any], Any]) -> Callable[[Any], Any]:
    def found(key: Any) -> Any:
        value = look_up(key)
        if value is None:
            raise oracle.CannotTell("")
        return value

    return found


@cache
def layout() -> Layout:
    return layout_from(ROOT / "tests" / "data" / "small" / "schemas" / "installation.schema.json")


@cache
def scope() -> Scope:
    length = Numeric(need("m").dimension)
    return Scope(
        layout(),
        parameters={name: (kind, value) for name, (kind, value, _) in PARAMETERS.items()},
        lines={"arm": length},
        tables={
            "box": {"gap": TableColumn((("kind", Text(OPEN_SHUT)),), length, _ours(_gap))},
            "screw": {"number": TableColumn((("mass", Numeric(need("kg").dimension)),), PLAIN, _ours(_screws))},
        },
    )  # fmt: skip


class Situation:
    """A description with values stated or not at random, for both evaluators."""

    def __init__(self, random: Random, stated: float) -> None:
        lines: dict[str, list[str]] = {}
        values: dict[str, Any] = {"arm": 2.0}
        values |= {name: value for name, (_, value, _) in PARAMETERS.items()}
        values |= {name: value for name, (_, value) in CONSTANTS.items()}
        for path, (_, choices) in FIELDS.items():
            if "[]" in path or not choices:
                continue
            if random.random() < stated or path in ("job.stage", "mount.kind"):
                text, values[path] = random.choice(choices)
                head, _, name = path.partition(".")
                lines.setdefault(head, []).append(f"{name}: {text}")
            else:
                values[path] = Missing(path)
        text = "".join(f"{head}: {{{', '.join(entries)}}}\n" for head, entries in lines.items())
        if random.random() < stated:
            boxes, written = [], []
            for i in range(random.randrange(4)):
                box: dict[str, Any] = {"name": f"box {i}"}
                entry = [f"name: box {i}"]
                for name in ("kind", "mass"):
                    box[name] = Missing(f"boxes[].{name}")
                    if random.random() < stated:
                        said, box[name] = random.choice(FIELDS[f"boxes[].{name}"][1])
                        entry.append(f"{name}: {said}")
                boxes.append(box)
                written.append(f"{{{', '.join(entry)}}}")
            values["boxes"] = boxes
            text += f"boxes: [{', '.join(written)}]\n"
        else:
            values["boxes"] = Missing("boxes")
        self.text = text
        kinds = {path: kind for path, (kind, _) in FIELDS.items()}
        kinds |= {name: kind for name, (_, _, kind) in PARAMETERS.items()}
        kinds |= {name: kind for name, (kind, _) in CONSTANTS.items()}
        kinds["arm"] = Kind("number", LENGTH)
        tables = {
            "box.gap": (Kind("text"), Kind("number", LENGTH), _theirs(_gap)),
            "screw.number": (Kind("number", MASS), Kind("number"), _theirs(_screws)),
        }
        self.names = Names(kinds, GROUPS, values, tables)
        self.slots = bind_node(read_yaml(text.encode(), "a"), layout(), "a").values
