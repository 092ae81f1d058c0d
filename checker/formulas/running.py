"""The names that compiled formulas run with."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Mapping
from typing import Any

from checker.absent import Absent, OutOfReach
from checker.formulas.functions import function
from checker.formulas.scope import look_up_name

__all__ = ["SLACK", "surroundings"]

# Two values this close are the same measurement: without it, a length on its limit
# would pass in inches and fail in millimetres by the last bit of a float.
SLACK = 1e-9


def surroundings(
    functions: Iterable[str],
    look_ups: Mapping[str, Callable[..., Any]],
    modules: Mapping[str, str] | None = None,
) -> dict[str, Any]:
    """The globals for compiled formulas: functions by name, look-ups by ``table.column``.

    An engineering function is imported when it is first called; a check of one
    description needs a part of them only. ``modules`` says where each stands, if that is
    known: to find out, every module has to be imported.
    """
    names: dict[str, Any] = dict(_COMMON)
    for name in functions:
        names[f"F_{name}"] = _Late(name, (modules or {}).get(name, ""), names)
    for path, look_up in look_ups.items():
        names[look_up_name(*path.split("."))] = look_up
    return names


class _Late:
    """A function that takes its own place in the names once it is called."""

    __slots__ = ("module", "name", "names")

    def __init__(self, name: str, module: str, names: dict[str, Any]) -> None:
        self.name = name
        self.module = module
        self.names = names

    def __call__(self, *arguments: Any) -> Any:
        call = function(self.name, self.module)
        self.names[f"F_{self.name}"] = call
        return call(*arguments)


def _le(a: float, b: float) -> bool:
    return a <= b or a - b <= SLACK * abs(b)


def _ge(a: float, b: float) -> bool:
    return a >= b or b - a <= SLACK * abs(b)


# Written out, not as the opposite of the other: what is not a number is never below a limit.
def _lt(a: float, b: float) -> bool:
    return a < b and b - a > SLACK * abs(b)


def _gt(a: float, b: float) -> bool:
    return a > b and a - b > SLACK * abs(b)


def _power(a: float, b: float) -> float:
    if a < 0:
        raise OutOfReach(
            "A root of a negative number is asked for: check the values that go into it."
        )
    return float(float(a) ** b)


def _sqrt(a: float) -> float:
    return _power(a, 0.5)


def _log(function: Callable[[float], float]) -> Callable[[float], float]:
    def logarithm(a: float) -> float:
        if a <= 0:
            raise OutOfReach(
                "A logarithm of nought or less is asked for: check the values that go into it."
            )
        return function(a)

    return logarithm


def _extreme(
    function: Callable[[list[float]], float], word: str
) -> Callable[[Iterable[float]], float]:
    def extreme(items: Iterable[float]) -> float:
        values = list(items)
        if not values:
            raise OutOfReach(f"The {word} of an empty list is asked for.")
        return function(values)

    return extreme


_COMMON: dict[str, Any] = {
    "__builtins__": {},
    "_Absent": Absent, "_le": _le, "_ge": _ge, "_lt": _lt, "_gt": _gt,
    "_eq": lambda a, b: _le(a, b) and _ge(a, b), "_ne": lambda a, b: not (_le(a, b) and _ge(a, b)),
    "_float": float, "_power": _power, "_sqrt": _sqrt, "_exp": math.exp, "_ln": _log(math.log), "_log10": _log(math.log10),
    "_sin": math.sin, "_cos": math.cos, "_tan": math.tan, "_atan": math.atan,
    "_round_up": lambda a: math.ceil(a - SLACK * abs(a)), "_round_down": lambda a: math.floor(a + SLACK * abs(a)),
    "_min_of": _extreme(min, "smallest"), "_max_of": _extreme(max, "largest"),
    "min": min, "max": max, "sum": sum, "any": any, "all": all, "len": len, "abs": abs, "type": type,
}  # fmt: skip
