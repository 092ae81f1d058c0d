"""The value of a formula on plain floats."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

from oracle_kinds import CannotTell, Missing, Names
from oracle_types import LISTS, METHODS, fixed

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
        return getattr(self, METHODS.get(tree[0], tree[0]))(*tree)

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
        if name in LISTS and not (name in ("min", "max") and len(arguments) > 1):
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
