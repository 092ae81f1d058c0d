"""The rule language a second time, small and slow: an independent opinion on any formula.

Nothing of ``checker`` is imported. The text is cut into tokens and read by precedence here,
types and dimensions are kept as plain dictionaries, values are floats. It says of a formula
either IllTyped, or a type and then a value, or CannotTell.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable
from typing import Any, NamedTuple

__all__ = ["MISSING", "CannotTell", "IllTyped", "Kind", "Names", "parse", "type_of", "value_of"]


class IllTyped(Exception):
    """A formula that is none."""


class CannotTell(Exception):
    """No answer; the first argument is the path of the field that was missing, or ''."""


class Missing(NamedTuple):
    path: str


MISSING = Missing

Dim = dict[str, int]


class Kind(NamedTuple):
    """number, text, flag, list (of the description), member, items; and what belongs to it."""

    of: str
    dim: tuple[tuple[str, float], ...] = ()
    point: str = ""
    zero: bool = False
    choices: tuple[str, ...] | None = None
    path: str = ""
    item: Any = None


FLAG = Kind("flag")
PLAIN = Kind("number")


def dim(**powers: float) -> tuple[tuple[str, float], ...]:
    return tuple(sorted((k, v) for k, v in powers.items() if v))


class Names(NamedTuple):
    """What a formula can see: paths to kinds, and functions that give their values.

    fields: path to Kind, the members' fields as "boxes[].mass". groups: section to its paths.
    """

    fields: dict[str, Kind]
    groups: dict[str, tuple[str, ...]]
    values: dict[str, Any]
    tables: dict[str, tuple[Kind, Kind, Callable[[Any], Any]]]


# --- reading ---------------------------------------------------------------------

_TOKEN = re.compile(
    r"\s*(?:(\d+\.\d+(?:[eE][-+]?\d+)?|\d+(?:[eE][-+]?\d+)?)|('[^']*'|\"[^\"]*\")|([a-z_][a-z_0-9]*(?:\.[a-z_][a-z_0-9]*)*|True|False)|(\*\*|<=|>=|==|!=|[-+*/<>()\[\],]))"
)
_WORDS = {"and", "or", "not", "if", "else", "in", "for"}
_COMPARE = {"<", "<=", ">", ">=", "==", "!=", "in", "not in"}


class _Reader:
    """Reads by precedence: if-else, or, and, not, comparison, sum, product, sign, power, atom."""

    def __init__(self, text: str) -> None:
        self.tokens: list[tuple[str, Any]] = []
        at = 0
        text = text.rstrip()
        while at < len(text):
            found = _TOKEN.match(text, at)
            if found is None:
                raise IllTyped("a sign")
            number, quoted, name, sign = found.groups()
            if number:
                self.tokens.append(("number", float(number) if re.search("[.eE]", number) else int(number)))  # fmt: skip
            elif quoted:
                self.tokens.append(("text", quoted[1:-1]))
            elif name:
                self.tokens.append((name, None) if name in _WORDS else ("name", name))
            else:
                self.tokens.append((sign, None))
            at = found.end()
        self.tokens.append(("end", None))
        self.at = 0

    @property
    def next(self) -> str:
        return self.tokens[self.at][0]

    def take(self, *wanted: str) -> Any:
        kind, value = self.tokens[self.at]
        if wanted and kind not in wanted:
            raise IllTyped(f"{kind} instead of {wanted}")
        self.at += 1
        return value

    def choice(self) -> Any:
        body = self.either()
        if self.next != "if":
            return body
        self.take()
        test = self.either()
        self.take("else")
        return ("if", test, body, self.choice())

    def either(self) -> Any:
        parts = [self.both()]
        while self.next == "or":
            self.take()
            parts.append(self.both())
        return parts[0] if len(parts) == 1 else ("or", parts)

    def both(self) -> Any:
        parts = [self.negation()]
        while self.next == "and":
            self.take()
            parts.append(self.negation())
        return parts[0] if len(parts) == 1 else ("and", parts)

    def negation(self) -> Any:
        if self.next == "not":
            self.take()
            return ("not", self.negation())
        return self.comparison()

    def comparison(self) -> Any:
        left = self.sum()
        found = None
        while self.next in _COMPARE or (self.next == "not" and self.tokens[self.at + 1][0] == "in"):
            word = self.next
            self.take()
            if word == "not":
                self.take("in")
                word = "not in"
            if found is not None:
                raise IllTyped("two comparisons")
            found = (word, left, self.sum())
        return found if found is not None else left

    def sum(self) -> Any:
        left = self.product()
        while self.next in ("+", "-"):
            sign = self.next
            self.take()
            left = (sign, left, self.product())
        return left

    def product(self) -> Any:
        left = self.sign()
        while self.next in ("*", "/"):
            sign = self.next
            self.take()
            left = (sign, left, self.sign())
        return left

    def sign(self) -> Any:
        if self.next == "-":
            self.take()
            return ("neg", self.sign())
        return self.power()

    def power(self) -> Any:
        base = self.atom()
        if self.next != "**":
            return base
        self.take()
        return ("**", base, self.sign())

    def atom(self) -> Any:
        kind = self.next
        value = self.take("number", "text", "name", "(", "[")
        if kind in ("number", "text"):
            return (kind, value)
        if kind == "(":
            inner = self.choice()
            self.take(")")
            return inner
        if kind == "[":
            items = [self.choice()]
            if self.next == "for":
                made = self.loop(items[0])
                self.take("]")
                return ("listed", made)
            while self.next == ",":
                self.take()
                items.append(self.choice())
            self.take("]")
            return ("fixed", items)
        if value in ("True", "False"):
            return ("flag", value == "True")
        if self.next != "(":
            return ("path", value)
        self.take()
        arguments = [] if self.next == ")" else [self.choice()]
        if self.next == "for":
            arguments = [self.loop(arguments[0])]
        while self.next == ",":
            self.take()
            arguments.append(self.choice())
        self.take(")")
        return ("call", value, arguments)

    def loop(self, item: Any) -> Any:
        self.take("for")
        name = self.take("name")
        self.take("in")
        over = self.either()
        tests = []
        while self.next == "if":
            self.take()
            tests.append(self.either())
        if "." in name:
            raise IllTyped("one name")
        return ("loop", item, name, over, tests)


def parse(text: str) -> Any:
    """The tree of a formula; raises IllTyped."""
    reader = _Reader(text)
    tree = reader.choice()
    reader.take("end")
    return tree


# --- types -----------------------------------------------------------------------


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
        found: Kind = getattr(self, _METHODS.get(tree[0], tree[0]))(*tree)
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
        if any(a[0] == "loop" for a in arguments) and (len(arguments) != 1 or name not in _LISTS):
            raise IllTyped("for stands only inside sum and its like")
        if name == "stated":
            if len(arguments) != 1 or arguments[0][0] != "path":
                raise IllTyped("stated takes a field")
            if arguments[0][1] not in self.names.groups:
                self.of(arguments[0])
            return FLAG
        if name in _LISTS and not (name in ("min", "max") and len(arguments) > 1):
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


_LISTS = ("sum", "any", "all", "count", "min", "max")
_PLAIN = ("exp", "ln", "log10", "sin", "cos", "tan", "atan", "round_up", "round_down")
_METHODS = {
    "+": "sum", "-": "sum", "*": "product", "/": "product", "**": "power", "not": "negation", "and": "logic", "or": "logic",
    "if": "choice", "<": "comparison", "<=": "comparison", ">": "comparison", ">=": "comparison", "==": "comparison",
    "!=": "comparison", "in": "within", "not in": "within",
}  # fmt: skip


# --- values ----------------------------------------------------------------------

_NEAR = 1e-9


def value_of(tree: Any, names: Names, members: dict[str, Any] | None = None) -> Any:
    """The value of a well-typed tree; raises CannotTell."""
    found = _use(_Values(names, members or {}).of(tree))
    if isinstance(found, float) and not math.isfinite(found):
        raise CannotTell("")
    return found


def _use(value: Any) -> Any:
    if isinstance(value, Missing):
        raise CannotTell(value.path)
    return value


def _finite(compute: Callable[[], float]) -> float:
    try:
        return compute()
    except (ZeroDivisionError, OverflowError, ValueError):
        raise CannotTell("") from None


class _Values:
    """Each node is worked out when it is needed, from left to right."""

    def __init__(self, names: Names, members: dict[str, Any]) -> None:
        self.names = names
        self.members = dict(members)

    def of(self, tree: Any) -> Any:
        return getattr(self, _METHODS.get(tree[0], tree[0]))(*tree)

    def used(self, tree: Any) -> Any:
        return _use(self.of(tree))

    def number(self, _: str, value: float) -> float:
        return float(value)

    def text(self, _: str, value: str) -> str:
        return value

    def flag(self, _: str, value: bool) -> bool:
        return value

    def path(self, _: str, path: str) -> Any:
        head, _, rest = path.partition(".")
        if head in self.members:
            return self.members[head][rest]
        return self.names.values[path]

    def sum(self, sign: str, left: Any, right: Any) -> Any:
        # Both sides are there before either is used.
        a, b = self.of(left), self.of(right)
        return _use(a) + _use(b) if sign == "+" else _use(a) - _use(b)

    def product(self, sign: str, left: Any, right: Any) -> Any:
        a, b = self.of(left), self.of(right)
        a, b = _use(a), _use(b)
        return a * b if sign == "*" else _finite(lambda: a / b)

    def power(self, _: str, left: Any, right: Any) -> Any:
        a = self.used(left)
        exponent = fixed(right)
        b = self.used(right) if exponent is None else exponent
        if a < 0 and (exponent is None or not float(b).is_integer()):
            raise CannotTell("")
        return _finite(lambda: float(a) ** b)

    def neg(self, _: str, inner: Any) -> Any:
        return -self.used(inner)

    def negation(self, _: str, inner: Any) -> bool:
        return not self.used(inner)

    def logic(self, word: str, parts: list[Any]) -> bool:
        for part in parts[:-1]:
            if self.used(part) is (word == "or"):
                return word == "or"
        return self.of(parts[-1])  # type: ignore[no-any-return]

    def choice(self, _: str, test: Any, body: Any, other: Any) -> Any:
        return self.of(body) if self.used(test) else self.of(other)

    def comparison(self, word: str, left: Any, right: Any) -> bool:
        a, b = self.of(left), self.of(right)
        a, b = _use(a), _use(b)
        if isinstance(a, str | bool):
            return (a == b) is (word == "==")
        near = abs(a - b) <= _NEAR * abs(b) or a == b
        return {
            "<": a < b and not near, "<=": a <= b or near, ">": a > b and not near, ">=": a >= b or near, "==": near, "!=": not near,
        }[word]  # fmt: skip

    def within(self, word: str, left: Any, right: Any) -> bool:
        a = self.used(left)
        return any(a == item[1] for item in right[1]) is (word == "in")

    def loop(self, _: str, item: Any, name: str, over: Any, tests: list[Any]) -> Any:
        for member in self.used(over):
            self.members[name] = member
            try:
                if all(self.used(test) for test in tests):
                    yield self.of(item)
            finally:
                del self.members[name]

    def listed(self, _: str, loop: Any) -> list[Any]:
        return list(self.of(loop))

    def call(self, _: str, name: str, arguments: list[Any]) -> Any:
        if name.startswith("table."):
            _, _, look_up = self.names.tables[name.removeprefix("table.")]
            return look_up(self.used(arguments[0]))
        if name == "stated":
            return self.stated(arguments[0][1])
        if name in _LISTS and not (name in ("min", "max") and len(arguments) > 1):
            return self.over_list(name, self.used(arguments[0]))
        values = [self.of(a) for a in arguments]
        values = [_use(v) for v in values]
        if name in ("min", "max"):
            return min(values) if name == "min" else max(values)
        return _one(name, values[0])

    def stated(self, path: str) -> bool:
        if path in self.names.groups:
            return any(not isinstance(self.names.values[p], Missing) for p in self.names.groups[path])  # fmt: skip
        return not isinstance(self.path("path", path), Missing)

    def over_list(self, name: str, items: Any) -> Any:
        if name == "count":
            return float(len(list(items)))
        if name in ("any", "all"):
            for item in items:
                if _use(item) is (name == "any"):
                    return name == "any"
            return name == "all"
        if name == "sum":
            total = 0.0
            for item in items:
                total += _use(item)
            return total
        found = list(items)
        if not found:
            raise CannotTell("")
        found = [_use(item) for item in found]
        return min(found) if name == "min" else max(found)


def _one(name: str, x: float) -> float:
    if name == "abs":
        return abs(x)
    if name == "sqrt":
        return _finite(lambda: math.sqrt(x))
    if name in ("ln", "log10"):
        return _finite(lambda: (math.log if name == "ln" else math.log10)(x))
    if name == "round_up":
        return _finite(lambda: float(math.ceil(x - _NEAR * abs(x))))
    if name == "round_down":
        return _finite(lambda: float(math.floor(x + _NEAR * abs(x))))
    return _finite(lambda: float(getattr(math, name)(x)))
