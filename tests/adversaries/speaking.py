"""Random formulas about a situation, mostly of the kind that is wanted."""

from __future__ import annotations

import itertools
from random import Random

from oracle import Kind
from situations import (
    AREA,
    CONSTANTS,
    FIELDS,
    FORCE,
    GROUPS,
    KELVIN,
    LENGTH,
    LEVEL,
    MASS,
    NONE,
    OPEN_SHUT,
    PARAMETERS,
    SECOND,
    STRESS,
)


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
