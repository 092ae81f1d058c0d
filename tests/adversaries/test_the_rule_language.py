"""Random formulas: what the rule language says of each is what an independent evaluator says.

Both must agree on whether it is a formula at all, on its kind and dimension, and on its value
or that there is none; values are stated or missing at random.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable
from functools import cache
from random import Random
from typing import Any

import oracle
from campaign import RAN, examples
from hypothesis import event, given, reject
from hypothesis import strategies as st
from mutations import ROOT
from oracle import IllTyped, Kind, Missing, Names, dim

from checker.absent import Absent, OutOfReach, Unstated
from checker.formulas.compiling import compile_formula
from checker.formulas.grammar import FormulaError
from checker.formulas.lacking import evaluate
from checker.formulas.running import surroundings
from checker.formulas.scope import Compiled, Scope, TableColumn
from checker.formulas.types import PLAIN, Flag, Numeric, Text
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


class Speaker:
    """Says random formulas; ``slips`` is how often a part of another kind than wanted is put in."""

    def __init__(self, random: Random, slips: float) -> None:
        self.random = random
        self.slips = slips
        self.members: list[str] = []
        self.free = iter(f"m{i}" for i in itertools.count())

    def number(self, wanted: tuple[tuple[str, float], ...], depth: int) -> str:
        r = self.random
        if r.random() < self.slips:
            return self.anything(depth - 1)
        if depth <= 0 or r.random() < 0.15:
            return self.leaf(wanted)
        again = lambda d=wanted: self.bracketed(self.number(d, depth - 1))  # noqa: E731
        pick = r.randrange(14 if not wanted else 10)
        match pick:
            case 0 | 1:
                return f"{again()} {r.choice('+-')} {again()}"
            case 2:
                return f"{again(NONE)} * {again()}"
            case 3:
                over = r.choice([MASS, LENGTH, FORCE, NONE])
                return f"{again()} / {self.leaf(over)} * {again(over)}"
            case 4:
                return f"{again()} if {self.flag(depth - 1)} else {again()}"
            case 5:
                return f"-{again()}"
            case 6:
                return f"{r.choice(['min', 'max'])}({self.number(wanted, depth - 1)}, {self.number(wanted, depth - 1)})"
            case 7:
                return f"abs({self.number(wanted, depth - 1)})"
            case 8:
                return self.over_list(wanted, depth)
            case 9 if wanted in (LENGTH, AREA, NONE):
                return (
                    f"sqrt({again(LENGTH)} * {again(LENGTH)})"
                    if wanted == LENGTH
                    else f"{again(LENGTH)} ** 2"
                    if wanted == AREA
                    else f"{again(NONE)} ** {r.choice(['2', '0.5', '-1', '(1/2)', self.bracketed(self.number(NONE, 0)), '21', '-3'])}"
                )
            case 10 | 11:
                name = r.choice(
                    [
                        "exp",
                        "ln",
                        "log10",
                        "sin",
                        "cos",
                        "tan",
                        "atan",
                        "round_up",
                        "round_down",
                        "sqrt",
                    ]
                )
                return f"{name}({self.number(NONE, depth - 1)})"
            case 12:
                return f"table.screw.number({self.number(MASS, depth - 1)})"
            case 13:
                return (
                    f"count({self.loop(self.anything(0), depth)})"
                    if r.random() < 0.5
                    else "count(boxes)"
                )
            case _:
                return self.leaf(wanted)  # fmt: skip

    def leaf(self, wanted: tuple[tuple[str, float], ...]) -> str:
        r = self.random
        known = [n for n, (k, _) in FIELDS.items() if k == Kind("number", wanted) and "[]" not in n]
        known += [n for n, (_, _, k) in PARAMETERS.items() if k == Kind("number", wanted)]
        known += [n for n, (k, _) in CONSTANTS.items() if k == Kind("number", wanted)]
        known += ["arm"] * (wanted == LENGTH) + ["table.box.gap(boxkind)"] * 0
        if wanted == MASS:
            known += [f"{m}.mass" for m in self.members]
        if wanted == NONE or not known or r.random() < 0.05:
            known += ["0", "1", "2", "0.1", "1e-3", "12", "1e14"]
        if wanted == KELVIN:
            known += ["(shelf.warmth - warm)", "(warm - shelf.warmth)"]
        if wanted == SECOND:
            known += ["(job.due_on - job.checked_on)"]
        if wanted == AREA:
            return f"{self.leaf(LENGTH)} * {self.leaf(LENGTH)}"
        return r.choice(known)

    def flag(self, depth: int) -> str:
        r = self.random
        if r.random() < self.slips:
            return self.bracketed(self.anything(depth - 1))
        pick = r.randrange(13)
        if depth <= 0:
            pick = r.choice([7, 8, 9, 10])
        word = r.choice(["<", "<=", ">", ">="])
        match pick:
            case 0 | 1 | 2:
                wanted = r.choice([MASS, LENGTH, FORCE, NONE, STRESS, KELVIN, LEVEL, SECOND])
                return f"{self.bracketed(self.number(wanted, depth - 1))} {word} {self.bracketed(self.number(wanted, depth - 1))}"
            case 3:
                return f"{self.bracketed(self.flag(depth - 1))} {r.choice(['and', 'or'])} {self.bracketed(self.flag(depth - 1))}"
            case 4:
                return f"{self.flag(0)} {r.choice(['and', 'or'])} {self.flag(0)} {r.choice(['and', 'or'])} {self.flag(0)}"
            case 5:
                return f"not {self.flag(depth - 1)}"
            case 6:
                return f"{r.choice(['any', 'all'])}({self.loop(None, depth)})"
            case 7:
                return r.choice(
                    [
                        "shelf.locked",
                        "True",
                        "False",
                        "shelf.locked == True",
                        "shelf.locked != shelf.locked",
                    ]
                )
            case 8:
                return f"stated({r.choice([*FIELDS, *GROUPS, *(f'{m}.mass' for m in self.members)]).replace('[]', '')})"
            case 9:
                return self.texts()
            case 10:
                return f"shelf.warmth {word} {r.choice(['warm', 'warm + shelf.rise', 'shelf.warmth - shelf.rise'])}"
            case 11:
                return f"{self.number(NONE, depth - 1)} {r.choice(['==', '!='])} {self.bracketed(self.number(NONE, depth - 1))}"
            case _:
                return f"{self.bracketed(self.flag(depth - 1))} if {self.flag(depth - 1)} else {self.bracketed(self.flag(depth - 1))}"  # fmt: skip

    def texts(self) -> str:
        r = self.random
        kinds = [("mount.kind", ("side-post", "floor-stand")), ("mount.bolts", ("4.6", "8.8")), ("job.stage", ("plan", "fitted")), ("job.title", ("a", "b"))]  # fmt: skip
        kinds += [(f"{m}.kind", OPEN_SHUT) for m in self.members]
        path, words = r.choice(kinds)
        if r.random() < self.slips:
            words = (*words, "never")
        quoted = [f"'{w}'" for w in words]
        return r.choice([
            f"{path} {r.choice(['==', '!='])} {r.choice(quoted)}", f"{r.choice(quoted)} == {path}", f"{path} {r.choice(['in', 'not in'])} [{', '.join(quoted)}]",
            f"{path} == {path}", f"{path} in [{quoted[0]}]",
        ])  # fmt: skip

    def loop(self, item: str | None, depth: int) -> str:
        name = next(self.free) if self.random.random() > self.slips else "shelf"
        self.members.append(name)
        made = item if item is not None else self.flag(depth - 2)
        if item is not None and self.random.random() < 0.5:
            made = f"{name}.mass"
        test = f" if {self.flag(depth - 2)}" if self.random.random() < 0.4 else ""
        self.members.pop()
        return f"{self.bracketed(made)} for {name} in {'boxes' if self.random.random() > self.slips else 'shelf.mass'}{test}"

    def over_list(self, wanted: tuple[tuple[str, float], ...], depth: int) -> str:
        name = next(self.free)
        self.members.append(name)
        item = self.bracketed(self.number(wanted, depth - 1))
        test = f" if {self.flag(depth - 2)}" if self.random.random() < 0.3 else ""
        self.members.pop()
        inner = f"{item} for {name} in boxes{test}"
        word = self.random.choice(["sum", "min", "max"])
        return f"{word}({f'[{inner}]' if self.random.random() < 0.2 else inner})"

    def anything(self, depth: int) -> str:
        r = self.random
        pick = r.randrange(8)
        if pick < 3:
            return self.number(r.choice([MASS, LENGTH, FORCE, NONE, STRESS, KELVIN, LEVEL, SECOND, AREA]), depth)  # fmt: skip
        if pick < 5:
            return self.flag(depth)
        return r.choice([
            "shelf.warmth", "job.checked_on", "warm", "mount.kind", "job.title", "'a'", "boxes", "shelf", "nothing", "shelf.nothing", "[1, 2]",
            "table.box.gap(mount.kind)", "table.box.gap('open')", "table.box.gap(job.title)", "max(shelf.warmth, warm)", "min(b.mass for b in boxes)", "derived.none", "f(1)",
        ])  # fmt: skip

    def bracketed(self, text: str) -> str:
        """In brackets, or sometimes without: then precedence decides what is meant."""
        if text.replace(".", "").replace("_", "").isalnum() or self.random.random() < 0.25:
            return text
        return f"({text})"


def said_by_us(text: str) -> Compiled | None:
    """What the rule language makes of a text; None where it is no formula."""
    try:
        return compile_formula(text, scope())
    except FormulaError as error:
        assert error.what  # noqa: PT017
        assert 0 <= error.column <= len(text)  # noqa: PT017
        if any(word in error.what for word in ("deeper than", "more than", "characters", "too large")):  # fmt: skip
            reject()  # Longer than a formula may be: nothing to compare.
        return None


def kind_of(compiled: Compiled) -> Kind:
    """A type of ours in the words of the other evaluator."""
    kind = compiled.type
    if isinstance(kind, Numeric):
        bases = ("m", "kg", "s", "A", "K", "cd", "dB")
        return Kind("number", dim(**dict(zip(bases, kind.dimension, strict=True))), kind.point or "")  # fmt: skip
    if isinstance(kind, Text):
        return Kind("text", choices=kind.choices)
    return Kind("flag" if isinstance(kind, Flag) else type(kind).__name__.lower())


def compare(text: str, situation: Situation) -> None:
    RAN["formulas against the other evaluator"] += 1
    try:
        tree = oracle.parse(text)
        wanted = oracle.type_of(tree, situation.names)
    except IllTyped as refused:
        RAN["of them refused by both"] += 1
        found = said_by_us(text)
        assert found is None, f"{text}\nrefused by the other: {refused}"  # noqa: PT017
        return
    compiled = said_by_us(text)
    assert compiled is not None, text
    if wanted.of in ("list", "member", "items"):
        return
    kind = kind_of(compiled)
    if not wanted.zero:
        assert kind == wanted._replace(choices=kind.choices if wanted.of == "text" else None), text
    names = {
        **surroundings(compiled.uses.functions, {f"{t}.{c}": column.look_up for t, cs in scope().tables.items() for c, column in cs.items()}),
        "S": situation.slots, "D": [], "v_arm": 2.0,
    }  # fmt: skip
    ours = evaluate(compiled.source, names)
    try:
        other = oracle.value_of(tree, situation.names)
    except oracle.CannotTell as why:
        RAN["of them without a value by both"] += 1
        event("no value")
        if isinstance(ours, float) and not math.isfinite(ours):
            return  # Left to the caller, who looks at demand and limit: see checking.outcome_of.
        assert isinstance(ours, Absent), f"{text}\n{situation.text}\nours {ours}"
        missing = why.args[0]
        if missing:
            assert isinstance(ours.why, Unstated), text
            assert missing in [_general(p) for p in ours.why.paths], (text, ours.why.paths)
        return
    assert not isinstance(ours, Absent), f"{text}\n{situation.text}\nwanted {other}, {ours!r}"
    if isinstance(other, float):
        assert math.isclose(ours, other, rel_tol=1e-9, abs_tol=1e-300), (text, situation.text)
    else:
        assert ours == other, (text, situation.text)


def _general(path: str) -> str:
    return "boxes[]." + path.rpartition(".")[2] if path.startswith("boxes[") else path


@given(st.randoms(use_true_random=False), st.sampled_from([0.0, 0.02]), st.sampled_from([1.0, 0.7]))
@examples(400)
def test_a_number(random: Random, slips: float, stated: float) -> None:
    wanted = random.choice([MASS, LENGTH, FORCE, NONE, STRESS, KELVIN, LEVEL, SECOND, AREA])
    compare(Speaker(random, slips).number(wanted, random.randint(0, 4)), Situation(random, stated))


@given(st.randoms(use_true_random=False), st.sampled_from([0.0, 0.02]), st.sampled_from([1.0, 0.7]))
@examples(300)
def test_a_condition(random: Random, slips: float, stated: float) -> None:
    compare(Speaker(random, slips).flag(random.randint(0, 4)), Situation(random, stated))


@given(st.randoms(use_true_random=False))
@examples(200)
def test_what_is_mostly_wrong(random: Random) -> None:
    """Many slips: both refuse, or both find the same sense in it."""
    speaker = Speaker(random, 0.25)
    compare(speaker.anything(random.randint(0, 3)), Situation(random, 0.9))


def test_the_other_evaluator_is_not_ours() -> None:
    source = (ROOT / "tests" / "adversaries" / "oracle.py").read_text(encoding="utf-8")
    assert "import checker" not in source
    assert "from checker" not in source
    assert "import ast" not in source
    assert "eval(" not in source.replace("def ", "")


def test_a_campaign_is_no_less_than_these() -> None:
    """Most of what is said is a formula with a value: else nothing would be compared."""
    random = Random(1)
    counted = {"a value": 0, "no value": 0, "no formula": 0}
    for _ in range(300):
        situation = Situation(random, 0.9)
        try:
            tree = oracle.parse(Speaker(random, 0.02).number(MASS, 3))
            oracle.type_of(tree, situation.names)
            oracle.value_of(tree, situation.names)
        except IllTyped:
            counted["no formula"] += 1
        except oracle.CannotTell:
            counted["no value"] += 1
        else:
            counted["a value"] += 1
    assert counted["a value"] > 100, counted
    assert counted["no value"] > 20, counted
    assert counted["no formula"] > 20, counted
