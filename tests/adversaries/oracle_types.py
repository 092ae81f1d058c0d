"""The kind of a formula, or why it is ill-typed."""

from __future__ import annotations

from typing import Any

from oracle_kinds import FLAG, PLAIN, IllTyped, Kind, Names, dim


def type_of(tree: Any, names: Names, members: dict[str, str] | None = None) -> Kind:
    """The kind of a tree; raises IllTyped. members: the names of list members in sight."""
    return _Types(names, members or {}).of(tree)


def _times(a: Any, b: Any, sign: float) -> tuple[tuple[str, float], ...]:
    powers = dict(a)
    for base, power in b:
        powers[base] = powers.get(base, 0) + sign * power
    return dim(**powers)


def _common(a: Kind, b: Kind) -> Kind:
    if a.of == b.of == "number":
        if a.zero and b.zero:
            return Kind("number", zero=True)
        if a.zero and not b.point:
            return b
        if b.zero and not a.point:
            return a
        if (a.dim, a.point) == (b.dim, b.point):
            return a._replace(zero=False)
    if a.of == b.of == "flag":
        return FLAG
    if a.of == b.of == "text":
        both = a.choices is not None and b.choices is not None
        return Kind(
            "text", choices=tuple(dict.fromkeys((*a.choices, *b.choices))) if both else None
        )  # type: ignore[misc]
    raise IllTyped(f"{a} and {b}")


class _Types:
    def __init__(self, names: Names, members: dict[str, str]) -> None:
        self.names = names
        self.members = dict(members)

    def of(self, tree: Any) -> Kind:
        found: Kind = getattr(self, METHODS.get(tree[0], tree[0]))(*tree)
        return found

    def want(self, tree: Any, what: str) -> Kind:
        kind = self.of(tree)
        if kind.of != what:
            raise IllTyped(f"{what} wanted, {kind.of} found")
        return kind

    def amount(self, tree: Any) -> Kind:
        kind = self.want(tree, "number")
        if kind.point:
            raise IllTyped("a point on a scale")
        return kind

    def number(self, _: str, value: float) -> Kind:
        return Kind("number", zero=value == 0)

    def text(self, _: str, value: str) -> Kind:
        return Kind("text", choices=(value,))

    def flag(self, *_: Any) -> Kind:
        return FLAG

    def path(self, _: str, path: str) -> Kind:
        head, _, rest = path.partition(".")
        if head in self.members:
            return self.field(f"{self.members[head]}[].{rest}") if rest else Kind("member", path=self.members[head])  # fmt: skip
        return self.field(path)

    def field(self, path: str) -> Kind:
        if path not in self.names.fields:
            raise IllTyped(f"no {path}")
        return self.names.fields[path]

    def sum(self, sign: str, left: Any, right: Any) -> Kind:
        a, b = self.want(left, "number"), self.want(right, "number")
        if a.point or b.point:
            if a.point == b.point and sign == "-":
                return Kind("number", a.dim)
            if a.point and not b.point and a.dim == b.dim:
                return a
            raise IllTyped("points on a scale")
        return _common(a, b)

    def product(self, sign: str, left: Any, right: Any) -> Kind:
        a, b = self.amount(left), self.amount(right)
        return Kind("number", _times(a.dim, b.dim, 1 if sign == "*" else -1), zero=sign == "*" and (a.zero or b.zero))  # fmt: skip

    def power(self, _: str, left: Any, right: Any) -> Kind:
        a = self.amount(left)
        exponent = fixed(right)
        if exponent is None:
            b = self.want(right, "number")
            if a.dim or b.dim:
                raise IllTyped("an exponent")
            return PLAIN
        if abs(exponent) > 20:
            raise IllTyped("an exponent beyond 20")
        made = {base: power * exponent for base, power in a.dim}
        if any(abs(p - round(p)) > 1e-12 for p in made.values()):
            raise IllTyped("a broken dimension")
        return Kind("number", dim(**{b: round(p) for b, p in made.items()}))

    def neg(self, _: str, inner: Any) -> Kind:
        return self.amount(inner)

    def negation(self, _: str, inner: Any) -> Kind:
        return self.want(inner, "flag")

    def logic(self, _: str, parts: list[Any]) -> Kind:
        for part in parts:
            self.want(part, "flag")
        return FLAG

    def choice(self, _: str, test: Any, body: Any, other: Any) -> Kind:
        self.want(test, "flag")
        return _common(self.of(body), self.of(other))

    def comparison(self, word: str, left: Any, right: Any) -> Kind:
        a, b = self.of(left), self.of(right)
        equal = word in ("==", "!=")
        if a.of == b.of == "text":
            if not equal or not _may_meet(a, b):
                raise IllTyped("texts")
            return FLAG
        _common(a, b)
        if a.of == "flag" and not equal:
            raise IllTyped("flags have no order")
        if a.of == "number" and equal and (a.dim or b.dim):
            raise IllTyped("measured values are never equal")
        return FLAG

    def within(self, _: str, left: Any, right: Any) -> Kind:
        a = self.of(left)
        if right[0] != "fixed":
            raise IllTyped("in wants a list")
        if any(item[0] not in ("number", "text", "flag") for item in right[1]):
            raise IllTyped("fixed texts or numbers")
        if all(item[0] == "text" for item in right[1]):
            if a.of != "text" or not all(
                _may_meet(a, Kind("text", choices=(i[1],))) for i in right[1]
            ):
                raise IllTyped("never")
        elif a.of != "number" or a.point or (a.dim and not a.zero):
            raise IllTyped("in")
        return FLAG

    def fixed(self, *_: Any) -> Kind:
        raise IllTyped("a fixed list stands behind in")

    def loop(self, _: str, item: Any, name: str, over: Any, tests: list[Any]) -> Kind:
        kind = self.of(over)
        if kind.of != "list":
            raise IllTyped("for runs over a list")
        if name in self.members or name in self.names.fields or name in self.names.groups:
            raise IllTyped("a name that is taken")
        self.members[name] = kind.path
        try:
            for test in tests:
                self.want(test, "flag")
            return self.of(item)
        finally:
            del self.members[name]

    def listed(self, _: str, loop: Any) -> Kind:
        kind = self.of(loop)
        if kind.of in ("member", "list", "items"):
            raise IllTyped("a list of lists")
        return Kind("items", item=kind)

    def call(self, _: str, name: str, arguments: list[Any]) -> Kind:
        if name.startswith("table."):
            key, gives, _look_up = self.names.tables.get(name.removeprefix("table."), (None, None, None))  # fmt: skip
            if key is None or gives is None or len(arguments) != 1:
                raise IllTyped("no such table")
            kind = self.of(arguments[0])
            if kind.of != key.of or (key.of == "number" and not kind.zero and (kind.dim, kind.point) != (key.dim, key.point)):  # fmt: skip
                raise IllTyped("a key")
            return gives
        if any(a[0] == "loop" for a in arguments) and (len(arguments) != 1 or name not in LISTS):
            raise IllTyped("for stands only inside sum and its like")
        if name == "stated":
            if len(arguments) != 1 or arguments[0][0] != "path":
                raise IllTyped("stated takes a field")
            if arguments[0][1] not in self.names.groups:
                self.of(arguments[0])
            return FLAG
        if name in LISTS and not (name in ("min", "max") and len(arguments) > 1):
            return self.over_list(name, arguments)
        if name in ("min", "max"):
            kinds = [self.want(a, "number") for a in arguments]
            kind = kinds[0]
            for other in kinds[1:]:
                kind = _common(kind, other)
            return kind
        if name in ("abs", "sqrt", *_PLAIN) and len(arguments) == 1:
            kind = self.amount(arguments[0])
            if name == "abs":
                return kind
            if name == "sqrt":
                if any(power % 2 for _, power in kind.dim):
                    raise IllTyped("a root without a dimension")
                return Kind("number", dim(**{b: p / 2 for b, p in kind.dim}))
            if kind.dim:
                raise IllTyped("a plain number")
            return PLAIN
        raise IllTyped(f"no function {name}")

    def over_list(self, name: str, arguments: list[Any]) -> Kind:
        if len(arguments) != 1:
            raise IllTyped("one list")
        if arguments[0][0] == "loop":
            kind = self.of(arguments[0])
        else:
            whole = self.of(arguments[0])
            if whole.of == "items":
                kind = whole.item
            elif whole.of == "list":
                kind = Kind("member", path=whole.path)
            else:
                raise IllTyped("a list")
        if name == "count":
            return PLAIN
        if name in ("any", "all"):
            if kind.of != "flag":
                raise IllTyped("conditions")
            return FLAG
        if kind.of != "number" or (name == "sum" and kind.point):
            raise IllTyped("numbers")
        return Kind("number", kind.dim) if name == "sum" else kind


def _may_meet(a: Kind, b: Kind) -> bool:
    return a.choices is None or b.choices is None or bool(set(a.choices) & set(b.choices))


def fixed(tree: Any) -> float | None:
    """The value of a number that is written out, or of a quotient of two."""
    if tree[0] == "number":
        return float(tree[1])
    if tree[0] == "neg":
        inner = fixed(tree[1])
        return None if inner is None else -inner
    if tree[0] == "/":
        a, b = fixed(tree[1]), fixed(tree[2])
        return None if a is None or not b else a / b
    return None


LISTS = ("sum", "any", "all", "count", "min", "max")
_PLAIN = ("exp", "ln", "log10", "sin", "cos", "tan", "atan", "round_up", "round_down")
METHODS = {
    "+": "sum", "-": "sum", "*": "product", "/": "product", "**": "power", "not": "negation", "and": "logic", "or": "logic",
    "if": "choice", "<": "comparison", "<=": "comparison", ">": "comparison", ">=": "comparison", "==": "comparison",
    "!=": "comparison", "in": "within", "not in": "within",
}  # fmt: skip
